"""A sheet for one board: its drawing, legend, and as many of its lists as find room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise

from exporters.cutting.beside import MOST_LED_OUT
from exporters.cutting.board_drawing import BoardDrawing, board_drawings
from exporters.cutting.board_notes import heading_of, notes_of
from exporters.cutting.board_tables import keyed_lists_of, lists_of
from exporters.cutting.draft import BoardTask, Detail
from exporters.cutting.hatching import legend
from exporters.cutting.laid_lists import laid_lists
from exporters.cutting.words import copies_whole, unplaced_heading, unplaced_lines
from exporters.sheets.callouts import NoRoomError, text_lines
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import LineClass
from exporters.sheets.tables import Table
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Lettering, Sheet
from furniture.shop.cutting.values import Board

BOARD_SCALES = tuple(
    Scale(r) for r in (1.0, 2.0, 2.5, 5.0, 7.5, 10.0, 12.5, 15.0, 20.0, 25.0, 50.0, 100.0)
)
INCH_BOARD_SCALES = tuple(Scale(float(r)) for r in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 64, 128))
"""Scales of board drawings: long things with small names in them, so steps between the usual ones.

**Source:** ISO 5455 lets others stand where a drawing needs them (from memory). Inches: common
practice, no source.
"""
MOST_REASONS = 2
"""So many parts without a place are explained on a board's sheet, the rest on the lists' sheet."""
_LEAST_SHARE = 0.25
"""Of the frame's width: a board is drawn no smaller while it can be larger. Own rule."""
_STEPS_FOR_CUTS = 2
"""A drawing is up to so many scales smaller to have its list of cuts beside it. Own rule."""
_EDGE_MM = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSheetTask:
    """A board's sheet and the frame it stands in; scales and details are tried in turn.

    of: what it shows, in whatever scale and detail.
    """

    of: BoardTask
    fields: TitleFields
    name: str
    paper: Paper


MOST_TRIED_AGAIN, MOST_NAMED, MOST_KEYED = 8, 24, MOST_LED_OUT
"""So many zones and widths are named in one order after another to make room for the list of cuts,
are named at all, are keyed. Beyond, places would be looked for for minutes. Own rule: measured, a
few seconds a board."""


@dataclass(frozen=True, slots=True)
class _Begun:
    items: list[Item]
    frame: Box2
    title: Box2


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSheet:
    """A board's sheet, its lists that found no room on it, and how many of the reasons why parts
    have no place it tells."""

    sheet: Sheet
    lists: tuple[Table, ...]
    reasons: int


def board_sheet(task: BoardSheetTask) -> BoardSheet:
    """The board's sheet at the largest scale that holds its names, or a little smaller if its list
    of cuts fits too; else with keys for names, else with what there is room for, at worst without a
    drawing.
    """
    ways = _ways(task)
    for index, (scale, detail) in enumerate(ways):
        drawn = next(_sheets(task, scale, detail, 1), None)
        if drawn is not None and crowd_of(task.of.board) > MOST_NAMED:
            return drawn
        if drawn is not None:
            scales = [each for each, same in ways[index:] if same is detail]
            return _with_cuts(task, drawn, scales[: _STEPS_FOR_CUTS + 1], detail)
    return _without_drawing(task)


def _with_cuts(
    task: BoardSheetTask, drawn: BoardSheet, scales: Sequence[Scale], detail: Detail
) -> BoardSheet:
    """The sheet, or one lettered in another order or smaller that has its list of cuts on it."""
    cuts = _lists(task, detail)[0]
    if cuts not in drawn.lists:
        return drawn
    orders = None if crowd_of(task.of.board) <= MOST_TRIED_AGAIN else 1
    for scale in scales:
        for other in _sheets(task, scale, detail, orders):
            if cuts not in other.lists:
                return other
    return drawn


def _ways(task: BoardSheetTask) -> list[tuple[Scale, Detail]]:
    """Scales and details to try, best first; few, so a crowded board is soon drawn."""
    wide = frame_of(task.paper, Orientation.LANDSCAPE).width - 2 * _EDGE_MM
    known = INCH_BOARD_SCALES if task.of.outcome.job.shown.is_inch else BOARD_SCALES
    scales = [each for each in known if task.of.board.length_mm * each.factor <= wide]
    fair = [
        e for e in scales if task.of.board.length_mm * e.factor >= _LEAST_SHARE * wide
    ] or scales[:1]
    named = (Detail.WHOLE, Detail.NAMES) if task.of.board.zones else (Detail.WHOLE,)
    crowd = crowd_of(task.of.board)
    return [
        *((scale, detail) for scale in fair for detail in named if crowd <= MOST_NAMED),
        *((scale, Detail.KEYS) for scale in fair if crowd <= MOST_KEYED),
        *((scale, Detail.LEAST) for scale in scales),
    ]


def crowd_of(board: Board) -> int:
    """How many things beside its parts a board's drawing has to name: zones and widths."""
    return len(board.zones) + len(board.stations)


def _sheets(
    task: BoardSheetTask, scale: Scale, detail: Detail, most: int | None = None
) -> Iterator[BoardSheet]:
    """The sheet at this scale in up to `most` orders of lettering; none without room."""
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    drawings = board_drawings(replace(task.of, scale=scale, detail=detail))
    try:
        for drawing in islice(drawings, most):
            if items_box(drawing.items).width <= frame.width - 2 * _EDGE_MM:
                yield from _with_drawing(task, scale, detail, drawing)
    except NoRoomError:
        return


def _with_drawing(
    task: BoardSheetTask, scale: Scale, detail: Detail, drawing: BoardDrawing
) -> Iterator[BoardSheet]:
    """The sheet; with least detail its notes and reasons may go on to the sheet of lists."""
    tables = _lists(task, detail)
    notes = [
        *_crowded(detail, drawing.left_off),
        *notes_of(task.of.outcome, task.of.board, task.of.plan, task.of.called),
    ]
    brief = ("Crowded: notes are on the sheet of lists.",)
    ways = [(tables, notes, MOST_REASONS), ((*tables, column_of("notes", notes)), brief, 0)]
    for lists, said, reasons in ways if detail is Detail.LEAST else ways[:1]:
        try:
            yield _first_sheet(task, scale, drawing.items, lists, said, reasons)
        except NoRoomError:
            continue
        return


def _lists(task: BoardSheetTask, detail: Detail) -> tuple[Table, ...]:
    lists = keyed_lists_of if detail.is_keyed else lists_of
    return lists(task.of.outcome, task.of.board, task.of.plan, task.of.called)


def _crowded(detail: Detail, left_off: Sequence[str]) -> list[str]:
    """What a maker is told of keys, and of what is not on the drawing."""
    told = []
    if detail.is_keyed:
        told.append("Crowded: P1, P2 ... and Z1, Z2 ... stand for names in the lists.")
    if left_off:
        told.append(f"Not lettered for want of room, see the lists: {', '.join(left_off)}.")
    return told


def column_of(heading: str, lines: Sequence[str]) -> Table:
    """A list of one column: a line each."""
    return Table(headings=(heading,), rows=tuple((each,) for each in lines))


def _without_drawing(task: BoardSheetTask) -> BoardSheet:
    """A sheet that says that the board finds no room on this paper; its lists say how to cut it."""
    notes = notes_of(task.of.outcome, task.of.board, task.of.plan, task.of.called)
    tables = (*_lists(task, Detail.LEAST), column_of("notes", notes))
    said = f"No room for a drawing on {task.paper.title}: take larger paper, or cut by the lists."
    return _first_sheet(task, Scale(1.0), (), tables, (said,), 0)


def _begin(task: BoardSheetTask, scale: Scale) -> _Begun:
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    items: list[Item] = list(frame_items(frame))
    fields = replace(task.fields, scale=scale.text)
    block, title = title_block(fields, frame.right, frame.bottom, task.of.style)
    return _Begun([*items, *block], frame, title)


def _first_sheet(
    task: BoardSheetTask,
    scale: Scale,
    drawing: Sequence[Item],
    tables: Sequence[Table],
    notes: Sequence[str],
    reasons: int,
) -> BoardSheet:
    """The sheet with the drawing and as many lists as find room, and the lists that do not.

    Raises:
        NoRoomError: the drawing itself finds none.
    """
    begun, style = _begin(task, scale), task.of.style
    frame, items = begun.frame, begun.items
    head = _head(task, frame, notes, reasons)
    items += head
    low = items_box(head).bottom - 3.5
    if drawing:
        box = items_box(drawing)
        dy, dx = low - box.top, frame.left + (frame.width - box.width) / 2 - box.left
        items += [moved_item(item, dx, dy) for item in drawing]
        low = box.bottom + dy - 3.5
    region = Box2(left=frame.left + _EDGE_MM, right=frame.right - _EDGE_MM,
                  bottom=frame.bottom + _EDGE_MM, top=low)  # fmt: skip
    key, key_top = _legend(task, region, begun.title)
    if drawing and low < max(begun.title.top, key_top):
        raise NoRoomError("the drawing is too high")
    items += key
    laid, rest = laid_lists(tables, region, begun.title, key_top, style)
    sheet = Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=Orientation.LANDSCAPE,
        scale=scale,
        style=style,
        frame=frame,
        items=(*items, *laid),
    )
    return BoardSheet(sheet=sheet, lists=rest, reasons=reasons)


def _head(task: BoardSheetTask, frame: Box2, notes: Sequence[str], reasons: int) -> list[Item]:
    """Heading, the parts without a place in a box of their own, and the notes."""
    style = task.of.style
    left, wide = frame.left + _EDGE_MM, frame.width - 2 * _EDGE_MM
    y = frame.top - _EDGE_MM - style.heading_height_mm
    items: list[Item] = []
    for line in wrapped(heading_of(task.of.outcome, task.of.board), style.heading_height_mm, wide):
        items.append(Lettering(text=line, at=(left, y), height=style.heading_height_mm))
        y -= style.heading_height_mm + 2.0
    y += style.heading_height_mm - 0.5
    missing = copies_whole(unplaced_heading(task.of.outcome), task.of.outcome.job)
    if missing:
        warning, y = _warning(task, missing, left, y - 0.5, wide, reasons)
        items += warning
    lines = [line for text in notes for line in wrapped(text, style.text_height_mm, wide)]
    return [*items, *text_lines(tuple(lines), left, y, style)]


def _warning(
    task: BoardSheetTask, heading: str, left: float, top: float, wide: float, most: int
) -> tuple[list[Item], float]:
    """A box that says loudly what has no place, and where the next line may begin [mm]."""
    style, pad = task.of.style, 2.0
    items: list[Item] = []
    y = top - pad
    for line in wrapped(heading, style.heading_height_mm, wide - 2 * pad):
        y -= style.heading_height_mm
        items.append(Lettering(text=line, at=(left + pad, y), height=style.heading_height_mm))
        y -= 2.0
    reasons = [copies_whole(each, task.of.outcome.job) for each in unplaced_lines(task.of.outcome)]
    told = [*reasons[:most]]
    if len(reasons) > most:
        which = "The others" if most else "Why"
        told.append(f"{which} and what would do for them: on the sheet of lists.")
    said = [line for text in told for line in wrapped(text, style.text_height_mm, wide - 2 * pad)]
    written = text_lines(tuple(said), left + pad, y, style)
    items += written
    bottom = items_box(written).bottom - pad
    corners = ((left, top), (left + wide, top), (left + wide, bottom), (left, bottom), (left, top))
    items += [stroke(a, b, LineClass.FRAME) for a, b in pairwise(corners)]
    return items, bottom - 2.5


def _legend(task: BoardSheetTask, region: Box2, title: Box2) -> tuple[list[Item], float]:
    """The legend at the foot left of the title block, and the upper side of what it takes [mm]."""
    kinds = list(dict.fromkeys(zone.kind for zone in task.of.board.zones))
    if not kinds:
        return [], region.bottom
    width = title.left - region.left - 3.0
    items, low = legend(kinds, region.left, width, task.of.style)
    top = region.bottom - low
    return [moved_item(item, 0.0, top) for item in items], top + 4.0
