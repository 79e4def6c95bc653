"""Which boards give which stock: by name, or by species and thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.shop.boards.reading import BoardRead
from furniture.timber.stock import Timber
from furniture.units import Shown, figure_with_unit

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


def thickness_problems(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], planing_loss: float, shown: Shown
) -> Iterator[Problem]:
    """A problem for each board too thin for all it is kept for, and each stock that none gives.

    Args:
        boards: as measured.
        timbers: the piece's stocks.
        planing_loss: from a rough board to a part [mm].
        shown: how lengths are shown.
    """
    reached: dict[str, list[float]] = {}
    for each in boards:
        served = _served(each, timbers)
        for timber in served:
            reached.setdefault(timber.name, []).append(each.board.thickness)
        if not served:
            continue
        thinnest = min(served, key=lambda timber: timber.thickness_mm)
        measured, wanted = each.board.thickness, thinnest.thickness_mm
        if is_as_thick(measured, wanted) or measured >= wanted + planing_loss - 1e-9:
            continue
        least = figure_with_unit(wanted, shown)
        rough = figure_with_unit(wanted + planing_loss, shown)
        loss = figure_with_unit(planing_loss, shown)
        is_thinner = measured < wanted
        yield Problem(
            parameter=f"{each.where[f'board {each.board.name!r}']} thickness",
            given=figure_with_unit(measured, shown),
            allowed=f"{least} as it is for {thinnest.name!r}, or at least {rough} to be planed",
            why="a board thinner than the part cannot be planed to it"
            if is_thinner
            else f"planing both faces flat takes {loss} (wishes.saw.planing_loss)",
            remedy=f"a board that measures {least} as it is, or at least {rough} to be planed"
            if is_thinner
            else f"a board at least {rough} thick, or state a smaller planing loss",
        )
    for timber in timbers:
        measures, wanted = reached.get(timber.name, []), timber.thickness_mm
        is_given = any(
            is_as_thick(measured, wanted) or measured >= wanted + planing_loss - 1e-9
            for measured in measures
        )
        if is_given or not measures or _is_named(boards, timber):
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


def _is_named(boards: Sequence[BoardRead], timber: Timber) -> bool:
    """Whether a board is kept for this very stock, and so was judged by itself."""
    return any(each.stock == timber.name for each in boards)
