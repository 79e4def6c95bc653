"""Whether blades have room at mitred corners: a tilted one in a mitre, and one under a cradle.

What the saw is set to is rebuilt from its dials alone, and must take what the setting says. What a
cradle measures is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from manifold3d import Manifold

from furniture.making.operations import Operation
from furniture.making.set_ups import Dial, standing_of
from furniture.making.settings import CornerSlot, Guide, Machine, MitreGroove
from furniture.parts.faces import Face
from tests.making.bodies import FAR_MM, Prism, Standing, back, corner_frame, mitre_groove
from tests.making.history import Moment
from tests.making.order import Fault
from tests.making.passes import end_of, inwards, level
from tests.making.replay import LIGHT, BodyStep
from tests.making.targets import SAME_MM3

CRADLE_MM = 12.0
"""Of wood below the corner, through which the blade comes."""
SAWS_MM = 75.0
"""As far as a blade rises above the table."""
STOP_MM = 60.0
"""So far round the corner the stop reaches."""
STANDS_OUT_MM3 = 20.0
"""Wood that stands out by less is pressed flat, or lies beside the cradle."""


def groove_faults(moments: Sequence[Moment]) -> Iterator[Fault]:
    """Grooves in a mitre that the dials of the saw would cut elsewhere, or too high."""
    for each in moments:
        operation, wood = each.operation, each.step.before
        setting, rig = operation.setting, operation.rig
        if not isinstance(setting, MitreGroove) or rig is None:
            continue
        if rig.machine is not Machine.TABLE_SAW:
            continue
        dials = dict(getattr(standing_of(operation), "figures", ()))
        if dials[Dial.HEIGHT] > SAWS_MM * math.cos(math.radians(rig.tilt_deg)):
            yield Fault(operation.key, "the blade does not rise so high")
        swept = wood ^ _tilted(wood, operation, setting, dials)
        asked = wood ^ mitre_groove(wood, setting, LIGHT)
        apart = float((swept - asked).volume() + (asked - swept).volume())
        if apart > SAME_MM3:
            yield Fault(operation.key, f"what is dialled cuts {apart:.1f} mm3 elsewhere")


def _tilted(
    wood: Manifold, operation: Operation, setting: MitreGroove, dials: Mapping[Dial, float]
) -> Manifold:
    """What a blade sweeps that leans towards the stop, from below the table to its height."""
    hold, rig = operation.hold, operation.rig
    assert rig is not None
    assert hold.stop is not None
    assert hold.down is not None
    tilt = math.radians(rig.tilt_deg)
    up, away = np.zeros(3), np.zeros(3)
    up[hold.down.axis], away[hold.stop.axis] = inwards(hold.down), inwards(hold.stop)
    table = np.zeros(3)
    table[hold.down.axis] = level(wood, hold.down)
    start = end_of(wood, hold.stop, hold.down.opposite) + inwards(hold.stop) * dials[Dial.STOP]
    table[hold.stop.axis] = start
    blade, square = up * math.cos(tilt) - away * math.sin(tilt), np.zeros(3)
    square = away * math.cos(tilt) + up * math.sin(tilt)
    beyond = table + away * setting.width_mm / math.cos(tilt)
    tip = beyond + blade * dials[Dial.HEIGHT] / math.cos(tilt)
    deep = tip - blade * FAR_MM
    outline = (tip, tip - square * setting.width_mm, deep - square * setting.width_mm, deep)
    run = np.zeros(3)
    run[3 - hold.down.axis - hold.stop.axis] = 1.0
    return Prism(tuple(each - run * FAR_MM * 10 for each in outline), run * FAR_MM * 20).solid()


def cradle_faults(steps: Sequence[BodyStep], standing: Standing) -> Iterator[Fault]:
    """Frames that do not lie in a cradle, blades that do not reach, slots that take no wood."""
    for each in steps:
        if not isinstance(each.operation.setting, CornerSlot):
            continue
        key, setting = each.operation.key, each.operation.setting
        taken = sum(each.before[name].volume() - each.kept[name].volume() for name in each.before)
        if taken < SAME_MM3:
            yield Fault(key, "it takes no wood")
        others = [
            name
            for name in each.before
            if each.before[name].volume() - each.kept[name].volume() > SAME_MM3
            and name not in {cut.instance for cut in each.operation.cuts}
        ]
        if others:
            yield Fault(key, f"the cutter meets {', '.join(others)}")
        rig = each.operation.rig
        if rig is None or rig.guide is not Guide.CRADLE:
            continue
        if setting.depth_mm + CRADLE_MM > SAWS_MM:
            yield Fault(key, "the blade does not rise so high through the cradle")
        for name in _standing_out(each, standing):
            yield Fault(key, f"{name} stands out, so that the corner does not lie in the cradle")
        for name in _in_the_stops_way(each, setting, standing):
            yield Fault(key, f"{name} stands in the stop's way")


def _standing_out(step: BodyStep, standing: Standing) -> list[str]:
    """What lies beyond an outer face of the corner: of the parts that are slotted there."""
    setting = step.operation.setting
    assert isinstance(setting, CornerSlot)
    at, down, _, _ = _corner_in_piece(step, setting, standing)
    found = []
    rails = {cut.instance for cut in step.operation.cuts}
    for rail in sorted(rails):
        for face in Face:  # its outer face looks away from the frame, across the way into it
            normal = standing[rail][:, :3] @ np.array(face.normal)
            wood = step.before[rail]
            plane = standing[rail] @ np.array([*_on(wood, face), 1.0])
            is_outer = float(normal @ down) < -0.3 and abs(float(normal @ (at - plane))) < 0.01
            if not is_outer:
                continue
            for name, solid in step.before.items():
                beyond = solid.transform(standing[name]).trim_by_plane(
                    normal.tolist(), float(normal @ plane) + 0.1
                )
                if beyond.volume() > STANDS_OUT_MM3:
                    found.append(name)
    return found


def _on(wood: Manifold, face: Face) -> np.ndarray:
    point = np.zeros(3)
    point[face.axis] = level(wood, face)
    return point


def _corner_in_piece(
    step: BodyStep, setting: CornerSlot, standing: Standing
) -> tuple[np.ndarray, ...]:
    matrix = standing[setting.of]
    wood = step.before[setting.of]
    at, *ways = corner_frame(wood, setting.end, setting.long_face, setting.lean_deg)
    return matrix[:, :3] @ at + matrix[:, 3], *(matrix[:, :3] @ way for way in ways)


def _in_the_stops_way(step: BodyStep, setting: CornerSlot, standing: Standing) -> list[str]:
    """What stands out over the face at the stop, near the corner."""
    wood = step.before[setting.of]
    at, *_ = corner_frame(wood, setting.end, setting.long_face, setting.lean_deg)
    face = setting.off
    edge = level(wood, face) - inwards(face) * 0.1
    low, high = at - STOP_MM, at + STOP_MM
    low[face.axis], high[face.axis] = sorted((edge, edge - inwards(face) * STOP_MM))
    block = Manifold.cube((high - low).tolist()).translate(low.tolist())
    there = back(standing[setting.of])
    found = []
    for name, solid in step.before.items():
        turn = np.column_stack(
            [there[:, :3] @ standing[name][:, :3],
             there[:, :3] @ standing[name][:, 3] + there[:, 3]]
        )  # fmt: skip
        if (solid.transform(turn) ^ block).volume() > STANDS_OUT_MM3:
            found.append(name)
    return found
