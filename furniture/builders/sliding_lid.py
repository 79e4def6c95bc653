"""A lid that slides: in grooves of three rails, drawn out over a notch in the fourth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.builders.base_box import BoxFigures
from furniture.builders.box_lid import FingerHold, Top, height_of, usual_finger_mm
from furniture.builders.common import StockOf
from furniture.builders.panels import place_panel
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.joints import EASY, Fit, GrooveJoint, Joint, NotchJoint, TrialCut, read_fit
from furniture.parts.cuts import Along, Bore, Cut, Slot
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import Note, Reference, Surface
from furniture.rules.building import (
    LEAST_BELOW_RABBET,
    LEAST_FINGER,
    LEAST_LID_LIP,
    RECESS_DEPTH,
    RECESS_IN,
    RECESS_WIDTH,
)
from furniture.rules.design import DADO_SHARE
from furniture.rules.joinery import LEAST_GRIP, LEAST_STOP
from furniture.timber.stock import Timber
from furniture.units import Given, parameters, said

RAILS = ("front rail", "left side rail", "right side rail", "back rail")


RECESS_INCH_MM = 25.4 * 3 / 8
"""The same width where bits are sold in inches [mm]. Common practice, no source."""


class DrawnTo(Enum):
    """The side at which a sliding lid is drawn out."""

    RIGHT = "right"
    LEFT = "left"


@parameters
class SlidingLid:
    """A lid in grooves of three rails, drawn out along its grain over a notch in the fourth.

    Args:
        drawn_to: the side at which it is drawn out: that rail is notched.
        reach: how far it goes into its grooves at least (default: up to a third of the rail, as
            far as the corners beside the notch stay strong); where its gap is the smaller one it
            goes in further, so that one depth serves all grooves.
        lip: wood above it (default: as thick as the lid).
        fit: how it runs in its grooves.
    """

    drawn_to: DrawnTo = DrawnTo.RIGHT
    reach: Given | None = None
    lip: Given | None = None
    fit: Fit | TrialCut | Given = EASY


@dataclass(frozen=True, slots=True, kw_only=True)
class SlidingTop(Top):
    """The lid in its grooves [mm]; `lip` is the wood above the grooves' upper walls.

    All grooves are as deep, so that the rails can be one length while they are run: the lid goes in
    further where less play is left.
    """

    figures: BoxFigures
    drawn_to: DrawnTo
    thickness: float
    reach: float
    lip: float
    gap_along: float
    gap_across: float
    fit: Fit
    holds: tuple[Cut, ...]

    @property
    def underside(self) -> float:
        """Height of the lid's underside, which is the grooves' lower wall and the notch's floor."""
        box = self.figures
        return box.height - self.lip - self.fit.clearance_mm(self.thickness) - self.thickness

    @property
    def _behind(self) -> float:
        """The wood of a rail behind its groove."""
        return self.figures.rail - self.reach - max(self.gap_along, self.gap_across)

    @property
    def size(self) -> tuple[float, float]:
        """The lid's length and width."""
        box, behind = self.figures, self._behind
        return (
            box.width - behind - self.gap_along,
            box.depth - 2 * (behind + self.gap_across),
        )

    @property
    def _low(self) -> tuple[float, float]:
        """Its left front corner in plan."""
        inner = self._behind + self.gap_along if self.drawn_to is DrawnTo.RIGHT else 0.0
        return (inner, self._behind + self.gap_across)

    @property
    def _rails(self) -> tuple[str, str]:
        """The rail that its inner end goes into, and the one that it is drawn out over."""
        left, right = "left side rail", "right side rail"
        return (left, right) if self.drawn_to is DrawnTo.RIGHT else (right, left)

    def place(self, stock: StockOf) -> list[Placed]:
        """The lid pushed home, its outer end flush with the notched rail."""
        (x, y), (length, width) = self._low, self.size
        high = (x + length, y + width)
        rough = self.figures.rough
        lid = stock.timber("lid")
        return [place_panel("lid", lid, (x, y), high, self.underside, rough, self.holds)]

    def joints(self) -> list[Joint]:
        """Grooves along both edges and at the inner end, and the notch at the outer one."""
        inner, outer = self._rails
        return [
            *(
                GrooveJoint(into=rail, incoming="lid", fit=self.fit, gap_mm=gap)
                for rail, gap in (
                    ("front rail", self.gap_across),
                    ("back rail", self.gap_across),
                    (inner, self.gap_along),
                )
            ),
            NotchJoint(into=outer, incoming="lid", gap_mm=self.gap_across),
        ]

    def surfaces(self) -> list[Surface]:
        """The lid's top between the rails."""
        box, rail = self.figures, self.figures.rail
        return [
            Surface(
                instance="lid",
                low=(rail, rail),
                high=(box.width - rail, box.depth - rail),
                top_mm=self.underside + self.thickness,
            )
        ]

    def hidden(self) -> dict[str, dict[Arris, str]]:
        """What runs in the grooves, and the rails' edges above them."""
        outer_end = Face.FAR_END if self.drawn_to is DrawnTo.RIGHT else Face.NAMED_END
        running = "this edge runs in the rails' grooves: a profile there would leave it loose"
        lip = "the lid's groove runs below it, and the lip above that stays whole"
        notch = "the notch for the lid is there"
        found: dict[str, dict[Arris, str]] = {
            rail: {Arris(Face.BACK_SIDE, Face.BACK_EDGE): lip} for rail in RAILS
        }
        found[self._rails[1]] = {Arris(wide, Face.BACK_EDGE): notch for wide in WIDE_FACES}
        found["lid"] = {
            Arris(wide, edge): running
            for wide in WIDE_FACES
            for edge in (*EDGES, *ENDS)
            if edge is not outer_end
        }
        found["lid"] |= {Arris(edge, outer_end): running for edge in EDGES}
        found["lid"][Arris(Face.BACK_SIDE, outer_end)] = "this edge lies on the floor of the notch"
        return found

    def references(self) -> list[Reference]:
        """The rails' top and the lid's."""
        return [
            height_of("rails' top", self.figures.height),
            height_of("lid top", self.underside + self.thickness),
        ]

    @property
    def notes(self) -> tuple[Note, ...]:
        """How it is fitted."""
        said = (
            f"the lid slides out to the {self.drawn_to.value}: wax its edges and its grooves, and "
            "keep glue and finish out of them"
        )
        outer = self._rails[1]
        run = f"the lid's groove may run along {outer} too: its notch takes that wood"
        return (Note(said, ("lid", *RAILS)), Note(run, (outer,)))


def read_sliding_lid(
    reader: DesignReader,
    given: object,
    figures: BoxFigures,
    lid: Timber | None,
    gaps: tuple[float, float],
    bottom: float,
    rails: str,
) -> SlidingTop:
    """The sliding lid's figures, without what it is drawn by; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `SlidingLid`, or nothing for the usual one.
        figures: of the box.
        lid: its timber, if it could be read.
        gaps: beyond its inner end and its edges [mm].
        bottom: thickness of the bottom, 0 for none [mm].
        rails: the parameter of the rails' stock.
    """
    wanted = SlidingLid() if given is None else given
    if not isinstance(wanted, SlidingLid):
        why = "it says how the lid slides"
        reader.refuse("sliding_lid", said(given), "SlidingLid(...)", why, "write SlidingLid()")
        wanted = SlidingLid()
    reader.names("sliding_lid.", wanted)
    drawn_to = reader.choice("sliding_lid.drawn_to", wanted.drawn_to, DrawnTo, DrawnTo.RIGHT)
    fit = read_fit(reader, "sliding_lid.fit", wanted.fit, reader.rules)
    thickness = math.nan if lid is None else lid.thickness_mm
    return SlidingTop(
        figures=figures,
        drawn_to=drawn_to,
        thickness=thickness,
        reach=_read_reach(reader, wanted.reach, figures.rail, max(gaps), rails),
        lip=_read_lip(reader, wanted.lip, figures, (thickness, fit), bottom),
        gap_along=gaps[0],
        gap_across=gaps[1],
        fit=fit,
        holds=(),
    )


def _read_reach(
    reader: DesignReader, given: Given | None, rail: float, gap: float, rails: str
) -> float:
    """How far the lid goes in [mm]: it still grips when it has shrunk by as much as its gap."""
    least = gap + reader.rules[LEAST_GRIP]
    most = reader.rules[DADO_SHARE] * rail - gap
    why = (
        "the lid grips its grooves when it has shrunk, and half the rail stays behind them (common "
        "practice)"
    )
    if not is_room(
        reader, f"{rails} thickness", rail, (least + gap) / reader.rules[DADO_SHARE], why,
        lambda nearest: f"use rails {nearest} thick, or a lid with smaller gaps",
    ):  # fmt: skip
        least, most = 0.0, math.nan
    if given is None:
        if math.isnan(rail):
            return math.nan
        # Beside the notch the mitre leaves a wedge: from its middle to the notch it is this strong.
        strong = rail / 2 - gap - reader.rules[LEAST_STOP]
        return min(most, max(least, min(round(rail / 3 * 2) / 2, strong)))
    return reader.length(
        "sliding_lid.reach", given, at_least=at_least_known(least), at_most=at_most_known(most),
        why=why,
    )  # fmt: skip


def _read_lip(
    reader: DesignReader,
    given: Given | None,
    figures: BoxFigures,
    lid: tuple[float, Fit],
    bottom: float,
) -> float:
    """The wood above the grooves of a lid of a thickness and a fit [mm]."""
    thickness, fit = lid
    groove = thickness + fit.clearance_mm(thickness)
    least = reader.rules[LEAST_LID_LIP]
    room = figures.height - groove - bottom - reader.rules[LEAST_BELOW_RABBET]
    why = (
        f"the rail holds the lid's groove with {reader.least(least)} above it, a bottom's rabbet "
        f"where there is one, and {reader.least(reader.rules[LEAST_BELOW_RABBET])} beside them"
    )
    if not is_room(
        reader, "height", figures.height, figures.height - room + least, why,
        lambda nearest: f"make it {nearest}",
    ):  # fmt: skip
        room = math.nan
    if given is None:
        return min(at_most_known(room), max(least, thickness))
    return reader.length(
        "sliding_lid.lip", given, at_least=least, at_most=at_most_known(room), why=why
    )


def read_pull(
    reader: DesignReader, hold: FingerHold | None, size: Given | None, top: SlidingTop
) -> tuple[Cut, ...]:
    """What a sliding lid is drawn by; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        hold: a recess when left out.
        size: the recess's length or the bore's diameter, as written; the usual when left out.
        top: the lid.
    """
    given = FingerHold.RECESS if hold is None else hold
    kind = reader.choice("finger_hold", given, FingerHold, FingerHold.RECESS)
    if kind is FingerHold.NOTCH:
        reader.refuse(
            "finger_hold", said(kind), "FingerHold.RECESS, BORE or NONE",
            "a notch in its edge would open the groove", "write FingerHold.RECESS",
        )  # fmt: skip
    if kind in (FingerHold.NONE, FingerHold.NOTCH):
        return ()
    length, width = top.size
    most = max(reader.rules[LEAST_FINGER], min(60.0, at_most_known(width / 2.5)))
    wide = usual_finger_mm(reader, most) if size is None else reader.length(
        "finger_size", size, at_least=reader.rules[LEAST_FINGER], at_most=most,
        why="finger tips go in and the lid keeps its edges (common practice)",
    )  # fmt: skip
    from_end = top.figures.rail + reader.rules[RECESS_IN]
    if kind is FingerHold.BORE:
        from_end += wide / 2
    x = length - from_end if top.drawn_to is DrawnTo.RIGHT else from_end
    if kind is FingerHold.BORE:
        return (Bore(face=Face.FACE_SIDE, x_mm=x, y_mm=width / 2, diameter_mm=wide),)
    return (
        Slot(
            face=Face.FACE_SIDE,
            x_mm=x,
            y_mm=width / 2,
            length_mm=wide,
            width_mm=RECESS_INCH_MM if reader.shown.is_inch else reader.rules[RECESS_WIDTH],
            depth_mm=reader.rules[RECESS_DEPTH] * top.thickness,
            along=Along.ACROSS,
        ),
    )
