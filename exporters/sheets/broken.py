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
_MOST_BREAKS = 5
"""More of them and what is left looks like slats. Own rule."""
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

    A single one is seen for what it is. Of several all that are broken come out alike, and no
    shorter than what is left whole: else a stretch would look longer than one that is longer.

    Args:
        length_mm: of the part.
        plain: stretches where nothing changes.
        factor: paper length of one mm of the part.
        target_mm: on paper.
    """
    wanted = length_mm - target_mm / factor
    least, kept = _LEAST_SAVED_MM / factor, (2 * _KEPT_MM + GAP_MM) / factor
    if wanted < least:
        return None
    longest = sorted(plain, key=_long, reverse=True)
    for count, shortest in enumerate(longest[:_MOST_BREAKS], start=1):
        chosen, others = longest[:count], longest[count:]
        drawn = min((sum(map(_long, chosen)) - wanted) / count, _long(shortest) - least)
        whole = max(map(_long, others), default=0.0)
        if drawn >= (kept if count == 1 else max(kept, whole)):
            return tuple(
                _middle_of(low, high, high - low - drawn + GAP_MM / factor)
                for low, high in sorted(chosen)
            )
    return None


def _long(stretch: tuple[float, float]) -> float:
    low, high = stretch
    return high - low


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
