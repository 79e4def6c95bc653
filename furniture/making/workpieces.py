"""Wood in hand: boards, blanks, parts half made and what is left over, each from another."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.vectors import Vector


class Wood(Enum):
    """What a workpiece is."""

    BOARD = "board"
    GLUED_STRIP = "glued strip"
    COMMON_BLANK = "common blank"
    PART = "part"
    OFFCUT = "offcut"
    SUB_ASSEMBLY = "sub-assembly"


@dataclass(frozen=True, slots=True)
class MemberPlacement:
    """A piece of wood in a workpiece that it is glued into: their axes are the same ways.

    id: of the piece; at_mm: where its frame's origin lies in the frame of what it is glued into.
    """

    id: str
    at_mm: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Workpiece:
    """A piece of wood with a frame of its own, in which it lies from `low` to `high` at first.

    With a `source` it comes into being at the operation that first gives it; given again by a
    later one, it is the rest of the same wood in the same frame.

    Args:
        id: what operations call it.
        what: it is.
        instances: of the piece that are in it, in their order along it.
        low: least corner of the wood when it comes into being, its own frame [mm]. The frame's
            origin is the corner of the finished part, so what is still to come off lies below 0.
        high: greatest corner [mm].
        source: the workpiece that it comes from, be it by way of others; None is bought or lies
            there.
        at_mm: where its frame's origin lies in the frame of `source`.
        axes: its three axes there, unit vectors.
        board: the name of the board that it is, before anything comes off it.
        glued_of: the strips that it is glued up from, from its face edge on; none where it is sawn
            from one piece.
    """

    id: str
    what: Wood
    instances: tuple[str, ...]
    low: Vector
    high: Vector
    source: str | None = None
    at_mm: Vector = (0.0, 0.0, 0.0)
    axes: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    board: str | None = None
    glued_of: tuple[MemberPlacement, ...] = ()


def board_id(board: str) -> str:
    """What a board is called as a workpiece.

    Args:
        board: its name.
    """
    return f"board {board}"
