"""Names of parts on a small picture: on what is seen of each, or close beside it, where clear."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from shapely.geometry import MultiPoint

from exporters.sheets.geometry import shape_points
from exporters.sheets.lettering import descent, text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.space import crosses_box
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.glue_up import Shown
from furniture.parts.vectors import Point2

_SHARES = sorted((step / 32 for step in range(1, 32)), key=lambda share: abs(share - 0.5))
"""Where a name is tried across what a part covers, from the middle outwards. Own rule."""
_CLEAR_MM = 0.25
_BESIDE_MM = 1.0
_NEARER_MM = 1.5
"""A name beside its part stands so much nearer to it than to any other. Own rule."""


def names_of(
    parts: Sequence[Shown],
    on_paper: dict[str, tuple[Point2, ...]],
    drawn: Sequence[Item],
    room: Box2,
    style: SheetStyle,
) -> list[Item]:
    """The names of the parts that come in; one that has no clear place is left out.

    Args:
        parts: of the picture.
        on_paper: the corners of each part's box on paper [mm], by its instance.
        drawn: every line of the picture.
        room: where names may stand [mm].
        style: gives their height.
    """
    hulls = {name: MultiPoint(corners).convex_hull for name, corners in on_paper.items()}
    lines = [shape_points(each.shape) for each in drawn if isinstance(each, Stroke)]
    found: list[Item] = []
    taken: list[Box2] = []
    for each in parts:
        if not each.comes_in:
            continue
        text, height = each.instance, style.text_height_mm
        wide, low = text_width(text, height), descent(text, height)
        own = hulls[each.instance]
        others = [hull for name, hull in hulls.items() if name != each.instance]
        for place in _clear_of_parts(own, others, room, (wide, height, low)):
            around = place.grown(_CLEAR_MM)
            is_clear = not any(around.overlaps(other) for other in taken) and not any(
                crosses_box(a, b, around) for points in lines for a, b in pairwise(points)
            )
            if is_clear:
                at = (place.left + wide / 2, place.bottom + low)
                found.append(Lettering(text=text, at=at, height=height, anchor=Anchor.CENTRE))
                taken.append(place)
                break
    return found


def _clear_of_parts(
    own: Any, others: Sequence[Any], room: Box2, size: tuple[float, float, float]
) -> Iterator[Box2]:
    """Places of a name on its part, then beside it, that no other part makes doubtful.

    Args:
        own: the outline of its part.
        others: those of the other parts.
        room: where names may stand [mm].
        size: of the name: its width, its height and how far it hangs below its line [mm].
    """
    wide, height, low = size
    middles = np.array([each for each, _ in _places(own.bounds, wide, height + low)])
    is_inside = np.array([each for _, each in _places(own.bounds, wide, height + low)])
    left, bottom = middles[:, 0] - wide / 2, middles[:, 1] - height / 2 - low
    right, top = middles[:, 0] + wide / 2, middles[:, 1] + height / 2
    is_in_room = (left >= room.left) & (right <= room.right)
    is_in_room &= (bottom >= room.bottom) & (top <= room.top)
    areas = shapely.box(left - _CLEAR_MM, bottom - _CLEAR_MM, right + _CLEAR_MM, top + _CLEAR_MM)
    is_clear = is_in_room & (shapely.contains(own, areas) | ~is_inside)
    nearest = shapely.distance(own, areas) + _NEARER_MM
    for other in others:
        gap = shapely.distance(other, areas)
        is_clear &= (gap > 0.0) & (is_inside | (nearest < gap))
    for index in np.flatnonzero(is_clear):
        yield Box2(
            left=float(left[index]), right=float(right[index]), bottom=float(bottom[index]),
            top=float(top[index]),
        )  # fmt: skip


def _places(
    bounds: tuple[float, float, float, float], wide: float, high: float
) -> Iterator[tuple[Point2, bool]]:
    """Middles of a name, from the middle of its part outwards, then beside it."""
    left, low, right, top = bounds
    for v in _SHARES:
        for u in _SHARES:
            yield (left + u * (right - left), low + v * (top - low)), True
    for v in _SHARES:
        y = low + v * (top - low)
        yield (right + _BESIDE_MM + wide / 2, y), False
        yield (left - _BESIDE_MM - wide / 2, y), False
    for u in _SHARES:
        x = left + u * (right - left)
        yield (x, low - _BESIDE_MM - high / 2), False
        yield (x, top + _BESIDE_MM + high / 2), False
