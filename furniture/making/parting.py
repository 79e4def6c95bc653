"""How a unit falls apart into its parts: from the ends inwards, so that what is held stays long.

Every end is sawn with its long point up and the piece on the kept side, so nothing is trapped below
a tilted blade. Between two mitred parts one cut parts and another trims; see `gap_mm`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from furniture.blanks import Member, gap_mm
from furniture.making import rigs
from furniture.making.operations import Axis, CutOf, Kind, Operation, SizeOf, Stage
from furniture.making.settings import Guide, Hold, Skim, Slice
from furniture.making.units import Unit
from furniture.parts.cuts import Slope
from furniture.parts.faces import EDGES, ENDS, Face
from furniture.pieces import datums
from furniture.rules import Rules


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """An end of a part: square, or a slope with the number of the cut that makes it."""

    face: Face
    slope: Slope | None = None
    index: int | None = None

    @property
    def lean_deg(self) -> float:
        """Out of square [deg]."""
        return self.slope.angle_deg if self.slope else 0.0

    @property
    def long_face(self) -> Face | None:
        """Where the part is longest; a square end is as long on all faces."""
        return self.slope.long_point if self.slope else None

    def cut_of(self, instance: str) -> tuple[CutOf, ...]:
        """The cut of the instance that this end is."""
        return () if self.index is None else (CutOf(instance, self.index),)


def end_of(member: Member, face: Face) -> End:
    """The end of a member, as its cuts leave it."""
    for index, cut in enumerate(member.part.cuts):
        shape = cut.shape(member.part.blank)
        if isinstance(shape, Slope) and shape.face is face:
            return End(face=face, slope=shape, index=index)
    return End(face=face)


def is_square(member: Member) -> bool:
    """Whether it is sawn square at both ends."""
    return all(end_of(member, face).slope is None for face in ENDS)


def true_end_of(unit: Unit) -> Face:
    """The end that is trued first and stays: one that is sawn already; else as sheets have it."""
    if unit.is_common:
        return Face.NAMED_END
    if len(unit.mitred) == 1:
        (sawn,) = unit.mitred
        return sawn
    (member,) = unit.members
    return datums.true_end_of(member.part)


def off_both_ends(unit: Unit) -> bool:
    """Whether both ends are trued first and parts come off inwards, as mitred parts do."""
    is_mitred = any(end_of(each, face).slope is not None for each in unit.members for face in ENDS)
    return is_mitred and unit.is_common


def trued_ends(unit: Unit) -> tuple[Face, ...]:
    """The ends of the whole unit that are trued before anything is sawn off it."""
    return ENDS if off_both_ends(unit) else (true_end_of(unit),)


def outer_end(unit: Unit, face: Face) -> End:
    """The end of a unit: that of its outermost member."""
    return end_of(unit.members[-1 if face.is_far else 0], face)


def parting(unit: Unit, kerf_mm: float, rules: Rules) -> tuple[Operation, ...]:
    """Every cut from the true unit to its parts, in the order that they are made.

    An end that is trimmed last is left as it is.

    Args:
        unit: that falls apart.
        kerf_mm: that the saw takes.
    """
    return (*_outer_mitres(unit, kerf_mm), *_apart(unit, kerf_mm, rules))


def _outer_mitres(unit: Unit, kerf_mm: float) -> Iterator[Operation]:
    """Mitred ends of the whole unit: all that was left rough there goes."""
    for face in trued_ends(unit):
        end = outer_end(unit, face)
        if end.slope is not None:
            member = unit.members[-1 if face.is_far else 0]
            takes = unit.left.high[0] if face.is_far else unit.left.low[0]
            yield _sawn(member, end, _skim(end, end, takes, kerf_mm), unit.id)


@dataclass(frozen=True, slots=True)
class _Off:
    """A member, and the end of the unit that it comes off from, which is at the stop."""

    member: Member
    stop: Face


def _order(unit: Unit) -> tuple[_Off, ...]:
    """The members in the order in which they come off.

    Square ones at an end go first, while the blade is upright. The longest of mitred ones is the
    last, the one nearest to the middle of equals: what is held at the end is as long as can be. It
    is stopped at the end that no part was sawn off from before it.
    """
    left = list(unit.members)
    if not off_both_ends(unit):
        stop = true_end_of(unit)
        return tuple(_Off(each, stop) for each in (left[::-1] if stop.is_far else left))
    middle = (len(left) - 1) / 2
    last = min(
        (at for at, each in enumerate(left) if not is_square(each)),
        key=lambda at: (-round(left[at].part.blank.length_mm, 6), abs(at - middle), at),
    )
    before, beyond = left[:last], left[:last:-1]
    found: list[_Off] = []
    for side, stop in ((before, Face.NAMED_END), (beyond, Face.FAR_END)):
        while side and is_square(side[0]):
            found.append(_Off(side.pop(0), stop))
    for turn in range(max(len(before), len(beyond)), 0, -1):
        found += [_Off(each, Face.NAMED_END) for each in _at_turn(before, turn)]
        found += [_Off(each, Face.FAR_END) for each in _at_turn(beyond, turn)]
    return (*found, _Off(left[last], found[-1].stop.opposite))


def _at_turn(side: Sequence[Member], turns_left: int) -> Sequence[Member]:
    """What comes off one side; the one with more parts begins, while the other end is square."""
    at = len(side) - turns_left
    return side[at : at + 1] if at >= 0 else ()


def _apart(unit: Unit, kerf_mm: float, rules: Rules) -> Iterator[Operation]:
    """Part after part off the unit, and the last one to its length.

    Where both ends are true the last one still has the end that its neighbour left it, so its
    length is cut there, off its other end.
    """
    order = _order(unit)
    left = list(unit.members)
    for off in order[:-1]:
        member, is_far = off.member, off.stop.is_far
        left.remove(member)
        rest = unit.id if len(left) > 1 else left[0].instance
        yield _parted(member, off.stop, kerf_mm, unit.id, (member.instance, rest))
        if len(left) > 1 or not off_both_ends(unit):
            neighbour = left[-1 if is_far else 0]
            yield from _trimmed(member, neighbour, off.stop, kerf_mm, rest, rules)
    last = order[-1]
    if last.member.part.trimmed_last is None and not is_long_enough_as_it_is(unit):
        name = last.member.instance
        yield _parted(last.member, last.stop, kerf_mm, name, (name,))


def is_long_enough_as_it_is(unit: Unit) -> bool:
    """Whether no wood was left on the length of a part whose ends are square."""
    ends = (outer_end(unit, face).slope for face in ENDS)
    has_rough = unit.left.low[0] + unit.left.high[0] > 0.0
    return not unit.is_common and not has_rough and not any(ends)


def left_when_off(unit: Unit, member: Member, kerf_mm: float, rules: Rules) -> tuple[float, float]:
    """What is left on a member at its named and its far end as it comes off [mm].

    All but the last come off at their length; that one still has what its neighbour left it, and
    all that is left at an end of the unit that is not trued before.
    """
    *_, before, last = (None, *_order(unit))
    if member != last.member or before is None:
        return 0.0, 0.0
    found = {}
    for face in ENDS:
        at = unit.members.index(member) + (1 if face.is_far else -1)
        if not 0 <= at < len(unit.members):
            rough = unit.left.high[0] if face.is_far else unit.left.low[0]
            found[face] = 0.0 if face in trued_ends(unit) else rough
        else:
            is_late = unit.members[at] == before.member
            found[face] = (
                _left_by(unit.members[at], member, face, kerf_mm, rules) if is_late else 0.0
            )
    return found[Face.NAMED_END], found[Face.FAR_END]


def _left_by(neighbour: Member, member: Member, face: Face, kerf_mm: float, rules: Rules) -> float:
    """What stands beyond an end where the neighbour was sawn off, the kerf's foot too [mm]."""
    end = end_of(neighbour, face.opposite)
    if end.slope is None and end_of(member, face).slope is None:
        return 0.0
    pair = (member, neighbour) if face.is_far else (neighbour, member)
    gap = gap_mm(pair[0].part, pair[1].part, kerf_mm, rules)
    over = gap - kerf_mm / math.cos(math.radians(end.lean_deg))
    return over + (end.slope.setback_mm if end.slope is not None else 0.0)


def to_length_last(unit: Unit, kerf_mm: float) -> Operation | None:
    """The cut of an end that is left long until what is joined to the part has been tried."""
    member = unit.members[0]
    if member.part.trimmed_last is None:
        return None
    cut = _parted(member, true_end_of(unit), kerf_mm, member.instance, (member.instance,))
    return replace(cut, kind=Kind.TRIM, stage=Stage.TRIM)


def _parted(
    member: Member, stop: Face, kerf_mm: float, takes: str, gives: tuple[str, ...]
) -> Operation:
    """A member comes to its length, its true end at the stop."""
    end = end_of(member, stop.opposite)
    setting = Slice(
        off=stop,
        at_mm=member.part.blank.length_mm,
        kerf_mm=kerf_mm,
        lean_deg=end.lean_deg,
        long_face=end.long_face or end_of(member, stop).long_face,
    )
    return _sawn(
        member, end, setting, takes, gives=gives, stop=stop,
        sizes=(SizeOf(member.instance, Axis.LENGTH),),
    )  # fmt: skip


def _trimmed(
    member: Member,
    neighbour: Member,
    from_end: Face,
    kerf_mm: float,
    in_hand: str,
    rules: Rules,
) -> Iterator[Operation]:
    """The next part's end made true, where one was parted off at a slope or its own slopes."""
    end, beyond = end_of(member, from_end.opposite), end_of(neighbour, from_end)
    if end.slope is None and beyond.slope is None:
        return
    pair = (neighbour, member) if from_end.is_far else (member, neighbour)
    gap = gap_mm(pair[0].part, pair[1].part, kerf_mm, rules)
    takes = gap - kerf_mm / math.cos(math.radians(end.lean_deg))
    yield _sawn(neighbour, beyond, _skim(beyond, end, takes, kerf_mm), in_hand)


def _skim(end: End, sawn: End, takes_mm: float, kerf_mm: float) -> Skim:
    """An end trued, measured where it or the end that was sawn off there is longest."""
    return Skim(
        face=end.face,
        takes_mm=takes_mm,
        kerf_mm=kerf_mm,
        lean_deg=end.lean_deg,
        long_face=end.long_face or sawn.long_face,
    )


def _fence_edge(member: Member, end: End) -> Face:
    """The edge at the fence; a bevelled one bears on nothing."""
    edge = Face.FACE_EDGE if end.face.is_far else Face.BACK_EDGE
    shapes = (cut.shape(member.part.blank) for cut in member.part.cuts)
    bevelled = {each.face for each in shapes if isinstance(each, Slope)}
    return edge.opposite if edge in bevelled else edge


def _sawn(
    member: Member,
    end: End,
    setting: Slice | Skim,
    takes: str,
    *,
    gives: tuple[str, ...] = (),
    sizes: tuple[SizeOf, ...] = (),
    stop: Face | None = None,
) -> Operation:
    square = Kind.CROSSCUT if stop is not None else Kind.SQUARE_END
    long = end.long_face
    is_flat = long is None or long in EDGES
    guide = Guide.SLED
    rig = (
        rigs.sawn(guide, turned_deg=end.lean_deg)
        if is_flat
        else rigs.sawn(guide, tilt_deg=end.lean_deg)
    )
    return Operation(
        key=f"{member.instance}: {end.face.value}",
        kind=Kind.MITRE if end.slope is not None else square,
        stage=Stage.PART,
        takes=(takes,),
        gives=gives or (takes,),
        rig=rig,
        hold=Hold(
            down=Face.BACK_SIDE if long is None or is_flat else long.opposite,
            # turned end for end and edge for edge, what is kept lies on one side of a tilted blade
            against=_fence_edge(member, end),
            stop=stop,
        ),
        setting=setting,
        cuts=end.cut_of(member.instance),
        sizes=sizes,
    )
