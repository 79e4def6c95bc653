"""The best plan so far, and whether a finished packing makes a better one."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.shop.cutting.arrangements import Arrangement
from furniture.shop.cutting.beam import Finished
from furniture.shop.cutting.packing import Packer
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.settling import (
    Settled,
    SettledBoard,
    costs_of,
    outcomes_of,
    placements_of,
    settled_boards,
    smallest_within,
    whole_copies,
)
from furniture.shop.cutting.states import State, laid_in_order
from furniture.shop.cutting.values import CuttingRequest, MatchRule


@dataclass(frozen=True, slots=True)
class BestPlan:
    rank: tuple[float, ...]
    missing: int
    price: float
    settled: Settled

    @property
    def is_complete(self) -> bool:
        """Whether every copy that must have a place has one."""
        return self.missing == 0


def better(
    request: CuttingRequest,
    arrangement: Arrangement,
    packer: Packer,
    entry: Finished,
    best: BestPlan | None,
) -> BestPlan | None:
    missed = _prices_missed(request, arrangement, entry.state)
    left, area, price, waste = entry.rank
    if best is not None and (left, area, price + missed, waste) >= best.rank:
        return best
    laid = placements_of(request, packer.blanks, laid_in_order(entry.state))
    placements = whole_copies(request, laid)
    known: dict[tuple[str, tuple[Placement, ...]], SettledBoard] = {}
    settled = settled_boards(request, placements, known)
    while settled is not None and settled.unsafe is not None:
        dropped = smallest_within(placements, settled.unsafe)
        placements = whole_copies(request, [p for p in placements if p is not dropped])
        settled = settled_boards(request, placements, known)
    musts = {part.name for part in request.parts if part.is_must}
    left += sum(p.part in musts for p in laid) - sum(p.part in musts for p in placements)
    area += sum(p.place.area_mm2 for p in laid if p.part in musts)
    area -= sum(p.place.area_mm2 for p in placements if p.part in musts)
    if settled is None:
        return best
    if request.has_extras:
        missed = costs_of(request, placements, outcomes_of(request, placements)).total - price
    rank = (left, area, price + missed, waste)
    if best is not None and rank >= best.rank:
        return best
    return BestPlan(rank, int(left), price + missed, settled)


def _prices_missed(request: CuttingRequest, arrangement: Arrangement, state: State) -> float:
    """The price of sequences that this arrangement does not keep whole."""
    return sum(
        match.price or 0.0
        for index, match in enumerate(request.matches)
        if match.rule is MatchRule.IN_SEQUENCE and index not in arrangement.joined
    )
