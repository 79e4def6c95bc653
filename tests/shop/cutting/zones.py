"""Zones of boards as tests write them."""

from __future__ import annotations

from furniture.shop.cutting.values import Zone, ZoneKind, ZoneShows


def rectangular_zone(
    *,
    name: str,
    kind: ZoneKind,
    x: float,
    y: float,
    length: float,
    width: float,
    shows: ZoneShows = ZoneShows.BOTH,
    description: str = "",
    worth: float = 0.0,
) -> Zone:
    """A zone with square corners: from (x, y) [mm], length along the grain and width [mm]."""
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    return Zone(
        name=name,
        kind=kind,
        outline=corners,
        shows=shows,
        description=description,
        worth=worth,
    )
