"""What the packer moves about: one blank, or several that must stay end to end.

A part too wide for its boards becomes strips here; a matched sequence becomes one long blank.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    GrainRule,
    MatchGroup,
    MatchRule,
    Saw,
)
from furniture.shop.cutting.zones import TOUCH, usable_frame, width_kept


@dataclass(frozen=True, slots=True)
class Member:
    """One part (or strip of it) within a blank: offset along and across the blank, size [mm]."""

    part: CutPart
    strip: int
    along_mm: float
    across_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle to be cut free, and how many: length along the part's grain, width [mm].

    groups: indices of the matches that each copy belongs to.
    """

    members: tuple[Member, ...]
    length_mm: float
    width_mm: float
    quantity: int
    groups: tuple[int, ...]
    may_turn: bool

    @property
    def area_mm2(self) -> float:
        """Area of the members [mm^2]."""
        return sum(member.length_mm * member.width_mm for member in self.members)

    @property
    def is_must(self) -> bool:
        """Whether every copy must have a place."""
        return any(member.part.is_must for member in self.members)

    @property
    def worth(self) -> float:
        """What leaving one out costs [money]; of a glued-up part its first strip says it."""
        return sum(member.part.worth or 0.0 for member in self.members if member.strip <= 1)

    @property
    def least_width(self) -> float:
        """The width that will do where a board gives no more [mm]."""
        return max(m.width_mm if m.strip else m.part.least_width_mm for m in self.members)

    @property
    def name(self) -> str:
        """The members' names."""
        return " + ".join(member.part.name for member in self.members)


def suits(board: Board, part: CutPart, saw: Saw) -> bool:
    """Whether the board is of the part's species and thick enough, and not too thick to plane."""
    return (
        board.species == part.species
        and part.thickness_mm >= board.thinnest_mm - TOUCH
        and board.thickness_mm >= part.thickness_mm + saw.planing_loss_mm - TOUCH
    )


def widths_on(board: Board, blank: Blank, saw: Saw) -> tuple[float, ...]:
    """The rough width, then what narrower places of the board leave of its allowance [mm].

    Where the board tapers to less than will do, the least that will do is tried last: it serves
    all copies that lie one after another.
    """
    usable = {station.width_mm - 2 * saw.edge_trim_mm for station in board.stations}
    least = blank.least_width
    narrower = {w for w in usable if least - TOUCH <= w < blank.width_mm - TOUCH}
    if min(usable) < least - TOUCH <= _usable_width(board, blank.length_mm, saw):
        narrower.add(least)
    return (blank.width_mm, *sorted(narrower - {blank.width_mm}, reverse=True))


def _usable_width(board: Board, length: float, saw: Saw) -> float:
    """The widest that the board keeps over that length, after its trims [mm]."""
    return width_kept(board, usable_frame(board, saw), length) - 2 * saw.edge_trim_mm


def as_wide(blank: Blank, width: float) -> Blank:
    """The blank with no member wider than the width [mm]."""
    if width >= blank.width_mm:
        return blank
    members = tuple(replace(each, width_mm=min(each.width_mm, width)) for each in blank.members)
    return replace(blank, members=members, width_mm=width)


def narrowest_on(board: Board, blank: Blank, saw: Saw) -> Blank:
    """The blank as narrow as the board may make it: what bounds have to reckon with."""
    return as_wide(blank, widths_on(board, blank, saw)[-1])


def strips_of(part: CutPart, widest: float) -> tuple[float, ...] | None:
    """Rough widths [mm] of the strips to glue the part up from; None when it cannot be done.

    The fewest equal strips no wider than `widest`, each joint moved by the least that brings it
    out of the bands to keep clear.
    """
    rule = part.glue_up
    if rule is None:
        return None
    for count in range(2, 13):
        spare = 2 * rule.jointing_allowance_mm
        if part.width_mm / count < rule.narrowest_strip_mm - TOUCH:
            return None
        joints = [_clear(part.width_mm * k / count, rule.keep_clear_mm) for k in range(1, count)]
        marks = [0.0, *joints, part.width_mm]
        widths = [right - left for left, right in itertools.pairwise(marks)]
        if min(widths) < rule.narrowest_strip_mm - TOUCH:
            continue
        outer = part.width_allowance_mm / 2
        rough = [
            width
            + (outer if index == 0 else spare / 2)
            + (outer if index == count - 1 else spare / 2)
            for index, width in enumerate(widths)
        ]
        if max(rough) <= widest + TOUCH:
            return tuple(rough)
    return None


@dataclass(frozen=True, slots=True)
class StripPlace:
    """Where a strip lies in the finished part: from where to where across it, what it has besides.

    low, high: across the part, from its face edge [mm]; before: rough wood before `low` [mm].
    """

    low: float
    high: float
    before: float


def strip_places(part: CutPart) -> tuple[StripPlace, ...]:
    """The strips of a part in the finished part, in order from its face edge; none of a whole one.

    The outer edges carry half the part's allowance each, a glued edge what jointing takes.
    """
    if part.glue_up is None:
        return ()
    outer, glued = part.width_allowance_mm / 2, part.glue_up.jointing_allowance_mm
    found: list[StripPlace] = []
    at = 0.0
    for index, rough in enumerate(part.strips_mm):
        before = outer if index == 0 else glued
        after = outer if index == len(part.strips_mm) - 1 else glued
        high = at + rough - before - after
        found.append(StripPlace(low=at, high=high, before=before))
        at = high
    return tuple(found)


def _clear(joint: float, bands: tuple[tuple[float, float], ...]) -> float:
    options = [joint, *(edge for band in bands for edge in band)]
    free = [
        option
        for option in options
        if not any(low + TOUCH < option < high - TOUCH for low, high in bands)
    ]
    return min(free, key=lambda option: (abs(option - joint), option))


def widest_for(part: CutPart, boards: Iterable[Board], saw: Saw) -> float:
    """The widest that a board which suits the part keeps over its length [mm]; 0 when none does.

    No wider one is looked for than will do.
    """
    widest = 0.0
    for board in boards:
        if suits(board, part, saw):
            widest = max(widest, _usable_width(board, part.rough_length_mm, saw))
            if part.least_width_mm <= widest + TOUCH:
                break  # a long list of boards mostly has one that is wide enough
    return widest


def blanks_of(request: CuttingRequest, joined: frozenset[int]) -> tuple[Blank, ...]:
    """Every blank wanted; the sequences whose match index is in `joined` are one blank each."""
    parts = request.part_named
    free = {part.name: part.quantity for part in request.parts}
    blanks: list[Blank] = []
    tags: dict[str, list[tuple[int, ...]]] = {name: [] for name in parts}
    for index, match in enumerate(request.matches):
        counts = Counter(match.members)
        if match.rule is MatchRule.IN_SEQUENCE and index in joined:
            blanks.append(
                replace(sequence_blank(match, parts, request.saw.kerf_mm), groups=(index,))
            )
            for name, count in counts.items():
                free[name] -= count
        elif match.rule is not MatchRule.IN_SEQUENCE:
            for name, count in counts.items():
                tagged = tags[name]
                for copy in range(count):
                    if copy < len(tagged):
                        tagged[copy] = (*tagged[copy], index)
                    else:
                        tagged.append((index,))
    for name, part in parts.items():
        groups = Counter(tags[name][: free[name]])
        plain = free[name] - sum(groups.values())
        if plain > 0:
            groups[()] += plain
        for group, count in groups.items():
            blanks.extend(_plain(part, group, count))
    return tuple(blanks)


def in_strips(request: CuttingRequest) -> CuttingRequest:
    """The request with every part that no board is wide enough for over its length told as strips.

    Said once of all boards, so that every reader asks for the same pieces.
    """
    return replace(request, parts=tuple(_in_strips(part, request) for part in request.parts))


def _in_strips(part: CutPart, request: CuttingRequest) -> CutPart:
    widest = widest_for(part, request.boards, request.saw)
    if part.least_width_mm <= widest + TOUCH:
        return part
    return replace(part, strips_mm=strips_of(part, widest) or ()) if widest > 0 else part


def _plain(part: CutPart, groups: tuple[int, ...], count: int) -> list[Blank]:
    return [
        Blank(
            members=(
                Member(
                    part=part,
                    strip=strip,
                    along_mm=0.0,
                    across_mm=0.0,
                    length_mm=part.rough_length_mm,
                    width_mm=width,
                ),
            ),
            length_mm=part.rough_length_mm,
            width_mm=width,
            quantity=count,
            groups=groups,
            may_turn=part.grain is GrainRule.EITHER,
        )
        for strip, width in part.pieces
    ]


def sequence_blank(match: MatchGroup, parts: dict[str, CutPart], kerf: float) -> Blank:
    """The members of a match end to end as one blank, of no group yet; parts: by name."""
    members: list[Member] = []
    along = 0.0
    for name in match.members:
        part = parts[name]
        members.append(
            Member(
                part=part,
                strip=0,
                along_mm=along,
                across_mm=0.0,
                length_mm=part.rough_length_mm,
                width_mm=part.rough_width_mm,
            )
        )
        along += part.rough_length_mm + kerf
    return Blank(
        members=tuple(members),
        length_mm=along - kerf,
        width_mm=max(member.width_mm for member in members),
        quantity=1,
        groups=(),
        may_turn=False,
    )


def single_pieces(blanks: Sequence[Blank]) -> tuple[Blank, ...]:
    """Every kind of piece once with its quantity, whatever match its copies belong to."""
    kinds: dict[tuple[str, int], Blank] = {}
    for blank in blanks:
        (member,) = blank.members
        key = member.part.name, member.strip
        before = kinds[key].quantity if key in kinds else 0
        kinds[key] = replace(blank, quantity=before + blank.quantity, groups=())
    return tuple(kinds.values())
