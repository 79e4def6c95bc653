"""How deep a router's bit is set, pass after pass."""

from __future__ import annotations

import math

from furniture.making.operations import InHand, Operation
from furniture.making.settings import (
    Bored,
    CornerSlot,
    CutterKind,
    Machine,
    MitreGroove,
    Setting,
    Trench,
)
from furniture.shop.tools.values import ShopRead

_HAIR_MM = 1e-6
ROUTERS = (Machine.ROUTER, Machine.ROUTER_TABLE)


def depths_for(operation: Operation, wood: InHand | None, shop: ShopRead) -> tuple[float, ...]:
    """The depths that a straight bit is set to, each as far below the last as one pass cuts [mm].

    The last is the full depth, so that it leaves the floor clean. None where one pass does it.

    Args:
        operation: a pass.
        wood: in hand; None where it is a body of several parts.
        shop: how deep its router cuts at once.
    """
    rig = operation.rig
    if rig is None or rig.machine not in ROUTERS or shop.bits is None:
        return ()
    if rig.cutter.kind is not CutterKind.STRAIGHT_BIT:
        return ()
    deep, step = _deep_mm(operation.setting, wood), shop.bits.each_pass_mm
    if deep is None or deep <= step + _HAIR_MM:
        return ()
    before = math.ceil(deep / step - _HAIR_MM) - 1
    return (*(step * (at + 1) for at in range(before)), deep)


def _deep_mm(setting: Setting | None, wood: InHand | None) -> float | None:
    if isinstance(setting, Trench | MitreGroove | CornerSlot):
        return setting.depth_mm
    if isinstance(setting, Bored) and setting.depth_mm is not None:
        return setting.depth_mm
    if isinstance(setting, Bored) and wood is not None:
        size = (wood.length_mm, wood.width_mm, wood.thickness_mm)
        return size[setting.face.axis]
    return None
