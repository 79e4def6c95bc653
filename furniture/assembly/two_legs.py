"""Moves of two straight legs: a short one out of a hook or from under a lip, then away.

Tried where no single straight move serves, or where the only one goes square to a joint's natural
way, as when a piece is unhooked from its wall cleat sideways. Nothing is sampled along either leg.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.assembly.blocking import (
    PLAY_MM,
    blocked_after,
    blocked_within,
    meets_along,
    meets_within,
)
from furniture.assembly.body import Body
from furniture.assembly.directions import opposite
from furniture.assembly.seen import Scene, Side
from furniture.assembly.splitting import leaving_groups
from furniture.parts.vectors import Vector, dot, length, scaled, subtract

LONGEST_LEG_MM = 80.0
"""The longest short leg that is tried [mm]. Own rule: farther is no hook but a slide."""
LEAST_SIDE_MM = 1.0
MOST_LEGS = 16
"""How many lengths of the short leg are tried, the shortest first. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoLegs:
    """How a group leaves the rest: so far along `first`, and then along `then`, unit vectors."""

    leaving: frozenset[int]
    first: Vector
    first_mm: float
    then: Vector


def unhooked(
    scene: Scene,
    leaving: Sequence[int],
    rest: Sequence[int],
    first: Vector,
    lines: Sequence[Vector],
) -> tuple[TwoLegs, ...]:
    """The ways in which the group can leave the rest after the shortest first leg along `first`.

    A way that is open without the first leg does not count: the leg would be for show.

    Args:
        scene: all parts in their places.
        leaving: rows of the parts that leave as one.
        rest: rows of those that stay.
        first: unit vector of the first leg.
        lines: what is tried for the second, both ways.
    """
    group, still = Side(scene, leaving), Side(scene, rest)
    lengths = leg_lengths(group.bodies, still.bodies, first)
    if not lengths or meets_within(group, still, first, lengths[0]):
        return ()
    seconds = [way for way in _seconds(lines, first) if meets_along(group, still, way)]
    for distance in lengths:
        if meets_within(group, still, first, distance):
            return ()
        shift = scaled(first, distance)
        free = tuple(
            TwoLegs(leaving=frozenset(leaving), first=first, first_mm=distance, then=then)
            for then in seconds
            if not meets_along(group, still, then, shift)
        )
        if free:
            return free
    return ()


def any_two_legs(
    bodies: Sequence[Body], group: Sequence[int], lines: Sequence[Vector]
) -> TwoLegs | None:
    """Any parts of a group that can leave the others in two legs, those of the shortest first leg.

    Args:
        bodies: all parts in their places.
        group: rows of those that no single move takes apart.
        lines: what is tried for both legs, both ways.
    """
    some = Scene([bodies[each] for each in group])
    best: TwoLegs | None = None
    for first in _both_ways(lines):
        for distance in leg_lengths(some.bodies, some.bodies, first):
            if best is not None and distance >= best.first_mm:
                break
            held = blocked_within(some, first, distance)
            if not leaving_groups(held):
                break
            found = _second(some, held, first, distance, lines)
            if found is not None:
                chosen, then = found
                leaving = frozenset(group[row] for row in chosen)
                best = TwoLegs(leaving=leaving, first=first, first_mm=distance, then=then)
                break
    return best


def leg_lengths(moving: Sequence[Body], still: Sequence[Body], way: Vector) -> list[float]:
    """How far a leg may usefully go [mm]: until some corner of what moves comes level with another.

    Args:
        moving: what moves.
        still: what it moves past.
        way: unit vector.
    """
    own, other = (_levels(bodies, way) for bodies in (moving, still))
    apart = np.unique(np.round((other[None, :] - own[:, None]).ravel(), 3))
    useful = apart[(apart > PLAY_MM) & (apart <= LONGEST_LEG_MM)]
    return [float(each) for each in useful[:MOST_LEGS]]


def _levels(bodies: Sequence[Body], way: Vector) -> NDArray[np.float64]:
    """Where along the way the corners lie [mm]; the small steps of a curve are no corners."""
    found = [
        dot(point, way)
        for body in bodies
        for facet in body.facets
        if facet.face_slack_mm == 0.0
        for ring in (facet.outer, *facet.holes)
        for index, point in enumerate(ring)
        if max(
            length(subtract(point, ring[index - 1])),
            length(subtract(point, ring[(index + 1) % len(ring)])),
        )
        > LEAST_SIDE_MM
    ]
    return np.unique(np.round(np.array(found, dtype=np.float64), 4))


def _second(
    some: Scene,
    held: NDArray[np.bool_],
    first: Vector,
    distance: float,
    lines: Sequence[Vector],
) -> tuple[frozenset[int], Vector] | None:
    for then in _seconds(lines, first):
        groups = leaving_groups(held | blocked_after(some, scaled(first, distance), then))
        if groups:
            return min(groups, key=lambda rows: (len(rows), sorted(rows))), then
    return None


def _both_ways(lines: Sequence[Vector]) -> Iterator[Vector]:
    for line in lines:
        yield line
        yield opposite(line)


def _seconds(lines: Sequence[Vector], first: Vector) -> Iterator[Vector]:
    """The ways that are not the first leg's own line."""
    return (way for way in _both_ways(lines) if abs(dot(way, first)) < 1.0 - 1e-6)
