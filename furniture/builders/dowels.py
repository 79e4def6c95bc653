"""Dowels across the base's end-grain butts: stubs against a post, rails against uprights."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.builders.base_box import BoxFigures
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import ButtJoint, DowelledButtJoint, Joint
from furniture.rules import Rules
from furniture.rules.building import DOWEL_INTO_FACE, DOWEL_LEAST_LENGTH
from furniture.rules.design import DOWEL_EDGE, DOWEL_LEAST_SHARE, DOWEL_LENGTH, DOWEL_MOST_SHARE
from furniture.rules.joinery import DOWEL_SPACING, LEAST_DOWEL
from furniture.units import Given, parameters, said


@parameters
class Dowels:
    """Dowels across each end-grain butt of the base, below the lid's rabbet.

    Args:
        count: in each joint.
        diameter: of the dowels and their holes.
        length: of each dowel (default: five diameters).
    """

    count: int = 2
    diameter: Given = "6 mm"
    length: Given | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DowelFigures:
    """The dowels' figures [mm]: `first` and `last` from the rail's lower and upper edge."""

    count: int
    diameter: float
    length: float
    first: float
    last: float
    into_face: float


def row_height_mm(reader: DesignReader, given: object) -> float:
    """The wood that a row of dowels needs from edge to edge [mm]; 0 where that is not known.

    Args:
        reader: reads ahead, and notes nothing.
        given: a `Dowels`, or nothing.
    """
    if not isinstance(given, Dowels) or not _is_whole(given.count) or given.count < 1:
        return 0.0
    diameter = reader.peek(given.diameter)
    return 0.0 if math.isnan(diameter) else _row_in_diameters(given.count, reader.rules) * diameter


def _row_in_diameters(count: int, rules: Rules) -> float:
    return 2 * rules[DOWEL_EDGE] + rules[DOWEL_SPACING] * (count - 1)


def _is_whole(count: object) -> bool:
    return isinstance(count, int) and not isinstance(count, bool)


def read_dowels(
    reader: DesignReader, given: object, box: BoxFigures, support: float, bottom_thickness: float
) -> DowelFigures | None:
    """The dowels' figures; none when there are none; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `Dowels` or nothing.
        box: of the base.
        support: thickness of the post or the uprights [mm].
        bottom_thickness: of the bottom, 0 for none [mm].
    """
    if given is None:
        return None
    if not isinstance(given, Dowels):
        why = "it says what holds the butts"
        reader.refuse("dowels", said(given), "Dowels(...)", why, "write Dowels()")
        return None
    reader.names("dowels.", given)
    thinner = box.rail if math.isnan(support) else min(box.rail, support)
    diameter = reader.length(
        "dowels.diameter",
        given.diameter,
        at_least=at_least_known(
            reader.rules[DOWEL_LEAST_SHARE] * thinner, reader.rules[LEAST_DOWEL]
        ),
        at_most=at_most_known(reader.rules[DOWEL_MOST_SHARE] * thinner),
        why="a dowel is a quarter to half as thick as the thinner part (common practice)",
    )
    length = reader.rules[DOWEL_LENGTH] * diameter
    if given.length is not None:
        length = reader.length(
            "dowels.length",
            given.length,
            at_least=at_least_known(reader.rules[DOWEL_LEAST_LENGTH] * diameter),
            at_most=at_most_known(8 * diameter),
            why="a dowel holds when it is three diameters long and more (common practice)",
        )
    first = bottom_thickness + reader.rules[DOWEL_EDGE] * diameter
    last = box.height - box.rabbet_floor + reader.rules[DOWEL_EDGE] * diameter
    room = box.height - first - last
    most = (
        8 if math.isnan(room) else 1 + math.floor(room / (reader.rules[DOWEL_SPACING] * diameter))
    )
    why = "dowels stand two diameters apart, below the lid's rabbet and above the bottom"
    if most < 1:
        wood = box.rabbet_floor - bottom_thickness
        _refuse_thick(
            reader,
            given,
            diameter,
            (box.height, wood),
            reader.rules[DOWEL_LEAST_SHARE] * thinner,
            why,
        )
        count = 1
    else:
        count = reader.whole("dowels.count", given.count, 1, most, 2, why) or 1
    return DowelFigures(
        count=count,
        diameter=diameter,
        length=length,
        first=first,
        last=last,
        into_face=reader.rules[DOWEL_INTO_FACE] * support,
    )


def _refuse_thick(
    reader: DesignReader,
    given: Dowels,
    diameter: float,
    rail: tuple[float, float],
    thinnest: float,
    why: str,
) -> None:
    """Not even one dowel has room: note the diameter, or the rails where none is thin enough.

    Args:
        reader: keeps the problems.
        given: the parameters.
        diameter: of the dowels [mm].
        rail: its height, and the wood between the bottom and the lid's rabbet [mm].
        thinnest: the least diameter for such rails [mm].
        why: the reason.
    """
    height, wood = rail
    count = given.count if _is_whole(given.count) and given.count > 1 else 1
    row = _row_in_diameters(count, reader.rules)
    least = max(thinnest, reader.rules[LEAST_DOWEL])
    if wood / row >= least:
        reader.limit(
            "dowels.diameter", diameter, at_least=least, at_most=wood / row, why=why,
            given=given.diameter,
        )  # fmt: skip
        return
    reader.limit("base_height", height, at_least=height - wood + row * diameter, why=why)


@dataclass(frozen=True, slots=True, kw_only=True)
class EndButts:
    """Butts of an end against another part, with dowels across them where there are figures."""

    dowels: DowelFigures | None

    def on(self, into: str, incoming: str) -> Joint:
        """An end against an edge or an end."""
        return self._butt(into, incoming, math.inf)

    def on_wide_face(self, into: str, incoming: str) -> Joint:
        """An end against a wide face, which is bored no deeper than it allows."""
        return self._butt(
            into, incoming, math.inf if self.dowels is None else self.dowels.into_face
        )

    def _butt(self, into: str, incoming: str, deepest: float) -> Joint:
        dowels = self.dowels
        if dowels is None:
            return ButtJoint(into=into, incoming=incoming)
        return DowelledButtJoint(
            into=into,
            incoming=incoming,
            count=dowels.count,
            diameter_mm=dowels.diameter,
            length_mm=dowels.length,
            into_depth_mm=min(dowels.length / 2, deepest),
            first_mm=dowels.first,
            last_mm=dowels.last,
        )
