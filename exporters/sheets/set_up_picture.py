"""A set-up as a small picture: the wood cut across on its machine, and what is cut away hatched.

Seen along the feed: what lies down is at the bottom, the fence at the right. Long wood is broken
where it is plain. Everything is drawn from the setting and the hold of one pass.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from shapely.geometry import box
from shapely.geometry.polygon import orient

from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import text_width
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.set_up_bits import (
    LEAST_SHOWN_MM,
    PITCH,
    WIDE_MM,
    Rows,
    block,
    dimension,
    kept_of,
    outlined,
    thickened,
)
from exporters.sheets.set_up_look import Cut, Look, along, cut_of, look_at, polygons
from exporters.sheets.values import Anchor, Hatched, Item, Lettering, Stroke
from exporters.views.values import Polyline
from exporters.work.set_up_shown import SetUpShown
from furniture.making.settings import (
    Bored,
    CornerSlot,
    Easing,
    Machine,
    MitreGroove,
    Skim,
    Slice,
    Trench,
)
from furniture.parts.faces import ENDS, Face
from furniture.parts.vectors import Point2

WORDS_MM = (32.0, 39.0)
"""How wide the rows of its words may be: narrow rows are more of them. Own rule."""
_THICK_MM, _TALL_MM = 6.0, 10.0
"""How high wood is drawn that lies, and wood that stands on its edge. Own rule."""
_LIES_MM = 45.0
"""Wood no higher than this lies. Own rule."""
_BLOCK_MM = 2.2
_UNDER_MM = 2.0
_OVER_MM = 1.3
_HATCH_MM = 0.7
_GAP_MM = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A small picture on paper [mm], its lower left corner at 0, 0."""

    items: tuple[Item, ...]
    width: float
    height: float


def set_up_picture(
    shown: SetUpShown, style: SheetStyle, words_mm: float = WORDS_MM[0]
) -> Picture | None:
    """The picture of a set-up; None where the pass is not told by a setting, or takes nothing.

    Args:
        shown: what it shows.
        style: pens and heights.
        words_mm: how wide its rows of words may be.
    """
    look = look_at(shown.operation)
    cut = None if look is None else cut_of(shown, look)
    if look is None or cut is None:
        return None
    draught = _Draught(shown, look, cut, style, words_mm)
    items = list(draught.items())
    around = items_box(items)
    return Picture(
        items=tuple(moved_item(item, -around.left, -around.bottom) for item in items),
        width=around.width,
        height=around.height,
    )


class _Draught:
    """One picture as it is drawn."""

    def __init__(
        self, shown: SetUpShown, look: Look, cut: Cut, style: SheetStyle, words_mm: float
    ) -> None:
        self._shown, self._look, self._style = shown, look, style
        self._words_mm = words_mm
        self._operation = shown.operation
        self._before, self._after = cut.before, cut.after
        self._beyond, self._gone = cut.beyond, cut.gone
        left, low, right, high = self._before.bounds
        tall = high - low
        self._factor = min(1.0, (_THICK_MM if tall <= _LIES_MM else _TALL_MM) / tall)
        self._low, self._high = low, tall * self._factor
        span = self._span_of_wood() if self._is_told_inside() else None
        said = text_width(shown.far, style.text_height_mm) + 2 * _GAP_MM + 2.0
        self._kept, self._gaps = kept_of(left, right, self._gone.bounds, self._factor, (span, said))

    def _x(self, h: float) -> float:
        """Where a place along the wood comes to lie on paper: what is left out takes no room."""
        start = 0.0
        for (low, high), gap in zip(self._kept, (*self._gaps, None), strict=True):
            if gap is None or h <= high:
                return start + (h - low) * self._factor
            start += (high - low) * self._factor + gap
        return start

    def _y(self, v: float) -> float:
        return (v - self._low) * self._factor

    def items(self) -> Iterator[Item]:
        """Everything that is drawn and written."""
        drawn = list(self._lines())
        yield from drawn
        yield from self._words(items_box(drawn).top)

    def _lines(self) -> Iterator[Item]:
        """Wood, what is cut away, and the machine."""
        yield from self._wood(self._after, LineClass.PICTURE)
        if self._beyond is not None:
            is_part = len(self._operation.gives) > 1
            yield from self._wood(self._beyond, LineClass.PICTURE if is_part else LineClass.HIDDEN)
        yield from self._cut_away()
        yield from self._breaks()
        yield from self._bench()

    def _wood(self, area: Any, line_class: LineClass) -> Iterator[Item]:
        for low, high in self._kept:
            stretch = area.intersection(box(low, -1e5, high, 1e5))
            for polygon in polygons(stretch):
                for ring in (polygon.exterior, *polygon.interiors):
                    for chain in self._chains(ring.coords):
                        yield Stroke(shape=Polyline(points=chain), line_class=line_class)

    def _chains(self, coords: Sequence[Point2]) -> Iterator[tuple[Point2, ...]]:
        """An outline in stretches, without what runs along a break."""
        broken = self._broken_at()
        chain: list[Point2] = []
        for a, b in pairwise(coords):
            if any(abs(a[0] - at) < 1e-6 and abs(b[0] - at) < 1e-6 for at in broken):
                if len(chain) > 1:
                    yield tuple(chain)
                chain = []
                continue
            if not chain:
                chain.append(self._on_paper(a))
            chain.append(self._on_paper(b))
        if len(chain) > 1:
            yield tuple(chain)

    def _on_paper(self, point: Point2) -> Point2:
        return (self._x(point[0]), self._y(point[1]))

    def _broken_at(self) -> list[float]:
        return [at for first, second in pairwise(self._kept) for at in (first[1], second[0])]

    def _breaks(self) -> Iterator[Item]:
        for at in self._broken_at():
            strip = self._before.intersection(box(at - 1e-3, -1e5, at + 1e-3, 1e5))
            for polygon in polygons(strip):
                _, low, _, high = polygon.bounds
                x, bottom, top = self._x(at), self._y(low), self._y(high)
                middle, jog = (bottom + top) / 2, 0.5
                points = (
                    (x, bottom), (x, middle - jog), (x - jog, middle - jog / 2),
                    (x + jog, middle + jog / 2), (x, middle + jog), (x, top),
                )  # fmt: skip
                yield Stroke(shape=Polyline(points=points), line_class=LineClass.BREAK)

    def _cut_away(self) -> Iterator[Item]:
        """What the cutter takes, hatched; a thin skin is drawn thicker than it is."""
        for polygon in polygons(self._gone):
            left, low, right, high = polygon.bounds
            x0, x1 = self._x(left), self._x(right)
            y0, y1 = self._y(low), self._y(high)
            if min(x1 - x0, y1 - y0) < LEAST_SHOWN_MM:
                points = thickened(x0, y0, x1, y1)
            else:
                points = tuple(self._on_paper(p) for p in orient(polygon).exterior.coords[:-1])
            yield Hatched(outline=points, angle_deg=self._hatch_deg(), spacing_mm=_HATCH_MM)
            yield Stroke(shape=Polyline(points=(*points, points[0])), line_class=LineClass.PICTURE)

    def _hatch_deg(self) -> float:
        """Across a groove that leans as the usual hatching does, or it would show none."""
        setting = self._operation.setting
        leans = isinstance(setting, MitreGroove) and not self._faces_right(setting.end)
        return 135.0 if leans else 45.0

    def _bench(self) -> Iterator[Item]:
        """Table, fence, stop, and the cutter where it leaves the wood."""
        left, right = self._x(self._kept[0][0]), self._x(self._kept[-1][1])
        yield from self._cutter()
        yield stroke((left - 3.0, 0.0), (right + 3.0, 0.0), LineClass.VISIBLE)
        hold, rig = self._operation.hold, self._operation.rig
        assert rig is not None
        has_fence = hold.against is not None and self._faces_right(hold.against)
        if has_fence:
            yield from block(right, 0.0, _BLOCK_MM, self._high + 1.0)
        if rig.machine is Machine.DOWEL_JIG:
            yield from block(right - 7.0, self._high, 7.0, 1.6)
        stop = hold.stop
        is_stopped = stop in ENDS or isinstance(self._operation.setting, CornerSlot)
        if stop is not None and is_stopped and abs(along(stop, self._look.right)) > 0.5:
            is_right = along(stop, self._look.right) > 0
            x = right if is_right else left - _BLOCK_MM
            yield from block(x, 0.0, _BLOCK_MM, max(2.5, 0.7 * self._high))

    def _faces_right(self, face: Face) -> bool:
        return along(face, self._look.right) > 0.5

    def _cutter(self) -> Iterator[Item]:
        """The cutter below the table, beside a jig or above the wood, as an outline."""
        operation, top = self._operation, self._high
        setting, rig = operation.setting, operation.rig
        assert rig is not None
        left, low, right, high = self._gone.bounds
        match setting:
            case Slice() | Skim() if not rig.turned_deg:
                yield from self._blade(setting.kerf_mm)
            case Trench() if rig.machine is Machine.ROUTER:
                x0, x1 = self._x(left), self._x(right)
                yield outlined(((x0, top), (x0, top + 3.0), (x1, top + 3.0), (x1, top)))
            case MitreGroove():
                yield self._tilted(setting)
            case Trench() | CornerSlot():
                x0, x1 = self._x(left), self._x(right)
                yield outlined(((x0, 0.0), (x0, -_UNDER_MM), (x1, -_UNDER_MM), (x1, 0.0)))
            case Bored() if rig.machine is Machine.DOWEL_JIG:
                x, y0, y1 = self._x(right), self._y(low), self._y(high)
                yield outlined(((x, y0), (x + 5.0, y0), (x + 5.0, y1), (x, y1)))
            case Bored():
                x0, x1 = self._x(left), self._x(right)
                yield outlined(((x0, top), (x0, top + 3.0), (x1, top + 3.0), (x1, top)))
            case Easing():
                x0, x1 = self._x(left), self._x(right) + 1.0
                yield outlined(((x0, 0.0), (x0, -_UNDER_MM), (x1, -_UNDER_MM), (x1, 0.0)))
            case _:
                return

    def _tilted(self, setting: MitreGroove) -> Item:
        """The blade square to a mitre, from below the table into its groove."""
        lean = math.radians(setting.lean_deg)
        inwards = -1.0 if self._faces_right(setting.end) else 1.0
        rise = math.tan(lean) * inwards
        centre = self._gone.centroid
        half = setting.width_mm / 2 / math.cos(lean)
        low = self._low - _UNDER_MM / self._factor
        top = self._gone.bounds[3]
        points = []
        for v, side in ((low, -1.0), (top, -1.0), (top, 1.0), (low, 1.0)):
            level = v - centre.y - side * half
            points.append(self._on_paper((centre.x + level / rise, v)))
        return outlined((*points, points[0]))

    def _blade(self, kerf_mm: float) -> Iterator[Item]:
        """The blade through the wood, from below the table to above it."""
        (_, low, _, high) = self._before.bounds
        kept_left = self._after.centroid.x < self._gone.centroid.x
        ends = []
        for v in (low + 0.01 * (high - low), high - 0.01 * (high - low)):
            line = self._gone.intersection(box(-1e5, v - 1e-4, 1e5, v + 1e-4))
            left, _, right, _ = line.bounds
            ends.append((left if kept_left else right, v))
        (h0, v0), (h1, v1) = ends
        slope = (h1 - h0) / (v1 - v0)
        wide = kerf_mm * (1.0 + slope * slope) ** 0.5 * (1.0 if kept_left else -1.0)
        points = []
        for v in (low - _UNDER_MM / self._factor, high + _OVER_MM / self._factor):
            h = h0 + (v - v0) * slope
            # beyond the wood the scale goes on as it is at the cut
            points.append((self._x(h0) + (h - h0) * self._factor, self._y(v)))
        across = wide * self._factor
        (x0, y0), (x1, y1) = points
        yield outlined(((x0, y0), (x1, y1), (x1 + across, y1), (x0 + across, y0), (x0, y0)))

    def _words(self, base: float) -> Iterator[Item]:
        """Names and figures in rows above what is drawn, which ends at `base`, and below it."""
        height, shown, hold = self._style.text_height_mm, self._shown, self._operation.hold
        left, right = self._x(self._kept[0][0]), self._x(self._kept[-1][1])
        middle = (left + right) / 2
        most = max(right + 3.0, left + self._words_mm - 3.0)
        above, below = Rows(left - 3.0, most), Rows(left - 3.0, most)
        span = self._span() if shown.far else None
        inside = None
        if span is not None and self._is_told_inside():
            inside = self._room_inside(span, shown.far)
        if span is not None and inside is not None:
            yield from self._dimension_inside(span, inside)
        elif span is not None:
            base += 1.0
            yield from dimension(span, base, self._high, self._style)
            above.put_figure((span[0] + span[1]) / 2, shown.far, height)
            base += 1.0
        if shown.stop and hold.stop is not None:
            is_right = along(hold.stop, self._look.right) > 0
            above.put(right if is_right else left, shown.stop, height)
        if shown.against:
            is_fence = hold.against is not None and self._faces_right(hold.against)
            above.put(right if is_fence else middle, shown.against, height)
        if shown.down:
            below.put(middle, shown.down, height)
        if shown.high:
            at = self._room_beside_cut(shown.high)
            if at is None:
                below.put(self._x(self._gone.centroid.x), shown.high, height)
            else:
                y = (self._high - height) / 2
                yield Lettering(text=shown.high, at=(at, y), height=height, anchor=Anchor.CENTRE)
        yield from above.lettering(base + _GAP_MM, PITCH * height, height)
        yield from below.lettering(-_UNDER_MM - _GAP_MM - height, -PITCH * height, height)

    def _is_told_inside(self) -> bool:
        """Whether the figure may stand in the wood: short, and of a cut that does not lean."""
        setting, text = self._operation.setting, self._shown.far
        leans = isinstance(setting, Slice) and bool(setting.lean_deg)
        is_short = text_width(text, self._style.text_height_mm) < WIDE_MM / 2
        return bool(text) and is_short and not leans

    def _room_inside(self, span: tuple[float, float], text: str) -> float | None:
        """Where in the wood a figure stands clear of every line, in the middle of its place."""
        height = self._style.text_height_mm
        half = text_width(text, height) / 2 + _GAP_MM
        if self._high < height + _GAP_MM or span[1] - span[0] < 2 * half + 5.0:
            return None
        middle, best = (span[0] + span[1]) / 2, None
        for first, second in pairwise(self._kept):
            x0, x1 = self._x(first[1]), self._x(second[0])
            if span[0] < x0 and x1 < span[1] and x1 - x0 > 2 * half:
                return (x0 + x1) / 2
        for low, high in self._kept:
            x0, x1 = self._x(low), self._x(high)
            left, right = max(x0, span[0]) + half + 0.5, min(x1, span[1]) - half - 0.5
            if left > right:
                continue
            at = min(max(middle, left), right)
            area = self._words_area(low + (at - x0) / self._factor, half)
            if self._after.contains(area) and (
                best is None or abs(at - middle) < abs(best - middle)
            ):
                best = at
        return best

    def _room_beside_cut(self, text: str) -> float | None:
        """Where in the wood beside the cut words stand clear of every line and of a dimension."""
        half = text_width(text, self._style.text_height_mm) / 2 + _GAP_MM
        span = self._span_of_wood() if self._is_told_inside() else None
        left, _, right, _ = self._gone.bounds
        for low, high in self._kept:
            for at in (self._x(min(left, high)) - half - 0.5, self._x(max(right, low)) + half + 0.5,
                       self._x((low + high) / 2)):  # fmt: skip
                if not self._x(low) + half < at < self._x(high) - half:
                    continue
                middle = low + (at - self._x(low)) / self._factor
                area = self._words_area(middle, half)
                is_taken = (
                    span is not None and span[0] < area.bounds[2] and area.bounds[0] < span[1]
                )
                if self._after.contains(area) and not is_taken:
                    return at
        return None

    def _words_area(self, middle: float, half: float) -> Any:
        """What a figure half way up the wood covers of it [mm of the wood]."""
        up = (self._style.text_height_mm / 2 + 0.4) / self._factor
        level, reach = self._low + self._high / 2 / self._factor, half / self._factor
        return box(middle - reach, level - up, middle + reach, level + up)

    def _dimension_inside(self, span: tuple[float, float], at: float) -> Iterator[Item]:
        """A dimension through the wood, its figure in the line."""
        height, text = self._style.text_height_mm, self._shown.far
        y, half = self._high / 2, text_width(text, height) / 2 + 0.5
        for end, way in zip(span, (-1.0, 1.0), strict=True):
            yield stroke((at + way * half, y), (end, y))
            yield arrowhead((end, y), (way, 0.0), self._style)
        yield Lettering(text=text, at=(at, y - height / 2), height=height, anchor=Anchor.CENTRE)

    def _span(self) -> tuple[float, float] | None:
        """From what a cut is set by to its near side, or to the middle of a bore, on paper."""
        span = self._span_of_wood()
        return None if span is None else (self._x(span[0]), self._x(span[1]))

    def _span_of_wood(self) -> tuple[float, float] | None:
        """The same [mm of the wood]."""
        setting = self._operation.setting
        left, _, right, _ = self._gone.bounds
        low, _, high, _ = self._before.bounds
        match setting:
            case Slice():
                off = setting.off
                near = self._after.bounds[0] if self._faces_right(off) else self._after.bounds[2]
            case CornerSlot():
                off, near = setting.off, right
            case Trench():
                off = setting.off
                is_far = bool(setting.near_mm) != self._faces_right(off)
                near = left if is_far else right
            case Bored():
                off, near = setting.off[setting.beside], (left + right) / 2
                if setting.to_mm is not None:
                    near = right if self._faces_right(off) else left
            case _:
                return None
        if abs(along(off, self._look.right)) < 0.5:
            return None
        first, second = sorted((high if self._faces_right(off) else low, near))
        return first, second
