"""The front of a stand's lid as a flap: it turns on hinges in front of the lowest tier."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from furniture.builders.base_box import BoxFigures, usual_gap_mm
from furniture.builders.common import Names, StockOf
from furniture.builders.hung import Hung, HungFigures
from furniture.builders.lid_fixing import LidFixing
from furniture.builders.lid_stay import Stay, read_opens
from furniture.builders.measured_hinge import Hinge, WoodFor, read_hinge
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.panels import place_panel
from furniture.builders.passing import bit_within_mm
from furniture.builders.read_hung import read_one
from furniture.builders.rules import DesignReader, at_most_known
from furniture.builders.support import Support
from furniture.builders.tiers import TierFigures
from furniture.joints import Joint, RabbetJoint
from furniture.parts.cuts import Bore
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import BACK, add, scaled
from furniture.pieces import Bought, Note, Surface, TurnsOpen
from furniture.rules import Rules
from furniture.rules.building import LEAST_FINGER, LEAST_RABBET_FLOOR
from furniture.rules.hinges import (
    FLAP_CLEAR,
    GREATEST_HINGE_GAP,
    LEAST_FLAP,
    LEAST_HINGE_GAP,
    LEAST_LID_STRIP,
    RIM_CLEAR,
)
from furniture.timber.movement import is_movement_known
from furniture.timber.stock import Timber
from furniture.units import REQUIRED, Given, Shown, at_most_text, parameters, said

FLAP = "flap"
_SIDE_RAILS = ("left side rail", "right side rail")
_USUAL_FINGER_MM, _USUAL_FINGER_INCH_MM = 22.0, 25.4 * 7 / 8
"""The bore where nothing is said, of a piece in millimetres and in inches [mm].

Common practice, no source.
"""
_TURNS = 4
"""How often depth and front gap are found from each other: the gap changes by a hair."""


@parameters
class Flap:
    """The front of a stand's lid on hinges; the rest of the lid is glued in its rabbets.

    Args:
        hinge: as it was measured; all are alike.
        count: two hinges, or three.
        inset: from the flap's end to the outer end of a hinge (default: as long as the hinge is).
        depth: of the flap, front to back (default: as deep as opens clear of the tiers).
        gap: between it and the rest of the lid when it is closed.
        stay: what stops it when it is open.
        finger_size: diameter of the hole that it is lifted by (default: 22 mm or 7/8 in, or the
            widest bit below that there is room for).
    """

    hinge: Hinge = REQUIRED
    count: int = 2
    inset: Given | None = None
    depth: Given | None = None
    gap: Given = "0.5 mm"
    stay: Stay = field(default_factory=Stay)
    finger_size: Given | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FlapFigures:
    """The flap [mm]: where its front edge lies, how deep it is, and its gaps and bore."""

    given: Flap
    front: float
    depth: float
    gap: float
    front_gap: float
    bore: float

    @property
    def hung(self) -> Hung:
        """As any part that turns."""
        given = self.given
        sides = _SIDE_RAILS[1:] if given.stay.count == 1 else _SIDE_RAILS
        return Hung(
            part=FLAP, on="lid", hinge=given.hinge, count=given.count, inset=given.inset,
            stay=given.stay, stays_on=sides,
        )  # fmt: skip

    def parted(
        self,
        placed: Sequence[Placed],
        joints: Sequence[Joint],
        box: BoxFigures,
        timber: Timber | None,
    ) -> tuple[list[Placed], list[Joint]]:
        """Parts and joints with the lid's front taken off it as a flap.

        Args:
            placed: with the whole lid.
            joints: of it, and others.
            box: that it lies in.
            timber: of the flap.
        """
        parts: list[Placed] = []
        for each in placed:
            if each.instance != "lid":
                parts.append(each)
                continue
            low = self.front + self.depth + self.gap
            off = low - each.placement.origin[1]
            blank = each.part.blank
            rest = replace(each.part, blank=replace(blank, width_mm=blank.width_mm - off))
            origin = add(each.placement.origin, scaled(BACK, off))
            parts += [
                replace(each, part=rest, placement=replace(each.placement, origin=origin)),
                self._place(each, box, timber),
            ]
        found: list[Joint] = []
        for joint in joints:
            is_rim = isinstance(joint, RabbetJoint) and joint.incoming == "lid"
            if not is_rim or joint.into != "front rail":
                found.append(joint)
            if is_rim and joint.into in ("front rail", *_SIDE_RAILS):
                gap = self.front_gap if joint.into == "front rail" else box.gap_beside
                found.append(RabbetJoint(into=joint.into, incoming=FLAP, gap_mm=gap))
        return parts, found

    def _place(self, lid: Placed, box: BoxFigures, timber: Timber | None) -> Placed:
        left = lid.placement.origin[0]
        long = lid.part.blank.length_mm
        bore = Bore(
            face=Face.FACE_SIDE, x_mm=long / 2,
            y_mm=box.rail - self.front + self.bore / 2 + self.bore / 4, diameter_mm=self.bore,
        )  # fmt: skip
        low, high = (left, self.front), (left + long, self.front + self.depth)
        return place_panel(FLAP, timber, low, high, box.rabbet_floor, box.rough, (bore,))

    def surfaces(self, lid: Surface) -> list[Surface]:
        """Where lid and flap can carry things.

        Args:
            lid: the whole lid's.
        """
        behind = self.front + self.depth
        return [
            replace(lid, low=(lid.low[0], behind + self.gap)),
            replace(lid, instance=FLAP, low=(lid.low[0], self.front), high=(lid.high[0], behind)),
        ]

    def read_hung(
        self,
        reader: DesignReader,
        whole: Sequence[Placed],
        box: BoxFigures,
        stock: StockOf,
        names: Names,
    ) -> HungFigures | None:
        """How it hangs, or nothing with the problems of its hinges and its stay noted.

        Args:
            reader: keeps the problems.
            whole: the rails and what else stands round it, and the lid that it is taken off.
            box: that the lid lies in.
            stock: of every instance.
            names: of all parts.
        """
        parts, _ = self.parted(whole, (), box, stock.timber(FLAP))
        by_name = {each.instance: each for each in parts}
        return read_one(reader, (FLAP, "flap."), self.hung, by_name, names)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """What a piece gains where something turns: nothing where nothing does."""

    joints: tuple[Joint, ...] = ()
    fixings: tuple[Bought, ...] = ()
    notes: tuple[Note, ...] = ()
    opens: tuple[TurnsOpen, ...] = ()


def turning_of(
    hung: HungFigures, placed: Sequence[Placed], shown: Shown
) -> tuple[list[Placed], Turning]:
    """The parts with the stays' bores, and how the flap turns.

    Args:
        hung: how it hangs.
        placed: all parts.
        shown: the piece's unit.
    """
    bored = hung.bored(placed)
    turns = hung.opens(bored)
    return bored, Turning(
        joints=(hung.joint,),
        fixings=tuple(hung.fixings(turns)),
        notes=tuple(hung.notes(turns, shown)),
        opens=(turns,),
    )


def read_flap(
    reader: DesignReader,
    given: object,
    fixing: LidFixing,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
) -> FlapFigures | None:
    """The flap, nothing where there is none; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `Flap`, or nothing.
        fixing: of the rest of the lid.
        support: what the tiers stand in.
        steps: the tiers.
        stock: of every instance.
    """
    if given is None:
        return None
    if not isinstance(given, Flap):
        reader.refuse(
            "flap", said(given), "Flap(...)", "its gains are cut to the hinge that you bought",
            f"write {reader.example('Flap')}",
        )  # fmt: skip
        return None
    if fixing is not LidFixing.GLUED:
        reader.refuse(
            "flap", "a flap", "nothing, or a lid that is glued",
            "it hangs on the rest of the lid, which must not lift with it",
            "write lid_fixing=LidFixing.GLUED, or leave the flap out",
        )  # fmt: skip
        return None
    across = next((name for name in ("lid", FLAP) if stock.grain(name) is PanelGrain.ACROSS), None)
    if across is not None:
        reader.refuse(
            f"own_grain['{across}']", said(PanelGrain.ACROSS), "PanelGrain.ALONG",
            "a hinge is screwed along the grain, where its screws hold",
            "leave it out, or leave the flap out",
        )  # fmt: skip
        return None
    reader.names("flap.", given)
    box, rules, lid = support.box, reader.rules, stock.timber("lid")
    gap = reader.length(
        "flap.gap", given.gap, at_least=rules[LEAST_HINGE_GAP], at_most=rules[GREATEST_HINGE_GAP],
        why="without a gap it binds at its hinges before it closes, and a wide one shows",
    )  # fmt: skip
    thick = math.nan if lid is None else lid.thickness_mm
    wood = WoodFor(what="the lid", timber=lid, deep=rules[LEAST_FLAP], wide=thick)
    leaf = read_hinge(reader, given.hinge, (wood,), gap, "flap.")
    if not isinstance(given.stay, Stay):
        reader.refuse("flap.stay", said(given.stay), "Stay(...)", "it stops the flap",
                      "leave it out")  # fmt: skip
        return None
    opens = read_opens(reader, "flap.stay.", given.stay)
    if leaf is None or any(math.isnan(each) for each in (gap, opens, thick)):
        return None
    below = thick + leaf.barrel_mm / 2
    lines = _Lines(support=support, steps=steps, opens=opens, barrel=leaf.barrel_mm, rules=rules)
    season = _season_mm(reader, box, lines, lid)
    if math.isnan(season):
        return None
    front, deepest = _deepest(lines, box, max(season, box.gap_before), below, gap)
    if math.isnan(deepest):  # of what is refused already
        return None
    most = math.floor(deepest)
    least = rules[LEAST_FLAP]
    why = (
        f"a hand goes in behind it, and open by {opens:g} degrees it clears what stands above the "
        "rest of the lid, which is wide enough for its hinges"
    )
    if most < least:
        short = lines.short_by(front + least + gap, front)
        deeper = math.ceil(1.03 * short) + 1.0  # its season's gap grows with it
        reader.refuse(
            "flap", f"room for {reader.safe_figure(max(0.0, most), 0.0)}", reader.least(least), why,
            f"make the base {reader.least(deeper)} deeper, or leave the flap out",
        )  # fmt: skip
        return None
    depth = most if given.depth is None else reader.length(
        "flap.depth", given.depth, at_least=least, at_most=most, why=why
    )  # fmt: skip
    if given.depth is not None:
        front = box.wall + max(season, box.gap_before, _turns_in(depth, below, rules))
    room = box.rail - rules[LEAST_RABBET_FLOOR]
    if front > room + 1e-6:
        reader.refuse(
            "flap", f"a flap that needs {reader.least(front - box.wall)} before its front edge",
            f"one that needs {at_most_text(room - box.wall, reader.shown)} and less",
            "its lower edge swings forward as it is lifted, and it lies on the rabbet's floor",
            "use thicker rails, or leave the flap out",
        )  # fmt: skip
        return None
    ledge = box.rail - front
    widest = (depth - ledge) / 2.5
    usual = _USUAL_FINGER_INCH_MM if reader.shown.is_inch else _USUAL_FINGER_MM
    sold = bit_within_mm(min(usual, widest), reader.shown)
    bore = sold if given.finger_size is None else reader.length(
        "flap.finger_size", given.finger_size, at_least=rules[LEAST_FINGER],
        at_most=at_most_known(widest),
        why="a finger goes through, behind the rail that it lies on",
    )  # fmt: skip
    if math.isnan(depth) or math.isnan(bore):
        return None
    return FlapFigures(
        given=given, front=front, depth=depth, gap=gap, front_gap=front - box.wall, bore=bore
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lines:
    """What bounds the line that a flap's back edge lies on [mm, deg]."""

    support: Support
    steps: Sequence[TierFigures]
    opens: float
    barrel: float
    rules: Rules

    @property
    def _strip(self) -> float:
        """In front of what its strip ends at behind."""
        return min(zone.back for zone in self.support.lid_zones()) - self.rules[LEAST_LID_STRIP]

    def furthest(self, front: float) -> float:
        """How far back it may lie for a flap that begins there."""
        ways = (max(self._leaning(each), self._below(each, front)) for each in self.steps)
        return min([self._strip, *ways])

    def short_by(self, line: float, front: float) -> float:
        """How much deeper the base would have to be for a line that lies so far back."""
        met = [self._leaning(each) for each in self.steps if self._below(each, front) < line]
        return max(0.0, *(line - each for each in (self._strip, *met)))

    def _below(self, step: TierFigures, front: float) -> float:
        """So short that it passes below the tier."""
        pin = self.support.box.lid_top + self.barrel / 2
        return front + step.bottom - pin - self.rules[FLAP_CLEAR]

    def _leaning(self, step: TierFigures) -> float:
        """So far forward that it leans back before the tier.

        **Source:** geometry: the open flap leans back over its pin by its angle past upright.
        """
        pin = self.support.box.lid_top + self.barrel / 2
        lean = math.radians(self.opens - 90.0)
        (_, face), _ = self.support.plan(step)
        back = max(0.0, step.top - pin) * math.tan(lean) + self.barrel / 2 / math.cos(lean)
        return face - back - self.rules[FLAP_CLEAR]


def _season_mm(reader: DesignReader, box: BoxFigures, lines: _Lines, lid: Timber | None) -> float:
    """What it needs before it for its seasons [mm]; of unknown wood, what the maker leaves there.

    Held at its back, all of it moves in front: as much as a panel twice as deep at either edge.
    """
    if lid is not None and not is_movement_known(lid.species, lid.sawn):
        return box.gap_before
    return usual_gap_mm(reader, "lid_gap_across", 2.0 * lines.furthest(box.wall), lid)


def _turns_in(depth: float, below: float, rules: Rules) -> float:
    """What the lower front edge needs before it as it turns about a pin so far above it [mm].

    **Source:** geometry.
    """
    return math.hypot(depth, below) - depth + rules[RIM_CLEAR]


def _deepest(
    lines: _Lines, box: BoxFigures, season: float, below: float, gap: float
) -> tuple[float, float]:
    """Where the front edge of the deepest flap lies, and how deep that is [mm]."""
    front = box.wall + season
    depth = lines.furthest(front) - gap - front
    for _ in range(_TURNS):
        turned = _turns_in(max(depth, lines.rules[LEAST_FLAP]), below, lines.rules)
        front = box.wall + max(season, turned)
        depth = lines.furthest(front) - gap - front
    return front, depth
