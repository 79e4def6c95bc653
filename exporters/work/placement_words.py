"""How the wood lies for an operation, in words."""

from __future__ import annotations

from exporters.work.edge_words import NameOf
from exporters.work.lines import PlacementWords
from furniture.making.operations import Kind, Operation, StopBlock
from furniture.making.settings import Bored, Guide, Machine, Surface, Trench


def placement_of(operation: Operation, name: NameOf) -> PlacementWords:
    """Which face is down, which edge bears, which end is at the stop.

    Args:
        operation: on the wood.
        name: what a face of that wood is called.
    """
    hold, rig = operation.hold, operation.rig
    if rig is None or rig.machine is Machine.BENCH:
        return ()
    words = []
    if rig.machine is Machine.ROUTER:
        return _under_the_router(operation, name)
    if rig.guide is Guide.JIG:
        return (f"jig on the {name(hold.against)}",) if hold.against else ()
    if hold.down is not None and not isinstance(operation.setting, Surface):
        is_through = isinstance(operation.setting, Bored) and operation.setting.depth_mm is None
        on = " on waste" if is_through else ""
        words.append(f"{name(hold.down)} down{on}")
    if hold.against is not None:
        to = "the sled" if rig.guide is Guide.SLED else "the fence"
        to = "a batten on the sled" if operation.kind is Kind.RIP and to == "the sled" else to
        words.append(f"{name(hold.against)} to {to}")
    if operation.kind in (Kind.JOINT_EDGE, Kind.RIP) and rig.guide is not Guide.FENCE:
        words.append("clamped down")
    if hold.stop is not None and not isinstance(operation.setting, Bored):
        is_scrap = operation.stop_block is StopBlock.SCRAP
        at = "at a scrap stop" if is_scrap else "at the stop"
        words.append(f"{name(hold.stop)} {at}")
    return tuple(words)


def _under_the_router(operation: Operation, name: NameOf) -> PlacementWords:
    """The router stands on the face that it works, along an edge measured from an end."""
    setting, support = operation.setting, operation.support
    if not isinstance(setting, Bored | Trench):
        return ("clamped down",)
    off = setting.off[setting.beside] if isinstance(setting, Bored) else setting.off
    up = f"{name(setting.face)} up"
    packed = () if support is None else (support.value,)
    if operation.rig is not None and operation.rig.guide is Guide.EDGE_GUIDE:
        return (up, f"guide along the {name(off)}", *packed)
    return (up, f"measured from the {name(off)}", *packed)
