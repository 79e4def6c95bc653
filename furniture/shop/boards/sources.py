"""Boards with the place where each figure was written, so that a problem can name it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Reader, counted, said


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSource:
    """A board as given, and what to call it, its widths and its zones in a message.

    Args:
        board: as given.
        where: of the board.
        widths_where: of each width, in the order of `board.widths`; empty for one width.
        zones_where: of each zone.
        own_places: of those of its figures that stand somewhere else, by their names.
    """

    board: MeasuredBoard
    where: str
    widths_where: tuple[str, ...] = ()
    zones_where: tuple[str, ...] = ()
    own_places: Mapping[str, str] = field(default_factory=dict)

    def place_of(self, figure: str) -> str:
        """What messages call a figure of the board.

        Args:
            figure: the name that `MeasuredBoard` has for it.
        """
        return self.own_places.get(figure, f"{self.where} {figure}")


def sources_in_script(reader: Reader, boards: object) -> tuple[BoardSource, ...]:
    """The boards that a script lists; anything else is noted."""
    listed: Sequence[object] = boards if isinstance(boards, (list, tuple)) else (boards,)
    found = []
    for index, board in enumerate(listed):
        where = counted("board", index, getattr(board, "name", None))
        if not isinstance(board, MeasuredBoard):
            reader.refuse(
                where, said(board), "a MeasuredBoard or a CSV file",
                "parts are cut from boards that were measured",
                f"write {reader.example('MeasuredBoard')}",
            )  # fmt: skip
            continue
        pairs = board.widths if isinstance(board.widths, (list, tuple)) else ()
        zones = board.zones if isinstance(board.zones, (list, tuple)) else (board.zones,)
        found.append(
            BoardSource(
                board=board,
                where=where,
                widths_where=tuple(f"{where} {counted('width', at)}" for at in range(len(pairs))),
                zones_where=tuple(f"{where} {counted('zone', at)}" for at in range(len(zones))),
            )
        )
    return tuple(found)
