"""What is usual of each family of glue: times, temperature, moisture, how hard it is pressed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum
from types import MappingProxyType

from furniture.shop.tools.kinds import GlueFamily


class Pressed(Enum):
    """How hard a joint is pressed while its glue sets."""

    AS_THE_WOOD = "as hard as the wood asks"
    LIGHTLY = "by hand, or lightly: rubbed until the glue holds"
    CLOSED = "until the joint is closed, and no harder"


class Preparing(Enum):
    """What a glue asks of the wood or the room besides warmth."""

    DRY_ROOM = "keep wood and room warm and dry"
    WARM_WOOD = "warm the wood, keep the pot at 60 to 63 °C and never over 65 °C"
    DAMPEN = "dampen one face where the wood holds less than 8 % of water"
    WET_BOTH = "wet both faces, and feed end grain until it drinks no more"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueFacts:
    """What is known of a glue; None is what only its label says.

    open_minutes: from the first spread to where the faces must meet; assembly_minutes: the longest
    that it may stand closed before it is clamped tight, where all of it stands closed;
    clamp_minutes: in the clamps; least_celsius: of glue, wood and room; wood_pct: moisture of the
    wood, least and most; spread_g_m2: on a face.
    """

    family: GlueFamily
    open_minutes: float | None
    assembly_minutes: float | None
    clamp_minutes: float | None
    pressed: Pressed
    spread_g_m2: float
    least_celsius: float | None = None
    wood_pct: tuple[float, float] | None = None
    preparing: tuple[Preparing, ...] = ()


_PVA_WOOD = (6.0, 8.0)  # the same guide
_PVA = GlueFacts(
    family=GlueFamily.PVA_WHITE,
    open_minutes=5.0,
    assembly_minutes=10.0,
    clamp_minutes=60.0,
    pressed=Pressed.AS_THE_WOOD,
    spread_g_m2=200.0,
    least_celsius=13.0,
    wood_pct=_PVA_WOOD,
)

USUAL_GLUES: Mapping[GlueFamily, GlueFacts] = MappingProxyType(
    {
        each.family: each
        for each in (
            _PVA,
            replace(_PVA, family=GlueFamily.PVA_YELLOW, least_celsius=4.0),
            replace(_PVA, family=GlueFamily.PVA_CROSS_LINKING, least_celsius=None),
            GlueFacts(
                family=GlueFamily.LIQUID_HIDE, open_minutes=10.0, assembly_minutes=20.0,
                clamp_minutes=720.0, pressed=Pressed.AS_THE_WOOD, spread_g_m2=200.0,
                preparing=(Preparing.DRY_ROOM,),
            ),
            GlueFacts(
                family=GlueFamily.HOT_HIDE, open_minutes=1.0, assembly_minutes=None,
                clamp_minutes=None, pressed=Pressed.LIGHTLY, spread_g_m2=200.0,
                preparing=(Preparing.WARM_WOOD,),
            ),
            GlueFacts(
                family=GlueFamily.POLYURETHANE, open_minutes=15.0, assembly_minutes=30.0,
                clamp_minutes=240.0, pressed=Pressed.CLOSED, spread_g_m2=150.0,
                preparing=(Preparing.DAMPEN,),
            ),
            GlueFacts(
                family=GlueFamily.EPOXY, open_minutes=None, assembly_minutes=None,
                clamp_minutes=None, pressed=Pressed.CLOSED, spread_g_m2=300.0,
                wood_pct=(0.0, 12.0), preparing=(Preparing.WET_BOTH,),
            ),
        )
    }
)  # fmt: skip
"""The usual figures; the label decides.

**Source:** open and clamp times of PVA and liquid hide glue: a table of glue characteristics,
woodworkingarchive.biz (a bad scan, legible rows only); polyurethane's 4 h, an hour for yellow PVA
(30 to 60 minutes) and wood at 6 to 8 %: a glue maker's guide, studylib.net/doc/18296895; 13 and
4 °C: renovateyourworld.com, glue-temperature (55 and 40 °F); hot hide's pot: a seller's page of
hide glue; polyurethane under 8 %: a forum of 2024; epoxy on both faces: makewoodgood.com. All
assembly times, open times of hot hide glue and polyurethane, the spreads and epoxy's 12 % are from
memory, each at the careful end.
"""

HOURS_AT_REST = 24.0
"""After gluing nothing is stressed or planed flush for so long [h].

**Source:** a glue maker's guide, studylib.net/doc/18296895."""

SIZED = "size with a thin coat, wiped off 2 min before"
"""How end grain is sized, so that it does not drink the joint dry.

**Source:** finehomebuilding.com, 5 May 2020."""
