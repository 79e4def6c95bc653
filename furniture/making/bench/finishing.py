"""Sanding and finish: grits in order, how much finish, and how long it all takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from furniture.making.bench.gluing import SQUARE_MM_IN_A_SQUARE_M
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import FINISH_SPARE, GRIT_STEP
from furniture.shop.tools.finishes import FinishFacts

GRITS = (80, 100, 120, 150, 180, 220, 280, 320, 400)
"""Abrasives as they are sold. Common practice, no source."""


class Marks(Enum):
    """Which tool left its marks on a surface, and the grit that takes them away.

    **Source:** the finest that removes the marks, 80 to 120 (woodbin.com, wood-sanding-sequence);
    which of them after which tool: common practice, no source.
    """

    SAWN = 80
    PLANED_BY_MACHINE = 120
    PLANED_BY_HAND = 180


def sanding(marks: Marks, last_grit: int, rules: Rules = USUAL_RULES) -> tuple[int, ...]:
    """The grits to sand with, in order: the fewest that never step too far.

    Of as few the most even. A surface that is finer than the last grit gets that alone.

    Args:
        marks: of the last tool.
        last_grit: as the finish asks, one of `GRITS`.
        rules: how far one grit may be from the last.

    Raises:
        ValueError: a grit that is not sold.

    **Source:** the step is the rule's; fewest steps by trying all: own derivation.
    """
    if last_grit not in GRITS:
        raise ValueError(f"no grit {last_grit} among {GRITS}")
    if marks.value >= last_grit:
        return (last_grit,)
    ways: list[tuple[int, ...]] = [(marks.value,)]
    while True:
        arrived = [way for way in ways if way[-1] == last_grit]
        if arrived:
            return min(arrived, key=_steepest)
        ways = [(*way, each) for way in ways for each in _next(way[-1], last_grit, rules)]


def _next(grit: int, last_grit: int, rules: Rules) -> tuple[int, ...]:
    """Grits that may follow: those within the step, or else the next that there is."""
    finer = [each for each in GRITS if grit < each <= last_grit]
    near = tuple(each for each in finer if each <= grit * rules[GRIT_STEP] + 1e-9)
    return near or (finer[0],)


def _steepest(way: tuple[int, ...]) -> float:
    return max(after / before for before, after in pairwise(way))


def finish_litres(
    facts: FinishFacts, area_mm2: float, coats: int, rules: Rules = USUAL_RULES
) -> float:
    """Finish to buy for so many coats [L], by the least area that a litre covers.

    Args:
        facts: how far it goes.
        area_mm2: of one coat [mm2].
        coats: how many.
        rules: what bare wood, brush and rag take.

    **Source:** area over coverage; the spare is an own rule.
    """
    litres = area_mm2 / SQUARE_MM_IN_A_SQUARE_M * coats / facts.covers_m2_l[0]
    return litres * rules[FINISH_SPARE]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishTime:
    """How long a finish takes: from the first coat until the last may be handled, and cured.

    work_days: days on which a coat is put on, one after another or with days between.
    """

    dry_hours: float
    work_days: int
    cured_days: float


WORKING_DAY_HOURS = 8.0
"""Own rule."""


def finish_time(facts: FinishFacts, coats: int) -> FinishTime:
    """How long so many coats take.

    Coats that may follow within a working day share it.

    Args:
        facts: its waits.
        coats: how many, 1 or more.

    **Source:** the waits are those of `facts`; a working day of 8 h is an own rule.
    """
    a_day = 1 + math.floor(WORKING_DAY_HOURS / facts.recoat_hours)
    return FinishTime(
        dry_hours=coats * facts.recoat_hours,
        work_days=math.ceil(coats / a_day),
        cured_days=facts.cured_days,
    )
