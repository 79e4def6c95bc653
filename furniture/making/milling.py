"""From rough wood to a true section: one edge, the width off it, one end."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from furniture.making import rigs
from furniture.making.operations import After, Axis, Kind, Operation, SizeOf, Stage
from furniture.making.parting import is_long_enough_as_it_is, outer_end, trued_ends
from furniture.making.settings import Hold, Parallel, Rig, Setting, Skim, Slice, Surface
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.faces import Face

_CALLED = {Kind.RIP: "width"}
"""What a key calls an operation that another tool may do."""


def is_wide_enough_as_it_is(unit: Unit) -> bool:
    """Whether no wood was left on its width: it is made to size from what lies there."""
    return unit.left.low[1] + unit.left.high[1] <= 0.0


def milling(unit: Unit, kerf_mm: float, edge: Face) -> tuple[Operation, ...]:
    """What makes a rough unit true: its edge, its width and the end that places are struck from.

    Args:
        unit: that is worked.
        kerf_mm: that the saw takes.
        edge: that its places are measured from: it is the first to be true.
    """
    left = unit.left
    rough = left.high[1] if edge.is_far else left.low[1]

    def on_it(kind: Kind, rig: Rig, hold: Hold, setting: Setting, *axes: Axis) -> Operation:
        return Operation(
            key=f"{unit.id}: {_CALLED.get(kind, kind.value)}",
            kind=kind,
            stage=Stage.MILL,
            takes=(unit.id,),
            gives=(unit.id,),
            rig=rig,
            hold=hold,
            setting=setting,
            sizes=tuple(SizeOf(name, axis) for axis in axes for name in unit.instances),
        )

    flat = Face.BACK_SIDE
    found = []
    if rough > 0.0:
        found.append(
            on_it(
                Kind.JOINT_EDGE, rigs.JOINTED, Hold(down=edge, against=Face.FACE_SIDE),
                Surface(face=edge, takes_mm=rough),
            )
        )  # fmt: skip
    if not is_wide_enough_as_it_is(unit):
        found.append(
            on_it(
                Kind.RIP, rigs.RIPPING, Hold(down=flat, against=edge),
                Slice(off=edge, at_mm=unit.blank.width_mm, kerf_mm=kerf_mm), Axis.WIDTH,
            )
        )  # fmt: skip
    for end in trued_ends(unit):
        takes = left.high[0] if end.is_far else left.low[0]
        if takes > 0.0 and outer_end(unit, end).slope is None:
            squared = on_it(
                Kind.SQUARE_END, rigs.SQUARING, Hold(down=flat, against=edge),
                Skim(face=end, takes_mm=takes, kerf_mm=kerf_mm),
            )  # fmt: skip
            found.append(replace(squared, key=f"{unit.id}: square the {end.value}"))
    return tuple(found)


def thicknessed(unit: Unit, has_thickness: bool) -> tuple[Operation, ...]:
    """The unit brought to its thickness, which is read at the calipers: joints follow it.

    Args:
        unit: that is worked.
        has_thickness: whether an earlier operation has brought its board to it.
    """
    sizes = tuple(SizeOf(name, Axis.THICKNESS) for name in unit.instances)
    others = [
        (is_wide_enough_as_it_is(unit), Axis.WIDTH),
        (is_long_enough_as_it_is(unit), Axis.LENGTH),
    ]
    made_so = tuple(
        SizeOf(name, axis) for is_so, axis in others if is_so for name in unit.instances
    )
    low, high = unit.left.low[2], unit.left.high[2]
    found: list[Operation] = []

    def on_it(key: str, kind: Kind, **more: Any) -> Operation:
        return Operation(
            key=f"{unit.id}: {key}", kind=kind, stage=Stage.MILL, takes=(unit.id,),
            gives=(unit.id,), after=tuple(After(each.key, Why.FLAT_FIRST) for each in found),
            **more,
        )  # fmt: skip

    if low > 0.0:
        found.append(
            on_it(
                "joint a face", Kind.JOINT_FACE, rig=rigs.JOINTED, hold=Hold(down=Face.BACK_SIDE),
                setting=Surface(face=Face.BACK_SIDE, takes_mm=low),
            )
        )  # fmt: skip
    if high > 0.0:
        found.append(
            on_it(
                "plane", Kind.PLANE, rig=rigs.PLANED, hold=Hold(down=Face.BACK_SIDE), sizes=sizes,
                setting=Parallel(off=Face.BACK_SIDE, at_mm=unit.blank.thickness_mm),
            )
        )  # fmt: skip
    is_known = has_thickness or high > 0.0
    found.append(
        on_it(
            "measure the thickness",
            Kind.MEASURE,
            sizes=(*(() if is_known else sizes), *made_so),
        )
    )
    return tuple(found)
