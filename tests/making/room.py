"""Whether blade and head have room among fence, stop and the wood itself at each pass.

Boxes are swept from settings and solids alone. What the saw's parts measure is common practice,
no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from manifold3d import Manifold

from furniture.making.operations import Operation, StopBlock
from furniture.making.settings import CutterKind, Guide, Machine, Skim, Slice, Trench
from furniture.parts.faces import Face
from furniture.shop.tools.values import ShopRead
from tests.making.history import Moment
from tests.making.order import Fault
from tests.making.passes import end_of, inwards, level
from tests.making.replay import LEAST_MM3

PAD_MM = 1.0
"""So near to fence or stop no cutter comes."""
SHOWS_MM = 6.0
"""So far a blade stands above the wood."""
SAWS_MM = 75.0
"""As thick as a saw goes through upright."""
FENCE_MM = (30.0, 60.0)
"""How thick and how high a fence is."""
STOP_MM = (20.0, 40.0, 40.0)
"""A stop block: along the wood, off the fence, high."""
SLED_MM = 900.0
"""How far a sled, with a stand beside it, carries on each side of the blade."""
_FAR_MM = 5000.0
_LIES_MM = 1e-3
Span = tuple[float, float]


def room_faults(moments: Sequence[Moment], shop: ShopRead) -> Iterator[Fault]:
    """Every pass at the saw in which something has no room."""
    for each in moments:
        rig = each.operation.rig
        if rig is None or rig.machine is not Machine.TABLE_SAW or each.operation.is_rough:
            continue
        setting = each.operation.setting
        found: list[str] = []
        if isinstance(setting, Slice | Skim):
            found = [*_blade_faults(each, setting), *_overhang(each, setting)]
        elif isinstance(setting, Trench) and rig.cutter.kind is CutterKind.DADO_HEAD:
            found = [*_head_faults(each, setting, shop)]
        for why in (*found, *_stop_faults(each)):
            yield Fault(each.operation.key, why)


def _box(spans: dict[int, Span]) -> Manifold:
    low = [spans.get(axis, (-_FAR_MM, _FAR_MM))[0] for axis in range(3)]
    high = [spans.get(axis, (-_FAR_MM, _FAR_MM))[1] for axis in range(3)]
    return Manifold.cube([b - a for a, b in zip(low, high, strict=True)]).translate(low)


def _out_of(wood: Manifold, face: Face, start: float, end: float) -> Span:
    """From where to where along a face's axis, told outwards from it."""
    at, way = level(wood, face), -inwards(face)
    low, high = sorted((at + way * start, at + way * end))
    return low, high


def fence_of(wood: Manifold, operation: Operation) -> Manifold:
    """The fence that an edge or a face runs along, standing on the table."""
    down, against = operation.hold.down, operation.hold.against
    if down is None or against is None or down.axis == against.axis:
        return Manifold()
    thick, high = FENCE_MM
    return _box({against.axis: _out_of(wood, against, 0.0, thick),
                 down.axis: _out_of(wood, down, 0.0, -high)})  # fmt: skip


def stop_of(wood: Manifold, operation: Operation) -> Manifold:
    """The block beyond an end, standing on the sled at its fence."""
    down, against, stop = operation.hold.down, operation.hold.against, operation.hold.stop
    if stop is None or down is None or against is None:
        return Manifold()
    along, off, high = STOP_MM
    return _box({stop.axis: _out_of(wood, stop, 0.0, along),
                 against.axis: _out_of(wood, against, 0.0, -off),
                 down.axis: _out_of(wood, down, 0.0, -high)})  # fmt: skip


def blade_of(wood: Manifold, setting: Slice | Skim, down: Face, pad: float = 0.0) -> Manifold:
    """What the blade sweeps over its whole run, from below the table to above the wood."""
    face = setting.off.opposite if isinstance(setting, Slice) else setting.face
    way = -inwards(face)
    longest = setting.long_face or down.opposite
    if isinstance(setting, Slice):
        start = end_of(wood, setting.off, setting.long_face) + way * setting.at_mm
    else:
        start = end_of(wood, face, setting.long_face) - way * setting.takes_mm
    lean = math.radians(setting.lean_deg)
    wide = setting.kerf_mm / math.cos(lean)
    run = next(axis for axis in range(3) if axis not in (face.axis, longest.axis))
    corners = []
    for out in (SHOWS_MM, -abs(level(wood, longest) - level(wood, longest.opposite)) - SHOWS_MM):
        near = start + way * math.tan(lean) * out
        for at in (near - way * pad, near + way * (wide + pad)):
            for along in (-_FAR_MM, _FAR_MM):
                point = [0.0, 0.0, 0.0]
                point[face.axis], point[run] = at, along
                point[longest.axis] = level(wood, longest) - inwards(longest) * out
                corners.append(point)
    return Manifold.hull_points(np.array(corners))


def _blade_faults(moment: Moment, setting: Slice | Skim) -> Iterator[str]:
    operation, step = moment.operation, moment.step
    hold, wood = operation.hold, step.before
    if hold.down is None:
        yield "nothing says what lies on the table"
        return
    rig = operation.rig
    assert rig is not None
    thick = abs(level(wood, hold.down) - level(wood, hold.down.opposite))
    if thick > SAWS_MM * math.cos(math.radians(rig.tilt_deg)):
        yield f"{thick:.1f} mm is thicker than the blade goes through"
    blade = blade_of(wood, setting, hold.down)
    given = [step.kept, step.beyond][: len(operation.gives)]
    if any((blade ^ each).volume() > LEAST_MM3 for each in given):
        yield "the blade goes through what is kept"
    padded = blade_of(wood, setting, hold.down, PAD_MM)
    if rig.guide is Guide.FENCE and (padded ^ fence_of(wood, operation)).volume() > LEAST_MM3:
        yield "the blade runs into the fence"
    if (padded ^ stop_of(wood, operation)).volume() > LEAST_MM3:
        yield "the blade runs into the stop"
    yield from _trapped(moment, setting, blade, given)


def _trapped(
    moment: Moment, setting: Slice | Skim, blade: Manifold, given: Sequence[Manifold]
) -> Iterator[str]:
    """What falls off lies free, and nothing lies under the blade's lean against fence or stop."""
    operation, wood = moment.operation, moment.step.before
    hold, rig = operation.hold, operation.rig
    assert rig is not None
    assert hold.down is not None
    face = setting.off.opposite if isinstance(setting, Slice) else setting.face
    guides = {"fence": hold.against if rig.guide is Guide.FENCE else None, "stop": hold.stop}
    for name, guide in guides.items():
        if guide is None or guide.axis != face.axis:
            continue
        beside = _between(blade, guide, wood)
        for piece in (wood - blade).decompose():
            kept = sum((piece ^ each).volume() for each in given)
            if piece.volume() > LEAST_MM3 and kept < LEAST_MM3 and _meets(piece, beside):
                yield f"what falls off is trapped between blade and {name}"
        if setting.lean_deg and setting.long_face is not None:
            is_long_above = setting.long_face is hold.down.opposite
            is_kept_there = guide is face.opposite
            if setting.long_face.axis == hold.down.axis and is_long_above != is_kept_there:
                yield f"what is at the {name} is trapped under the blade"


def _between(blade: Manifold, guide: Face, wood: Manifold) -> Manifold:
    """All that lies between a guide and the blade."""
    box = blade.bounding_box()
    edge = float(box[guide.axis + (3 if guide.is_far else 0)])
    low, high = sorted((edge, level(wood, guide)))
    return _box({guide.axis: (low, high)})


def _meets(first: Manifold, second: Manifold) -> bool:
    return bool((first ^ second).volume() > LEAST_MM3)


def _overhang(moment: Moment, setting: Slice | Skim) -> Iterator[str]:
    """More of the wood lies on the sled than hangs over: its weight is over what carries it."""
    operation, wood = moment.operation, moment.step.before
    down, rig = operation.hold.down, operation.rig
    if down is None or rig is None or rig.guide is not Guide.SLED:
        return
    face = setting.off.opposite if isinstance(setting, Slice) else setting.face
    box = blade_of(wood, setting, down).bounding_box()
    middle = (box[face.axis] + box[face.axis + 3]) / 2
    carried = wood ^ _box({face.axis: (middle - SLED_MM, middle + SLED_MM)})
    if carried.volume() < wood.volume() / 2:
        yield "more of it hangs over the sled than lies on it"


def _stop_faults(moment: Moment) -> Iterator[str]:
    """The stop meets the wood, at the very point that the cut is measured from."""
    operation, wood = moment.operation, moment.step.before
    stop, setting = operation.hold.stop, operation.setting
    if stop is None:
        return
    if isinstance(setting, Slice) and stop is setting.off:
        there = end_of(wood, stop, setting.long_face)
        if abs(there - level(wood, stop)) > _LIES_MM:
            yield "the stop bears on another point than the cut is measured from"
    bears = wood ^ stop_of(wood, operation).translate(
        [0.05 * (inwards(stop) if axis == stop.axis else 0) for axis in range(3)]
    )
    if bears.volume() < _LIES_MM:
        yield "the stop meets no wood"


def _head_faults(moment: Moment, setting: Trench, shop: ShopRead) -> Iterator[str]:
    """The head below the wood: clear of the stop, and never through what stays whole."""
    operation, wood = moment.operation, moment.step.before
    rig = operation.rig
    assert rig is not None
    assert rig.cutter.size_mm is not None
    wide = rig.cutter.size_mm
    if setting.near_mm > 0.0:
        starts = [setting.near_mm + each for each in operation.near_mm or (0.0,)]
    else:
        starts = [each - wide for each in operation.near_mm or (setting.width_mm,)]
    stop, deep = stop_of(wood, operation), _out_of(wood, setting.face, 30.0, -setting.depth_mm)
    sawn = False
    for start in starts:
        low, high = _out_of(wood, setting.off, -start, -start - wide)
        swept = _box({setting.off.axis: (low - PAD_MM, high + PAD_MM), setting.face.axis: deep})
        sawn = sawn or _meets(swept, stop)
    if sawn and operation.stop_block is not StopBlock.SCRAP:
        yield "the head runs into the stop"
    if operation.stop_block is StopBlock.SCRAP and not sawn:
        yield "its stop is of scrap for nothing"
    if (setting.whole_low_mm or setting.whole_high_mm) and shop.head is not None:
        radius = shop.head.diameter_mm / 2
        reach = math.sqrt(radius**2 - (radius - setting.depth_mm) ** 2)
        if setting.run_out_mm < reach - 0.01:
            yield "the head saws on beyond its mark"
