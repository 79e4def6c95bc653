"""Whether wood is large enough in hand for a machine, and what does the work where it is not."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from furniture.making import rigs
from furniture.making.operations import InHand, Kind, Operation, Refused, Stage, Support
from furniture.making.passes import Pass
from furniture.making.settings import (
    Bored,
    Guide,
    Hold,
    Machine,
    Parallel,
    Rig,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.units import Unit
from furniture.parts.faces import ENDS, WIDE_FACES, Face
from furniture.rules import Rules
from furniture.rules.bench import HAND_ZONE, SLED_LENGTH, SLED_WIDTH
from furniture.rules.tools import BASE_BEARS
from furniture.shop.cutting.values import Saw
from furniture.shop.tools.on_hand import long_bit_wanting
from furniture.shop.tools.values import Bed, ShopRead, TooMuch


def in_hand_of(
    unit: Unit, operations: Iterable[Operation], saw: Saw
) -> Iterator[tuple[Operation, InHand]]:
    """Each operation of a unit with the wood that it has in hand, as the unit grows smaller.

    Args:
        unit: as it comes off its board.
        operations: all of it, in the order in which they are made.
        saw: that it is sawn apart with.
    """
    members = {each.instance: each for each in unit.members}
    still = list(unit.members)
    left, right = -unit.left.low[0], still[-1].end_mm + unit.left.high[0]
    wide = unit.blank.width_mm + unit.left.low[1] + unit.left.high[1]
    thick = unit.blank.thickness_mm + unit.left.low[2] + unit.left.high[2]
    for each in operations:
        wood = each.takes[0]
        is_whole = wood == unit.id or each.stage is Stage.PART
        length = right - left if is_whole else members[wood].part.blank.length_mm
        yield each, InHand(length_mm=length, width_mm=wide, thickness_mm=thick)
        if each.kind is Kind.JOINT_FACE:
            thick -= unit.left.low[2]
        elif each.kind is Kind.RESAW and isinstance(each.setting, Slice):
            thick = each.setting.at_mm
        elif each.kind is Kind.PLANE:
            thick = unit.blank.thickness_mm
        elif each.kind is Kind.JOINT_EDGE:
            is_far = each.hold.down is Face.BACK_EDGE
            wide -= unit.left.high[1] if is_far else unit.left.low[1]
        elif each.kind in (Kind.RIP, Kind.PLANE_WIDTH):
            wide = unit.blank.width_mm
        elif isinstance(each.setting, Skim) and each.setting.face in ENDS:
            if each.setting.face.is_far:
                right = min(right, still[-1].end_mm)
            else:
                left = max(left, still[0].at_mm)
        elif isinstance(each.setting, Slice) and len(each.gives) > 1:
            gone = members[each.gives[0]]
            still.remove(gone)
            beyond = _beyond_mm(each.setting, unit)
            if each.hold.stop is Face.FAR_END:
                right = gone.at_mm - beyond
            else:
                left = gone.end_mm + beyond
        elif isinstance(each.setting, Slice):
            left, right = members[wood].at_mm, members[wood].end_mm


def _beyond_mm(setting: Slice, unit: Unit) -> float:
    """How far beyond the long point of what comes off the rest begins, which is longest below it.

    A leaning kerf is as wide along the wood as the kerf over the cosine of its lean; what is left
    has its own long point where the part's short one is, so it may reach back past the cut.
    """
    if setting.long_face is None:
        return setting.kerf_mm
    lean = math.radians(setting.lean_deg)
    return setting.kerf_mm / math.cos(lean) - unit.blank.size[setting.long_face.axis] * math.tan(
        lean
    )


def within_limits(operation: Operation, wood: InHand, shop: ShopRead, rules: Rules) -> Operation:
    """The operation as it is, or by the next tool where the wood is too small for the machine.

    Args:
        operation: on that wood.
        wood: as it is in hand.
        shop: what is on hand, and the limits that it keeps.
        rules: how large wood is that is clamped to a sled.
    """
    known = replace(operation, in_hand=wood, support=_support(operation, wood, shop, rules))
    refused = refused_by(operation, wood, shop)
    if refused is None:
        return known
    return replace(_next_tool(known, wood, shop, rules), refused=refused)


def refused_by(operation: Operation, wood: InHand, shop: ShopRead) -> Refused | None:
    """The machine of an operation, where there is none or its limits keep that wood from it.

    Args:
        operation: on that wood.
        wood: as it is in hand.
        shop: what is on hand, and the limits that it keeps.
    """
    rig, setting, saw = operation.rig, operation.setting, shop.saw
    if rig is None:
        return None
    match rig.machine:
        case Machine.JOINTER:
            is_wide = isinstance(setting, Surface) and setting.face in WIDE_FACES
            on_bed = wood.width_mm if is_wide else wood.thickness_mm
            return _refused(rig.machine, shop.jointer, wood, on_bed)
        case Machine.PLANER:
            left = setting.at_mm if isinstance(setting, Parallel) else wood.thickness_mm
            planed = replace(wood, thickness_mm=left)
            return _refused(rig.machine, shop.planer, planed, wood.width_mm)
        case Machine.TABLE_SAW if rig.guide is Guide.FENCE:
            is_narrow = operation.kind is Kind.RIP and wood.width_mm < saw.narrowest_rip_mm
            why = (
                (wood.length_mm < saw.shortest_rip_mm, TooMuch.SHORT),
                (is_narrow, TooMuch.NARROW),
            )
        case Machine.TABLE_SAW if isinstance(setting, Slice | Skim | Trench):
            is_short = max(wood.length_mm, wood.width_mm) < saw.shortest_crosscut_mm
            why = ((is_short, TooMuch.SHORT), (False, TooMuch.NARROW))
        case Machine.DRILL_PRESS if isinstance(setting, Bored):
            is_far = _further_in(setting, wood) > shop.drills.throat_mm
            is_tall = _size(wood)[setting.face.axis] > shop.drills.tallest_mm
            why = ((is_far, TooMuch.FAR_IN), (is_tall, TooMuch.TALL))
        case Machine.ROUTER if isinstance(setting, Bored) and shop.bits is not None:
            deep = setting.depth_mm or _size(wood)[setting.face.axis]
            why = ((deep > shop.bits.deepest_mm, TooMuch.DEEP), (False, TooMuch.SHORT))
        case _:
            return None
    found = tuple(each for is_so, each in why if is_so)
    return Refused(machine=rig.machine, why=found) if found else None


def _size(wood: InHand) -> tuple[float, float, float]:
    return wood.length_mm, wood.width_mm, wood.thickness_mm


def _further_in(setting: Bored, wood: InHand) -> float:
    """How far a bore's middle lies from the nearest side of the wood: the column stands there."""
    size = _size(wood)
    return min(
        each
        for off, at in zip(setting.off, setting.at_mm, strict=True)
        for each in (at, size[off.axis] - at)
    )


def _support(operation: Operation, wood: InHand, shop: ShopRead, rules: Rules) -> Support | None:
    """Half of a router's base must bear on the face, half-way along the cut, or it tips; hands keep
    off a table's bit."""
    rig, setting = operation.rig, operation.setting
    if rig is not None and rig.machine is Machine.ROUTER_TABLE and rig.guide is not Guide.CRADLE:
        is_small = max(wood.length_mm, wood.width_mm) < rules[HAND_ZONE]
        return Support.CARRIED if is_small else None
    if rig is None or rig.machine is not Machine.ROUTER or shop.bits is None:
        return None
    if not isinstance(setting, Trench | Bored):
        return None
    share = base_bears(shop.bits.base_mm / 2.0, _sides_of_base(setting, wood))
    return Support.PACKED if share < rules[BASE_BEARS] else None


Reach = tuple[float, float]


def _sides_of_base(setting: Trench | Bored, wood: InHand) -> tuple[Reach, Reach]:
    """How far the face reaches from the bit both ways, along both of its sides [mm]."""
    size = _size(wood)
    first, second = (axis for axis in range(3) if axis != setting.face.axis)
    at = {
        off.axis: mm
        for off, mm in (
            zip(setting.off, setting.at_mm, strict=True)
            if isinstance(setting, Bored)
            else [(setting.off, setting.near_mm + setting.width_mm / 2.0)]
        )
    }
    if isinstance(setting, Trench):
        whole = setting.whole_low_mm - setting.whole_high_mm
        at[setting.along] = (size[setting.along] + whole) / 2.0
    return (
        (at[first], size[first] - at[first]),
        (at[second], size[second] - at[second]),
    )


def base_bears(radius_mm: float, reach: tuple[Reach, Reach]) -> float:
    """The share of a round base that lies on a rectangle.

    Args:
        radius_mm: of the base [mm].
        reach: of the rectangle from the base's middle, both ways along either side [mm].

    **Source:** own derivation: four quarters of a disc, each cut off at two sides.
    """
    quarters = math.fsum(_quarter(radius_mm, x, y) for x in reach[0] for y in reach[1])
    return quarters / (math.pi * radius_mm**2)


def _quarter(radius: float, wide: float, high: float) -> float:
    """What of a quarter of a disc lies within two sides."""
    wide, high = min(max(wide, 0.0), radius), min(max(high, 0.0), radius)
    level = math.sqrt(radius**2 - high**2)
    if level >= wide:
        return wide * high

    def under(x: float) -> float:
        return (x * math.sqrt(max(radius**2 - x**2, 0.0)) + radius**2 * math.asin(x / radius)) / 2

    return high * level + under(wide) - under(level)


def _refused(machine: Machine, bed: Bed | None, wood: InHand, on_bed_mm: float) -> Refused | None:
    """Whether a machine is wanting or takes no such wood, with that face on its bed [mm]."""
    if bed is None:
        return Refused(machine=machine)
    why = bed.refuses(wood.length_mm, on_bed_mm, wood.thickness_mm)
    return Refused(machine=machine, why=why) if why else None


def _next_tool(operation: Operation, wood: InHand, shop: ShopRead, rules: Rules) -> Operation:
    """The same pass by the next tool: the saw without its fence, the hand plane, the hand saw.

    Short wood is clamped to the sled, which carries it past the blade, and so is ripped and sawn
    straight; long wood is sawn straight on a carrier. Common practice, no source.
    """
    setting = operation.setting
    if isinstance(setting, Bored):
        return _bored_otherwise(operation, setting, wood, shop)
    on_sled = _lies_on_the_sled(wood, shop.saw, rules)
    if operation.kind is Kind.JOINT_EDGE and isinstance(setting, Surface):
        guide = Guide.SLED if on_sled else Guide.CARRIER if _is_ripped(wood, shop.saw) else None
        if guide is not None:
            return replace(
                operation,
                rig=rigs.sawn(guide),
                hold=Hold(down=Face.BACK_SIDE),
                setting=Skim(
                    face=setting.face, takes_mm=setting.takes_mm, kerf_mm=shop.saw.kerf_mm
                ),
            )
    if isinstance(setting, Surface | Parallel):
        return replace(operation, rig=rigs.HAND_PLANED)
    if operation.kind is Kind.RIP and isinstance(setting, Slice):
        if on_sled:
            return replace(operation, rig=rigs.SQUARING)
        planed = Parallel(off=setting.off, at_mm=setting.at_mm)
        return replace(operation, rig=rigs.HAND_PLANED, setting=planed, kind=Kind.PLANE_WIDTH)
    if isinstance(setting, Trench):
        return _channelled_otherwise(operation, setting, wood, shop, rules)
    return replace(operation, rig=rigs.HAND_SHOT)


def _channelled_otherwise(
    operation: Operation, setting: Trench, wood: InHand, shop: ShopRead, rules: Rules
) -> Operation:
    """What is too small for the saw is routed; by hand where no bit does it."""
    if not operation.begins:  # what a head begins, no bit would
        made = rigs.made_with(
            Pass(kind=operation.kind, hold=operation.hold, setting=setting),
            replace(shop, head=None), rules, rigs.NOTHING_SAWN,
        )  # fmt: skip
        if made.begun is None and made.wanting is None:
            routed = replace(operation, rig=made.rig, near_mm=made.near_mm)
            return replace(routed, support=_support(routed, wood, shop, rules))
    return replace(operation, rig=rigs.BY_HAND, near_mm=())


def _bored_otherwise(
    operation: Operation, setting: Bored, wood: InHand, shop: ShopRead
) -> Operation:
    """A hand drill goes where the press does not reach; a slot that no bit reaches by hand."""
    assert operation.rig is not None
    if setting.to_mm is None:
        by_hand = Rig(machine=Machine.BENCH, cutter=operation.rig.cutter, guide=Guide.LINE)
        return replace(operation, rig=by_hand)
    deep = setting.depth_mm or _size(wood)[setting.face.axis]
    is_through = setting.depth_mm is None
    wanting = (
        None if shop.bits is None else long_bit_wanting(shop.bits, deep, is_through=is_through)
    )
    return replace(
        operation, rig=rigs.by_hand_for(setting), near_mm=(), support=None, wanting=wanting
    )


def _lies_on_the_sled(wood: InHand, saw: Saw, rules: Rules) -> bool:
    """Whether it is too short for the fence, and large enough to be clamped to a sled."""
    shortest = max(saw.shortest_crosscut_mm, rules[SLED_LENGTH])
    is_held = wood.length_mm >= shortest and wood.width_mm >= rules[SLED_WIDTH]
    return is_held and wood.length_mm < saw.shortest_rip_mm


def _is_ripped(wood: InHand, saw: Saw) -> bool:
    return wood.length_mm >= saw.shortest_rip_mm and wood.width_mm >= saw.narrowest_rip_mm
