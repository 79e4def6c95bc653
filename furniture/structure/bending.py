"""What a bent piece shows: how far level parts sag, how they are stressed, how joints are used.

Sag is told beside what bears the part: a shelf that goes down with its uprights has not sagged.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.joints.joint import Joining
from furniture.parts.vectors import DOWN, Vector, add, cross, dot, scaled, subtract, unit
from furniture.pieces import Piece, StandingLoad, placed_named
from furniture.structure.capacity import Carries
from furniture.structure.elastic import Bent
from furniture.structure.frame import Frame
from furniture.structure.rigid import Push
from furniture.units.gravity import GRAVITY_M_S2

SPREAD = (-0.774596669, 0.0, 0.774596669)
SPREAD_SHARES = (5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0)
"""Three Gauss points along a side and their shares: what is spread evenly is loaded there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """The greatest fall of a level part beside what bears it, and its greatest stresses [mm, MPa].

    `at` is where it falls most and `span_mm` the length that it falls over: between two bearings,
    or from the only one to there. Stresses are those of the blank, along and across its grain:
    `stresses` holds them at every place of the mesh.
    """

    instance: str
    fall_mm: float
    at: Vector
    span_mm: float
    is_beyond: bool
    along_mpa: float
    across_mpa: float
    stresses: tuple[tuple[float, float, Vector], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How much of what a joint bears is taken: its worst spring, force over strength [-]."""

    joining: int
    share: float
    carries: Carries
    force_n: float
    strength_n: float


def spread_weights(piece: Piece, frame: Frame) -> tuple[Push, ...]:
    """Own weights, spread over every part, and what lies fixed, spread over its own size."""
    pushes: list[Push] = []
    for body, placed in enumerate(piece.placed):
        blank = placed.part.blank
        middle = placed.placement.to_piece(
            (blank.length_mm / 2.0, blank.width_mm / 2.0, blank.thickness_mm / 2.0)
        )
        pushes += _spread(
            body, middle, placed.placement.x_axis, placed.placement.y_axis,
            (blank.length_mm, blank.width_mm), frame.masses[body].mass_kg,
        )  # fmt: skip
    for each in piece.fixed:
        pushes += _level(frame.body(each.on), each.centre_mm, each.size_mm[:2], each.mass_kg)
    return tuple(pushes)


def spread_load(frame: Frame, load: StandingLoad, at: Vector) -> tuple[Push, ...]:
    """A load over its footprint, its middle at a point of its surface."""
    return tuple(_level(frame.body(load.on), at, load.footprint_mm, load.mass_kg))


def _level(body: int, middle: Vector, size: tuple[float, float], mass_kg: float) -> Sequence[Push]:
    return _spread(body, middle, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), size, mass_kg)


def _spread(
    body: int, middle: Vector, one: Vector, other: Vector, size: tuple[float, float], mass_kg: float
) -> list[Push]:
    weight = GRAVITY_M_S2 * mass_kg
    return [
        Push(
            body=body,
            at=add(middle, add(scaled(one, u * size[0] / 2.0), scaled(other, v * size[1] / 2.0))),
            force_n=(0.0, 0.0, -weight * wu * wv),
        )
        for u, wu in zip(SPREAD, SPREAD_SHARES, strict=True)
        for v, wv in zip(SPREAD, SPREAD_SHARES, strict=True)
    ]


def sag_of(piece: Piece, bent: Bent, instance: str) -> Sag:
    """The fall of a level part beside its bearings, and its stresses.

    Args:
        piece: with its joinings
        bent: the piece under a load
        instance: a level part
    """
    names = [each.instance for each in piece.placed]
    body = names.index(instance)
    bearings = bearings_of(piece, instance)
    plane = _plane(bearings, [bent.moved(body, at, DOWN) for at in bearings])
    places, moved, stresses = bent.nodes(body)
    stresses = stresses * _counts(piece, instance, places)
    falls = [float(moved[i] @ np.array(DOWN)) - plane(_vector(at)) for i, at in enumerate(places)]
    worst = int(np.argmax(falls))
    at = _vector(places[worst])
    span, is_beyond = _span(at, bearings)
    return Sag(
        instance=instance, fall_mm=falls[worst], at=at, span_mm=span, is_beyond=is_beyond,
        along_mpa=float(stresses[:, 0].max()), across_mpa=float(stresses[:, 1].max()),
        stresses=tuple(
            (float(one), float(other), _vector(place))
            for (one, other), place in zip(stresses, places, strict=True)
        ),
    )  # fmt: skip


BESIDE_THICKNESSES = 2.0
"""So near to what holds it a plate on points shows peaks that a continuous joint has not [-]."""


def _counts(piece: Piece, instance: str, places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Where stresses count, 1 or 0 along and across the grain: not along a line that bears it.

    A joint's face holds a part all along its run, while its springs hold it at points; what bends
    between these is no stress of the wood. Across the run, where a part projects, it counts.
    """
    placed = placed_named(piece, instance)
    near = BESIDE_THICKNESSES * placed.part.blank.thickness_mm
    axes = (placed.placement.x_axis, placed.placement.y_axis)
    counts = np.ones((places.shape[0], 2))
    for joining in piece.joinings:
        if instance not in (joining.incoming, joining.into):
            continue
        for face in joining.faces:
            along = unit(face.along)
            across = cross(face.normal, along)
            way, run = (
                (along, face.run_mm) if face.run_mm >= face.deep_mm else (across, face.deep_mm)
            )
            beside = _distances(places, face.centre, way, run) < near
            for axis, grain in enumerate(axes):
                if abs(dot(way, grain)) > 0.7:
                    counts[beside, axis] = 0.0
        for fastener in joining.fasteners:
            counts[_distances(places, fastener.at, fastener.axis, 0.0) < near] = 0.0
    return counts


def _distances(
    places: NDArray[np.float64], middle: Vector, way: Vector, run_mm: float
) -> NDArray[np.float64]:
    """From places to a line of that run through a point [mm]."""
    apart = places - np.array(middle)
    along = np.clip(apart @ np.array(way), -run_mm / 2.0, run_mm / 2.0)
    return np.asarray(np.linalg.norm(apart - np.outer(along, way), axis=1), dtype=np.float64)


def _vector(values: NDArray[np.float64]) -> Vector:
    return (float(values[0]), float(values[1]), float(values[2]))


def bearings_of(piece: Piece, instance: str) -> list[Vector]:
    """The ends of every face by which a part is joined, piece frame [mm]."""
    found: list[Vector] = []
    for joining in piece.joinings:
        if instance not in (joining.incoming, joining.into):
            continue
        found += _ends(joining)
    return list(dict.fromkeys(found))


def _ends(joining: Joining) -> list[Vector]:
    ends: list[Vector] = []
    for face in joining.faces:
        along = unit(face.along)
        run, deep = face.run_mm, face.deep_mm
        way, size = (along, run) if run >= deep else (cross(face.normal, along), deep)
        ends += [add(face.centre, scaled(way, sign * size / 2.0)) for sign in (-1.0, 1.0)]
    return ends + [each.at for each in joining.fasteners]


def _plane(points: Sequence[Vector], values: Sequence[float]) -> Callable[[Vector], float]:
    """The level plane that fits what bears a part: flat where its bearings lie in one line."""
    if not points:
        return lambda at: 0.0
    here = np.array([(each[0], each[1]) for each in points])
    middle = here.mean(axis=0)
    _, sizes, ways = np.linalg.svd(here - middle, full_matrices=False)
    kept = ways[: int(np.sum(sizes > 30.0 * np.sqrt(len(points))))]
    terms = np.column_stack([np.ones(len(points)), (here - middle) @ kept.T])
    found = np.linalg.lstsq(terms, np.array(values), rcond=None)[0]
    return lambda at: float(found[0] + found[1:] @ (kept @ (np.array([at[0], at[1]]) - middle)))


def _span(at: Vector, bearings: Sequence[Vector]) -> tuple[float, bool]:
    """The length over which a part falls at a point: between bearings, or out from the nearest."""
    if not bearings:
        return 0.0, True
    flat = [subtract((each[0], each[1], 0.0), (at[0], at[1], 0.0)) for each in bearings]
    best = 0.0
    lengths = [float(np.hypot(each[0], each[1])) for each in flat]
    for i, one in enumerate(flat):
        for j in range(i):
            other = flat[j]
            facing = one[0] * other[0] + one[1] * other[1]
            if lengths[i] > 1.0 and lengths[j] > 1.0 and facing < -0.9 * lengths[i] * lengths[j]:
                reach = lengths[i] + lengths[j]
                best = reach if best == 0.0 else min(best, reach)
    if best > 0.0:
        return best, False
    return min(lengths), True


def uses_of(bent: Bent) -> tuple[Use, ...]:
    """The worst use of every joint, by what carries it, the greatest first."""
    worst: dict[tuple[int, Carries], Use] = {}
    for spring, force in zip(bent.elastic.springs, bent.forces, strict=True):
        if spring.joining is None or not spring.strength_n:
            continue
        size = max(0.0, -float(force)) if spring.is_normal else abs(float(force))
        use = Use(
            joining=spring.joining,
            share=size / spring.strength_n,
            carries=spring.carries,
            force_n=size,
            strength_n=spring.strength_n,
        )
        key = (spring.joining, spring.carries)
        if key not in worst or use.share > worst[key].share:
            worst[key] = use
    return tuple(sorted(worst.values(), key=lambda each: -each.share))
