"""The checklist of the work set on paper: a box to tick, a number, what is set, what is done."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import assert_never

from exporters.sheets.figures import stroke
from exporters.sheets.geometry import moved_item
from exporters.sheets.lettering import text_width, wrapped, wrapped_round
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.set_up_picture import WORDS_MM, Picture
from exporters.sheets.strips_picture import picture_of
from exporters.sheets.values import Item, Lettering, Stroke
from exporters.views.values import Polyline
from exporters.work.checklist import Entry, MachineHead, StageHead, Tick
from exporters.work.set_up_shown import SetUpShown
from exporters.work.strips_shown import StripsShown

_BOX_MM = 3.0
_AFTER_BOX_MM = 1.5
_WORK_IN_MM = 2.4
"""How far the work stands in from what is set above it, behind its dash. Own rule."""
_DASH = "–"
_LEAST_COLUMN_MM = 85.0
"""Narrower, words are broken at every turn. Own rule."""
_BETWEEN_COLUMNS_MM = 3.0
_BESIDE_MM = 2.0
"""Between words and a picture."""
_PAD_MM = 1.0
LINE_SHARE = 1.33
"""From line to line, of the height of its capitals: closer than beside a drawing. Own rule."""
_HEAD_SHARE = 1.3
"""The same of a stage's heading. Own rule."""
_ABOVE_STAGE_MM = 0.7
"""Free above it, so that it does not seem to be of the line before. Own rule."""
_RULE_UP_MM = 0.5
"""How far its rule stands over its foot: clear of the box below, however close all stands."""


def columns_in(region: Box2) -> list[Box2]:
    """The columns that the checklist fills on a page, from the left.

    Args:
        region: of the page [mm].
    """
    count = max(1, int((region.width + _BETWEEN_COLUMNS_MM) // _LEAST_COLUMN_MM))
    wide = (region.width - (count - 1) * _BETWEEN_COLUMNS_MM) / count
    lefts = (region.left + each * (wide + _BETWEEN_COLUMNS_MM) for each in range(count))
    return [replace(region, left=left, right=left + wide) for left in lefts]


def _set_left(column: Box2) -> float:
    """Where words begin, right of the box [mm]."""
    return column.left + _PAD_MM + _BOX_MM + _AFTER_BOX_MM


@dataclass(frozen=True, slots=True)
class _Written:
    """A line of words: how far it stands in, and whether a dash stands before it."""

    text: str
    indent: float
    has_dash: bool = False


@dataclass(frozen=True, slots=True)
class _Set:
    """An entry broken to its column: its lines, its picture beside them, and its height [mm]."""

    entry: Entry
    lines: tuple[_Written, ...]
    height: float
    picture: Picture | None = None
    after: _Set | None = None
    """A short tick that stands to the right of this one."""


def checklist_columns(
    entries: Sequence[Entry], columns: Iterator[Box2], style: SheetStyle
) -> list[list[Item]]:
    """The checklist in as many columns as it takes; no heading stands alone at the foot of one.

    Args:
        entries: in order.
        columns: one after another without end, all as wide [mm].
        style: pens and heights.
    """
    column = next(columns)
    filled: list[tuple[Box2, list[_Set]]] = [(column, [])]
    room = column.height
    machine: MachineHead | None = None
    blocks = list(_blocks(entries, column, style))
    while blocks:
        block = blocks.pop(0)
        if sum(each.height for each in block) > room:
            first, rest = _parted(block, room, column, style)
            if not first and filled[-1][1]:
                column = next(columns)
                again = _again(block, machine, column, style)
                filled.append((column, again))
                room = column.height - sum(each.height for each in again)
                blocks.insert(0, block)
                continue
            if first:  # the rest of what is ticked stands in the next column
                block = first
                blocks.insert(0, rest)
        filled[-1][1].extend(block)
        room -= sum(each.height for each in block)
        heads = [each.entry for each in block if isinstance(each.entry, MachineHead | StageHead)]
        if heads:
            machine = heads[-1] if isinstance(heads[-1], MachineHead) else None
    return [list(_drawn(sets, each, style)) for each, sets in filled]


def _again(
    block: Sequence[_Set], machine: MachineHead | None, column: Box2, style: SheetStyle
) -> list[_Set]:
    """The machine's heading once more, where a page begins in the midst of its work."""
    if machine is None or not isinstance(block[0].entry, Tick):
        return []
    return [_broken(_continued(machine, column, style), column, style)]


def _continued(machine: MachineHead, column: Box2, style: SheetStyle) -> MachineHead:
    """The heading that says so, where that takes no further line."""
    title = f"{machine.title}, continued"
    if text_width(title, style.text_height_mm) > column.width - 2 * _PAD_MM:
        title = machine.title
    return replace(machine, title=title, cautions=())


def _blocks(entries: Sequence[Entry], column: Box2, style: SheetStyle) -> Iterator[list[_Set]]:
    """What stays together: headings with the first tick after them, and two short ticks."""
    waiting: list[_Set] = []
    for entry in entries:
        own = _broken(entry, column, style)
        if not isinstance(entry, Tick):
            if waiting and isinstance(waiting[-1].entry, Tick):
                yield waiting
                waiting = []
            waiting.append(own)
            continue
        if waiting and isinstance(waiting[-1].entry, Tick):
            if _is_short(waiting[-1], column, style) and _is_short(own, column, style):
                waiting[-1] = replace(waiting[-1], after=own)
                yield waiting
                waiting = []
                continue
            yield waiting
            waiting = []
        waiting.append(own)
    if waiting:
        yield waiting


def _is_short(each: _Set, column: Box2, style: SheetStyle) -> bool:
    """Whether a tick leaves half of its line free."""
    if len(each.lines) != 1 or each.picture is not None:
        return False
    room = column.width / 2 - _PAD_MM - _BOX_MM - _AFTER_BOX_MM
    return text_width(each.lines[0].text, style.text_height_mm) < room


def _parted(
    block: Sequence[_Set], room: float, column: Box2, style: SheetStyle
) -> tuple[list[_Set], list[_Set]]:
    """The headings with as many lines of their tick as the room holds, and the other lines.

    Nothing fits where not even one line does.
    """
    *heads, last = block
    tick = last.entry
    if not isinstance(tick, Tick):
        return [], list(block)
    left = room - sum(each.height for each in heads)
    _, works = _told(tick)
    for count in range(len(works) - 1, 0, -1):
        part = _broken(_with_lines(tick, works[:count]), column, style)
        if part.height <= left:
            rest = Tick(number="", set_to="", lines=works[count:])
            return [*heads, part], [_broken(rest, column, style)]
    return [], list(block)


def _with_lines(tick: Tick, lines: tuple[str, ...]) -> Tick:
    return replace(tick, beside=lines) if tick.shown else replace(tick, lines=lines)


def _told(tick: Tick) -> tuple[str, tuple[str, ...]]:
    """What is set and what is done, without what a picture beside it tells."""
    return (tick.set_beside, tick.beside) if tick.shown else (tick.set_to, tick.lines)


def _broken(entry: Entry, column: Box2, style: SheetStyle) -> _Set:
    height = style.text_height_mm
    pitch = height * LINE_SHARE
    whole = column.width - 2 * _PAD_MM
    match entry:
        case StageHead():
            high = style.heading_height_mm * _HEAD_SHARE
            return _Set(entry, (_Written(entry.title, 0.0),), high + _ABOVE_STAGE_MM)
        case MachineHead():
            lines = [_Written(each, 0.0) for each in wrapped(entry.title, height, whole)]
            lines += [
                _Written(each, _WORK_IN_MM)
                for each in wrapped(_sentences(entry.cautions), height, whole - _WORK_IN_MM)
            ]
            return _Set(entry, tuple(lines), len(lines) * pitch + style.checklist_gap_mm)
        case Tick():
            pictures = [None] if entry.shown is None else _pictures(entry.shown, style)
            found = [_ticked(entry, column, each, style) for each in pictures]
            return min(found, key=lambda each: each.height)
        case _:
            assert_never(entry)


@cache
def _pictures(shown: SetUpShown | StripsShown, style: SheetStyle) -> list[Picture | None]:
    return [picture_of(shown, style, each) for each in WORDS_MM]


def _ticked(tick: Tick, column: Box2, picture: Picture | None, style: SheetStyle) -> _Set:
    """A tick with its words round its picture."""
    lines = tuple(_lines_of(tick, column, picture, style))
    high = len(lines) * style.text_height_mm * LINE_SHARE + style.checklist_gap_mm
    if picture is not None:
        high = max(high, picture.height + 2 * style.checklist_gap_mm)
    return _Set(tick, lines, high, picture)


def _lines_of(
    tick: Tick, column: Box2, picture: Picture | None, style: SheetStyle
) -> Iterator[_Written]:
    """The lines of a tick; those beside its picture are shorter."""
    room = column.right - _PAD_MM - _set_left(column)
    pitch = style.text_height_mm * LINE_SHARE
    beside = 0 if picture is None else math.ceil((picture.height + style.checklist_gap_mm) / pitch)
    less = 0.0 if picture is None else picture.width + _BESIDE_MM
    count = 0
    first, works = _heading_of(tick)
    told = ([(first, 0.0)] if first else []) + [(each, _WORK_IN_MM) for each in works]
    for text, indent in told:
        rooms = (room - indent - (less if at < beside else 0.0) for at in itertools.count(count))
        for index, line in enumerate(wrapped_round(text, style.text_height_mm, rooms)):
            yield _Written(line, indent, bool(indent) and index == 0)
            count += 1


def _heading_of(tick: Tick) -> tuple[str, tuple[str, ...]]:
    """The number with what is set, or with the first work where nothing is; and the other work."""
    first, works = _told(tick)
    if not tick.number:  # it goes on from the column before
        return "", works
    if len(works) == 1:
        return " ".join(filter(None, (tick.number, first, first and "–", works[0]))), ()
    if not first:
        return f"{tick.number} – {works[0]}", works[1:]
    return f"{tick.number} {first}", works


def _sentences(cautions: Sequence[str]) -> str:
    return " ".join(f"{each[:1].upper()}{each[1:]}." for each in cautions)


def _drawn(sets: Sequence[_Set], column: Box2, style: SheetStyle) -> Iterator[Item]:
    y, before = column.top, None
    for each in sets:
        match each.entry:
            case StageHead():
                yield from _stage(each, column, y, style)
            case MachineHead():
                if not isinstance(before, StageHead):  # which has a rule of its own below it
                    yield stroke((column.left, y), (column.right, y), LineClass.TABLE)
                yield from _lettered(each.lines, column.left + _PAD_MM, y, style)
            case Tick():
                yield from _tick(each, column, y, style)
        y, before = y - each.height, each.entry


def _stage(each: _Set, column: Box2, top: float, style: SheetStyle) -> Iterator[Item]:
    height = style.heading_height_mm
    low = top - each.height
    at = (column.left + _PAD_MM, low + 0.4 * height)
    yield Lettering(text=each.lines[0].text.upper(), at=at, height=height)
    rule = low + _RULE_UP_MM
    yield stroke((column.left, rule), (column.right, rule), LineClass.FRAME)


def _tick(each: _Set, column: Box2, top: float, style: SheetStyle) -> Iterator[Item]:
    assert isinstance(each.entry, Tick)
    if each.entry.number:
        low = top - style.checklist_gap_mm - style.text_height_mm - 0.25
        yield _box(column.left + _PAD_MM, low)
    yield from _lettered(each.lines, _set_left(column), top, style)
    if each.picture is not None:
        left = column.right - _PAD_MM - each.picture.width
        low = top - style.checklist_gap_mm - each.picture.height
        yield from (moved_item(item, left, low) for item in each.picture.items)
    if each.after is not None:
        right_half = replace(column, left=(column.left + column.right) / 2)
        yield from _tick(each.after, right_half, top, style)


def _lettered(
    lines: Sequence[_Written], left: float, top: float, style: SheetStyle
) -> Iterator[Lettering]:
    height = style.text_height_mm
    for index, line in enumerate(lines):
        y = top - style.checklist_gap_mm - height - index * height * LINE_SHARE
        if line.has_dash:
            yield Lettering(text=_DASH, at=(left, y), height=height)
        yield Lettering(text=line.text, at=(left + line.indent, y), height=height)


def _box(left: float, low: float) -> Stroke:
    right, high = left + _BOX_MM, low + _BOX_MM
    corners = ((left, low), (right, low), (right, high), (left, high), (left, low))
    return Stroke(shape=Polyline(points=corners), line_class=LineClass.TABLE)
