"""The plan read back in the maker's names: which instance lies where, and what to buy."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.shop.boards.choosing import best_plan
from furniture.shop.boards.copies import Copy, Laid
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.shopping import shopping_list
from furniture.shop.boards.wish_costs import NO_WISH_COSTS, WishCosts, wish_costs
from furniture.shop.cutting import Progress
from furniture.shop.cutting.plan import (
    BoardPlan,
    CuttingPlan,
    InStrips,
    LeftOut,
    Offcut,
    Placement,
    Purchase,
    Rectangle,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.settling import sequence_kept
from furniture.shop.cutting.tree import is_usable
from furniture.shop.cutting.values import KEPT_OFF_KINDS, Board, BoardEnd, Saw
from furniture.shop.cutting.zones import (
    TOUCH,
    bounds_of,
    end_trim_of,
    kept_off,
    overlap_area,
    width_at,
)

PLAN_SHARE = 0.85
"""Of the time that the maker gives, for the plan; in what is left it is found out what the wishes
cost. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CuttingOutcome:
    """A cutting plan with its job; equal to none but itself.

    Args:
        job: what was asked.
        plan: the answer; none when there are no boards.
        to_buy: boards for what has no place and must have one.
        copies: what each copy of a part becomes, by part and copy.
        wishes: what they cost.
    """

    job: CuttingJob
    plan: CuttingPlan | None
    to_buy: tuple[Purchase, ...]
    copies: Mapping[tuple[str, int], Copy]
    wishes: WishCosts = NO_WISH_COSTS

    def laid(self, placement: Placement) -> Laid:
        """A placement of the plan with the instances that come off it."""
        return Laid(placement=placement, copy=self.copies[placement.part, placement.copy])

    @property
    def blanks(self) -> tuple[Laid, ...]:
        """Everything that is cut, board by board, with the instances that come off it."""
        return tuple(self.laid(each) for board in self.used for each in board.placements)

    def name_of(self, placement: Placement) -> str:
        """What a placement is called: its instance, with the strip's number when it is glued up;
        a common blank by its own name."""
        name = self.copies[placement.part, placement.copy].name
        return f"{name}, strip {placement.strip}" if placement.strip else name

    @property
    def used(self) -> tuple[BoardPlan, ...]:
        """The boards that are begun."""
        return () if self.plan is None else self.plan.boards

    @property
    def unplaced(self) -> tuple[Unplaced, ...]:
        """What must have a place and has none; nothing where there is no plan."""
        return () if self.plan is None else self.plan.unplaced

    def missing(self, part: str) -> tuple[Copy, ...]:
        """The copies of a planner's part that lie on no board."""
        laid = {copy.instances for (name, _), copy in self.copies.items() if name == part}
        return tuple(each for each in self.job.copies[part] if each.instances not in laid)

    def missing_instances(self, part: str) -> tuple[str, ...]:
        """The instances of a planner's part that lie on no board."""
        return tuple(name for copy in self.missing(part) for name in copy.instances)

    @property
    def boards_cost(self) -> float:
        """The price of the boards that are begun [money]."""
        return sum(self.job.board_named[each.board].price for each in self.used)

    @property
    def left_out(self) -> tuple[LeftOut, ...]:
        """What is cut only if it pays, and is not."""
        return () if self.plan is None else self.plan.left_out

    @property
    def in_strips(self) -> tuple[InStrips, ...]:
        """What is glued up."""
        return () if self.plan is None else self.plan.in_strips


def outcome_of(
    job: CuttingJob, on_progress: Callable[[Progress], bool] | None = None
) -> CuttingOutcome:
    """The plan for the job, or what to buy when there are no boards.

    The job in it may have fewer common blanks than the one given: those that pay.

    Args:
        on_progress: told after every round; False stops with the best plan so far.

    Raises:
        DesignError: the job cannot be planned.
    """
    seconds = job.request.limits.seconds
    if not job.has_boards:
        musts = tuple(part for part in job.request.parts if part.is_must)
        asked = replace(job.request, parts=musts)
        return CuttingOutcome(job=job, plan=None, to_buy=shopping_list(asked, seconds), copies={})
    began = time.monotonic()
    job, found = best_plan(job, on_progress, PLAN_SHARE * seconds)
    plan = with_sound_offcuts(found, job)
    took = time.monotonic() - began
    to_buy, copies = _missing(job, plan, seconds - took), copies_of(job, plan)
    wishes = wish_costs(job, plan, took, began + seconds - time.monotonic(), on_progress)
    return CuttingOutcome(job=job, plan=plan, to_buy=to_buy, copies=copies, wishes=wishes)


def _missing(job: CuttingJob, plan: CuttingPlan, seconds: float) -> tuple[Purchase, ...]:
    """What to buy for the copies that no board has a place for, together and not one by one."""
    copies = {
        each.part: each.copies
        for each in plan.unplaced
        if each.reason is not UnplacedReason.NOT_REACHED
    }
    parts = tuple(
        replace(part, quantity=copies[part.name])
        for part in job.request.parts
        if part.name in copies
    )
    return shopping_list(replace(job.request, parts=parts, matches=()), seconds)


def with_sound_offcuts(plan: CuttingPlan, job: CuttingJob) -> CuttingPlan:
    """The plan with every offcut no wider than its board is there, and judged anew.

    Args:
        plan: whose offcuts may reach past the edge of a tapering board.
        job: knows the boards and what is worth keeping.
    """
    boards = job.board_named
    return replace(
        plan,
        boards=tuple(
            replace(
                each,
                offcuts=tuple(
                    _sound(offcut, boards[each.board], job.request.saw) for offcut in each.offcuts
                ),
            )
            for each in plan.boards
        ),
    )


def _sound(offcut: Offcut, board: Board, saw: Saw) -> Offcut:
    """The offcut as far as it is sound: worth keeping by what is clear of it, its faults named."""
    place = offcut.place
    length = (
        min(place.x_end_mm, board.length_mm - end_trim_of(board, BoardEnd.FAR, saw)) - place.x_mm
    )
    if length <= 0:
        return replace(offcut, is_usable=False)
    marks = [
        place.x_mm,
        place.x_end_mm,
        *(s.at_mm for s in board.stations if place.x_mm < s.at_mm < place.x_end_mm),
    ]
    top = min(place.y_end_mm, *(width_at(board, x) for x in marks))
    sound = replace(place, length_mm=length, width_mm=max(top - place.y_mm, 0.0))
    faults = [
        zone
        for zone in board.zones
        if zone.kind in KEPT_OFF_KINDS and overlap_area(zone.outline, sound) > TOUCH
    ]
    boxes = [bounds_of(kept_off(zone.outline, saw.off_faults_mm)) for zone in faults]
    return replace(
        offcut,
        place=sound,
        is_usable=offcut.is_usable and any(is_usable(c, saw) for c in _clear(sound, boxes)),
        holds=tuple(zone.name for zone in faults),
    )


def _clear(whole: Rectangle, faults: Sequence[Rectangle]) -> Iterator[Rectangle]:
    """Stretches of the whole between its faults: as wide as it is, then as long as it is."""
    x, y = whole.x_mm, whole.y_mm
    for fault in [*sorted(faults, key=lambda each: each.x_mm), None]:
        end = whole.x_end_mm if fault is None else fault.x_mm
        yield replace(whole, x_mm=x, length_mm=max(end - x, 0.0))
        x = x if fault is None else max(x, fault.x_end_mm)
    for fault in [*sorted(faults, key=lambda each: each.y_mm), None]:
        end = whole.y_end_mm if fault is None else fault.y_mm
        yield replace(whole, y_mm=y, width_mm=max(end - y, 0.0))
        y = y if fault is None else max(y, fault.y_end_mm)


def copies_of(job: CuttingJob, plan: CuttingPlan) -> dict[tuple[str, int], Copy]:
    """What each copy of a part becomes: in a kept sequence by its place, else in order."""
    placements = [p for board in plan.boards for p in board.placements]
    found: dict[tuple[str, int], Copy] = {}
    for match in job.request.matches:
        order = job.sequences.get(match.name)
        if order is None:
            continue
        run = sequence_kept(match, placements, job.request.saw.kerf_mm)
        for placement, copy in zip(run, order, strict=False):
            found[placement.part, placement.copy] = copy
    taken = {copy.instances for copy in found.values()}
    for part, copies in job.copies.items():
        left = [each for each in copies if each.instances not in taken]
        for number in sorted({p.copy for p in placements if p.part == part}):
            if (part, number) not in found and left:
                found[part, number] = left.pop(0)
    return found
