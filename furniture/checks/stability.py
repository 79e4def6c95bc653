"""The statics of standing: when a piece and what stands on it begin to tip over an edge.

Everything here is a rigid body on a floor that does not give. Loads are free to stand anywhere
on their tier and any of them may be absent, so every answer is the worst of all such cases, the
empty piece among them. Two loads of one tier may overlap in the worst case: a cautious bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from furniture.checks.support import Edge, Point

GRAVITY_M_S2 = 9.80665


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
    """

    name: str
    on: Surface
    mass_kg: float
    footprint_mm: tuple[float, float]
    centre_height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaning:
    """The worst case about one edge: who is there, where its centre lies, and the tip angle."""

    edge: Edge
    mass_kg: float
    inside_mm: float
    height_mm: float
    loads: tuple[str, ...]

    @property
    def angle_deg(self) -> float:
        """The tilt at which it begins to fall over the edge [deg]; negative: it falls as it is."""
        return math.degrees(math.atan2(self.inside_mm, self.height_mm))


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


def tip_angle_deg(inside_mm: float, height_mm: float) -> float:
    """The tilt [deg] at which a body begins to fall over an edge.

    Args:
        inside_mm: how far its centre lies inside the edge in plan [mm]
        height_mm: the height of its centre above the floor [mm], above 0

    **Source:** statics, tan(angle) = inside / height.
    """
    return math.degrees(math.atan2(inside_mm, height_mm))


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


def worst_leaning(piece: Body, loads: Sequence[Load], edge: Edge) -> Leaning:
    """The subset of the loads, each at its worst place, that tips over the edge at least tilt.

    Loads are taken in order of their own inside/height; one that would tip before the rest do
    makes them worse, one that would tip after makes them better. So no subset is missed, nor
    any load that is only partly there.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip

    **Source:** own rule: a ratio of sums is least when exactly the lower ratios are taken in.
    """
    return _worst_subset(piece, loads, edge, lambda body: body.centre_mm[2])


def worst_pushed(piece: Body, loads: Sequence[Load], edge: Edge, height_mm: float) -> Leaning:
    """The subset of the loads that a push in proportion to the whole weight tips most easily.

    Its `height_mm` is that of the push, so inside/height is the push as a share of the weight.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip
        height_mm: where the push acts above the floor [mm], above 0

    **Source:** statics; subset by the same rule as `worst_leaning`.
    """
    return _worst_subset(piece, loads, edge, lambda _: height_mm)


def empty_leaning(piece: Body, edge: Edge) -> Leaning:
    """The empty piece about that edge.

    Args:
        piece: the empty piece
        edge: the edge over which it would tip
    """
    return worst_leaning(piece, (), edge)


def worst_over_edges(piece: Body, loads: Sequence[Load], edges: Sequence[Edge]) -> Leaning:
    """The least tip angle over all edges, loads absent or at their worst.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edges: the edges of the support polygon
    """
    leanings = (worst_leaning(piece, loads, edge) for edge in edges)
    return min(leanings, key=lambda each: each.angle_deg)


def righting_moment_nmm(piece: Body, loads: Sequence[Load], edge: Edge) -> float:
    """The least moment [N mm] that holds the level piece down against tipping over the edge.

    Only loads that overhang the edge count: any other would help, and may be absent.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip

    **Source:** statics, weight times arm; worst subset as stated.
    """
    own = piece.weight_n * edge.inside_mm(piece.centre_mm[:2])
    bodies = (placed(load, edge) for load in loads)
    overhanging = (body.weight_n * min(0.0, edge.inside_mm(body.centre_mm[:2])) for body in bodies)
    return own + math.fsum(overhanging)


def tipping_push_n(piece: Body, loads: Sequence[Load], edge: Edge, height_mm: float) -> float:
    """The horizontal force [N] outward over the edge that just tips the piece; 0 if it falls alone.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip
        height_mm: where the force acts above the floor [mm], above 0

    Raises:
        ValueError: a height that is not above 0.

    **Source:** statics, force = righting moment / height.
    """
    if height_mm <= 0.0:
        raise ValueError(f"a force at {height_mm} mm above the floor has no arm")
    return max(0.0, righting_moment_nmm(piece, loads, edge)) / height_mm


def tipping_press_n(piece: Body, loads: Sequence[Load], edge: Edge, at_mm: Point) -> float | None:
    """The downward force [N] at a point that just tips the piece over the edge.

    None where the point is not outside the edge: no force there tips it over that edge.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip
        at_mm: (x, y) of the force [mm]

    **Source:** statics, force = righting moment / arm outside the edge.
    """
    arm = -edge.inside_mm(at_mm)
    if arm <= 1e-9:
        return None
    return max(0.0, righting_moment_nmm(piece, loads, edge)) / arm


def sliding_force_n(mass_kg: float, friction: float) -> float:
    """The horizontal force [N] at which a body on a level floor begins to slide.

    Args:
        mass_kg: mass of the piece and what stands on it [kg]
        friction: coefficient of friction on the floor [-], 0 or more

    **Source:** statics, Coulomb friction.
    """
    return friction * mass_kg * GRAVITY_M_S2


def tipping_energy_j(leaning: Leaning) -> float:
    """The work [J] that lifts the centre over the edge: how hard a knock it takes.

    Args:
        leaning: the piece about an edge

    **Source:** statics, W (sqrt(d^2 + h^2) - h).
    """
    rise_mm = math.hypot(leaning.inside_mm, leaning.height_mm) - leaning.height_mm
    return leaning.mass_kg * GRAVITY_M_S2 * rise_mm / 1000.0 if leaning.inside_mm > 0.0 else 0.0


def _furthest(low: float, high: float, footprint: float, outward: float) -> float:
    middle = (low + high) / 2.0
    reach = min(abs(high - low - footprint), high - low) / 2.0
    if abs(outward) < 1e-12:
        return middle
    return middle + math.copysign(reach, outward)


def _worst_subset(
    piece: Body, loads: Sequence[Load], edge: Edge, arm_up: Callable[[Body], float]
) -> Leaning:
    mass = piece.mass_kg
    inside = mass * edge.inside_mm(piece.centre_mm[:2])
    up = mass * arm_up(piece)
    names: list[str] = []
    bodies = [(load, placed(load, edge)) for load in loads if load.mass_kg > 0.0]
    bodies.sort(key=lambda each: edge.inside_mm(each[1].centre_mm[:2]) / arm_up(each[1]))
    for load, body in bodies:
        its_inside = body.mass_kg * edge.inside_mm(body.centre_mm[:2])
        its_up = body.mass_kg * arm_up(body)
        if its_inside * up >= inside * its_up:
            break
        mass, inside, up = mass + body.mass_kg, inside + its_inside, up + its_up
        names.append(load.name)
    return Leaning(
        edge=edge,
        mass_kg=mass,
        inside_mm=inside / mass,
        height_mm=up / mass,
        loads=tuple(names),
    )
