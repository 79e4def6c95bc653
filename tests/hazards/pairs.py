"""Pairs that differ in one thing alone: a hazard beside its sound case."""

from __future__ import annotations

from dataclasses import replace

from furniture import Composition, LoadKind
from furniture.checks.check import Verdict
from tests.hazards.making import PINE, board, case, dowels, load, piece
from tests.hazards.rows import Danger, Sound, danger, sound
from tests.hazards.subjects import SAGS

CREEP = "NDS 3.5.2: what stays creeps, what passes does not"


def basket_shelf(kind: LoadKind, kg: float = 5.0) -> Composition:
    """A shelf of 888 x 250 x 12 mm in dados, with baskets on it."""
    boards, joints = case(PINE, 924, 250, 330, 18, (300,), span_thick=12)
    rail = board("rail", PINE, (18, 232, 100), (888, 18, 80))
    joints += dowels("rail", "left side", "right side", size=6, deep=10, length=30)
    baskets = replace(load("shelf 1", kg, (880, 220), 120), kind=kind)
    return piece([*boards, rail], joints, baskets)


@danger("D65", "Long shelf with baskets that stay on it", Verdict.CAUTION, SAGS, CREEP)
def baskets_that_stay() -> Composition:
    return basket_shelf(LoadKind.STAYS)


@sound("S65", "The same shelf with baskets that are lifted off", CREEP, fair=Verdict.NOTE)
def baskets_that_pass() -> Composition:
    return basket_shelf(LoadKind.COMES_AND_GOES)


PAIR_DANGERS: tuple[Danger, ...] = (baskets_that_stay,)
PAIR_SOUNDS: tuple[Sound, ...] = (baskets_that_pass,)
