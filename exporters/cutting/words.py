"""Trade words for a cutting plan, in the piece's unit: shared by sheets, tables and the report."""

from __future__ import annotations

from furniture.shop.boards.job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import (
    CutDirection,
    NumberedCut,
    Purchase,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.values import CutPart, Zone, ZoneShows
from furniture.units import Shown, figure, figure_with_unit


def stock_of(job: CuttingJob, key: str) -> str:
    """The stock that a key of the planner stands for; several are named together."""
    names = [job.stocks[part.name] for part in job.request.parts if part.species == key]
    return " / ".join(dict.fromkeys(names)) or key


def species_of(job: CuttingJob, key: str) -> str:
    """The species that a key of the planner stands for."""
    return job.species.get(key, key)


def part_named(job: CuttingJob, name: str) -> CutPart:
    """The planner's part of that name.

    Raises:
        KeyError: there is none.
    """
    for part in job.request.parts:
        if part.name == name:
            return part
    raise KeyError(name)


def size(shown: Shown, *lengths: float) -> str:
    """Lengths in the shown unit with crosses between them, without the unit."""
    return " x ".join(figure(length, shown) for length in lengths)


def money(amount: float, currency: str) -> str:
    """An amount with its currency."""
    text = f"{amount:.2f}".removesuffix(".00")
    return f"{text} {currency}".strip()


def cut_leaves(cut: NumberedCut, shown: Shown) -> str:
    """What a cut leaves on its near and on its far side; a dash where that is only dust."""
    start, end = cut.workpiece.x, cut.workpiece.x_end
    if cut.direction is CutDirection.RIP:
        start, end = cut.workpiece.y, cut.workpiece.y_end
    sides = (cut.position - start, end - cut.position - cut.kerf)
    return " + ".join(figure(side, shown) if side > 0.05 else "-" for side in sides)


def zone_place(zone: Zone, shown: Shown) -> tuple[str, str]:
    """The zone's extent along the board and across it, as `from - to`."""
    extents = []
    for axis in range(2):
        values = [corner[axis] for corner in zone.outline]
        extents.append(f"{figure(min(values), shown)} to {figure(max(values), shown)}")
    return extents[0], extents[1]


def faces(zone: Zone) -> str:
    """The face that a zone shows on, in a word."""
    return {ZoneShows.BOTH: "both", ZoneShows.UPPER: "upper", ZoneShows.LOWER: "lower"}[zone.shows]


def why_unplaced(each: Unplaced, job: CuttingJob) -> str:
    """Why a part has no place, and what board would do, in the shown unit."""
    part, shown = part_named(job, each.part), job.shown
    rough = f"{size(shown, part.rough_length, part.rough_width)} {shown.unit.symbol} rough"
    stock = job.stocks[part.name]
    needs, most = (figure(v, shown) if v is not None else "" for v in (each.needs, each.most))
    unit, by = shown.unit.symbol, " and ".join(each.blocked_by)
    reason = {
        UnplacedReason.NO_SPECIES: f"no board of {stock} is there",
        UnplacedReason.TOO_THIN: f"every board of {stock} is too thin: "
        f"it needs {needs} {unit}, the thickest gives {most} {unit}",
        UnplacedReason.TOO_LONG: f"{rough}: the longest board gives {most} {unit}",
        UnplacedReason.TOO_WIDE: f"{rough}: the widest board gives {most} {unit}",
        UnplacedReason.TOO_LARGE: f"{rough}: no board is both long and wide enough",
        UnplacedReason.GRAIN: f"{rough}: it fits across its grain only",
        UnplacedReason.FAULTS: f"{rough}: no clear place of that size; in the way: {by}",
        UnplacedReason.UNSAFE: f"{rough}: too short or narrow a piece at the saw (saw limit: {by})",
        UnplacedReason.MATCH: f"{rough}: no room that keeps its match {by}",
        UnplacedReason.NO_ROOM: f"{rough}: no room beside the other parts",
    }[each.reason]
    wanted = each.would_do
    board = size(shown, wanted.length, wanted.width, wanted.thickness)
    copies = f"{each.copies} of " if part.quantity > 1 else ""
    return f"{copies}{each.part}: {reason}; a clear board of {board} {shown.unit.symbol} would do"


def purchase_line(each: Purchase, job: CuttingJob) -> str:
    """What to ask for at the yard: species, quarters, board feet, volume, boards."""
    pieces: dict[str, int] = {}
    for board in each.pieces:
        text = size(job.shown, board.length, board.width)
        pieces[text] = pieces.get(text, 0) + 1
    boards = ", ".join(f"{count} of {text}" for text, count in pieces.items())
    return (
        f"{stock_of(job, each.species)}: {species_of(job, each.species)} "
        f"{each.thickness_quarters}/4, {each.board_feet:g} "
        f"board {'foot' if each.board_feet == 1 else 'feet'} "
        f"({each.cubic_metres:.4f} m3): {boards} {job.shown.unit.symbol} or larger, clear"
    )


def proof_line(outcome: CuttingOutcome) -> str:
    """How good the plan is at least: value, bound and gap."""
    plan, job = outcome.plan, outcome.job
    if plan is None:
        return ""
    proof = plan.proof
    if proof.measure == "price":
        value, bound = money(proof.value, job.currency), money(proof.bound, job.currency)
    else:
        value, bound = f"{proof.value:g}", f"{proof.bound:g}"
    if proof.is_proven:
        return f"{proof.measure} {value}: proven best ({proof.kind.value})"
    return (
        f"{proof.measure} {value}; no plan does better than {bound} ({proof.kind.value}), "
        f"gap {proof.gap:.1%}"
    )


def why_no_cheaper(outcome: CuttingOutcome, most: int = 3) -> tuple[str, ...]:
    """What rules out cheaper choices, board by board; the first few."""
    if outcome.plan is None:
        return ()
    lines = []
    for each in outcome.plan.proof.conflicts[:most]:
        names = [name if count == 1 else f"{count} of {name}" for name, count in each.parts]
        kept = f" while {', '.join(each.matches)} is kept" if each.matches else ""
        lines.append(f"board {each.board} cannot hold {', '.join(names)} together{kept}")
    return tuple(lines)


def unit_of(job: CuttingJob) -> str:
    """The symbol of the shown unit."""
    return job.shown.unit.symbol


def with_unit(length: float, job: CuttingJob) -> str:
    """A length with its unit."""
    return figure_with_unit(length, job.shown)
