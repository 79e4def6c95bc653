"""Projections against closed forms: what a box, a post, a rail and a bore must look like."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, polygonize, union_all

from exporters.views.bounds import bounds_of
from exporters.views.project import (
    StandardView,
    project_part,
    project_placed,
    standard_frame,
)
from exporters.views.tidy import tidy
from exporters.views.values import Arc, DrawnEdge, EdgeClass, EllipseArc, Line, Polyline, View
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Cut, Dado, Mitre, Profile, ProfileKind, Rabbet, Slot
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector, cross, dot
from furniture.timber.species import find_species
from furniture.timber.stock import Timber
from tests.exporters.chains import face_frame, points_of
from tests.fresh import law

OAK = Timber(
    name="oak",
    species=find_species("white oak"),
    thickness_mm=19.7,
    moisture_pct=8.0,
    moisture_is_assumed=False,
)
SQUARE_VIEWS = [view for view in StandardView if "isometric" not in view.value]
ISOMETRICS = [view for view in StandardView if "isometric" in view.value]


def part_of(size: Vector, *cuts: Cut) -> Part:
    """A part of oak of this length, width and thickness."""
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return Part(name="part", blank=blank, timber=OAK, cuts=cuts)


def post(count: int) -> Part:
    """A post with so many through dados, 10.4 wide and 7 deep."""
    dados = [
        Dado(
            face=Face.FACE_SIDE, lower_shoulder_mm=60.0 + 90.0 * index, width_mm=10.4, depth_mm=7.0
        )
        for index in range(count)
    ]
    return part_of((500.0, 90.0, 22.0), *dados)


def rail() -> Part:
    """A rail mitred at both ends with a rabbet along its inner top edge."""
    return part_of(
        (300.0, 90.0, 20.0),
        Mitre(end=Face.NAMED_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
        Mitre(end=Face.FAR_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
        Rabbet(
            edge=Face.BACK_EDGE,
            face=Face.BACK_SIDE,
            down_from_edge_mm=12.0,
            into_thickness_mm=8.0,
        ),
    )


def bored_plate() -> Part:
    """A plate with a 30 mm bore through its middle."""
    bore = Bore(face=Face.FACE_SIDE, x_mm=50.0, y_mm=40.0, diameter_mm=30.0)
    return part_of((100.0, 80.0, 20.0), bore)


def drawn_length(view: View, edge_class: EdgeClass) -> float:
    """The length of all straight edges of a class [mm]."""
    return sum(
        math.dist(edge.shape.start, edge.shape.end)
        for edge in view.edges
        if edge.edge_class is edge_class and isinstance(edge.shape, Line)
    )


def chains(view: View, edge_class: EdgeClass) -> list[LineString]:
    """The edges of a class as chains of points."""
    return [
        LineString(points_of(edge.shape, 0.001))
        for edge in view.edges
        if edge.edge_class is edge_class
    ]


@pytest.mark.parametrize("which", StandardView)
def test_a_frame_is_square_and_its_eye_is_where_the_name_says(which: StandardView) -> None:
    frame = standard_frame(which)
    assert dot(frame.right, frame.right) == pytest.approx(1.0)
    assert dot(frame.up, frame.up) == pytest.approx(1.0)
    assert dot(frame.right, frame.up) == pytest.approx(0.0, abs=1e-12)
    right_handed: dict[StandardView, Vector] = {
        StandardView.FRONT: (0, -1, 0),
        StandardView.BACK: (0, 1, 0),
        StandardView.LEFT: (-1, 0, 0),
        StandardView.RIGHT: (1, 0, 0),
        StandardView.TOP: (0, 0, 1),
        StandardView.BOTTOM: (0, 0, -1),
        StandardView.ISOMETRIC_RIGHT: (3**-0.5, -(3**-0.5), 3**-0.5),
        StandardView.ISOMETRIC_LEFT: (-(3**-0.5), -(3**-0.5), 3**-0.5),
    }
    assert frame.towards_eye == pytest.approx(right_handed[which])
    assert cross(frame.right, frame.up) == frame.towards_eye


@pytest.mark.parametrize("face", Face)
def test_a_face_seen_square_on_looks_at_the_eye(face: Face) -> None:
    assert face_frame(face).towards_eye == pytest.approx(face.normal)


def test_the_face_side_has_the_grain_to_the_right_and_the_width_up() -> None:
    frame = face_frame(Face.FACE_SIDE)
    assert (frame.right, frame.up) == ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@pytest.mark.parametrize("which", ISOMETRICS)
def test_a_box_in_isometric_shows_nine_edges_equally_foreshortened(which: StandardView) -> None:
    # closed form: an edge along an axis shows sqrt(2/3) of its length; 9 of 12 edges are seen
    view = project_part(part_of((200.0, 80.0, 30.0)), standard_frame(which))
    share = math.sqrt(2.0 / 3.0) * (200.0 + 80.0 + 30.0)
    assert drawn_length(view, EdgeClass.VISIBLE) == pytest.approx(3.0 * share, abs=1e-6)
    assert drawn_length(view, EdgeClass.HIDDEN) == pytest.approx(share, abs=1e-6)


@pytest.mark.parametrize("count", [0, 1, 4])
def test_a_dadoed_posts_edge_view_has_the_length_of_its_outline(count: int) -> None:
    # closed form: each through dado adds both its walls to the outline, its floor replaces the face
    view = project_part(post(count), face_frame(Face.FACE_EDGE))
    outline = 2.0 * (500.0 + 22.0) + 2.0 * 7.0 * count
    assert drawn_length(view, EdgeClass.VISIBLE) == pytest.approx(outline, abs=1e-6)
    assert drawn_length(view, EdgeClass.HIDDEN) == 0.0
    face = project_part(post(count), face_frame(Face.FACE_SIDE))
    shoulders = 2.0 * (500.0 + 90.0) + 2.0 * 90.0 * count
    assert drawn_length(face, EdgeClass.VISIBLE) == pytest.approx(shoulders, abs=1e-6)
    back = project_part(post(count), face_frame(Face.BACK_SIDE))
    assert drawn_length(back, EdgeClass.HIDDEN) == pytest.approx(2.0 * 90.0 * count, abs=1e-6)


@pytest.mark.parametrize("count", [0, 1, 4])
def test_an_isometric_post_shows_as_many_fields_as_faces_look_at_the_eye(count: int) -> None:
    # counted by hand: edge, end, the face side in count + 1 fields, and of each dado wall and floor
    view = project_part(post(count), standard_frame(StandardView.ISOMETRIC_RIGHT))
    fields = polygonize([union_all(chains(view, EdgeClass.VISIBLE), grid_size=1e-4)])
    assert len(fields.geoms) == 1 + 1 + (count + 1) + 2 * count


def test_a_mitred_rail_shows_its_true_mitre_and_hides_its_rabbet() -> None:
    edge = project_part(rail(), face_frame(Face.FACE_EDGE))
    slopes = [
        one.shape
        for one in edge.edges
        if isinstance(one.shape, Line)
        and abs(one.shape.start[0] - one.shape.end[0]) > 1e-6
        and abs(one.shape.start[1] - one.shape.end[1]) > 1e-6
    ]
    # closed form: 45 degrees through 20 mm
    assert [math.dist(s.start, s.end) for s in slopes] == pytest.approx([20 * math.sqrt(2)] * 2)
    # rabbet floor at 8 mm into the thickness from the back side: hidden, as wide as the mitre there
    (hidden,) = [one.shape for one in edge.edges if one.edge_class is EdgeClass.HIDDEN]
    assert isinstance(hidden, Line)
    assert sorted((hidden.start, hidden.end)) == [
        pytest.approx((12.0, 8.0), abs=1e-6),
        pytest.approx((288.0, 8.0), abs=1e-6),
    ]
    face = project_part(rail(), face_frame(Face.FACE_SIDE))
    assert drawn_length(face, EdgeClass.VISIBLE) == pytest.approx(2.0 * (300.0 + 90.0))


def test_a_bore_is_a_circle_square_on_and_an_ellipse_in_isometric() -> None:
    plate = bored_plate()
    (circle,) = [
        one.shape
        for one in project_part(plate, face_frame(Face.FACE_SIDE)).edges
        if isinstance(one.shape, Arc)
    ]
    assert (circle.centre, circle.radius) == (pytest.approx((50.0, 40.0)), pytest.approx(15.0))
    assert circle.end_deg - circle.start_deg == pytest.approx(360.0)
    isometric = project_part(plate, standard_frame(StandardView.ISOMETRIC_RIGHT))
    ellipses = [one.shape for one in isometric.edges if isinstance(one.shape, EllipseArc)]
    # closed form: the circle is tilted so that its short axis is 1/sqrt(3) of the long one
    assert len(ellipses) >= 2
    for ellipse in ellipses:
        assert math.hypot(*ellipse.major) == pytest.approx(15.0, abs=1e-6)
        assert ellipse.ratio == pytest.approx(1.0 / math.sqrt(3.0), abs=1e-6)


def test_a_round_overs_run_out_is_smooth_and_its_end_an_arc() -> None:
    arris = Arris(Face.FACE_SIDE, Face.BACK_EDGE)
    rounded = part_of(
        (100.0, 80.0, 20.0),
        Profile(edge=arris, profile_kind=ProfileKind.ROUND_OVER, radius_mm=6.0),
    )
    top = project_part(rounded, face_frame(Face.FACE_SIDE))
    assert drawn_length(top, EdgeClass.SMOOTH) == pytest.approx(100.0)
    assert drawn_length(top, EdgeClass.VISIBLE) == pytest.approx(360.0)
    end = project_part(rounded, face_frame(Face.FAR_END))
    arcs = [one.shape for one in end.edges if isinstance(one.shape, Arc)]
    assert [(arc.radius, arc.end_deg - arc.start_deg) for arc in arcs] == [
        pytest.approx((6.0, 90.0))
    ]


def test_no_stretch_is_drawn_twice_and_curves_stay_curves() -> None:
    busy = part_of(
        (400.0, 120.0, 19.7),
        Dado(face=Face.FACE_SIDE, lower_shoulder_mm=100, width_mm=10.4, depth_mm=7,
             stop_from_face_edge_mm=20, end_radius_mm=4),
        Bore(face=Face.FACE_SIDE, x_mm=250, y_mm=60, diameter_mm=30),
        Bore(face=Face.FACE_SIDE, x_mm=300, y_mm=60, diameter_mm=10, countersink_diameter_mm=20),
        Slot(face=Face.FACE_SIDE, x_mm=340, y_mm=60, length_mm=40, width_mm=10),
        Profile(edge=Arris(Face.FACE_SIDE, Face.BACK_EDGE), profile_kind=ProfileKind.ROUND_OVER,
                radius_mm=6),
        Mitre(end=Face.NAMED_END, blade_tilt_deg=45, long_point_face=Face.FACE_SIDE),
    )  # fmt: skip
    for which in StandardView:
        view = project_part(busy, standard_frame(which))
        assert not [edge for edge in view.edges if isinstance(edge.shape, Polyline)]
        drawn = [LineString(points_of(edge.shape, 0.001)) for edge in view.edges]
        assert min(line.length for line in drawn) > 0.01
        lines = [line for line in drawn if len(line.coords) == 2]
        for index, line in enumerate(lines):
            for other in lines[index + 1 :]:
                assert line.intersection(other).length < 1e-6
        low, high = bounds_of(edge.shape for edge in view.edges)
        assert (view.low, view.high) == (low, high)


@st.composite
def cut_parts(draw: st.DrawFn) -> Part:
    """Parts with cuts that leave the corners of the blank standing."""
    length = draw(st.floats(120.0, 900.0))
    width = draw(st.floats(60.0, 300.0))
    thickness = draw(st.floats(8.0, 40.0))
    cuts: list[Cut] = []
    at = 20.0
    while at + 15.0 < length - 50.0 and len(cuts) < 5:
        if draw(st.booleans()):
            cuts.append(
                Dado(
                    face=draw(st.sampled_from((Face.FACE_SIDE, Face.BACK_SIDE))),
                    lower_shoulder_mm=at,
                    width_mm=draw(st.floats(2.0, 15.0)),
                    depth_mm=thickness * draw(st.floats(0.1, 0.45)),
                    stop_from_face_edge_mm=draw(st.sampled_from((0.0, 12.0))),
                )
            )
        at += draw(st.floats(20.0, 200.0))
    if draw(st.booleans()):
        cuts.append(
            Bore(
                face=Face.FACE_SIDE,
                x_mm=length - 20.0,
                y_mm=width / 2.0,
                diameter_mm=draw(st.floats(2.0, 20.0)),
            )
        )
    return part_of((length, width, thickness), *cuts)


@law(few=10, full=150)
@given(cut_parts())
def test_the_bounds_of_every_view_are_the_parts_box(part: Part) -> None:
    corners = [
        (x, y, z)
        for x in (0.0, part.blank.length_mm)
        for y in (0.0, part.blank.width_mm)
        for z in (0.0, part.blank.thickness_mm)
    ]
    for which in StandardView:
        frame = standard_frame(which)
        view = project_part(part, frame)
        seen = [frame.to_paper(corner) for corner in corners]
        low = (min(x for x, _ in seen), min(y for _, y in seen))
        high = (max(x for x, _ in seen), max(y for _, y in seen))
        assert view.low == pytest.approx(low, abs=1e-5)
        assert view.high == pytest.approx(high, abs=1e-5)


@law(few=6, full=100)
@given(cut_parts())
def test_the_visible_lines_of_a_square_view_close_round_the_silhouette(part: Part) -> None:
    # law: whatever is cut into a face, the outline that is seen square on closes round the blank
    length, width, _ = part.blank.size
    view = project_part(part, face_frame(Face.BACK_SIDE))
    fields = polygonize([union_all(chains(view, EdgeClass.VISIBLE), grid_size=1e-4)])
    silhouette = union_all(list(fields.geoms)).area
    assert silhouette == pytest.approx(length * width, rel=1e-5)


def test_equal_parts_are_projected_once_whatever_they_are_called() -> None:
    frame = standard_frame(StandardView.TOP)
    first = project_part(post(3), frame)
    assert project_part(replace(post(3), name="another"), frame) is first
    assert project_part(post(2), frame) is not first


def placed_at(instance: str, size: Vector, origin: Vector) -> Placed:
    """A plain part that stands square in the piece."""
    placement = Placement(origin=origin, x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 1.0, 0.0))
    return Placed(instance=instance, part=part_of(size), placement=placement)


def test_what_stands_in_front_hides_what_stands_behind() -> None:
    near = placed_at("near", (100.0, 10.0, 50.0), (0.0, 0.0, 0.0))
    far = placed_at("far", (40.0, 10.0, 30.0), (30.0, 20.0, 10.0))
    front = project_placed([near, far], standard_frame(StandardView.FRONT))
    assert drawn_length(front, EdgeClass.VISIBLE) == pytest.approx(300.0)
    assert drawn_length(front, EdgeClass.HIDDEN) == pytest.approx(140.0)
    back = project_placed([near, far], standard_frame(StandardView.BACK))
    assert drawn_length(back, EdgeClass.VISIBLE) == pytest.approx(440.0)
    assert drawn_length(back, EdgeClass.HIDDEN) == 0.0


def test_two_flush_parts_show_their_joint_line_once() -> None:
    left = placed_at("left", (60.0, 20.0, 50.0), (0.0, 0.0, 0.0))
    right = placed_at("right", (40.0, 20.0, 50.0), (60.0, 0.0, 0.0))
    view = project_placed([left, right], standard_frame(StandardView.FRONT))
    assert drawn_length(view, EdgeClass.VISIBLE) == pytest.approx(2 * (100.0 + 50.0) + 50.0)
    assert drawn_length(view, EdgeClass.HIDDEN) == 0.0


def test_a_stronger_class_takes_the_stretch_from_a_weaker_one() -> None:
    def edge(start: float, end: float, edge_class: EdgeClass) -> DrawnEdge:
        return DrawnEdge(shape=Line(start=(start, 3.0), end=(end, 3.0)), edge_class=edge_class)

    drawn = tidy(
        [
            edge(0.0, 10.0, EdgeClass.HIDDEN),
            edge(4.0, 2.0, EdgeClass.VISIBLE),
            edge(3.0, 6.0, EdgeClass.VISIBLE),
            edge(8.0, 14.0, EdgeClass.SMOOTH),
        ]
    )
    found = {
        (each.edge_class, round(min(xs), 6), round(max(xs), 6))
        for each in drawn
        if isinstance(each.shape, Line)
        for xs in [(each.shape.start[0], each.shape.end[0])]
    }
    assert found == {
        (EdgeClass.VISIBLE, 2.0, 6.0),
        (EdgeClass.HIDDEN, 0.0, 2.0),
        (EdgeClass.HIDDEN, 6.0, 10.0),
        (EdgeClass.SMOOTH, 10.0, 14.0),
    }


def test_arcs_of_one_circle_are_joined_across_the_seam() -> None:
    def arc(start: float, end: float, edge_class: EdgeClass) -> DrawnEdge:
        shape = Arc(centre=(1.0, 2.0), radius=5.0, start_deg=start, end_deg=end)
        return DrawnEdge(shape=shape, edge_class=edge_class)

    drawn = tidy(
        [
            arc(300.0, 400.0, EdgeClass.VISIBLE),
            arc(30.0, 90.0, EdgeClass.VISIBLE),
            arc(0.0, 360.0, EdgeClass.HIDDEN),
        ]
    )
    spans = {
        (each.edge_class, round(each.shape.start_deg, 6), round(each.shape.end_deg, 6))
        for each in drawn
        if isinstance(each.shape, Arc)
    }
    assert spans == {(EdgeClass.VISIBLE, 300.0, 450.0), (EdgeClass.HIDDEN, 90.0, 300.0)}
