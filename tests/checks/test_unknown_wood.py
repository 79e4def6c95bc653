"""A wood of which only the density is known goes through every check: nothing is guessed right."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import OwnWood, Stock
from furniture.checks.finding import Finding, Verdict
from furniture.checks.rows.joints import (
    ABOVE_DADO,
    HAND_ABOVE_DADO,
    HAND_LEVER,
    HOUSED_GLUE,
    LEVER,
    MITRE_GLUE,
    POST_AT_DADO,
)
from furniture.checks.rows.seasons import GLUED_ACROSS, LOOSE_GAP, SLOT, SWELLING
from furniture.checks.rows.shelves import BENDING, HAND_BENDING, SAG
from furniture.pieces import Piece
from furniture.timber.own import read_own
from furniture.units import Reader
from tests.checks.of_piece_cases import found, loaded_stand
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

MANGO = OwnWood(name="mango", density="650 kg/m3")
HANG_ON_THE_WOOD = (
    SAG, BENDING, HAND_BENDING, POST_AT_DADO, MITRE_GLUE, LEVER, HAND_LEVER,
    ABOVE_DADO, HAND_ABOVE_DADO, HOUSED_GLUE, LOOSE_GAP, GLUED_ACROSS, SWELLING, SLOT,
)  # fmt: skip
"""Checks that ask for more of a wood than its weight."""


def _of_mango(piece: Piece) -> Piece:
    """The piece as it is, of a wood of which only the weight is known."""
    species = read_own(Reader(), "", MANGO)
    assert species is not None
    return replace(
        piece,
        placed=tuple(
            replace(
                each, part=replace(each.part, timber=replace(each.part.timber, species=species))
            )
            for each in piece.placed
        ),
    )


@pytest.fixture(scope="module", params=NAMES)
def pair(request: pytest.FixtureRequest) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings of a demonstration piece, and of the same in the unknown wood."""
    piece = piece_of(request.param)
    return found(piece), found(_of_mango(piece))


def test_what_hangs_on_the_wood_is_never_in_order(pair) -> None:
    _, of_mango = pair
    hanging = [each for each in of_mango if each.check in HANG_ON_THE_WOOD]
    assert hanging
    assert [each for each in hanging if each.verdict is Verdict.OK] == []


def test_no_check_falls_silent(pair) -> None:
    of_oak, of_mango = pair
    asked = {each.check for each in of_oak if each.check in HANG_ON_THE_WOOD}
    told = {each.check for each in of_mango}
    bent = {SAG, BENDING, HAND_BENDING}
    assert asked - bent <= told
    assert SAG in told  # "no stiffness is known for mango, so nothing of the piece is bent"


def test_what_needs_only_the_weight_is_still_judged(pair) -> None:
    _, of_mango = pair
    judged = [each for each in of_mango if each.check not in HANG_ON_THE_WOOD]
    assert any(each.verdict is Verdict.OK for each in judged)


def test_a_piece_is_designed_of_it_once_the_gaps_are_written() -> None:
    mango = {"species": MANGO, "moisture": "9 %"}
    design = loaded_stand(
        thick=Stock(name="mango, thick", thickness="20 mm", **mango),
        thin=Stock(name="mango, thin", thickness="10 mm", **mango),
        lid_gap_across="2 mm",
    )
    findings = found(design)
    assert any("not checked" in each.basis and "mango" in each.basis for each in findings)


def test_doubtful_stiffness_is_told_beside_the_sag() -> None:
    iroko = Stock(name="iroko", species="iroko", thickness="10 mm", moisture="9 %")
    bending = [
        each
        for each in found(loaded_stand(thin=iroko))
        if each.check in (SAG, SWELLING) and "tier" in each.subject
    ]
    assert bending
    assert all("sources differ on the" in each.basis for each in bending)
