"""A lid on bought butt hinges: it lies over the rails, opens to the back and is stopped there."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from furniture.builders.base_box import BoxFigures
from furniture.builders.box_lid import FingerHold, Top, height_of, usual_finger_mm
from furniture.builders.common import StockOf
from furniture.builders.lid_stay import Stay, StayFigures, read_stay
from furniture.builders.measured_hinge import (
    Hinge,
    WoodFor,
    hinge_screws,
    hung_note,
    pilot_mm,
    read_hinge,
    screws_bought,
)
from furniture.builders.panels import place_panel
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import HingeJoint, Joint, Leaf, RestJoint
from furniture.parts.cuts import Cut, FingerNotch
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Placed
from furniture.pieces import Bought, LongerScrews, Note, Reference, Surface, TurnsOpen
from furniture.rules.building import LEAST_FINGER
from furniture.rules.hinges import (
    BETWEEN_HINGES,
    GREATEST_HINGE_GAP,
    GREATEST_OVERHANG,
    HINGE_IN,
    LEAST_HINGE_GAP,
    LEAST_OVERHANG,
    NOTCH_LEAVES,
)
from furniture.timber.stock import Timber
from furniture.units import REQUIRED, Given, Shown, figure_with_unit, parameters, said

_RESTS_ON = ("front rail", "left side rail", "right side rail")
HINGED_TO = "back rail"


@parameters
class HingedLid:
    """A lid over the rails that turns on bought hinges at the back, and a stay that stops it.

    Args:
        hinge: as it was measured; all are alike.
        count: two hinges, or three.
        inset: from the box's side to the outer end of a hinge (default: as long as the hinge is).
        gap: between lid and rails when it is closed; the leaves are let in for it.
        overhang: of the lid in front, by which it is lifted.
        side_overhang: of the lid at either side.
        stay: what stops it when it is open.
    """

    hinge: Hinge = REQUIRED
    count: int = 2
    inset: Given | None = None
    gap: Given = "0.5 mm"
    overhang: Given = "5 mm"
    side_overhang: Given = "0 mm"
    stay: Stay = field(default_factory=Stay)


@dataclass(frozen=True, slots=True, kw_only=True)
class HingedTop(Top):
    """The lid on its hinges [mm].

    `starts` are from the back rail's named end, `pilots` the bores in that rail and in the lid.
    """

    figures: BoxFigures
    leaf: Leaf
    starts: tuple[float, ...]
    pilots: tuple[float, float]
    gap: float
    overhang: float
    side_overhang: float
    thickness: float
    screws: LongerScrews
    stay: StayFigures
    holds: tuple[Cut, ...]
    shown: Shown

    @property
    def underside(self) -> float:
        """Height of the lid's underside when it is closed."""
        return self.figures.height + self.gap

    @property
    def _low(self) -> tuple[float, float]:
        return (-self.side_overhang, -self.overhang)

    @property
    def _high(self) -> tuple[float, float]:
        return (self.figures.width + self.side_overhang, self.figures.depth)

    def place(self, stock: StockOf) -> list[Placed]:
        """The lid, closed."""
        cuts = (*self.holds, *self.stay.in_lid(self._low, Face.BACK_SIDE))
        lid = stock.timber("lid")
        rough = self.figures.rough
        assert lid is not None, "stocks were read before parts are placed"
        # where it was measured otherwise its face side would stay, and here its underside does
        under = self.underside - (lid.thickness_mm - self.thickness)
        return [place_panel("lid", lid, self._low, self._high, under, rough, cuts)]

    def bored(self, placed: list[Placed]) -> list[Placed]:
        """The instances with the bores in the side rails for what stops the lid."""
        return [
            replace(
                each, part=replace(each.part, cuts=each.part.cuts + self.stay.in_rail(each))
            )
            for each in placed
        ]  # fmt: skip

    def joints(self) -> list[Joint]:
        """Hinges at the back; in front its weight closes the gap."""
        return [
            HingeJoint(
                into=HINGED_TO, incoming="lid", leaf=self.leaf, starts_mm=self.starts,
                gap_mm=self.gap, pilots_mm=self.pilots,
            ),
            *(
                RestJoint(
                    into=rail, incoming="lid", gap_mm=self.gap,
                    play_mm=0.0 if rail == "front rail" else self.gap,
                )
                for rail in _RESTS_ON
            ),
        ]  # fmt: skip

    def surfaces(self) -> list[Surface]:
        """The lid's top."""
        top = self.underside + self.thickness
        return [Surface(instance="lid", low=self._low, high=self._high, top_mm=top)]

    def hidden(self) -> dict[str, dict[Arris, str]]:
        """Where the leaves lie; the gap all round leaves every other edge in the open."""
        leaves = "the hinges' leaves lie there"
        return {
            HINGED_TO: {Arris(Face.FACE_SIDE, Face.BACK_EDGE): leaves},
            "lid": {Arris(Face.BACK_SIDE, Face.BACK_EDGE): leaves},
        }

    def references(self) -> list[Reference]:
        """The rails' top and the lid's."""
        return [
            height_of("rails' top", self.figures.height),
            height_of("lid top", self.underside + self.thickness),
        ]

    @property
    def notes(self) -> tuple[Note, ...]:
        """How it is hung."""
        hung = hung_note(self.leaf, self.gap, ("lid", HINGED_TO), self.shown)
        return (hung, *self.stay.notes(self.shown))

    @property
    def fixings(self) -> list[Bought]:
        """The hinges' screws and what stops the lid; the hinges are counted off their joint."""
        screws = screws_bought(self.leaf, len(self.starts), ("lid", HINGED_TO))
        return [screws, *self.stay.fixings]

    def opens(self) -> TurnsOpen:
        """How it turns, and what stops it."""
        pin = (
            self.figures.width / 2,
            self.figures.depth + self.leaf.barrel_mm / 2,
            self.figures.height + self.gap / 2,
        )
        return TurnsOpen(
            instance="lid",
            hinged_to=HINGED_TO,
            pin=pin,
            axis=(-1.0, 0.0, 0.0),
            opens_deg=self.stay.opens_deg,
            stays=self.stay.ends(),
            stay_bears_n=self.stay.bears_n,
            front=(self.figures.width / 2, -self.overhang, self.underside + self.thickness / 2),
            over_mm=self.overhang,
            hinge_screws=self.screws,
            stay_screws=self.stay.screws,
            stay=self.stay.bought,
        )


def read_hinged_lid(
    reader: DesignReader,
    given: object,
    figures: BoxFigures,
    lid: Timber | None,
    back: Timber | None,
    side: Timber | None,
    bottom: float,
    measured: float | None,
) -> HingedTop | None:
    """The hinged lid's figures, without what it is lifted by; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `HingedLid`.
        figures: of the box.
        lid: its timber, if it could be read.
        back: that of the rail that it hangs on.
        side: that of the rail that its stay is screwed to.
        bottom: thickness of the bottom, 0 for none [mm].
        measured: thickness of the lid as it came out, where not its stock's [mm].
    """
    if not isinstance(given, HingedLid):
        reader.refuse(
            "hinged_lid", "nothing" if given is None else said(given), "HingedLid(...)",
            "its gains are cut to the hinge that you bought, so its sizes have to be known",
            f"write {reader.example('HingedLid')} with what your hinge measures",
        )  # fmt: skip
        return None
    reader.names("hinged_lid.", given)
    gap = reader.length(
        "hinged_lid.gap", given.gap, at_least=reader.rules[LEAST_HINGE_GAP],
        at_most=reader.rules[GREATEST_HINGE_GAP],
        why="without a gap the lid binds at its hinges before it closes, and a wide one shows",
    )  # fmt: skip
    overhang, beside = (
        reader.length(
            f"hinged_lid.{name}", each, at_least=0.0, at_most=reader.rules[GREATEST_OVERHANG],
            why="what stands out further is knocked, and lifts the box by its hinges",
        )
        for name, each in (("overhang", given.overhang), ("side_overhang", given.side_overhang))
    )  # fmt: skip
    woods = (
        WoodFor(what="the back rail", timber=back,
                deep=figures.height - bottom, wide=_thick(back)),
        WoodFor(what="the lid", timber=lid, deep=_thick(lid), wide=figures.depth),
    )  # fmt: skip
    leaf = read_hinge(reader, given.hinge, woods, gap, "hinged_lid.")
    stay = read_stay(reader, given.stay, figures, gap, (lid, side), bottom, leaf)
    count = reader.whole("hinged_lid.count", given.count, 2, 3, 2, "two hinges hold a lid straight")
    if leaf is None or stay is None or lid is None or back is None:
        return None
    starts = _read_starts(reader, given, figures, leaf, count or 2, _thick(back))
    return HingedTop(
        figures=figures,
        leaf=leaf,
        starts=starts,
        pilots=(
            pilot_mm(reader, leaf.screw_mm, back),
            pilot_mm(reader, leaf.screw_mm, lid),
        ),
        gap=gap,
        overhang=overhang,
        side_overhang=beside,
        thickness=lid.thickness_mm if measured is None else measured,
        screws=hinge_screws(reader, leaf, woods, gap),
        stay=stay,
        holds=(),
        shown=reader.shown,
    )


def _thick(timber: Timber | None) -> float:
    return math.nan if timber is None else timber.thickness_mm


def _read_starts(
    reader: DesignReader,
    given: HingedLid,
    figures: BoxFigures,
    leaf: Leaf,
    count: int,
    rail: float,
) -> tuple[float, ...]:
    """Where the hinges begin along the back rail, the outer ones as far in at either end."""
    least = max(rail, reader.rules[HINGE_IN])
    between = reader.rules[BETWEEN_HINGES]
    most = (figures.width - count * leaf.length_mm - (count - 1) * between) / 2
    why = (
        "a leaf is let in clear of the mitre, where a corner's short grain would break out, and "
        "the hinges stand apart"
    )
    if most < least:
        reader.refuse(
            "hinged_lid.hinge.leaf_length",
            figure_with_unit(leaf.length_mm, reader.shown),
            f"at most {reader.least(0.0)}" if math.isnan(most) else _most_leaf(
                reader, figures.width, count, least, between
            ),
            why,
            "use shorter hinges, or a wider box",
        )  # fmt: skip
        return (least,) * count
    usual = min(max(leaf.length_mm, least), most)
    inset = (
        usual
        if given.inset is None
        else reader.length(
            "hinged_lid.inset", given.inset, at_least=at_least_known(least),
            at_most=at_most_known(most), why=why,
        )
    )  # fmt: skip
    last = figures.width - inset - leaf.length_mm
    return (inset, last) if count == 2 else (inset, (inset + last) / 2, last)


def _most_leaf(reader: DesignReader, width: float, count: int, least: float, between: float) -> str:
    room = (width - 2 * least - (count - 1) * between) / count
    return f"at most {reader.safe_figure(max(0.0, math.floor(room)), 0.0)}"


def read_lift(
    reader: DesignReader, hold: FingerHold | None, size: Given | None, top: HingedTop
) -> tuple[Cut, ...]:
    """What a hinged lid is lifted by; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        hold: nothing where it stands out in front, else a notch, when left out.
        size: the notch's diameter, as written; the usual one, where it has room, when left out.
        top: the lid.
    """
    stands_out = not top.overhang < reader.rules[LEAST_OVERHANG]
    usual = FingerHold.NONE if stands_out else FingerHold.NOTCH
    kind = reader.choice("finger_hold", usual if hold is None else hold, FingerHold, usual)
    if kind in (FingerHold.BORE, FingerHold.RECESS):
        reader.refuse(
            "finger_hold", said(kind), "FingerHold.NOTCH or NONE",
            "a hinged lid is lifted by its front edge", "write FingerHold.NOTCH",
        )  # fmt: skip
        return ()
    out = reader.least(reader.rules[LEAST_OVERHANG])
    if kind is FingerHold.NONE:
        if not stands_out:
            reader.refuse(
                "finger_hold", said(kind), "FingerHold.NOTCH",
                f"nothing lifts a lid that stands out less than {out} in front",
                f"write FingerHold.NOTCH, or hinged_lid.overhang='{out}'",
            )  # fmt: skip
        return ()
    length = top.figures.width + 2 * top.side_overhang
    radius = top.figures.rail + top.overhang - reader.rules[NOTCH_LEAVES]
    most = min(60.0, length / 3, 2.0 * radius)
    least = reader.rules[LEAST_FINGER]
    if most < least:
        reader.refuse(
            "finger_hold", said(kind), "FingerHold.NONE",
            "a notch in so narrow a rim would open the box", f"write FingerHold.NONE and "
            f"hinged_lid.overhang='{out}'",
        )  # fmt: skip
        return ()
    wide = usual_finger_mm(reader, most) if size is None else reader.length(
        "finger_size", size, at_least=least, at_most=at_most_known(most),
        why="a finger goes in, and the notch ends over the front rail",
    )  # fmt: skip
    return (FingerNotch(edge=Face.FACE_EDGE, centre_mm=length / 2, radius_mm=wide / 2),)
