"""Where the straight edge is clamped that a router's base runs along, beside a channel."""

from __future__ import annotations

from furniture.making.operations import InHand, Operation
from furniture.making.settings import Bored, Guide, Machine, StraightEdge, Trench
from furniture.parts.faces import WIDE_FACES, Face
from furniture.shop.tools.values import ShopRead

_LEAST_MM = 30.0
"""A straight edge as wide as this at least lies on the wood beside the base. Own rule."""


def straight_edge_for(operation: Operation, wood: InHand, shop: ShopRead) -> StraightEdge | None:
    """What a router's base runs along; None where something else guides it.

    It lies on the side that the channel is measured from, so that a shim before it moves the cutter
    on; on the other side where no wood is left for it there, and there is beyond.

    Args:
        operation: a pass.
        wood: in hand.
        shop: how wide the router's base is.
    """
    rig = operation.rig
    if rig is None or (rig.machine, rig.guide) != (Machine.ROUTER, Guide.LINE):
        return None
    place, bit_mm = _place(operation), rig.cutter.size_mm
    if place is None or bit_mm is None or shop.bits is None:
        return None
    off, near_mm = place
    margin = (shop.bits.base_mm - bit_mm) / 2.0
    size = (wood.length_mm, wood.width_mm, wood.thickness_mm)[off.axis]
    far_mm = near_mm + bit_mm + max(operation.near_mm, default=0.0)
    here, there = near_mm - margin, size - far_mm - margin
    if here >= _LEAST_MM or here >= there:
        return StraightEdge(off=off, towards=off, at_mm=here, margin_mm=margin)
    return StraightEdge(off=off, towards=off.opposite, at_mm=far_mm + margin, margin_mm=margin)


def _place(operation: Operation) -> tuple[Face, float] | None:
    """The face that a channel is measured from, and how far off its near wall lies [mm]."""
    setting = operation.setting
    if isinstance(setting, Trench) and setting.near_mm > 0.0 and setting.face in WIDE_FACES:
        return setting.off, setting.near_mm
    if isinstance(setting, Bored) and setting.to_mm is not None:
        beside = setting.beside
        return setting.off[beside], setting.at_mm[beside] - setting.diameter_mm / 2.0
    return None
