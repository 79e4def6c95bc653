"""Which boards give which stock: by name, or by species and thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.shop.boards.reading import BoardRead
from furniture.timber.stock import THINNEST_MM, Timber
from furniture.units import Shown, at_least_text, at_most_text, fitted_with_unit, read_length

INCH_MM = 25.4

_TINY_MM = 1e-9


def keys_of(timbers: Sequence[Timber], boards: Sequence[BoardRead]) -> dict[str, str]:
    """For each stock the key that its parts and its boards share.

    A stock is a key of its own, unless some board of its species names no stock: then thickness
    alone decides for the whole species, and its key is the species.
    """
    open_species = {each.board.species for each in boards if each.stock is None}
    return {
        timber.name: timber.species.name if timber.species.name in open_species else timber.name
        for timber in timbers
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftAside:
    """A board that gives no part since its thickness serves none, and why, in the maker's unit."""

    name: str
    why: str


@dataclass(frozen=True, slots=True)
class Planed:
    """A board as it would be planed to the thickness of a stock.

    most_mm: planed off a board, None where it does not matter how much.
    """

    board: BoardRead
    stock: Timber
    most_mm: float | None

    @property
    def off_mm(self) -> float:
        """What is planed off; below nought where the board is the thinner of the two."""
        return self.board.board.thickness_mm - self.stock.thickness_mm

    @property
    def is_thin(self) -> bool:
        """Whether the board is thinner than the stock by more than counts as none."""
        return self.off_mm < -self.board.thinner_mm - _TINY_MM

    @property
    def is_given(self) -> bool:
        """Whether the board gives the stock, as it is or with no more planed off than is wished."""
        return not self.is_thin and not self._is_planed_too_much

    @property
    def _is_planed_too_much(self) -> bool:
        return self.most_mm is not None and self.off_mm > self.most_mm + _TINY_MM

    def allowed(self, shown: Shown) -> str:
        """The thickness that would do, on the side that the board is off it."""
        if self.is_thin or self.most_mm is None:
            return f"at least {fitted_with_unit(self.stock.thickness_mm, shown)}"
        return f"at most {at_most_text(self.stock.thickness_mm + self.most_mm, shown)}"

    def why(self, shown: Shown) -> str:
        """The reason for what is allowed."""
        if self.is_thin or self.most_mm is None:
            return "a board thinner than the part cannot be planed to it"
        return f"no more than {at_most_text(self.most_mm, shown)} is to be planed off a board"

    def more_planed(self, shown: Shown) -> str:
        """The figure with which just this board would be planed."""
        return (
            f"write most_planed='{at_least_text(self.off_mm, shown)}' in SawSetUp, or leave it out"
        )


@dataclass(frozen=True, slots=True)
class Thicknesses:
    """The boards of a job beside the stocks that they may be cut for.

    most_planed_mm: off a board, None where it does not matter how much.
    """

    boards: Sequence[BoardRead]
    stocks: Sequence[Timber]
    most_planed_mm: float | None = None

    def for_planner(self, each: BoardRead, planing_loss_mm: float) -> float:
        """The thickness that the planner holds a part plus the planing loss against [mm].

        A board as thick as one of its stocks, or thicker, has at least that stock's thickness with
        the loss added back: it loses what it is thicker, be that less than a rough board loses.

        Args:
            planing_loss_mm: from a rough board to a part.
        """
        served = [one for one in self._of(each) if not one.is_thin]
        as_it_is = (one.stock.thickness_mm + planing_loss_mm for one in served)
        return max([each.board.thickness_mm, *as_it_is])

    def left_aside(self, shown: Shown) -> tuple[LeftAside, ...]:
        """Every board whose thickness serves nothing it is kept for, where other boards will do."""
        found = []
        for each in self.boards:
            nearest = self._nearest(each)
            if nearest is None or nearest.is_given or not self._is_given(nearest.stock):
                continue
            measured = fitted_with_unit(each.board.thickness_mm, shown)
            allowed = f"{nearest.allowed(shown)} for {nearest.stock.name!r}"
            found.append(LeftAside(name=each.board.name, why=f"it measures {measured}; {allowed}"))
        return tuple(found)

    def problems(self, shown: Shown) -> Iterator[Problem]:
        """One for each board too thin or too thick for a stock that no other board gives either."""
        told: set[str] = set()
        for each in self.boards:
            nearest = self._nearest(each)
            if nearest is None or self._is_given(nearest.stock):
                continue
            told.add(nearest.stock.name)
            yield Problem(
                parameter=f"{each.where[f'board {each.board.name!r}']} thickness",
                given=fitted_with_unit(each.board.thickness_mm, shown),
                allowed=f"{nearest.allowed(shown)} for {nearest.stock.name!r}",
                why=nearest.why(shown),
                remedy=self._remedy(nearest, shown),
            )
        for stock in self.stocks:
            kept = list(self._to(stock))
            is_judged = stock.name in told or any(e.stock == stock.name for e in self.boards)
            if kept and not is_judged and not self._is_given(stock):
                yield self._none_gives(stock, kept, shown)

    def _none_gives(self, stock: Timber, kept: Sequence[Planed], shown: Shown) -> Problem:
        """That none of the boards for any stock of a species gives this one."""
        thick = [each for each in kept if not each.is_thin]
        last = min(thick, key=_off) if thick else max(kept, key=_off)
        measured = fitted_with_unit(last.board.board.thickness_mm, shown)
        least = fitted_with_unit(stock.thickness_mm, shown)
        return Problem(
            parameter=f"boards for {stock.name!r} thickness",
            given=f"{'from' if thick else 'up to'} {measured}",
            allowed=last.allowed(shown),
            why=last.why(shown),
            remedy=last.more_planed(shown)
            if thick
            else f"take a board of {stock.species.name} at least {least} thick",
        )

    def _of(self, each: BoardRead) -> list[Planed]:
        """The board beside each stock that it may be cut for."""
        return [
            Planed(each, stock, self.most_planed_mm)
            for stock in self.stocks
            if (stock.name == each.stock if each.stock is not None
                else stock.species.name == each.board.species)
        ]  # fmt: skip

    def _to(self, stock: Timber) -> Iterator[Planed]:
        """Each board that may be cut for the stock beside it."""
        return (one for each in self.boards for one in self._of(each) if one.stock is stock)

    def _nearest(self, each: BoardRead) -> Planed | None:
        """The board beside one that it gives of the stocks it may be cut for, else the nearest."""
        served = self._of(each)
        given = next((one for one in served if one.is_given), None)
        return given or min(served, key=lambda one: abs(one.off_mm), default=None)

    def _is_given(self, stock: Timber) -> bool:
        """Whether some board gives the stock."""
        return any(each.is_given for each in self._to(stock))

    def _remedy(self, nearest: Planed, shown: Shown) -> str:
        if not nearest.is_thin:
            return nearest.more_planed(shown)
        least = fitted_with_unit(nearest.stock.thickness_mm, shown)
        return f"take a board at least {least} thick{self._stock_instead(nearest.stock, shown)}"

    def _stock_instead(self, stock: Timber, shown: Shown) -> str:
        """The stock as thick as the thickest of its boards: what else would do if none gives it."""
        last = max(self._to(stock), key=_off).board
        thickest = last.board.thickness_mm
        figure = at_most_text(thickest, shown)
        if abs(thickest - read_length(figure)) > last.thinner_mm:  # the rule's steps are too coarse
            figure = f"{thickest / INCH_MM:.3f} in" if shown.is_inch else f"{thickest:.1f} mm"
        if thickest < THINNEST_MM:
            return ""  # no stock is so thin: the figure itself is a slip
        return f"; or write {figure} for {stock.name!r} in Stock(thickness=...): its joints follow"


def _off(each: Planed) -> float:
    return each.off_mm
