"""What must come before what, and why: read off the faces that passes bear on and leave.

Every rule is told from what operations do to wood, never from a list of parts: a pass bears on
faces, so what makes them true comes first; it spoils faces, so what bears on them comes before.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

from furniture.making.bearing import faces_used
from furniture.making.bored_over import bored_before
from furniture.making.operations import After, Axis, CutOf, Kind, Operation, Stage
from furniture.making.parting import off_both_ends
from furniture.making.settings import (
    Bored,
    Easing,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.faces import ENDS, Face

Wood = tuple[str, Face]
"""A face of an instance."""

_THICKNESSED = frozenset({Kind.JOINT_FACE, Kind.RESAW, Kind.PLANE})
_WIDTHS = frozenset({Kind.RIP, Kind.PLANE_WIDTH})
_TRENCHES = frozenset({Kind.RABBET, Kind.GAIN, Kind.GROOVE, Kind.DADO, Kind.MORTISE})


def with_precedence(
    units: Iterable[Unit], operations: Mapping[str, tuple[Operation, ...]]
) -> tuple[Operation, ...]:
    """Every operation with all that must come before it on its own wood.

    Args:
        units: all of them.
        operations: of each unit by its id, in an order that serves.
    """
    found = []
    for unit in units:
        before: dict[str, dict[str, Why]] = defaultdict(dict)
        for first, second, why in _pairs(unit, operations[unit.id]):
            if first.key != second.key:
                before[second.key].setdefault(first.key, why)
        for each in operations[unit.id]:
            for one in each.after:  # what it says itself
                before[each.key].setdefault(one.key, one.why)
        found += [
            replace(each, after=tuple(After(key, why) for key, why in before[each.key].items()))
            for each in operations[unit.id]
        ]
    return tuple(found)


Pair = tuple[Operation, Operation, Why]


def _pairs(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    yield from _milled(operations)
    yield from _supported_on(unit, operations)
    yield from _sawn_off(unit, operations)
    yield from _whole_first(unit, operations)
    yield from _apart(operations)
    yield from _thickness(operations)
    yield from _eased_last(unit, operations)
    yield from _into_slopes(unit, operations)
    yield from _trimmed_last(operations)
    yield from _chopped_out(operations)
    yield from _points_first(unit, operations)


def _instances(unit: Unit, operation: Operation) -> tuple[str, ...]:
    """The instances whose wood is in hand, as far as the operation can know."""
    wood = operation.takes[0]
    return unit.instances if wood == unit.id else (wood,)


def _milled(operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """Edge, width, end: each bears on the one before."""
    faces = [each for each in operations if each.kind in _THICKNESSED]
    edges = [each for each in operations if each.kind is Kind.JOINT_EDGE]
    for each in edges:
        yield from ((face, each, Why.BEARS_ON) for face in faces)
    for each in operations:
        if each.kind in _WIDTHS:
            yield from ((first, each, Why.BEARS_ON) for first in (*faces, *edges))
    rips = [each for each in operations if each.kind in _WIDTHS]
    for each in operations:
        if each.stage is Stage.MILL and each.kind is Kind.SQUARE_END:
            yield from ((rip, each, Why.BEARS_ON) for rip in rips)


def _supported_on(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """What a pass bears on or is measured from is made true first."""
    made: dict[Wood, list[Operation]] = defaultdict(list)
    for each in operations:
        for wood in faces_made(unit, each):
            made[wood].append(each)
    for each in operations:
        if each.stage in (Stage.MILL, Stage.PART) or each.kind is Kind.SPLINE_GROOVE:
            continue  # what goes into a slope comes after all that made the part
        for face in faces_used(each.hold, each.setting):
            for name in _measured_on(unit, each, face):
                for maker in made[(name, face)]:
                    yield maker, each, Why.END_FIRST if face in ENDS else Why.WIDTH_FIRST


def _sawn_off(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """Ends are sawn off edges and off the other end, which were made true in milling."""
    for first in operations:
        if first.stage is Stage.MILL and first.setting is not None:
            for each in operations:
                if each.stage is Stage.PART:
                    is_end = first.kind is Kind.SQUARE_END
                    yield first, each, Why.END_FIRST if is_end else Why.EDGES_BEFORE_MITRES


def _measured_on(unit: Unit, operation: Operation, face: Face) -> tuple[str, ...]:
    """The instances whose face it is: an end of the unit is that of its outermost member."""
    names = _instances(unit, operation)
    if face not in ENDS or len(names) == 1:
        return names
    if operation.stage is Stage.PART:  # parted off, or trimmed, at the member that it makes
        return (
            tuple(each.instance for each in operation.sizes) or (operation.cuts[0].instance,)
            if operation.cuts or operation.sizes
            else ()
        )
    return (unit.members[-1 if face.is_far else 0].instance,)


def faces_made(unit: Unit, operation: Operation) -> Iterator[Wood]:
    """The faces that an operation makes true."""
    setting = operation.setting
    names = _instances(unit, operation)
    if isinstance(setting, Surface) or (
        isinstance(setting, Skim) and operation.kind is Kind.JOINT_EDGE
    ):
        yield from ((name, setting.face) for name in names)
    elif isinstance(setting, Skim) and setting.face in ENDS:
        name = operation.cuts[0].instance if operation.cuts else None
        outer = unit.members[-1 if setting.face.is_far else 0].instance
        yield (name or (outer if operation.stage is Stage.MILL else names[0]), setting.face)
    elif isinstance(setting, Parallel):
        yield from ((name, setting.off.opposite) for name in names)
    elif isinstance(setting, Slice):
        face = setting.off.opposite
        owners = tuple(each.instance for each in operation.sizes) or names
        yield from ((name, face) for name in owners)


def _is_long(operation: Operation) -> bool:
    """Whether it runs along the grain from end to end."""
    setting = operation.setting
    if isinstance(setting, Trench):
        return setting.along == 0 and not (setting.whole_low_mm or setting.whole_high_mm)
    return operation.kind is Kind.BEVEL


def _whole_first(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """What is done to the whole unit, and what runs along it, comes before it is sawn apart."""
    parts = [each for each in operations if each.stage is Stage.PART]
    for each in operations:
        if each.takes != (unit.id,) or each.stage not in (Stage.MILL, Stage.JOIN):
            continue
        for part in parts:
            if _is_long(each):
                is_mitre = part.kind is Kind.MITRE
                yield each, part, Why.LONG_CUTS_BEFORE_MITRES if is_mitre else Why.LONG_FIRST
            elif each.kind is Kind.END_BORE and unit.is_common:
                if part.kind is Kind.MITRE or not off_both_ends(unit):
                    yield each, part, Why.BORES_BEFORE_MITRES
            elif unit.is_common:
                yield each, part, Why.LONG_FIRST
            elif each.kind in _WIDTHS and part.kind is Kind.MITRE:
                yield each, part, Why.EDGES_BEFORE_MITRES


def _apart(operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """From the ends inwards, and a part's own work when it is off."""
    parts = [each for each in operations if each.stage is Stage.PART]
    sawn = [each for each in parts if each.kind is not Kind.END_BORE]
    for first, second in pairwise(sawn):
        yield first, second, Why.OUTSIDE_IN
    for at, each in enumerate(parts):
        if each.kind is Kind.END_BORE:  # in an end that the cut before it leaves
            before, beyond = parts[:at][::-1], parts[at:]
            yield next(cut for cut in before if cut in sawn), each, Why.END_FIRST
            yield each, next(cut for cut in beyond if cut in sawn), Why.BORES_BEFORE_MITRES
    for each in parts:
        for name in each.gives:
            if name not in each.takes:
                for other in operations:
                    if other.takes == (name,) and other is not each:
                        yield each, other, Why.SAME_WOOD


def _thickness(operations: tuple[Operation, ...]) -> Iterator[Pair]:
    known = [
        each
        for each in operations
        if each.kind is Kind.MEASURE or any(size.axis is Axis.THICKNESS for size in each.sizes)
    ]
    for each in operations:
        if each.kind is Kind.MEASURE:
            planed = (other for other in operations if other.kind in _THICKNESSED)
            yield from ((other, each, Why.READ_LAST) for other in planed)
        if each.kind in _TRENCHES or each.kind is Kind.END_BORE:
            for measured in dict.fromkeys(known):
                yield measured, each, Why.THICKNESS_FIRST


def _eased_last(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """Profiles after all that needs a sharp edge or a flat one; ends before long edges."""
    eased = [each for each in operations if each.kind is Kind.PROFILE]
    for profile in eased:
        names = _instances(unit, profile)
        for each in operations:
            if each is profile or not set(names) & set(_instances(unit, each)):
                continue
            if each.stage is Stage.PART and each.takes == (unit.id,) != profile.takes:
                continue  # it is off by then, and came off before its profile
            if each.kind is Kind.PROFILE:
                if _run_axis(each) != 0 and _run_axis(profile) == 0:
                    yield each, profile, Why.END_GRAIN_FIRST
            elif each.kind in (Kind.BORE, Kind.SLOT, Kind.END_BORE):
                yield each, profile, Why.BORES_BEFORE_PROFILES
            else:
                yield each, profile, Why.PROFILE_LAST


def _run_axis(operation: Operation) -> int:
    setting = operation.setting
    return setting.arris.run_axis if isinstance(setting, Easing) else 0


def _into_slopes(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """What goes into a slope, or is marked from it, comes after the ends and edges it needs."""
    for each in operations:
        if each.kind in (Kind.SHAPE, Kind.SPLINE_GROOVE):
            (name,) = {cut.instance for cut in (*each.cuts, *each.begins)}
            for other in operations:
                makes = {cut.instance for cut in other.cuts}
                makes |= {size.instance for size in other.sizes}
                if other.stage is Stage.MILL or (other.stage is Stage.PART and name in makes):
                    yield other, each, Why.SLOPE_FIRST


def _trimmed_last(operations: tuple[Operation, ...]) -> Iterator[Pair]:
    for late in operations:
        if late.kind is Kind.TRIM:
            for each in operations:
                if each.stage is not Stage.TRIM:
                    yield each, late, Why.TRIMMED_AFTER


def _chopped_out(operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """What a round cutter began is chopped square within it."""
    for first in operations:
        for each in operations:
            if set(first.begins) & set(each.cuts):
                yield first, each, Why.DEPTH_FIRST


def _points_first(unit: Unit, operations: tuple[Operation, ...]) -> Iterator[Pair]:
    """Of holes that run into one another the one whose middle the other takes comes first."""
    bored: dict[CutOf, Operation] = {}
    for each in operations:
        if isinstance(each.setting, Bored):
            for cut in (*each.begins, *each.cuts):
                bored.setdefault(cut, each)
    parts = {member.instance: member.part for member in unit.members}
    for cut, each in bored.items():
        for at in bored_before(parts[cut.instance], cut.index):
            first = bored.get(CutOf(cut.instance, at))
            if first is not None:
                yield first, each, Why.POINT_FIRST
