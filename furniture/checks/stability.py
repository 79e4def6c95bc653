"""The statics of standing: when a piece and what stands on it begin to tip over an edge.

Everything here is a rigid body on a floor that does not give. Loads are free to stand anywhere
on their tier and any of them may be absent, so every answer is the worst of all such cases, the
empty piece among them. Loads of one tier stand beside or behind each other where there is room.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from furniture.checks.bodies import Body as Body
from furniture.checks.bodies import Load as Load
from furniture.checks.bodies import Surface as Surface
from furniture.checks.bodies import combined as combined
from furniture.checks.bodies import placed as placed
from furniture.checks.bodies import worst_place_mm as worst_place_mm
from furniture.checks.side_by_side import Present, choices, worst_of
from furniture.checks.support import Edge, Point
from furniture.units.gravity import GRAVITY_M_S2


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaning:
    """The worst case about one edge: who is there, where its centre lies, and the tip angle."""

    edge: Edge
    mass_kg: float
    inside_mm: float
    height_mm: float
    loads: tuple[str, ...]
    bodies: tuple[Body, ...] = ()

    @property
    def angle_deg(self) -> float:
        """The tilt at which it begins to fall over the edge [deg]; negative: it falls as it is."""
        return math.degrees(math.atan2(self.inside_mm, self.height_mm))


def worst_leaning(piece: Body, loads: Sequence[Load], edge: Edge) -> Leaning:
    """The subset of the loads, each at its worst place, that tips over the edge at least tilt.

    A load that would tip before the rest do makes them worse, one that would tip after makes them
    better; so no subset is missed, nor any load that is only partly there.

    Args:
        piece: the empty piece
        loads: all loads that may stand on it
        edge: the edge over which it would tip

    **Source:** own rule: a ratio of sums is least when exactly the lower ratios are taken in;
    found by Dinkelbach's method (fractional programming, 1967, from memory).
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

    def arm(body: Body) -> float:
        return body.weight_n * edge.inside_mm(body.centre_mm[:2])

    overhanging = worst_of(choices(loads, edge), arm)
    return own + math.fsum(arm(body) for each in overhanging for body in each.bodies)


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


def _worst_subset(
    piece: Body, loads: Sequence[Load], edge: Edge, arm_up: Callable[[Body], float]
) -> Leaning:
    """Dinkelbach's way: what makes it worse at the ratio found so far, until nothing does."""
    options = choices(loads, edge)
    there: list[Present] = []
    ratio = math.inf
    while True:
        bodies = (piece, *(body for each in there for body in each.bodies))
        mass = math.fsum(body.mass_kg for body in bodies)
        inside = math.fsum(body.mass_kg * edge.inside_mm(body.centre_mm[:2]) for body in bodies)
        up = math.fsum(body.mass_kg * arm_up(body) for body in bodies)
        if inside / up >= ratio - 1e-12:
            break
        ratio, found = inside / up, (mass, inside, up, there)
        there = worst_of(options, _worse_than(ratio, edge, arm_up))
    mass, inside, up, there = found
    return Leaning(
        edge=edge,
        mass_kg=mass,
        inside_mm=inside / mass,
        height_mm=up / mass,
        loads=tuple(name for each in there for name in each.names),
        bodies=tuple(body for each in there for body in each.bodies),
    )


def _worse_than(
    ratio: float, edge: Edge, arm_up: Callable[[Body], float]
) -> Callable[[Body], float]:
    return lambda body: body.mass_kg * (edge.inside_mm(body.centre_mm[:2]) - ratio * arm_up(body))
