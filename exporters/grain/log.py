"""A log to saw boards from: its rings and knots drawn by chance from a seed, and where a board lay.

The same seed gives the same log, whatever is sawn from it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from exporters.grain.looks import Look
from furniture.timber.movement import Sawn

_LOG_MM = 420.0
"""Radius up to which rings are known [mm]."""
_AWAY_MM = {Sawn.FLAT: 92.0, Sawn.UNKNOWN: 92.0, Sawn.RIFT: 130.0, Sawn.QUARTER: 84.0}
"""How far the pith is from the board: from its face when flat sawn, else from its edge [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Knot:
    """A branch: where it leaves the pith, whither, how thick it is there and how it grows [mm]."""

    x_mm: float
    turn_rad: float
    radius_mm: float
    growth: float
    from_mm: float = 0.0
    to_mm: float = 1e4


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """Where a board lies in its log: log y and z of its middle, its turn, how far along [mm, rad].

    `is_heart_up` says that the pith lies on the side of its upper face.
    """

    y_mm: float
    z_mm: float
    turn_rad: float
    along_mm: float

    def into_log(self, points: NDArray[np.float64], middle: tuple[float, float]) -> Any:
        """Points of the board in the log.

        Args:
            points: rows of x, y, z, board frame [mm].
            middle: y and z of the board's middle [mm].
        """
        c, s = math.cos(self.turn_rad), math.sin(self.turn_rad)
        y, z = points[:, 1] - middle[0], points[:, 2] - middle[1]
        return np.column_stack(
            (points[:, 0] + self.along_mm, self.y_mm + c * y - s * z, self.z_mm + s * y + c * z)
        )


def bed_of(sawn: Sawn, wide_mm: float, seed: int) -> Bed:
    """Where a board of that width was sawn from: flat, rift or quarter [mm].

    Args:
        sawn: how the rings lie in its end; unknown is taken for flat sawn.
        wide_mm: its width [mm].
        seed: moves it a little.
    """
    drawn = np.random.default_rng(seed)
    off = float(drawn.uniform(-0.18, 0.18)) * wide_mm
    along = float(drawn.uniform(0.0, 3000.0))
    away = _AWAY_MM[sawn] + float(drawn.uniform(-22.0, 26.0))
    if sawn is Sawn.QUARTER:
        return Bed(
            y_mm=away + wide_mm / 2, z_mm=float(drawn.uniform(-9.0, 9.0)),
            turn_rad=float(drawn.uniform(-0.05, 0.05)), along_mm=along,
        )  # fmt: skip
    if sawn is Sawn.RIFT:
        return Bed(
            y_mm=away, z_mm=away * 0.85, turn_rad=float(drawn.uniform(-0.1, 0.1)), along_mm=along
        )
    return Bed(y_mm=off, z_mm=away, turn_rad=float(drawn.uniform(-0.04, 0.04)), along_mm=along)


@lru_cache(maxsize=64)
def rings_of(ring_mm: float, seed: int) -> NDArray[np.float64]:
    """Which ring each radius lies in, in steps of `RING_STEP_MM`: good and lean years in runs.

    Args:
        ring_mm: usual width of a ring [mm].
        seed: draws the years.
    """
    from exporters.grain.kernel import RING_STEP_MM

    drawn = np.random.default_rng(seed)
    count = int(2.5 * _LOG_MM / ring_mm) + 8
    year = drawn.normal(0.0, 1.0, count)
    for index in range(1, count):  # a good year is followed by one not quite as good
        year[index] = 0.72 * year[index - 1] + 0.69 * year[index]
    widths = ring_mm * np.clip(np.exp(0.30 * year), 0.45, 2.1)
    ends = np.concatenate(([0.0], np.cumsum(widths)))
    radii = np.arange(0.0, _LOG_MM, RING_STEP_MM)
    table: NDArray[np.float64] = np.interp(radii, ends, np.arange(count + 1, dtype=float))
    table.setflags(write=False)
    return table


def figures_of(look: Look, seed: int, heart_mm: float) -> NDArray[np.float64]:
    """A log's figures as the kernel takes them.

    Args:
        look: of its species.
        seed: of the log.
        heart_mm: radius up to which it is heartwood [mm].
    """
    lobes = float(np.random.default_rng(seed).uniform(0.0, 2.0 * math.pi))
    return np.array(
        [
            float(seed % 100_003), look.wander_mm, lobes, look.figure_mm, float(look.porosity),
            look.contrast, look.pore_share, look.pore_mm, look.rays, look.ray_mm, heart_mm, 25.0,
            look.fibre, look.ring_mm,
        ]
    )  # fmt: skip
