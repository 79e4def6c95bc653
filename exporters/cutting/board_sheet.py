"""A sheet for one board: its drawing, legend, and as many of its lists as find room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from exporters.cutting.board_drawing import board_drawing
from exporters.cutting.board_tables import cuts_table, parts_table, zones_table
from exporters.cutting.draft import BoardTask, ZoneWords
from exporters.cutting.hatching import legend
from exporters.cutting.planing import planing_of
from exporters.cutting.steps import Guide, saw_steps
from exporters.cutting.words import left_out_heading, left_out_lines, money, stock_of
from exporters.sheets.callouts import NoRoomError, text_lines
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.parts_list import Table, table_items, table_size
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Lettering, Sheet
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.settling import sequence_kept
from furniture.shop.cutting.values import Board, MatchRule
from furniture.units import figure_with_unit

BOARD_SCALES = tuple(
    Scale(r) for r in (1.0, 2.0, 2.5, 5.0, 7.5, 10.0, 12.5, 15.0, 20.0, 25.0, 50.0)
)
INCH_BOARD_SCALES = tuple(Scale(float(r)) for r in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 64))
"""Scales of board drawings: long things with small names in them, so steps between the usual ones.

**Source:** ISO 5455 lets others stand where a drawing needs them (from memory). Inches: common
practice, no source.
"""
MOST_REASONS = 2
"""So many parts without a place are explained on a board's sheet, the rest on the lists' sheet."""
_EDGE_MM = 4.0
_GAP_MM = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSheetTask:
    """A board's sheet: what it shows and the frame it stands in; the scale is filled in."""

    outcome: CuttingOutcome
    board: Board
    plan: BoardPlan
    fields: TitleFields
    name: str
    paper: Paper
    style: SheetStyle


@dataclass(frozen=True, slots=True)
class _Begun:
    items: list[Item]
    frame: Box2
    title: Box2


def board_sheet(task: BoardSheetTask) -> tuple[Sheet, tuple[Table, ...]]:
    """The board's sheet at the largest standard scale, and its lists that found no room on it.

    Args:
        task: what to draw.

    Raises:
        NoRoomError: the board fits at no standard scale.
    """
    tables = _tables(task)
    why = f"board {task.board.name} does not fit on {task.paper.title}"
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    is_inch = task.outcome.job.shown.is_inch
    for scale in INCH_BOARD_SCALES if is_inch else BOARD_SCALES:
        if task.board.length * scale.factor > frame.width - 2 * _EDGE_MM:
            continue
        for words in ZoneWords:
            try:
                drawing = _drawing(task, scale, words)
                if items_box(drawing).width > frame.width - 2 * _EDGE_MM:
                    break
                return _first_sheet(task, scale, drawing, tables)
            except NoRoomError as error:
                why = f"board {task.board.name}, {task.paper.title}, {scale.text}: {error}"
    raise NoRoomError(why)


def _tables(task: BoardSheetTask) -> tuple[Table, ...]:
    """The lists, what is needed at the saw first."""
    shown = task.outcome.job.shown
    zones = zones_table(task.board, shown)
    steps = saw_steps(task.outcome, task.plan)
    listed = (cuts_table(steps, shown), parts_table(task.outcome, task.plan), zones)
    return tuple(each for each in listed if each is not None)


def _drawing(task: BoardSheetTask, scale: Scale, words: ZoneWords) -> tuple[Item, ...]:
    return board_drawing(
        BoardTask(
            outcome=task.outcome,
            board=task.board,
            plan=task.plan,
            scale=scale,
            style=task.style,
            zone_words=words,
        )
    )


def _begin(task: BoardSheetTask, scale: Scale) -> _Begun:
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    items: list[Item] = list(frame_items(frame))
    fields = replace(task.fields, scale=scale.text)
    block, title = title_block(fields, frame.right, frame.bottom, task.style)
    return _Begun([*items, *block], frame, title)


def _first_sheet(
    task: BoardSheetTask, scale: Scale, drawing: Sequence[Item], tables: Sequence[Table]
) -> tuple[Sheet, tuple[Table, ...]]:
    """The sheet with the drawing and as many lists as find room, and the lists that do not.

    Raises:
        NoRoomError: the drawing itself finds none.
    """
    begun, style = _begin(task, scale), task.style
    frame, items = begun.frame, begun.items
    head = _head(task, frame)
    items += head
    box = items_box(drawing)
    dy = items_box(head).bottom - 3.5 - box.top
    dx = frame.left + (frame.width - box.width) / 2 - box.left
    items += [moved_item(item, dx, dy) for item in drawing]
    low = box.bottom + dy - 3.5
    region = Box2(left=frame.left + _EDGE_MM, right=frame.right - _EDGE_MM,
                  bottom=frame.bottom + _EDGE_MM, top=low)  # fmt: skip
    key, key_top = _legend(task, region, begun.title)
    if low < max(begun.title.top, key_top):
        raise NoRoomError("the drawing is too high")
    items += key
    laid, rest = _laid(task, tables, region, begun.title, key_top)
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
    return sheet, rest


def _head(task: BoardSheetTask, frame: Box2) -> list[Item]:
    """Heading, the parts without a place in a box of their own, and the notes."""
    style = task.style
    left, wide = frame.left + _EDGE_MM, frame.width - 2 * _EDGE_MM
    y = frame.top - _EDGE_MM - style.heading_height_mm
    items: list[Item] = [
        Lettering(text=_heading(task), at=(left, y), height=style.heading_height_mm)
    ]
    y -= 2.5
    missing = left_out_heading(task.outcome)
    if missing:
        warning, y = _warning(task, missing, left, y - 0.5, wide)
        items += warning
    lines = [line for text in _notes(task) for line in wrapped(text, style.text_height_mm, wide)]
    return [*items, *text_lines(tuple(lines), left, y, style)]


def _warning(
    task: BoardSheetTask, heading: str, left: float, top: float, wide: float
) -> tuple[list[Item], float]:
    """A box that says loudly what has no place, and where the next line may begin [mm]."""
    style, pad = task.style, 2.0
    items: list[Item] = []
    y = top - pad
    for line in wrapped(heading, style.heading_height_mm, wide - 2 * pad):
        y -= style.heading_height_mm
        items.append(Lettering(text=line, at=(left + pad, y), height=style.heading_height_mm))
        y -= 2.0
    reasons = left_out_lines(task.outcome)
    told = [*reasons[:MOST_REASONS]]
    if len(reasons) > MOST_REASONS:
        told.append("The others and what would do for them: on the sheet of lists.")
    said = [line for text in told for line in wrapped(text, style.text_height_mm, wide - 2 * pad)]
    written = text_lines(tuple(said), left + pad, y, style)
    items += written
    bottom = items_box(written).bottom - pad
    corners = ((left, top), (left + wide, top), (left + wide, bottom), (left, bottom), (left, top))
    items += [stroke(a, b, LineClass.FRAME) for a, b in pairwise(corners)]
    return items, bottom - 2.5


def _laid(
    task: BoardSheetTask, tables: Sequence[Table], region: Box2, title: Box2, key_top: float
) -> tuple[list[Item], tuple[Table, ...]]:
    """As many lists as find room under the drawing, and the lists left over, none torn apart.

    The lists of the most rows and the first of the lists come first, in every way of columns.
    """
    cuts, *others = tables
    ways: list[tuple[tuple[Table, ...], ...]] = [
        ((cuts,), tuple(others)),
        (tuple(others), (cuts,)),
        ((cuts, *others),),
        ((cuts, *others[1:]), (others[0],)),
        ((cuts,), (others[0],)),
        ((cuts, others[0]),),
        *(((cuts,), (each,)) for each in others[1:]),
        *(((cuts, each),) for each in others[1:]),
        ((cuts,),),
        (tuple(others),),
        *(((each,),) for each in others),
    ]
    for way in ways:
        laid = _columns(task, way, region, title, key_top)
        if laid is not None:
            placed = [table for column in way for table in column]
            return laid, tuple(each for each in tables if each not in placed)
    return [], tuple(tables)


def _columns(
    task: BoardSheetTask,
    columns: Sequence[Sequence[Table]],
    region: Box2,
    title: Box2,
    key_top: float,
) -> list[Item] | None:
    """The lists in columns from the left, above legend and title block; none without room."""
    style, items = task.style, list[Item]()
    x = region.left
    for column in columns:
        y, widest = region.top, 0.0
        for table in column:
            wide, high = table_size(table, style)
            low = region.bottom
            if x + wide > title.left - 2.0:
                low = max(low, title.top + 3.0)
            if x < title.left:
                low = max(low, key_top)
            if y - high < low or x + wide > region.right + 1e-6:
                return None
            drawn, _ = table_items(table, x + wide, y - high, style)
            items += drawn
            widest = max(widest, wide)
            y -= high + _GAP_MM
        x += widest + _GAP_MM
    return items


def _legend(task: BoardSheetTask, region: Box2, title: Box2) -> tuple[list[Item], float]:
    """The legend at the foot left of the title block, and the upper side of what it takes [mm]."""
    kinds = list(dict.fromkeys(zone.kind for zone in task.board.zones))
    if not kinds:
        return [], region.bottom
    width = title.left - region.left - 3.0
    items, low = legend(kinds, region.left, 0.0, width, task.style)
    top = region.bottom - low
    return [moved_item(item, 0.0, top) for item in items], top + 4.0


def _heading(task: BoardSheetTask) -> str:
    job, board = task.outcome.job, task.board
    planned = next(b for b in job.request.boards if b.name == board.name)
    text = (
        f"Board {board.name}: {stock_of(job, planned.species)}, measured "
        f"{figure_with_unit(board.thickness, job.shown)} thick"
    )
    return f"{text}, {money(board.price, job.currency)}" if board.price else text


def _notes(task: BoardSheetTask) -> list[str]:
    job = task.outcome.job
    saw, shown = job.request.saw, job.shown
    keeps = [each for each in task.plan.offcuts if each.is_usable]
    notes = list(planing_of(task.outcome, task.plan))
    notes += [f"{task.board.description}."] if task.board.description else []
    keeping = f"{len(keeps)} {'offcut' if len(keeps) == 1 else 'offcuts'} to keep"
    notes.append(
        f"Yield {task.plan.yield_share:.0%}; kerf {figure_with_unit(saw.kerf, shown)}; {keeping}. "
        "Grain along the board; parts at their rough size, pieces at their widest. Cut in order. "
        "Set: on the piece in hand, from the side named to the blade."
    )
    steps = saw_steps(task.outcome, task.plan)
    if any(step.guide is Guide.PLANE for step in steps):
        notes.append("Plane: so little is taken off with the plane or the jointer, not the saw.")
    if any("~" in cell for table in _tables(task) for row in table.rows for cell in row):
        notes.append("~ means rounded to the nearest mark of the rule.")
    notes += _sequences(task)
    return notes


def _sequences(task: BoardSheetTask) -> list[str]:
    """For each sequence that comes whole off this board, its parts in order."""
    job = task.outcome.job
    found = []
    for match in job.request.matches:
        if match.rule is not MatchRule.IN_SEQUENCE:
            continue
        run = sequence_kept(match, task.plan.placements, job.request.saw.kerf)
        names = [task.outcome.name_of(placement) for placement in run]
        if names:
            found.append(
                f"{match.name}: {', '.join(names)} come off one strip in this order, the left end "
                "of each its named end; mark them across the cuts before they are parted."
            )
    return found
