"""A camera set up for a picture of so many dots: points to dots and back."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from exporters.render.camera import Array, Camera


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """Columns go right and rows down; `key` is larger for what is nearer, level in the picture.

    Args:
        axes: rows right, up, towards the eye.
        middle: what the eye looks at, piece frame [mm].
        away_mm: from the eye to the middle; infinite is a parallel view [mm].
        scale: dots a millimetre at the middle.
        width: of the picture [dots].
        height: of the picture [dots].
        centre: column and row of the line of sight [dots].
    """

    axes: Array
    middle: Array
    away_mm: float
    scale: float
    width: int
    height: int
    centre: tuple[float, float]

    def dots(self, points: Array) -> Array:
        """Column, row and key of points of the piece, as rows.

        Args:
            points: rows of x, y, z [mm].
        """
        right, up, near = ((points - self.middle) @ self.axes.T).T
        if math.isinf(self.away_mm):
            grown, key = 1.0, near
        else:
            depth = self.away_mm - near
            grown, key = self.away_mm / depth, 1.0 / depth
        return np.column_stack(
            (
                self.centre[0] + right * grown * self.scale,
                self.centre[1] - up * grown * self.scale,
                key,
            )
        )

    def rays(self) -> tuple[Array, Array, Array, Array]:
        """Start of the ray of dot (0, 0) at key 0 and what a column and a row add; or the eye.

        A parallel view gives (start, column step, row step, direction): the point of a dot is
        start + column + row + key * direction. A near eye gives (eye, column step, row step,
        direction at dot (0, 0)): the point is eye + (direction + column + row) / key.
        """
        right, up, towards = self.axes
        u, v = -self.centre[0] / self.scale, self.centre[1] / self.scale
        if math.isinf(self.away_mm):
            start = self.middle + right * u + up * v
            return start, right / self.scale, -up / self.scale, towards
        eye = self.middle + towards * self.away_mm
        first = (right * u + up * v) / self.away_mm - towards
        step = self.scale * self.away_mm
        return eye, right / step, -up / step, first


def framed(
    camera: Camera, points: Array, long_side: int, margin: float = 0.06, samples: int = 1,
    most: tuple[float, float] | None = None,
) -> Frame:  # fmt: skip
    """The frame that shows all points, its longer side so many dots.

    Args:
        camera: the direction.
        points: what must be seen, piece frame [mm].
        long_side: of the picture [dots].
        margin: all round, as a share of the longer side.
        samples: each way that a dot is parted into; the frame is that much finer.
        most: width and height that the picture has, as shares of its longer side; none takes
            just what is shown.
    """
    axes = camera.axes
    low, high = points.min(axis=0), points.max(axis=0)
    middle = (low + high) / 2
    size = float(np.linalg.norm(high - low))
    away = camera.distance * size
    trial = Frame(
        axes=axes, middle=middle, away_mm=away, scale=1.0, width=1, height=1, centre=(0.0, 0.0)
    )
    seen = trial.dots(points)[:, :2]
    left, top = seen.min(axis=0)
    wide, tall = seen.max(axis=0) - seen.min(axis=0)
    room = long_side * samples * (1.0 - 2.0 * margin)
    edge = long_side * samples * margin
    if most is None:
        scale = room / max(wide, tall)
        width, height = wide * scale + 2 * edge, tall * scale + 2 * edge
    else:
        width, height = (share * long_side * samples for share in most)
        scale = min((width - 2 * edge) / wide, (height - 2 * edge) / tall)
    width, height = (samples * max(1, round(side / samples)) for side in (width, height))
    return Frame(
        axes=axes, middle=middle, away_mm=away, scale=scale, width=width, height=height,
        centre=(
            (width - wide * scale) / 2 - left * scale, (height - tall * scale) / 2 - top * scale,
        ),
    )  # fmt: skip
