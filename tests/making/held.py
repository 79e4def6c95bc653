"""The wood in hand at each pass as the replay has it, and whether the shop's machines take it.

What an operation says is in hand is compared with the boxes of another kernel's solids, every
machine is asked with the limits of the shop, and what is done otherwise says why, truly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from manifold3d import Manifold

from furniture.making.operations import Kind, Operation
from furniture.making.settings import (
    Bored,
    Guide,
    Machine,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import WIDE_FACES
from furniture.shop.tools.values import Bed, ShopRead, TooMuch
from tests.making.history import Moment
from tests.making.order import Fault

_SAME_MM = 0.001
_FOR_A_MACHINE = frozenset(
    {
        Kind.JOINT_FACE, Kind.JOINT_EDGE, Kind.PLANE, Kind.RIP, Kind.PLANE_WIDTH, Kind.CROSSCUT,
        Kind.SQUARE_END, Kind.MITRE, Kind.BEVEL, Kind.TRIM, Kind.RABBET, Kind.GAIN, Kind.GROOVE,
        Kind.DADO, Kind.MORTISE,
    }
)  # fmt: skip
"""What a machine does best."""
_RIPPED = frozenset({Kind.RIP, Kind.PLANE_WIDTH})
"""What the saw would part along its fence; a width is planed where it would not."""


def held_faults(moments: Sequence[Moment], shop: ShopRead) -> Iterator[Fault]:
    """Every pass with wood that it does not say, or that its machine does not take."""
    for each in moments:
        yield from _told_otherwise(each)
        yield from _not_taken(each, shop)
        yield from _unsaid(each, shop)
        yield from _guided_otherwise(each)
        yield from _another_blade(each, shop)


def _size(moment: Moment) -> tuple[float, float, float]:
    """The wood along the grain, across it and through it [mm]."""
    box = moment.step.before.bounding_box()
    return box[3] - box[0], box[4] - box[1], box[5] - box[2]


def _told_otherwise(moment: Moment) -> Iterator[Fault]:
    operation, there = moment.operation, _size(moment)
    told = operation.in_hand
    if told is None:
        yield Fault(operation.key, "it does not say how large the wood in hand is")
        return
    said = (told.length_mm, told.width_mm, told.thickness_mm)
    if any(abs(a - b) > _SAME_MM for a, b in zip(said, there, strict=True)):
        words = [" x ".join(f"{each:.2f}" for each in size) for size in (said, there)]
        yield Fault(operation.key, f"in hand is said to be {words[0]} and is {words[1]}")


def _not_taken(moment: Moment, shop: ShopRead) -> Iterator[Fault]:
    rig = moment.operation.rig
    if rig is not None:
        for why in _refusals(rig.machine, rig.guide, moment, shop):
            yield Fault(moment.operation.key, f"{rig.machine.value}: {why}")


def _refusals(
    machine: Machine, guide: Guide | None, moment: Moment, shop: ShopRead
) -> Iterator[str]:
    """Why a machine does not take the wood of a pass; a guide of None is the better one."""
    length, width, thick = _size(moment)
    setting, saw = moment.operation.setting, shop.saw
    if machine is Machine.JOINTER:
        is_wide = isinstance(setting, Surface | Skim) and setting.face in WIDE_FACES
        yield from _off_the_bed(shop.jointer, length, width if is_wide else thick, thick)
    elif machine is Machine.PLANER:
        left = setting.at_mm if isinstance(setting, Parallel) else thick
        yield from _off_the_bed(shop.planer, length, width, left)
    elif machine is Machine.TABLE_SAW and guide is Guide.FENCE:
        if length < saw.shortest_rip_mm:
            yield TooMuch.SHORT.value
        if moment.operation.kind in _RIPPED and width < saw.narrowest_rip_mm:
            yield TooMuch.NARROW.value
    elif machine is Machine.DRILL_PRESS and isinstance(setting, Bored):
        if _starts_in_air(moment, setting):
            yield TooMuch.NO_WOOD.value
            return
        if min(_from_sides(setting, moment)) > shop.drills.throat_mm:
            yield TooMuch.FAR_IN.value
        if (length, width, thick)[setting.face.axis] > shop.drills.tallest_mm:
            yield TooMuch.TALL.value
        deep = setting.depth_mm or (length, width, thick)[setting.face.axis]
        yield from [TooMuch.DEEP.value] * (deep > shop.drills.travel_mm)
    elif machine is Machine.ROUTER and isinstance(setting, Bored) and shop.bits is not None:
        deep = setting.depth_mm or (length, width, thick)[setting.face.axis]
        yield from [TooMuch.DEEP.value] * (deep > shop.bits.deepest_mm)
    elif machine is Machine.TABLE_SAW and isinstance(setting, Slice | Skim | Trench):
        yield from [TooMuch.SHORT.value] * (max(length, width) < saw.shortest_crosscut_mm)


def _starts_in_air(moment: Moment, setting: Bored) -> bool:
    """Whether no wood is where a drill's point would start, and some of the bore is still wood."""
    wood, axis = moment.step.before, setting.face.axis
    box = wood.bounding_box()
    at = np.zeros(3)
    for off, far in zip(setting.off, setting.at_mm, strict=True):
        at[off.axis] = box[off.axis + 3] - far if off.is_far else box[off.axis] + far
    at[axis] = box[axis + 3] - 1.0 if setting.face.is_far else box[axis] + 1.0

    def share(wide_mm: float) -> float:
        there = Manifold.cube((wide_mm, wide_mm, wide_mm), True).translate(at.tolist())
        return float((there ^ wood).volume() / there.volume())

    return setting.to_mm is None and share(0.4) < 0.01 < share(0.7 * setting.diameter_mm)


def _from_sides(setting: Bored, moment: Moment) -> Iterator[float]:
    """From a bore's middle to each side of the wood, across the face that it goes into [mm]."""
    box = moment.step.before.bounding_box()
    for off, at in zip(setting.off, setting.at_mm, strict=True):
        yield at
        yield box[off.axis + 3] - box[off.axis] - at


def _off_the_bed(bed: Bed | None, length: float, on_bed: float, thick: float) -> Iterator[str]:
    """Written out again: the bed's own answer is what is asked after."""
    if bed is None:
        yield "there is none"
        return
    if length < bed.shortest_mm - _SAME_MM:
        yield TooMuch.SHORT.value
    if on_bed > bed.widest_mm + _SAME_MM:
        yield TooMuch.WIDE.value
    if thick < bed.thinnest_mm - _SAME_MM:
        yield TooMuch.THIN.value


def _unsaid(moment: Moment, shop: ShopRead) -> Iterator[Fault]:
    """Work that a machine does best is done by hand only where it says so, and that is true."""
    operation = moment.operation
    refused, rig = operation.refused, operation.rig
    by_hand = rig is not None and rig.machine is Machine.BENCH
    if refused is None:
        if by_hand and operation.kind in _FOR_A_MACHINE and operation.wanting is None:
            yield Fault(operation.key, "by hand, and it does not say why")
        return
    guide = _first_guide(operation) if refused.machine is Machine.TABLE_SAW else None
    there = set(_refusals(refused.machine, guide, moment, shop))
    said = {each.value for each in refused.why} or {"there is none"}
    if said != there:
        yield Fault(operation.key, f"refused for {sorted(said)}, truly for {sorted(there)}")


_GUIDED_BY = {
    Machine.JOINTER: {Guide.FENCE},
    Machine.PLANER: {Guide.BED},
    Machine.ROUTER_TABLE: {Guide.FENCE, Guide.CRADLE},
}
"""What these machines have to guide wood."""


def _guided_otherwise(moment: Moment) -> Iterator[Fault]:
    """Wood goes past a machine as that guides it, and is ripped on a sled only for a reason."""
    operation = moment.operation
    rig = operation.rig
    if rig is None:
        return
    if rig.guide not in _GUIDED_BY.get(rig.machine, {rig.guide}):
        yield Fault(operation.key, f"a {rig.machine.value} has no {rig.guide.value}")
    if rig.guide is Guide.SLED and operation.kind in _RIPPED and operation.refused is None:
        yield Fault(operation.key, "it is ripped on a sled, and nothing keeps it from the fence")


def _another_blade(moment: Moment, shop: ShopRead) -> Iterator[Fault]:
    """A blade takes its own kerf, whatever else is set."""
    rig, setting = moment.operation.rig, moment.operation.setting
    if rig is None or rig.machine is not Machine.TABLE_SAW:
        return
    if isinstance(setting, Slice | Skim) and abs(setting.kerf_mm - shop.saw.kerf_mm) > _SAME_MM:
        yield Fault(moment.operation.key, "its kerf is not that of the saw's blade")


def _first_guide(operation: Operation) -> Guide:
    """How the saw would be asked first: with the grain at its fence, across it on the sled."""
    setting = operation.setting
    is_along = operation.kind in (*_RIPPED, Kind.BEVEL) or (
        isinstance(setting, Trench) and setting.along == 0
    )
    return Guide.FENCE if is_along else Guide.SLED
