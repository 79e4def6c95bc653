"""What is said above a board's drawing: which board it is, and how to read drawing and lists."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from itertools import pairwise

from exporters.cutting.board_tables import lies_alike, lists_of
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.plan_mark import plan_mark
from exporters.cutting.planing import narrow_of, planing_of
from exporters.cutting.steps import Guide, saw_steps
from exporters.cutting.words import copies_whole, money, stock_of
from furniture.shop.boards.copies import Laid
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.settling import sequence_kept
from furniture.shop.cutting.values import Board, MatchRule
from furniture.units import Shown, figure_with_unit, fitted_with_unit, listed
from furniture.units.showing import is_rounded, without_mark


def heading_of(outcome: CuttingOutcome, board: Board) -> str:
    """Which board it is, of what wood, how thick, and its price."""
    job = outcome.job
    planned = job.request.board_named[board.name]
    text = (
        f"Board {board.name}: {stock_of(job, planned.species)}, measured "
        f"{fitted_with_unit(board.thickness_mm, job.shown)} thick"
    )
    price = f", {money(board.price, job.currency)}" if board.price else ""
    return f"{text}{price}"


def notes_of(
    outcome: CuttingOutcome, board: Board, plan: BoardPlan, called: Called = BY_MARKS_ALONE
) -> list[str]:
    """What a maker must know before the first cut, what is the same of every board among it."""
    own = own_notes_of(outcome, board, plan, called)
    return [*own, *general_notes(outcome, [(board, plan)], called)]


def own_notes_of(
    outcome: CuttingOutcome, board: Board, plan: BoardPlan, called: Called = BY_MARKS_ALONE
) -> list[str]:
    """What must be known of this board before its first cut."""
    steps = called.steps_on(board.name)
    notes = [steps] if steps else []
    notes += [*planing_of(outcome, plan), *narrow_of(outcome, plan)]
    notes += [f"{board.description}."] if board.description else []
    notes.append(f"Yield {plan.yield_share:.0%}.")
    alike = lies_alike(outcome, plan, called)
    notes += [alike] if alike and alike != _usual(outcome, called) else []
    notes += _sequences(outcome, plan)
    notes += _commons(outcome, plan)
    return [copies_whole(each, outcome.job) for each in notes]


def general_notes(
    outcome: CuttingOutcome,
    boards: Sequence[tuple[Board, BoardPlan]],
    called: Called = BY_MARKS_ALONE,
) -> list[str]:
    """How the drawings and lists of these boards are read, and what a job file calls the cuts by
    where no work sheet does."""
    shown = outcome.job.shown
    notes = [
        f"Kerf {figure_with_unit(outcome.job.request.saw.kerf_mm, shown)}. "
        "Grain along the board; parts at rough size. Cut in order. Set: on the piece in hand, from "
        "the side named to the blade. Listed pieces are as wide as they get, offcuts by their "
        "letter as far as they are square."
    ]
    lie, usual = [lies_alike(outcome, plan, called) for _, plan in boards], _usual(outcome, called)
    if usual and usual in lie:
        is_all = all(each == usual for each in lie)
        told = usual if is_all else f"Where nothing else is said: {usual}"
        notes.append(copies_whole(told, outcome.job))
    if any(step.guide is Guide.PLANE for _, plan in boards for step in saw_steps(outcome, plan)):
        notes.append("Plane: so little is taken off with the plane or the jointer, not the saw.")
    if any(
        is_rounded(cell)
        for board, plan in boards
        for table in lists_of(outcome, board, plan)
        for row in table.rows
        for cell in row
    ):
        notes.append("+ after a figure: a little over that mark of the rule; -: a little under.")
    if not called.steps:
        notes.append(f'In a job file the cuts are those of work = "{plan_mark(outcome)}".')
    return notes


def _usual(outcome: CuttingOutcome, called: Called) -> str:
    """How the parts of most boards lie, so that a sheet says it once for all of these; empty where
    no two boards have it in common."""
    told = Counter(lies_alike(outcome, plan, called) for plan in outcome.used)
    del told[""]
    ((usual, count),) = told.most_common(1) or (("", 0),)
    return usual if count > 1 else ""


def _commons(outcome: CuttingOutcome, plan: BoardPlan) -> list[str]:
    """For the common blanks of this board what comes off them, and that they stay whole till then;
    of those that are alike, once."""
    found: dict[str, list[str]] = defaultdict(list)
    for placement in plan.placements:
        laid = outcome.laid(placement)
        if not laid.copy.is_common:
            continue
        shown, told = outcome.job.shown, ""
        if len({each.part for each in laid.copy.stretches}) > 1:
            names = [each.name for each in laid.copy.stretches]
            told += (
                f" From the left, as on their sheets: {', '.join(names)}; "
                f"{_lost(laid, shown)} of the grain lost between two."
            )
        if laid.common is not None and laid.common.held_mm > 0.0:
            told += " The rest at its right end is what it is held by."
        found[told].append(outcome.name_of(placement))
    return [
        f"Whole for now, sawn apart later where dashed: {listed(names)}.{told}"
        for told, names in found.items()
    ]


def _lost(laid: Laid, shown: Shown) -> str:
    """The most that the saw takes between two parts of a common blank."""
    pairs = pairwise(laid.copy.stretches)
    most = max(after.at_mm - before.at_mm - before.length_mm for before, after in pairs)
    return without_mark(figure_with_unit(most, shown))  # among words it would be a minus


def _sequences(outcome: CuttingOutcome, plan: BoardPlan) -> list[str]:
    """For each sequence that comes whole off this board, its parts in order."""
    job = outcome.job
    found = []
    for match in job.request.matches:
        if match.rule is not MatchRule.IN_SEQUENCE:
            continue
        run = sequence_kept(match, plan.placements, job.request.saw.kerf_mm)
        names = [outcome.name_of(placement) for placement in run]
        if names:
            found.append(
                f"{match.name}: {', '.join(names)} come off one strip in this order, as on "
                "their sheets; mark them across the cuts before they are parted."
            )
    return found
