"""Whether wood is large enough in hand for a machine, and what does the work where it is not."""

from __future__ import annotations

from dataclasses import replace

from furniture.making import rigs
from furniture.making.operations import InHand, Kind, Operation
from furniture.making.settings import Guide, Machine, Parallel, Skim, Slice, Surface, Trench
from furniture.shop.tools.values import Bed, ShopRead


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
    if isinstance(setting, Surface):
        return replace(operation, rig=rigs.HAND_PLANED)
    if operation.kind is Kind.RIP and isinstance(setting, Slice):
        planed = Parallel(off=setting.off, at_mm=setting.at_mm)
        return replace(operation, rig=rigs.HAND_PLANED, setting=planed, kind=Kind.PLANE_WIDTH)
    if isinstance(setting, Trench):
        return replace(operation, rig=rigs.BY_HAND)
    return replace(operation, rig=rigs.HAND_SAWN)
