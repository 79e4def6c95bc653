"""What is cut from one pile of boards: a piece, or copies of several."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.parts.part import Placed
from furniture.pieces import Piece, timbers_of
from furniture.shop.boards.names import Names, names_of
from furniture.shop.boards.wishes import Match, PartWish
from furniture.timber.stock import Timber
from furniture.units import figure_with_unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """One copy of a piece among all that is cut.

    Args:
        piece: what is cut.
        parts: what its parts put up with.
        matches: of its parts; None takes the usual ones.
        mark: what tells this copy from the others, such as `tea box 2`; empty where it is alone.
        where: what a message calls its wishes by, such as `wishes: `.
        design: the name of what it is a copy of, where its piece has come to be one of its own.
        number: among the copies of its design; None where it is the only one.
    """

    piece: Piece
    parts: Sequence[PartWish] = ()
    matches: Sequence[Match] | None = None
    mark: str = ""
    where: str = "wishes: "
    design: str = ""
    number: int | None = None

    def called(self, name: str) -> str:
        """A name of this copy's own among those of all copies."""
        return f"{self.mark}: {name}" if self.mark else name


def off_their_boards(lots: Sequence[Lot]) -> frozenset[str]:
    """Instances that have their wood already, by their names among all copies."""
    return frozenset(
        lot.called(name) for lot in lots for name in lot.piece.done | lot.piece.in_hand
    )


def all_names(lots: Sequence[Lot]) -> Names:
    """What may be named where every copy is meant: an instance with its copy's mark, a whole copy
    by its mark, all copies by the piece's name, and a part of whatever piece has it."""
    instances: list[str] = []
    groups: dict[str, list[str]] = {}
    for lot in lots:
        own = [lot.called(each.instance) for each in lot.piece.placed]
        instances += own
        for name in dict.fromkeys((lot.mark, lot.piece.name, lot.design)):
            groups.setdefault(name, []).extend(own)
        for name, meant in names_of(lot.piece).groups.items():
            groups.setdefault(name, []).extend(lot.called(each) for each in meant)
    return Names(
        instances=tuple(instances),
        groups={name: tuple(meant) for name, meant in groups.items() if name},
    )


def placed_by_name(lots: Sequence[Lot]) -> Mapping[str, Placed]:
    """Every instance of every copy in its place in its piece, by its name among all."""
    return {lot.called(each.instance): each for lot in lots for each in lot.piece.placed}


def pieces_of(lots: Sequence[Lot]) -> tuple[Piece, ...]:
    """The pieces, each once however many copies there are."""
    return tuple({id(lot.piece): lot.piece for lot in lots}.values())


def stocks_of(lots: Sequence[Lot]) -> tuple[Timber, ...]:
    """The stocks of all pieces, in order of first use."""
    return tuple(dict.fromkeys(each for piece in pieces_of(lots) for each in timbers_of(piece)))


def stock_problems(lots: Sequence[Lot]) -> list[Problem]:
    """Stocks of one name that are not one wood: boards could not tell which is meant."""
    first: dict[str, tuple[Timber, Piece]] = {}
    found = []
    for piece in pieces_of(lots):
        for timber in timbers_of(piece):
            other, owner = first.setdefault(timber.name, (timber, piece))
            if other == timber:
                continue
            found.append(
                Problem(
                    parameter=f"{piece.name}: stock {timber.name!r}",
                    given=_told(timber, piece),
                    allowed=f"as in {owner.name}: {_told(other, owner)}",
                    why="boards are kept for a stock by its name, so one name is one wood",
                    remedy="give one of the two stocks another name",
                )
            )
    return found


def _told(timber: Timber, piece: Piece) -> str:
    thickness = figure_with_unit(timber.thickness_mm, piece.shown)
    return f"{timber.species.name}, {thickness}, {timber.moisture_pct:g} %"
