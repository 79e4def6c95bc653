"""A stool of four legs, four tenoned rails and a top goes through every reader as it is."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from exporters.sheets.annotate import annotations_of
from exporters.sheets.joint_profiles import SpanKind, joint_profiles
from exporters.summary import summary_of, write_summary
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.joints import GrainRelation
from furniture.pieces import Piece, placed_named
from furniture.solids.measure import weigh
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts
from furniture.structure import State, cases_of, frame_of, held_in, masses_by_cuts
from furniture.units import millimetres
from tests.exporters.rebuild import load, rebuilt_parts, rebuilt_piece
from tests.joints.stool import stool

RAIL_NAMES = ("front rail", "back rail", "left rail", "right rail")


@cache
def piece() -> Piece:
    return stool().build()


def test_its_solids_fit_and_only_what_is_stated_touches() -> None:
    for proof in (interferences, untrue_contacts, wasted_cuts, clashing_joints):
        assert proof(piece()) == ()


def test_sheets_say_mortise_and_tenon_and_nothing_else() -> None:
    """Tenon 7 x 52 (70 less 9 at both edges) x 20; mortise 0.5 longer, 0.12 wider, 1 deeper."""
    rail, leg = (placed_named(piece(), each).part for each in ("left rail", "left front leg"))
    said = {(each.noun, each.spec) for each in annotations_of(rail, millimetres())}
    assert said == {("tenon", "7 thick x 52 wide x 20 long")}
    said = {(each.noun, each.spec) for each in annotations_of(leg, millimetres())}
    assert said == {("mortise", "52.5 x 7.12 x 21 deep")}


def test_a_mortise_is_struck_from_the_datums_of_its_leg() -> None:
    """In the front leg's face edge: 11 from the face side; 330 + 9 from the named end."""
    leg = placed_named(piece(), "left front leg").part
    (first, _) = annotations_of(leg, millimetres())
    assert {each.axis: each.value_mm for each in first.positions} == pytest.approx(
        {0: 339.0, 2: 11.0}
    )


def test_its_joints_are_drawn_in_section() -> None:
    """42 thick, 21 deep, 21 left behind it, for a tenon in a wide face."""
    shown = {(each.incoming, each.into): each for each in joint_profiles(piece())}
    seen = shown["left rail", "left front leg"]
    values = {span.kind: span.value_mm for span in seen.spans}
    assert values[SpanKind.DEPTH] == pytest.approx(21.0)
    assert values[SpanKind.LEFT] == pytest.approx(21.0)
    assert values[SpanKind.WIDTH] == pytest.approx(7.12)
    assert {each.value_mm for each in seen.clearances} == {0.12, 1.0}
    assert {rail for rail, _ in shown} >= set(RAIL_NAMES)


def test_another_kernel_makes_the_same_of_its_record(tmp_path: Path) -> None:
    path = tmp_path / "piece.json"
    write_summary(summary_of(piece(), weigh(piece()), (), ("piece.json",)), path)
    summary = load(path)
    solids = rebuilt_parts(summary)
    for part in summary["parts"]:
        assert solids[part["id"]].volume() == pytest.approx(part["volume_mm3"], rel=1e-9)
    for (first, a), (second, b) in combinations(rebuilt_piece(summary).items(), 2):
        assert (a ^ b).volume() < 0.01, f"{first} and {second} overlap"


def test_it_goes_together_along_its_tenons() -> None:
    """Legs and rails into two frames one way, and the frames on to the other rails square to it."""
    assert isinstance(assembly_of(piece()), AssemblyPlan)


@pytest.mark.parametrize("state", State)
def test_it_holds_together(state: State) -> None:
    """A tenon is held by its walls too: without glue it stands on its feet, with play."""
    frame = frame_of(piece(), masses_by_cuts(piece()))
    standing = cases_of(piece(), frame)[0]
    assert held_in(frame, standing, state).is_held


def test_cheeks_that_cross_the_grain_hold_it_glued() -> None:
    """Both cheeks, 52 x 20 each."""
    (one,) = (each for each in piece().joinings
              if (each.incoming, each.into) == ("left rail", "left front leg"))  # fmt: skip
    cheeks = [each for each in one.faces if each.glue is GrainRelation.CROSSING]
    assert [each.area_mm2 for each in cheeks] == pytest.approx([1040.0, 1040.0])
