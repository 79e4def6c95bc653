"""Links: what two bodies can do to each other at a point, as one force along one direction each.

A bare face pushes at its corners, a glued one also pulls and slides up to its strength, a fastener
pulls along its axis and holds across it. Everything that the statics know of a joint is in these.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from furniture.joints.joint import Fastener, Joining, JointFace
from furniture.parts.vectors import Vector, add, cross, dot, scaled, unit
from furniture.rules.bench import GLUE_LINE
from furniture.structure.capacity import (
    Carries,
    GlueStrength,
    glue_strength,
    is_known,
    pull_of,
)
from furniture.timber.species import Species

_SAME_MM = 1e-9
"""Plays nearer than this are one [mm]. The joints say where glue holds; a face with more play than
glue bridges is never counted."""
GROUND = -1
"""The index of what does not move: the floor, the wall, a hand that lifts."""

TOUCHES_MM = 1e-6
"""Faces with less play than this touch [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A force of `least_n` to `most_n` on `first` along `direction`, and its opposite on `second`.

    Piece frame [mm, N]. `joining` is the place of its joint in the piece, None for floor and wall.
    Bounds are infinite where nothing limits it. `play_mm` is how far the two lie apart before it
    begins to push. `is_known` says whether its limits are: what is not known bears as the other
    wood does, or without limit.
    """

    first: int
    second: int
    at: Vector
    direction: Vector
    least_n: float
    most_n: float
    carries: Carries
    joining: int | None = None
    play_mm: float = 0.0
    is_known: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """The two bodies of a joint by their index, with their wood, and the joint's place."""

    first: int
    second: int
    first_species: Species
    second_species: Species
    joining: int


def links_of(joining: Joining, ends: Ends) -> Iterator[Link]:
    """Every link of one joint.

    Args:
        joining: with its faces and fasteners
        ends: the incoming part first
    """
    for face in joining.faces:
        yield from _pushes(face, ends)
        if face.glue is not None and face.play_mm <= GLUE_LINE.value + _SAME_MM:
            yield from _glued(face, ends)
    for fastener in joining.fasteners:
        yield from _fastened(fastener, ends)


def corners_of(face: JointFace, share: float = 1.0) -> tuple[Vector, ...]:
    """Four points of a face: its corners, or points that share of the way out to them [mm]."""
    along = unit(face.along)
    across = cross(face.normal, along)
    run, deep = share * face.run_mm / 2.0, share * face.deep_mm / 2.0
    return tuple(
        add(face.centre, add(scaled(along, u * run), scaled(across, v * deep)))
        for u in (-1.0, 1.0)
        for v in (-1.0, 1.0)
    )


def _pushes(face: JointFace, ends: Ends) -> Iterator[Link]:
    # Corners, not points inside: a hand on a lid's corner would else tip it off its own rabbet.
    play = face.play_mm if face.play_mm > TOUCHES_MM else 0.0
    for corner in corners_of(face):
        yield Link(
            first=ends.first,
            second=ends.second,
            at=corner,
            direction=scaled(face.normal, -1.0),
            least_n=0.0,
            most_n=math.inf,
            carries=Carries.PUSH,
            joining=ends.joining,
            play_mm=play,
        )


def _glued(face: JointFace, ends: Ends) -> Iterator[Link]:
    assert face.glue is not None, "only glued faces come here"
    strength: GlueStrength = glue_strength(face.glue, ends.first_species, ends.second_species)
    both_known = is_known(ends.first_species) and is_known(ends.second_species)
    area = face.area_mm2 / 4.0
    pull, slide = area * strength.peel_mpa, area * strength.shear_mpa
    first, second = axes_across(face.normal)
    for point in corners_of(face, 1.0 / math.sqrt(3.0)):  # two by two Gauss points
        for direction, least, most in (
            (face.normal, 0.0, pull),
            (first, -slide, slide),
            (second, -slide, slide),
        ):
            yield Link(
                first=ends.first,
                second=ends.second,
                at=point,
                direction=direction,
                least_n=least,
                most_n=most,
                carries=strength.carries,
                joining=ends.joining,
                is_known=both_known,
            )


def anchored(fastener: Fastener, body: int) -> Iterator[Link]:
    """What a fastener into the wall does: it pulls along its axis and holds across it.

    Without limit, since what the wall bears is not known here; the figure it must bear is told.
    """
    endless = replace(fastener, pull_n=math.inf, side_n=math.inf)
    yield from _driven(endless, body, GROUND, None)


def _fastened(fastener: Fastener, ends: Ends) -> Iterator[Link]:
    yield from _driven(fastener, ends.first, ends.second, ends.joining)


def _driven(fastener: Fastener, first: int, second: int, joining: int | None) -> Iterator[Link]:
    # What is not known is told as not checked, and must not seem to let go.
    pull = math.inf if fastener.pull_n is None else fastener.pull_n
    yield Link(
        first=first,
        second=second,
        at=fastener.at,
        direction=fastener.axis,
        least_n=-math.inf if fastener.bears_too else 0.0,
        most_n=pull,
        carries=pull_of(fastener),
        joining=joining,
        is_known=fastener.pull_n is not None,
    )
    for direction, bears in sideways_of(fastener):
        side = math.inf if bears is None else bears
        yield Link(
            first=first,
            second=second,
            at=fastener.at,
            direction=direction,
            least_n=-side,
            most_n=side,
            carries=Carries.SIDE,
            joining=joining,
            is_known=bears is not None,
        )


def sideways_of(fastener: Fastener) -> tuple[tuple[Vector, float | None], ...]:
    """Two ways across a fastener, as unit vectors, and what it bears along each of them [N].

    Args:
        fastener: along its slot, where it stands in one, it bears nothing
    """
    if fastener.slot is None:
        return tuple((way, fastener.side_n) for way in axes_across(fastener.axis))
    along = fastener.slot.along
    return ((along, 0.0), (cross(fastener.axis, along), fastener.slot.across_n))


def axes_across(normal: Vector) -> tuple[Vector, Vector]:
    """Two unit vectors at right angles to `normal` and to each other, upright where they can be.

    Loads hang straight down, so a limit along these axes is a limit on what really pulls.
    """
    up: Vector = (0.0, 0.0, 1.0)
    start = up if abs(dot(normal, up)) < 0.9 else (1.0, 0.0, 0.0)
    first = unit(add(start, scaled(normal, -dot(start, normal))))
    return first, cross(normal, first)
