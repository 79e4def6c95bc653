"""Which boards give which stock: by name, or by species and thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.rules.staying import THINNER
from furniture.shop.boards.reading import BoardRead
from furniture.timber.stock import Timber
from furniture.units import Shown, at_most_text, fitted_with_unit, read_length

INCH_MM = 25.4


@dataclass(frozen=True, slots=True)
class Kept:
    """What a board is kept for: one of the piece's stocks by name, or none; and its species."""

    stock: str | None
    species: str


def keys_of(timbers: Sequence[Timber], boards: Sequence[Kept]) -> dict[str, str]:
    """For each stock the key that its parts and its boards share.

    A stock is a key of its own, unless some board of its species names no stock: then thickness
    alone decides for the whole species, and its key is the species.

    Args:
        timbers: the piece's stocks.
        boards: what each is kept for.
    """
    open_species = {board.species for board in boards if board.stock is None}
    return {
        timber.name: timber.species.name if timber.species.name in open_species else timber.name
        for timber in timbers
    }


def is_thick_enough(measured: float, wanted: float) -> bool:
    """Whether a board of this thickness gives a stock, as it is or planed to it [mm].

    Args:
        measured: of the board [mm].
        wanted: of the stock [mm].
    """
    return measured - wanted >= -THINNER.value - 1e-9


def thickness_for_planner(each: BoardRead, timbers: Sequence[Timber], planing_loss: float) -> float:
    """The thickness that the planner holds a part plus the planing loss against [mm].

    A board as thick as one of its stocks, or thicker, has at least that stock's thickness with the
    loss added back: what it loses is what it is thicker, be that less than a rough board loses.

    Args:
        each: the board.
        timbers: the piece's stocks.
        planing_loss: from a rough board to a part [mm].
    """
    measured = each.board.thickness
    as_it_is = [
        timber.thickness_mm + planing_loss
        for timber in _served(each, timbers)
        if is_thick_enough(measured, timber.thickness_mm)
    ]
    return max([measured, *as_it_is])


def _served(each: BoardRead, timbers: Sequence[Timber]) -> list[Timber]:
    """The stocks that the board may be cut for."""
    if each.stock is not None:
        return [timber for timber in timbers if timber.name == each.stock]
    return [timber for timber in timbers if timber.species.name == each.board.species]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftAside:
    """A board that gives no part since it is too thin, and why, in the maker's unit."""

    name: str
    why: str


def left_aside(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], shown: Shown
) -> tuple[LeftAside, ...]:
    """Every board too thin for all that it is kept for, where another board of it will do.

    Args:
        boards: as measured.
        timbers: the piece's stocks.
        shown: how lengths are shown.
    """
    found = []
    for each in boards:
        thinnest = _thinnest(each, timbers)
        if thinnest is None:
            continue
        if is_thick_enough(each.board.thickness, thinnest.thickness_mm):
            continue
        if _is_given(boards, timbers, thinnest):
            measured = fitted_with_unit(each.board.thickness, shown)
            allowed = _allowed(thinnest, shown)
            found.append(LeftAside(name=each.board.name, why=f"it measures {measured}; {allowed}"))
    return tuple(found)


def thickness_problems(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], shown: Shown
) -> Iterator[Problem]:
    """A problem for each board too thin for a stock that no other board gives either.

    Args:
        boards: as measured.
        timbers: the piece's stocks.
        shown: how lengths are shown.
    """
    reached: dict[str, list[float]] = {}
    for each in boards:
        for timber in _served(each, timbers):
            reached.setdefault(timber.name, []).append(each.board.thickness)
        thinnest = _thinnest(each, timbers)
        if thinnest is None or _is_given(boards, timbers, thinnest):
            continue
        instead = _stock_instead(boards, timbers, thinnest, shown)
        yield Problem(
            parameter=f"{each.where[f'board {each.board.name!r}']} thickness",
            given=fitted_with_unit(each.board.thickness, shown),
            allowed=_allowed(thinnest, shown),
            why="a board thinner than the part cannot be planed to it",
            remedy=f"a board at least {fitted_with_unit(thinnest.thickness_mm, shown)} thick"
            f"{instead}",
        )
    for timber in timbers:
        measures, wanted = reached.get(timber.name, []), timber.thickness_mm
        if not measures or _is_named(boards, timber) or _is_given(boards, timbers, timber):
            continue
        least = fitted_with_unit(wanted, shown)
        yield Problem(
            parameter=f"boards for {timber.name!r} thickness",
            given=f"up to {fitted_with_unit(max(measures), shown)}",
            allowed=f"at least {least}",
            why="a board thinner than the part cannot be planed to it",
            remedy=f"a board of {timber.species.name} at least {least} thick",
        )


def _thinnest(each: BoardRead, timbers: Sequence[Timber]) -> Timber | None:
    """The thinnest stock that the board may be cut for."""
    return min(_served(each, timbers), key=lambda timber: timber.thickness_mm, default=None)


def _is_given(boards: Sequence[BoardRead], timbers: Sequence[Timber], timber: Timber) -> bool:
    """Whether some board gives the stock."""
    return any(
        timber in _served(each, timbers)
        and is_thick_enough(each.board.thickness, timber.thickness_mm)
        for each in boards
    )


def _allowed(timber: Timber, shown: Shown) -> str:
    return f"at least {fitted_with_unit(timber.thickness_mm, shown)} for {timber.name!r}"


def _stock_instead(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], timber: Timber, shown: Shown
) -> str:
    """The stock as thick as the thickest of its boards: what else would do when none gives it."""
    thickest = max(e.board.thickness for e in boards if timber in _served(e, timbers))
    figure = at_most_text(thickest, shown)
    if abs(thickest - read_length(figure)) > THINNER.value:  # the steps of the rule are too coarse
        figure = f"{thickest / INCH_MM:.3f} in" if shown.is_inch else f"{thickest:.1f} mm"
    return f"; or write {figure} for {timber.name!r} in Stock(thickness=...): its joints follow"


def _is_named(boards: Sequence[BoardRead], timber: Timber) -> bool:
    """Whether a board is kept for this very stock, and so was judged by itself."""
    return any(each.stock == timber.name for each in boards)
