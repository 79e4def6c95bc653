"""An end of a shelf between two uprights: how it presses its dado, and what it lies on before."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from furniture.checks.advice import Change, Remedy, least_that, longer
from furniture.checks.finding import Finding, Show
from furniture.checks.housing import Housing, Ledge, Lever, rested_bearing_mpa
from furniture.checks.housing_findings import bearing_finding, deeper_dado, less_load
from furniture.checks.tried import put_under
from furniture.pieces import Under
from furniture.rules import Rules
from furniture.rules.building import LEAST_BRACKET_BETWEEN, MOST_BRACKET_BETWEEN

_DEEPEST = 4.0
"""How deep a dado is looked for at most, in thicknesses of its post."""
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

    def reach_mm(wide_mm: float, least_mm: float, most_mm: float) -> float | None:
        """How far what is put there must reach [mm]; None where not even the longest does."""
        return least_that(
            lambda reach: _pressed(
                housing, lever, [Ledge(wide_mm=wide_mm, reach_mm=reach)]
            ) <= limit,
            least_mm, most_mm,
        )  # fmt: skip

    if housing.bearers is None:
        words = _WORDS[Under.BRACKET, 1]
        if housing.brackets:
            words = f"let {housing.brackets} reach {{}}"
        most = rules[MOST_BRACKET_BETWEEN] * span
        reach = reach_mm(housing.shelf_thickness_mm, rules[LEAST_BRACKET_BETWEEN] * span, most)
        if reach is not None:
            yield from longer(Change.BRACKET, words, reach, show, most)
        return
    told: set[Under] = set()
    for each in housing.bearers:
        bearer = each.bearer
        reach = reach_mm(bearer.wide_mm, bearer.least_mm, bearer.most_mm)
        if bearer.under in told or reach is None:
            continue
        found = put_under(each, _WORDS[bearer.under, bearer.count], reach, show)
        told |= {bearer.under for _ in found}
        yield from found
