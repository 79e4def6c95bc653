"""Do my boards do: what is said of a plan, what weighs most first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from exporters.cutting.planing import narrow_of, planing_of
from exporters.cutting.words import (
    better_line,
    common_lines,
    in_strips_lines,
    left_out_lines,
    money,
    purchase_line,
    to_keep,
    unplaced_count,
    unplaced_heading,
    unplaced_lines,
    wish_cost_lines,
)
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.boards.shares import shares_of
from furniture.shop.cutting.preferences import lacks_board, lacks_zone
from furniture.units import listed


def _lacking(outcome: CuttingOutcome, name: str) -> str:
    """That a match needs what no board has, and what that is; empty where it does not."""
    request = outcome.job.request
    match = next(each for each in request.matches if each.name == name)
    if lacks_zone(match, request.boards):
        return f": no board has {match.zone or f'a zone marked {match.zone_kind.value!r}'}"
    if lacks_board(match, request):
        return ": its parts are of different stocks, and no board suits all"
    return ""


def _shares(outcome: CuttingOutcome) -> list[str]:
    """What the wood of each piece costs, where there are several and boards have prices."""
    job = outcome.job
    if len(job.lots) < 2 or not outcome.boards_cost:
        return []
    lines = []
    for each in shares_of(outcome):
        price = money(round(each.price, 2), job.currency)
        own = money(round(each.price / each.copies, 2), job.currency)
        is_several = f", {each.copies} of them at {own}" if each.copies > 1 else ""
        lines.append(f"Wood of {each.piece.name}: {price}{is_several}, waste shared")
    return lines


def boards_answer(outcome: CuttingOutcome) -> tuple[str, ...]:
    """Whether the boards do, then what follows from it, what weighs most first."""
    if outcome.plan is None:
        return (
            "No boards are given.",
            *(f"To buy: {line}" for line in _to_buy(outcome)),
            *common_lines(outcome.job),
        )
    missing = unplaced_count(outcome)
    return (
        f"No. {unplaced_heading(outcome)}." if missing else f"Yes. {_from_boards(outcome, 'All')}",
        *(f"To buy: {line}" for line in _to_buy(outcome)),
        *([_from_boards(outcome, "The other")] if missing and outcome.used else []),
        *_shares(outcome),
        *unplaced_lines(outcome),
        *in_strips_lines(outcome),
        *left_out_lines(outcome),
        *outcome.job.remarks,
        *(f"Board {each.name} is not used: {each.why}." for each in outcome.job.left_aside),
        *_wishes_not_met(outcome),
        *wish_cost_lines(outcome),
        better_line(outcome),
        *(
            f"Board {board.board}: {line}"
            for board in outcome.used
            for line in (*planing_of(outcome, board), *narrow_of(outcome, board))
        ),
        *common_lines(outcome.job),
    )


def _from_boards(outcome: CuttingOutcome, which: str) -> str:
    """What comes from which boards, for how much, and what is over."""
    plan, job = outcome.plan, outcome.job
    if plan is None or not plan.boards:
        return "Nothing needs a board."
    begun = [each.board for each in plan.boards]
    aside = {each.name for each in job.left_aside}
    over = [each.name for each in job.boards if each.name not in (*begun, *aside)]
    count = sum(len(each.copy.instances) for each in outcome.blanks)
    cost = outcome.boards_cost
    price = f"{money(cost, job.currency)}, " if cost else ""
    kept = sum(1 for board in plan.boards for each in board.offcuts if each.is_usable)
    whole = f"; {_boards(over)} {'stays' if len(over) == 1 else 'stay'} whole" if over else ""
    parts = "The one part comes" if count == 1 else f"{which} {count} parts come"
    return (
        f"{parts} from {_boards(begun)} "
        f"({price}{100 * plan.yield_share:.0f} % used){whole}; {kept or 'no'} "
        f"{'offcut' if kept <= 1 else 'offcuts'} worth keeping."
    )


def _boards(names: Sequence[str]) -> str:
    return f"{'board' if len(names) == 1 else 'boards'} {listed(names)}"


def _to_buy(outcome: CuttingOutcome) -> list[str]:
    return [purchase_line(each, outcome.job) for each in outcome.to_buy]


def _wishes_not_met(outcome: CuttingOutcome) -> Iterator[str]:
    """The matches that are not kept, or not by all, with what keeping them is worth."""
    plan, job = outcome.plan, outcome.job
    for each in () if plan is None else plan.matches:
        if each.is_kept and each.odd_one is None:
            continue
        worth = f"worth {money(each.price_paid, job.currency)}" if each.price_paid else ""
        told = "; ".join(filter(None, (worth, to_keep(outcome, each.group))))
        worth = f" ({told})" if told else ""
        if each.is_kept:
            yield f'Wish "{each.group}" met for all but {each.odd_one}{worth}.'
        else:
            yield f"Wish not met: {each.group}{worth}{_lacking(outcome, each.group)}."
