"""What the maker wants of the cutting: faces, matches, the saw, and how long to look."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from enum import Enum

from furniture.shop.cutting.values import (
    GrainRule,
    MatchRule,
    OddOne,
    Stages,
    ZoneKind,
)
from furniture.units import REQUIRED, Given, parameters


class Binding(Enum):
    """A match that has no price."""

    MUST = "must"


MUST = Binding.MUST
"""Price of a match that has to be kept, whatever it costs."""

CLEAR: tuple[ZoneKind, ...] = ()
"""A face that tolerates no fault."""

HIDDEN_TOLERATES = (ZoneKind.SAPWOOD, ZoneKind.STAIN)
"""What a hidden face may hold when nothing else is said: sound wood of another colour.

Common practice, no source."""


@parameters
class PartWish:
    """What some parts put up with and what they would like.

    Args:
        on: an instance, a part, or a group: `tiers` means every instance with `tier` in its name.
        show_face: kinds of zone that its face side may show.
        hidden_face: kinds of zone that its back side may show.
        grain: whether it may be turned across the grain.
        wants: a kind of zone that should cover most of it.
        want_price: what missing that costs; half a board when left out.
        worth: what a copy is worth to you, such as `4 EUR`: a loose extra, cut only if it pays.
            Left out, every copy must have a place.
    """

    on: str | Sequence[str] = REQUIRED
    show_face: Sequence[ZoneKind] | None = None
    hidden_face: Sequence[ZoneKind] | None = None
    grain: GrainRule = GrainRule.ALONG
    wants: ZoneKind | None = None
    want_price: str | None = None
    worth: str | None = None


@parameters
class Match:
    """Parts whose grain belongs together.

    Args:
        rule: in sequence, off one board, inside one zone, centred on a figure, pale edges equal.
        on: instances or groups; for a sequence in the order they leave the strip.
        price: what breaking it costs, `MUST`, or left out for half a board.
        zone: the zone meant, by name.
        zone_kind: of the zone meant, when no name is given.
        odd_one: which member may stay out when not all can keep it.
        tolerance: how far off centre or unequal is still right.
        name: what the plan calls it.
    """

    rule: MatchRule = REQUIRED
    on: str | Sequence[str] = REQUIRED
    price: str | Binding | None = None
    zone: str | None = None
    zone_kind: ZoneKind = ZoneKind.FIGURE
    odd_one: OddOne = OddOne.NONE
    tolerance: Given = "1 mm"
    name: str = ""


@parameters
class SawSetUp:
    """The saw, what is trimmed away, and the smallest piece that is safe at it.

    What is left out takes the usual figure, in whole millimetres or, for a piece shown in inches,
    in fractions of an inch: common practice, no source; the saw's own manual and guards decide.

    Args:
        kerf: that the blade takes; 3.2 mm or 1/8 in.
        end_trim: off each end of a board: the checks that cannot be seen; 10 mm or 3/8 in.
        edge_trim: off each edge of a board; nothing.
        planing_loss: from a rough board's thickness to the part, for what has to be bought; a board
            that is there is planed to its stock whatever it is thicker; 2 mm or 1/16 in.
        shortest_rip: no shorter piece is ripped; 300 mm or 12 in.
        narrowest_rip: no narrower piece is ripped; 50 mm or 2 in.
        shortest_crosscut: no shorter piece is crosscut: small parts leave a longer piece; 200 mm
            or 8 in.
        usable_length: the least offcut worth keeping; 200 mm or 8 in.
        usable_width: of an offcut worth keeping; 50 mm or 2 in.
        off_faults: how far a part keeps from a knot, a check or a hole, whose edge wanders
            below the surface; 3 mm or 1/8 in.
    """

    kerf: Given | None = None
    end_trim: Given | None = None
    edge_trim: Given | None = None
    planing_loss: Given | None = None
    shortest_rip: Given | None = None
    narrowest_rip: Given | None = None
    shortest_crosscut: Given | None = None
    usable_length: Given | None = None
    usable_width: Given | None = None
    off_faults: Given | None = None


USUAL_SAW = {
    "kerf": ("3.2 mm", "1/8 in"),
    "end_trim": ("10 mm", "3/8 in"),
    "edge_trim": ("0 mm", "0 in"),
    "planing_loss": ("2 mm", "1/16 in"),
    "shortest_rip": ("300 mm", "12 in"),
    "narrowest_rip": ("50 mm", "2 in"),
    "shortest_crosscut": ("200 mm", "8 in"),
    "usable_length": ("200 mm", "8 in"),
    "usable_width": ("50 mm", "2 in"),
    "off_faults": ("3 mm", "1/8 in"),
}
"""What a saw is taken to be where nothing is said, in either unit. Common practice, no source."""


@parameters
class GluedUp:
    """How a part wider than any board is made of strips; what is left out is as usual.

    Args:
        jointing: lost on each strip edge that is glued; 1.5 mm or 1/16 in.
        narrowest_strip: the least width of a strip; 40 mm or 1 1/2 in.
        off_cuts: how far a glued joint stays from any cut beside it; 6 mm or 1/4 in.
    """

    jointing: Given | None = None
    narrowest_strip: Given | None = None
    off_cuts: Given | None = None


USUAL_STRIPS = {
    "jointing": ("1.5 mm", "1/16 in"),
    "narrowest_strip": ("40 mm", "1 1/2 in"),
    "off_cuts": ("6 mm", "1/4 in"),
}
"""How strips are glued up where nothing is said. Common practice, no source."""


@parameters
class CuttingWishes:
    """Everything the maker wants of the cutting; what is left out is done as shops do.

    Args:
        parts: what parts put up with; the last wish that names a part counts.
        matches: left out, mitred rails come off one strip in order round the box and parts of a
            numbered set (the tiers) off one board, the smallest staying out if one must.
        glue_up: for parts wider than any board.
        waste_share: of wood that has to be bought, lost to faults. 20 % is a quarter more than
            the clear wood, as shops reckon: common practice, no source.
        stages: how often the saw may change direction.
        seconds: to look for a plan at most.
        rounds: of the search, each twice as wide as the last.
        seed: the same seed and rounds give the same plan.
    """

    parts: Sequence[PartWish] = ()
    matches: Sequence[Match] | None = None
    glue_up: GluedUp = field(default_factory=GluedUp)
    waste_share: str | float = "20 %"
    stages: Stages = Stages.THREE
    seconds: float = 10.0
    rounds: int = 5
    seed: int = 1
