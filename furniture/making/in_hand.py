"""Whether wood is large enough in hand for a machine, and what does the work where it is not."""

from __future__ import annotations

from dataclasses import dataclass, replace

from furniture.making import rigs
from furniture.making.operations import Kind, Operation
from furniture.making.settings import (
    Cutter,
    CutterKind,
    Guide,
    Machine,
    Parallel,
    Rig,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.shop.cutting.values import Saw


@dataclass(frozen=True, slots=True, kw_only=True)
class InHand:
    """The wood in hand at a pass: its length along the grain and its width [mm]."""

    length_mm: float
    width_mm: float


HAND_PLANED = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.HAND_PLANE), guide=Guide.LINE
)
HAND_SAWN = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.HAND_SAW), guide=Guide.LINE
)


def within_limits(operation: Operation, wood: InHand, saw: Saw) -> Operation:
    """The operation as it is, or by the next tool where the wood is too small for the machine.

    Args:
        operation: on that wood.
        wood: as it is in hand.
        saw: with the limits that the shop keeps.
    """
    rig = operation.rig
    if rig is None or not is_too_small(operation, wood, saw):
        return operation
    return _by_hand(operation)


def is_too_small(operation: Operation, wood: InHand, saw: Saw) -> bool:
    """Whether the shop's limits keep that wood from the machine of the operation."""
    rig, setting = operation.rig, operation.setting
    if rig is None:
        return False
    is_short = wood.length_mm < saw.shortest_rip
    match rig.machine:
        case Machine.JOINTER | Machine.PLANER:
            return is_short
        case Machine.TABLE_SAW if rig.guide is Guide.FENCE:
            return is_short or (operation.kind is Kind.RIP and wood.width_mm < saw.narrowest_rip)
        case Machine.TABLE_SAW if isinstance(setting, Slice | Skim | Trench):
            return max(wood.length_mm, wood.width_mm) < saw.shortest_crosscut
        case _:
            return False


def _by_hand(operation: Operation) -> Operation:
    """The same pass by the next tool: the hand plane, the router table or the hand saw."""
    setting = operation.setting
    if isinstance(setting, Surface):
        return replace(operation, rig=HAND_PLANED)
    if operation.kind is Kind.RIP and isinstance(setting, Slice):
        planed = Parallel(off=setting.off, at_mm=setting.at_mm)
        return replace(operation, rig=HAND_PLANED, setting=planed, kind=Kind.PLANE_WIDTH)
    if isinstance(setting, Trench):
        return replace(operation, rig=rigs.routed(setting.width_mm))
    return replace(operation, rig=HAND_SAWN)
