"""A sheet for one board: drawing, legend, parts, cuts in order; and a second one for long lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from exporters.cutting.board_drawing import board_drawing
from exporters.cutting.draft import BoardTask
from exporters.cutting.hatching import legend
from exporters.cutting.part_labels import offcut_key
from exporters.cutting.planing import planing_of
from exporters.cutting.words import (
    cut_leaves,
    faces,
    money,
    part_named,
    size,
    stock_of,
    zone_place,
)
from exporters.sheets.callouts import NoRoomError, text_lines
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of, scales_for
from exporters.sheets.parts_list import Table, row_height, split_table, table_items, table_size
from exporters.sheets.pens import SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Lettering, Sheet
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.settling import sequence_kept
from furniture.shop.cutting.values import Board, MatchRule
from furniture.units import figure, figure_with_unit

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


def board_sheets(task: BoardSheetTask) -> tuple[Sheet, ...]:
    """The board's sheet at the largest standard scale, and its lists' sheet where they need one.

    Args:
        task: what to draw.

    Raises:
        NoRoomError: the board fits at no standard scale.
    """
    for scale in scales_for(task.outcome.job.shown.is_inch):
        if scale.reduction < 1:
            continue
        drawing = _drawing(task, scale)
        box = items_box(drawing)
        begun = _begin(task, scale, task.fields)
        if box.width > begun.frame.width - 2 * _EDGE_MM:
            continue
        try:
            return (_whole_sheet(task, scale, drawing, with_cuts=True),)
        except NoRoomError:
            pass
        try:
            first = _whole_sheet(task, scale, drawing, with_cuts=False)
        except NoRoomError:
            continue
        return (first, *_list_sheets(task, (cuts_table(task),)))
    raise NoRoomError(f"board {task.board.name} does not fit on {task.paper.title}")


def _drawing(task: BoardSheetTask, scale: Scale) -> tuple[Item, ...]:
    return board_drawing(
        BoardTask(
            outcome=task.outcome, board=task.board, plan=task.plan, scale=scale, style=task.style
        )
    )


def _begin(task: BoardSheetTask, scale: Scale | None, fields: TitleFields) -> _Begun:
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    items: list[Item] = list(frame_items(frame))
    text = scale.text if scale else "-"
    block, title = title_block(replace(fields, scale=text), frame.right, frame.bottom, task.style)
    return _Begun([*items, *block], frame, title)


def _whole_sheet(
    task: BoardSheetTask, scale: Scale, drawing: Sequence[Item], *, with_cuts: bool
) -> Sheet:
    begun, style = _begin(task, scale, task.fields), task.style
    frame = begun.frame
    items = begun.items
    left, top = frame.left + _EDGE_MM, frame.top - _EDGE_MM
    items.append(
        Lettering(
            text=_heading(task), at=(left, top - style.heading_height_mm),
            height=style.heading_height_mm,
        )
    )  # fmt: skip
    lines = [
        line
        for text in _notes(task)
        for line in wrapped(text, style.text_height_mm, frame.width - 2 * _EDGE_MM)
    ]
    notes = text_lines(tuple(lines), left, top - style.heading_height_mm - 2.5, style)
    items += notes
    box = items_box(drawing)
    dy = items_box(notes).bottom - 4.0 - box.top
    dx = frame.left + (frame.width - box.width) / 2 - box.left
    items += [moved_item(item, dx, dy) for item in drawing]
    low = box.bottom + dy - 4.0
    zones = zones_table(task)
    parts = [parts_table(task)]
    others = [] if zones is None else [zones]
    cuts = [cuts_table(task)] if with_cuts else []
    region = Box2(left=left, right=frame.right - _EDGE_MM, bottom=frame.bottom + _EDGE_MM, top=low)
    ways = ([[*parts, *others], cuts], [[*parts, *cuts], others], [[*parts, *others, *cuts]])
    items += _first_that_fits(task, ways, region, begun.title)
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=Orientation.LANDSCAPE,
        scale=scale,
        style=style,
        frame=frame,
        items=tuple(items),
    )


def _first_that_fits(
    task: BoardSheetTask, ways: Sequence[Sequence[Sequence[Table]]], region: Box2, title: Box2
) -> list[Item]:
    """The tables laid in the first way that has room.

    Raises:
        NoRoomError: none has.
    """
    for columns in ways[:-1]:
        try:
            return _flowed(task, columns, region, title)
        except NoRoomError:
            continue
    return _flowed(task, ways[-1], region, title)


def _flowed(
    task: BoardSheetTask, columns: Sequence[Sequence[Table]], region: Box2, title: Box2
) -> list[Item]:
    """The tables in columns from the left under the drawing, above legend and title block.

    Raises:
        NoRoomError: they do not all fit.
    """
    style = task.style
    items, legend_top = _legend(task, region, title)
    x = region.left
    for column in columns:
        y = region.top
        widest = 0.0
        for table in column:
            rest: Table | None = table
            while rest is not None:
                wide, _ = table_size(rest, style)
                over_title = x + wide > title.left - 2.0
                low = title.top + 3.0 if over_title else legend_top
                rows = int((y - low) / row_height(style)) - 1
                if rows < min(3, len(rest.rows)):
                    if y >= region.top:
                        raise NoRoomError("the lists do not fit")
                    x, y, widest = x + widest + _GAP_MM, region.top, 0.0
                    continue
                if x + wide > region.right + 1e-6:
                    raise NoRoomError("the lists do not fit")
                first, *others = split_table(rest, rows)
                _, high = table_size(first, style)
                drawn, _ = table_items(first, x + wide, y - high, style)
                items += drawn
                widest = max(widest, wide)
                y -= high + _GAP_MM
                rest = replace(rest, rows=rest.rows[rows:]) if others else None
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


def _list_sheets(task: BoardSheetTask, tables: Sequence[Table]) -> tuple[Sheet, ...]:
    """Sheets that hold nothing but lists, in columns."""
    title = f"{task.fields.title}: cuts in order"
    begun = _begin(task, None, replace(task.fields, title=title))
    style, region = task.style, begun.frame.grown(-_EDGE_MM)
    rows = int((region.top - begun.title.top - 4.0) / row_height(style)) - 1
    pages: list[list[Item]] = [[]]
    x = region.left
    for table in tables:
        for piece in split_table(table, rows):
            wide, high = table_size(piece, style)
            if x + wide > region.right:
                pages.append([])
                x = region.left
            drawn, _ = table_items(piece, x + wide, region.top - high, style)
            pages[-1] += drawn
            x += wide + _GAP_MM
    return tuple(
        Sheet(
            name=f"{task.name}-cuts" + (f"-{number}" if number > 1 else ""),
            title=title,
            paper=task.paper,
            orientation=Orientation.LANDSCAPE,
            scale=Scale(1.0),
            style=style,
            frame=begun.frame,
            items=(*begun.items, *page),
        )
        for number, page in enumerate(pages, start=1)
    )


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
    notes += [task.board.description] if task.board.description else []
    notes.append(
        f"Yield {task.plan.yield_share:.0%}; kerf {figure_with_unit(saw.kerf, shown)}; "
        f"{len(keeps)} {'offcut' if len(keeps) == 1 else 'offcuts'} to keep. "
        "Left end: where the tape was hooked on; lower edge: the jointed one. Grain along the "
        "board. Cut in the order of the numbers: at is from the left end for a crosscut, from the "
        "lower edge for a rip, to the near side of the kerf. Parts are drawn at their rough size."
    )
    if len(task.board.stations) > 2:
        widths = ", ".join(
            f"{figure(station.width, shown)} at {figure(station.at, shown)}"
            for station in task.board.stations
        )
        notes.append(f"Widths measured: {widths}.")
    notes += _sequences(task)
    return notes


def _sequences(task: BoardSheetTask) -> list[str]:
    """For each sequence that comes whole off this board, its parts by their keys."""
    job = task.outcome.job
    found = []
    for match in job.request.matches:
        if match.rule is not MatchRule.IN_SEQUENCE:
            continue
        run = sequence_kept(match, task.plan.placements, job.request.saw.kerf)
        keys = [str(task.plan.placements.index(placement) + 1) for placement in run]
        if keys:
            found.append(
                f"{match.name}: {', '.join(keys)} come off one strip in this order, the left end "
                "of each its named end; mark them across the cuts before they are parted."
            )
    return found


def parts_table(task: BoardSheetTask) -> Table:
    """Parts with their rough and finished sizes, then the offcuts worth keeping."""
    job = task.outcome.job
    shown = job.shown
    rows = []
    for key, placement in enumerate(task.plan.placements, start=1):
        part = part_named(job, placement.part)
        place = placement.place
        lengths = (place.length, place.width)
        if placement.is_turned:
            lengths = (place.width, place.length)
        rows.append(
            (
                str(key),
                task.outcome.name_of(placement),
                size(shown, *lengths),
                size(shown, part.length, part.width, part.thickness),
                "down" if placement.is_flipped else "up",
            )
        )
    for index, offcut in enumerate(each for each in task.plan.offcuts if each.is_usable):
        place = offcut.place
        rows.append((offcut_key(index), "keep", size(shown, place.length, place.width), "", ""))
    unit = shown.unit.symbol
    return Table(
        headings=("", "part", f"rough L x W [{unit}]", "finished L x W x T", "face side"),
        rows=tuple(rows),
        centred=frozenset({0, 4}),
    )


def cuts_table(task: BoardSheetTask) -> Table:
    """Cuts in order: where, in what piece, and what each leaves."""
    shown = task.outcome.job.shown
    rows = tuple(
        (
            str(cut.number),
            cut.direction.value,
            figure(cut.position, shown),
            size(shown, cut.workpiece.length, cut.workpiece.width),
            cut_leaves(cut, shown),
        )
        for cut in task.plan.cuts
    )
    return Table(
        headings=("no.", "cut", "at", "piece in hand", "leaves"),
        rows=rows,
        centred=frozenset({0}),
    )


def zones_table(task: BoardSheetTask) -> Table | None:
    """Zones: kind, place along and across, face, and the maker's words; none without zones."""
    if not task.board.zones:
        return None
    shown = task.outcome.job.shown
    rows = tuple((zone.name, *zone_place(zone, shown), faces(zone)) for zone in task.board.zones)
    return Table(headings=("zone", "along", "across", "face"), rows=rows, centred=frozenset({3}))
