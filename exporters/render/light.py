"""The lights of a picture: a bright sky all round and a soft sun, each with what it sees."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.render.camera import Array
from exporters.render.kernel import fill

_SUN_COLOUR = np.array([1.0, 0.965, 0.90])
_SKY_COLOUR = np.array([0.94, 0.97, 1.0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Lighting:
    """How a scene is lit. Own choice by eye.

    Args:
        sky: directions that the sky is parted into.
        sun: directions that the sun is parted into; more make its shadow smoother.
        map_dots: side of what each direction sees [dots].
        sun_share: how much of the light on a level face is the sun's.
        from_left_deg: how far left of the eye the sun stands.
        high_deg: how high it stands.
        wide_deg: how wide it is: wide makes soft shadows.
    """

    sky: int = 56
    sun: int = 32
    map_dots: int = 640
    sun_share: float = 0.52
    from_left_deg: float = 48.0
    high_deg: float = 52.0
    wide_deg: float = 10.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lit:
    """Directions with their colour, and what each sees; shapes as `kernel.lit` takes them."""

    ways: Array
    weights: Array
    frames: Array
    maps: NDArray[np.float32]
    bias_mm: float


def lit_by(lighting: Lighting, towards: Array, corners: Array) -> Lit:
    """The lights of a scene, each with a map of what it sees of the triangles.

    Args:
        lighting: how it is lit.
        towards: direction to the eye; the sun stands to its left.
        corners: (n, 3, 3) triangles that shade, piece frame [mm].
    """
    ways, weights = _lights(lighting, towards)
    flat = corners.reshape(-1, 3)
    low, high = flat.min(axis=0), flat.max(axis=0)
    middle, radius = (low + high) / 2, float(np.linalg.norm(high - low)) / 2 * 1.02
    size = lighting.map_dots
    scale = size / (2.0 * radius)
    frames = np.empty((len(ways), 3, 4))
    maps = np.full((len(ways), size, size), -1e9, dtype=np.float32)
    owners = np.empty((size, size), dtype=np.int32)
    for index, way in enumerate(ways):
        right = np.cross(np.eye(3)[int(np.argmin(np.abs(way)))], way)
        right /= np.linalg.norm(right)
        rows = np.array([right * scale, np.cross(way, right) * scale, way])
        frames[index, :, :3] = rows
        frames[index, :, 3] = -rows @ middle
        frames[index, :2, 3] += size / 2
        seen = flat @ rows.T + frames[index, :, 3]
        fill(seen.reshape(-1, 3, 3), maps[index], owners)
    return Lit(ways=ways, weights=weights, frames=frames, maps=maps, bias_mm=1.1 / scale)


def _lights(lighting: Lighting, towards: Array) -> tuple[Array, Array]:
    """Sky and sun mixed in an order in which any run of them is spread over both."""
    sky = _spread(lighting.sky)
    turn = math.atan2(towards[1], towards[0]) - math.radians(lighting.from_left_deg)
    high = math.radians(lighting.high_deg)
    centre = np.array(
        [math.cos(high) * math.cos(turn), math.cos(high) * math.sin(turn), math.sin(high)]
    )
    sun = _disc(centre, math.radians(lighting.wide_deg), lighting.sun)
    # A level face gets light 1 in all, so that white ground stays white.
    of_sky = np.tile(_SKY_COLOUR, (len(sky), 1)) * (1.0 - lighting.sun_share)
    of_sky /= np.clip(sky[:, 2], 0.0, 1.0).sum()
    of_sun = np.tile(_SUN_COLOUR, (len(sun), 1)) * lighting.sun_share / sun[:, 2].sum()
    return np.vstack((sky, sun)), np.vstack((of_sky, of_sun))


def _spread(count: int) -> Array:
    """Directions spread evenly over the sky and a little below the level, in a shuffled order."""
    index = np.arange(count) + 0.5
    height = 1.0 - 1.12 * index / count
    turn = index * math.pi * (3.0 - math.sqrt(5.0))  # the golden angle leaves no pattern
    flat = np.sqrt(np.maximum(0.0, 1.0 - height**2))
    found = np.column_stack((flat * np.cos(turn), flat * np.sin(turn), height))
    return found[np.random.default_rng(7).permutation(count)]


def _disc(centre: Array, wide_rad: float, count: int) -> Array:
    index = np.arange(count) + 0.5
    reach = wide_rad * np.sqrt(index / count)
    turn = index * math.pi * (3.0 - math.sqrt(5.0))
    right = np.cross(np.array([0.0, 0.0, 1.0]), centre)
    right /= np.linalg.norm(right)
    up = np.cross(centre, right)
    found = centre + np.tan(reach)[:, None] * (
        np.cos(turn)[:, None] * right + np.sin(turn)[:, None] * up
    )
    found /= np.linalg.norm(found, axis=1, keepdims=True)
    return found[np.random.default_rng(8).permutation(count)]
