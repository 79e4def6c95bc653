"""Which boards give which stock: by name, or by species and thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.shop.boards.reading import BoardRead
from furniture.timber.stock import THINNEST_MM, Timber
from furniture.units import Shown, at_least_text, at_most_text, fitted_with_unit, read_length

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
    """
    open_species = {board.species for board in boards if board.stock is None}
    return {
        timber.name: timber.species.name if timber.species.name in open_species else timber.name
        for timber in timbers
    }


def is_thick_enough(measured: float, wanted: float, thinner: float) -> bool:
    """Whether a board of this thickness gives a stock, as it is or planed to it [mm].

    Args:
        measured: of the board [mm].
        wanted: of the stock [mm].
        thinner: that still counts as none [mm].
    """
    return measured - wanted >= -thinner - 1e-9


def thickness_for_planner(each: BoardRead, timbers: Sequence[Timber], planing_loss: float) -> float:
    """The thickness that the planner holds a part plus the planing loss against [mm].

    A board as thick as one of its stocks, or thicker, has at least that stock's thickness with the
    loss added back: what it loses is what it is thicker, be that less than a rough board loses.

    Args:
        planing_loss: from a rough board to a part [mm].
    """
    measured = each.board.thickness_mm
    as_it_is = [
        timber.thickness_mm + planing_loss
        for timber in _served(each, timbers)
        if is_thick_enough(measured, timber.thickness_mm, each.thinner_mm)
    ]
    return max([measured, *as_it_is])


def _served(each: BoardRead, timbers: Sequence[Timber]) -> list[Timber]:
    """The stocks that the board may be cut for."""
    if each.stock is not None:
        return [timber for timber in timbers if timber.name == each.stock]
    return [timber for timber in timbers if timber.species.name == each.board.species]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftAside:
    """A board that gives no part since its thickness serves none, and why, in the maker's unit."""

    name: str
    why: str


def left_aside(
    boards: Sequence[BoardRead],
    timbers: Sequence[Timber],
    shown: Shown,
    most_planed: float | None = None,
) -> tuple[LeftAside, ...]:
    """Every board whose thickness serves nothing it is kept for, where other boards will do.

    Args:
        most_planed: off a board [mm], None where it does not matter how much.
    """
    found = []
    for each in boards:
        stock = _nearest(each, timbers, most_planed)
        if stock is None or _gives(each, stock, most_planed):
            continue
        if _is_given(boards, timbers, stock, most_planed):
            measured = fitted_with_unit(each.board.thickness_mm, shown)
            allowed = f"{_allowed(each, stock, shown, most_planed)} for {stock.name!r}"
            found.append(LeftAside(name=each.board.name, why=f"it measures {measured}; {allowed}"))
    return tuple(found)


def thickness_problems(
    boards: Sequence[BoardRead],
    timbers: Sequence[Timber],
    shown: Shown,
    most_planed: float | None = None,
) -> Iterator[Problem]:
    """A problem for each board too thin or too thick for a stock that no other board gives either.

    Args:
        most_planed: off a board [mm], None where it does not matter how much.
    """
    reached: dict[str, list[BoardRead]] = {}
    told: set[str] = set()
    for each in boards:
        for timber in _served(each, timbers):
            reached.setdefault(timber.name, []).append(each)
        stock = _nearest(each, timbers, most_planed)
        if stock is None or _is_given(boards, timbers, stock, most_planed):
            continue
        told.add(stock.name)
        yield Problem(
            parameter=f"{each.where[f'board {each.board.name!r}']} thickness",
            given=fitted_with_unit(each.board.thickness_mm, shown),
            allowed=f"{_allowed(each, stock, shown, most_planed)} for {stock.name!r}",
            why=_why(each, stock, shown, most_planed),
            remedy=_remedy(boards, timbers, each, stock, shown, most_planed),
        )
    for timber in timbers:
        kept = reached.get(timber.name, [])
        if not kept or timber.name in told or _is_named(boards, timber):
            continue
        if _is_given(boards, timbers, timber, most_planed):
            continue
        thick = [each for each in kept if not _is_thin(each, timber)]
        last = min(thick, key=_thickness) if thick else max(kept, key=_thickness)
        measured, least = (
            fitted_with_unit(each, shown) for each in (_thickness(last), timber.thickness_mm)
        )
        yield Problem(
            parameter=f"boards for {timber.name!r} thickness",
            given=f"{'from' if thick else 'up to'} {measured}",
            allowed=_allowed(last, timber, shown, most_planed),
            why=_why(last, timber, shown, most_planed),
            remedy=_more_planed(last, timber, shown)
            if thick
            else f"take a board of {timber.species.name} at least {least} thick",
        )


def _thickness(each: BoardRead) -> float:
    return each.board.thickness_mm


def _gives(each: BoardRead, timber: Timber, most_planed: float | None) -> bool:
    """Whether the board gives the stock, as it is or with no more planed off than is wished."""
    over = each.board.thickness_mm - timber.thickness_mm
    return not _is_thin(each, timber) and (most_planed is None or over <= most_planed + 1e-9)


def _is_thin(each: BoardRead, timber: Timber) -> bool:
    return not is_thick_enough(each.board.thickness_mm, timber.thickness_mm, each.thinner_mm)


def _nearest(
    each: BoardRead, timbers: Sequence[Timber], most_planed: float | None
) -> Timber | None:
    """Of the stocks that the board may be cut for one that it gives, else the nearest to it."""
    served = _served(each, timbers)
    given = (timber for timber in served if _gives(each, timber, most_planed))
    found = next(given, None)
    if found is not None:
        return found
    return min(
        served, key=lambda timber: abs(each.board.thickness_mm - timber.thickness_mm), default=None
    )


def _is_given(
    boards: Sequence[BoardRead],
    timbers: Sequence[Timber],
    timber: Timber,
    most_planed: float | None,
) -> bool:
    """Whether some board gives the stock."""
    return any(
        timber in _served(each, timbers) and _gives(each, timber, most_planed) for each in boards
    )


def _allowed(each: BoardRead, timber: Timber, shown: Shown, most_planed: float | None) -> str:
    if _is_thin(each, timber) or most_planed is None:
        return f"at least {fitted_with_unit(timber.thickness_mm, shown)}"
    return f"at most {at_most_text(timber.thickness_mm + most_planed, shown)}"


def _why(each: BoardRead, timber: Timber, shown: Shown, most_planed: float | None) -> str:
    if _is_thin(each, timber) or most_planed is None:
        return "a board thinner than the part cannot be planed to it"
    return f"no more than {at_most_text(most_planed, shown)} is to be planed off a board"


def _remedy(
    boards: Sequence[BoardRead],
    timbers: Sequence[Timber],
    each: BoardRead,
    timber: Timber,
    shown: Shown,
    most_planed: float | None,
) -> str:
    if not _is_thin(each, timber):
        return _more_planed(each, timber, shown)
    return (
        f"take a board at least {fitted_with_unit(timber.thickness_mm, shown)} thick"
        f"{_stock_instead(boards, timbers, timber, shown)}"
    )


def _more_planed(each: BoardRead, timber: Timber, shown: Shown) -> str:
    """The figure with which just this board would be planed."""
    over = each.board.thickness_mm - timber.thickness_mm
    return f"write most_planed='{at_least_text(over, shown)}' in SawSetUp, or leave it out"


def _stock_instead(
    boards: Sequence[BoardRead], timbers: Sequence[Timber], timber: Timber, shown: Shown
) -> str:
    """The stock as thick as the thickest of its boards: what else would do when none gives it."""
    last = max((e for e in boards if timber in _served(e, timbers)), key=_thickness)
    thickest = last.board.thickness_mm
    figure = at_most_text(thickest, shown)
    if (
        abs(thickest - read_length(figure)) > last.thinner_mm
    ):  # the steps of the rule are too coarse
        figure = f"{thickest / INCH_MM:.3f} in" if shown.is_inch else f"{thickest:.1f} mm"
    if thickest < THINNEST_MM:
        return ""  # no stock is so thin: the figure itself is a slip
    return f"; or write {figure} for {timber.name!r} in Stock(thickness=...): its joints follow"


def _is_named(boards: Sequence[BoardRead], timber: Timber) -> bool:
    """Whether a board is kept for this very stock, and so was judged by itself."""
    return any(each.stock == timber.name for each in boards)
