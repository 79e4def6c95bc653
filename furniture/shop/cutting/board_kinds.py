"""Boards alike as one kind, in units: what prices and columns are reckoned on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.blanks import Blank
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.unit_boards import Rounding, Spot, UnitBoard, unit_board
from furniture.shop.cutting.value_tables import Table, table_of
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import usable_frame


@dataclass(frozen=True, slots=True)
class BoardKind:
    """Boards alike in all but name, and what is cut from them in units.

    bare: a board of the kind. wide: in units rounded for the pieces, so that whatever lies on the
    board lies there. against: rounded against them, so that what lies there lies on the board.
    """

    bare: Board
    names: tuple[str, ...]
    wide: UnitBoard
    against: UnitBoard
    table: Table

    @property
    def is_exact(self) -> bool:
        """Whether what fills the table lies on the board, too."""
        return self.wide == self.against and self.table.knows_faults

    def placements(
        self,
        request: CuttingRequest,
        pieces: Sequence[Blank],
        spots: Sequence[Spot],
        name: str | None = None,
    ) -> tuple[Placement, ...]:
        """The layout on a board of the kind, by its name; on the first."""
        board = replace(self.bare, name=name or self.names[0])
        frame = usable_frame(board, request.saw)
        return tuple(self.against.placements(board, pieces, spots, frame))


def kinds_in_units(request: CuttingRequest, pieces: Sequence[Blank]) -> list[BoardKind]:
    """The kinds of boards of a request, in the order of their first boards."""
    kinds = []
    for bare, names in names_by_kind(request.boards).items():
        wide = unit_board(request, bare, pieces, Rounding.FOR_PIECES)
        against = unit_board(request, bare, pieces, Rounding.AGAINST_PIECES)
        kinds.append(BoardKind(bare, tuple(names), wide, against, table_of(wide)))
    return kinds
