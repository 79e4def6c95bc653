"""The usual cautions, as a closed list: what may hurt, and what keeps it from doing so."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from typing import assert_never

from furniture.making.settings import CutterKind, Guide, Machine, Rig
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bench import HAND_ZONE
from furniture.shop.tools.kinds import FinishFamily, GlueFamily


class Hazard(Enum):
    """What may hurt at the bench, each with its caution; `{hands}` is how far hands stay away.

    Common practice, no source, where no line says more; a machine's manual, a label and local rules
    come first.
    """

    CUTTER_CHANGE = "unplug the machine to change or set its cutters"
    NEAR_CUTTER = "a push stick where hands would come within {hands} of the cutter"
    """**Source:** a saw's manual (manualsdump 276517, p. 27): 150 mm."""
    GUARD_OFF = "feather boards or a jig where the guard cannot stand"
    """**Source:** California, Title 8, section 4296(a) (dir.ca.gov)."""
    GUARD_BACK = "guard and riving knife go back on after the last channel"
    """**Source:** the same saw's manual."""
    SLIVER_AT_FENCE = (
        "never a thin strip between fence and blade: the piece you keep is at the fence"
    )
    OFFCUT_TRAPPED = "the offcut lies free: no stop beyond the blade, and no fence beside it"
    """**Source:** a saw's manual (manualsdump 273911, p. 23)."""
    TILTED_BLADE = (
        "unplug the saw and turn the tilted blade by hand once: it must clear insert, guard, "
        "fence and stop"
    )
    OFFCUT_UNDER_BLADE = "stop the blade before you lift anything: the offcut lies under it"
    PARTED_AT_STOP = (
        "each part that comes off lies between stop and blade: clamp it to the sled before the "
        "cut, hands {hands} away"
    )
    IN_A_CRADLE = (
        "clamp the work in its cradle, and keep both hands off where the blade comes out behind"
    )
    DEEP_CHANNEL = "a deep channel in several passes, and no hand above the cut"
    ABOVE_A_BIT = "no hand above the cut, nor below it where a bit comes through"
    ROUTER_FEED = "feed against the bit's turning, never between bit and fence"
    SMALL_AT_ROUTER = "a piece shorter than {hands} goes past the bit on a carrier"
    THIN_AT_KNIVES = "a short or thin piece never goes over the jointer's knives"
    BEHIND_PLANER = "stand beside the planer, never in line with the board"
    BORING_SMALL = "clamp a small piece on backing to bore it"
    CHISEL = "both hands behind the edge, the work held by a vice or a clamp"
    DUST = "extract the dust, wear a mask: hardwood dust may cause cancer"
    """From memory."""
    OILY_RAGS = "oily rags may self-ignite: dry flat outdoors or drown in a can"
    SOLVENT = "open windows, no flame or pilot light, a mask for vapour"
    GLUE_ON_SKIN = "gloves: it sticks to skin and may harm it; the label decides"


SAW_CHANNEL = (
    Hazard.CUTTER_CHANGE, Hazard.GUARD_OFF, Hazard.DEEP_CHANNEL, Hazard.NEAR_CUTTER,
    Hazard.GUARD_BACK,
)  # fmt: skip
RIPPING = (Hazard.SLIVER_AT_FENCE, Hazard.NEAR_CUTTER)
CROSSCUTTING = (Hazard.OFFCUT_TRAPPED, Hazard.NEAR_CUTTER)
IN_A_CRADLE = (Hazard.IN_A_CRADLE, Hazard.GUARD_OFF, Hazard.NEAR_CUTTER, Hazard.GUARD_BACK)
TILTED_CUT = (Hazard.TILTED_BLADE, Hazard.OFFCUT_TRAPPED, Hazard.OFFCUT_UNDER_BLADE)
ROUTING = (Hazard.CUTTER_CHANGE, Hazard.ROUTER_FEED, Hazard.SMALL_AT_ROUTER)
PLANING = (Hazard.BEHIND_PLANER,)
JOINTING = (Hazard.THIN_AT_KNIVES, Hazard.NEAR_CUTTER)
BORING = (Hazard.BORING_SMALL,)
PARING = (Hazard.CHISEL,)
SANDING = (Hazard.DUST,)
"""The cautions of each kind of work, the gravest first."""


def rig_hazards(rig: Rig) -> tuple[Hazard, ...]:
    """What may hurt at a machine made ready; of hand tools only their edge.

    Args:
        rig: machine, cutter, guide and tilt.

    **Source:** common practice, no source.
    """
    match rig.machine:
        case Machine.TABLE_SAW:
            return _saw_hazards(rig)
        case Machine.ROUTER_TABLE | Machine.ROUTER:
            cradled = (Hazard.IN_A_CRADLE,) if rig.guide is Guide.CRADLE else ()
            deep = (Hazard.ABOVE_A_BIT,) if rig.cutter.kind is CutterKind.STRAIGHT_BIT else ()
            return (*cradled, *ROUTING, *deep)
        case Machine.JOINTER:
            return JOINTING
        case Machine.PLANER:
            return PLANING
        case Machine.DRILL_PRESS | Machine.DOWEL_JIG:
            return BORING
        case Machine.BENCH:
            return PARING if rig.cutter.kind in _CHISELS else ()
        case _:
            assert_never(rig.machine)


_CHISELS = (CutterKind.CHISEL, CutterKind.SAW_AND_CHISEL)


def _saw_hazards(rig: Rig) -> tuple[Hazard, ...]:
    if rig.guide is Guide.CRADLE:
        head = SAW_CHANNEL if rig.cutter.kind is CutterKind.DADO_HEAD else ()
        return tuple(dict.fromkeys((*IN_A_CRADLE, *head)))
    if rig.cutter.kind is CutterKind.DADO_HEAD:
        return SAW_CHANNEL
    along = RIPPING if rig.guide in (Guide.FENCE, Guide.CARRIER) else CROSSCUTTING
    return tuple(dict.fromkeys((*(TILTED_CUT if rig.tilt_deg else ()), *along)))


def finish_hazards(family: FinishFamily) -> tuple[Hazard, ...]:
    """What a finish may do to whoever puts it on.

    Args:
        family: what it is.

    **Source:** common practice, no source; the label decides.
    """
    match family:
        case FinishFamily.LINSEED_OIL | FinishFamily.TUNG_OIL:
            return (Hazard.OILY_RAGS, Hazard.SOLVENT)
        case FinishFamily.WIPING_VARNISH | FinishFamily.OIL_VARNISH:
            return (Hazard.OILY_RAGS, Hazard.SOLVENT)
        case FinishFamily.SHELLAC:
            return (Hazard.SOLVENT,)
        case FinishFamily.WATER_VARNISH:
            return ()
        case _:
            assert_never(family)


def glue_hazards(family: GlueFamily) -> tuple[Hazard, ...]:
    """What a glue may do to whoever spreads it.

    Args:
        family: what it is.

    **Source:** common practice, no source; the label decides.
    """
    harms = family in (GlueFamily.POLYURETHANE, GlueFamily.EPOXY)
    return (Hazard.GLUE_ON_SKIN,) if harms else ()


def caution(hazard: Hazard, show: Callable[[float], str], rules: Rules = USUAL_RULES) -> str:
    """The caution of a hazard as a sentence without its full stop.

    Args:
        hazard: what may hurt.
        show: puts a length [mm] into the words of the piece's unit.
        rules: how far hands stay from a cutter.

    **Source:** stands at the hazard.
    """
    return hazard.value.format(hands=show(rules[HAND_ZONE]))
