"""From rough wood to a true section: one edge, the width off it, one end."""

from __future__ import annotations

from dataclasses import dataclass, replace

from furniture.making import rigs
from furniture.making.operations import Axis, Kind, Operation, SizeOf, Stage
from furniture.making.parting import outer_end, trued_ends
from furniture.making.settings import Hold, Rig, Setting, Skim, Slice, Surface
from furniture.making.units import Unit
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector

_CALLED = {Kind.RIP: "width"}
"""What a key calls an operation that another tool may do."""

EDGE_SHARE = 0.5
"""The share of the wood left on a width that the jointer takes; the saw takes the rest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """The wood left beyond a unit's finished size at its low and its high faces [mm]."""

    low: Vector
    high: Vector


def left_on(unit: Unit) -> Left:
    """What rough wood has beyond the finished unit, as it is broken out or bought."""
    long, wide = unit.rough.length_mm, unit.rough.width_mm
    return Left(
        low=(long / 2, wide * EDGE_SHARE, 0.0),
        high=(long / 2 + unit.held_mm, wide * (1.0 - EDGE_SHARE), 0.0),
    )


def milling(unit: Unit, kerf_mm: float) -> tuple[Operation, ...]:
    """What makes a rough unit true: its edge, its width and the end that places are struck from.

    Args:
        unit: that is worked.
        kerf_mm: that the saw takes.
    """
    left = left_on(unit)

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
    if unit.rough.width_mm > 0.0:
        found.append(
            on_it(
                Kind.JOINT_EDGE, rigs.JOINTED, Hold(down=Face.FACE_EDGE, against=Face.FACE_SIDE),
                Surface(face=Face.FACE_EDGE, takes_mm=left.low[1]),
            )
        )  # fmt: skip
    found.append(
        on_it(
            Kind.RIP, rigs.RIPPING, Hold(down=flat, against=Face.FACE_EDGE),
            Slice(off=Face.FACE_EDGE, at_mm=unit.blank.width_mm, kerf_mm=kerf_mm), Axis.WIDTH,
        )
    )  # fmt: skip
    for end in trued_ends(unit):
        takes = left.high[0] if end.is_far else left.low[0]
        if takes > 0.0 and outer_end(unit, end).slope is None:
            squared = on_it(
                Kind.SQUARE_END, rigs.SQUARING, Hold(down=flat, against=Face.FACE_EDGE),
                Skim(face=end, takes_mm=takes, kerf_mm=kerf_mm),
            )  # fmt: skip
            found.append(replace(squared, key=f"{unit.id}: square the {end.value}"))
    return tuple(found)


def measured(unit: Unit) -> Operation:
    """The thickness read at the calipers: stock is as it is, and joints follow it."""
    return Operation(
        key=f"{unit.id}: measure the thickness",
        kind=Kind.MEASURE,
        stage=Stage.MILL,
        takes=(unit.id,),
        gives=(unit.id,),
        sizes=tuple(SizeOf(name, Axis.THICKNESS) for name in unit.instances),
    )
