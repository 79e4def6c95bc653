"""Grooves for splines and slots for keys in a maker's words."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from exporters.work.lines import PlacementWords, Told
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.making.settings import CornerSlot, Flush, Machine, MitreGroove
from furniture.parts.faces import EDGES, Face
from furniture.units import Shown, decimal_figure, dialled, listed

NameOf = Callable[[str, Face], str]
"""What a face of an instance is called."""


def grooved_in_words(
    operation: Operation, setting: MitreGroove, name: NameOf, shown: Shown
) -> Told:
    """The groove in a mitre: by a tilted blade, at the router table, or by hand.

    Args:
        operation: the pass.
        setting: of it.
        name: what a face is called.
        shown: how lengths are shown.
    """
    (of,) = dict.fromkeys(cut.instance for cut in (*operation.cuts, *operation.begins))
    end, rig = name(of, setting.end), operation.rig
    if operation.kind is Kind.CHOP:
        return Told(what="chop the ends of the spline's groove square in the mitre of {on}",
                    on=f"the {end}")  # fmt: skip
    what = "groove the mitre of {on} for its spline"
    if rig is not None and rig.machine is Machine.TABLE_SAW:
        stop = operation.hold.stop
        at_stop = () if stop is None else (f"{name(of, stop)} at the stop",)
        up = f"{name(of, setting.long_face)} up"
        placement: PlacementWords = (up, *at_stop, "the groove square to the mitre")
        return Told(what=what, placement=placement, on=f"the {end}")
    if rig is not None and rig.machine is Machine.ROUTER_TABLE:
        placement = ("mitre down", "the part leaning in a cradle along the fence")
        return Told(what=f"{what}{_passes(operation, shown)}", placement=placement, on=f"the {end}")
    wide, deep = (dialled(mm, shown) for mm in (setting.width_mm, setting.depth_mm))
    stops = tuple(_stops(of, setting, name, shown))
    stopped = f", stopped {listed(stops)}" if stops else ""
    return Told(what=f"{what}, {_near_wall(of, setting, name, shown)}, {wide} wide and {deep} deep"
                f"{stopped}", on=f"the {end}")  # fmt: skip


def _near_wall(of: str, setting: MitreGroove, name: NameOf, shown: Shown) -> str:
    near = dialled(setting.near_mm, shown)
    if setting.off is setting.long_face:
        return f"its near wall {near} down the slope from the long point"
    return f"its near wall {near} off the {name(of, setting.off)}"


def _stops(of: str, setting: MitreGroove, name: NameOf, shown: Shown) -> Iterator[str]:
    """How far short of what each end of its run stops."""
    edges = (f"the {name(of, face)}" for face in EDGES)
    ends = tuple(edges) if setting.off is setting.long_face else ("the long point", "the short one")
    for whole, end in zip((setting.whole_low_mm, setting.whole_high_mm), ends, strict=True):
        if whole > 0.0:
            yield f"{dialled(whole, shown)} short of {end}"


def corners_slotted(making: Making) -> int:
    """How many corners are slotted for keys, where those are all that the frame has; else 0.

    Args:
        making: of the piece.
    """
    corners = {
        frozenset(cut.instance for cut in each.cuts)
        for each in making.operations
        if isinstance(each.setting, CornerSlot)
    }
    rails = frozenset[str]().union(*corners)
    return len(corners) if len(rails) == len(corners) else 0  # round a frame there are as many


def slotted_in_words(
    operation: Operation, setting: CornerSlot, name: NameOf, shown: Shown, corners: int
) -> Told:
    """The slot for a key through a closed corner.

    Args:
        operation: the pass.
        setting: of it.
        name: what a face is called.
        shown: how lengths are shown.
        corners: of the frame, where all of them are slotted; else 0.
    """
    corner = listed(tuple(dict.fromkeys(each.instance for each in operation.cuts)))
    off = f"the {name(setting.of, setting.off)}"
    what, on = "slot for a key across {on}", f"the corner of {corner}"
    every = (corners, f"all {corners} corners") if corners else None
    if operation.rig is not None and operation.rig.machine is Machine.BENCH:
        near, wide, deep = (
            dialled(mm, shown) for mm in (setting.near_mm, setting.width_mm, setting.depth_mm)
        )
        return Told(what=f"{what}, {near} off {off}, {wide} wide and {deep} deep", on=on,
                    every=every)  # fmt: skip
    placement = ("with the corner down in the cradle", f"{off} at the stop", "the frame clamped")
    return Told(what=f"{what}{_passes(operation, shown)}", placement=placement, on=on, every=every)


def flushed_in_words(setting: Flush, name: NameOf, corners: int) -> Told:
    """What stands out is taken off, level with its neighbours.

    Args:
        setting: of it.
        name: what a face is called.
        corners: of the frame, where something stands out at all of them; else 0.
    """
    faces = " with ".join(f"{name(of, face)} of {of}" for of, face in setting.with_faces)
    return Told(what="saw what stands out close, plane it flush towards the corner: {on}", on=faces,
                every=(corners, f"all {corners}") if corners else None)  # fmt: skip


def fitted_in_words(slots: Operation | None, shown: Shown) -> Told:
    """A tongue is planed until it slides into what was sawn.

    Args:
        slots: a pass that makes what it goes into.
        shown: how lengths are shown.
    """
    cut = ""
    if slots is not None and slots.near_mm and isinstance(slots.setting, CornerSlot | MitreGroove):
        cut = f" (the slot is {dialled(slots.setting.width_mm, shown)} wide)"
    elif slots is not None and slots.rig is not None and slots.rig.cutter.size_mm is not None:
        cut = f" (the cutter takes {dialled(slots.rig.cutter.size_mm, shown)})"
    return Told(what=f"plane to slide home by hand, no looser{cut}")


def _passes(operation: Operation, shown: Shown) -> str:
    if not operation.near_mm:
        return ""
    steps = listed(tuple(decimal_figure(each, shown) for each in operation.near_mm[1:]))
    return f", {len(operation.near_mm)} passes, the stop moved by {steps}"
