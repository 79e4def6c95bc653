"""What stops an open lid: a chain or cord from its underside to the inside of a side rail."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.builders.base_box import BoxFigures
from furniture.builders.fixings import Screw
from furniture.builders.measured_hinge import pilot_mm
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.sold_screws import longer_screws, read_screw_diameter, thickest_that_bites
from furniture.joints import HoldBy, Leaf
from furniture.joints.holding import gravity_felt, screw_pull_n, side_n
from furniture.joints.relation import clean
from furniture.parts.cuts import Bore, Cut
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.pieces import Bought, LongerScrews, Note, SoldBy
from furniture.rules.building import GREATEST_SMALL_SCREW, LEAST_SCREW, SCREW_SKIN
from furniture.rules.hinges import (
    GREATEST_OPEN,
    HINGE_BITE,
    LEAST_OPEN,
    STAY_BELOW,
    STAY_BESIDE,
    STAY_REACH,
)
from furniture.timber.stock import Timber
from furniture.units import Given, Shown, figure_with_unit, parameters, said

_USUAL_THICK_MM, _USUAL_LONG_MM = 3.0, 12.7
"""The usual screw of a lid's stay, at most [mm]. Common practice, no source."""
_SIDES = ("right side rail", "left side rail")


@parameters
class Stay:
    """A chain or a cord that is taut when the lid is open, and stops it there.

    Args:
        opens_to: how far the lid opens; past upright, so that it stays open.
        count: one at the right, or one at either side.
        reach: from the hinges' pin to where it is fixed, on lid and rail alike (default: a little
            less than half the depth of the inside).
        screw: at either end.
        name: as one asks for it.
    """

    opens_to: Given = "100 deg"
    count: int = 1
    reach: Given | None = None
    screw: Screw | None = None
    name: str = "lid chain"


@dataclass(frozen=True, slots=True, kw_only=True)
class StayFigures:
    """The stays [mm]; `pin` is the hinges' pin in plan and height, `xs` where each is fixed.

    Each of `rails` holds one, `below` its top; `on_lid` is how far in from the rail's inner face.
    """

    opens_deg: float
    rails: tuple[str, ...]
    reach: float
    below: float
    on_lid: float
    screw: tuple[float, float]
    pilots: tuple[float, float]
    pin: tuple[float, float]
    gap: float
    width: float
    rail: float
    height: float
    name: str
    bears_n: float | None
    screws: LongerScrews

    def _at_lid(self, rail: str) -> Vector:
        """Where it is fixed to the closed lid, piece frame."""
        inner = self.rail + self.on_lid
        x = self.width - inner if rail == _SIDES[0] else inner
        return (x, self.pin[0] - self.reach, self.height + self.gap)

    def _at_rail(self, rail: str) -> Vector:
        """Where it is fixed to its rail, piece frame."""
        x = self.width - self.rail if rail == _SIDES[0] else self.rail
        return (x, self.pin[0] - self.reach, self.height - self.below)

    def ends(self) -> tuple[tuple[Vector, Vector], ...]:
        """Of each stay its end on the closed lid, and the one on its rail."""
        return tuple((self._at_lid(rail), self._at_rail(rail)) for rail in self.rails)

    @property
    def length(self) -> float:
        """Between the middles of its screws when it is taut."""
        turn = math.radians(self.opens_deg)
        off = self.gap / 2
        back = -self.reach * math.cos(turn) + off * math.sin(turn) + self.reach
        up = self.reach * math.sin(turn) + off * math.cos(turn) + off + self.below
        return math.hypot(self.on_lid, back, up)

    def in_lid(self, low: tuple[float, float], face: Face) -> tuple[Cut, ...]:
        """The bores in the lid, whose left front corner is there in plan."""
        return tuple(
            Bore(
                face=face, x_mm=clean(at[0] - low[0]), y_mm=clean(at[1] - low[1]),
                diameter_mm=self.pilots[0], depth_mm=self.screw[1],
            )
            for at in map(self._at_lid, self.rails)
        )  # fmt: skip

    def in_rail(self, placed: Placed) -> tuple[Cut, ...]:
        """The bore in an instance, if it is a rail that holds a stay."""
        if placed.instance not in self.rails:
            return ()
        x, y, _ = placed.placement.to_part(self._at_rail(placed.instance))
        return (
            Bore(
                face=Face.BACK_SIDE, x_mm=clean(x), y_mm=clean(y), diameter_mm=self.pilots[1],
                depth_mm=self.screw[1],
            ),
        )  # fmt: skip

    @property
    def bought(self) -> Bought:
        """The chains or cords."""
        return Bought(
            name=self.name, quantity=len(self.rails), length_mm=math.floor(self.length),
            where=("lid", *self.rails), note="between its screws",
        )  # fmt: skip

    @property
    def fixings(self) -> list[Bought]:
        """Chain and screws."""
        return stays_bought(self.bought, self.screw)

    def notes(self, shown: Shown) -> tuple[Note, ...]:
        """How it is fixed."""
        return (stay_note(self.bought, "lid", self.opens_deg, shown),)


def stays_bought(stay: Bought, screw: tuple[float, float]) -> list[Bought]:
    """The chains or cords of a lid, and the screws at their ends.

    Args:
        stay: all of them.
        screw: diameter and length [mm].
    """
    wide, long = screw
    return [
        stay,
        Bought(
            name="round-head wood screw", quantity=2 * stay.quantity, diameter_mm=wide,
            length_mm=long, where=stay.where, note=f"for the {stay.name}",
            sold_by=SoldBy.GAUGE,
        ),
    ]  # fmt: skip


def stay_note(stay: Bought, lid: str, opens_deg: float, shown: Shown) -> Note:
    """How a stay is fixed.

    Args:
        stay: all of a lid's.
        lid: the instance that it stops.
        opens_deg: how far that opens.
        shown: the piece's unit.
    """
    long = figure_with_unit(stay.length_mm or 0.0, shown)
    said = (
        f"the {stay.name}, {long} between its screws, is taut with the {lid} open by "
        f"{opens_deg:g} degrees: fix it last, and try it before you let go of the {lid}"
    )
    return Note(said, stay.where)


def read_stay(
    reader: DesignReader,
    given: object,
    figures: BoxFigures,
    gap: float,
    woods: tuple[Timber | None, Timber | None],
    bottom: float,
    leaf: Leaf | None,
) -> StayFigures | None:
    """The stays, or nothing with the problems noted.

    Args:
        reader: keeps the problems.
        given: a `Stay`.
        figures: of the box.
        gap: between lid and rails [mm].
        woods: of the lid and of the rail that it is screwed to.
        bottom: thickness of the bottom, 0 for none [mm].
        leaf: of the hinges, if it could be read.
    """
    if not isinstance(given, Stay):
        reader.refuse(
            "hinged_lid.stay", said(given), "Stay(...)",
            "nothing else stops the lid: it would tear out its hinges as it falls back",
            "leave it out, which takes a usual one",
        )  # fmt: skip
        return None
    where = "hinged_lid.stay."
    reader.names(where, given)
    opens = read_opens(reader, where, given)
    count = reader.whole(f"{where}count", given.count, 1, 2, 1, "a lid has two sides")
    below = reader.rules[STAY_BELOW]
    inside = figures.depth - 2 * figures.rail
    reach = reader.rules[STAY_REACH] * inside + figures.rail
    if given.reach is not None:
        reach = reader.length(
            f"{where}reach", given.reach, at_least=at_least_known(figures.rail + below),
            at_most=at_most_known(figures.depth - figures.rail - below),
            why="it is fixed inside the box, clear of its corners",
        )  # fmt: skip
    reader.limit(
        "height", figures.height, at_least=bottom + 2 * below,
        why="its screw stands in the rail with as much wood above as below",
    )  # fmt: skip
    screw = read_stay_screw(reader, where, given.screw, woods)
    lid, side = woods
    if leaf is None or screw is None or lid is None or side is None or math.isnan(opens + reach):
        return None
    return StayFigures(
        opens_deg=opens,
        rails=_SIDES[: count or 1],
        reach=reach,
        below=below,
        on_lid=reader.rules[STAY_BESIDE],
        screw=screw,
        pilots=(pilot_mm(reader, screw[0], lid), pilot_mm(reader, screw[0], side)),
        pin=(figures.depth + leaf.barrel_mm / 2, figures.height + gap / 2),
        gap=gap,
        width=figures.width,
        rail=side.thickness_mm,
        height=figures.height,
        name=reader.text(f"{where}name", given.name) or "lid chain",
        bears_n=stay_bears_n(screw, lid, side),
        screws=stay_screws(reader, screw[1], (("the lid", lid), ("the side rail", side))),
    )


def read_opens(reader: DesignReader, where: str, given: Stay) -> float:
    """How far a lid opens [deg]; not-a-number where that is refused.

    Args:
        reader: keeps the problems.
        where: what messages call the stay's figures.
        given: the stay.
    """
    opens = reader.angle(f"{where}opens_to", given.opens_to)
    low, high = reader.rules[LEAST_OPEN], reader.rules[GREATEST_OPEN]
    if math.isnan(opens) or low <= opens <= high:
        return opens
    nearest = low if opens < low else high
    reader.refuse(
        f"{where}opens_to", said(given.opens_to), f"{low:g} to {high:g} degrees",
        "a lid that is not past upright falls shut on a hand, and one far past it tips the box",
        f"write '{nearest:g} deg'",
    )  # fmt: skip
    return math.nan


def stay_bears_n(screw: tuple[float, float], lid: Timber, rail: Timber) -> float | None:
    """What the screws of one stay bear [N]: pulled out of the lid, or across in the rail.

    Args:
        screw: diameter and length [mm].
        lid: its wood.
        rail: that of what it is screwed to.
    """
    out, across = gravity_felt(lid.species), gravity_felt(rail.species)
    if out is None or across is None:
        return None
    wide, long = screw
    return min(
        screw_pull_n(out, wide, long, end_grain=False),
        side_n((across, across), (long, long), wide, HoldBy.SCREW),
    )


def stay_screws(
    reader: DesignReader, long: float, woods: tuple[tuple[str, Timber], ...]
) -> LongerScrews:
    """What longer screws a stay may have: what it bears grows with what they bite.

    Args:
        reader: knows the limits and the unit.
        long: those that it has [mm].
        woods: what they go into.
    """
    thin, wood = min(woods, key=lambda each: each[1].thickness_mm)
    return longer_screws(reader, long, 0.0, wood.thickness_mm - reader.rules[SCREW_SKIN], thin)


def _usual_screw(reader: DesignReader, room: float) -> Screw:
    """The thickest that is sold and bites in so much wood, up to the usual one's size [mm]."""
    bite, thinnest = reader.rules[HINGE_BITE], reader.rules[LEAST_SCREW]
    most = _USUAL_LONG_MM if math.isnan(room) else min(room, _USUAL_LONG_MM)
    found = thickest_that_bites(reader, 0.0, bite, most, (thinnest, _USUAL_THICK_MM))
    if found is None:  # in wood too thin for any, which is told of its length
        return Screw(diameter=f"{thinnest} mm", length=f"{max(0.0, math.floor(most))} mm")
    return Screw(diameter=found[0], length=found[1])


def read_stay_screw(
    reader: DesignReader, where: str, given: object, woods: tuple[Timber | None, ...]
) -> tuple[float, float] | None:
    """Diameter and length of the screws at its ends [mm]; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        where: what messages call the stay's figures.
        given: a `Screw`; a usual one when left out.
        woods: of the lid and of what it is screwed to.
    """
    thin = min((math.nan if each is None else each.thickness_mm for each in woods),
               key=lambda each: math.inf if math.isnan(each) else each)  # fmt: skip
    skin, bite = reader.rules[SCREW_SKIN], reader.rules[HINGE_BITE]
    if given is None:
        given = _usual_screw(reader, thin - skin)
    if not isinstance(given, Screw):
        reader.refuse(
            f"{where}screw", said(given), "Screw(...)", "it holds the stay", "leave it out"
        )
        return None
    reader.names(f"{where}screw.", given)
    wide = read_screw_diameter(
        reader, f"{where}screw.diameter", given.diameter, at_least=reader.rules[LEAST_SCREW],
        at_most=reader.rules[GREATEST_SMALL_SCREW],
        why="so thick are the screws of small hardware (common practice)",
    )  # fmt: skip
    long = reader.length(
        f"{where}screw.length", given.length, at_least=at_least_known(bite * wide),
        at_most=max(at_least_known(bite * wide), at_most_known(thin - skin)),
        why=f"it bites {bite:g} times its diameter, and {reader.least(skin)} of lid and rail stay "
        "before its point",
    )  # fmt: skip
    return None if math.isnan(wide + long) else (wide, long)
