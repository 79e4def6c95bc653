"""A piece as weighed: what only the solids can tell, as plain values for checks and tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from furniture.parts.placement import Box
from furniture.parts.vectors import Point2, Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """Volume [mm3], mass [kg] and centre of mass [mm] of a part (part frame) or a piece."""

    volume_mm3: float
    mass_kg: float
    centre_mm: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """The piece's mass, each distinct part's by id, its extents, and where it touches the floor.

    `floor` holds points in plan [mm]; their hull is the support polygon. `area_mm2` is that of
    all faces of all parts, those inside joints too.
    """

    whole: Mass
    parts: Mapping[str, Mass]
    extents: Box
    floor: tuple[Point2, ...]
    area_mm2: float
