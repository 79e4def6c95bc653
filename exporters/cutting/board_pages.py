"""Boards that share a sheet: as few sheets as hold them, all of a sheet at the largest scale."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from exporters.cutting.board_block import BoardBlock, board_block, least_height
from exporters.cutting.board_drawing import BoardDrawing, board_drawings
from exporters.cutting.board_notes import general_notes
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.draft import BoardTask, Detail
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import moved_item
from exporters.sheets.note_lines import place_notes
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Sheet
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.values import Board

_EDGE_MM = 4.0
_BETWEEN_MM = 6.0
_LEAST_SHARE = 0.2
"""Of the frame's width: a board is drawn no smaller. Own rule."""

Several = Sequence[tuple[Board, BoardPlan]]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardsOn:
    """The boards of one sheet, how it lies, and their scale."""

    boards: Several
    lies: Orientation
    scale: Scale


@dataclass(frozen=True, kw_only=True)
class BoardPages:
    """Works out which boards share a sheet, and draws it.

    Args:
        outcome: the plan and its job.
        scales: known ones, largest first.
        fields_of: the name and the title block of the sheet of these boards.
        paper: of the sheets.
        style: pens and heights.
        called: how they speak of the piece and its work.
    """

    outcome: CuttingOutcome
    scales: Sequence[Scale]
    fields_of: Callable[[Several], tuple[str, TitleFields]]
    paper: Paper
    style: SheetStyle
    called: Called = BY_MARKS_ALONE

    @cached_property
    def _blocks(self) -> dict[tuple[str, Scale, Orientation], BoardBlock | None]:
        return {}

    @cached_property
    def _drawings(self) -> dict[tuple[str, Scale], tuple[BoardTask, BoardDrawing] | None]:
        return {}

    def shared_out(self, boards: Several) -> list[BoardsOn | tuple[Board, BoardPlan]]:
        """The fewest sheets of boards in their order; a board that no sheet holds with all its
        lists is alone.

        Args:
            boards: that are begun, with their plans.
        """
        # best[i]: sheets, and what all drawings are reduced by, of the first i boards
        best: list[tuple[float, float, tuple[BoardsOn | tuple[Board, BoardPlan], ...]]]
        best = [(0.0, 0.0, ())]
        for end, alone in enumerate(boards, start=1):
            sheets, reduced, so_far = best[-1]
            found = [(sheets + 1.5, reduced + 1e3, (*so_far, alone))]  # its lists need room too
            for start in range(end):
                page = self._page(boards[start:end])
                if page is not None:
                    sheets, reduced, so_far = best[start]
                    small = page.scale.reduction * (end - start)
                    found.append((sheets + 1.0, reduced + small, (*so_far, page)))
            best.append(min(found, key=lambda each: each[:2]))
        return list(best[-1][2])

    def _page(self, boards: Several) -> BoardsOn | None:
        """The boards on one sheet at the largest scale at which all fit; none where they do not."""
        between = _BETWEEN_MM * (len(boards) - 1)
        for scale in self.scales:
            for way in Orientation:
                room = self._room(boards, way)
                wide = [board.length * scale.factor / room.width for board, _ in boards]
                if min(wide) < _LEAST_SHARE or max(wide) > 1.0:
                    continue
                tasks = [self._task(each, scale) for each in boards]
                if sum(least_height(task, room.width) for task in tasks) > room.height - between:
                    continue
                high = between
                for task in tasks:  # the first that does not fit spares the others the drawing
                    block = self._block(task, way, room.width)
                    high += math.inf if block is None else block.height
                    if high > room.height:
                        break
                else:
                    return BoardsOn(boards=boards, lies=way, scale=scale)
        return None

    def _task(self, each: tuple[Board, BoardPlan], scale: Scale) -> BoardTask:
        board, plan = each
        return BoardTask(
            outcome=self.outcome, board=board, plan=plan, scale=scale, style=self.style,
            called=self.called,
        )  # fmt: skip

    def _block(self, task: BoardTask, way: Orientation, width: float) -> BoardBlock | None:
        key = (task.board.name, task.scale, way)
        if key not in self._blocks:
            drawn = self._drawing(task)
            try:
                self._blocks[key] = drawn and board_block(drawn[0], drawn[1].items, width)
            except NoRoomError:
                self._blocks[key] = None
        return self._blocks[key]

    def _drawing(self, task: BoardTask) -> tuple[BoardTask, BoardDrawing] | None:
        """The board's drawing with its zones told in full, or by name; none without room."""
        key = (task.board.name, task.scale)
        if key not in self._drawings:
            self._drawings[key] = None
            for detail in (Detail.WHOLE, Detail.NAMES) if task.board.zones else (Detail.WHOLE,):
                told = replace(task, detail=detail)
                try:
                    self._drawings[key] = told, next(board_drawings(told))
                    break
                except NoRoomError:
                    continue
        return self._drawings[key]

    def _room(self, boards: Several, way: Orientation) -> Box2:
        return self._begun(boards, way, self.scales[0])[1]

    def _begun(self, boards: Several, way: Orientation, scale: Scale) -> tuple[list[Item], Box2]:
        """Frame, title block and notes, and the room above them."""
        frame, style = frame_of(self.paper, way), self.style
        _, fields = self.fields_of(boards)
        block, title = title_block(
            replace(fields, scale=scale.text), frame.right, frame.bottom, style
        )
        notes = tuple(general_notes(self.outcome, boards))
        written, top = place_notes(notes, frame, title, style)
        items = [*frame_items(frame), *block, *written]
        return items, Box2(
            left=frame.left + _EDGE_MM, right=frame.right - _EDGE_MM, bottom=top + 2.0,
            top=frame.top - _EDGE_MM,
        )  # fmt: skip

    def sheet(self, page: BoardsOn) -> Sheet:
        """The sheet of these boards, what room is left shared among them.

        Args:
            page: one that was found.
        """
        items, room = self._begun(page.boards, page.lies, page.scale)
        name, fields = self.fields_of(page.boards)
        blocks = [
            self._block(self._task(each, page.scale), page.lies, room.width) for each in page.boards
        ]
        high = sum(block.height for block in blocks if block is not None)
        between = min(2 * _BETWEEN_MM, (room.height - high) / max(1, len(blocks) - 1))
        y = room.top
        for index, block in enumerate(blocks):
            assert block is not None, "the page was found with it"
            if index:
                rule = y - between / 2
                items.append(stroke((room.left, rule), (room.right, rule), LineClass.PANEL))
                y -= between
            items += [moved_item(item, room.left, y) for item in block.items]
            y -= block.height
        return Sheet(
            name=name,
            title=fields.title,
            paper=self.paper,
            orientation=page.lies,
            scale=page.scale,
            style=self.style,
            frame=frame_of(self.paper, page.lies),
            items=tuple(items),
        )
