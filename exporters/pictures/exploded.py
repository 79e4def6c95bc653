"""The piece drawn apart along the way it goes together, each part with its name beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from exporters.pdf.fonts import drawable
from exporters.render.camera import Camera
from exporters.render.light import Lighting
from exporters.render.render import Painter, Rendered, as_image, render
from exporters.scene.scene import scene_of
from exporters.views.apart import drawn_apart
from exporters.views.explode import shifts_against_assembly
from exporters.views.opening import Shifts
from exporters.views.values import ViewFrame
from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.pieces.piece import Piece, extents_of

APART_CAMERA = Camera(turn_deg=38.0, rise_deg=26.0)
_OPENING_SHARE = 0.5
_INK, _LEADER, _HALO = (43, 39, 35), (70, 62, 54), (255, 255, 255)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Label:
    """A name, the dot that it points at, and where its line stands [dots]."""

    name: str
    at: tuple[float, float]
    row: float = 0.0


def shifts_of(piece: Piece, order: AssemblyPlan | NoOrder | None, camera: Camera) -> Shifts:
    """How far each instance is moved apart [mm].

    Args:
        piece: what is shown.
        order: of assembly; without one, each joint is opened on its own.
        camera: how it is looked at.
    """
    if not piece.joinings:
        return {}
    if isinstance(order, AssemblyPlan):
        right, up, _ = camera.axes
        frame = ViewFrame(right=_vector(right), up=_vector(up))
        return drawn_apart(piece.placed, piece.joinings, order, frame).shifts
    low, high = extents_of(piece)
    size = sorted(b - a for a, b in zip(low, high, strict=True))[1]
    return shifts_against_assembly(piece.placed, piece.joinings, _OPENING_SHARE * size)


def _vector(row: NDArray[np.float64]) -> tuple[float, float, float]:
    return (float(row[0]), float(row[1]), float(row[2]))


def exploded_picture(
    piece: Piece, shifts: Shifts, painter: Painter, long_side: int, samples: int = 2
) -> Any:
    """The picture, with names.

    Args:
        piece: what is shown.
        shifts: of `shifts_of`.
        painter: gives the parts their colour.
        long_side: of the view without names [dots].
        samples: each way that a dot is parted into.

    Raises:
        SolidError: a part cannot be made.
    """
    scene = scene_of(piece, shifts or {"": (0.0, 0.0, 0.0)}, with_loads=False)
    rendered = render(
        scene, APART_CAMERA, painter, long_side=long_side, samples=samples,
        lighting=Lighting(sky=40, sun=24), shadow=0.0,
    )  # fmt: skip
    return _named(rendered, {each.instance for each in piece.placed}, long_side)


def _named(rendered: Rendered, parts: set[str], long_side: int) -> Any:
    """Names in two columns, each with a line to a dot of its part; hidden parts have none."""
    from PIL import Image, ImageDraw, ImageFont

    size = max(11, round(0.0145 * long_side))
    font = ImageFont.truetype(_font_file(), size)
    spots = _spots(rendered, parts)
    left, right = _sides(spots, rendered.dots.shape[1])
    widest = [
        max((font.getlength(drawable(each.name)) for each in side), default=0.0)
        for side in (left, right)
    ]
    pad = 1.2 * size
    columns = [round(width + 2 * pad) for width in widest]
    step = 1.55 * size
    tall = max(rendered.dots.shape[0], round(step * (max(len(left), len(right)) + 1)))
    image = Image.new("RGB", (columns[0] + rendered.dots.shape[1] + columns[1], tall), "white")
    down = (tall - rendered.dots.shape[0]) // 2
    image.paste(as_image(rendered), (columns[0], down))
    draw = ImageDraw.Draw(image)
    for side, is_left in ((left, True), (right, False)):
        for each in _spaced(side, step, tall, down):
            x, y = each.at[0] + columns[0], each.at[1] + down
            if is_left:
                end = columns[0] - 0.5 * pad
                draw.text((end - 0.4 * pad, each.row), drawable(each.name), _INK, font, "rm")
            else:
                end = image.width - columns[1] + 0.5 * pad
                draw.text((end + 0.4 * pad, each.row), drawable(each.name), _INK, font, "lm")
            thin = max(1, size // 12)
            for colour, wide in ((_HALO, 3 * thin), (_LEADER, thin)):  # it shows on dark wood too
                draw.line([(end, each.row), (x, y)], fill=colour, width=wide)
            dot = max(2, size // 6)
            draw.ellipse((x - dot, y - dot, x + dot, y + dot), fill="white", outline=_INK)
    return image


def _font_file() -> str:
    from matplotlib import get_data_path

    return f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf"


def _spots(rendered: Rendered, parts: set[str]) -> list[_Label]:
    """For each part that is seen, the dot that lies deepest inside what is seen of it."""
    from scipy.ndimage import distance_transform_edt

    found = []
    for index, name in enumerate(rendered.names):
        if name not in parts:
            continue
        own = rendered.owners == index
        rows, columns = np.nonzero(own)
        if len(rows) < 12:
            continue
        top, leftmost = rows.min(), columns.min()
        shape = own[top : rows.max() + 1, leftmost : columns.max() + 1]
        deep = distance_transform_edt(np.pad(shape, 1))[1:-1, 1:-1]
        row, column = np.unravel_index(int(np.argmax(deep)), deep.shape)
        found.append(_Label(name=name, at=(float(leftmost + column), float(top + row))))
    return found


def _sides(spots: Sequence[_Label], width: int) -> tuple[list[_Label], list[_Label]]:
    """As many names to the left as to the right, the leftmost dots on the left."""
    by_column = sorted(spots, key=lambda each: each.at[0])
    half = (len(by_column) + 1) // 2
    return by_column[:half], by_column[half:]


def _spaced(side: Sequence[_Label], step: float, tall: int, down: int) -> list[_Label]:
    """Names at the height of their dots, pushed apart as far as they need; lines cross nowhere."""
    ordered = sorted(side, key=lambda each: each.at[1])
    rows = np.array([each.at[1] + down for each in ordered])
    if not len(rows):
        return []
    lowest = step / 2
    for index in range(len(rows)):
        rows[index] = max(rows[index], lowest)
        lowest = rows[index] + step
    highest = tall - step / 2
    for index in range(len(rows) - 1, -1, -1):
        rows[index] = min(rows[index], highest)
        highest = rows[index] - step
    return [
        _Label(name=each.name, at=each.at, row=float(row))
        for each, row in zip(ordered, rows, strict=True)
    ]
