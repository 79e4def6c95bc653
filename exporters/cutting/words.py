"""Trade words for a cutting plan, in the piece's unit: shared by sheets, tables and the report."""

from __future__ import annotations

import math
from collections.abc import Sequence

from exporters.cutting.steps import Guide, Held, SawStep
from exporters.no_break import NO_BREAK
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.boards.reading_wishes import MOST_ROUNDS, MOST_SECONDS
from furniture.shop.boards.wish_costs import WishCost
from furniture.shop.cutting.near_misses import NEAR_MM
from furniture.shop.cutting.plan import (
    CUBIC_METRES_IN_A_BOARD_FOOT,
    CutDirection,
    LeftOut,
    LeftOutReason,
    NearMiss,
    NearPlace,
    Purchase,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.values import CutPart, Zone, ZoneShows
from furniture.units import Shown, at_least_text, at_most_text, figure, fitted_with_unit, listed
from furniture.units.showing import is_rounded, without_mark

_MOST_NAMED = 6
_YARD_STEP_MM = 5.0
"""What lengths and widths to buy are rounded up to in millimetres [mm]. Own rule."""
_LONGER_SECONDS = 60.0
"""What is proposed where the clock ended a search [s]. Own rule."""


def stock_of(job: CuttingJob, key: str) -> str:
    """The stock that a key of the planner stands for; several are named together."""
    names = [job.stocks[part.name] for part in job.request.parts if part.species == key]
    return " / ".join(dict.fromkeys(names)) or key


def species_of(job: CuttingJob, key: str) -> str:
    """The species that a key of the planner stands for."""
    return job.species.get(key, key)


def copies_whole(text: str, job: CuttingJob) -> str:
    """The text with no break inside the names of copies in it, wherever its lines may end."""
    for mark in sorted({lot.mark for lot in job.lots if lot.mark}, key=len, reverse=True):
        text = text.replace(mark, mark.replace(" ", NO_BREAK))
    return text


def size(shown: Shown, *lengths: float) -> str:
    """Lengths in the shown unit with crosses between them, without the unit."""
    return " x ".join(figure(length, shown) for length in lengths)


def least_size(shown: Shown, *lengths: float) -> str:
    """The same of what must be there, rounded up: a sign of over or under would read as a sum."""
    step = shown.step_mm
    return size(shown, *(math.ceil(each / step - 1e-6) * step for each in lengths))


def _rough(shown: Shown, part: CutPart) -> str:
    """A rough size in words, as its sheet has it but for a sign of a little over or under."""
    sizes = (part.rough_length_mm, part.rough_width_mm)
    text = " x ".join(without_mark(figure(each, shown)) for each in sizes)
    return f"{text} {shown.unit.symbol} rough"


def common_lines(job: CuttingJob) -> tuple[str, ...]:
    """For each kind of common blank its rough size and how many parts come off it."""
    lines = []
    for part in job.request.parts:
        copy = job.copies[part.name][0]
        if copy.is_common:
            rough = _rough(job.shown, part)
            times = f", {part.quantity} of it" if part.quantity > 1 else ""
            lines.append(
                f"{part.name}{times}: {len(copy.stretches)} parts off one length of {rough}"
            )
    return tuple(lines)


def money(amount: float, currency: str) -> str:
    """An amount with its currency."""
    text = f"{amount:.2f}".removesuffix(".00")
    return f"{text} {currency}".strip()


def across(step: SawStep, held: Held) -> float:
    """The size [mm] that a cut gives a piece beside it: a rip the width, a crosscut the length."""
    return held.width_mm if step.cut.direction is CutDirection.RIP else held.length_mm


def held_size(step: SawStep, held: Held | None, shown: Shown) -> str:
    """A piece beside a cut: its name and its size across the cut; a dash where it is only dust."""
    return "-" if held is None else f"{held.name}: {figure(across(step, held), shown)}"


def setting(step: SawStep, shown: Shown) -> str:
    """What is set for a cut: the fence, the stop, or where to mark; or how much to plane off."""
    text = f"{step.guide.value} {figure(step.setting_mm, shown)}"
    return f"{text} off" if step.guide is Guide.PLANE else text


def zone_place(zone: Zone, shown: Shown) -> tuple[str, str]:
    """The zone's extent along the board and across it, as `from - to`."""
    extents = []
    for axis in range(2):
        values = [corner[axis] for corner in zone.outline]
        extents.append(f"{figure(min(values), shown)} to {figure(max(values), shown)}")
    return extents[0], extents[1]


def faces_told(zone: Zone) -> str:
    """The maker's words for a zone, and the face that it shows on where that is one alone."""
    face = {ZoneShows.BOTH: "", ZoneShows.UPPER: "upper face", ZoneShows.LOWER: "lower face"}
    return "; ".join(each for each in (face[zone.shows], zone.description) if each)


def unplaced_count(outcome: CuttingOutcome) -> int:
    """How many pieces have no place."""
    return sum(each.copies for each in outcome.unplaced)


def unplaced_heading(outcome: CuttingOutcome) -> str:
    """That parts have no place, in a line; empty when all have one."""
    count = unplaced_count(outcome)
    if not count:
        return ""
    named = [copy.name for each in outcome.unplaced for copy in outcome.missing(each.part)]
    names = ", ".join(named[:_MOST_NAMED])
    if len(named) > _MOST_NAMED:
        names += f" and {len(named) - _MOST_NAMED} more"
    return f"{count} {'part has' if count == 1 else 'parts have'} NO PLACE on these boards: {names}"


def unplaced_lines(outcome: CuttingOutcome) -> tuple[str, ...]:
    """For each part without a place, which rule blocked it and what board would do."""
    named = outcome.job.request.part_named
    return tuple(_why_unplaced(each, named[each.part], outcome) for each in outcome.unplaced)


def _missing(outcome: CuttingOutcome, each: Unplaced | LeftOut) -> str:
    """What is missing of a part: each copy by its name, a few of many."""
    return some_of([copy.name for copy in outcome.missing(each.part)], _MOST_NAMED)


def _why_unplaced(each: Unplaced, part: CutPart, outcome: CuttingOutcome) -> str:
    """Why a part has no place, and what board would do, in the shown unit."""
    job, shown = outcome.job, outcome.job.shown
    rough = _rough(shown, part)
    stock = job.stocks[part.name]
    by = some_of(each.blocked_by)
    reason = {
        UnplacedReason.NO_SPECIES: f"no board of {stock} is there",
        UnplacedReason.TOO_LONG: f"{rough}: no board is long enough",
        UnplacedReason.TOO_WIDE: f"{rough}: no board is wide enough",
        UnplacedReason.TOO_LARGE: f"{rough}: no board is both long and wide enough",
        UnplacedReason.GRAIN: f"{rough}: it fits across its grain only",
        UnplacedReason.NARROWS: f"{rough}: no board keeps that width over that length",
        UnplacedReason.FAULTS: f"{rough}: no clear place of that size; in the way: {by}",
        UnplacedReason.UNSAFE: f"{rough}: too short or narrow a piece at the saw (saw limit: {by})",
        UnplacedReason.MATCH: f"{rough}: no room that keeps its match {by}",
        UnplacedReason.STRIPS: f"{rough}: wider than its boards, and no room for every strip of it",
        UnplacedReason.NO_ROOM: f"{rough}: no room beside the other parts",
        UnplacedReason.TIME_UP: f"{rough}: no place was found in the time given",
        UnplacedReason.NOT_REACHED: f"{rough}: the time was up; board {by} is whole and would do",
    }[each.reason]
    if each.reason is UnplacedReason.NOT_REACHED:
        return f"{_missing(outcome, each)}: {reason}"
    nearest = [nearly(miss, shown) for miss in each.near]
    if nearest and each.reason in (UnplacedReason.TOO_LONG, UnplacedReason.TOO_WIDE):
        reason, nearest = f"{rough}: even {nearest[0]}", nearest[1:]
    near = "".join(f"; {text}" for text in nearest)
    wanted = each.would_do
    board = f"{least_size(shown, wanted.length_mm, wanted.width_mm)} {shown.unit.symbol}"
    thick = f"at least {_least_thick(part.thickness_mm, shown)} thick"
    return f"{_missing(outcome, each)}: {reason}{near}; a clear board of {board}, {thick}, would do"


def nearly(miss: NearMiss, shown: Shown) -> str:
    """By how much a place that all but takes a part is too small, and what of it is allowed."""
    sizes = ((miss.short_mm, "short"), (miss.narrow_mm, "narrow"))
    by = " and ".join(f"{at_least_text(mm, shown)} too {what}" for mm, what in sizes if mm > 0.0)
    text = f"{_NEAR[miss.place]} {miss.board} is {by}"
    if miss.place is NearPlace.AT_THE_SAW:
        return f"{text} to be held at the saw"
    if miss.allowed_mm <= 0.0 or miss.lacks_mm > NEAR_MM:
        return text
    return f"{text} at its rough width (allowed: {at_most_text(miss.allowed_mm, shown)})"


_NEAR = {
    NearPlace.BOARD: "board",
    NearPlace.CLEAR: "the largest clear place on board",
    NearPlace.OFFCUT: "an offcut of board",
    NearPlace.AT_THE_SAW: "board",
}


def in_strips_lines(outcome: CuttingOutcome) -> tuple[str, ...]:
    """For each part that is glued up, of how many strips, and what keeps it from being whole."""
    shown = outcome.job.shown
    return tuple(
        f"{each.part}: glued up from {each.strips} strips, as no board gives it whole"
        + "".join(f"; {nearly(miss, shown)}" for miss in each.near[:1])
        for each in outcome.in_strips
    )


def _least_thick(mm: float, shown: Shown) -> str:
    """A thickness [mm] that is enough: rounded up where no figure says it."""
    text = fitted_with_unit(mm, shown)
    return at_least_text(mm, shown) if is_rounded(text) else text


def left_out_lines(outcome: CuttingOutcome) -> tuple[str, ...]:
    """For each part cut only if it pays, the copies that are left out, and why; no failure."""
    job = outcome.job
    why = {
        LeftOutReason.NOT_WORTH_IT: "not worth a board",
        LeftOutReason.NO_ROOM: "no room",
    }
    lines = []
    for each in outcome.left_out:
        worth = money(each.worth, job.currency)
        lines.append(f"{_missing(outcome, each)} left out: {why[each.reason]}, worth {worth} each")
    return tuple(lines)


def some_of(names: Sequence[str], most: int = 3) -> str:
    """Names with commas and an `and`; of a long row the first few and how many more."""
    more = [f"{len(names) - most} more"] if len(names) > most else []
    return listed([*names[:most], *more])


def purchase_line(each: Purchase, job: CuttingJob) -> str:
    """What to ask for at the yard: species, quarters, board feet, volume, boards; or a sheet."""
    pieces: dict[str, int] = {}
    for board in each.pieces:
        text = _bought_size(job.shown, board.length_mm, board.width_mm)
        pieces[text] = pieces.get(text, 0) + 1
    boards = ", ".join(f"{count} of {text}" for text, count in pieces.items())
    named = f"{stock_of(job, each.species)}: {species_of(job, each.species)}"
    if each.species in job.sheets:
        thick = {fitted_with_unit(job.bought_thickness(one), job.shown) for one in each.pieces}
        return (
            f"{named}, {some_of(sorted(thick))} thick: {boards} {job.shown.unit.symbol} or larger"
        )
    feet = math.ceil(each.board_feet * 10 - 1e-6) / 10  # upwards: never too little wood
    return (
        f"{named} {each.thickness_quarters}/4, {feet:g} "
        f"board {'foot' if feet == 1 else 'feet'} "
        f"({each.cubic_metres:.4f} m3): {boards} {job.shown.unit.symbol} or larger, clear"
        + _for_faults(each)
    )


def _bought_size(shown: Shown, *lengths: float) -> str:
    """A size to ask for: yards cut to feet and inches, so in millimetres it is rounded up."""
    step = shown.step_mm if shown.is_inch else _YARD_STEP_MM
    return size(shown, *(math.ceil(each / step - 1e-6) * step for each in lengths))


def _for_faults(each: Purchase) -> str:
    """What to ask for when some of what is bought is lost to faults."""
    if each.waste_share <= 0:
        return ""
    feet = each.board_feet_with_waste
    return (
        f"; with {each.waste_share:.0%} lost to faults ask for {feet:g} "
        f"board {'foot' if feet == 1 else 'feet'} ({each.cubic_metres_with_waste:.4f} m3)"
    )


_OF_THE_PART_ALONE = frozenset(
    (
        UnplacedReason.NO_SPECIES, UnplacedReason.TOO_LONG, UnplacedReason.TOO_WIDE,
        UnplacedReason.TOO_LARGE, UnplacedReason.GRAIN, UnplacedReason.NARROWS,
        UnplacedReason.FAULTS, UnplacedReason.UNSAFE,
    )
)  # fmt: skip
"""Reasons that hold of a part with the boards to itself."""


def better_line(outcome: CuttingOutcome) -> str:
    """Whether a better plan of these boards may exist, and how to look longer."""
    plan = outcome.plan
    if plan is None:
        return ""
    proof = plan.proof
    if plan.unplaced:
        if proof.is_proven:
            return "No plan on these boards has a place for more."
        if all(each.reason in _OF_THE_PART_ALONE for each in plan.unplaced):
            return "More time would not help: what has no place has none even alone."
        most = round(proof.value - proof.bound)
        return f"A plan with a place for up to {most} more may exist{_more_time(outcome)}."
    if proof.is_proven:
        return f"No cheaper choice of these boards exists{_for_wishes(outcome)}."
    share = max(1, round(100.0 * proof.gap / (1.0 + proof.gap)))
    what = "cheaper" if plan.costs.total <= plan.costs.boards + 1e-6 else "better"
    return f"A plan up to {share} % {what} may exist{_more_time(outcome)}{_for_wishes(outcome)}."


def _for_wishes(outcome: CuttingOutcome) -> str:
    """That the wishes cost nothing, or that it is not known; empty where they cost something."""
    wishes, plan = outcome.wishes, outcome.plan
    if plan is None or not wishes.asked:
        return ""
    if not wishes.is_whole:
        return "; there was no time to find out what the wishes cost"
    if any(each.is_met for each in wishes.costs):
        return ""
    if wishes.is_nothing_certain and plan.proof.is_proven:
        return ", with the wishes or without"
    return "; without the wishes none was found either"


def wish_cost_lines(outcome: CuttingOutcome) -> tuple[str, ...]:
    """What each wish costs that is met and costs something."""
    return tuple(
        f"Wish that costs something: {each.wish}, {_taking(each, outcome.job)} more than without it"
        f"{'' if each.is_certain else ', by the best plans found'}."
        for each in outcome.wishes.costs
        if each.is_met
    )


def to_keep(outcome: CuttingOutcome, wish: str) -> str:
    """What a wish that is not met would take; empty where it was not looked at."""
    for each in outcome.wishes.costs:
        if each.wish == wish and not each.is_met:
            if each.copies <= 0:
                return f"keeping it takes {_taking(each, outcome.job)} more"
            return "it cannot be kept" if each.is_certain else "no plan was found that keeps it"
    return ""


def _taking(cost: WishCost, job: CuttingJob) -> str:
    """What a wish takes, in places, money, boards and wood."""
    found = []
    if cost.copies > 0:
        found.append(f"{cost.copies} {'part' if cost.copies == 1 else 'parts'} without a place")
    if cost.price > 0.0:
        found.append(money(round(cost.price, 2), job.currency))
    if cost.boards > 0:
        found.append(f"{cost.boards} {'board' if cost.boards == 1 else 'boards'}")
    if cost.wood_mm3 > 0.0:
        found.append(_volume(cost.wood_mm3, job.shown))
    return listed(found) or "nothing"


def _volume(mm3: float, shown: Shown) -> str:
    """Wood as a yard measures it, in the shown unit."""
    metres = mm3 * 1e-9
    if shown.is_inch:
        return f"{metres / CUBIC_METRES_IN_A_BOARD_FOOT:.1f} board feet"
    return f"{metres:.4f} m3"


def _more_time(outcome: CuttingOutcome) -> str:
    """What to write in the wishes so that a plan is looked for longer."""
    limits = outcome.job.request.limits
    if outcome.plan is not None and outcome.plan.is_cut_short:
        longer = max(_LONGER_SECONDS, 2.0 * limits.seconds)
        return f"; more time: seconds={longer:g}" if longer <= MOST_SECONDS else ""
    return f"; more rounds: rounds={limits.rounds + 2}" if limits.rounds + 2 <= MOST_ROUNDS else ""
