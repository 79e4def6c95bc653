"""Sheets of parts: as few as hold them, each part in a cell at the largest scale that fits it.

Parts keep the order of the parts list. A sheet is ruled into rows of cells; which parts share a row
and which rows a sheet is worked out from the least height that each part needs at a given width.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations, pairwise, product
from types import MappingProxyType

from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import moved_item
from exporters.sheets.paper import Box2, Orientation, Scale, scales_for
from exporters.sheets.part_drawing import (
    SMALL_REDUCTION,
    Drawing,
    Length,
    Share,
    coarsest,
    drawn_in,
    places_along,
    shares_of,
)
from exporters.sheets.part_task import PartTask, Span
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Item, PartsOn, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of

_WIDTHS = tuple(parts / 24 for parts in (7, 8, 9, 10, 11, 12, 13, 14, 16, 24))
_OF_HEIGHT, _LEAST_HEIGHT, _STEP = 32, 7, 3
"""What a cell may take of the room on a sheet: of its height so many parts, at least so many. Own
rule: a maker sees at a glance what is apart."""
_MOST_BESIDE = 3
_MOST_IN_ANY_ORDER = 9
"""So many parts are shared out in whatever order takes the fewest sheets; of more only those that
follow each other share one. Own rule: the ways to share out grow threefold with each."""
_MANY_PLACES = 3
"""From so many places along a part on its view is not broken to share a sheet. Own rule."""
_LARGE = 2.0
_CLEAR_MM, _EACH_MM = 20.0, 6.0
"""A part is at least so long on paper, and so much longer for each place along it that a figure
gives, where it could be drawn larger alone. Own rule: figures stand clear in any case, this is for
the eye."""

TaskOf = Callable[[Sequence[PartTask]], WholeTask]
"""What the sheet that shows these parts says, its notes among it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """A part, or some of its cuts, in a cell of its own; how a sheet of its own would lie.

    What has cuts at many places and stands whole on a sheet of its own is not broken for company's
    sake: the eye would read wrong distances between them.
    """

    task: PartTask
    span: Span
    scales: tuple[Scale, ...]
    length: Length
    lies: Orientation


@lru_cache(maxsize=256)
def _least_heights(cell: _Cell, room: Box2) -> Mapping[float, float | None]:
    """By share of the width the least share of the height in which it can be drawn; none if in
    none. A narrower cell is not tried in less height than a wider one needs, nor at all where no
    height served that. Kept, since a part that a change leaves alone is laid out again with it.
    """
    found: dict[float, float | None] = {}
    least = 0
    for wide in sorted(_WIDTHS, reverse=True):

        def holds(height: int, wide: float = wide) -> bool:
            return _drawn(cell, wide * room.width, height / _OF_HEIGHT * room.height) is not None

        if least > _OF_HEIGHT:
            found[wide] = None
            continue
        # in steps first: a drawing may find room in less and none in a little more
        steps = (*range(max(least, _LEAST_HEIGHT), _OF_HEIGHT, _STEP), _OF_HEIGHT)
        least = next((height for height in steps if holds(height)), _OF_HEIGHT + 1)
        while least - 1 > max(_LEAST_HEIGHT, least - _STEP) and holds(least - 1):
            least -= 1
        found[wide] = least / _OF_HEIGHT if least <= _OF_HEIGHT else None
    return MappingProxyType(found)


@dataclass(frozen=True, slots=True)
class _Row:
    """Cells beside one another: the least shares of width and height that each was drawn in."""

    cells: tuple[_Cell, ...]
    widths: tuple[float, ...]
    heights: tuple[float, ...]

    @property
    def high(self) -> float:
        """Its share of the height."""
        return max(self.heights)


@dataclass(frozen=True, slots=True)
class _Page:
    """A sheet's rows from the top, and which way it lies."""

    rows: tuple[_Row, ...]
    lies: Orientation


def part_sheets(tasks: Sequence[PartTask], task_of: TaskOf, parts_on: PartsOn) -> list[Sheet]:
    """The parts on as few sheets as hold them, or each on its own.

    Args:
        tasks: the parts, in order.
        task_of: gives what a sheet says.
        parts_on: whether parts share sheets.

    Raises:
        NoRoomError: a part cannot be drawn on this paper at any standard scale.
    """
    if not tasks:
        return []
    pages = _Pages(tasks, task_of)
    return [pages.sheet(page) for page in pages.shared_out(parts_on)]


class _Pages:
    """The room that sheets of these parts have, and what stands where on them."""

    def __init__(self, tasks: Sequence[PartTask], task_of: TaskOf) -> None:
        self._tasks = tasks
        self._task_of = task_of
        # every note of every part: a sheet that has fewer has a little more room, never less
        told = [task_of(some) for some in (tasks, *((each,) for each in tasks))]
        self._rooms = {
            way: min(
                (framed(each, way, None, True).region for each in told), key=lambda box: box.height
            )
            for way in Orientation
        }

    def shared_out(self, parts_on: PartsOn) -> list[_Page]:
        """What stands on each sheet, and which way it lies."""
        cells = [cell for task in self._tasks for cell in self._cells_of(task)]
        if parts_on is PartsOn.THEIR_OWN:
            return [_alone(cell) for cell in cells]
        rows = _Rows(cells, self._rooms)
        if len(cells) <= _MOST_IN_ANY_ORDER:
            return rows.in_any_order()
        return rows.in_their_order()

    def _cells_of(self, task: PartTask) -> list[_Cell]:
        """The part's cells on the paper as it lies best for it: in fewer unless it comes out small,
        then where it is drawn largest."""
        reason: NoRoomError | None = None
        best: tuple[tuple[Share, ...], Orientation] | None = None
        for orientation in Orientation:
            try:
                shares = _whole_or_broken(task, self._rooms[orientation])
            except NoRoomError as error:
                reason = error
                continue
            if best is None or _rank(shares) < _rank(best[0]):
                best = (shares, orientation)
            if coarsest(shares).reduction <= _LARGE:  # upright paper would hardly draw it larger
                break
        if best is None:
            assert reason is not None
            raise reason
        return [
            _Cell(
                task=task,
                span=each.span,
                scales=_useful(task, each.scale),
                length=_length(task, each),
                lies=best[1],
            )
            for each in best[0]
        ]

    def sheet(self, page: _Page) -> Sheet:
        """The sheet with its rows, the room that is left over shared among them."""
        rows, orientation = page.rows, page.lies
        tasks = list(dict.fromkeys(cell.task for row in rows for cell in row.cells))
        task = self._task_of(tasks)
        begun = framed(task, orientation, None, True)
        room, most = begun.region, self._rooms[orientation]
        items: list[Item] = []
        scales: list[Scale] = []
        y, stretch = room.top, room.height / (most.height * sum(row.high for row in rows))
        for row in rows:
            low = y - row.high * most.height * stretch
            x, wider = room.left, 1.0 / sum(row.widths)
            for cell, share, high in zip(row.cells, row.widths, row.heights, strict=True):
                right = x + share * wider * room.width
                box = Box2(left=x, bottom=low, right=right, top=y)
                least = (share * most.width, high * most.height)
                drawing = _largest(cell, box, least)
                items += [*_ruled(box), *drawing.items]
                scales.append(drawing.scale)
                x = right
            y = low
        begun = framed(task, orientation, None, True, scale_told=_told(scales))
        made = sheet_of(task, orientation, min(scales), [*begun.items, *items])
        return replace(made, parts=tuple(part.id for each in tasks for part in each.parts))


class _Rows:
    """Works out which cells stand in which rows of which sheets.

    Args:
        cells: of all parts, in order.
        rooms: that a sheet has for them, by how it lies.
    """

    def __init__(self, cells: Sequence[_Cell], rooms: Mapping[Orientation, Box2]) -> None:
        self._cells = cells
        self._heights = {
            way: [_least_heights(cell, room) for cell in cells] for way, room in rooms.items()
        }
        self._pages: dict[tuple[int, ...], _Page | None] = {}
        self._rows: dict[tuple[tuple[int, ...], Orientation], _Row | None] = {}

    def page(self, which: tuple[int, ...]) -> _Page | None:
        """These cells in order on one sheet, as it lies best; none where it does not hold them.

        A part that no row holds has a sheet of its own, as it lies best for it.
        """
        if which not in self._pages:
            ways = [self._stacked(which, way) for way in self._heights]
            fit = [page for page in ways if page is not None]
            if not fit and len(which) == 1:
                fit = [_alone(self._cells[which[0]])]
            self._pages[which] = fit[0] if fit else None
        return self._pages[which]

    def _stacked(self, which: tuple[int, ...], way: Orientation) -> _Page | None:
        """Rows of the least height in all."""
        best: list[tuple[float, tuple[_Row, ...]]] = [(0.0, ())]
        for end in range(1, len(which) + 1):
            found = [(math.inf, best[-1][1])]
            for start in range(max(0, end - _MOST_BESIDE), end):
                row = self._row(which[start:end], way)
                if row is not None and best[start][0] < math.inf:
                    found.append((best[start][0] + row.high, (*best[start][1], row)))
            best.append(min(found, key=lambda each: each[0]))
        high, rows = best[-1]
        return _Page(rows, way) if high <= 1.0 + 1e-9 else None

    def _row(self, run: tuple[int, ...], way: Orientation) -> _Row | None:
        """These beside one another; the same ones are asked for on many a page."""
        if (run, way) not in self._rows:
            heights = [self._heights[way][at] for at in run]
            self._rows[run, way] = _row([self._cells[at] for at in run], heights)
        return self._rows[run, way]

    def in_their_order(self) -> list[_Page]:
        """The fewest sheets of cells that follow each other."""
        best: list[list[_Page]] = [[]]
        for end in range(1, len(self._cells) + 1):
            found = []
            for start in range(max(0, end - 2 * _MOST_BESIDE), end):
                page = self.page(tuple(range(start, end)))
                if page is not None:
                    found.append([*best[start], page])
            best.append(min(found, key=len))
        return best[-1]

    def in_any_order(self) -> list[_Page]:
        """The fewest sheets, those of the first parts as full as they can be of what follows."""
        everything = frozenset(range(len(self._cells)))
        known: dict[frozenset[int], tuple[tuple[int, int], list[_Page]]] = {
            frozenset(): ((0, 0), [])
        }

        def fewest(left: frozenset[int]) -> tuple[tuple[int, int], list[_Page]]:
            if left not in known:
                first, *others = sorted(left)
                found = []
                for count in range(len(others) + 1):
                    for with_it in combinations(others, count):
                        which = (first, *with_it)
                        page = self.page(which)
                        if page is not None:
                            (pages, spread), rest = fewest(left - set(which))
                            spread += which[-1] - which[0] + 1 - len(which)
                            found.append(((pages + 1, spread), [page, *rest]))
                known[left] = min(found, key=lambda each: each[0])
            return known[left]

        return fewest(everything)[1]


def _alone(cell: _Cell) -> _Page:
    return _Page((_Row((replace(cell, scales=()),), (1.0,), (1.0,)),), cell.lies)


def _row(cells: Sequence[_Cell], heights: Sequence[Mapping[float, float | None]]) -> _Row | None:
    """The cells beside one another in the least height, the widest where it makes no odds."""
    best: _Row | None = None
    for widths in product(_WIDTHS, repeat=len(cells)):
        if sum(widths) > 1.0 + 1e-9:
            continue
        needed = [each[wide] for each, wide in zip(heights, widths, strict=True)]
        given = tuple(each for each in needed if each is not None)
        if len(given) < len(needed):
            continue
        row = _Row(tuple(cells), widths, given)
        if best is None or (row.high, -sum(widths)) < (best.high, -sum(best.widths)):
            best = row
    return best


def _useful(task: PartTask, alone: Scale) -> tuple[Scale, ...]:
    """The scales at which a part may share a sheet, largest first.

    Args:
        task: the part.
        alone: at which it is drawn on a sheet of its own.
    """
    blank = task.part.blank
    longest = max(blank.length_mm, blank.width_mm)
    needed = _CLEAR_MM + _EACH_MM * len(places_along(task))
    known = [scale for scale in scales_for(task.shown.is_inch) if scale >= alone]
    fair = [
        scale
        for scale in known
        if longest * scale.factor >= needed and scale.reduction < SMALL_REDUCTION
    ]
    return tuple(fair or known[:1])


def _whole_or_broken(task: PartTask, room: Box2) -> tuple[Share, ...]:
    """As it stands on a sheet of its own: what has cuts at many places whole where that does not
    come out small, else as large as may be."""
    if len(places_along(task)) >= _MANY_PLACES:
        try:
            whole = shares_of(task, room, Length.WHOLE)
        except NoRoomError:
            pass
        else:
            if coarsest(whole).reduction < SMALL_REDUCTION:
                return whole
    return shares_of(task, room)


def _length(task: PartTask, alone: Share) -> Length:
    """Whether a part may be broken to share a sheet, by how it stands on a sheet of its own."""
    return alone.length if len(places_along(task)) >= _MANY_PLACES else Length.MAY_BE_BROKEN


def _drawn(cell: _Cell, wide: float, high: float) -> Drawing | None:
    """The part in a cell of this size with its lower left corner at 0, 0 [mm]."""
    scales = cell.scales or None
    try:
        return drawn_in(
            cell.task,
            cell.span,
            Box2(left=0.0, bottom=0.0, right=wide, top=high),
            scales,
            cell.length,
        )
    except NoRoomError:
        return None


def _largest(cell: _Cell, box: Box2, least: tuple[float, float]) -> Drawing:
    """The part as large as the box holds it, or as it was drawn in the least room it needs."""
    # what was drawn once is drawn again at the same place, or rounding may find no room for it
    for wide, high in ((box.width, box.height), least):
        drawing = _drawn(cell, wide, high)
        if drawing is not None:
            dx, dy = box.left + (box.width - wide) / 2, box.top - high
            moved = tuple(moved_item(item, dx, dy) for item in drawing.items)
            return replace(drawing, items=moved)
    raise NoRoomError(f"{cell.task.part.name} does not fit")


def _ruled(box: Box2) -> list[Item]:
    """The rule round a cell."""
    corners = [
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    ]  # fmt: skip
    return [stroke(a, b, LineClass.PANEL) for a, b in pairwise([*corners, corners[0]])]


def _rank(shares: Sequence[Share]) -> tuple[bool, int, Scale]:
    scale = coarsest(shares)
    return scale.reduction >= SMALL_REDUCTION, len(shares), scale


def _told(scales: Sequence[Scale]) -> str:
    """The scale of a sheet, or that each drawing tells its own."""
    return scales[0].text if len(set(scales)) == 1 else "as shown"
