"""The inner loops of a picture, compiled."""

from __future__ import annotations

import math
from typing import Any

from numba import njit

_EPS = 1e-9


@njit(cache=True, error_model="numpy")
def fill(corners: Any, keys: Any, owners: Any) -> None:
    """Puts triangles into a picture: for each dot the nearest key and who it belongs to.

    Args:
        corners: (n, 3, 3) column, row and key of each corner.
        keys: (rows, columns) nearest key so far; changed.
        owners: (rows, columns) index of the triangle there; changed.
    """
    rows, columns = keys.shape
    for index in range(corners.shape[0]):
        x0, y0, k0 = corners[index, 0]
        x1, y1, k1 = corners[index, 1]
        x2, y2, k2 = corners[index, 2]
        area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
        if abs(area) < _EPS:
            continue
        first = max(0, math.ceil(min(y0, y1, y2) - 0.5))
        last = min(rows - 1, math.floor(max(y0, y1, y2) - 0.5))
        left = max(0, math.ceil(min(x0, x1, x2) - 0.5))
        right = min(columns - 1, math.floor(max(x0, x1, x2) - 0.5))
        a1, b1 = (y2 - y0) / area, -(x2 - x0) / area
        a2, b2 = -(y1 - y0) / area, (x1 - x0) / area
        for row in range(first, last + 1):
            dy = row + 0.5 - y0
            for column in range(left, right + 1):
                dx = column + 0.5 - x0
                u, v = a1 * dx + b1 * dy, a2 * dx + b2 * dy
                if u < -_EPS or v < -_EPS or u + v > 1.0 + _EPS:
                    continue
                key = k0 + u * (k1 - k0) + v * (k2 - k0)
                if key > keys[row, column]:
                    keys[row, column] = key
                    owners[row, column] = index


@njit(cache=True, error_model="numpy")
def surfaces(
    owners: Any, keys: Any, start: Any, column_step: Any, row_step: Any, way: Any, is_near: bool,
    corners: Any, normals: Any, points: Any, facing: Any,
) -> None:  # fmt: skip
    """The point and the normal of every dot that shows something.

    Args:
        owners: index of the triangle that each dot shows, -1 for none.
        keys: of the dots.
        start: of `Frame.rays`, and so the next three.
        column_step: what a column adds.
        row_step: what a row adds.
        way: direction.
        is_near: whether the eye is near by.
        corners: (n, 3, 3) corners of the triangles, piece frame [mm].
        normals: (n, 3, 3) at their corners.
        points: (rows, columns, 3); changed.
        facing: (rows, columns, 3) normals; changed.
    """
    rows, columns = owners.shape
    for row in range(rows):
        for column in range(columns):
            owner = owners[row, column]
            if owner < 0:
                continue
            key = keys[row, column]
            for c in range(3):
                moved = column_step[c] * (column + 0.5) + row_step[c] * (row + 0.5)
                if is_near:
                    points[row, column, c] = start[c] + (way[c] + moved) / key
                else:
                    points[row, column, c] = start[c] + moved + key * way[c]
            u, v = _within(corners[owner], points[row, column])
            size = 0.0
            for c in range(3):
                value = (
                    normals[owner, 0, c] * (1.0 - u - v)
                    + normals[owner, 1, c] * u
                    + normals[owner, 2, c] * v
                )
                facing[row, column, c] = value
                size += value * value
            size = math.sqrt(max(size, 1e-18))
            for c in range(3):
                facing[row, column, c] /= size


@njit(cache=True, inline="always")
def _within(corner: Any, point: Any) -> Any:
    """Where a point lies in a triangle, as shares of its second and third corner."""
    d00 = d01 = d11 = d20 = d21 = 0.0
    for c in range(3):
        a, b = corner[1, c] - corner[0, c], corner[2, c] - corner[0, c]
        p = point[c] - corner[0, c]
        d00 += a * a
        d01 += a * b
        d11 += b * b
        d20 += p * a
        d21 += p * b
    det = d00 * d11 - d01 * d01
    if det < 1e-12:
        return 0.0, 0.0
    u, v = (d11 * d20 - d01 * d21) / det, (d00 * d21 - d01 * d20) / det
    return min(max(u, 0.0), 1.0), min(max(v, 0.0), 1.0)


@njit(cache=True, error_model="numpy")
def eased(facing: Any, points: Any, bodies: Any, reach: int, near_mm: float, out: Any) -> None:
    """Normals averaged over a few dots of the same body: an arris catches light as an eased one.

    Args:
        facing: (rows, columns, 3) normals.
        points: where each dot lies [mm].
        bodies: index of the body of each dot, -1 for none.
        reach: how many dots to either side.
        near_mm: what lies further off is another place of the body [mm].
        out: (rows, columns, 3) normals; changed.
    """
    rows, columns = bodies.shape
    for row in range(rows):
        for column in range(columns):
            body = bodies[row, column]
            if body < 0:
                continue
            x, y, z = facing[row, column]
            sx, sy, sz, is_flat = x, y, z, True
            for dr in range(-reach, reach + 1):
                for dc in range(-reach, reach + 1):
                    r, c = row + dr, column + dc
                    if r < 0 or c < 0 or r >= rows or c >= columns or bodies[r, c] != body:
                        continue
                    nx, ny, nz = facing[r, c]
                    if nx * x + ny * y + nz * z > 0.999:
                        sx, sy, sz = sx + nx, sy + ny, sz + nz
                        continue
                    apart = 0.0
                    for k in range(3):
                        step = points[r, c, k] - points[row, column, k]
                        apart += step * step
                    if apart < near_mm * near_mm:
                        is_flat = False
                        sx, sy, sz = sx + nx, sy + ny, sz + nz
            if is_flat:
                out[row, column] = facing[row, column]
                continue
            size = math.sqrt(sx * sx + sy * sy + sz * sz)
            if size < 1e-9:
                out[row, column] = facing[row, column]
                continue
            out[row, column, 0] = sx / size
            out[row, column, 1] = sy / size
            out[row, column, 2] = sz / size


@njit(cache=True, error_model="numpy")
def lit(
    points: Any, facing: Any, which: Any, maps: Any, frames: Any, ways: Any, weights: Any,
    bias: float, groups: int, out: Any,
) -> None:  # fmt: skip
    """How much light reaches each point from lights that each have a map of what they see.

    A point asks every `groups`-th light, beginning with its own; its neighbours ask the others, so
    that dots averaged over them have asked all.

    Args:
        points: (n, 3) [mm].
        facing: (n, 3) normals.
        which: (n,) group of each point, 0 to `groups` - 1.
        maps: (lights, size, size) nearest key seen from each light [mm].
        frames: (lights, 3, 4) rows that give column, row and key of a point.
        ways: (lights, 3) direction to the light.
        weights: (lights, 3) colour of its light.
        bias: how much nearer a thing must be to shade [mm].
        groups: how many neighbours share the lights.
        out: (n, 3) light; changed.
    """
    size = maps.shape[1]
    for index in range(points.shape[0]):
        x, y, z = points[index]
        nx, ny, nz = facing[index]
        total0 = total1 = total2 = 0.0
        for light in range(which[index], ways.shape[0], groups):
            fall = nx * ways[light, 0] + ny * ways[light, 1] + nz * ways[light, 2]
            if fall <= 0.0:
                continue
            f = frames[light]
            # Lifted off the surface along its normal, so that no face shades itself.
            px, py, pz = x + nx * bias, y + ny * bias, z + nz * bias
            column = f[0, 0] * px + f[0, 1] * py + f[0, 2] * pz + f[0, 3]
            row = f[1, 0] * px + f[1, 1] * py + f[1, 2] * pz + f[1, 3]
            key = f[2, 0] * px + f[2, 1] * py + f[2, 2] * pz + f[2, 3] + bias
            i, j = math.floor(row - 0.5), math.floor(column - 0.5)
            if i < 0 or j < 0 or i >= size - 1 or j >= size - 1:
                seen = 1.0
            else:
                v, u = row - 0.5 - i, column - 0.5 - j
                a = 1.0 if maps[light, i, j] <= key else 0.0
                b = 1.0 if maps[light, i, j + 1] <= key else 0.0
                c = 1.0 if maps[light, i + 1, j] <= key else 0.0
                d = 1.0 if maps[light, i + 1, j + 1] <= key else 0.0
                seen = (a * (1 - u) + b * u) * (1 - v) + (c * (1 - u) + d * u) * v
            total0 += weights[light, 0] * fall * seen
            total1 += weights[light, 1] * fall * seen
            total2 += weights[light, 2] * fall * seen
        out[index, 0], out[index, 1], out[index, 2] = (
            total0 * groups, total1 * groups, total2 * groups,
        )  # fmt: skip


@njit(cache=True, error_model="numpy")
def lines(bodies: Any, facing: Any, points: Any, step_mm: float, out: Any) -> None:
    """Where one body ends before another, or before nothing, or folds: 1, and 0.5 for a fold.

    Args:
        bodies: index of the body of each dot, -1 for none.
        facing: (rows, columns, 3) normals, not eased.
        points: where each dot lies [mm].
        step_mm: a leap in depth within a body that is an edge [mm].
        out: (rows, columns); changed.
    """
    rows, columns = bodies.shape
    for row in range(rows):
        for column in range(columns):
            own = bodies[row, column]
            for dr, dc in ((0, 1), (1, 0)):
                r, c = row + dr, column + dc
                if r >= rows or c >= columns:
                    continue
                other = bodies[r, c]
                if own < 0 and other < 0:
                    continue
                if own != other:
                    _mark(out, row, column, r, c, own, other)
                    continue
                apart = bend = 0.0
                for k in range(3):
                    leap = points[r, c, k] - points[row, column, k]
                    apart += leap * leap
                    bend += facing[r, c, k] * facing[row, column, k]
                if apart > step_mm * step_mm:
                    out[row, column] = max(out[row, column], 0.8)
                elif bend < 0.8:
                    out[row, column] = max(out[row, column], 0.5)
                    out[r, c] = max(out[r, c], 0.5)


@njit(cache=True, inline="always")
def _mark(out: Any, row: int, column: int, r: int, c: int, own: int, other: int) -> None:
    """The line lies on wood, never on the ground beside it."""
    if own >= 0:
        out[row, column] = 1.0
    if other >= 0 and own < 0:
        out[r, c] = 1.0
