"""The checklist of the work set on paper: a box to tick, a number, what is set, what is done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.values import Polyline
from exporters.work.checklist import Entry, MachineHead, StageHead, Tick

_BOX_MM = 3.0
_NUMBER_MM = 12.0
_SET_SHARE = 0.25
"""Of the width, for what is set to what. Own rule."""
_BETWEEN_MM = 1.2
_SET_BEFORE = " "
"""What is set in the rest of a tick that a page parts: nothing new."""
_PAD_MM = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Columns:
    """Where the columns begin, and how wide that of the settings is [mm]."""

    left: float
    set_left: float
    set_width: float
    work_left: float
    right: float


def _columns(region: Box2) -> _Columns:
    set_left = region.left + _PAD_MM + _NUMBER_MM
    set_width = region.width * _SET_SHARE
    work_left = set_left + set_width + 2.0
    return _Columns(
        left=region.left,
        set_left=set_left,
        set_width=set_width,
        work_left=work_left,
        right=region.right,
    )


@dataclass(frozen=True, slots=True)
class _Set:
    """An entry broken to its columns: lines beside one another, and its height [mm]."""

    entry: Entry
    first: tuple[str, ...]
    second: tuple[str, ...]
    height: float


def checklist_pages(entries: Sequence[Entry], region: Box2, style: SheetStyle) -> list[list[Item]]:
    """The checklist on as many pages as it takes; no heading stands alone at the foot of one.

    Args:
        entries: in order.
        region: of each page [mm].
        style: pens and heights.
    """
    columns = _columns(region)
    pages: list[list[_Set]] = [[]]
    room = region.height
    machine: MachineHead | None = None
    blocks = list(_blocks(entries, columns, style))
    while blocks:
        block = blocks.pop(0)
        if sum(each.height for each in block) > room:
            first, rest = _parted(block, room, columns, style)
            if not first and pages[-1]:
                pages.append([])
                again = _again(block, machine, columns, style)
                pages[-1] += again
                room = region.height - sum(each.height for each in again)
                blocks.insert(0, block)
                continue
            if first:  # the rest of what is ticked stands on the next page
                block = first
                blocks.insert(0, rest)
        pages[-1] += block
        room -= sum(each.height for each in block)
        heads = [each.entry for each in block if isinstance(each.entry, MachineHead | StageHead)]
        if heads:
            machine = heads[-1] if isinstance(heads[-1], MachineHead) else None
    return [list(_drawn(page, columns, region.top, style)) for page in pages]


def _again(
    block: Sequence[_Set], machine: MachineHead | None, columns: _Columns, style: SheetStyle
) -> list[_Set]:
    """The machine's heading once more, where a page begins in the midst of its work."""
    if machine is None or not isinstance(block[0].entry, Tick):
        return []
    return [_broken(_continued(machine), columns, style)]


def _continued(machine: MachineHead) -> MachineHead:
    return replace(machine, title=f"{machine.title}, continued", cautions=())


def _blocks(entries: Sequence[Entry], columns: _Columns, style: SheetStyle) -> Iterator[list[_Set]]:
    """What stays together: headings with the first tick after them."""
    waiting: list[_Set] = []
    for entry in entries:
        waiting.append(_broken(entry, columns, style))
        if isinstance(entry, Tick):
            yield waiting
            waiting = []
    if waiting:
        yield waiting


def _parted(
    block: Sequence[_Set], room: float, columns: _Columns, style: SheetStyle
) -> tuple[list[_Set], list[_Set]]:
    """The headings with as many lines of their tick as the room holds, and the other lines.

    Nothing fits where not even one line does.
    """
    *heads, last = block
    tick = last.entry
    if not isinstance(tick, Tick):
        return [], list(block)
    left = room - sum(each.height for each in heads)
    for count in range(len(tick.lines) - 1, 0, -1):
        part = _broken(replace(tick, lines=tick.lines[:count]), columns, style)
        if part.height <= left:
            set_to = _SET_BEFORE if tick.set_to else ""
            rest = Tick(number="", set_to=set_to, lines=tick.lines[count:])
            return [*heads, part], [_broken(rest, columns, style)]
    return [], list(block)


def _broken(entry: Entry, columns: _Columns, style: SheetStyle) -> _Set:
    height = style.text_height_mm
    pitch = height * LINE_SHARE
    whole = columns.right - columns.left - 2 * _PAD_MM
    match entry:
        case StageHead():
            return _Set(entry, (entry.title,), (), style.heading_height_mm * 2.3)
        case MachineHead():
            head = wrapped(entry.title, height, whole)
            cautions = wrapped(_sentences(entry.cautions), height, whole - _NUMBER_MM)
            return _Set(entry, head, cautions, (len(head) + len(cautions)) * pitch + _BETWEEN_MM)
        case Tick():
            set_to = wrapped(entry.set_to, height, columns.set_width)
            width = columns.right - _PAD_MM - _work_left(entry, columns)
            lines = [line for text in entry.lines for line in wrapped(text, height, width)]
            count = max(len(set_to), len(lines), 1)
            return _Set(entry, set_to, tuple(lines), count * pitch + _BETWEEN_MM)
        case _:
            assert_never(entry)


def _work_left(tick: Tick, columns: _Columns) -> float:
    """Where the work stands: beside what is set, or in its place where nothing is [mm]."""
    return columns.work_left if tick.set_to else columns.set_left


def _sentences(cautions: Sequence[str]) -> str:
    return " ".join(f"{each[:1].upper()}{each[1:]}." for each in cautions)


def _drawn(
    page: Sequence[_Set], columns: _Columns, top: float, style: SheetStyle
) -> Iterator[Item]:
    y = top
    for each in page:
        match each.entry:
            case StageHead():
                yield from _stage(each, columns, y, style)
            case MachineHead():
                yield from _machine(each, columns, y, style)
            case Tick():
                yield from _tick(each, columns, y, style)
        y -= each.height


def _stage(each: _Set, columns: _Columns, top: float, style: SheetStyle) -> Iterator[Item]:
    height = style.heading_height_mm
    low = top - each.height
    yield Lettering(
        text=each.first[0].upper(), at=(columns.left + _PAD_MM, low + 0.6 * height), height=height
    )
    yield stroke((columns.left, low), (columns.right, low), LineClass.FRAME)


def _machine(each: _Set, columns: _Columns, top: float, style: SheetStyle) -> Iterator[Item]:
    yield stroke((columns.left, top), (columns.right, top), LineClass.TABLE)
    lines = [(line, columns.left + _PAD_MM) for line in each.first]
    lines += [(line, columns.set_left) for line in each.second]
    yield from _column(lines, top, style)


def _tick(each: _Set, columns: _Columns, top: float, style: SheetStyle) -> Iterator[Item]:
    assert isinstance(each.entry, Tick)
    number, height = each.entry.number, style.text_height_mm
    if number:
        low = top - _BETWEEN_MM - height - 0.25
        yield _box(columns.left + _PAD_MM, low)
        yield Lettering(
            text=number,
            at=(columns.set_left - 1.5, top - _BETWEEN_MM - height),
            height=height,
            anchor=Anchor.RIGHT,
        )
    yield from _column([(line, columns.set_left) for line in each.first], top, style)
    left = _work_left(each.entry, columns)
    yield from _column([(line, left) for line in each.second], top, style)


def _column(
    lines: Sequence[tuple[str, float]], top: float, style: SheetStyle
) -> Iterator[Lettering]:
    height = style.text_height_mm
    for index, (text, x) in enumerate(lines):
        y = top - _BETWEEN_MM - height - index * height * LINE_SHARE
        yield Lettering(text=text, at=(x, y), height=height)


def _box(left: float, low: float) -> Stroke:
    right, high = left + _BOX_MM, low + _BOX_MM
    corners = ((left, low), (right, low), (right, high), (left, high), (left, low))
    return Stroke(shape=Polyline(points=corners), line_class=LineClass.TABLE)
