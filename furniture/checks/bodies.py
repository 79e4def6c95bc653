"""Rigid bodies, the surfaces of a piece, and the loads that stand on them at their worst place."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from furniture.checks.support import Edge
from furniture.units.gravity import GRAVITY_M_S2


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A rigid body: its mass and the centre of it in the piece's frame (right, back, up)."""

    mass_kg: float
    centre_mm: tuple[float, float, float]

    @property
    def weight_n(self) -> float:
        """Its weight [N]."""
        return self.mass_kg * GRAVITY_M_S2


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A level rectangle that carries loads: a tier's top, the lid, or the floor of the box."""

    name: str
    x0_mm: float
    x1_mm: float
    y0_mm: float
    y1_mm: float
    top_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Something that stands on a surface, anywhere on it, or is not there.

    The footprint is its width (left to right) and depth; the centre height is above the surface.
    `thing` is what it is called where its surface is told already, its name where nothing is said.
    """

    name: str
    on: Surface
    mass_kg: float
    footprint_mm: tuple[float, float]
    centre_height_mm: float
    thing: str = ""

    @property
    def is_called(self) -> str:
        """What it is called beside its surface's name."""
        return self.thing or self.name


def combined(bodies: Iterable[Body]) -> Body:
    """Several bodies as one: masses added, centres weighted by mass.

    Args:
        bodies: one or more, with some mass in all

    Raises:
        ValueError: when there is no mass.

    **Source:** statics, the centre of mass of several bodies.
    """
    parts = tuple(bodies)
    mass = math.fsum(body.mass_kg for body in parts)
    if mass <= 0.0:
        raise ValueError("bodies without mass have no centre of mass")
    x, y, z = (
        math.fsum(body.mass_kg * body.centre_mm[axis] for body in parts) / mass for axis in range(3)
    )
    return Body(mass_kg=mass, centre_mm=(x, y, z))


def worst_place_mm(load: Load, edge: Edge) -> tuple[float, float, float]:
    """Where the load's centre is worst for that edge (x, y, z) [mm], its footprint on the surface.

    A footprint larger than the surface may slide until an edge of the surface shows, but its
    centre never leaves the surface.

    Args:
        load: the load and the surface on which it stands
        edge: the edge over which the piece would tip

    **Source:** own rule: the moment is linear in the place, so a corner of the range is worst.
    """
    surface = load.on
    x = _furthest(surface.x0_mm, surface.x1_mm, load.footprint_mm[0], edge.outward[0])
    y = _furthest(surface.y0_mm, surface.y1_mm, load.footprint_mm[1], edge.outward[1])
    return (x, y, surface.top_mm + load.centre_height_mm)


def placed(load: Load, edge: Edge) -> Body:
    """The load as a body at its worst place for that edge.

    Args:
        load: the load and the surface on which it stands
        edge: the edge over which the piece would tip
    """
    return Body(mass_kg=load.mass_kg, centre_mm=worst_place_mm(load, edge))


def _furthest(low: float, high: float, footprint: float, outward: float) -> float:
    middle = (low + high) / 2.0
    reach = min(abs(high - low - footprint), high - low) / 2.0
    if abs(outward) < 1e-12:
        return middle
    return middle + math.copysign(reach, outward)
