"""The glue-ups in order: a picture of each and its words beside it, in a grid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.glue_picture import named_picture
from exporters.sheets.glue_shown import GlueUpShown
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Item, Lettering, Sheet, Stroke
from exporters.sheets.whole_task import Framed, WholeTask, framed, sheet_of

_LEAST_CELL_MM = 120.0
"""A cell is as wide as this at least: narrower, words run long. Own rule."""
_LIES = (Orientation.LANDSCAPE, Orientation.PORTRAIT)
"""How a sheet may lie, the usual way first: the other where it takes fewer."""
_PICTURE_SHARE = 0.4
"""Of a cell's width, and no more than `_MOST_PICTURE_MM`. Own rule."""
_MOST_PICTURE_MM = 60.0
_LEAST_PICTURE_MM = 32.0
_MOST_ROWS = 6
_PAD_MM = 2.5
_BELOW_TITLE_MM = 1.5
_NUMBER_SHARE = 1.6
"""How much larger a cell's number is than its title."""


def sheets_of_cells(
    task: WholeTask, cells: Sequence[GlueUpShown], notes: tuple[str, ...]
) -> list[Sheet]:
    """These glue-ups on as many sheets as they take.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        cells: the glue-ups.
        notes: on all of them.
    """
    lies, pages = _laid(task, cells, notes)
    begun, region = _begun(task, notes, lies)
    sheets = []
    for number, page in enumerate(pages, start=1):
        items = [*begun.items, *_page_items(page, region, task.style)]
        sheets.append(sheet_of(task, lies, Scale(1.0), items, number))
    return sheets


def sheets_taken(task: WholeTask, cells: Sequence[GlueUpShown], notes: tuple[str, ...]) -> int:
    """How many sheets these glue-ups take."""
    return len(_laid(task, cells, notes)[1]) if cells else 0


def _laid(
    task: WholeTask, cells: Sequence[GlueUpShown], notes: tuple[str, ...]
) -> tuple[Orientation, Sequence[_Page]]:
    """How the sheets lie, and their pages: the way that takes the fewest."""
    found = [(lies, _pages(cells, _begun(task, notes, lies)[1], task.style)) for lies in _LIES]
    return min(found, key=lambda each: len(each[1]))


def _begun(task: WholeTask, notes: tuple[str, ...], lies: Orientation) -> tuple[Framed, Box2]:
    """A sheet begun, and its room clear of the notes."""
    begun = framed(replace(task, notes=notes), lies, None, True)
    return begun, replace(begun.region, bottom=begun.region.bottom + _PAD_MM)


def _page_items(page: _Page, region: Box2, style: SheetStyle) -> list[Item]:
    items: list[Item] = []
    for cell, box in _boxed(page, region, style):
        items += _rules(box, region)
        items += [] if cell is None else _drawn(cell, box, style)
    return items


def cells_held(cells: Sequence[GlueUpShown], region: Box2, style: SheetStyle) -> int:
    """How many of the glue-ups a region holds under one another.

    Args:
        cells: in order.
        region: below other things [mm].
        style: pens and heights.
    """
    count, used = 0, 0.0
    for cell in cells:
        used += _row_height((cell,), region.width, style)
        if used > region.height:
            break
        count += 1
    return count


def stacked_cells(cells: Sequence[GlueUpShown], region: Box2, style: SheetStyle) -> list[Item]:
    """Glue-ups under one another below a rule.

    Args:
        cells: so many as the region holds.
        region: below other things [mm].
        style: pens and heights.
    """
    page = _Page(columns=1, rows=tuple((cell,) for cell in cells))
    rule = stroke((region.left, region.top), (region.right, region.top), LineClass.TABLE)
    return [rule, *_page_items(page, region, style)]


_Row = tuple[GlueUpShown, ...]
"""Glue-ups beside one another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """Rows of cells, one below another, each of so many columns."""

    columns: int
    rows: tuple[_Row, ...]


def _pages(cells: Sequence[GlueUpShown], region: Box2, style: SheetStyle) -> Sequence[_Page]:
    """The fewest pages, of those with the largest pictures; words at worst run on in a next."""
    most = max(1, min(int(region.width // _LEAST_CELL_MM), len(cells)))
    found = [
        pages
        for columns in range(1, most + 1)
        if (pages := _filled(cells, region, columns, style)) is not None
    ]
    if found:
        return min(found, key=lambda each: (len(each), -_picture_mm(each, region, style)))
    parted = [part for each in cells for part in _parted(each, region, style)]
    return [_Page(columns=1, rows=((each,),)) for each in parted]


def _picture_mm(pages: Sequence[_Page], region: Box2, style: SheetStyle) -> float:
    """The shorter side of the least room that a picture has on these pages [mm]."""
    boxes = [box for page in pages for _, box in _boxed(page, region, style)]
    sides = (min(_picture_width(box.width), box.height) for box in boxes)
    return min(sides, default=0.0)


def _filled(
    cells: Sequence[GlueUpShown], region: Box2, columns: int, style: SheetStyle
) -> Sequence[_Page] | None:
    """Row after row while there is room; None where a row is higher than a page."""
    width = region.width / columns
    if not cells:
        return []
    rows = [tuple(cells[at : at + columns]) for at in range(0, len(cells), columns)]
    pages: list[list[_Row]] = [[]]
    used = 0.0
    for row in rows:
        high = _row_height(row, width, style)
        if high > region.height:
            return None
        if pages[-1] and (used + high > region.height or len(pages[-1]) == _MOST_ROWS):
            pages.append([])
            used = 0.0
        pages[-1].append(row)
        used += high
    return [_Page(columns=columns, rows=tuple(page)) for page in pages]


def _row_height(row: _Row, width: float, style: SheetStyle) -> float:
    """As high as its words are, and as its pictures need at least [mm]."""
    return max(_LEAST_PICTURE_MM, *(_words_height(each, width, style) for each in row))


def _boxed(
    page: _Page, region: Box2, style: SheetStyle
) -> Iterator[tuple[GlueUpShown | None, Box2]]:
    """The cells with their boxes; rows are as high as one another where their words allow it."""
    wide = region.width / page.columns
    heights = _evened([_row_height(row, wide, style) for row in page.rows], region.height)
    top = region.top
    for row, high in zip(page.rows, heights, strict=True):
        for column in range(page.columns):
            left = region.left + column * wide
            box = Box2(left=left, bottom=top - high, right=left + wide, top=top)
            yield (row[column] if column < len(row) else None), box
        top -= high


def _evened(needs: Sequence[float], room: float) -> list[float]:
    """Heights that fill the room, none less than it needs, as even as that leaves them [mm]."""
    large: set[int] = set()
    while True:
        rest = [each for index, each in enumerate(needs) if index not in large]
        even = (room - sum(needs[index] for index in large)) / max(1, len(rest))
        more = {index for index, each in enumerate(needs) if each > even} - large
        if not more:
            return [each if index in large else even for index, each in enumerate(needs)]
        large |= more


def _parted(cell: GlueUpShown, region: Box2, style: SheetStyle) -> list[GlueUpShown]:
    count = len(cell.sentences)
    if count < 2 or _words_height(cell, region.width, style) <= region.height:
        return [cell]
    first = replace(cell, sentences=cell.sentences[: count // 2])
    rest = replace(cell, title="continued", picture=None, sentences=cell.sentences[count // 2 :])
    return [part for each in (first, rest) for part in _parted(each, region, style)]


def _rules(box: Box2, region: Box2) -> Iterator[Stroke]:
    """The line below a cell, and the one beside it where another stands there."""
    if box.right < region.right - 1.0:
        yield stroke((box.right, box.bottom), (box.right, box.top), LineClass.TABLE)
    yield stroke((box.left, box.bottom), (box.right, box.bottom), LineClass.TABLE)


def _picture_width(width: float) -> float:
    return min(width * _PICTURE_SHARE, _MOST_PICTURE_MM)


def _words_width(width: float) -> float:
    return width - _picture_width(width) - 2 * _PAD_MM


def _title_lines(cell: GlueUpShown, width: float, style: SheetStyle) -> tuple[str, ...]:
    room = _words_width(width) - _number_width(style)
    return wrapped(cell.title, style.heading_height_mm, room)


def _number_width(style: SheetStyle) -> float:
    """The room of a number of two figures, and a gap [mm]."""
    return text_width("00", _NUMBER_SHARE * style.heading_height_mm) + _PAD_MM


def _lines(cell: GlueUpShown, width: float, style: SheetStyle) -> list[str]:
    return [
        line
        for each in cell.sentences
        for line in wrapped(f"{each}.", style.text_height_mm, _words_width(width))
    ]


def _words_height(cell: GlueUpShown, width: float, style: SheetStyle) -> float:
    more = len(_title_lines(cell, width, style)) - 1
    titles = _NUMBER_SHARE * style.heading_height_mm + more * style.heading_height_mm * LINE_SHARE
    words = len(_lines(cell, width, style)) * style.text_height_mm * LINE_SHARE
    return titles + words + 2 * _PAD_MM + _BELOW_TITLE_MM


def _drawn(cell: GlueUpShown, box: Box2, style: SheetStyle) -> list[Item]:
    """The picture on the left; beside it the number and the title, and the words below them."""
    left = box.left + _picture_width(box.width) + _PAD_MM
    large = _NUMBER_SHARE * style.heading_height_mm
    y = box.top - _PAD_MM - large
    items: list[Item] = [Lettering(text=str(cell.number), at=(left, y), height=large)]
    for line in _title_lines(cell, box.width, style):
        at = (left + _number_width(style), y)
        items.append(Lettering(text=line, at=at, height=style.heading_height_mm))
        y -= style.heading_height_mm * LINE_SHARE
    y -= _BELOW_TITLE_MM - style.heading_height_mm * LINE_SHARE
    for line in _lines(cell, box.width, style):
        y -= style.text_height_mm * LINE_SHARE
        items.append(Lettering(text=line, at=(left, y), height=style.text_height_mm))
    if cell.picture is not None:
        right = box.left + _picture_width(box.width)
        room = Box2(left=box.left, bottom=box.bottom, right=right, top=box.top)
        items += named_picture(cell.picture, room.grown(-_PAD_MM), style)
    return items
