"""What the planner knows of a part: its name, its surface in place, and how much wood it is."""

from __future__ import annotations

from dataclasses import dataclass, replace

from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector
from furniture.solids.facets import Facet


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A part in its place.

    Args:
        name: of the instance.
        facets: the whole surface, piece frame [mm].
        volume_mm3: how much wood, to tell what is light to move.
        centre: the middle, piece frame [mm].
    """

    name: str
    facets: tuple[Facet, ...]
    volume_mm3: float
    centre: Vector


def moved(facets: tuple[Facet, ...], placement: Placement) -> tuple[Facet, ...]:
    """Facets of a part, in the piece frame."""
    return tuple(
        replace(
            facet,
            outer=tuple(placement.to_piece(point) for point in facet.outer),
            holes=tuple(tuple(placement.to_piece(point) for point in hole) for hole in facet.holes),
            normal=placement.direction_to_piece(facet.normal),
        )
        for facet in facets
    )
