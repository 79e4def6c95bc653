"""A photographed board as wood: its face from the photo, and edges that go on in its colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from exporters.grain.wood import Colours, Points
from exporters.photo.camera import Fitted, Mark, centred, fitted

_FINEST_MM = 0.4
_DISC_MM = 10.0
"""How far about a mark's middle the photo shows the disc and not the board [mm]: one of 16 mm
and what its edge blurs. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PhotoWood:
    """A board's face true to scale; answers as `Wood` does.

    A photo shows one face: deeper wood, edges and ends have the colour of the face above them, and
    under the marks the grain beside them runs on.

    Args:
        face: (rows, columns, 3) colours, the first row at y = 0, the first column at x = 0.
        dot_mm: the side of one of its dots [mm].
        size: length, width and thickness of the board [mm].
        fit: how true it is.
    """

    face: NDArray[np.float32]
    dot_mm: float
    size: tuple[float, float, float]
    fit: Fitted

    @property
    def told(self) -> str:
        """How true the photo is to the board."""
        return f"photo {self.fit.told}"

    def colours(self, points: Points, dot_mm: float) -> Colours:
        """The colour at each point; see `Wood`."""
        from scipy.ndimage import map_coordinates, uniform_filter

        face = self.face
        wide = int(dot_mm / self.dot_mm)
        if wide > 1:  # what is finer than is looked at is averaged
            face = uniform_filter(face, size=(wide, wide, 1), mode="nearest")
        at = np.vstack((points[:, 1], points[:, 0])) / self.dot_mm - 0.5
        found: Colours = np.column_stack(
            [
                map_coordinates(face[..., c], at, order=1, mode="nearest").astype(float)
                for c in range(3)
            ]
        )
        return np.clip(found, 0.0, 1.0)


def wood_of_photo(path: Path, marks: Sequence[Mark], size: tuple[float, float, float]) -> PhotoWood:
    """A board's face, true to scale.

    Args:
        path: of the photo.
        marks: dark discs on it, each pointed at roughly; eight are better than four.
        size: length, width and thickness of the board [mm].

    Raises:
        ValueError: too few marks, or marks in one line.
        OSError: the photo cannot be read.
    """
    from PIL import Image, ImageOps
    from scipy.ndimage import map_coordinates

    with Image.open(path) as opened:
        image = ImageOps.exif_transpose(opened).convert("RGB")
    grey = np.asarray(image.convert("L")).astype(float) / 255.0
    fit = fitted([centred(grey, mark) for mark in marks], image.size)
    dots = np.asarray(image).astype(np.float32) / 255.0
    columns = max(2, round(size[0] / _FINEST_MM))
    rows = max(2, round(size[1] / _FINEST_MM))
    x, y = (np.arange(columns) + 0.5) * _FINEST_MM, (np.arange(rows) + 0.5) * _FINEST_MM
    across, up = np.meshgrid(x, y)
    # A dot's middle is half a dot in from its corner, where counting begins.
    at = fit.dots(np.column_stack((across.ravel(), up.ravel())))[:, ::-1].T - 0.5
    face = np.stack(
        [map_coordinates(dots[..., c], at, order=1, mode="nearest") for c in range(3)], axis=-1
    )
    wood = face.reshape(rows, columns, 3).astype(np.float32)
    for mark in marks:
        _uncover(wood, mark)
    return PhotoWood(
        face=wood, dot_mm=_FINEST_MM, size=size,
        fit=fit,
    )  # fmt: skip


def _uncover(face: NDArray[np.float32], mark: Mark) -> None:
    """Let the grain beside a disc run on under it: what lies there is not known.

    Each row of dots goes from the colour before the disc to the one behind it; where the board ends
    at the disc, the one that there is goes on.
    """
    rows, columns = face.shape[:2]
    reach, at_row = _DISC_MM / _FINEST_MM, mark.y_mm / _FINEST_MM
    for row in range(max(0, int(at_row - reach)), min(rows, int(at_row + reach) + 1)):
        half = np.sqrt(max(0.0, reach**2 - (row + 0.5 - at_row) ** 2))
        first, last = (int(mark.x_mm / _FINEST_MM + side) for side in (-half, half))
        before, behind = first - 1, last + 1
        if before < 0 and behind >= columns:
            continue
        ends = [face[row, at] for at in (before, behind) if 0 <= at < columns]
        low, high = max(0, first), min(columns, last + 1)
        share = np.linspace(0.0, 1.0, high - low, dtype=np.float32)[:, None]
        face[row, low:high] = ends[0] + (ends[-1] - ends[0]) * share
