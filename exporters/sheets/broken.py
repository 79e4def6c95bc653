"""Long parts drawn broken: a plain stretch of the length is left out so that the rest is larger.

The break is drawn as two thin lines with a zigzag (ISO 128-3, from memory). Figures across it say
the true length.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from exporters.sheets.clip import clipped_view, inside_box
from exporters.sheets.geometry import scaled_shape
from exporters.sheets.paper import Box2
from exporters.views.values import View
from furniture.parts.vectors import Point2

GAP_MM = 3.0
_KEPT_MM = 8.0
_LEAST_SAVED_MM = 8.0
_MOST_BREAKS = 3
_FAR_MM = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """A stretch of a part that its long views leave out [mm from the named end]."""

    start_mm: float
    end_mm: float


def plain_stretches(
    length_mm: float, busy: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """Where nothing changes along a part [mm from the named end].

    Args:
        length_mm: of the part.
        busy: from where to where something does.
    """
    found = []
    at = 0.0
    for low, high in sorted(busy):
        if low > at:
            found.append((at, low))
        at = max(at, high)
    if at < length_mm:
        found.append((at, length_mm))
    return found


def breaks_to_fit(
    length_mm: float, plain: Sequence[tuple[float, float]], factor: float, target_mm: float
) -> tuple[Break, ...] | None:
    """The fewest breaks that bring a part down to a length on paper; none when they cannot.

    Args:
        length_mm: of the part.
        plain: stretches where nothing changes.
        factor: paper length of one mm of the part.
        target_mm: on paper.
    """
    wanted = length_mm * factor - target_mm
    if wanted < _LEAST_SAVED_MM:
        return None
    kept = (2 * _KEPT_MM + GAP_MM) / factor
    longest = sorted(plain, key=lambda stretch: stretch[0] - stretch[1])[:_MOST_BREAKS]
    for count in range(1, len(longest) + 1):
        chosen = sorted(longest[:count])
        spare = [max(0.0, high - low - kept) for low, high in chosen]
        if min(spare) * factor < _LEAST_SAVED_MM:
            return None
        share = wanted / factor / sum(spare)
        if share <= 1.0:
            return tuple(
                _middle_of(low, high, room * share + GAP_MM / factor)
                for (low, high), room in zip(chosen, spare, strict=True)
            )
    return None


def _middle_of(low: float, high: float, long: float) -> Break:
    middle = (low + high) / 2
    return Break(start_mm=middle - long / 2, end_mm=middle + long / 2)


def drawn_at(x_mm: float, breaks: Sequence[Break], factor: float) -> float:
    """Where a place along the part stands in its broken view, at 1:1 [mm].

    Args:
        x_mm: from the named end.
        breaks: in order.
        factor: paper length of one mm of the part; the gap of a break is the same on any paper.
    """
    at = x_mm
    for each in breaks:
        if x_mm > each.start_mm:
            at -= min(x_mm, each.end_mm) - each.start_mm
            at += GAP_MM / factor if x_mm >= each.end_mm else 0.0
    return at


def broken_view(view: View, breaks: Sequence[Break], factor: float) -> View:
    """A long view, the named end at x = 0, without the stretches that are left out.

    Args:
        view: at 1:1.
        breaks: in order.
        factor: paper length of one mm of the part.
    """
    if not breaks:
        return view
    starts = [-_FAR_MM, *(each.end_mm for each in breaks)]
    ends = [*(each.start_mm for each in breaks), _FAR_MM]
    edges = []
    for low, high in zip(starts, ends, strict=True):
        window = inside_box(Box2(left=low, bottom=-_FAR_MM, right=high, top=_FAR_MM))
        dx = drawn_at(low, breaks, factor) - low if low > -_FAR_MM else 0.0
        for edge in clipped_view(view, window).edges:
            edges.append(replace(edge, shape=scaled_shape(edge.shape, 1.0, dx)))
    high_x = drawn_at(view.high[0], breaks, factor)
    return replace(view, edges=tuple(edges), high=(high_x, view.high[1]))


def break_paths(
    breaks: Sequence[Break], factor: float, low_mm: float, high_mm: float
) -> list[list[Point2]]:
    """The two zigzags of every break, on paper with the named end at x = 0 [mm].

    Args:
        breaks: in order.
        factor: paper length of one mm of the part.
        low_mm: the lower side of the view on paper.
        high_mm: its upper side.
    """
    middle, size = (low_mm + high_mm) / 2, min(1.0, (high_mm - low_mm) / 5)
    paths: list[list[Point2]] = []
    for each in breaks:
        left = drawn_at(each.start_mm, breaks, factor) * factor
        for x in (left, left + GAP_MM):
            paths.append(
                [
                    (x, low_mm),
                    (x, middle - size),
                    (x - size, middle - size / 2),
                    (x + size, middle + size / 2),
                    (x, middle + size),
                    (x, high_mm),
                ]
            )
    return paths
