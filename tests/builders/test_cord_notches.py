"""Notches for a cord at a tier's edge: worked by hand, clear of all else, refused where no room."""

from __future__ import annotations

import math
from typing import Any

import pytest

from furniture import (
    TOP_BACK,
    TOP_FRONT,
    Bracket,
    Cable,
    CordNotch,
    EdgeProfile,
    Lip,
    LipEdge,
    Opening,
    OpeningFor,
    Plug,
    TierEdge,
    inches,
)
from furniture.parts.cuts import Notch
from furniture.pieces import Piece
from furniture.solids.make import solid_of
from tests.builders.bench import a_stand, by_uprights, part, problems_of, proved
from tests.builders.test_bad_input import plain_name, problems_left, stated
from tests.builders.test_footed_stands import footed

CORD = Cable(diameter="6 mm")
TAKEN = (8 * 8 - (1 - math.pi / 4) * 8**2 / 2) * 10
"""What a notch for one cord of 6 takes of a tier 10 thick: a bit of 8, and as deep."""


def notches(piece: Piece, tier: str) -> list[Notch]:
    """Those of a tier that have a round bottom."""
    return [
        each for each in part(piece, tier).cuts if isinstance(each, Notch) and each.inner_radius_mm
    ]


def test_a_cord_notch_is_as_wide_as_its_cord_and_as_deep() -> None:
    """It stands beside the post, in the middle of the 50 that are free there."""
    piece = a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD)]).build()
    assert solid_of(part(piece, "tier 1")).Volume() == pytest.approx(200 * 106 * 10 - TAKEN)
    (made,) = notches(piece, "tier 1")
    assert (made.start_mm, made.length_mm, made.depth_mm) == pytest.approx((171, 8, 8), abs=1e-3)
    asked = [CordNotch(on="tier 1", passes=CORD, from_corner="20 mm")]
    (made,) = notches(a_stand(cord_notches=asked).build(), "tier 1")
    assert made.start_mm == pytest.approx(16)


EVERY = [CordNotch(on="tier 1", passes=CORD, edge=edge) for edge in TierEdge]
HARD: list[tuple[str, Any, int]] = [
    ("at every edge, shaped, in inches", a_stand(
        cord_notches=EVERY, shown=inches(),
        profiles=[EdgeProfile(on="tier 1", edges=[TOP_FRONT], radius="2 mm")],
    ), 4),
    ("beside lip, bracket and drain", a_stand(
        cord_notches=[CordNotch(on="tier 1", passes=Cable(diameter="5 mm", count=2)),
                      CordNotch(on="tier 1", passes=CORD)],
        lips=[Lip(on="tier 1", edges=[LipEdge.FRONT, LipEdge.RIGHT])],
        brackets=[Bracket(on="tier 1")],
        openings=[Opening(on="tier 1", size="8 mm", from_left="20 mm", from_edge="60 mm",
                          purpose=OpeningFor.DRAIN)],
    ), 2),
    ("between uprights", by_uprights(
        cord_notches=[CordNotch(passes=CORD), CordNotch(on="tier 1", passes=CORD, edge="front")],
    ), 2),
    ("without a box", footed(cord_notches=EVERY), 4),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved(hard: tuple[str, Any, int]) -> None:
    """Wood, contacts and order."""
    _, stand, count = hard
    piece = stand.build()
    proved(piece)
    assert len(notches(piece, "tier 1")) == count


REFUSED: list[tuple[Any, str]] = [
    (a_stand(cord_notches=[CordNotch(on="lid", passes=CORD)]), "cord notch 1 on"),
    (a_stand(cord_notches=[CordNotch(passes=Plug(width="30 mm", thickness="10 mm"))]),
     "cord notch 1 passes"),
    (a_stand(cord_notches=[CordNotch(passes=CORD, edge="under")]), "cord notch 1 edge"),
    (a_stand(cord_notches=[CordNotch(passes=Cable(diameter="35 mm"))]), "cord notch 1 edge"),
    (a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD, from_corner="100 mm")]),
     "cord notch 1 from_corner"),
    (a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD, from_corner="2 mm")]),
     "cord notch 1 from_corner"),
    (a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD, from_corner="198 mm")]),
     "cord notch 1 from_corner"),
    (a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD, edge="front")],
             lips=[Lip(on="tier 1")]), "cord notch 1 edge"),
    (a_stand(cord_notches=["tier 1"]), "cord notch 1"),
    (by_uprights(cord_notches=[CordNotch(passes=CORD, edge="left")]), "cord notch 1 edge"),
    (a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD)],
             profiles=[EdgeProfile(on="tier 1", edges=[TOP_BACK])]), "profile 1 edges"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_has_no_room_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated place is taken when it is written."""
    stand, parameter = given
    problems = problems_of(stand)
    assert parameter in [plain_name(each.parameter) for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and problem.parameter.endswith("from_corner"):
            moved = a_stand(cord_notches=[CordNotch(on="tier 1", passes=CORD, from_corner=text)])
            assert problems_left(moved) == []
