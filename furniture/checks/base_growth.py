"""The base drawn out so that a piece stands: how far, at which sides, and how far it may be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy
from furniture.checks.bodies import Body, Load
from furniture.checks.finding import Show
from furniture.checks.ground import (
    Demand,
    Ground,
    burdens_at,
    reserve_kgmm,
    worst_of,
)
from furniture.checks.support import Edge
from furniture.pieces import DrawnOut
from furniture.rules.design import MOST_GROWTH
from furniture.units.gravity import GRAVITY_M_S2

_FURTHER = {
    "front": "further forward",
    "back": "further back",
    "left": "further left",
    "right": "further right",
}


def base_growth_mm(
    piece: Body, loads: Sequence[Load], edge: Edge, demand: Demand, base_kg: float = 0.0
) -> float:
    """How far the edge must move outward [mm], the rest staying where it is; 0 if it stands.

    A base that is drawn out with its edge takes its own middle along by half as much.

    Args:
        piece: the empty piece
        loads: the loads that may stand on it; none for the empty case
        edge: the edge over which it would tip
        demand: what is asked
        base_kg: the mass of the base that is drawn out [kg]; what it gains in mass is not counted

    **Source:** statics; the reserve grows with the edge in straight pieces, solved by Newton.
    """
    share = 1.0 - base_kg / (2.0 * piece.mass_kg)
    own = (piece.mass_kg, demand.surplus_mm(piece, edge))
    burdens = burdens_at(loads, edge, demand)
    wanted = demand.moment_nmm / GRAVITY_M_S2
    growth = 0.0
    for _ in range(sum(len(group) for group in burdens) + 2):
        grown = (own[0], own[1] - (1.0 - share) * growth)
        missing = wanted - reserve_kgmm(grown, burdens, growth)
        if missing <= 1e-9:
            break
        working = own[0] * share + math.fsum(worst_of(group, growth)[0] for group in burdens)
        growth += missing / working
    return growth


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """How far the base must move out at some sides [mm], and at most may, and by which parameters.

    Without `words` nothing that the maker can change moves it.
    """

    sides: tuple[str, ...]
    needed_mm: float
    most_mm: float
    amount_mm: float
    words: str
    parameters: tuple[str, ...] = ()

    @property
    def remedy(self) -> Remedy:
        """The change that moves it."""
        return Remedy(
            change=Change.BASE, words=self.words, amount=self.amount_mm, unit="mm",
            enough=self.needed_mm, most=self.most_mm, parameters=self.parameters,
        )  # fmt: skip


def wider_base(
    ground: Ground, loads: Sequence[Load], demand: Demand, show: Show
) -> tuple[Growth, ...]:
    """How much further the base must reach at each edge that lacks something; none where none.

    Args:
        ground: the empty piece and its edges
        loads: the loads of the case
        demand: what is asked of every edge
        show: puts a length into the piece's unit
    """
    by_side: dict[str, tuple[float, float]] = {}
    for edge in ground.edges:
        growth = base_growth_mm(ground.piece, loads, edge, demand, ground.base_kg)
        if growth > 0.0:
            most = ground.rules[MOST_GROWTH] * ground.size_across(edge)
            known = by_side.get(edge.name, (0.0, most))
            by_side[edge.name] = (max(growth, known[0]), min(most, known[1]))
    if ground.drawn_out is None:
        return tuple(
            _growth_of_side(name, growth, most, show) for name, (growth, most) in by_side.items()
        )
    found = []
    for drawn in ground.drawn_out:
        own = [by_side.pop(side) for side in drawn.sides if side in by_side]
        if own:
            needed, most = max(growth for growth, _ in own), min(each for _, each in own)
            most = min(most, (drawn.most_mm - drawn.now_mm) / drawn.times)
            found.append(_growth_of_parameter(drawn, needed, most, show))
    return (
        *found,
        *(
            Growth(sides=(name,), needed_mm=growth, most_mm=0.0, amount_mm=0.0, words="")
            for name, (growth, _) in by_side.items()
        ),
    )


def _growth_of_side(side: str, needed_mm: float, most_mm: float, show: Show) -> Growth:
    amount = show.up(needed_mm)
    words = f"{show(amount)} {_FURTHER.get(side, side)}"
    return Growth(
        sides=(side,), needed_mm=needed_mm, most_mm=most_mm, amount_mm=amount, words=words
    )


def _growth_of_parameter(
    drawn: DrawnOut, needed_mm: float, most_mm: float, show: Show, *, is_most: bool = False
) -> Growth:
    """The parameter's new figure, rounded to a mark of a rule on the side that is enough."""
    step = show.up(1e-3)
    wanted = (drawn.now_mm + drawn.times * needed_mm) / step
    total = (math.floor(wanted + 1e-6) if is_most else math.ceil(wanted - 1e-6)) * step
    amount = (total - drawn.now_mm) / drawn.times
    return Growth(
        sides=drawn.sides, needed_mm=needed_mm, most_mm=most_mm, amount_mm=amount,
        words=f"{show(total)} {drawn.size}", parameters=(drawn.parameter,),
    )  # fmt: skip


def grown_parts(wider: Sequence[Growth]) -> tuple[Remedy, ...]:
    """The changes of those sides that the maker can move."""
    return tuple(each.remedy for each in wider if each.words)


def reaching(parts: tuple[Remedy, ...]) -> Remedy:
    """All sides moved out at once, as one change."""
    words = f"make the base {' and '.join(each.words for each in parts)}"
    if not all(each.parameters for each in parts):
        words = f"let the base reach {', '.join(each.words for each in parts)}"
    first = parts[0]
    return Remedy(
        change=Change.BASE, words=words, amount=first.amount, unit="mm", enough=first.enough,
        most=first.most, parts=parts,
    )  # fmt: skip


def grown_at_most(ground: Ground, growth: Growth, show: Show) -> Growth:
    """The same side moved out as far as it needs or may, whichever is less.

    Args:
        ground: the empty piece and its parameters
        growth: what its base needs there
        show: puts a length into the piece's unit
    """
    if growth.amount_mm <= growth.most_mm:
        return replace(growth, needed_mm=growth.amount_mm)
    if ground.drawn_out is None:
        amount = show.down(growth.most_mm)
        words = f"{show(amount)} {_FURTHER[growth.sides[0]]}"
        return replace(growth, amount_mm=amount, needed_mm=amount, words=words)
    drawn = next(each for each in ground.drawn_out if each.sides == growth.sides)
    most = _growth_of_parameter(drawn, growth.most_mm, growth.most_mm, show, is_most=True)
    return replace(most, needed_mm=most.amount_mm)
