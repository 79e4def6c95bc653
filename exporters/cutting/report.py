"""What the terminal says of a plan: yield, what has no place and why, what to buy, the proof."""

from __future__ import annotations

from exporters.cutting.planing import narrow_of, planing_of
from exporters.cutting.record import boards_cost
from exporters.cutting.words import (
    common_lines,
    left_out_heading,
    left_out_lines,
    money,
    price_parts,
    proof_line,
    purchase_line,
    spared_lines,
    why_no_cheaper,
)
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.boards.shares import shares_of
from furniture.shop.cutting.preferences import lacks_board, lacks_zone


def left_out_report(outcome: CuttingOutcome) -> tuple[str, ...]:
    """What has no place, which rule blocked it and what board would do; empty when all have one.

    Args:
        outcome: the plan and its job.
    """
    heading = left_out_heading(outcome)
    return (heading, *(f"  {line}" for line in left_out_lines(outcome))) if heading else ()


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
    if len(job.lots) < 2 or not boards_cost(outcome):
        return []
    lines = []
    for each in shares_of(outcome):
        price = money(round(each.price, 2), job.currency)
        own = money(round(each.price / each.copies, 2), job.currency)
        is_several = f", {each.copies} of them at {own}" if each.copies > 1 else ""
        lines.append(f"  wood of {each.piece.name}: {price}{is_several}, waste shared")
    return lines


def cutting_lines(outcome: CuttingOutcome) -> tuple[str, ...]:
    """The lines to print.

    Args:
        outcome: the plan and its job.
    """
    job, plan = outcome.job, outcome.plan
    lines = [f"Board {each.name} is LEFT ASIDE: {each.why}" for each in job.left_aside]
    if plan is None:
        lines.append("Cutting: no boards given. To buy, clear, before anything for faults:")
    else:
        begun = ", ".join(each.board for each in plan.boards) or "none"
        cost = boards_cost(outcome)
        price = f" ({money(cost, job.currency)})" if cost else ""
        kept = sum(1 for board in plan.boards for each in board.offcuts if each.is_usable)
        lines.append(
            f"Cutting: boards {begun}{price}; yield {plan.yield_share:.0%}; "
            f"{kept} {'offcut' if kept == 1 else 'offcuts'} to keep"
        )
        for each in plan.matches:
            if each.is_kept and each.odd_one is None:
                continue
            word = f"kept, {each.odd_one} stays out" if each.is_kept else "not kept"
            word += _lacking(outcome, each.group)
            paid = f" (price {money(each.price_paid, job.currency)})" if each.price_paid else ""
            lines.append(f"  match {each.group}: {word}{paid}")
        lines += [f"  {line}" for line in common_lines(job)]
        lines += [f"  {line}" for line in spared_lines(outcome)]
        lines += _shares(outcome)
        lines += [f"  {line}" for line in (proof_line(outcome), price_parts(outcome)) if line]
        lines += [f"    because {reason}" for reason in why_no_cheaper(outcome)]
        lines += [
            f"  board {board.board}: {line}"
            for board in plan.boards
            for line in (*planing_of(outcome, board), *narrow_of(outcome, board))
        ]
        if outcome.to_buy:
            lines.append("  to buy for these:")
    lines += [f"  {purchase_line(each, job)}" for each in outcome.to_buy]
    if plan is None:
        lines += [f"  in them {line}" for line in common_lines(job)]
    return tuple(lines)
