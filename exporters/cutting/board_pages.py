"""Boards that share a sheet: as few sheets as hold them, each board at the largest scale."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations, islice, product

from exporters.cutting.board_block import BoardBlock, board_block, least_height
from exporters.cutting.board_drawing import BoardDrawing, board_drawings
from exporters.cutting.board_notes import general_notes
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.draft import BoardTask, Detail
from exporters.cutting.ground import Effort
from exporters.sheets.callouts import CLOSE_SHARE, NoRoomError
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.note_lines import place_notes
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Sheet
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.values import Board

_EDGE_MM = 2.5
_BETWEEN_MM = 3.0
_LEAST_SHARE = 0.2
"""Of the frame's width: a board is drawn no smaller. Own rule."""

_MOST_IN_ANY_ORDER = 6
"""So many boards are shared out in every way. Search effort: the ways grow threefold with each."""
_ORDERS_TRIED = 3
"""So many orders of lettering are weighed for the lowest drawing. Search effort."""

Several = Sequence[tuple[Board, BoardPlan]]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardsOn:
    """The boards of one sheet, how it lies, and the scale of each."""

    boards: Several
    lies: Orientation
    scales: tuple[Scale, ...]

    @property
    def reduced(self) -> float:
        """What all drawings together are reduced by."""
        return sum(scale.reduction for scale in self.scales)


_Shared = tuple[float, float, tuple[BoardsOn | tuple[Board, BoardPlan], ...]]
"""Sheets, what all drawings are reduced by, and what stands on each."""


@dataclass(frozen=True, kw_only=True)
class BoardPages:
    """Works out which boards share a sheet, and draws it.

    Args:
        outcome: the plan and its job.
        scales: known ones, largest first.
        fields_of: the name and the title block of the sheet of these boards.
        paper: of the sheets.
        style: pens and heights.
        effort: what may be spent on the lettering of all.
        called: how they speak of the piece and its work.
    """

    outcome: CuttingOutcome
    scales: Sequence[Scale]
    fields_of: Callable[[Several], tuple[str, TitleFields]]
    paper: Paper
    style: SheetStyle
    effort: Effort
    called: Called = BY_MARKS_ALONE

    @cached_property
    def _blocks(self) -> dict[tuple[str, Scale, Orientation], BoardBlock | None]:
        return {}

    @cached_property
    def _least(self) -> dict[tuple[str, Scale, float], float]:
        return {}

    @cached_property
    def _rooms(self) -> dict[tuple[tuple[str, ...], Orientation], Box2]:
        return {}

    @cached_property
    def _drawings(self) -> dict[tuple[str, Scale], tuple[BoardTask, BoardDrawing] | None]:
        return {}

    def shared_out(self, boards: Several) -> list[BoardsOn | tuple[Board, BoardPlan]]:
        """The fewest sheets of boards, of many only such as follow one another; a board that no
        sheet holds with all its lists is alone.
        """
        if len(boards) <= _MOST_IN_ANY_ORDER:
            return list(self._fewest(tuple(range(len(boards))), boards, {})[2])
        best: list[_Shared] = [(0.0, 0.0, ())]
        for end in range(1, len(boards) + 1):
            found = []
            for start in reversed(range(end)):
                own = self._sheets_of(boards[start:end])
                if own[0] == math.inf:
                    break  # nor do more boards fit
                found.append(_and(best[start], own))
            best.append(min(reversed(found), key=lambda each: each[:2]))
        return list(best[-1][2])

    def _fewest(
        self, left: tuple[int, ...], boards: Several, known: dict[tuple[int, ...], _Shared]
    ) -> _Shared:
        """Of all ways to share out the boards that are left."""
        if not left:
            return (0.0, 0.0, ())
        if left not in known:
            found = []
            first, *others = left
            for count in range(len(others) + 1):
                for with_it in combinations(others, count):
                    which = (first, *with_it)
                    rest = tuple(each for each in others if each not in with_it)
                    own = self._sheets_of([boards[at] for at in which])
                    if own[0] < math.inf:
                        found.append(_and(own, self._fewest(rest, boards, known)))
            known[left] = min(found, key=lambda each: each[:2])
        return known[left]

    def _sheets_of(self, boards: Several) -> _Shared:
        """These boards on one sheet, or one that no sheet holds with all its lists."""
        page = self._page(boards)
        if page is not None:
            return (1.0, page.reduced, (page,))
        # its lists need room too
        return (1.5, 1e3, (boards[0],)) if len(boards) == 1 else (math.inf, math.inf, ())

    def _page(self, boards: Several) -> BoardsOn | None:
        """The boards on one sheet, at the scales that reduce them least in all; none where they do
        not fit."""
        between = _BETWEEN_MM * (len(boards) - 1)
        found: list[tuple[float, BoardsOn]] = []
        for way in Orientation:
            room = self._room(boards, way)
            ways = [self._heights(each, way, room) for each in boards]
            if sum(min(way.values(), default=math.inf) for way in ways) > room.height - between:
                continue
            for chosen in product(*(heights.items() for heights in ways)):
                if sum(high for _, high in chosen) <= room.height - between:
                    scales = tuple(scale for scale, _ in chosen)
                    page = BoardsOn(boards=boards, lies=way, scales=scales)
                    found.append((page.reduced, page))
        return min(found, key=lambda each: each[0])[1] if found else None

    def _heights(
        self, each: tuple[Board, BoardPlan], way: Orientation, room: Box2
    ) -> dict[Scale, float]:
        """How high the board is at each scale at which it is not too high alone, the largest first
        [mm]."""
        found = {}
        for scale in self.scales:
            wide = each[0].length_mm * scale.factor / room.width
            task = self._task(each, scale)
            if _LEAST_SHARE <= wide <= 1.0 and self._least_height(task, room.width) <= room.height:
                block = self._block(task, way, room.width)
                if block is not None and block.height <= room.height:
                    found[scale] = block.height
        return found

    def _least_height(self, task: BoardTask, width: float) -> float:
        key = (task.board.name, task.scale, width)
        if key not in self._least:
            self._least[key] = least_height(task, width)
        return self._least[key]

    def _task(self, each: tuple[Board, BoardPlan], scale: Scale) -> BoardTask:
        board, plan = each
        return BoardTask(
            outcome=self.outcome, board=board, plan=plan, scale=scale, style=self.style,
            called=self.called, effort=self.effort,
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
        """The board's drawing with its zones by name, in the order of lettering that takes the
        least height; none without room."""
        key = (task.board.name, task.scale)
        if key not in self._drawings:
            self._drawings[key] = None
            # the list of zones stands on the same sheet and gives their figures
            told = replace(task, detail=Detail.NAMES if task.board.zones else Detail.WHOLE)
            with suppress(NoRoomError):
                tried = islice(board_drawings(told), _ORDERS_TRIED if len(task.board.zones) else 1)
                lowest = min(tried, key=lambda each: items_box(each.items).height)
                self._drawings[key] = told, lowest
        return self._drawings[key]

    def _room(self, boards: Several, way: Orientation) -> Box2:
        key = (tuple(board.name for board, _ in boards), way)
        if key not in self._rooms:
            self._rooms[key] = self._begun(boards, way, "as shown")[1]
        return self._rooms[key]

    def _begun(self, boards: Several, way: Orientation, scale: str) -> tuple[list[Item], Box2]:
        """Frame, title block and notes, and the room above them."""
        frame, style = frame_of(self.paper, way), self.style
        _, fields = self.fields_of(boards)
        block, title = title_block(replace(fields, scale=scale), frame.right, frame.bottom, style)
        notes = (" ".join(general_notes(self.outcome, boards, self.called)),)
        written, top = place_notes(notes, frame, title, style, CLOSE_SHARE)
        items = [*frame_items(frame), *block, *written]
        return items, Box2(
            left=frame.left + _EDGE_MM, right=frame.right - _EDGE_MM, bottom=top + 1.0,
            top=frame.top - _EDGE_MM,
        )  # fmt: skip

    def sheet(self, page: BoardsOn) -> Sheet:
        """The sheet of these boards, what room is left shared among them."""
        told = page.scales[0].text if len(set(page.scales)) == 1 else "as shown"
        items, room = self._begun(page.boards, page.lies, told)
        name, fields = self.fields_of(page.boards)
        blocks = self._eased(page, room)
        high = sum(block.height for block in blocks)
        between = min(2 * _BETWEEN_MM, (room.height - high) / max(1, len(blocks) - 1))
        y = room.top
        for index, block in enumerate(blocks):
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
            scale=min(page.scales),
            style=self.style,
            frame=frame_of(self.paper, page.lies),
            items=tuple(items),
        )

    def _eased(self, page: BoardsOn, room: Box2) -> list[BoardBlock]:
        """The blocks, the cells of their lists in fewer lines as far as the sheet has room."""
        tasks = [
            self._task(each, scale) for each, scale in zip(page.boards, page.scales, strict=True)
        ]
        lowest = [self._block(task, page.lies, room.width) for task in tasks]
        heights = [block.height for block in lowest if block is not None]
        spare = room.height - sum(heights) - _BETWEEN_MM * (len(heights) - 1)
        eased = []
        for task, high in zip(tasks, heights, strict=True):
            drawn = self._drawing(task)
            assert drawn is not None, "the page was found with it"
            told, drawing = drawn
            block = board_block(told, drawing.items, room.width, high + spare)
            spare -= block.height - high
            eased.append(block)
        return eased


def _and(one: _Shared, other: _Shared) -> _Shared:
    return (one[0] + other[0], one[1] + other[1], (*one[2], *other[2]))
