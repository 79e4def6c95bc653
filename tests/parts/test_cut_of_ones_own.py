"""A cut added in one file is made, checked, drawn, rebuilt and proved, with no reader changed."""

from __future__ import annotations

from dataclasses import dataclass
from inspect import isabstract
from typing import Any, ClassVar

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.annotate import annotations_of
from exporters.sheets.joint_profiles import SpanKind, joint_profiles
from furniture import Composition, PlacedPart, Stock, cut
from furniture.checks.finding import Verdict
from furniture.errors import DesignError
from furniture.joints import Joining, Joint, Role, Worked
from furniture.joints.faces import rectangle
from furniture.joints.relation import box_in
from furniture.parts.cuts import Cut, record_of
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.wood import wood_left
from furniture.pieces import Piece, compose
from furniture.solids.make import solid_from
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts
from furniture.units import millimetres
from tests.checks.test_wood_left import told_of
from tests.exporters import rebuild
from tests.exporters.documents import sheet_documents
from tests.joints.proofs import board
from tests.parts.square_hole import SquareHole
from tests.parts.wood_cases import RAIL, bore, dado

DEEP = SquareHole(face=Face.FACE_SIDE, first_at_mm=100.0, first_size_mm=40.0, second_at_mm=20.0,
               second_size_mm=8.0, depth_mm=12.0)  # fmt: skip
IN_EDGE = SquareHole(face=Face.BACK_EDGE, first_at_mm=100.0, first_size_mm=40.0, second_at_mm=6.0,
                  second_size_mm=8.0, depth_mm=25.0)  # fmt: skip


@pytest.mark.parametrize("missing", sorted(Cut.__abstractmethods__))
def test_a_cut_that_leaves_out_what_readers_ask_is_refused_by_the_language(missing: str) -> None:
    given = {name: None for name in Cut.__abstractmethods__ if name != missing}
    assert isabstract(type("Whole", (SquareHole,), {missing: getattr(Cut, missing)}))
    with pytest.raises(TypeError, match=missing):
        type("Silent", (Cut,), given)()


def test_readers_ask_of_a_cut_what_its_figures_and_its_shape_are() -> None:
    assert {"figures", "shape", "tools"} <= Cut.__abstractmethods__


@pytest.mark.parametrize("made", [DEEP, IN_EDGE], ids=["in a wide face", "in an edge"])
def test_it_is_made_and_another_kernel_makes_the_same(made: SquareHole, monkeypatch: Any) -> None:
    def sunk(record: dict[str, Any], size: Any) -> Any:
        axes = [axis for axis in range(3) if axis != rebuild.FACES[record["face"]][0]]
        spans = {
            axis: (record[f"{name}_at_mm"], record[f"{name}_at_mm"] + record[f"{name}_size_mm"])
            for axis, name in zip(axes, ("first", "second"), strict=True)
        }
        return rebuild._sunk(record["face"], size, spans, record["depth_mm"])

    monkeypatch.setitem(rebuild._TOOLS, "square hole", sunk)
    length, width, thickness = RAIL.size
    part = {"id": "rail", "length_mm": length, "width_mm": width, "thickness_mm": thickness,
            "cuts": [record_of(made)]}  # fmt: skip
    again = rebuild.rebuilt_parts({"parts": [part]})["rail"].volume()
    left = RAIL.volume_mm3 - made.removed_alone_mm3(RAIL)
    assert solid_from(RAIL, (made,)).Volume() == pytest.approx(left, rel=1e-9)
    assert again == pytest.approx(left, rel=1e-9)


def test_the_wood_it_leaves_is_told() -> None:
    """20 - 12 behind it; 6 on both sides of the one in the edge."""
    assert min(each.wood_mm for each in wood_left(RAIL, (DEEP,))) == pytest.approx(8.0)
    assert min(each.wood_mm for each in wood_left(RAIL, (IN_EDGE,))) == pytest.approx(6.0)
    assert told_of(RAIL, DEEP).verdict is Verdict.OK
    near = told_of(RAIL, DEEP, bore(x=120.0, y=32.7))
    assert near.value == pytest.approx(0.7)
    assert near.subject == "rail, between square hole and hole"
    assert near.verdict is Verdict.FAIL


def test_a_square_hole_that_meets_a_dado_from_behind_is_refused() -> None:
    with pytest.raises(DesignError, match="square hole and dado"):
        told_of(RAIL, DEEP, dado(Face.BACK_SIDE, 110.0, 10.0, 8.0))


def test_it_opens_its_face_alone() -> None:
    assert DEEP.opens(RAIL) == {Face.FACE_SIDE}
    assert IN_EDGE.opens(RAIL) == {Face.BACK_EDGE}


@dataclass(frozen=True, slots=True, kw_only=True)
class HousedEndJoint(Joint):
    """The whole end of the incoming rail goes into a square hole in the post's face side."""

    kind: ClassVar[str] = "housed end"

    def work(self, into: Placed, incoming: Placed) -> Worked:
        low, high = box_in(into, incoming)
        blank, place = into.part.blank, into.placement
        floor = low[2]
        sunk = (2, (floor, blank.thickness_mm))
        first, second = (0, (low[0], high[0])), (1, (low[1], high[1]))
        walls = ((Face.NAMED_END, low[0], second), (Face.FAR_END, high[0], second),
                 (Face.FACE_EDGE, low[1], first), (Face.BACK_EDGE, high[1], first))  # fmt: skip
        joining = Joining(
            kind=self.kind, role=Role.HOUSING, into=self.into, incoming=self.incoming, fit=None,
            clearance_mm=0.0, ways_in=(place.direction_to_piece((0.0, 0.0, -1.0)),),
            faces=(
                *rectangle(into, "floor", towards=Face.BACK_SIDE, at=floor, run=first,
                           deep=second),
                *(
                    face
                    for towards, at, along in walls
                    for face in rectangle(into, "wall", towards=towards, at=at, run=along,
                                          deep=sunk)
                ),
            ),
        )  # fmt: skip
        square_hole = SquareHole(
            face=Face.FACE_SIDE,
            first_at_mm=low[0], first_size_mm=high[0] - low[0],
            second_at_mm=low[1], second_size_mm=high[1] - low[1],
            depth_mm=blank.thickness_mm - floor,
        )  # fmt: skip
        return Worked(joining=joining, into_cuts=(square_hole,), incoming_cuts=())


def _gate() -> Piece:
    """A rail 30 high and 12 thick, 15 deep in the front of a post of 400 x 60 x 25."""
    post = board("post", (400.0, 60.0, 25.0), (60.0, 0.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0))
    rail = board("rail", (200.0, 30.0, 12.0), (24.0, -10.0, 150.0), (0.0, -1.0, 0.0),
                 (0.0, 0.0, 1.0))  # fmt: skip
    return compose(name="gate", placed=[post, rail],
                   joints=[HousedEndJoint(into="post", incoming="rail")])  # fmt: skip


def test_a_joint_that_cuts_it_is_proved_and_shown_in_section() -> None:
    piece = _gate()
    for proof in (interferences, untrue_contacts, wasted_cuts, clashing_joints):
        assert proof(piece) == ()
    (shown,) = joint_profiles(piece)
    values = {span.kind: span.value_mm for span in shown.spans}
    post = piece.placed[0].part
    (square_hole,) = post.cuts
    assert isinstance(square_hole, SquareHole)
    assert values[SpanKind.DEPTH] == pytest.approx(square_hole.depth_mm)
    assert values[SpanKind.WIDTH] == pytest.approx(12.0)
    assert values[SpanKind.LEFT] == pytest.approx(25.0 - square_hole.depth_mm)


def test_it_is_said_on_its_parts_sheet() -> None:
    (said,) = annotations_of(_gate().placed[0].part, millimetres())
    assert (said.noun, said.place) == ("square hole", "in face side")
    assert said.spec == "30 x 12 x 15 deep, corners chopped square"
    words = [
        text.dxf.text
        for named in sheet_documents(_gate(), SheetSettings())
        for text in named.document.modelspace().query("TEXT")
    ]
    assert any("square hole" in each for each in words)


def test_a_maker_writes_it_like_any_other_cut() -> None:
    oak = Stock(name="oak", species="white oak", thickness="20 mm", moisture="9 %")
    hole = cut(SquareHole, face=Face.FACE_SIDE, first_at="60 mm", first_size="30 mm",
               second_at="20 mm", second_size="12 mm", depth="9 mm")  # fmt: skip
    rail = PlacedPart(name="rail", stock=oak, length="200 mm", width="50 mm", cuts=[hole])
    (made,) = Composition(name="gate", parts=[rail]).build().placed[0].part.cuts
    assert made == SquareHole(face=Face.FACE_SIDE, first_at_mm=60.0, first_size_mm=30.0,
                              second_at_mm=20.0, second_size_mm=12.0, depth_mm=9.0)  # fmt: skip


@pytest.mark.parametrize("kind", [Cut, int, "Bore"])
def test_what_is_no_cut_that_can_be_made_is_refused(kind: Any) -> None:
    oak = Stock(name="oak", species="white oak", thickness="20 mm", moisture="9 %")
    rail = PlacedPart(name="rail", stock=oak, length="200 mm", width="50 mm", cuts=[cut(kind)])
    with pytest.raises(DesignError, match=r"rail: cut 1"):
        Composition(name="gate", parts=[rail]).build()
