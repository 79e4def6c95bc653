"""Which machine is made ready for a pass, with which cutter: the usual ones of a small shop.

Common practice, no source: the machine's manual and the shop's own habits decide.
"""

from __future__ import annotations

from furniture.making.operations import Kind
from furniture.making.settings import Cutter, CutterKind, Guide, Machine, Rig

JOINTED = Rig(
    machine=Machine.JOINTER, cutter=Cutter(kind=CutterKind.KNIVES), guide=Guide.FENCE
)  # fmt: skip
PLANED = Rig(machine=Machine.PLANER, cutter=Cutter(kind=CutterKind.KNIVES), guide=Guide.BED)
BY_HAND = Rig(
    machine=Machine.BENCH, cutter=Cutter(kind=CutterKind.CHISEL), guide=Guide.LINE
)  # fmt: skip


def sawn(guide: Guide, tilt_deg: float = 0.0, turned_deg: float = 0.0) -> Rig:
    """The table saw with its blade, upright or tilted, along the fence or on the sled [deg]."""
    return Rig(
        machine=Machine.TABLE_SAW,
        cutter=Cutter(kind=CutterKind.BLADE),
        guide=guide,
        tilt_deg=tilt_deg,
        turned_deg=turned_deg,
    )


def headed(guide: Guide, width_mm: float | None = None) -> Rig:
    """The table saw with a dado head as wide as that; a rabbet takes any, in a false fence [mm]."""
    return Rig(
        machine=Machine.TABLE_SAW,
        cutter=Cutter(kind=CutterKind.DADO_HEAD, size_mm=width_mm),
        guide=guide,
    )


def routed(width_mm: float) -> Rig:
    """The router table with a straight bit [mm]."""
    return Rig(
        machine=Machine.ROUTER_TABLE,
        cutter=Cutter(kind=CutterKind.STRAIGHT_BIT, size_mm=width_mm),
        guide=Guide.FENCE,
    )


def drilled(diameter_mm: float) -> Rig:
    """The drill press with a bit, its table and fence as the stop [mm]."""
    return Rig(
        machine=Machine.DRILL_PRESS,
        cutter=Cutter(kind=CutterKind.DRILL, size_mm=diameter_mm),
        guide=Guide.TABLE,
    )


def jigged(diameter_mm: float) -> Rig:
    """A drill guided by a jig, for ends and edges [mm]."""
    return Rig(
        machine=Machine.DOWEL_JIG,
        cutter=Cutter(kind=CutterKind.DRILL, size_mm=diameter_mm),
        guide=Guide.JIG,
    )


def profiled(size_mm: float, is_round: bool) -> Rig:
    """The router table with a round-over or a chamfer bit [mm]."""
    kind = CutterKind.ROUND_OVER_BIT if is_round else CutterKind.CHAMFER_BIT
    return Rig(
        machine=Machine.ROUTER_TABLE,
        cutter=Cutter(kind=kind, size_mm=size_mm if is_round else None),
        guide=Guide.FENCE,
    )


SQUARING = sawn(Guide.SLED)
RIPPING = sawn(Guide.FENCE)

IN_HAND = {Kind.NOTCH: BY_HAND, Kind.SHAPE: BY_HAND}
"""What is marked out and done at the bench."""
