"""A cut that a round cutter leaves before its stop: how far it runs out.

A cutter of radius r that cuts d deep has its full depth only under its axle; from there its rim
climbs to the surface.
"""

from __future__ import annotations

import math


def run_out_mm(radius_mm: float, depth_mm: float) -> float:
    """How far beyond the last place of full depth the cut still shows on the surface [mm].

    Args:
        radius_mm: of the cutter, above 0 [mm].
        depth_mm: of the cut, from 0 up to the radius [mm].

    Raises:
        ValueError: a depth that such a cutter does not cut.

    **Source:** own derivation: half the chord at that height, sqrt(r^2 - (r - d)^2).
    """
    _check(radius_mm, depth_mm)
    return math.sqrt(depth_mm * (2.0 * radius_mm - depth_mm))


def _check(radius_mm: float, depth_mm: float) -> None:
    if not 0.0 <= depth_mm <= radius_mm or radius_mm <= 0.0:
        raise ValueError(f"a cutter of radius {radius_mm} mm does not cut {depth_mm} mm deep")
