"""What a packet can hold and how it is written."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING

from furniture.checks.of_piece.setting import Setting
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead
from furniture.units import millimetres

if TYPE_CHECKING:
    from collections.abc import Mapping

    from exporters.photo import PhotoWood
    from exporters.revision.against import Against, Letters
    from furniture.blanks import CommonBlank
    from furniture.job.going_on import GoingOn
    from furniture.making.strips_in_hand import StripsInHand


class Output(Enum):
    """What a packet can hold beside its summary."""

    STEP = "step"
    SHEETS = "sheets"
    PARTS = "parts"
    WORK = "work"
    CHECKS = "checks"
    PICTURES = "pictures"
    CUTTING = "cutting"
    PLAN = "plan"


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketSettings:
    """How a packet is written: what goes in, on which paper, dated when; where the piece stands,
    and what is on hand to make it.

    `parts_on` says whether parts share sheets or have their own.
    `dxf` names the flavour of the drawing files; the PDF is the same with every flavour. `against`
    is the earlier packet that it is told against, when there is one; `letters` are those of the
    packet that is replaced, where it is not told against any; `job` is what is done and measured of
    it already. Of a plan for several pieces, `blanks` are the lengths that parts of this one share
    there, None where there is no such plan, and `in_strips` is what is glued up for it;
    `copies` are made by this packet.
    """

    outputs: frozenset[Output] = frozenset(Output)
    paper: str | None = None
    parts_on: str = "shared"
    dated: date
    revision: str = "-"
    dxf: str = "R2018"
    setting: Setting = field(default_factory=Setting)
    against: Against | None = None
    letters: Letters | None = None
    shop: ShopRead = field(default_factory=lambda: usual_or(None, millimetres()))
    job: GoingOn | None = None
    in_strips: tuple[StripsInHand, ...] = ()
    blanks: tuple[CommonBlank, ...] | None = None
    copies: int = 1
    photos: Mapping[str, PhotoWood] = field(default_factory=dict)
