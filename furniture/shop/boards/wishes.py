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
    """Which faults some parts' faces may show, and which figure you want on them.

    Args:
        on: one part by its own name, such as `tier 2`, or all of a kind: `tiers` means every part
            with `tier` in its name.
        show_face: kinds of zone that its face side may show.
        hidden_face: kinds of zone that its back side may show.
        grain: whether it may be turned across the grain.
        wants: a kind of zone that should cover most of it.
        want_price: what getting it is worth to you (default: half a board's price).
        worth: what a copy is worth to you, such as `4 EUR`: a loose extra, cut only if it pays
            (default: every copy must have a place).
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
        on: parts by name, or all of a kind, such as `tiers`; for a sequence in the order they leave
            the strip.
        price: what keeping it is worth to you, or `MUST` (default: half a board's price).
        zone: the zone meant, by name.
        zone_kind: of the zone meant, when no name is given.
        odd_one: which part may be left out of the match when not all can keep it.
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
        kerf: width the blade takes (default: 3.2 mm or 1/8 in).
        end_trim: cut off each end of a board, for end checks too fine to see (default: 10 mm or 3/8
            in).
        edge_trim: cut off each edge of a board (default: nothing).
        planing_loss: from a rough board's thickness to the part, for what has to be bought; a board
            that is there is planed to its stock by what it is thicker (default: 2 mm or 1/16 in).
        most_planed: off a board that is there: one that is thicker than a stock by more is kept for
            other work (default: a board is planed however much it is thicker).
        shortest_rip: no shorter piece is ripped (default: 300 mm or 12 in).
        narrowest_rip: no narrower piece is ripped (default: 50 mm or 2 in).
        shortest_crosscut: no shorter piece is crosscut: small parts leave a longer piece (default:
            200 mm or 8 in).
        usable_length: the least offcut worth keeping (default: 200 mm or 8 in).
        usable_width: of an offcut worth keeping (default: 50 mm or 2 in).
        off_faults: how far a part keeps from a knot, a check or a hole, whose edge wanders below
            the surface (default: 3 mm or 1/8 in).
    """

    kerf: Given | None = None
    end_trim: Given | None = None
    edge_trim: Given | None = None
    planing_loss: Given | None = None
    most_planed: Given | None = None
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
        jointing: lost on each strip edge that is glued (default: 1.5 mm or 1/16 in).
        narrowest_strip: the least width of a strip (default: 40 mm or 1 1/2 in).
        off_cuts: least distance from a glue line to a cut (default: 6 mm or 1/4 in).
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
        matches: which parts belong together (default: mitred rails come off one strip in order
            round the box, and parts of a numbered set, such as the tiers, off one board, the
            smallest staying out if one must).
        glue_up: for parts wider than any board.
        waste_share: of wood that has to be bought, lost to faults. 20 % is a quarter more than
            the clear wood, as shops count: common practice, no source.
        stages: how many times the cuts may change between rip and crosscut.
        seconds: longest time to look for a plan, in seconds.
        rounds: rounds of the search, each looking twice as wide.
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
