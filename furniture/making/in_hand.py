"""Whether wood is large enough in hand for a machine, and what does the work where it is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from furniture.making import rigs
from furniture.making.operations import InHand, Kind, Operation, Stage
from furniture.making.settings import Guide, Machine, Parallel, Skim, Slice, Surface, Trench
from furniture.making.units import Unit
from furniture.parts.faces import ENDS, Face
from furniture.shop.cutting.values import Saw
from furniture.shop.tools.values import Bed, ShopRead

_SAME = 1e-6


def in_hand_of(
    unit: Unit, operations: Iterable[Operation], saw: Saw
) -> Iterator[tuple[Operation, InHand]]:
    """Each operation of a unit with the wood that it has in hand, as the unit grows smaller.

    Args:
        unit: as it comes off its board.
        operations: all of it, stage by stage in the order in which they are made.
        saw: that it is sawn apart with.
    """
    members = {each.instance: each for each in unit.members}
    last = unit.members[-1].end_mm
    left, right = -unit.left.low[0], last + unit.left.high[0]
    wide = unit.blank.width_mm + unit.left.low[1] + unit.left.high[1]
    thick = unit.blank.thickness_mm + unit.left.low[2] + unit.left.high[2]
    for each in operations:
        wood = each.takes[0]
        is_whole = wood == unit.id or each.stage is Stage.PART
        length = right - left if is_whole else members[wood].part.blank.length_mm
        yield each, InHand(length_mm=length, width_mm=wide, thickness_mm=thick)
        if each.kind is Kind.JOINT_FACE:
            thick -= unit.left.low[2]
        elif each.kind is Kind.PLANE:
            thick = unit.blank.thickness_mm
        elif each.kind is Kind.JOINT_EDGE:
            wide -= unit.left.low[1]
        elif each.kind is Kind.RIP:
            wide = unit.blank.width_mm
        elif isinstance(each.setting, Skim) and each.setting.face in ENDS:
            if each.setting.face.is_far:
                right = min(right, _last_of(unit, left, right))
            else:
                left = max(left, _first_of(unit, left, right))
        elif len(each.gives) > 1:
            gone = members[each.gives[0]]
            if each.hold.stop is Face.FAR_END:
                right = gone.at_mm - saw.kerf
            else:
                left = gone.end_mm + saw.kerf
        elif isinstance(each.setting, Slice) and each.stage in (Stage.PART, Stage.TRIM):
            left, right = members[wood].at_mm, members[wood].end_mm


def _first_of(unit: Unit, left: float, right: float) -> float:
    """Where the first member still in hand begins [mm]."""
    return min(each.at_mm for each in unit.members if left - _SAME < each.end_mm <= right + _SAME)


def _last_of(unit: Unit, left: float, right: float) -> float:
    """Where the last member still in hand ends [mm]."""
    return max(each.end_mm for each in unit.members if left - _SAME <= each.at_mm < right + _SAME)


def within_limits(operation: Operation, wood: InHand, shop: ShopRead) -> Operation:
    """The operation as it is, or by the next tool where the wood is too small for the machine.

    Args:
        operation: on that wood.
        wood: as it is in hand.
        shop: what is on hand, and the limits that it keeps.
    """
    known = replace(operation, in_hand=wood)
    if operation.rig is None or not is_too_small(operation, wood, shop):
        return known
    return _by_hand(known)


def is_too_small(operation: Operation, wood: InHand, shop: ShopRead) -> bool:
    """Whether there is no such machine, or its limits keep that wood from it."""
    rig, setting, saw = operation.rig, operation.setting, shop.saw
    if rig is None:
        return False
    match rig.machine:
        case Machine.JOINTER:
            return _refuses(shop.jointer, wood, wood.thickness_mm)
        case Machine.PLANER:
            return _refuses(shop.planer, wood, wood.width_mm)
        case Machine.TABLE_SAW if rig.guide is Guide.FENCE:
            is_narrow = operation.kind is Kind.RIP and wood.width_mm < saw.narrowest_rip
            return wood.length_mm < saw.shortest_rip or is_narrow
        case Machine.TABLE_SAW if isinstance(setting, Slice | Skim | Trench):
            return max(wood.length_mm, wood.width_mm) < saw.shortest_crosscut
        case _:
            return False


def _refuses(bed: Bed | None, wood: InHand, on_bed_mm: float) -> bool:
    """Whether a machine is wanting or takes no such wood, with that face on its bed [mm]."""
    if bed is None:
        return True
    return bool(bed.refuses(wood.length_mm, on_bed_mm, wood.thickness_mm))


def _by_hand(operation: Operation) -> Operation:
    """The same pass by the next tool: the hand plane, the router table or the hand saw."""
    setting = operation.setting
    if isinstance(setting, Surface | Parallel):
        return replace(operation, rig=rigs.HAND_PLANED)
    if operation.kind is Kind.RIP and isinstance(setting, Slice):
        planed = Parallel(off=setting.off, at_mm=setting.at_mm)
        return replace(operation, rig=rigs.HAND_PLANED, setting=planed, kind=Kind.PLANE_WIDTH)
    if isinstance(setting, Trench):
        return replace(operation, rig=rigs.BY_HAND)
    return replace(operation, rig=rigs.HAND_SAWN)
