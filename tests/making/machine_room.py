"""Whether drill press, router and router table have room: column, base and fence laid on solids.

The column is a half space beside the drill, the router's base a disc on the face that it works.
Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
from manifold3d import CrossSection, Manifold

from furniture.making.operations import Operation, Support
from furniture.making.settings import Bored, CutterKind, Guide, Machine, Rig, Trench
from furniture.parts.faces import ENDS
from furniture.shop.tools.values import RouterBits, ShopRead, TooMuch
from tests.making.history import Moment
from tests.making.order import Fault
from tests.making.passes import inwards, level

_FAR_MM = 5000.0
_SPECK_MM3 = 0.05
_SAME_DEEP_MM = 0.02
_ROUTERS = (Machine.ROUTER, Machine.ROUTER_TABLE)
LEAST_BEARS = 0.45
"""The share of a base's disc that bears half-way along a cut: a base with less tips."""


ENOUGH_BEARS = 0.55
"""With so much it stands without help."""


def machine_faults(moments: Sequence[Moment], shop: ShopRead) -> Iterator[Fault]:
    """Every bore and channel for which its machine has no room."""
    for each in moments:
        operation = each.operation
        rig, setting = operation.rig, operation.setting
        if rig is None:
            continue
        is_drilled = isinstance(setting, Bored) and rig.cutter.kind is CutterKind.DRILL
        found = list(_point_faults(each, setting)) if is_drilled else []
        if rig.machine is Machine.DRILL_PRESS and isinstance(setting, Bored):
            found += _press_faults(each, setting, shop)
        elif rig.machine is Machine.ROUTER_TABLE and isinstance(setting, Trench):
            found += [*_table_faults(operation, setting, shop), *_depth(each, shop)]
        elif rig.machine is Machine.ROUTER and isinstance(setting, Trench | Bored):
            found += [*_base_faults(each, setting, shop), *_depth(each, shop)]
            found += _guide_faults(each, rig, setting, shop)
        elif rig.cutter.kind is CutterKind.DADO_HEAD and isinstance(setting, Trench):
            assert shop.head is not None
            found += ["the head does not rise so far"] * (
                setting.depth_mm > shop.head.deepest_mm + 1e-6
            )
        elif operation.refused is not None and TooMuch.FAR_IN in operation.refused.why:
            assert isinstance(setting, Bored)
            if not list(_press_faults(each, setting, shop)):
                found.append("the press would reach it")
        if rig.machine in _ROUTERS and rig.cutter.kind is CutterKind.STRAIGHT_BIT:
            found += _depth_faults(each, shop)
        for why in (*found, *_carrier_faults(each)):
            yield Fault(operation.key, why)


def _point_faults(moment: Moment, setting: Bored) -> Iterator[str]:
    """A drill's point, in the middle of what it bores, starts in wood, or in a hole to follow."""
    wood, refused = moment.step.before, moment.operation.refused
    if setting.to_mm is not None:
        return
    inside = _middle(wood, setting)
    inside[setting.face.axis] += inwards(setting.face) * 1.0
    follows = (
        refused is not None
        and refused.machine is Machine.DRILL_PRESS
        and TooMuch.DEEP in refused.why
    )
    wide = 0.5 * setting.diameter_mm if follows else 0.4
    start = Manifold.cube((wide, wide, wide), True).translate(inside.tolist())
    share = (start ^ wood).volume() / start.volume()
    if follows and share > 0.01:
        yield "there is no hole that it could follow"
    if not follows and share < 0.5 and not _is_on_a_floor(wood, setting):
        yield "its point starts in the air"


def _is_on_a_floor(wood: Manifold, setting: Bored) -> bool:
    """Whether the whole drill meets wood at once, in the flat floor of what is sunk already."""
    axis, middle = setting.face.axis, _middle(wood, setting)
    size = np.full(3, setting.diameter_mm)
    size[axis] = 0.1
    for deep in np.arange(0.1, 8.0, 0.25):
        at = middle.copy()
        at[axis] += inwards(setting.face) * deep
        slab = Manifold.cube(size.tolist(), True).translate(at.tolist())
        share = (slab ^ wood).volume() / slab.volume()
        if share > 0.01:
            at[axis] += inwards(setting.face) * 0.1
            slab = Manifold.cube(size.tolist(), True).translate(at.tolist())
            return bool((slab ^ wood).volume() / slab.volume() > 0.99)
    return False


def _middle(wood: Manifold, setting: Bored) -> np.ndarray:
    at = np.array([level(wood, setting.face)] * 3)
    for off, far in zip(setting.off, setting.at_mm, strict=True):
        at[off.axis] = level(wood, off) + inwards(off) * far
    return at


def _press_faults(moment: Moment, setting: Bored, shop: ShopRead) -> Iterator[str]:
    """The column stands at the throat's distance, on one of four sides, clear of the wood."""
    wood, middle = moment.step.before, _middle(moment.step.before, setting)
    is_free = False
    for axis in {0, 1, 2} - {setting.face.axis}:
        for way in (1.0, -1.0):
            low, high = np.full(3, -_FAR_MM), np.full(3, _FAR_MM)
            if way > 0.0:
                low[axis] = middle[axis] + shop.drills.throat_mm + 1e-6
            else:
                high[axis] = middle[axis] - shop.drills.throat_mm - 1e-6
            column = Manifold.cube((high - low).tolist()).translate(low.tolist())
            is_free = is_free or (wood ^ column).volume() < _SPECK_MM3
    if not is_free:
        yield "the column stands in the wood's way"
    box = wood.bounding_box()
    tall = box[setting.face.axis + 3] - box[setting.face.axis]
    if tall > shop.drills.tallest_mm:
        yield "it does not stand under the drill"
    if (tall if setting.depth_mm is None else setting.depth_mm) > shop.drills.travel_mm + 1e-6:
        yield "the drill does not come down so far"


def _table_faults(operation: Operation, setting: Trench, shop: ShopRead) -> Iterator[str]:
    assert operation.rig is not None
    wide = operation.rig.cutter.size_mm
    assert wide is not None
    if shop.bits is not None and setting.near_mm + wide / 2.0 > shop.bits.reach_mm + 1e-6:
        yield "the table's fence is not so far from the bit"


def _depth(moment: Moment, shop: ShopRead) -> Iterator[str]:
    """No bit cuts deeper than it is long."""
    setting, box = moment.operation.setting, moment.step.before.bounding_box()
    assert isinstance(setting, Trench | Bored)
    deep = setting.depth_mm
    if deep is None:
        deep = box[setting.face.axis + 3] - box[setting.face.axis]
    if shop.bits is not None and deep > shop.bits.deepest_mm + 1e-6:
        yield "the bit is too short for it"


def _depth_faults(moment: Moment, shop: ShopRead) -> Iterator[str]:
    """A straight bit goes down by no more than a pass at once, and in the end to where wood ends.

    How deep that is, is read off the wood that is gone.
    """
    setting, told = moment.operation.setting, moment.operation.depths_mm
    if shop.bits is None or not isinstance(setting, Trench | Bored):
        return
    box = (moment.step.before - moment.step.kept).bounding_box()
    deep = box[setting.face.axis + 3] - box[setting.face.axis]
    depths = told or (deep,)
    for before, after in pairwise((0.0, *depths)):
        if not 0.0 < after - before <= shop.bits.each_pass_mm + _SAME_DEEP_MM:
            yield f"the bit goes down from {before:.2f} to {after:.2f} at once"
    if abs(depths[-1] - deep) > _SAME_DEEP_MM:
        yield f"it ends {depths[-1]:.2f} deep, and the wood that is gone {deep:.2f}"


def _guide_faults(
    moment: Moment, rig: Rig, setting: Trench | Bored, shop: ShopRead
) -> Iterator[str]:
    """A guide rides along an edge that has wood all along the cut, and is set no further out.

    The bit's middle is furthest from it in the last pass, which ends at the far wall.
    """
    if rig.guide is not Guide.EDGE_GUIDE or shop.bits is None:
        return
    wood, wide = moment.step.before, rig.cutter.size_mm
    assert wide is not None
    if isinstance(setting, Trench):
        off, far = setting.off, setting.near_mm + setting.width_mm - wide / 2.0
    else:
        off, far = setting.off[setting.beside], setting.at_mm[setting.beside]
    if far > shop.bits.edge_guide_mm + 1e-6:
        yield "the edge guide is not so long"
    if off in ENDS:
        yield "an end is no edge to ride along"
    box = np.array(wood.bounding_box())
    beside = box.copy()
    beside[off.axis + (0 if off.is_far else 3)] = level(wood, off) + inwards(off) * 0.1
    slab = Manifold.cube((beside[3:] - beside[:3]).tolist()).translate(beside[:3].tolist())
    if (slab ^ wood).volume() < _RIDES * slab.volume():
        yield "the edge that its guide rides along is not there"


_RIDES = 0.5
"""A guide that crosses gaps in its edge still needs half of it. Own rule."""


_HANDS_MM = 150.0
"""**Source:** a saw's manual (manualsdump 276517, p. 27): so far hands stay from a cutter."""


def _carrier_faults(moment: Moment) -> Iterator[str]:
    """What is so small both ways that a hand comes near a table's bit goes past it on a carrier."""
    rig, support = moment.operation.rig, moment.operation.support
    if rig is None or rig.machine is not Machine.ROUTER_TABLE or rig.guide is Guide.CRADLE:
        return
    box = moment.step.before.bounding_box()
    is_small = max(box[3] - box[0], box[4] - box[1]) < _HANDS_MM
    if is_small and support is not Support.CARRIED:
        yield "hands come near the bit: it is on no carrier"
    if support is Support.CARRIED and not is_small:
        yield "it is on a carrier for nothing"


def _base_faults(moment: Moment, setting: Trench | Bored, shop: ShopRead) -> Iterator[str]:
    """Half-way along the cut half of the base bears on the face, else it is packed out."""
    if shop.bits is None:
        return
    share = _bears(moment.step.before, setting, shop.bits)
    packed = moment.operation.support is Support.PACKED
    if share < LEAST_BEARS and not packed:
        yield "the router's base tips: too little of it bears"
    if packed and share > ENOUGH_BEARS:
        yield "it is packed out for nothing"


def _bears(wood: Manifold, setting: Trench | Bored, bits: RouterBits) -> float:
    """The share of the disc over the face's outline, in the middle of the run."""
    box = np.array(wood.bounding_box())
    first, second = (axis for axis in range(3) if axis != setting.face.axis)
    centre = (box[:3] + box[3:]) / 2.0
    if isinstance(setting, Trench):
        near = level(wood, setting.off) + inwards(setting.off) * (
            setting.near_mm + setting.width_mm / 2.0
        )
        centre[setting.off.axis] = near
        low, high = box[setting.along], box[setting.along + 3]
        centre[setting.along] = (low + setting.whole_low_mm + high - setting.whole_high_mm) / 2.0
    else:
        middle = _middle(wood, setting)
        centre[first], centre[second] = middle[first], middle[second]
    outline = CrossSection.square((box[first + 3] - box[first], box[second + 3] - box[second]))
    outline = outline.translate((box[first], box[second]))
    disc = CrossSection.circle(bits.base_mm / 2.0, 96).translate((centre[first], centre[second]))
    return float((disc ^ outline).area() / (math.pi * (bits.base_mm / 2.0) ** 2))
