"""A scene as dots: what is nearest, how it is lit, what wood it is."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from exporters.render.camera import Array, Camera
from exporters.render.frame import Frame, framed
from exporters.render.kernel import eased, fill, lines, lit, surfaces
from exporters.render.light import Lighting, Lit, lit_by
from exporters.scene.scene import Body, Scene, Sort
from furniture.pieces.piece import Stance

Painter = Callable[[Body, Array, float], Array]
"""Colours of points of a body [own frame, mm], the distance between them given too."""

_EASED_MM = 0.7
"""How wide an arris catches the light: what a maker takes off it with paper. Own choice by eye."""
_END_DARKER = 0.80
"""How light an end looks beside a face of the same wood. Own choice by eye."""
_BOUNCE, _LINE, _GAIN = 0.16, 0.62, 1.06
_LINE_COLOUR = np.array([0.030, 0.022, 0.016])
_GHOST_FACING, _GHOST_EDGE, _GHOST_LINE = 0.13, 0.40, 0.45
_GROUPS = 4
_SOLID = (Sort.PART, Sort.HARDWARE, Sort.BALLAST)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rendered:
    """A picture and what it shows where.

    Args:
        dots: (rows, columns, 3) red, green and blue, 0 to 255.
        owners: (rows, columns) index in `names` of the body that is seen, -1 for none.
        names: of the solid bodies.
        frame: of the picture as it is.
    """

    dots: NDArray[np.uint8]
    owners: NDArray[np.int32]
    names: tuple[str, ...]
    frame: Frame


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Seen:
    """What a frame shows of some bodies."""

    keys: Array
    bodies: NDArray[np.int32]
    points: Array
    facing: Array


def plain(body: Body, points: Array, dot_mm: float) -> Array:
    """Every point in the body's one colour: a `Painter`."""
    return np.tile(np.array(body.colour), (len(points), 1))


def render(
    scene: Scene,
    camera: Camera,
    painter: Painter = plain,
    *,
    long_side: int = 1600,
    samples: int = 2,
    lighting: Lighting | None = None,
    shadow: float = 0.62,
    margin: float = 0.06,
) -> Rendered:
    """The picture of a scene.

    Args:
        scene: what is shown.
        camera: how it is looked at.
        painter: gives solid bodies their colour.
        long_side: of the picture [dots].
        samples: each way that a dot is parted into, 1 or 2.
        lighting: none takes the usual light.
        shadow: how dark the shadow on floor or wall is, 0 to 1.
        margin: all round, as a share of the longer side.
    """
    shown = np.vstack([each.points for each in scene.bodies])
    frame = framed(camera, shown, long_side, margin, samples)
    solid, loads = scene.of(*_SOLID), scene.of(Sort.LOAD)
    seen = _seen(solid, frame)
    lights = lit_by(lighting or Lighting(), frame.axes[2], _corners(solid))
    per_mm = frame.scale / samples
    groups = _GROUPS if samples == 2 else 1
    which = _groups_of(seen.bodies.shape, groups)
    marks = np.zeros(seen.bodies.shape)
    lines(seen.bodies, seen.facing, seen.points, 8.0 / per_mm, marks)
    facing = np.zeros_like(seen.facing)
    reach = int(min(4, max(1, round(_EASED_MM * frame.scale))))
    eased(seen.facing, seen.points, seen.bodies, reach, 3.0 * _EASED_MM + 2.0 / per_mm, facing)
    light = np.ones((*seen.bodies.shape, 3))
    _wood(seen, facing, lights, which, groups, light, painter, solid, 1.0 / frame.scale)
    if shadow > 0.0:
        _ground(scene, frame, seen, lights, which, groups, light, shadow)
    shade = (marks * _LINE)[..., None]
    light += (_LINE_COLOUR - light) * shade
    if loads:
        _ghosts(loads, frame, seen, light, per_mm)
    parted = (frame.height // samples, samples, frame.width // samples, samples)
    mean = light.reshape(*parted, 3).mean(axis=(1, 3))
    owners = seen.bodies.reshape(parted)[:, 0, :, 0]
    return Rendered(
        dots=np.round(255.0 * encoded(mean)).astype(np.uint8),
        owners=np.ascontiguousarray(owners),
        names=tuple(each.name for each in solid),
        frame=Frame(
            axes=frame.axes, middle=frame.middle, away_mm=frame.away_mm,
            scale=frame.scale / samples, width=frame.width // samples,
            height=frame.height // samples,
            centre=(frame.centre[0] / samples, frame.centre[1] / samples),
        ),
    )  # fmt: skip


def corners_of(scene: Scene) -> Array:
    """Every triangle of what is solid, (n, 3, 3), piece frame [mm]."""
    return _corners(scene.of(*_SOLID))


def _corners(bodies: Sequence[Body]) -> Array:
    return np.vstack([each.points[each.mesh.triangles] for each in bodies])


def _seen(bodies: Sequence[Body], frame: Frame) -> _Seen:
    corners = _corners(bodies)
    normals = np.vstack([each.normals[each.mesh.triangles] for each in bodies])
    of_body = np.repeat(np.arange(len(bodies)), [len(each.mesh.triangles) for each in bodies])
    keys = np.full((frame.height, frame.width), -1e30)
    owners = np.full((frame.height, frame.width), -1, dtype=np.int32)
    dots = frame.dots(corners.reshape(-1, 3)).reshape(-1, 3, 3)
    fill(np.ascontiguousarray(dots), keys, owners)
    points, facing = np.zeros((*owners.shape, 3)), np.zeros((*owners.shape, 3))
    is_near = math.isfinite(frame.away_mm)
    surfaces(owners, keys, *frame.rays(), is_near, corners, normals, points, facing)
    bodies_at = np.where(owners >= 0, of_body[owners], -1).astype(np.int32)
    return _Seen(keys=keys, bodies=bodies_at, points=points, facing=facing)


def _groups_of(shape: tuple[int, ...], groups: int) -> NDArray[np.int64]:
    rows, columns = np.indices(shape)
    return ((rows % 2) * 2 + columns % 2) % groups


def _wood(
    seen: _Seen, facing: Array, lights: Lit, which: NDArray[np.int64], groups: int,
    light: Array, painter: Painter, bodies: Sequence[Body], dot_mm: float,
) -> None:  # fmt: skip
    rows, columns = np.nonzero(seen.bodies >= 0)
    index = seen.bodies[rows, columns]
    order = np.argsort(index, kind="stable")  # body by body, so that each is painted at one go
    rows, columns = rows[order], columns[order]
    ends_at = np.searchsorted(index[order], np.arange(len(bodies) + 1))
    points, normals = seen.points[rows, columns], facing[rows, columns]
    got = light_at(points, normals, which[rows, columns], lights, groups)
    got += _BOUNCE * (1.0 - 0.7 * normals[:, 2:3]) * np.array([1.0, 0.98, 0.95])
    for number, body in enumerate(bodies):
        own = slice(ends_at[number], ends_at[number + 1])
        if own.start == own.stop:
            continue
        albedo = painter(body, (points[own] - body.origin) @ body.axes.T, dot_mm)
        if body.sort is Sort.PART:
            ends = np.abs(seen.facing[rows[own], columns[own]] @ body.axes[0])
            albedo *= 1.0 - (1.0 - _END_DARKER) * np.clip(ends, 0.0, 1.0)[:, None] ** 4
        got[own] *= _decoded(albedo) * _GAIN
    light[rows, columns] = got


def light_at(
    points: Array, normals: Array, which: NDArray[np.int64], lights: Lit, groups: int
) -> Array:
    """The light that comes to points, red, green and blue; a level face in the open gets 1.

    Args:
        points: (n, 3) piece frame [mm].
        normals: (n, 3) unit vectors out of the faces there.
        which: (n,) the group of lights that each asks.
        lights: of the scene.
        groups: that the lights are parted into.
    """
    got = np.empty((len(points), 3))
    lit(
        np.ascontiguousarray(points), np.ascontiguousarray(normals), which, lights.maps,
        lights.frames, lights.ways, lights.weights, lights.bias_mm, groups, got,
    )  # fmt: skip
    return got


def _ground(
    scene: Scene, frame: Frame, seen: _Seen, lights: Lit, which: NDArray[np.int64], groups: int,
    light: Array, shadow: float,
) -> None:  # fmt: skip
    """The shadow on floor or wall, on white; where the eye sees neither, plain white."""
    axis, sign = (1, -1.0) if scene.stance is Stance.WALL else (2, 1.0)
    start, column_step, row_step, way = frame.rays()
    is_near = math.isfinite(frame.away_mm)
    rows, columns = np.nonzero(seen.bodies < 0)
    moved = np.outer(columns + 0.5, column_step) + np.outer(rows + 0.5, row_step)
    begin, going = (
        (start, way + moved) if is_near else (start + moved, np.tile(-way, (len(rows), 1)))
    )
    falls = going[:, axis] * sign
    is_met = falls < -0.02 * np.linalg.norm(going, axis=1)
    if not is_met.any():
        return
    rows, columns, going = rows[is_met], columns[is_met], going[is_met]
    begin = begin if is_near else begin[is_met]
    ground = scene.ground_mm
    share = (ground - (begin[axis] if is_near else begin[:, axis])) / going[:, axis]
    points = begin + share[:, None] * going
    middle, reach = _round_about(seen)
    is_by = np.linalg.norm(points - middle, axis=1) < reach
    rows, columns, points = rows[is_by], columns[is_by], points[is_by]
    normal = np.zeros(3)
    normal[axis] = sign
    open_sky = np.maximum(lights.ways @ normal, 0.0) @ lights.weights
    got = light_at(points, np.tile(normal, (len(points), 1)), which[rows, columns], lights, groups)
    # A group of lights is a sample of all: what it gives in the open is what it is measured by.
    for group in range(groups):
        own = which[rows, columns] == group
        of_group = (
            np.maximum(lights.ways[group::groups] @ normal, 0.0) @ lights.weights[group::groups]
        )
        got[own] *= open_sky / (of_group * groups)
    fades = np.clip(4.0 * (1.0 - np.linalg.norm(points - middle, axis=1) / reach), 0.0, 1.0)
    fades *= _off_the_edge(rows, frame.height) * _off_the_edge(columns, frame.width)
    dark = np.clip(1.0 - got / open_sky, 0.0, 1.0) * shadow * fades[:, None]
    light[rows, columns] = 1.0 - dark


def _off_the_edge(at: NDArray[np.int64], size: int) -> Array:
    """0 at the edge of the picture and 1 inside, so that no shadow is cut off there."""
    share: Array = np.clip(np.minimum(at, size - 1 - at) / (0.06 * size), 0.0, 1.0)
    return share * share * (3.0 - 2.0 * share)


def _round_about(seen: _Seen) -> tuple[Array, float]:
    """A point on the piece and how far about it a shadow may be seen [mm]."""
    points = seen.points[::8, ::8][seen.bodies[::8, ::8] >= 0]
    low, high = points.min(axis=0), points.max(axis=0)
    middle: Array = (low + high) / 2
    return middle, 1.7 * float(np.linalg.norm(high - low)) / 2 + 1.0


def _ghosts(loads: Sequence[Body], frame: Frame, seen: _Seen, light: Array, per_mm: float) -> None:
    """What stands on the piece, so light that the wood shows through it."""
    ghost = _seen(loads, frame)
    where = (ghost.bodies >= 0) & (ghost.keys > seen.keys)
    if not where.any():
        return
    facing = np.abs(ghost.facing[where] @ frame.axes[2])
    marks = np.zeros(ghost.bodies.shape)
    lines(ghost.bodies, ghost.facing, ghost.points, 8.0 / per_mm, marks)
    share = _GHOST_FACING + (_GHOST_EDGE - _GHOST_FACING) * (1.0 - facing) ** 2
    share = np.maximum(share, _GHOST_LINE * marks[where])[:, None]
    colours = _decoded(np.array([each.colour for each in loads]))[ghost.bodies[where]]
    light[where] += (colours - light[where]) * share


def _decoded(colours: Array) -> Array:
    """Light of sRGB values 0 to 1. Source: IEC 61966-2-1, the standard's own curve."""
    return np.where(colours <= 0.04045, colours / 12.92, ((colours + 0.055) / 1.055) ** 2.4)


def encoded(light: Array) -> Array:
    """sRGB values 0 to 1 of light 0 to 1. Source: IEC 61966-2-1."""
    light = np.clip(light, 0.0, 1.0)
    return np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)


def as_image(rendered: Rendered) -> Any:
    """The picture as an image to save."""
    from PIL import Image

    return Image.fromarray(rendered.dots)
