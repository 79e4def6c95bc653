"""Loads whose footprint is larger than the surface that they stand on."""

from __future__ import annotations

from furniture.checks.bodies import Load
from furniture.checks.finding import Finding, Show
from furniture.checks.rows.shelves import OVER_EDGE

HAIR_MM = 1e-6
_SIZES = ("width", "depth")


def over_edge_finding(load: Load, show: Show) -> Finding | None:
    """A caution where a load stands over the edge of its surface; None where it lies on it.

    Args:
        load: the load and the surface on which it stands
        show: puts amounts into the piece's unit

    **Source:** geometry of footprint and surface; that it is to mind is an own rule.
    """
    surface = load.on
    room = (surface.x1_mm - surface.x0_mm, surface.y1_mm - surface.y0_mm)
    over = [footprint - size for footprint, size in zip(load.footprint_mm, room, strict=True)]
    if max(over) <= HAIR_MM:
        return None
    found = [(each, name) for each, name in zip(over, _SIZES, strict=True) if each > HAIR_MM]
    amounts = " and ".join(f"{show(each)} in {name}" for each, name in found)
    more = " and ".join(f"{show(show.up(each))} more {name}" for each, name in found)
    return Finding(
        check=OVER_EDGE,
        subject=load.name,
        value=max(over),
        limits=OVER_EDGE.limits(),
        basis=f"its footprint of {show(load.footprint_mm[0])} by {show(load.footprint_mm[1])} is "
        f"larger than the {show(room[0])} by {show(room[1])} of {surface.name}, by {amounts}; what "
        "it presses on past the edge is left out, its middle is kept on the surface",
        advice=f"give {surface.name} {more}, or stand something smaller on it",
    )
