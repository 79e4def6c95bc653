"""Half-made packings and every way to add one blank to them.

A packing fills beds in strips across v, each strip in sections along u, each section in a column.
Later stages of cutting follow from that order, so whatever comes out can be sawn.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

from furniture.shop.cutting.beds import Bed, FirstCut, Ground, Grounds, Pose
from furniture.shop.cutting.blanks import Blank
from furniture.shop.cutting.preferences import odd_name, price_of_place, settles, zones_meant
from furniture.shop.cutting.states import LaidBlank, State, Trail
from furniture.shop.cutting.values import CuttingRequest, MatchRule, Stages
from furniture.shop.cutting.zones import TOUCH, bounds_of

BOARDS_TRIED = 4
"""How many different unopened beds are tried for the next blank."""

VAST, TRIED = 150, 20_000
"""Of more blanks that belong together with no others a bed is filled as long as anything fits; and
so many are tried in all, so of 200 blanks 100 kinds that fit for each place, so that the first plan
is there in time. Own rule."""


class Packer:
    """Adds blanks to states for one request, one set of beds and one first cut."""

    def __init__(
        self,
        request: CuttingRequest,
        blanks: tuple[Blank, ...],
        beds: tuple[Bed, ...],
        first_cut: FirstCut,
    ) -> None:
        self.request = request
        self.blanks = blanks
        self.grounds = Grounds(request, blanks, beds, first_cut)
        parts = request.part_named
        self._odd_names = [odd_name(match, parts) for match in request.matches]
        self._zones_wanted = [
            frozenset(
                name
                for index in blank.groups
                for board in request.boards
                for name, _ in zones_meant(request.matches[index], board)
                if request.matches[index].rule.asks_for_zone
            )
            for blank in blanks
        ]
        self._has_aims = [
            bool(blank.groups) or any(m.part.wants is not None for m in blank.members)
            for blank in blanks
        ]
        count = sum(blank.quantity for blank in blanks)
        self._is_vast = count > VAST and not any(self._has_aims)
        self._kinds_tried = max(1, TRIED // max(1, count)) if self._is_vast else count
        self._along = first_cut is FirstCut.RIP
        self._worth = [blank.worth for blank in blanks]
        self.musts = tuple(n for n, blank in enumerate(blanks) if blank.is_must)

    def start(self, pinned: tuple[LaidBlank, ...]) -> State | None:
        """The empty packing with the pinned blanks laid; None when they break a must."""
        left = tuple(blank.quantity for blank in self.blanks)
        homes = (None,) * len(self.request.matches)
        state = State(left=left, price=self.still_to_win(left), homes=homes)
        for laid in pinned:
            after = self._with_laid(state, laid)
            if after is None:
                return None
            area = sum(place.area_mm2 for place in laid.places)
            state = replace(after, closed_area_mm2=after.closed_area_mm2 + area)
        return state

    def has_extras(self) -> bool:
        """Whether some blanks are cut only if it pays."""
        return len(self.musts) < len(self.blanks)

    def with_musts_alone(self, state: State) -> State:
        """The packing with nothing left to lay but what must have a place."""
        left = tuple(n if i in self.musts else 0 for i, n in enumerate(state.left))
        return replace(state, left=left)

    def still_to_win(self, left: tuple[int, ...]) -> float:
        """What all that is left to lay would take off the price at most [money]."""
        return sum(n * worth for n, worth in zip(left, self._worth, strict=True) if worth)

    def has_all_musts(self, state: State) -> bool:
        """Whether all that must have a place has one."""
        return not any(state.left[n] for n in self.musts)

    def waste(self, state: State) -> float:
        """Area behind the front that is no part [mm^2]."""
        area = state.closed_area_mm2
        if state.ground >= 0:
            ground = self.grounds[state.ground]
            area += state.strip_start_mm * ground.u_size_mm
            area += state.section_start_mm * state.strip_height_mm
            area += state.section_length_mm * (state.column_front_mm - state.strip_start_mm)
        return area - state.laid_area_mm2

    def children(self, state: State, is_over: Callable[[], bool]) -> Iterator[State]:
        """Every state with one more blank laid.

        Args:
            is_over: whether to look at no further bed.
        """
        found_here: set[int] = set()
        if state.ground >= 0:
            ground = self.grounds[state.ground]
            for pose in ground.poses:
                if not state.left[pose.blank]:
                    continue
                for child in self._in_open_bed(state, ground, pose):
                    found_here.add(pose.blank)
                    yield child
                if len(found_here) >= self._kinds_tried and self._is_vast:
                    break
        if not (self._is_vast and found_here):
            yield from self._in_new_beds(state, found_here, is_over)

    def _in_open_bed(self, state: State, ground: Ground, pose: Pose) -> Iterator[State]:
        kerf = self.request.saw.kerf_mm
        base, height = state.strip_start_mm, state.strip_height_mm
        if self.request.limits.stages is not Stages.TWO:
            v = state.column_front_mm + kerf
            u = state.section_start_mm
            yield from self._stacked(state, ground, pose, u, v)
        u = state.section_start_mm + state.section_length_mm + kerf
        for u_from, v in self._aims(ground, pose, u, base, vary_v=False):
            spot = ground.along(pose, u_from, v)
            if spot is not None:
                yield from self._section(state, ground, pose, spot, v)
        lifted = ground.across(pose, u, base)
        if lifted is not None and lifted + pose.v_size_mm <= base + height + TOUCH:
            yield from self._section(state, ground, pose, u, lifted)
        yield from self._strips(state, ground, pose, base + height + kerf)

    def _aims(
        self, ground: Ground, pose: Pose, u: float, v: float, *, vary_v: bool
    ) -> list[tuple[float, float]]:
        """Where to start looking: here, and at the near corner of every zone that is wished."""
        aims = [(u, v)]
        if not self._has_aims[pose.blank]:
            return aims
        blank = self.blanks[pose.blank]
        board = self.request.boards[ground.bed.board]
        boxes = [
            box
            for index in blank.groups
            if self.request.matches[index].rule is MatchRule.SAME_ZONE
            for _, box in zones_meant(self.request.matches[index], board)
        ]
        for member in blank.members:
            wanted = member.part.wants
            boxes.extend(bounds_of(z.outline) for z in board.zones if z.kind is wanted)
        for box in boxes:
            zone_u, zone_v = ground.corner_of(box)
            aim = (max(u, zone_u), max(v, zone_v) if vary_v else v)
            if aim not in aims:
                aims.append(aim)
        return aims

    def _stacked(
        self, state: State, ground: Ground, pose: Pose, u: float, v: float
    ) -> Iterator[State]:
        """The pose on top of the open section's column."""
        length = self._stack_length(state, pose)
        if length is None or u + length > ground.u_size_mm + TOUCH:
            return
        for at in (v, ground.across(pose, u, v)):
            if at is None or not ground.is_free(pose, u, at):
                continue
            top = at + pose.v_size_mm
            height = max(state.strip_height_mm, top - state.strip_start_mm)
            if self._along:
                if not self._may_grow(state, u, top):
                    continue
            else:
                hand = self.request.saw.shortest_crosscut_mm
                if pose.u_size_mm < state.section_length_mm - TOUCH:
                    hand = max(hand, self.request.saw.shortest_rip_mm)
                if top < state.strip_start_mm + height - TOUCH or hand > pose.v_size_mm:
                    height = max(height, at + hand - state.strip_start_mm)
                if state.strip_start_mm + height > ground.v_size_mm + TOUCH:
                    continue
            child = self._laid(
                state, ground, pose, u, at,
                strip_height=height, section_length=length, column_front=top,
            )  # fmt: skip
            if child is not None:
                yield child
            return

    def _stack_length(self, state: State, pose: Pose) -> float | None:
        """The open section's length with the pose in its column [mm]; None where it is unsafe."""
        length = max(state.section_length_mm, pose.u_size_mm)
        if not self._along:
            too_wide = pose.u_size_mm > state.section_length_mm + TOUCH
            return None if too_wide and self.request.saw.shortest_rip_mm > 0 else length
        return max(length, self.request.saw.shortest_rip_mm, self.request.saw.shortest_crosscut_mm)

    def _may_grow(self, state: State, u: float, top: float) -> bool:
        """Whether the strip's sections so far can be ripped narrower than the strip becomes."""
        if top > state.ceiling_mm + TOUCH:
            return False
        if top <= state.strip_start_mm + state.strip_height_mm + TOUCH or not self._along:
            return True
        shortest = self.request.saw.shortest_rip_mm
        head = u - self.request.saw.kerf_mm
        return state.shortest_section_mm >= shortest - TOUCH or head >= shortest - TOUCH

    def _section(
        self, state: State, ground: Ground, pose: Pose, u: float, v: float
    ) -> Iterator[State]:
        """The pose as the next section of the open strip."""
        top = v + pose.v_size_mm
        if not self._along:
            yield from self._ripped_section(state, ground, pose, u, v)
            return
        if not self._may_grow(state, u, top) or not self._is_held(ground, pose, u):
            return
        shortest = self.request.saw.shortest_rip_mm
        flush = abs(v - state.strip_start_mm) <= TOUCH and (
            top >= state.strip_start_mm + state.strip_height_mm - TOUCH
        )
        child = self._laid(
            state, ground, pose, u, v,
            strip_height=max(state.strip_height_mm, top - state.strip_start_mm),
            section_start=u,
            section_length=pose.u_size_mm,
            column_front=top,
            shortest_section=min(state.shortest_section_mm, pose.u_size_mm),
        )  # fmt: skip
        if child is None:
            return
        if flush or pose.u_size_mm >= shortest - TOUCH:
            yield child
            return
        rest = ground.u_size_mm - u
        if rest >= shortest - TOUCH:
            if v <= state.strip_start_mm + TOUCH:  # what follows comes off the rest, ripped as wide
                yield replace(child, ceiling_mm=top)
            yield replace(child, section_length_mm=shortest)

    def _ripped_section(
        self, state: State, ground: Ground, pose: Pose, u: float, v: float
    ) -> Iterator[State]:
        """The pose as the next piece ripped off an open crosscut length."""
        top = v + pose.v_size_mm
        height = self._length_to_rip(ground, pose, state.strip_start_mm, top, state.strip_height_mm)
        if height is None:
            return
        child = self._laid(
            state, ground, pose, u, v,
            strip_height=height,
            section_start=u,
            section_length=pose.u_size_mm,
            column_front=top,
            shortest_section=min(state.shortest_section_mm, pose.u_size_mm),
        )  # fmt: skip
        if child is not None:
            yield child

    def _length_to_rip(
        self, ground: Ground, pose: Pose, start: float, top: float, height: float
    ) -> float | None:
        """How long to crosscut a length so that the pose is ripped off it and cut out safely [mm].

        None when the bed has no such length.
        """
        height = max(height, top - start)
        if pose.u_size_mm < ground.u_size_mm - TOUCH:
            height = max(height, self.request.saw.shortest_rip_mm)
        if start + height > top + TOUCH:
            height = max(height, self.request.saw.shortest_crosscut_mm)
        return None if start + height > ground.v_size_mm + TOUCH else height

    def _is_held(self, ground: Ground, pose: Pose, u: float) -> bool:
        """Whether the strip in hand is long enough when the pose is cut off at u."""
        at_end = u + pose.u_size_mm >= ground.u_size_mm - TOUCH
        return at_end or ground.u_size_mm - u >= self.request.saw.shortest_crosscut_mm - TOUCH

    def _strips(self, state: State, ground: Ground, pose: Pose, v: float) -> Iterator[State]:
        spots: list[tuple[float, float]] = []
        for u_from, v_from in self._aims(ground, pose, 0.0, v, vary_v=True):
            spot = ground.along(pose, u_from, v_from)
            if spot is not None:
                spots.append((spot, v_from))
        lifted = ground.across(pose, 0.0, v)
        if lifted is not None:
            spots.append((0.0, lifted))
        for u, start in spots:
            height: float | None = pose.v_size_mm
            if self._along and not self._is_held(ground, pose, u):
                continue
            if not self._along:
                height = self._length_to_rip(
                    ground, pose, start, start + pose.v_size_mm, pose.v_size_mm
                )
            if height is None:
                continue
            child = self._laid(
                state, ground, pose, u, start,
                strip_start=start,
                strip_height=height,
                section_start=u,
                section_length=pose.u_size_mm,
                column_front=start + pose.v_size_mm,
                shortest_section=pose.u_size_mm,
                ceiling=math.inf,
            )  # fmt: skip
            if child is not None:
                yield child

    def _in_new_beds(
        self, state: State, found_here: set[int], is_over: Callable[[], bool]
    ) -> Iterator[State]:
        closed = state.closed_area_mm2
        if state.ground >= 0:
            ground = self.grounds[state.ground]
            closed += ground.u_size_mm * ground.v_size_mm
        signatures: set[tuple[object, ...]] = set()
        for number, bed in enumerate(self.grounds.beds):
            if state.beds_opened >> number & 1:
                continue
            here = bed.board
            signature = (
                self.grounds.looks[number],
                state.boards_touched >> here & 1,
                tuple(home is not None and home.board == here for home in state.homes),
            )
            if signature in signatures:
                continue
            if is_over():
                return
            opened = 0
            fresh: State | None = None
            ground = self.grounds[number]
            for pose in ground.poses:
                if not state.left[pose.blank]:
                    continue
                if pose.blank in found_here and not self._has_aims[pose.blank]:
                    continue
                if fresh is None:
                    fresh = self._on_fresh(state, number, closed)
                for child in self._strips(fresh, ground, pose, 0.0):
                    opened += 1
                    yield child
                if opened >= self._kinds_tried and self._is_vast:
                    break
            if opened:
                signatures.add(signature)
                if len(signatures) >= BOARDS_TRIED:
                    return

    def _on_fresh(self, state: State, number: int, closed_area: float) -> State:
        """The state with the bed of that number begun."""
        return replace(
            state,
            ground=number,
            beds_opened=state.beds_opened | 1 << number,
            closed_area_mm2=closed_area,
            strip_start_mm=0.0,
            strip_height_mm=0.0,
            section_start_mm=0.0,
            section_length_mm=0.0,
            column_front_mm=0.0,
            ceiling_mm=math.inf,
        )

    def _laid(
        self, state: State, ground: Ground, pose: Pose, u: float, v: float, **changes: float
    ) -> State | None:
        """The state with the pose at (u, v) and the changes [mm]; None when it breaks a must."""
        laid = LaidBlank(
            blank=pose.blank,
            board=ground.bed.board,
            places=tuple(ground.places(pose, u, v)),
            turned=pose.turned,
            flipped=pose.flipped,
        )
        return self._with_laid(state, laid, **changes)

    def _with_laid(self, state: State, laid: LaidBlank, **changes: float) -> State | None:
        blank = self.blanks[laid.blank]
        board = self.request.boards[laid.board]
        price = state.price - blank.worth
        homes, odds = state.homes, state.odds
        for index in blank.groups:
            match = self.request.matches[index]
            home = settles(match, homes[index], laid.board, board, laid.places[0])
            if home is not None:
                homes = (*homes[:index], home, *homes[index + 1 :])
            elif self._odd_names[index] == blank.members[0].part.name and not odds >> index & 1:
                odds |= 1 << index
            elif match.price is None:
                return None
            elif not odds >> (index + 32) & 1:
                price += match.price
                odds |= 1 << (index + 32)
        for member, place in zip(blank.members, laid.places, strict=True):
            price += price_of_place(member.part, place, board, self._zones_wanted[laid.blank])
        if not state.boards_touched >> laid.board & 1:
            price += board.price
        left, get = state.left, changes.get
        return State(  # each field by itself: `replace` takes three times as long
            left=(*left[: laid.blank], left[laid.blank] - 1, *left[laid.blank + 1 :]),
            beds_opened=state.beds_opened,
            boards_touched=state.boards_touched | 1 << laid.board,
            ground=state.ground,
            strip_start_mm=get("strip_start", state.strip_start_mm),
            strip_height_mm=get("strip_height", state.strip_height_mm),
            section_start_mm=get("section_start", state.section_start_mm),
            section_length_mm=get("section_length", state.section_length_mm),
            column_front_mm=get("column_front", state.column_front_mm),
            shortest_section_mm=get("shortest_section", state.shortest_section_mm),
            ceiling_mm=get("ceiling", state.ceiling_mm),
            price=price,
            closed_area_mm2=state.closed_area_mm2,
            laid_area_mm2=state.laid_area_mm2 + sum(place.area_mm2 for place in laid.places),
            homes=homes,
            odds=odds,
            trail=Trail(state.trail, laid),
        )
