"""Blanks that several parts come off, since what is done to one of them is done to all.

Rails that follow one another round a box are one blank: ripped to width, rabbeted and grooved while
it is long, then sawn apart, so that their grain runs on but for what the saw takes. Small equal
parts are one blank too: none of them alone could be held.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from furniture.parts.blank import Blank
from furniture.parts.cuts import Bite, Channel, Slope, shapes_of
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.part import Part, Placed, Rough, slug_of
from furniture.pieces.let_in import square_until_flush
from furniture.pieces.piece import Piece, distinct_parts
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.staying import HOLDING_LENGTH, SKIM, SMALL_PART
from furniture.timber.stock import Timber

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """An instance in a common blank, and how far along it its named end lies [mm].

    Its x, y and z run as those of the blank; at a mitred end its place is that of the long point.
    """

    instance: str
    part: Part
    at_mm: float

    @property
    def end_mm(self) -> float:
        """Where its far end lies along the blank [mm]."""
        return self.at_mm + self.part.blank.length_mm


_Kept = TypeVar("_Kept", Placed, Member)


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonBlank:
    """One blank for several parts of one section, at its size when its ends are true [mm].

    Args:
        name: of the blank.
        members: in their order along it, with room for the saw between them.
        blank: from the named end of the first to the far end of the last.
        timber: that it is of.
        rough: what is left on it until it is true.
        held_mm: besides, at its far end, so that the last part leaves a piece that can be held.
        rules: that it is laid out by.
    """

    name: str
    members: tuple[Member, ...]
    blank: Blank
    timber: Timber
    rough: Rough
    held_mm: float = 0.0
    rules: Rules = USUAL_RULES

    @property
    def rough_length_mm(self) -> float:
        """The length to saw [mm]."""
        return self.blank.length_mm + self.rough.length_mm + self.held_mm

    @property
    def instances(self) -> tuple[str, ...]:
        """The instances that come off it, in their order along it."""
        return tuple(each.instance for each in self.members)


def common_blanks(
    piece: Piece,
    sequences: Iterable[Sequence[str]],
    kerf_mm: float,
    longest_mm: float = math.inf,
    alone: Collection[str] = (),
) -> tuple[CommonBlank, ...]:
    """The blanks of the piece that serve more than one part; every instance is in one at most.

    Args:
        piece: what is made.
        sequences: instances whose grain runs on, each in its order along the wood.
        kerf_mm: that the saw takes.
        longest_mm: no blank is longer, its rough ends too; one that would be is parted.
        alone: instances that share no blank.
    """
    square = square_until_flush(piece)
    placed = {
        each.instance: replace(each, part=square.get(each.instance, each.part))
        for each in piece.placed
    }
    taken: set[str] = set(alone)
    groups: list[tuple[Placed, ...]] = []
    for names in sequences:
        run = [placed[name] for name in names if name in placed and name not in taken]
        for group in _of_one_section(run):
            if len(group) > 1:
                taken |= {each.instance for each in group}
                groups.append(group)
    groups += _small_equals(piece, placed, taken)
    whole = (_blank_of(group, kerf_mm, _name(group, piece), piece.rules) for group in groups)
    return tuple(
        each
        for blank in whole
        for each in parted(blank, kerf_mm, lambda b: b.rough_length_mm <= longest_mm)
    )


def _of_one_section(run: Sequence[Placed]) -> list[tuple[Placed, ...]]:
    """The run, parted wherever the section or the work along it changes."""
    groups: list[list[Placed]] = []
    for each in run:
        group = groups[-1] if groups else []
        if group and all(map(_is_sawn_on, (group[-1], each))) and _is_one_section([*group, each]):
            group.append(each)
        else:
            groups.append([each])
    return [tuple(group) for group in groups]


def _is_one_section(group: Sequence[Placed]) -> bool:
    """Whether all are of one stock and size, and all work along one of them does for the others.

    What runs along one and is not there in another does no harm where a notch of that one takes
    the same wood: the rail that a sliding lid is drawn out over has a notch for its groove.
    """
    if len({_section(each.part) for each in group}) > 1:
        return False
    along = {key: cut for each in group for key, cut in _along(each.part).items()}
    return all(
        key in _along(each.part) or _is_gone(cut, each.part)
        for each in group
        for key, cut in along.items()
    )


def _is_gone(channel: Channel, part: Part) -> bool:
    """Whether a notch of the part takes all wood that a channel along it would."""
    blank = part.blank
    if channel.face not in WIDE_FACES:
        return False
    surface = channel.surface_mm(blank)
    deep = (min(surface, channel.floor_mm), max(surface, channel.floor_mm))
    low, high = _run_of(part, deep)
    needs = ((low, high), channel.wide)
    return any(
        all(
            least[axis] <= need[0] + _SAME_MM and most[axis] >= need[1] - _SAME_MM
            for axis, need in enumerate(needs)
        )
        for least, most in (each.core(blank) for each in shapes_of(part.cuts, blank, Bite))
    )


def _run_of(part: Part, deep: tuple[float, float]) -> tuple[float, float]:
    """From where to where wood of the part reaches along it, between two depths [mm].

    A mitre takes more the farther from its long point.
    """
    blank = part.blank
    found = []
    for end in ENDS:
        slope = slope_at(part, end)
        back = 0.0
        if slope is not None:
            near = blank.thickness_mm - deep[1] if slope.long_point.is_far else deep[0]
            back = slope.setback_mm * near / blank.thickness_mm
        found.append(blank.length_mm - back if end.is_far else back)
    return found[0], found[1]


def _is_sawn_on(placed: Placed) -> bool:
    """Whether it comes off by two plain cuts: neither mitred on the flat nor left long."""
    part = placed.part
    return part.trimmed_last is None and not any(
        each.face in ENDS and each.long_point in EDGES
        for each in shapes_of(part.cuts, part.blank, Slope)
    )


def _section(part: Part) -> tuple[object, ...]:
    """What parts of one common blank share: stock, width, thickness and bevelled edges."""
    blank = part.blank
    bevels = [
        repr((each.face.value, each.long_point.value, *_rounded((), each.angle_deg)))
        for each in shapes_of(part.cuts, blank, Slope)
        if each.face in EDGES
    ]
    return (part.timber, _rounded((blank.width_mm,), blank.thickness_mm), tuple(sorted(bevels)))


def _along(part: Part) -> dict[object, Channel]:
    """The work along a part from end to end, by all that must be alike for one pass."""
    return {
        (each.face, each.step, *_rounded(each.wide, each.floor_mm)): each
        for each in shapes_of(part.cuts, part.blank, Channel)
        if runs_right_along(each, part.blank)
    }


def runs_right_along(channel: Channel, blank: Blank) -> bool:
    """Whether a channel runs along the grain from end to end."""
    low, high = channel.run
    is_whole = low <= _SAME_MM and high >= blank.length_mm - _SAME_MM
    return channel.along == 0 and is_whole


def _rounded(values: Sequence[float], last: float) -> tuple[float, ...]:
    return tuple(round(value, 6) for value in (*values, last))


def _small_equals(
    piece: Piece, placed: dict[str, Placed], taken: set[str]
) -> list[tuple[Placed, ...]]:
    """Parts too short to be held alone, with their equals: two or more come off one blank."""
    found = []
    for each in distinct_parts(piece):
        names = [name for name in each.instances if name not in taken]
        several = tuple(placed[name] for name in names)
        is_small = each.part.blank.length_mm < piece.rules[SMALL_PART]
        if len(several) > 1 and is_small and _is_sawn_on(several[0]):
            found.append(several)
    return found


def parted(
    blank: CommonBlank, kerf_mm: float, does_fit: Callable[[CommonBlank], bool]
) -> tuple[CommonBlank, ...]:
    """The blank, or the fewest of nearly one length that it is parted into so that all fit.

    A part that is left alone has no common blank.

    Args:
        blank: of several parts.
        kerf_mm: that the saw takes.
        does_fit: whether a blank will do.
    """
    for count in range(1, len(blank.members)):
        shares = [share for share in _shares(blank.members, count) if len(share) > 1]
        found = tuple(
            _blank_of(
                share,
                kerf_mm,
                blank.name if count == 1 else _after_its_first(share),
                blank.rules,
            )
            for share in shares
        )
        if all(does_fit(each) for each in found):
            return found
    return ()


def as_laid(
    blank: CommonBlank, lengths: Collection[frozenset[str]], kerf_mm: float
) -> tuple[CommonBlank, ...]:
    """The blank as it was laid: whole, or its runs of parts that came off one length each.

    Args:
        blank: as it would be on a board that is long enough.
        lengths: what was laid on one length, by instances.
        kerf_mm: that the saw takes.
    """
    if frozenset(blank.instances) in lengths:
        return (blank,)
    shares = ([each for each in blank.members if each.instance in names] for names in lengths)
    return tuple(
        _blank_of(share, kerf_mm, _after_its_first(share), blank.rules)
        for share in sorted(shares, key=lambda share: [each.at_mm for each in share])
        if len(share) > 1 and frozenset(each.instance for each in share) in lengths
    )


def _shares(group: Sequence[_Kept], count: int) -> list[list[_Kept]]:
    """The group parted into so many runs of nearly one length, none out of order."""
    total = sum(each.part.blank.length_mm for each in group)
    shares: list[list[_Kept]] = [[] for _ in range(count)]
    gone = 0.0
    for each in group:
        middle = gone + each.part.blank.length_mm / 2
        shares[min(count - 1, int(middle / total * count))].append(each)
        gone += each.part.blank.length_mm
    return [share for share in shares if share]


def _blank_of(
    group: Sequence[Placed | Member], kerf_mm: float, name: str, rules: Rules
) -> CommonBlank:
    members, at = [], 0.0
    for index, each in enumerate(group):
        if index:
            at += gap_mm(group[index - 1].part, each.part, kerf_mm, rules)
        members.append(Member(instance=each.instance, part=each.part, at_mm=at))
        at += each.part.blank.length_mm
    first = group[0].part
    return CommonBlank(
        name=name,
        members=tuple(members),
        blank=Blank(
            length_mm=at, width_mm=first.blank.width_mm, thickness_mm=first.blank.thickness_mm
        ),
        timber=first.timber,
        rough=Rough(
            length_mm=max(each.part.rough.length_mm for each in group),
            width_mm=max(each.part.rough.width_mm for each in group),
        ),
        held_mm=rules[HOLDING_LENGTH] if _are_small(group, rules) else 0.0,
        rules=rules,
    )


def _are_small(group: Sequence[Placed | Member], rules: Rules) -> bool:
    """Whether none of the parts could be held while its neighbour is sawn off."""
    return all(each.part.blank.length_mm < rules[SMALL_PART] for each in group)


def _name(group: Sequence[Placed], piece: Piece) -> str:
    """What most of its parts are, where it holds all such: `rail strip`; else after its first part.

    So no other blank of the piece can have the name, however many of them are asked for.
    """
    nouns = Counter(each.noun for each in group)
    most, count = nouns.most_common(1)[0]
    is_whole = count == sum(each.noun == most for each in piece.placed)
    of_noun = f"{most} strip"
    is_free = all(slug_of(each.instance) != slug_of(of_noun) for each in piece.placed)
    return of_noun if is_whole and is_free else _after_its_first(group)


def _after_its_first(group: Sequence[Placed | Member]) -> str:
    return f"{group[0].instance} strip"


def slope_at(part: Part, end: Face) -> Slope | None:
    """The tilted mitre on an end of a part, if it has one."""
    return next(
        (
            each
            for each in shapes_of(part.cuts, part.blank, Slope)
            if each.face is end and each.long_point in WIDE_FACES
        ),
        None,
    )


def gap_mm(before: Part, after: Part, kerf_mm: float, rules: Rules) -> float:
    """What of the long point face is lost between two parts of one blank [mm].

    A blade of kerf k tilted by t takes k / cos t of the length. Where an end is mitred, one cut
    parts and another trims; they may cross inside the wood, where it is waste, but neither may
    enter a part, so the second begins a skim beyond the first. Own derivation, checked by solids.
    """
    slopes = [slope_at(before, Face.FAR_END), slope_at(after, Face.NAMED_END)]
    tilts = [each.angle_deg for each in slopes if each is not None]
    if not tilts:
        return kerf_mm
    return kerf_mm / math.cos(math.radians(max(tilts))) + rules[SKIM]
