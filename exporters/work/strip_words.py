"""Strips that are glued up to one part, in a maker's words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from exporters.work.lines import Told
from furniture.making.edge_gluing import EdgeGluing
from furniture.making.operations import Kind, Operation
from furniture.shop.tools.glues import HOURS_AT_REST
from furniture.units import Amounts, Shown, figure, plural

PLANED_AS_A_PAIR = ", in the vice with the edge that it meets: both at once"
"""What the plane is out of square is then out in both edges, and the faces are level."""


def strips_in_words(
    operation: Operation, gluing: Mapping[str, EdgeGluing], first_edge: str, shown: Shown
) -> Told:
    """What is done at the bench to the strips of one part.

    Args:
        operation: on them, or on what they have become.
        gluing: what gluing strips takes, by what they become.
        first_edge: what the part's edge is called that the first strip has.
        shown: how lengths are shown.
    """
    if operation.kind is Kind.EDGE_GLUE:
        return _edge_glued(gluing[operation.gives[0]], shown)
    if operation.kind is Kind.SCRAPE:
        return Told(what="once it has set, scrape the glue off both faces")
    return Told(
        what=f"strips side by side by their numbers, strip 1 at the {first_edge}, ends level; "
        "clamp them dry: no light through a joint. Draw a V across all, to lay them so again"
    )


def _edge_glued(takes: EdgeGluing, shown: Shown) -> Told:
    """Gluing up in the order in which it is done; glue, clamps and cauls are each part's own."""
    apart = figure(_floored(takes.apart_mm, shown), shown)
    opening = figure(_floored(takes.opening_mm, shown) + _step_mm(shown), shown)
    count = takes.clamps.count + takes.wanting
    short = f", {_counted(takes.wanting, 'clamp')} short on hand" if takes.wanting else ""
    spread = Amounts(shown=shown).spoonful(takes.grams)
    own = (
        f"{spread}, {takes.cauls} pairs of cauls, {count} clamps {apart} "
        f"apart that open {opening}{short}"
    )
    return Told(what="; ".join(_glued(takes)), own=own)


def _glued(takes: EdgeGluing) -> Iterator[str]:
    spread, left = max(1, round(takes.spread_minutes)), takes.closed_minutes
    then = "" if left is None or left < 1.0 else f", then {math.floor(left)} until all is tight"
    yield f"glue on both edges of {_counted(takes.lines, 'joint')}: {spread} min to spread it{then}"
    yield "cauls across, taped against glue, level the faces"
    yield "every second clamp from below"
    if takes.time.is_enough is False:
        yield "that is longer than the glue waits: glue two, and the next to them when they are dry"
    if takes.glue.clamp_minutes is not None:
        yield f"{takes.glue.clamp_minutes:g} min in clamps, {HOURS_AT_REST:g} h before planing"


def _step_mm(shown: Shown) -> float:
    """Nearer is no clamp set [mm]. Own rule."""
    return 12.7 if shown.is_inch else 10.0


def _floored(mm: float, shown: Shown) -> float:
    step = _step_mm(shown)
    return step * math.floor(mm / step + 1e-9)


def _counted(count: int, name: str) -> str:
    return f"{count} {plural(name)}" if count > 1 else f"1 {name}"
