"""Sections against closed forms of area."""

from __future__ import annotations

import math

import pytest
from shapely import Polygon

from exporters.views.project import StandardView, standard_frame
from exporters.views.section import section_part, section_placed
from exporters.views.values import CutArea, EdgeClass
from furniture.parts.faces import Face
from tests.exporters.chains import face_frame
from tests.exporters.test_views import bored_plate, placed_at, post, rail


def area_of(area: CutArea) -> float:
    """The area of an outline less its holes [mm2]."""
    return float(Polygon(area.outline, area.holes).area)


@pytest.mark.parametrize("count", [0, 1, 4])
def test_a_post_cut_along_shows_its_thickness_less_the_dados(count: int) -> None:
    section = section_part(post(count), face_frame(Face.FACE_EDGE), (0.0, 45.0, 0.0))
    (area,) = section.cut
    assert area_of(area) == pytest.approx(500.0 * 22.0 - count * 10.4 * 7.0, rel=1e-9)
    assert Polygon(area.outline).is_valid


def test_a_rail_cut_across_shows_its_rabbet() -> None:
    section = section_part(rail(), face_frame(Face.NAMED_END), (150.0, 0.0, 0.0))
    (area,) = section.cut
    assert area_of(area) == pytest.approx(90.0 * 20.0 - 12.0 * 8.0, rel=1e-9)
    assert area.of == ""


def test_a_rail_cut_level_below_its_rabbet_shows_both_mitres() -> None:
    # closed form: a trapezium, whose mean length is less by the thickness
    section = section_part(rail(), face_frame(Face.BACK_EDGE), (0.0, 40.0, 0.0))
    (area,) = section.cut
    assert area_of(area) == pytest.approx((300.0 - 20.0) * 20.0, rel=1e-9)


def test_a_bore_is_a_hole_across_and_parts_the_wood_along() -> None:
    plate = bored_plate()
    level = section_part(plate, face_frame(Face.FACE_SIDE), (0.0, 0.0, 10.0))
    (area,) = level.cut
    assert len(area.holes) == 1
    assert area_of(area) == pytest.approx(100.0 * 80.0 - math.pi * 15.0**2, abs=math.pi * 30 * 0.01)
    along = section_part(plate, face_frame(Face.FACE_EDGE), (0.0, 40.0, 0.0))
    assert [area_of(each) for each in along.cut] == pytest.approx([35.0 * 20.0] * 2)
    visible = [edge for edge in along.view.edges if edge.edge_class is EdgeClass.VISIBLE]
    assert visible


def test_what_lies_before_the_plane_is_gone_and_what_lies_beyond_is_seen() -> None:
    near = placed_at("near", (100.0, 10.0, 50.0), (0.0, 0.0, 0.0))
    middle = placed_at("middle", (40.0, 10.0, 30.0), (200.0, 20.0, 10.0))
    far = placed_at("far", (60.0, 10.0, 20.0), (300.0, 40.0, 0.0))
    frame = standard_frame(StandardView.FRONT)
    section = section_placed([near, middle, far], frame, (0.0, 25.0, 0.0))
    assert [(area.of, area_of(area)) for area in section.cut] == [
        ("middle", pytest.approx(40.0 * 30.0))
    ]
    assert (section.view.low, section.view.high) == (
        pytest.approx((200.0, 0.0)),
        pytest.approx((360.0, 40.0)),
    )
    with pytest.raises(ValueError, match="beyond"):
        section_placed([near], frame, (0.0, 500.0, 0.0))


def test_each_cut_part_is_named_so_that_neighbours_can_be_told_apart() -> None:
    left = placed_at("left", (60.0, 20.0, 50.0), (0.0, 0.0, 0.0))
    right = placed_at("right", (40.0, 20.0, 50.0), (60.0, 0.0, 0.0))
    section = section_placed([left, right], standard_frame(StandardView.FRONT), (0.0, 10.0, 0.0))
    assert {area.of: area_of(area) for area in section.cut} == {
        "left": pytest.approx(3000.0),
        "right": pytest.approx(2000.0),
    }
