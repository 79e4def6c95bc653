"""Advice to put something under a part, told only where the piece is built with it."""

from __future__ import annotations

from dataclasses import replace

from furniture.checks.advice import Change, Remedy, longer
from furniture.checks.finding import Show
from furniture.pieces import Offered, Under
from furniture.units import the_listed

_CHANGE = {Under.BRACKET: Change.BRACKET, Under.CLEAT: Change.CLEAT}


def put_under(
    offered: Offered, put: str, reach_mm: float, show: Show, *, against: str = ""
) -> tuple[Remedy, ...]:
    """So long a bracket or so thick a cleat in words; nothing where the design refuses it.

    Args:
        offered: what may be put there, or is there already and may be longer
        put: the words where nothing is there yet, with `{}` where the amount stands
        reach_mm: how far it must reach, or how thick it must be [mm]
        show: puts the amount into the piece's unit
        against: what it reaches from, after the amount; nothing where its words say so

    **Source:** own rule: an opening may be in its way, or a screw too short, and who builds knows.
    """
    bearer = offered.bearer
    words = f"let {the_listed(bearer.there)} reach {{}}" if bearer.there else put
    change = _CHANGE[bearer.under]
    found = longer(change, f"{words}{against}", reach_mm, show, bearer.most_mm)
    return tuple(
        replace(each, parameters=(bearer.parameter,))
        for each in found
        if offered.built(each.amount) is not None
    )
