"""No kind of cut, and no pair of cuts, leaves too little wood in silence."""

from __future__ import annotations

import math

import pytest

from furniture import Cable, Opening, Plug
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece.wood_left import wood_left_findings_of
from furniture.checks.rows.wood_left import BORE_SHARE
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Cut, Eased, FingerNotch, FlatMitre, Notch, Slope, Slot
from furniture.parts.faces import ENDS, Face
from furniture.pieces import compose
from furniture.rules import USUAL_RULES
from tests.builders.bench import a_box
from tests.joints.proofs import board
from tests.parts.wood_cases import (
    BY_DESIGN,
    ENOUGH,
    PAIRS,
    RAIL,
    TOO_LITTLE,
    Case,
    Together,
    dado,
    notch,
)


def told_of(blank: Blank, *cuts: Cut) -> Finding:
    """The one line on the wood left of a part."""
    rail = board("rail", blank.size, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), cuts)
    piece = compose(name="rail", placed=[rail], joints=[])
    (found,) = [each for each in wood_left_findings_of(piece) if each.check.name == "wood left"]
    return found


@pytest.mark.parametrize(
    "cut",
    [
        Notch(edge=Face.FACE_EDGE, start_mm=100.0, length_mm=20.0, depth_mm=59.5),
        FingerNotch(edge=Face.FACE_EDGE, centre_mm=150.0, radius_mm=59.0),
        Slot(face=Face.FACE_SIDE, x_mm=150.0, y_mm=30.0, length_mm=80.0, width_mm=59.0),
    ],
    ids=lambda cut: str(cut.kind),
)
def test_a_rail_cut_to_next_to_nothing_fails(cut: Cut) -> None:
    """Of 60 mm, 0.5, 1 and twice 0.5 mm are left."""
    told = told_of(RAIL, cut)
    assert told.verdict is Verdict.FAIL
    assert told.advice
    assert cut.name in told.subject


@pytest.mark.parametrize("case", TOO_LITTLE.values(), ids=lambda case: str(case.cut.kind))
def test_every_kind_of_cut_that_leaves_too_little_is_told(case: Case) -> None:
    """A slope's short point and an eased face are a sharp outline, which only cautions."""
    told = told_of(case.blank, case.cut)
    is_outline = isinstance(case.cut.shape(case.blank), (Slope, Eased))
    assert told.verdict is (Verdict.CAUTION if is_outline else Verdict.FAIL)
    assert told.value == pytest.approx(case.least_mm)
    assert told.advice


@pytest.mark.parametrize("case", ENOUGH.values(), ids=lambda case: str(case.cut.kind))
def test_every_kind_of_cut_that_leaves_enough_is_in_order(case: Case) -> None:
    told = told_of(case.blank, case.cut)
    assert told.verdict in (Verdict.OK, Verdict.NOTE)
    assert not told.advice


@pytest.mark.parametrize("case", [each for each in PAIRS if each.least_mm > 0.0],
                         ids=lambda case: str(case.what))  # fmt: skip
def test_cuts_that_leave_each_other_too_little_are_both_named(case: Together) -> None:
    told = told_of(RAIL, *case.cuts)
    assert told.value == pytest.approx(case.least_mm, abs=0.005)
    if case.least_mm <= 1.0:
        assert told.verdict is Verdict.FAIL
        assert "between" in told.subject
        assert all(cut.name in told.subject for cut in case.cuts)
    elif case.least_mm < 3.0:
        assert told.verdict is Verdict.CAUTION


@pytest.mark.parametrize("case", BY_DESIGN, ids=lambda case: str(case.what))
def test_cuts_that_are_meant_to_meet_are_in_order(case: Together) -> None:
    assert told_of(RAIL, *case.cuts).verdict in (Verdict.OK, Verdict.NOTE)


def test_a_part_has_one_line_and_its_other_weak_places_stand_in_it() -> None:
    told = told_of(RAIL, dado(depth=18.0), notch(Face.FACE_EDGE, 200.0, 20.0, 57.5))
    assert told.subject == "rail, behind the dado"
    assert told.value == pytest.approx(2.0)
    assert "behind the notch" in told.basis


def _key(angle: float) -> Finding | None:
    """The wood left of a key cut to a triangle by two mitres that meet in a point."""
    wide = 11.46
    long = 2.0 * wide * math.tan(math.radians(angle))
    blank = Blank(length_mm=long, width_mm=wide, thickness_mm=3.84)
    cuts = tuple(
        FlatMitre(end=end, gauge_angle_deg=angle, long_point_edge=Face.FACE_EDGE) for end in ENDS
    )
    key = board("key", blank.size, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), cuts)
    found = wood_left_findings_of(compose(name="key", placed=[key], joints=[]))
    return next((each for each in found if each.check.name == "wood left"), None)


def test_a_key_is_a_triangle_and_wants_no_wall_at_its_point() -> None:
    """Square at its point it is sound; one of 20 degrees there is a splinter."""
    assert _key(45.0) is None
    sharp = _key(10.0)
    assert sharp is not None
    assert sharp.verdict is Verdict.CAUTION


def test_a_shallower_dado_as_advised_is_enough() -> None:
    deep = told_of(RAIL, dado(depth=18.0))
    (remedy,) = deep.remedies
    again = told_of(RAIL, dado(depth=18.0 - remedy.amount))
    assert again.verdict is Verdict.NOTE
    assert not again.advice


def test_a_dado_moved_as_advised_is_enough() -> None:
    near = told_of(RAIL, dado(), dado(at=115.0))
    (remedy,) = near.remedies
    assert told_of(RAIL, dado(), dado(at=115.0 + remedy.amount)).verdict is Verdict.NOTE


def _share_of(opening: Opening, **given: object) -> Finding:
    """What is said of a hole in the front rail, its share of the wood alone."""
    piece = a_box(openings=[opening], **given).build()
    found = [each for each in wood_left_findings_of(piece, USUAL_RULES) if each.check is BORE_SHARE]
    return found[0]


class TestAHoleThatSomethingPasses:
    """A rail of 80 holds a hole of 40 by the trade's half; 45 is the bit for a plug of 39 by 16."""

    def test_it_is_not_told_to_be_made_too_small_for_it(self) -> None:
        plug = Opening(on="front rail", passes=Plug(width="39 mm", thickness="16 mm"))
        found = _share_of(plug)
        assert (found.verdict, found.value) == (Verdict.CAUTION, 45.0)
        assert found.advice == "let it stand in at least 90 mm of wood"
        assert not found.remedies
        assert _share_of(plug, height="90 mm").verdict is Verdict.OK

    def test_nor_too_small_for_a_bushings_body(self) -> None:
        bushing = Opening(on="front rail", size="45 mm", flange="48 mm")
        assert _share_of(bushing).advice == "let it stand in at least 90 mm of wood"

    def test_one_that_nothing_has_to_pass_takes_a_thinner_bit(self) -> None:
        found = _share_of(Opening(on="front rail", size="45 mm"))
        assert found.advice == "take a bit of 40 mm at most"
        assert _share_of(Opening(on="front rail", size="40 mm")).verdict is Verdict.OK

    def test_nor_is_the_one_beside_it_mistaken_for_it(self) -> None:
        """A cable passes the one at the left; the other is only as large as the maker likes."""
        piece = a_box(
            openings=[
                Opening(on="front rail", passes=Cable(diameter="8 mm"), from_left="60 mm"),
                Opening(on="front rail", size="45 mm", from_left="200 mm"),
            ]
        ).build()
        found = wood_left_findings_of(piece, USUAL_RULES)
        (told,) = [each for each in found if each.check is BORE_SHARE]
        assert told.advice == "take a bit of 40 mm at most"


def test_wood_between_two_cuts_is_one_place() -> None:
    """Two holes of 8 with 2 mm between them, seen from either."""
    first, second = (
        Bore(face=Face.FACE_SIDE, x_mm=x, y_mm=30.0, diameter_mm=8.0) for x in (100.0, 110.0)
    )
    told = told_of(RAIL, first, second)
    assert told.subject == "rail, between hole 1 and hole 2"
    assert "little is left" not in told.basis
