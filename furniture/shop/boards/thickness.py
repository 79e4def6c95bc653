"""Which boards give which stock: by name, or by species and thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.shop.boards.reading import BoardRead
from furniture.timber.stock import Timber
from furniture.units import Shown, at_most_text, figure_with_unit, read_length

INCH_MM = 25.4
THINNER_MM, THICKER_MM = 0.1, 0.5
"""A board so little thinner or thicker than its stock is used as it is [mm].

Own rule: within what a tape and a passing plane make of one figure."""


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


def is_as_thick(measured: float, wanted: float) -> bool:
    """Whether a board of this thickness is used without planing [mm].

    Args:
        measured: of the board [mm].
        wanted: of the stock [mm].
    """
    return -THINNER_MM - 1e-9 <= measured - wanted <= THICKER_MM + 1e-9


def thickness_for_planner(each: BoardRead, timbers: Sequence[Timber], planing_loss: float) -> float:
    """The thickness that the planner holds a part plus the planing loss against [mm].

    A board that already measures one of its stocks has that stock's thickness with the loss added
    back; a rough one has what was measured.

    Args:
        each: the board.
        timbers: the piece's stocks.
        planing_loss: from a rough board to a part [mm].
    """
    measured = each.board.thickness
    as_it_is = [
        timber.thickness_mm + planing_loss
        for timber in _served(each, timbers)
        if is_as_thick(measured, timber.thickness_mm)
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
    boards: Sequence[BoardRead], timbers: Sequence[Timber], planing_loss: float, shown: Shown
) -> tuple[LeftAside, ...]:
    """Every board too thin for all that it is kept for, where another board of it will do.

    Args:
        boards: as measured.
        timbers: the piece's stocks.
        planing_loss: from a rough board to a part [mm].
        shown: how lengths are shown.
    """
    found = []
    for each in boards:
        thinnest = _thinnest(each, timbers)
        if thinnest is None or _gives(each, thinnest, planing_loss):
            continue
        if _is_given(boards, timbers, thinnest, planing_loss):
            measured = figure_with_unit(each.board.thickness, shown)
            allowed = _allowed(thinnest, planing_loss, shown)
            found.append(LeftAside(name=each.board.name, why=f"it measures {measured}; {allowed}"))
    return tuple(found)


def thickness_problems(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], planing_loss: float, shown: Shown
) -> Iterator[Problem]:
    """A problem for each board too thin for a stock that no other board gives either.

    Args:
        boards: as measured.
        timbers: the piece's stocks.
        planing_loss: from a rough board to a part [mm].
        shown: how lengths are shown.
    """
    reached: dict[str, list[float]] = {}
    for each in boards:
        for timber in _served(each, timbers):
            reached.setdefault(timber.name, []).append(each.board.thickness)
        thinnest = _thinnest(each, timbers)
        if thinnest is None or _is_given(boards, timbers, thinnest, planing_loss):
            continue
        measured, wanted = each.board.thickness, thinnest.thickness_mm
        rough = figure_with_unit(wanted + planing_loss, shown)
        loss = figure_with_unit(planing_loss, shown)
        is_thinner = measured < wanted
        instead = _stock_instead(boards, timbers, thinnest, shown)
        yield Problem(
            parameter=f"{each.where[f'board {each.board.name!r}']} thickness",
            given=figure_with_unit(measured, shown),
            allowed=_allowed(thinnest, planing_loss, shown),
            why="a board thinner than the part cannot be planed to it"
            if is_thinner
            else f"planing both faces flat takes {loss} (wishes.saw.planing_loss)",
            remedy=f"a board that measures {figure_with_unit(wanted, shown)} as it is, or at least "
            f"{rough} to be planed{instead}"
            if is_thinner
            else f"a board at least {rough} thick, or state a smaller planing loss{instead}",
        )
    for timber in timbers:
        measures, wanted = reached.get(timber.name, []), timber.thickness_mm
        if not measures or _is_named(boards, timber):
            continue
        if _is_given(boards, timbers, timber, planing_loss):
            continue
        rough = figure_with_unit(wanted + planing_loss, shown)
        yield Problem(
            parameter=f"boards for {timber.name!r} thickness",
            given=f"up to {figure_with_unit(max(measures), shown)}",
            allowed=f"{figure_with_unit(wanted, shown)} as it is, or at least {rough} to be planed",
            why="a board thinner than the part cannot be planed to it",
            remedy=f"a board of {timber.species.name} that measures "
            f"{figure_with_unit(wanted, shown)} as it is, or at least {rough} to be planed",
        )


def _thinnest(each: BoardRead, timbers: Sequence[Timber]) -> Timber | None:
    """The thinnest stock that the board may be cut for."""
    return min(_served(each, timbers), key=lambda timber: timber.thickness_mm, default=None)


def _gives(each: BoardRead, timber: Timber, planing_loss: float) -> bool:
    """Whether the board is as thick as the stock, or enough thicker to be planed to it."""
    measured, wanted = each.board.thickness, timber.thickness_mm
    return is_as_thick(measured, wanted) or measured >= wanted + planing_loss - 1e-9


def _is_given(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], timber: Timber, planing_loss: float
) -> bool:
    """Whether some board gives the stock."""
    return any(
        timber in _served(each, timbers) and _gives(each, timber, planing_loss) for each in boards
    )


def _allowed(timber: Timber, planing_loss: float, shown: Shown) -> str:
    least = figure_with_unit(timber.thickness_mm, shown)
    rough = figure_with_unit(timber.thickness_mm + planing_loss, shown)
    return f"{least} as it is for {timber.name!r}, or at least {rough} to be planed"


def _stock_instead(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], timber: Timber, shown: Shown
) -> str:
    """The stock as thick as the thickest of its boards: what else would do when none gives it."""
    thickest = max(e.board.thickness for e in boards if timber in _served(e, timbers))
    figure = at_most_text(thickest, shown)
    if not is_as_thick(thickest, read_length(figure)):  # the steps of the rule are too coarse
        figure = f"{thickest / INCH_MM:.3f} in" if shown.is_inch else f"{thickest:.1f} mm"
    return f"; or write {figure} for {timber.name!r} in Stock(thickness=...): its joints follow"


def _is_named(boards: Sequence[BoardRead], timber: Timber) -> bool:
    """Whether a board is kept for this very stock, and so was judged by itself."""
    return any(each.stock == timber.name for each in boards)
