"""Boards with the place where each figure was written, so that a problem can name it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Reader, said

EXAMPLE = "MeasuredBoard(name=..., stock=..., length=..., widths=..., thickness=...)"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSource:
    """A board as given, and what to call it, its widths and its zones in a message.

    Args:
        board: as given.
        where: of the board.
        widths_where: of each width, in the order of `board.widths`; empty for one width.
        zones_where: of each zone.
    """

    board: MeasuredBoard
    where: str
    widths_where: tuple[str, ...] = ()
    zones_where: tuple[str, ...] = ()


def sources_in_script(reader: Reader, boards: object) -> tuple[BoardSource, ...]:
    """The boards that a script lists; anything else is noted.

    Args:
        reader: keeps the problems.
        boards: several `MeasuredBoard`.
    """
    listed: Sequence[object] = boards if isinstance(boards, (list, tuple)) else (boards,)
    found = []
    for index, board in enumerate(listed):
        where = f"boards[{index}]"
        if not isinstance(board, MeasuredBoard):
            reader.refuse(
                where, said(board), "a MeasuredBoard or a CSV file",
                "parts are cut from boards that were measured", f"write {EXAMPLE}",
            )  # fmt: skip
            continue
        name = f"{where} ({board.name})" if board.name else where
        pairs = board.widths if isinstance(board.widths, (list, tuple)) else ()
        zones = board.zones if isinstance(board.zones, (list, tuple)) else (board.zones,)
        found.append(
            BoardSource(
                board=board,
                where=name,
                widths_where=tuple(f"{name} widths[{at}]" for at in range(len(pairs))),
                zones_where=tuple(f"{name} zones[{at}]" for at in range(len(zones))),
            )
        )
    return tuple(found)
