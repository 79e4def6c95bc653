"""cutting.csv: on every board its cuts in order, then the parts, then the offcuts."""

from __future__ import annotations

from exporters.cutting.words import cut_leaves, why_unplaced
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan, Rectangle
from furniture.units import Shown, figure

CUTTING_HEADER = (
    "board", "what", "number", "name", "at", "x", "y", "length", "width", "unit", "show face",
    "note",
)  # fmt: skip


def cutting_rows(outcome: CuttingOutcome) -> list[tuple[str, ...]]:
    """The rows of the table, lengths in the shown unit.

    A cut's `at` is from the board's end for a crosscut and from its straight edge for a rip, to the
    kerf's nearer side; x, y, length and width are the piece in hand. Parts without a place come
    last, without a board.

    Args:
        outcome: the plan and its job.
    """
    rows: list[tuple[str, ...]] = []
    for plan in outcome.used:
        rows += _board_rows(outcome, plan)
    if outcome.plan is not None:
        for number, each in enumerate(outcome.plan.unplaced, start=1):
            note = why_unplaced(each, outcome.job)
            rows.append(_row("", "no place", number, each.part, "", None, outcome.job.shown, note))
    return rows


def _board_rows(outcome: CuttingOutcome, plan: BoardPlan) -> list[tuple[str, ...]]:
    shown, name = outcome.job.shown, plan.board
    rows = []
    for cut in plan.cuts:
        at = figure(cut.position, shown)
        note = f"leaves {cut_leaves(cut, shown)}"
        rows.append(
            _row(name, "cut", cut.number, cut.direction.value, at, cut.workpiece, shown, note)
        )
    for number, placement in enumerate(plan.placements, start=1):
        face = "down" if placement.is_flipped else "up"
        note = "turned across the grain" if placement.is_turned else ""
        label = outcome.name_of(placement)
        rows.append(_row(name, "part", number, label, "", placement.place, shown, note, face))
    for number, offcut in enumerate((o for o in plan.offcuts if o.is_usable), start=1):
        rows.append(_row(name, "offcut", number, "keep", "", offcut.place, shown, ""))
    for number, offcut in enumerate((o for o in plan.offcuts if not o.is_usable), start=1):
        rows.append(_row(name, "waste", number, "waste", "", offcut.place, shown, ""))
    return rows


def _row(
    board: str,
    what: str,
    number: int,
    name: str,
    at: str,
    place: Rectangle | None,
    shown: Shown,
    note: str,
    face: str = "",
) -> tuple[str, ...]:
    sizes = ["", "", "", ""]
    if place is not None:
        sizes = [figure(v, shown) for v in (place.x, place.y, place.length, place.width)]
    return (board, what, str(number), name, at, *sizes, shown.unit.symbol, face, note)
