"""An end of a shelf between two uprights: how it presses its dado, and what it lies on before."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from furniture.checks.advice import Change, Remedy, least_that, longer
from furniture.checks.finding import Finding, Show
from furniture.checks.housing import Housing, Ledge, Lever, rested_bearing_mpa
from furniture.checks.housing_findings import bearing_finding, deeper_dado, less_load
from furniture.pieces import Bearer, Under
from furniture.rules import Rules
from furniture.rules.building import LEAST_BRACKET_BETWEEN, MOST_BRACKET_BETWEEN

_DEEPEST = 4.0
"""How deep a dado is looked for at most, in thicknesses of its post."""
_CHANGE = {Under.BRACKET: Change.BRACKET, Under.CLEAT: Change.CLEAT}
_WORDS = {
    (Under.BRACKET, 1): "put a bracket that reaches {} under each of its ends",
    (Under.BRACKET, 2): "put two brackets that reach {} under each of its ends",
    (Under.CLEAT, 1): "put cleats {} thick under its ends",
}


def end_finding(
    housing: Housing, lever: Lever, ledges: Sequence[Ledge], show: Show, rules: Rules
) -> Finding:
    """All that an end of a shelf bears, in its dado and on its brackets or cleats.

    Args:
        housing: the joint; its `brackets` name what else the end lies on
        lever: the load, over the dado's mouth
        ledges: where the end lies on those
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** as `rested_bearing_mpa` and `bearing_finding`.
    """
    pressure = _pressed(housing, lever, ledges)

    def against(limit: float) -> tuple[Remedy, ...]:
        needed = least_that(
            lambda depth: _pressed(replace(housing, depth_mm=depth), lever, ledges) <= limit,
            housing.depth_mm, _DEEPEST * housing.post_thickness_mm,
        )  # fmt: skip
        return (
            *(() if needed is None else deeper_dado(housing, needed, show, rules)),
            *_borne(housing, lever, limit, show, rules),
            *less_load(lever, limit / pressure, show, rules),
        )

    otherwise = "make it of wood that is harder across its grain"
    return bearing_finding(
        housing, lever, pressure, housing.brackets if ledges else "", against, otherwise, show,
        rules,
    )  # fmt: skip


def _pressed(housing: Housing, lever: Lever, ledges: Sequence[Ledge]) -> float:
    return rested_bearing_mpa(housing.width_mm, housing.depth_mm, lever.force_n, ledges)


def _borne(
    housing: Housing, lever: Lever, limit: float, show: Show, rules: Rules
) -> Iterable[Remedy]:
    """One of each kind that may be put under both ends, as far out as it must reach."""
    span = housing.projection_mm
    own = Bearer(
        under=Under.BRACKET, parameter="", count=1, wide_mm=housing.shelf_thickness_mm,
        least_mm=rules[LEAST_BRACKET_BETWEEN] * span, most_mm=rules[MOST_BRACKET_BETWEEN] * span,
    )  # fmt: skip
    told: set[Under] = set()
    for each in (own,) if housing.bearers is None else housing.bearers:
        if each.under in told:
            continue
        reach = _reach_mm(housing, lever, each, limit)
        if reach is None:
            continue
        words = _WORDS[each.under, each.count]
        if housing.brackets:
            words = f"let {housing.brackets} reach {{}}"
        for remedy in longer(_CHANGE[each.under], words, reach, show, each.most_mm):
            told.add(each.under)
            yield replace(remedy, parameters=tuple(filter(None, (each.parameter,))))


def _reach_mm(housing: Housing, lever: Lever, bearer: Bearer, limit: float) -> float | None:
    """How far what is put there must reach [mm]; None where not even the longest does."""

    def holds(reach_mm: float) -> bool:
        ledge = Ledge(wide_mm=bearer.wide_mm, reach_mm=reach_mm)
        return _pressed(housing, lever, [ledge]) <= limit

    return least_that(holds, bearer.least_mm, bearer.most_mm)
