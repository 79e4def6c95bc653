"""The shadow of a piece on its floor, seen from straight above, to lay under a view that turns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.render.camera import Array
from exporters.render.light import Lighting, lit_by
from exporters.render.render import corners_of, encoded, light_at
from exporters.scene.scene import Scene
from furniture.pieces.piece import Stance

_LIGHTING = Lighting(sky=24, sun=24, map_dots=224)
_DOTS = 176
_REACH = 1.15
"""How far about the piece its shadow is kept, in diagonals of it. Own choice by eye."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundShadow:
    """How dark the floor is.

    Args:
        dots: rows from the rear to the front, columns from left to right; 0 is white, 255 black.
        low: the least x and y of it, piece frame [mm].
        high: the greatest.
    """

    dots: NDArray[np.uint8]
    low: tuple[float, float]
    high: tuple[float, float]


def ground_shadow(scene: Scene, towards: Array, darkness: float = 0.62) -> GroundShadow | None:
    """The soft shadow under a piece that stands; None for one that hangs.

    Args:
        scene: what is shown.
        towards: direction to the eye, to whose left the sun stands.
        darkness: where no light comes to, 0 to 1.
    """
    if scene.stance is not Stance.FLOOR:
        return None
    corners = corners_of(scene)
    flat = corners.reshape(-1, 3)
    low, high = flat.min(axis=0), flat.max(axis=0)
    reach = _REACH * float(np.linalg.norm(high - low)) / 2
    middle = (low + high) / 2
    step = 2.0 * reach / _DOTS
    along = (np.arange(_DOTS) + 0.5) * step - reach
    x, y = np.meshgrid(middle[0] + along, middle[1] - along)
    points = np.column_stack((x.ravel(), y.ravel(), np.full(x.size, scene.ground_mm)))
    normals = np.tile(np.array([0.0, 0.0, 1.0]), (len(points), 1))
    lights = lit_by(_LIGHTING, towards, corners)
    got = light_at(points, normals, np.zeros(len(points), dtype=np.int64), lights, 1)
    in_the_open = np.maximum(lights.ways[:, 2], 0.0) @ lights.weights
    dark = np.clip(1.0 - got / in_the_open, 0.0, 1.0).mean(axis=1).reshape(x.shape)
    off = np.hypot(*np.meshgrid(along, along)) / reach
    dark *= np.clip(3.0 * (1.0 - off), 0.0, 1.0) * darkness
    return GroundShadow(
        dots=np.round(255.0 * (1.0 - encoded(1.0 - dark))).astype(np.uint8),
        low=(float(middle[0] - reach), float(middle[1] - reach)),
        high=(float(middle[0] + reach), float(middle[1] + reach)),
    )
