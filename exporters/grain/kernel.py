"""The colour of points in a log, compiled: rings, pores, rays, sapwood and knots.

Log frame: x along the grain, y and z across, the pith near x axis. All of it is a function of the
point alone, so ends, edges and faces of a part agree wherever they meet.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numba import njit

RING_STEP_MM = 0.05
"""How fine the table of rings is [mm]."""

(
    SEED, WANDER, LOBES, FIGURE, POROSITY, CONTRAST, PORES, PORE_MM, RAYS, RAY_MM, HEART_MM, SAP_MM,
    FIBRE, RING_MM,
) = range(14)  # fmt: skip
"""Where each figure of a log stands in its array."""

RING_POROUS, SEMI_POROUS, DIFFUSE, SOFT = range(4)
"""How the pores of a wood lie; softwood has none."""


_A, _B, _C, _D = 0x2545F4914F6CDD1D, 0x1B873593CC9E2D51, 0x165667B19E3779F9, 0x27D4EB2F165667C5
_K = 0x369DEA0F31A53F85


@njit(cache=True, inline="always")
def _drawn(h: int) -> float:
    """A number from 0 to 1 that looks drawn by chance; whole numbers wrap at 64 bits on purpose."""
    h = (h ^ (h >> 29)) * _K
    h = (h ^ (h >> 32)) * _K
    return ((h >> 38) & 0xFFFFFF) / 16777216.0


@njit(cache=True, inline="always")
def _mixed(a: int, b: int, c: int, seed: int) -> float:
    """A number from 0 to 1, the same for the same whole numbers."""
    return _drawn(a * _A + b * _B + c * _C + seed * _D)


@njit(cache=True, error_model="numpy")
def _noise(x: float, y: float, z: float, seed: int) -> float:
    """Smooth noise from -1 to 1 that changes over a distance of about 1."""
    ix, iy, iz = math.floor(x), math.floor(y), math.floor(z)
    fx, fy, fz = x - ix, y - iy, z - iz
    fx, fy, fz = (fx * fx * (3 - 2 * fx), fy * fy * (3 - 2 * fy), fz * fz * (3 - 2 * fz))
    # The sum that a corner draws from grows by one constant along each axis.
    h = int(ix) * _A + int(iy) * _B + int(iz) * _C + seed * _D
    a, b = _drawn(h), _drawn(h + _B)
    a += (_drawn(h + _A) - a) * fx
    b += (_drawn(h + _A + _B) - b) * fx
    low = a + (b - a) * fy
    h += _C
    a, b = _drawn(h), _drawn(h + _B)
    a += (_drawn(h + _A) - a) * fx
    b += (_drawn(h + _A + _B) - b) * fx
    return 2.0 * (low + (a + (b - a) * fy - low) * fz) - 1.0


@njit(cache=True, inline="always")
def _ramp(low: float, high: float, at: float) -> float:
    """0 below `low`, 1 above `high`, smooth between."""
    share = min(max((at - low) / (high - low), 0.0), 1.0)
    return share * share * (3 - 2 * share)


@njit(cache=True)
def astray(x: float, wander: float, turn: float) -> tuple[float, float]:
    """How far a log has moved past its pith at a place along it: y and z [mm].

    Args:
        x: along the log [mm].
        wander: how far the pith strays [mm].
        turn: a phase [rad].
    """
    return (
        wander * (math.sin(x / 173.0 + turn) + 0.5 * math.sin(x / 71.0 + 2.0 * turn)),
        wander * (math.cos(x / 211.0 + turn) + 0.5 * math.sin(x / 83.0 - turn)),
    )


@njit(cache=True)
def _early(porosity: int, f: float) -> float:
    """How dark a ring is at a share of its width, from the inside out."""
    if porosity == RING_POROUS:
        return 1.0 - _ramp(0.16, 0.46, f) if f < 0.93 else _ramp(0.93, 1.0, f)
    if porosity == SEMI_POROUS:
        return 0.75 * (1.0 - f) + 0.6 * math.exp((f - 1.0) / 0.08)
    if porosity == SOFT:
        return float(f**3.2) if f < 0.96 else (1.0 - f) / 0.04
    return 0.28 * f + 0.9 * math.exp((f - 1.0) / 0.07)


@njit(cache=True, error_model="numpy")
def paint(
    points: Any, log: Any, rings: Any, knots: Any, heart: Any, late: Any, sap: Any, dot: float
) -> Any:
    """Colours (n, 3) of points (n, 3) of a log [mm].

    Args:
        points: log frame [mm].
        log: its figures, by the indices above.
        rings: the ring that each radius lies in, in steps of `RING_STEP_MM` [rings].
        knots: rows of x, angle [rad], radius at the pith, growth a mm outwards, from and to what
            radius it is there [mm].
        heart: colour of heartwood.
        late: colour of its dark bands.
        sap: colour of sapwood.
        dot: what is finer is averaged [mm].
    """
    seed, porosity = int(log[SEED]), int(log[POROSITY])
    out = np.empty((points.shape[0], 3))
    last = rings.shape[0] - 2
    ring_fade = min(1.0, log[RING_MM] / (2.2 * dot))
    pore = max(log[PORE_MM], 0.55 * dot)
    pore_fade = min(1.0, (log[PORE_MM] / pore) ** 0.5)
    ray = max(log[RAY_MM], 0.5 * dot)
    sectors = int(2.0 * math.pi * 110.0 / (2.6 * ray))
    for index in range(points.shape[0]):
        x, y, z = points[index, 0], points[index, 1], points[index, 2]
        astray_y, astray_z = astray(x, log[WANDER], log[LOBES])
        y, z = y + astray_y, z + astray_z
        r, th = math.hypot(y, z), math.atan2(z, y)
        r *= 1.0 + 0.03 * math.sin(2.0 * th + log[LOBES]) + 0.012 * math.sin(5.0 * th + log[LOBES])
        r += log[FIGURE] * _noise(x / 190.0, y / 42.0, z / 42.0, seed)
        r += 0.22 * log[FIGURE] * _noise(x / 60.0, y / 9.0, z / 9.0, seed + 1)
        r += 0.05 * log[FIGURE] * _noise(x / 24.0, y / 2.5, z / 2.5, seed + 2)
        dark, knotted = 0.0, 0.0
        for each in range(knots.shape[0]):
            turn = knots[each, 1]
            off = y * math.cos(turn) + z * math.sin(turn)
            if off < knots[each, 4] or off > knots[each, 5] + 60.0:
                continue
            wide = knots[each, 2] + knots[each, 3] * off
            away_x = (x - knots[each, 0] - 0.25 * off) / 1.3
            away_t = -y * math.sin(turn) + z * math.cos(turn)
            apart = math.hypot(away_x, away_t)
            apart += 0.09 * wide * _noise(x / 7.0, y / 7.0, z / 7.0, seed + 3)
            if off < knots[each, 5] and apart < wide:
                own = apart / 0.9
                knotted = 1.0
                dark = max(dark, 0.62 + 0.26 * _ramp(0.55, 1.0, apart / wide)
                           + 0.10 * math.cos(2.0 * math.pi * own))  # fmt: skip
            else:
                near = math.exp(-(((apart - wide) / (0.9 * wide)) ** 2)) if apart > wide else 1.0
                r -= 0.75 * wide * near
                dark = max(dark, 0.45 * math.exp(-(apart - wide) / (0.5 * wide)))
        r = max(r, 0.0)
        at = min(r / RING_STEP_MM, float(last))
        low = int(at)
        turn_of = rings[low] + (rings[low + 1] - rings[low]) * (at - low)
        ring = math.floor(turn_of)
        f = turn_of - ring
        own_ring = _mixed(int(ring), 11, 5, seed)
        band = log[CONTRAST] * ring_fade * (0.65 + 0.7 * own_ring) * _early(porosity, f)
        band += log[CONTRAST] * (1.0 - ring_fade) * 0.35
        # Fibres: fine streaks along the grain, and broad slow ones.
        streak = _noise(x / 70.0, y / max(0.5, dot), z / max(0.5, dot), seed + 4)
        broad = _noise(x / 260.0, y / 11.0, z / 11.0, seed + 5)
        light = 1.0 + log[FIBRE] * (0.6 * streak + 0.8 * broad + 0.5 * (own_ring - 0.5))
        # Pores: vessels cut lengthwise are dark dashes, across they are dots, for they are lines.
        if log[PORES] > 0.0:
            share = 1.0
            if porosity == RING_POROUS:
                share = 1.0 if f < 0.3 else 0.10
            elif porosity == SEMI_POROUS:
                share = 1.0 - 0.7 * f
            cy, cz = math.floor(y / pore), math.floor(z / pore)
            shift = _mixed(int(cy), int(cz), 3, seed + 6)
            cx = math.floor(x / (16.0 + 18.0 * shift) + 37.0 * shift)
            if _mixed(int(cx), int(cy), int(cz), seed + 7) < 0.42 * share * log[PORES]:
                light -= 0.20 * pore_fade * log[PORES]
        # Rays: thin sheets from the pith outwards, so a radial face shows them broad.
        shine = 0.0
        if log[RAYS] > 0.0:
            warp = th + 0.006 * _noise(x / 30.0, y / 14.0, z / 14.0, seed + 8)
            sector = math.floor(warp / (2.0 * math.pi) * sectors)
            slip = _mixed(sector, 1, 2, seed + 9)
            tall = 9.0 + 20.0 * slip
            lean = x / tall + r / 60.0 + 11.0 * slip
            cell = math.floor(lean)
            deep = 14.0 + 26.0 * _mixed(sector, cell, 4, seed + 10)
            out_by = r / deep + 7.0 * _mixed(sector, cell, 6, seed + 11)
            shell = math.floor(out_by)
            if _mixed(sector, cell, shell + 9, seed + 12) < 0.5 * log[RAYS]:
                u, v = 2.0 * (lean - cell) - 1.0, 2.0 * (out_by - shell) - 1.0
                ragged = 0.75 + 0.45 * _noise(x / 3.0, y / 2.0, z / 2.0, seed + 13)
                inside = u * u * u * u + v * v
                shine = 1.0 - _ramp(0.55 * ragged, 0.9 * ragged, inside)
        pale = 0.0
        if r > log[HEART_MM] - 8.0:
            edge = log[HEART_MM] + 4.0 * _noise(x / 90.0, th * 4.0, 0.5, seed + 14)
            pale = _ramp(-3.0, 3.0, r - edge) * (1.0 - knotted)
        for c in range(3):
            tone = heart[c] * (1.0 - pale) + sap[c] * pale
            deepest = late[c] * (1.0 - pale) + late[c] * sap[c] / max(heart[c], 0.05) * pale
            tone += (deepest - tone) * min(band, 1.0)
            tone *= light
            tone += (1.0 - tone) * 0.30 * shine * log[RAYS] ** 0.5
            if dark > 0.0:
                brown = (0.30, 0.17, 0.09)[c] * (0.6 + 0.6 * heart[c])
                tone += (brown - tone) * min(dark, 0.92)
            out[index, c] = min(max(tone, 0.0), 1.0)
    return out
