"""What is on hand with its figures read: millimetres, newtons, minutes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.shop.cutting.values import Saw
from furniture.shop.tools.finishes import FinishFacts
from furniture.shop.tools.glues import GlueFacts
from furniture.shop.tools.kinds import ClampKind

_HAIR_MM = 1e-6
"""Lengths so near are the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A dado head.

    outer_mm: of each outer cutter; chippers_mm, shims_mm: one figure for each; widest_mm: that the
    arbor takes; deepest_mm: that it saws; cuts_wider_mm: a test cut's width less the sum of what
    stood on the arbor.
    """

    outer_mm: float
    chippers_mm: tuple[float, ...]
    shims_mm: tuple[float, ...]
    diameter_mm: float
    widest_mm: float
    deepest_mm: float = math.inf
    cuts_wider_mm: float = 0.0

    @property
    def narrowest_cut_mm(self) -> float:
        """What its two outer cutters saw alone [mm]."""
        return 2.0 * self.outer_mm + self.cuts_wider_mm

    @property
    def widest_cut_mm(self) -> float:
        """What it saws with all that it has and the arbor takes [mm], if some sum comes to it."""
        whole = 2.0 * self.outer_mm + math.fsum(self.chippers_mm) + math.fsum(self.shims_mm)
        return min(whole, self.widest_mm) + self.cuts_wider_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class RouterBits:
    """A router and its bits: diameters, radii, the widest chamfer; 0 is none [mm].

    deepest_mm: that straight bits cut; base_mm: across its base; reach_mm: from the bit to the
    fence of its table, at most; edge_guide_mm: from the bit's middle to its edge guide, at most;
    each_pass_mm: how deep a straight bit cuts at once.
    """

    straight_mm: tuple[float, ...]
    round_over_mm: tuple[float, ...]
    chamfer_mm: float
    deepest_mm: float
    base_mm: float
    reach_mm: float
    edge_guide_mm: float
    each_pass_mm: float
    has_table: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillBits:
    """Drills [mm], and what guides them.

    throat_mm: of the press, from the drill's middle to the column; tallest_mm: that stands under
    the drill; travel_mm: of the drill, down and up.
    """

    diameters_mm: tuple[float, ...]
    throat_mm: float
    tallest_mm: float
    travel_mm: float
    has_press: bool
    has_jig: bool


class TooMuch(Enum):
    """Why a machine does not take a piece."""

    WIDE = "it is wider than the machine"
    SHORT = "it is shorter than what is safe on the machine"
    THIN = "it is thinner than what is safe on the machine"
    NARROW = "it is narrower than what is safe on the machine"
    FAR_IN = "the place lies further in than the machine reaches"
    TALL = "it is taller than what stands under the drill"
    DEEP = "the cut is deeper than its cutter reaches"
    NO_WOOD = "a hole beside it takes the wood that the drill's point would start in"
    STANDS_OUT = "something stands out beyond the corner, so that it does not lie in a cradle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """What a jointer or a planer takes [mm]."""

    widest_mm: float
    shortest_mm: float
    thinnest_mm: float

    def refuses(
        self, length_mm: float, width_mm: float, thickness_mm: float
    ) -> tuple[TooMuch, ...]:
        """Why it does not take a piece; nothing where it does.

        Args:
            length_mm: of the piece in hand, along the feed [mm].
            width_mm: of the face that lies on the bed [mm].
            thickness_mm: that it has, or is planed to [mm].
        """
        asked = (
            (width_mm > self.widest_mm + _HAIR_MM, TooMuch.WIDE),
            (length_mm < self.shortest_mm - _HAIR_MM, TooMuch.SHORT),
            (thickness_mm < self.thinnest_mm - _HAIR_MM, TooMuch.THIN),
        )
        return tuple(why for is_so, why in asked if is_so)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampLot:
    """Clamps of one kind and size: force of each [N], how far they open [mm].

    throat_mm: from the bar to the middle of the heads.
    """

    kind: ClampKind
    force_n: float
    opening_mm: float
    throat_mm: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Straps round a box: their pull [N] and the longest way round [mm]."""

    tension_n: float
    reach_mm: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishOnHand:
    """The finish and how many coats of it the piece gets."""

    facts: FinishFacts
    coats: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopRead:
    """A shop with its figures read; None is what it does not have."""

    saw: Saw
    head: Head | None
    bits: RouterBits | None
    drills: DrillBits
    jointer: Bed | None
    planer: Bed | None
    clamps: tuple[ClampLot, ...]
    band: Band | None
    glue: GlueFacts
    finish: FinishOnHand | None
