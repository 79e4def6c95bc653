"""Sheets that changed carry the letter of the change, and a triangle with it at each changed text.

A sheet is known by its name without its number. What it says is all its texts but those that hang
on the set: a sheet that is about what it was about has not changed, though it may be worded
otherwise, and keeps the letter that it had.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any

import numpy as np

from exporters.revision.against import UNCHANGED, Letters
from exporters.revision.substance import Vocabulary
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, lettering_box
from exporters.sheets.lettering import text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Figure, InSet, Item, Lettering, Sheet, Stroke
from furniture.job.old import Drawn
from furniture.parts.vectors import Point2
from furniture.pieces import Piece

_GAP_MM = 0.9
_CLEARANCE_MM = 0.4
_NEAR_MM = 9.0
_FAR_MM = 60.0
_OVER_MM = 4.0
_STEP_MM = 1.5
_UP_MM = 0.5
_CLOSE_PLACES = 12
"""Of those beside a text, all that touch it but for the gap."""
_MOST_TRIES = 150
_CROSSING_MM = 6.0
"""A line that ties a mark to its figure is worth so much longer where it crosses none. Own rule."""
_TIE_GAP_MM = 0.5


@dataclass(frozen=True, slots=True)
class _Text:
    """A text of a sheet, where it stands [mm on paper], and whether it says a dimension."""

    words: str
    box: Box2
    is_measured: bool = False


def revised(sheets: Sequence[Sheet], letters: Letters, piece: Piece) -> tuple[Sheet, ...]:
    """The sheets with their letters and marks: those that changed the new one, others their own.

    Args:
        sheets: of the new design, numbered.
        letters: of the earlier packet, and that of what changed.
        piece: the new design.
    """
    if not letters.old.sheets:
        return tuple(sheets)  # an earlier packet without sheets tells nothing of them
    names = Vocabulary(letters.old, piece)
    return tuple(
        _revised(sheet, letters.old.sheets.get(name), letters.letter, names)
        for sheet, name in zip(sheets, names_of(sheets), strict=True)
    )


def sheets_record(sheets: Sequence[Sheet]) -> list[dict[str, Any]]:
    """What each sheet says, which letter it carries, and at what, as the next run has to know it.

    Args:
        sheets: as they are written.
    """
    return [
        {
            "name": name,
            "file": f"sheets/{sheet.name}.dxf",
            "revision": _letter_on(sheet),
            "says": sorted(each.words for each in _texts(sheet)),
            "changed": list(sheet.changed),
        }
        for sheet, name in zip(sheets, names_of(sheets), strict=True)
    ]


def names_of(sheets: Sequence[Sheet]) -> list[str]:
    """The sheets' names without their numbers; a second of the same name is told apart."""
    found: list[str] = []
    for sheet in sheets:
        name = sheet.name.split("-", 1)[1]
        found.append(name if name not in found else f"{name} {found.count(name) + 1}")
    return found


def _revised(sheet: Sheet, before: Drawn | None, letter: str, names: Vocabulary) -> Sheet:
    if before is None:
        return _lettered(sheet, letter)
    says = [each.words for each in _texts(sheet)]
    if names.is_same(before.says, says):
        return _marked(_lettered(sheet, before.revision), Counter(before.changed), before.revision)
    return _marked(_lettered(sheet, letter), names.changed(before.says, says), letter)


def _marked(sheet: Sheet, changed: Counter[str], letter: str) -> Sheet:
    marks = tuple(_marks(sheet, changed, letter))
    return replace(sheet, items=(*sheet.items, *marks), changed=tuple(sorted(changed.elements())))


def _letter_on(sheet: Sheet) -> str:
    return next(
        (
            item.text
            for item in sheet.items
            if isinstance(item, Lettering) and item.in_set is InSet.REVISION
        ),
        UNCHANGED,
    )


def _lettered(sheet: Sheet, letter: str) -> Sheet:
    return replace(
        sheet,
        items=tuple(
            replace(item, text=letter or UNCHANGED)
            if isinstance(item, Lettering) and item.in_set is InSet.REVISION
            else item
            for item in sheet.items
        ),
    )


def _texts(sheet: Sheet) -> Iterator[_Text]:
    for item in sheet.items:
        if isinstance(item, Lettering) and item.in_set is None:
            yield _Text(item.text, lettering_box(item))
        elif isinstance(item, Figure):
            lettered = [each for each in item.drawn if isinstance(each, Lettering)]
            yield _Text(item.text, items_box(lettered or item.drawn), is_measured=True)


def _marks(sheet: Sheet, changed: Counter[str], letter: str) -> Iterator[Item]:
    """A triangle at every text that changed save in the title block; dimensions choose first."""
    left = changed.copy()
    space = Space(sheet.frame)
    space.add(sheet.items)
    block = _title_block(sheet)
    size = _size(letter, sheet.style)
    placed: list[Box2] = []
    for each in sorted(_texts(sheet), key=lambda text: not text.is_measured):
        if left[each.words] <= 0 or block.overlaps(each.box):
            continue
        left[each.words] -= 1
        box, tie = _at_figure(each.box, size, space) if each.is_measured else (None, ())
        if box is None:
            box = _free(each.box, size, space, placed)
        if box is not None:
            mark = [*_triangle(box, letter, sheet.style), *tie]
            space.add(mark)
            placed.append(box)
            yield from mark


def _at_figure(
    text: Box2, size: tuple[float, float], space: Space
) -> tuple[Box2 | None, tuple[Stroke, ...]]:
    """A free place right beside a dimension's text, else one near by and the line that ties it."""
    for box in islice(_beside(text, size), _CLOSE_PLACES):
        if space.is_free(box, _CLEARANCE_MM):
            return box, ()
    wide, high = size
    cx, cy = text.centre
    corners = space.free_places(wide, high, _CLEARANCE_MM)
    away = np.hypot(corners[:, 0] + wide / 2 - cx, corners[:, 1] + high / 2 - cy)
    ties: list[tuple[float, Box2, Stroke]] = []
    for index in np.argsort(away, kind="stable")[:_MOST_TRIES]:
        left, bottom = (float(each) for each in corners[index])
        box = Box2(left=left, bottom=bottom, right=left + wide, top=bottom + high)
        start, end = _between(box, text)
        if space.crosses_text(start, end, _CLEARANCE_MM / 2):
            continue
        crossed = sum(space.lines_crossed(start, end))
        worth = math.dist(start, end) + _CROSSING_MM * crossed
        ties.append((worth, box, stroke(start, end, LineClass.SYMBOL)))
    if not ties:
        return None, ()
    _, box, tie = min(ties, key=lambda each: each[0])
    return box, (tie,)


def _between(mark: Box2, text: Box2) -> tuple[Point2, Point2]:
    """From the corner of the triangle in a box that is nearest to a text, to the text's edge."""
    middle = (mark.left + mark.right) / 2
    corners = ((mark.left, mark.bottom), (mark.right, mark.bottom), (middle, mark.top))
    own = text.grown(_TIE_GAP_MM)

    def reached(corner: Point2) -> Point2:
        x, y = corner
        return min(max(x, own.left), own.right), min(max(y, own.bottom), own.top)

    start = min(corners, key=lambda corner: math.dist(corner, reached(corner)))
    return start, reached(start)


def _title_block(sheet: Sheet) -> Box2:
    ruled = [
        item
        for item in sheet.items
        if isinstance(item, (Stroke, Lettering)) and item.line_class is LineClass.TITLE_BLOCK
    ]
    corner = (sheet.frame.right, sheet.frame.bottom)
    return items_box([*ruled, stroke(corner, corner, LineClass.FRAME)])


def _size(letter: str, style: SheetStyle) -> tuple[float, float]:
    """Width and height of the triangle round a letter [mm on paper]."""
    high = style.text_height_mm + 2.8
    wide = 1.2 * high + text_width(letter, style.text_height_mm) - text_width("A", 2.5)
    return wide, high


def _free(
    text: Box2, size: tuple[float, float], space: Space, placed: Sequence[Box2]
) -> Box2 | None:
    """A free place beside a text, level with it if need be; none where its row is marked."""
    for box in _beside(text, size):
        apart = max(box.left - text.right, text.left - box.right, 0.0)
        if apart > _NEAR_MM and any(_is_level(each, text) for each in placed):
            return None
        if space.is_free(box, _CLEARANCE_MM):
            return box
    return None


def _is_level(mark: Box2, text: Box2) -> bool:
    return mark.bottom < text.top and text.bottom < mark.top


def _beside(text: Box2, size: tuple[float, float]) -> Iterator[Box2]:
    """Places for a mark from the nearest on: at the ends, above and below, then further along."""
    wide, high = size
    (cx, cy), gap = text.centre, _GAP_MM
    level = cy - high / 2
    corners = [
        (text.right + gap, level),
        (text.left - gap - wide, level),
        (cx - wide / 2, text.top + gap),
        (cx - wide / 2, text.bottom - gap - high),
        (text.right + gap, text.bottom + _UP_MM),  # on the line that the text stands over
        (text.left - gap - wide, text.bottom + _UP_MM),
        (text.right - _UP_MM - wide, text.top + gap),
        (text.right - _UP_MM - wide, text.bottom - gap - high),
        (text.right + gap, text.top),
        (text.left - gap - wide, text.top),
        (text.right + gap, text.bottom - high),
        (text.left - gap - wide, text.bottom - high),
    ]
    steps = int(_FAR_MM / _STEP_MM)
    for step in range(1, steps):
        away = gap + step * _STEP_MM
        corners += [(text.right + away, level), (text.left - away - wide, level)]
        if away < _OVER_MM:  # further up or down it would stand at another row
            corners += [
                (cx - wide / 2, text.top + away),
                (cx - wide / 2, text.bottom - away - high),
            ]
    for left, bottom in corners:
        yield Box2(left=left, bottom=bottom, right=left + wide, top=bottom + high)


def _triangle(box: Box2, letter: str, style: SheetStyle) -> list[Item]:
    middle = (box.left + box.right) / 2
    corners = [(box.left, box.bottom), (box.right, box.bottom), (middle, box.top)]
    lines: list[Item] = [
        stroke(a, b, LineClass.SYMBOL)
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    at = (middle, box.bottom + 0.5)
    return [
        *lines,
        Lettering(
            text=letter,
            at=at,
            height=style.text_height_mm,
            anchor=Anchor.CENTRE,
            in_set=InSet.MARK,
        ),
    ]
