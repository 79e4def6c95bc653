"""How a stepped stand looks: whether it steps back alike from the front and from the side.

Told as notes alone, with the figures that would bring both views together; taste decides.
"""

from __future__ import annotations

from furniture.checks.check import Verdict
from furniture.checks.finding import Finding, Show, without_figure
from furniture.checks.rows.shelves import SPARE_DEPTH, STEPS_ALIKE
from furniture.checks.stability import Load
from furniture.pieces import Proportion, TierSeen
from furniture.rules import Rules
from furniture.rules.design import DEPTH_TO_NEED, STEPS_FROM, STRAIGHT_WITHIN

_FRONT, _SIDE = "seen from the front", "seen from the side"


def steps_finding(seen: Proportion, show: Show, rules: Rules) -> Finding | None:
    """A stand that steps back in one view and stands straight in the other, and what brings both
    together: as much at the front as at either end. None where there is nothing to tell.

    Args:
        seen: the tiers from the lowest up, and how small they may be
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** own rule: the same step at the front and at both ends is the same slope in both
    views.
    """
    count = len(seen.tiers) - 1
    if count < 1 or seen.least_width_mm is None:
        return None
    low, top = seen.tiers[0], seen.tiers[-1]
    at_ends = (low.width_mm - top.width_mm) / 2.0 / count
    at_front = (low.depth_mm - top.depth_mm) / count
    steps, straight = rules[STEPS_FROM], rules[STRAIGHT_WITHIN]
    if at_ends >= steps and abs(at_front) <= straight:
        most = (low.depth_mm - seen.least_depth_mm) / count
        if most < steps:
            return None
        sizes = [low.depth_mm - index * min(at_ends, most) for index in range(count + 1)]
        return _unlike((at_ends, _FRONT, _SIDE), f"{_row(sizes, show)} deep", show)
    if at_front >= steps and abs(at_ends) <= straight:
        most = (low.width_mm - seen.least_width_mm) / 2.0 / count
        if most < steps:
            return None
        sizes = [low.width_mm - 2.0 * index * min(at_front, most) for index in range(count + 1)]
        return _unlike((at_front, _SIDE, _FRONT), f"{_row(sizes, show)} wide", show)
    return None


def spare_depth_finding(
    tier: TierSeen, loads: tuple[Load, ...], least_mm: float, show: Show, rules: Rules
) -> Finding | None:
    """A tier that is deeper than anything that stands on it needs.

    None where nothing is stated for it, or where it takes more than one row.

    Args:
        tier: as it is seen
        loads: that stand on it
        least_mm: how deep it is at least [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** own rule, a multiple of the deepest footprint.
    """
    if not loads or sum(each.footprint_mm[0] for each in loads) > tier.width_mm:
        return None
    need = max(each.footprint_mm[1] for each in loads)
    deep = max(loads, key=lambda each: each.footprint_mm[1])
    enough = max(rules[DEPTH_TO_NEED] * need, least_mm)
    limits = SPARE_DEPTH.limits(notes=enough)
    is_deeper = SPARE_DEPTH.verdict(tier.depth_mm, limits) is Verdict.NOTE
    return Finding(
        check=SPARE_DEPTH,
        subject=tier.instance,
        value=tier.depth_mm,
        limits=limits,
        basis=f"{deep.name} is the deepest thing there, {show(need)}",
        advice=f"{show(enough)} deep is enough, if it is not so for its looks" if is_deeper else "",
    )


def _unlike(told: tuple[float, str, str], sizes: str, show: Show) -> Finding:
    step, stepping, straight = told
    return without_figure(
        STEPS_ALIKE,
        Verdict.NOTE,
        f"{stepping} it steps back {show(step)} a tier, {straight} it stands straight",
        subject="the tiers",
        advice=f"make them {sizes}, from the lowest up, and both views have one slope",
    )


def _row(sizes: list[float], show: Show) -> str:
    told = [show(each) for each in sizes]
    return f"{', '.join(told[:-1])} and {told[-1]}"
