"""A part as a plate that is held at points: its motion and its reactions under loads."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from furniture.parts.blank import Blank
from furniture.structure.plate import Plate, Stiffness, plate_of

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
Point = tuple[float, float, float]


def rigid(point, direction):
    """How the six motions of a whole part move a point along a direction."""
    return np.concatenate([direction, np.cross(point, direction)])


@dataclass(frozen=True, slots=True, eq=False)
class HeldPlate:
    """A held plate: how far a point moves along a direction, its unknowns, its reactions."""

    moved: Callable[[Point, Point], float]
    own: np.ndarray
    reactions: np.ndarray


def held_at(
    plate: Plate, points: Sequence[tuple[Point, Point]], loads: Sequence[tuple[Point, Point, float]]
) -> HeldPlate:
    """The plate held at points, each along a direction, under forces at points along directions."""
    rows = np.array([plate.row(*each) for each in points])
    whole = np.array([rigid(*each) for each in points])
    force = sum(size * plate.row(at, way) for at, way, size in loads)
    total = sum(size * rigid(at, way) for at, way, size in loads)
    given = plate.solve(np.column_stack([rows.T, force]))
    count = len(points)
    matrix = np.block([[rows @ given[:, :-1], whole], [whole.T, np.zeros((6, 6))]])
    found = np.linalg.lstsq(matrix, np.concatenate([-rows @ given[:, -1], -total]), rcond=None)[0]
    own = given[:, :-1] @ found[:count] + given[:, -1]
    return HeldPlate(
        lambda at, way: float(plate.row(at, way) @ own + rigid(at, way) @ found[count:]),
        own,
        found[:count],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A straight bar, flat, resting on its ends or held at its first; forces press it down [N, mm].

    `even_n` is spread over its whole length.
    """

    length: float
    width: float
    thickness: float
    stiffness_mpa: float
    is_projecting: bool = False
    forces: tuple[tuple[float, float], ...] = ()
    even_n: float = 0.0


def _solved(bar: Bar) -> tuple[Plate, HeldPlate]:
    wood = Stiffness(along=bar.stiffness_mpa, across=bar.stiffness_mpa, shear=bar.stiffness_mpa)
    blank = Blank(length_mm=bar.length, width_mm=bar.width, thickness_mm=bar.thickness)
    plate = plate_of(blank, wood, bar.length / 24.0)
    sides = (0.0, bar.width / 2.0, bar.width)
    middle = bar.thickness / 2.0
    if bar.is_projecting:
        points = [((0.0, y, z), w) for y in sides for z in (0.0, bar.thickness) for w in (X, Z)]
    else:
        points = [((x, y, middle), Z) for x in (0.0, bar.length) for y in sides]
        points.append(((0.0, sides[1], middle), X))
    points += [
        ((x, sides[1], middle), Y) for x in ((0.0,) if bar.is_projecting else (0.0, bar.length))
    ]
    loads = [((x, y, middle), Z, -force / 3.0) for x, force in bar.forces for y in sides]
    steps = 48
    loads += [
        (((k + 0.5) * bar.length / steps, y, middle), Z, -bar.even_n / steps / 3.0)
        for k in range(steps)
        for y in sides
        if bar.even_n
    ]
    return plate, held_at(plate, points, loads)


def fall_mm(bar: Bar, x: float) -> float:
    """How far the bar's middle falls at a place [mm]."""
    _, held = _solved(bar)
    return -held.moved((x, bar.width / 2.0, bar.thickness / 2.0), Z)


def stress_mpa(bar: Bar, x: float) -> float:
    """The bending stress in the bar's middle at a place [MPa]."""
    plate, held = _solved(bar)
    return plate.stresses(held.own, (x, bar.width / 2.0, 0.0))[0]


def left_reaction_n(bar: Bar) -> float:
    """What the first end presses on [N]; the bar rests on both."""
    _, held = _solved(bar)
    return float(held.reactions[:3].sum())
