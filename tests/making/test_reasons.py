"""Every reason of the closed list, broken: what must come first is made to come after.

The work goes from the boards to the piece, so that what is tried, measured, glued and finished is
in it too. A reason is only taken for what it says if breaking it is seen by what reads no reason.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from functools import cache

import pytest

from furniture import FootedStand, Stock, Tier
from furniture.making.why import Why
from furniture.pieces import Piece
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.everywhere.designs import drawn
from tests.making.glued_up import of_strips
from tests.making.made import Amiss, Made, amiss, is_found, made
from tests.making.plant import a_fault_of_order, pairs_of, too_early
from tests.making.test_from_boards import from_boards, made_from
from tests.making.test_machine_room import two_holes
from tests.making.test_resawing import SHARED
from tests.making.test_resawing import box as resawn
from tests.models import NAMES
from tests.shop.boards.bench import board, box, thin_board

SAWN_BY_HAND, BORED_WHILE_LONG = 6, 2
"""Designs with a cut square in a slope, which is shaped by hand; with work on a long blank."""


@cache
def thick_boards() -> Made:
    """A box from boards that are jointed and planed: none of the models' own need it."""
    boards = [board(thickness="22 mm"), thin_board(thickness="12 mm")]
    return made_from(box(), outcome_of(cutting_job(box(), boards)))


SUBJECTS: dict[str, Callable[[], Made]] = {
    **{name: (lambda name=name: from_boards(name)[0]) for name in NAMES},
    "thick boards": thick_boards,
    "resawn": lambda: resawn(SHARED),
    "glued up": of_strips,
    "shaped by hand": cache(lambda: made(drawn(SAWN_BY_HAND).piece)),
    "holes that overlap": cache(lambda: two_holes(("100 mm", "12 mm"), ("105 mm", "4 mm"))),
    "tenoned": cache(lambda: made(tenoned())),
    "bored while long": cache(lambda: made(drawn(BORED_WHILE_LONG).piece)),
}


def tenoned() -> Piece:
    """One tier on a post that is tenoned into its foot board."""
    thick = Stock(name="thick", species="cherry", thickness="22 mm")
    thin = Stock(name="thin", species="cherry", thickness="12 mm")
    return FootedStand(
        name="tenoned", thick=thick, thin=thin, base_width="260 mm", base_depth="200 mm",
        post_width="100 mm", tiers=[Tier(width="220 mm", depth="110 mm", rise="120 mm")],
    ).build()  # fmt: skip


@cache
def known(name: str) -> Amiss:
    """What is amiss in it as it is: nothing."""
    found = amiss(SUBJECTS[name]())
    assert (found.parts, found.faults) == ({}, frozenset())
    return found


@pytest.mark.some(few=13)
@pytest.mark.parametrize("why", Why, ids=lambda why: why.name)
@pytest.mark.seeds(few=1, full=12)
def test_a_broken_reason_is_found_wherever_it_is_given(why: Why, seed: int) -> None:
    """On every model that gives it; a reason that nothing gives is none."""
    dice, met = random.Random(seed), []
    for name, subject in SUBJECTS.items():
        whole = subject()
        pairs = [each for each in pairs_of(whole.making) if each[2] is why]
        if pairs:
            met.append(name)
            faulty = too_early(whole.making, *dice.choice(pairs))
            assert is_found(whole, faulty, known(name)), faulty.what
    assert met, f"no work gives the reason {why.name}: add a piece that does, or drop it"


@pytest.mark.some(few=10)
@pytest.mark.parametrize("name", [*NAMES, "glued up"])
@pytest.mark.seeds(few=4, full=50)
def test_a_planted_fault_of_order_is_found(name: str, seed: int) -> None:
    """Drawn from every reason that the work gives, each as often as any other."""
    faulty = a_fault_of_order(SUBJECTS[name]().making, random.Random(seed))
    assert is_found(SUBJECTS[name](), faulty, known(name)), faulty.what
