"""Ways to begin: which sequences stay whole, and where parts with a fixed place are pinned."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

from furniture.shop.cutting.beds import Bed, FirstCut, carved, whole_beds
from furniture.shop.cutting.blanks import Blank, blanks_of, suits
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.preferences import pins_for
from furniture.shop.cutting.states import LaidBlank
from furniture.shop.cutting.values import CuttingRequest, MatchGroup, MatchRule
from furniture.shop.cutting.zones import (
    TOUCH,
    are_nearer,
    is_within,
    obstacles_for,
    overlap_area,
    usable_frame,
)

MOST_ARRANGEMENTS = 24
"""More beginnings than this are not tried; the plan is then only as good as those."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """A way to begin: blanks, those pinned, the beds left, and the first cut."""

    blanks: tuple[Blank, ...]
    pinned: tuple[LaidBlank, ...]
    beds: tuple[Bed, ...]
    first_cut: FirstCut
    joined: frozenset[int]


def arrangements_for(request: CuttingRequest) -> tuple[Arrangement, ...]:
    """All beginnings, the likeliest first."""
    sequences = {
        index: match
        for index, match in enumerate(request.matches)
        if match.rule is MatchRule.IN_SEQUENCE
    }
    musts = frozenset(index for index, match in sequences.items() if match.price is None)
    choices = [frozenset(sequences)]
    if musts != choices[0]:
        choices.append(musts)
    found: list[Arrangement] = []
    for joined in choices:
        blanks = blanks_of(request, joined)
        for pins in _pin_choices(request, blanks):
            for first_cut in (FirstCut.RIP, FirstCut.CROSSCUT):
                beds = _beds_around(request, pins, first_cut)
                if beds is None:
                    continue
                found.append(
                    Arrangement(
                        blanks=blanks,
                        pinned=pins,
                        beds=beds,
                        first_cut=first_cut,
                        joined=joined,
                    )
                )
    return tuple(found[:MOST_ARRANGEMENTS])


def _pin_choices(request: CuttingRequest, blanks: tuple[Blank, ...]) -> list[tuple[LaidBlank, ...]]:
    """Every choice of pins, one per copy that a fixing match names; none where that is allowed."""
    per_copy: list[list[LaidBlank | None]] = []
    for index, match in enumerate(request.matches):
        if not match.rule.fixes_place:
            continue
        for number, blank in enumerate(blanks):
            if index not in blank.groups:
                continue
            pins: list[LaidBlank | None] = list(_pins(request, index, number, blank))
            for _ in range(blank.quantity):
                per_copy.append([*pins, None])
    choices: list[tuple[LaidBlank, ...]] = []
    for choice in product(*per_copy):
        pins_chosen = tuple(pin for pin in choice if pin is not None)
        if _are_apart(pins_chosen, request.saw.kerf_mm):
            choices.append(pins_chosen)
        if len(choices) >= MOST_ARRANGEMENTS:
            break
    return choices


def _pins(request: CuttingRequest, match: int, number: int, blank: Blank) -> list[LaidBlank]:
    pins: list[LaidBlank] = []
    member = blank.members[0]
    for board_index, board in enumerate(request.boards):
        if not suits(board, member.part, request.saw):
            continue
        frame = usable_frame(board, request.saw)
        for exact in pins_for(request.matches[match], board, blank.length_mm, blank.width_mm):
            place = _off_thin_strips(exact, frame, request.saw.kerf_mm, request.matches[match])
            if not is_within(place, frame):
                continue
            for flipped in (False, True):
                barred = obstacles_for(board, member.part, request.saw, flipped=flipped)
                if any(overlap_area(outline, place) > TOUCH for outline in barred):
                    continue
                laid = LaidBlank(
                    blank=number,
                    board=board_index,
                    places=(place,),
                    turned=False,
                    flipped=flipped,
                )
                pins.append(laid)
                break
    return pins


def _off_thin_strips(
    place: Rectangle, frame: Rectangle, kerf: float, match: MatchGroup
) -> Rectangle:
    """The place moved within the tolerance so that no rip beside it leaves a thin strip."""
    if match.rule is not MatchRule.CENTRED_ON_FIGURE:
        return place
    span = frame.width_mm - place.width_mm
    centre = place.y_mm - frame.y_mm

    def is_thin(near: float) -> bool:
        return any(kerf + TOUCH < margin < 3 * kerf - TOUCH for margin in (near, span - near))

    options = [centre, kerf, 3 * kerf, 0.0, span - kerf, span - 3 * kerf, span]
    near = min(
        (o for o in options if abs(o - centre) <= match.tolerance_mm and 0 <= o <= span),
        key=lambda o: (is_thin(o), abs(o - centre)),
        default=centre,
    )
    return replace(place, y_mm=frame.y_mm + near)


def _are_apart(pins: tuple[LaidBlank, ...], kerf: float) -> bool:
    for index, first in enumerate(pins):
        for second in pins[:index]:
            if first.board == second.board and are_nearer(first.places[0], second.places[0], kerf):
                return False
    return True


def _beds_around(
    request: CuttingRequest, pins: tuple[LaidBlank, ...], first_cut: FirstCut
) -> tuple[Bed, ...] | None:
    beds = list(whole_beds(request))
    for pin in pins:
        place = pin.places[0]
        for number, bed in enumerate(beds):
            if bed.board == pin.board and is_within(place, bed.frame):
                beds[number : number + 1] = carved(bed, place, request.saw.kerf_mm, first_cut)
                break
        else:
            return None
    return tuple(beds)
