"""Random valid pairs for every joint, with what must be left of both parts worked out by hand.

The expected volumes are written from the drawn sizes alone: length, width and thickness, less the
boxes, wedges and cylinders. Nothing is taken from the joints or the cuts.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from hypothesis import strategies as st

from furniture.joints import (
    CornerRabbetJoint,
    DadoJoint,
    GrooveJoint,
    HingeJoint,
    Leaf,
    NotchJoint,
    RabbetJoint,
    RestJoint,
    StoppedDadoJoint,
    TongueAndGrooveJoint,
    TongueEnd,
)
from furniture.parts.part import Placed
from tests.joints.end_cases import (
    box_mitres,
    butts,
    cleats,
    dowelled_butts,
    frame_mitres,
    half_laps,
    mortises_and_tenons,
)
from tests.joints.pairs import (
    DOWNWARDS,
    FITS,
    FORWARDS,
    LEFTWARDS,
    Case,
    X,
    Y,
    Z,
    mm,
    play_of,
)
from tests.joints.proofs import board


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelf:
    """An upright standing along z with its face side to +x, and a shelf let into it from +x."""

    height: float
    width: float
    thickness: float
    shelf_thickness: float
    reach: float
    at: float
    length: float

    def upright(self) -> Placed:
        return board(
            "upright",
            (self.height, self.width, self.thickness),
            (0.0, self.width, 0.0),
            Z,
            FORWARDS,
        )

    def shelf(self, front: float = 0.0, back: float = 0.0) -> Placed:
        """From `front` inside the front edge to `back` inside the back edge; grain along x."""
        size = (self.length, self.width - front - back, self.shelf_thickness)
        return board("shelf", size, (self.thickness - self.reach, front, self.at), X, Y)

    @property
    def whole(self) -> float:
        return self.height * self.width * self.thickness


@st.composite
def _shelves(draw: st.DrawFn) -> _Shelf:
    thickness = draw(mm(12, 30))
    shelf_thickness = draw(mm(6, 20))
    return _Shelf(
        height=draw(mm(200, 600)),
        width=draw(mm(60, 200)),
        thickness=thickness,
        shelf_thickness=shelf_thickness,
        reach=draw(mm(3, thickness / 2 - 1.5)),
        at=draw(mm(15, 150)),
        length=draw(mm(80, 400)),
    )


@st.composite
def dados(draw: st.DrawFn) -> Case:
    s, fit, gap = draw(_shelves()), draw(FITS), draw(st.sampled_from([0.0, 0.5, 1.5]))
    play = play_of(fit, s.shelf_thickness)
    return Case(
        joint=DadoJoint(into="upright", incoming="shelf", fit=fit, bottom_gap_mm=gap),
        into=s.upright(),
        incoming=s.shelf(),
        into_left=s.whole - s.width * (s.shelf_thickness + play) * (s.reach + gap),
        incoming_left=s.length * s.width * s.shelf_thickness,
        clearance=play,
        towards_clearance=Z,
    )


@st.composite
def stopped_dados(draw: st.DrawFn) -> Case:
    """Front edge is the back edge of the upright, whose face edge lies at y = width."""
    s, fit = draw(_shelves()), draw(FITS)
    at_front = draw(mm(4, 20))
    at_back = draw(st.one_of(st.just(0.0), mm(4, 15)))
    set_back = draw(st.one_of(st.just(0.0), mm(0.5, 3.5), st.just(at_front)))
    radius = draw(st.one_of(st.just(0.0), mm(1, s.shelf_thickness / 2)))
    rounded = draw(st.booleans())
    # A round tongue that went home on a round stop would touch it along a curve: no rectangle.
    end_gap = 0.5 if rounded else draw(st.sampled_from([0.0, 0.5]))
    if rounded:  # open: faces beside a round tongue are stated some 3 mm2 too small
        radius = 0.0
    clear = 0.0 if rounded else radius
    play = play_of(fit, s.shelf_thickness)
    wide = s.shelf_thickness + play
    run = s.width - at_front - at_back
    corners = (2 if at_back == 0.0 else 4) * (1 - math.pi / 4) * radius**2
    bite = 0.0
    if set_back < at_front + clear:
        bite += at_front + clear + end_gap - set_back
    if at_back > 0.0:
        bite += at_back + clear + end_gap
    shelf = s.length * (s.width - set_back) * s.shelf_thickness
    eased = corners * s.reach if rounded else 0.0
    return Case(
        joint=StoppedDadoJoint(
            into="upright",
            incoming="shelf",
            fit=fit,
            stop_from_back_edge_mm=at_front,
            stop_from_face_edge_mm=at_back,
            end_radius_mm=radius,
            tongue_end=TongueEnd.ROUNDED if rounded else TongueEnd.SQUARE,
            end_gap_mm=end_gap,
        ),
        into=s.upright(),
        incoming=s.shelf(front=set_back),
        into_left=s.whole - (run * wide - corners) * s.reach,
        incoming_left=shelf - bite * s.reach * s.shelf_thickness - eased,
        clearance=play,
        towards_clearance=Z,
    )


@st.composite
def grooves(draw: st.DrawFn) -> Case:
    """A rail along x, face side up; the groove in its back edge or in its face side."""
    length, width, thickness = draw(mm(120, 500)), draw(mm(40, 90)), draw(mm(16, 30))
    panel_thickness, fit = draw(mm(4, 8)), draw(FITS)
    play = play_of(fit, panel_thickness)
    gap = draw(st.sampled_from([0.0, 1.0, 2.5]))
    in_edge, stopped = draw(st.booleans()), draw(st.booleans())
    deep = draw(mm(2.5, (width if in_edge else thickness) / 2 - 3))
    stop = draw(mm(5, 30)) if stopped else 0.0
    run = length - 2 * stop
    panel_width = draw(mm(max(30, deep + 5), 150))  # a panel as narrow as the groove is none
    rail = board("rail", (length, width, thickness), (0.0, 0.0, 0.0), X, Y)
    size = (run, panel_width, panel_thickness)
    below = draw(mm(3, thickness - panel_thickness - 4))
    if in_edge:  # lying flat, its front edge in the rail's back edge
        panel = board("panel", size, (stop, width - deep, below), X, Y)
        play_way = DOWNWARDS
    else:  # standing on the rail, its face edge down in the rail's face side
        panel = board("panel", size, (stop, 10.0 + panel_thickness, thickness - deep), X, Z)
        play_way = Y
    return Case(
        joint=GrooveJoint(
            into="rail",
            incoming="panel",
            fit=fit,
            gap_mm=gap,
            stop_from_named_end_mm=stop,
            stop_from_far_end_mm=stop,
        ),
        into=rail,
        incoming=panel,
        into_left=length * width * thickness - run * (panel_thickness + play) * (deep + gap),
        incoming_left=run * panel_width * panel_thickness,
        clearance=play,
        towards_clearance=play_way,
    )


@st.composite
def edge_rabbets(draw: st.DrawFn) -> Case:
    """A lid lying in a rabbet along a rail's inner top edge; the rail's face side looks out."""
    length, height, thickness = draw(mm(120, 400)), draw(mm(40, 120)), draw(mm(12, 25))
    lid, reach, gap = draw(mm(6, 15)), draw(mm(3, 8)), draw(mm(0.2, 2.5))
    rail = board("rail", (length, height, thickness), (0.0, thickness, 0.0), X, Z)
    depth = draw(mm(40, 200))
    flush = draw(st.sampled_from([0.0, 0.5]))
    panel = board(
        "lid", (length - 20, depth, lid), (10.0, thickness - reach, height - lid - flush), X, Y
    )
    return Case(
        joint=RabbetJoint(into="rail", incoming="lid", gap_mm=gap),
        into=rail,
        incoming=panel,
        into_left=length * height * thickness - length * (lid + flush) * (reach + gap),
        incoming_left=(length - 20) * depth * lid,
        clearance=gap,
        towards_clearance=FORWARDS,
    )


@st.composite
def notches(draw: st.DrawFn) -> Case:
    """A panel across a rail's upper edge, flush with its outer face or standing past it."""
    length, height, thickness = draw(mm(150, 400)), draw(mm(40, 120)), draw(mm(12, 25))
    start, end, gap = draw(mm(10, 30)), draw(mm(10, 30)), draw(mm(0.2, 2.5))
    thick, depth = draw(mm(4, 12)), draw(mm(3, 18))
    past = draw(st.sampled_from([0.0, 5.0]))
    rail = board("rail", (length, height, thickness), (0.0, thickness, 0.0), X, Z)
    size = (length - start - end, draw(mm(60, 200)), thick)
    panel = board("lid", size, (start, -past, height - depth), X, Y)
    return Case(
        joint=NotchJoint(into="rail", incoming="lid", gap_mm=gap),
        into=rail,
        incoming=panel,
        into_left=length * height * thickness - (size[0] + 2 * gap) * thickness * depth,
        incoming_left=size[0] * size[1] * size[2],
        clearance=gap,
        towards_clearance=X,
    )


def _over_a_rail(
    draw: st.DrawFn, gap: float
) -> tuple[Placed, Placed, tuple[float, float, float], tuple[float, float, float]]:
    """A rail with its face side forward, and a lid over its edge, flush in front, a gap off it."""
    size = (draw(mm(150, 400)), draw(mm(40, 120)), draw(mm(12, 25)))
    rail = board("rail", size, (0.0, size[2], 0.0), X, Z)
    past = draw(st.sampled_from([0.0, 7.0]))
    over = (size[0] + 2 * past, draw(mm(60, 200)), draw(mm(12, 20)))
    return rail, board("lid", over, (-past, 0.0, size[1] + gap), X, Y), size, over


@st.composite
def hinges(draw: st.DrawFn) -> Case:
    """A lid on two butt hinges, the barrels in front of the rail's face side."""
    gap, thick = draw(mm(0.2, 1.5)), draw(mm(0.8, 1.6))
    rail, lid, size, over = _over_a_rail(draw, gap)
    folded = 2 * thick + draw(mm(0.5, 2.0)) + gap
    leaf = Leaf(
        name="hinge",
        length_mm=draw(mm(15, 30)),
        width_mm=draw(mm(6, size[2] - 3)),
        thickness_mm=thick,
        barrel_mm=folded,
        folded_mm=folded,
        screw_mm=2.0,
        screw_length_mm=draw(mm(6, 8)),
        screws_mm=((-5.0, 3.0), (5.0, 3.0)),
    )
    starts = (draw(mm(26, 32)), size[0] - 70.0)
    joint = HingeJoint(
        into="rail", incoming="lid", leaf=leaf, starts_mm=starts, gap_mm=gap, pilots_mm=(1.5, 1.0)
    )
    sunk = leaf.length_mm * leaf.width_mm * (folded - gap) / 2
    bite = leaf.screw_length_mm - thick
    return Case(
        joint=joint,
        into=rail,
        incoming=lid,
        into_left=size[0] * size[1] * size[2] - 2 * (sunk + 2 * math.pi / 4 * 1.5**2 * bite),
        incoming_left=over[0] * over[1] * over[2] - 2 * (sunk + 2 * math.pi / 4 * bite),
        clearance=gap,
        towards_clearance=DOWNWARDS,
    )


@st.composite
def rests(draw: st.DrawFn) -> Case:
    """A lid that lies over a rail with as much play as it is drawn off."""
    gap = draw(mm(0.2, 1.5))
    rail, lid, size, over = _over_a_rail(draw, gap)
    return Case(
        joint=RestJoint(into="rail", incoming="lid", gap_mm=gap, play_mm=gap),
        into=rail,
        incoming=lid,
        into_left=size[0] * size[1] * size[2],
        incoming_left=over[0] * over[1] * over[2],
        clearance=gap,
        towards_clearance=DOWNWARDS,
    )


@st.composite
def corner_rabbets(draw: st.DrawFn) -> Case:
    """A side along x, face side up, and a top standing on its far end or along its back edge."""
    length, width, thickness = draw(mm(150, 400)), draw(mm(50, 120)), draw(mm(12, 25))
    other, high = draw(mm(10, 20)), draw(mm(60, 200))
    reach = draw(mm(2, 0.75 * thickness))
    tongue = draw(st.one_of(st.none(), mm(3, other - 1.5)))
    side = board("side", (length, width, thickness), (0.0, 0.0, 0.0), X, Y)
    at_end = draw(st.booleans())
    if at_end:
        origin = (length, 0.0, thickness - reach)
        top = board("top", (high, width, other), origin, Z, Y)
        run = width
    else:
        top = board("top", (length, high, other), (0.0, width, thickness - reach), X, Z)
        run = length
    wide = other if tongue is None else tongue
    return Case(
        joint=CornerRabbetJoint(into="side", incoming="top", tongue_mm=tongue),
        into=side,
        incoming=top,
        into_left=length * width * thickness - run * wide * reach,
        incoming_left=run * high * other - run * (other - wide) * reach,
    )


@st.composite
def tongues(draw: st.DrawFn) -> Case:
    """Two boards edge to edge, or a board's end against another's edge."""
    length, width, thickness = draw(mm(150, 400)), draw(mm(60, 120)), draw(mm(14, 25))
    other_width = draw(mm(60, 120))
    tongue_thickness = draw(mm(thickness * 0.26, thickness * 0.4))
    reach, open_by = draw(mm(3, 9)), draw(st.sampled_from([0.0, 0.0, 1.5]))
    gap, fit = draw(st.sampled_from([0.3, 1.0])), draw(FITS)
    play = play_of(fit, tongue_thickness)
    first = board("first", (length, width, thickness), (0.0, 0.0, 0.0), X, Y)
    if draw(st.booleans()):
        second = board("second", (length, other_width, thickness), (0.0, width - reach, 0.0), X, Y)
        run, whole = length, length * other_width * thickness
    else:
        origin = (100.0, width - reach, 0.0)
        second = board("second", (length, 80.0, thickness), origin, Y, LEFTWARDS)
        run, whole = 80.0, length * 80.0 * thickness
    return Case(
        joint=TongueAndGrooveJoint(
            into="first",
            incoming="second",
            fit=fit,
            tongue_thickness_mm=tongue_thickness,
            tongue_mm=reach + open_by,
            bottom_gap_mm=gap,
        ),
        into=first,
        incoming=second,
        into_left=length * width * thickness - length * (tongue_thickness + play) * (reach + gap),
        incoming_left=whole - run * (thickness - tongue_thickness) * (reach + open_by),
        clearance=play,
        towards_clearance=DOWNWARDS,
    )


CASES: dict[str, Callable[[], st.SearchStrategy[Case]]] = {
    "dado": dados,
    "stopped dado": stopped_dados,
    "groove": grooves,
    "rabbet": edge_rabbets,
    "notch": notches,
    "corner rabbet": corner_rabbets,
    "tongue and groove": tongues,
    "half-lap": half_laps,
    "mitre": box_mitres,
    "flat mitre": frame_mitres,
    "butt": butts,
    "dowelled butt": dowelled_butts,
    "mortise and tenon": mortises_and_tenons,
    "hanging cleat": cleats,
    "hinge": hinges,
    "rest": rests,
}
