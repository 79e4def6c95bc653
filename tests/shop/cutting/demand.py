"""Whether a plan cuts what is wanted, counted from what a part is: one whole piece, or every strip.

Reads only the values of requests and plans.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from itertools import accumulate

from furniture.shop.cutting.plan import CuttingPlan, Placement
from furniture.shop.cutting.values import CutPart, CuttingRequest

CLOSE = 1e-4
"""Lengths this close are equal [mm]."""


def faults_of_demand(request: CuttingRequest, plan: CuttingPlan) -> Iterator[str]:
    """Copies too many, too few, cut twice, or glued up from too little."""
    missing = Counter({entry.part: entry.copies for entry in plan.unplaced})
    spared = Counter({entry.part: entry.copies for entry in plan.left_out})
    copies: dict[str, dict[int, list[Placement]]] = defaultdict(lambda: defaultdict(list))
    for board_plan in plan.boards:
        for placement in board_plan.placements:
            copies[placement.part][placement.copy].append(placement)
    for part in request.parts:
        mine = copies.pop(part.name, {})
        if sorted(mine) != list(range(1, len(mine) + 1)):
            yield f"{part.name}: copies are numbered {sorted(mine)}"
        said = missing[part.name] + spared[part.name]
        if len(mine) + said != part.quantity:
            yield f"{part.name}: {len(mine)} cut, {said} said to be missing, {part.quantity} wanted"
        if (spared if part.worth is None else missing)[part.name]:
            yield f"{part.name}: worth {part.worth}, but told as if it had another"
        for copy, pieces in mine.items():
            yield from _copy(part, f"{part.name} {copy}", pieces)
            if any(piece.strip for piece in pieces):
                yield from _glued_for_nothing(request, part, f"{part.name} {copy}")
    for name in copies:
        yield f"{name}: nobody wants it"
    worths = {part.name: part.worth for part in request.parts}
    for entry in plan.left_out:
        if entry.worth != worths.get(entry.part) or entry.copies < 1:
            yield f"{entry.part}: {entry.copies} left out at {entry.worth} each"


def worth_left_out(request: CuttingRequest, plan: CuttingPlan) -> float:
    """What copies that are nowhere in the plan would have been worth [money], counted anew."""
    lost = 0.0
    for part in request.parts:
        if part.worth is not None:
            cut = {p.copy for board in plan.boards for p in board.placements if p.part == part.name}
            lost += part.worth * (part.quantity - len(cut))
    return lost


def _copy(part: CutPart, name: str, pieces: Sequence[Placement]) -> Iterator[str]:
    """One copy: cut once and whole, or from strips that make up its width when glued."""
    strips = sorted((piece.strip, _across(piece)) for piece in pieces)
    numbers = [strip for strip, _ in strips]
    if numbers == [0]:
        return
    if len(numbers) < 2 or numbers != list(range(1, len(numbers) + 1)):
        yield f"{name}: made of strips {numbers}"
        return
    rule = part.glue_up
    if rule is None:
        yield f"{name}: glued up without leave"
        return
    lost = rule.jointing_allowance_mm
    glued = [width - 2 * lost for _, width in strips]
    glued[0] += lost - part.width_allowance_mm / 2
    glued[-1] += lost - part.width_allowance_mm / 2
    if abs(sum(glued) - part.width_mm) > CLOSE:
        yield f"{name}: its strips make {sum(glued)} mm of {part.width_mm}"
    if min(glued) < rule.narrowest_strip_mm - CLOSE:
        yield f"{name}: a strip of {min(glued)} mm"
    for joint in list(accumulate(glued))[:-1]:
        if any(low + CLOSE < joint < high - CLOSE for low, high in rule.keep_clear_mm):
            yield f"{name}: a joint at {joint} mm in a cut"


def _glued_for_nothing(request: CuttingRequest, part: CutPart, name: str) -> Iterator[str]:
    """A copy of strips though a board is wide enough from end to end to give it whole."""
    saw, least = request.saw, part.least_width_allowance_mm
    wide = part.width_mm + (part.width_allowance_mm if least is None else least)
    long = part.length_mm + part.length_allowance_mm
    for board in request.boards:
        suits = board.species == part.species and (
            board.thinnest_mm - CLOSE <= part.thickness_mm
            <= board.thickness_mm - saw.planing_loss_mm + CLOSE
        )  # fmt: skip
        kept = min(station.width_mm for station in board.stations) - 2 * saw.edge_trim_mm
        if suits and kept >= wide + CLOSE and board.length_mm - 2 * saw.end_trim_mm >= long + CLOSE:
            yield f"{name}: glued up, though board {board.name} keeps {kept} mm"


def _across(piece: Placement) -> float:
    return piece.place.length_mm if piece.is_turned else piece.place.width_mm
