"""The glue-ups in order: a picture of each and its words beside it, in a grid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.blocks import Block, view_block
from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import scaled_shape
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Item, Lettering, Sheet, Stroke
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.views.glue_up import OpenedView, coming_together
from exporters.views.values import EdgeClass
from exporters.work.glue_words import GlueWords, cut_before_glue, glue_in_words
from exporters.work.work_of import Work
from furniture.assembly.values import NoOrder
from furniture.making.glue_ups import GlueUps, NoStages
from furniture.pieces.piece import Piece, placed_named
from furniture.units import listed

_LEAST_CELL_MM = 120.0
"""A cell is as wide as this at least: narrower, words run long. Own rule."""
_PICTURE_SHARE = 0.45
"""Of a cell's width. Own rule."""
_LEAST_PICTURE_MM = 35.0
_MOST_ROWS = 4
_PAD_MM = 2.5
_NUMBER_SHARE = 1.6
"""How much larger a cell's number is than its title."""
_NOTE = (
    "Ways are those of the piece as it stands, seen from its front. Every joint has been tried dry "
    "in this order before any glue is opened."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One glue-up on paper: its number, its title, its picture and its words."""

    number: int
    title: str
    picture: OpenedView | None
    sentences: tuple[str, ...]


def _notes(work: Work) -> tuple[str, ...]:
    """What holds for every glue-up: what ways mean, and what the glue asks for."""
    gluing = work.making.gluing
    return (_NOTE, *((glue_in_words(gluing[0].glue),) if gluing else ()))


def glue_sheets(task: WholeTask, work: Work) -> list[Sheet]:
    """Every glue-up, and what is laid in last, on as many sheets as it takes.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        work: on the piece: its glue-ups, or why there are none.
    """
    orientation = Orientation.LANDSCAPE
    begun = framed(replace(task, notes=_notes(work)), orientation, None, True)
    region = replace(begun.region, bottom=begun.region.bottom + _PAD_MM)  # clear of the notes
    style = task.style
    sheets = []
    for number, page in enumerate(_pages(_cells(task.piece, work), region, style), start=1):
        items = list(begun.items)
        for cell, box in _boxed(page, region, style):
            items += _rules(box, region)
            items += [] if cell is None else _drawn(cell, box, style)
        sheets.append(sheet_of(task, orientation, Scale(1.0), items, number))
    return sheets


def _cells(piece: Piece, work: Work) -> list[Cell]:
    glue_ups = work.found
    if not isinstance(glue_ups, GlueUps):
        return [Cell(number=1, title="no order found", picture=None, sentences=_why(glue_ups))]
    words = GlueWords(
        piece=piece, cut_before=cut_before_glue(work.making), gluing=work.making.gluing
    )
    cells = [
        Cell(
            number=stage.number,
            title=words.title_of(stage),
            picture=coming_together(
                [placed_named(piece, name) for body in stage.bodies for name in body],
                piece.joinings,
                stage.moves,
            ),
            sentences=words.sentences_of(stage),
        )
        for stage in glue_ups.stages
    ]
    last = words.last_of(glue_ups)
    if last:
        cells.append(
            Cell(
                number=len(cells) + 1,
                title="when all is dry",
                picture=_last_picture(piece, glue_ups),
                sentences=last,
            )
        )
    return cells


def _why(found: NoStages | NoOrder | None) -> tuple[str, ...]:
    if isinstance(found, NoOrder):
        return (found.reason.rstrip("."),)
    stuck = () if found is None else found.stuck
    return (f"these lock one another: {listed(stuck)}",)


def _last_picture(piece: Piece, glue_ups: GlueUps) -> OpenedView | None:
    if not glue_ups.laid_in:
        return None
    names = {name for step in glue_ups.laid_in for name in (*step.moving, *step.onto)}
    placed = [each for each in piece.placed if each.instance in names]
    return coming_together(placed, piece.joinings, glue_ups.laid_in)


_Row = tuple[Cell, ...]
"""Cells beside one another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """Rows of cells, one below another, each of so many columns."""

    columns: int
    rows: tuple[_Row, ...]


def _pages(cells: Sequence[Cell], region: Box2, style: SheetStyle) -> Sequence[_Page]:
    """The fewest pages, of those the one with the widest cells; words at worst run on in a next."""
    most = max(1, min(int(region.width // _LEAST_CELL_MM), len(cells)))
    found = [
        pages
        for columns in range(1, most + 1)
        if (pages := _filled(cells, region, columns, style)) is not None
    ]
    if found:
        return min(found, key=len)
    parted = [part for each in cells for part in _parted(each, region, style)]
    return [_Page(columns=1, rows=((each,),)) for each in parted]


def _filled(
    cells: Sequence[Cell], region: Box2, columns: int, style: SheetStyle
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


def _boxed(page: _Page, region: Box2, style: SheetStyle) -> Iterator[tuple[Cell | None, Box2]]:
    """The cells with their boxes; what the rows do not need is shared by all of them."""
    wide = region.width / page.columns
    heights = [_row_height(row, wide, style) for row in page.rows]
    more = (region.height - sum(heights)) / len(heights)
    top = region.top
    for row, high in zip(page.rows, heights, strict=True):
        for column in range(page.columns):
            left = region.left + column * wide
            box = Box2(left=left, bottom=top - high - more, right=left + wide, top=top)
            yield (row[column] if column < len(row) else None), box
        top -= high + more


def _parted(cell: Cell, region: Box2, style: SheetStyle) -> list[Cell]:
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


def _words_width(width: float) -> float:
    return width * (1.0 - _PICTURE_SHARE) - 2 * _PAD_MM


def _title_lines(cell: Cell, width: float, style: SheetStyle) -> tuple[str, ...]:
    room = _words_width(width) - _number_width(style)
    return wrapped(cell.title, style.heading_height_mm, room)


def _number_width(style: SheetStyle) -> float:
    """The room of a number of two figures, and a gap [mm]."""
    return text_width("00", _NUMBER_SHARE * style.heading_height_mm) + _PAD_MM


def _lines(cell: Cell, width: float, style: SheetStyle) -> list[str]:
    return [
        line
        for each in cell.sentences
        for line in wrapped(f"{each}.", style.text_height_mm, _words_width(width))
    ]


def _words_height(cell: Cell, width: float, style: SheetStyle) -> float:
    titles = len(_title_lines(cell, width, style)) * style.heading_height_mm * LINE_SHARE
    words = len(_lines(cell, width, style)) * style.text_height_mm * LINE_SHARE
    return titles + words + 4 * _PAD_MM


def _drawn(cell: Cell, box: Box2, style: SheetStyle) -> list[Item]:
    """The picture on the left; beside it the number and the title, and the words below them."""
    left = box.left + box.width * _PICTURE_SHARE + _PAD_MM
    large = _NUMBER_SHARE * style.heading_height_mm
    y = box.top - _PAD_MM - large
    items: list[Item] = [Lettering(text=str(cell.number), at=(left, y), height=large)]
    for line in _title_lines(cell, box.width, style):
        at = (left + _number_width(style), y)
        items.append(Lettering(text=line, at=at, height=style.heading_height_mm))
        y -= style.heading_height_mm * LINE_SHARE
    y -= _PAD_MM - style.heading_height_mm * (LINE_SHARE - 1.0)
    for line in _lines(cell, box.width, style):
        y -= style.text_height_mm * LINE_SHARE
        items.append(Lettering(text=line, at=(left, y), height=style.text_height_mm))
    if cell.picture is not None:
        right = box.left + box.width * _PICTURE_SHARE
        room = Box2(left=box.left, bottom=box.bottom, right=right, top=box.top)
        items += _pictured(cell.picture, room.grown(-_PAD_MM)).items
    return items


def _pictured(opened: OpenedView, room: Box2) -> Block:
    """The picture as large as its room allows, at the top of it, beside the first words."""
    bare = _block(opened, 1.0).box
    factor = min(room.width / bare.width, room.height / bare.height, 1.0)
    block = _block(opened, factor)
    return block.moved(room.centre[0] - block.box.centre[0], room.top - block.box.top)


def _block(opened: OpenedView, factor: float) -> Block:
    """Thin lines: the small pictures of many parts would run together in wide ones."""
    block = view_block(opened.view, factor, classes=(EdgeClass.VISIBLE, EdgeClass.SMOOTH))
    thin = (
        replace(item, line_class=LineClass.SMOOTH) if isinstance(item, Stroke) else item
        for item in block.items
    )
    return replace(block, items=tuple(thin)).with_items(
        [
            Stroke(shape=scaled_shape(line, factor), line_class=LineClass.CENTRE)
            for line in opened.trails
        ]
    )
