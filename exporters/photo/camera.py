"""From marks on a board to where every point of it is in the photo.

A flat board seen by a lens: a plane projection and one figure for how the lens bends lines.
Source: R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., 2004,
direct linear transformation (chapter 4) and radial distortion (chapter 7.4); from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
LEAST_MARKS, MARKS_FOR_A_LENS = 4, 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark: its place on the board [mm], and in the photo as column and row [dots]."""

    x_mm: float
    y_mm: float
    column: float
    row: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fitted:
    """How a board lies in its photo.

    Args:
        matrix: 3 x 3, board to the photo without bending, in halves of its longer side.
        bend: how the lens bends, 0 where too few marks tell it.
        size: of the photo, columns and rows [dots].
        worst_mm: farthest that a mark is from where the others put it; None where four marks
            leave nothing to compare.
        mean_mm: root of the mean square of the same.
    """

    matrix: Array
    bend: float
    size: tuple[int, int]
    worst_mm: float | None
    mean_mm: float | None

    def dots(self, places: Array) -> Array:
        """Column and row in the photo of places on the board.

        Args:
            places: rows of x, y [mm].
        """
        return _bent(self.matrix, self.bend, self.size, places)

    @property
    def told(self) -> str:
        """How true it is, in a sentence."""
        if self.worst_mm is None or self.mean_mm is None:
            return "four marks leave nothing to compare: how true it is is not known"
        lens = "" if self.bend else ", the lens taken for straight"
        return f"true to {self.mean_mm:.2f} mm, at the worst mark {self.worst_mm:.2f} mm{lens}"


def fitted(marks: Sequence[Mark], size: tuple[int, int]) -> Fitted:
    """How the board lies in the photo, by least squares over its marks.

    Args:
        marks: four at least; with eight the bending of the lens is found too.
        size: of the photo, columns and rows [dots].

    Raises:
        ValueError: too few marks, or marks in one line.
    """
    from scipy.optimize import least_squares

    if len(marks) < LEAST_MARKS:
        raise ValueError(f"{len(marks)} marks: a board lies in space by {LEAST_MARKS} at least")
    places = np.array([(each.x_mm, each.y_mm) for each in marks])
    seen = np.array([(each.column, each.row) for each in marks])
    matrix = _straight(places, _halved(seen, size))
    has_lens = len(marks) >= MARKS_FOR_A_LENS

    def off(values: Array) -> Any:
        bend = values[8] if has_lens else 0.0
        return (_bent(np.append(values[:8], 1.0).reshape(3, 3), bend, size, places) - seen).ravel()

    start = np.append((matrix / matrix[2, 2]).ravel()[:8], [0.0] if has_lens else [])
    scale = np.maximum(np.abs(start), 1e-6)
    found = least_squares(off, start, x_scale=scale, method="lm").x if len(marks) > 4 else start
    best = np.append(found[:8], 1.0).reshape(3, 3)
    bend = float(found[8]) if has_lens else 0.0
    worst = mean = None
    if len(marks) > LEAST_MARKS:
        away = np.linalg.norm(_bent(best, bend, size, places) - seen, axis=1)
        per_mm = _dots_a_mm(best, bend, size, places)
        # Nine figures are fitted: what is left over is shared among the rest.
        spare = max(1, 2 * len(marks) - (9 if has_lens else 8))
        worst = float((away / per_mm).max())
        mean = float(np.sqrt((away / per_mm) @ (away / per_mm) / spare))
    return Fitted(matrix=best, bend=bend, size=size, worst_mm=worst, mean_mm=mean)


def _halved(seen: Array, size: tuple[int, int]) -> Array:
    """Dots from the middle of the photo, in halves of its longer side."""
    middle, half = np.array(size) / 2.0, max(size) / 2.0
    found: Array = (seen - middle) / half
    return found


def _straight(places: Array, seen: Array) -> Array:
    """The plane projection that four or more marks ask for, in closed form."""
    middle, reach = places.mean(axis=0), float(np.abs(places - places.mean(axis=0)).max())
    near = (places - middle) / reach
    rows = []
    for (x, y), (u, v) in zip(near, seen, strict=True):
        rows.append([x, y, 1, 0, 0, 0, -u * x, -u * y, -u])
        rows.append([0, 0, 0, x, y, 1, -v * x, -v * y, -v])
    _, sizes, turns = np.linalg.svd(np.array(rows, dtype=float))
    if sizes[7] < 1e-6 * sizes[0]:
        raise ValueError("the marks lie in one line, or two in one place")
    to_near = np.array(
        [[1 / reach, 0, -middle[0] / reach], [0, 1 / reach, -middle[1] / reach], [0, 0, 1]]
    )
    found: Array = turns[8].reshape(3, 3) @ to_near
    return found


def _bent(matrix: Array, bend: float, size: tuple[int, int], places: Array) -> Array:
    flat = np.column_stack((places, np.ones(len(places)))) @ matrix.T
    flat = flat[:, :2] / flat[:, 2:]
    flat = flat * (1.0 + bend * (flat**2).sum(axis=1, keepdims=True))
    found: Array = flat * (max(size) / 2.0) + np.array(size) / 2.0
    return found


def _dots_a_mm(matrix: Array, bend: float, size: tuple[int, int], places: Array) -> Array:
    """How many dots of the photo a millimetre of the board is, about each place."""
    at = _bent(matrix, bend, size, places)
    steps = [_bent(matrix, bend, size, places + step) - at for step in ((1.0, 0.0), (0.0, 1.0))]
    area: Array = np.abs(steps[0][:, 0] * steps[1][:, 1] - steps[0][:, 1] * steps[1][:, 0])
    return np.sqrt(area)


def centred(grey: Array, mark: Mark, reach: int = 30) -> Mark:
    """The mark moved to the middle of the dark disc that it points at.

    Args:
        grey: the photo, rows and columns, 0 black [-].
        mark: near or on the disc.
        reach: how far about it the disc may lie [dots].
    """
    rows, columns = grey.shape
    left, top = max(0, int(mark.column) - reach), max(0, int(mark.row) - reach)
    part = grey[top : min(rows, int(mark.row) + reach + 1),
                left : min(columns, int(mark.column) + reach + 1)]  # fmt: skip
    if part.size == 0:
        return mark
    darkest, lightest = float(part.min()), float(np.median(part))
    weight = np.clip((0.5 * (darkest + lightest) - part) / max(lightest - darkest, 1e-9), 0.0, None)
    if weight.sum() < 1e-9:
        return mark
    weight = _whole_spot(weight)
    at_rows, at_columns = np.indices(part.shape)
    return Mark(
        x_mm=mark.x_mm,
        y_mm=mark.y_mm,
        column=left + float((weight * at_columns).sum() / weight.sum()) + 0.5,
        row=top + float((weight * at_rows).sum() / weight.sum()) + 0.5,
    )


def _whole_spot(weight: Array) -> Array:
    """The largest dark spot that lies whole in the window: a dark bench beside the board does not.

    Args:
        weight: how dark each dot is, 0 where it is as light as wood.
    """
    from scipy.ndimage import label

    spots, _ = label(weight > 0.0)
    cut_off = {0, *spots[0], *spots[-1], *spots[:, 0], *spots[:, -1]}
    sizes = np.bincount(spots.ravel())
    whole = [each for each in range(len(sizes)) if each not in cut_off]
    if not whole:
        return weight
    largest = max(whole, key=lambda each: int(sizes[each]))
    found: Array = np.where(spots == largest, weight, 0.0)
    return found
