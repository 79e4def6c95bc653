"""Reads what a maker says of a part that turns on hinges."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from furniture.builders.common import Names
from furniture.builders.hung import ClosedPlacement, Hung, HungFigures, closed_placement, inner_of
from furniture.builders.lid_stay import Stay, read_opens, read_stay_screw, stay_bears_n, stay_screws
from furniture.builders.measured_hinge import WoodFor, hinge_screws, pilot_mm, read_hinge
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import Leaf
from furniture.parts.part import Placed
from furniture.parts.vectors import dot, scaled
from furniture.rules.hinges import (
    BETWEEN_HINGES,
    GREATEST_HINGE_GAP,
    HINGE_IN,
    LEAST_HINGE_GAP,
    STAY_BELOW,
    STAY_BESIDE,
    STAY_REACH,
)
from furniture.units import counted, figure_with_unit, said, word_remedy


def read_hung(
    reader: DesignReader, given: object, standing: Sequence[Placed], names: Names
) -> list[HungFigures]:
    """All parts that turn; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: `Hung` values.
        standing: the parts where they stand, as far as they could be read.
        names: of all parts.
    """
    placed = {each.instance: each for each in standing}
    found = []
    for index, each in enumerate(reader.several("hung", given, Hung, reader.example("Hung"))):
        where = counted("hung", index)
        if not isinstance(each, Hung):
            reader.refuse(
                where, said(each), "Hung(...)", "it says what turns on which hinges",
                f"write {reader.example('Hung')}",
            )  # fmt: skip
            continue
        reader.names(f"{where} ", each)
        one = read_one(reader, (where, f"{where} "), each, placed, names)
        if one is not None:
            found.append(one)
    return found


def _is_known(reader: DesignReader, where: str, name: object, names: Names) -> bool:
    if isinstance(name, str) and name in names.instances:
        return True
    reader.refuse(
        where, said(name), ", ".join(names.instances), "it names one of the parts",
        word_remedy(name, names.instances),
    )  # fmt: skip
    return False


def read_one(
    reader: DesignReader,
    called: tuple[str, str],
    given: Hung,
    placed: Mapping[str, Placed],
    names: Names,
) -> HungFigures | None:
    """One part that turns, or nothing with the problems noted.

    Args:
        reader: keeps the problems.
        called: what messages call it, and what they put before its figures.
        given: how it hangs.
        placed: the parts where they stand, as far as they could be read.
        names: of all parts.
    """
    where, at = called
    sides = [
        str(each) for each in reader.several(f"{at}stays_on", given.stays_on, str, '["left side"]')
    ]
    known = [
        _is_known(reader, f"{at}{what}", each, names)
        for what, each in (
            ("part", given.part), ("on", given.on), *(("stays_on", each) for each in sides)
        )
    ]  # fmt: skip
    if not sides or len(sides) > 2:
        reader.refuse(
            f"{at}stays_on", _named(len(sides)), "one part or two",
            "nothing else stops it: it would tear out its hinges as it falls back",
            "name a part at its side",
        )  # fmt: skip
        return None
    if not isinstance(given.stay, Stay):
        reader.refuse(
            f"{at}stay", said(given.stay), "Stay(...)", "it stops what turns", "leave it out"
        )
        return None
    if not all(known) or any(each not in placed for each in (given.part, given.on, *sides)):
        return None
    into, turning = placed[given.on], placed[given.part]
    frame = closed_placement(into, turning)
    if frame is None:
        reader.refuse(
            where, f"{given.part} and {given.on} as they are placed",
            f"{given.part} over an edge of {given.on}, flush with it where the barrels stand, and "
            "the grain of both along them",
            "a hinge's leaves lie in both, and its barrel before both",
            f"place {given.part} so",
        )  # fmt: skip
        return None
    gap = _read_gap(reader, where, given, frame)
    blank = turning.part.blank
    down, out = scaled(frame.up, -1.0), frame.out
    met, open_at = turning.placement.face_towards(down), turning.placement.face_towards(out)
    woods = (
        WoodFor(what=given.on, timber=into.part.timber, deep=into.part.blank.width_mm,
                wide=into.part.blank.thickness_mm),
        WoodFor(what=given.part, timber=turning.part.timber, deep=blank.across(met),
                wide=blank.across(open_at)),
    )  # fmt: skip
    leaf = read_hinge(reader, given.hinge, woods, gap, f"{at}")
    stay = f"{at}stay."
    reader.names(stay, given.stay)
    opens = read_opens(reader, stay, given.stay)
    side = placed[sides[0]].part
    screw = read_stay_screw(reader, stay, given.stay.screw, (turning.part.timber, side.timber))
    count = reader.whole(f"{at}count", given.count, 2, 3, 2, "two hinges hold it straight")
    starts = None if leaf is None else _read_starts(reader, at, given, frame, leaf, count or 2)
    reach = math.nan
    if leaf is not None:
        reach = _read_reach(reader, at, given, frame, [placed[each] for each in sides], leaf)
    if leaf is None or starts is None or screw is None or math.isnan(opens + reach + gap):
        return None
    return HungFigures(
        given=replace(given, stays_on=tuple(sides)),
        leaf=leaf,
        starts=starts,
        gap=gap,
        pilots=(
            pilot_mm(reader, leaf.screw_mm, into.part.timber),
            pilot_mm(reader, leaf.screw_mm, turning.part.timber),
        ),
        opens_deg=opens,
        screw=screw,
        stay_pilots=(
            pilot_mm(reader, screw[0], turning.part.timber),
            pilot_mm(reader, screw[0], side.timber),
        ),
        bears_n=stay_bears_n(screw, turning.part.timber, side.timber),
        screws=hinge_screws(reader, leaf, woods, gap),
        stay_screws=stay_screws(
            reader,
            screw[1],
            ((f"the {given.part}", turning.part.timber), (f"the {sides[0]}", side.timber)),
        ),
        name=reader.text(f"{stay}name", given.stay.name) or "lid chain",
        reach=reach,
        below=reader.rules[STAY_BELOW],
        beside=reader.rules[STAY_BESIDE],
    )


def _named(count: int) -> str:
    """How many parts are named."""
    return "nothing" if count == 0 else f"{count} parts"


def _read_gap(reader: DesignReader, where: str, given: Hung, frame: ClosedPlacement) -> float:
    """How far off it is placed [mm]; not-a-number where that is refused."""
    low, high = reader.rules[LEAST_HINGE_GAP], reader.rules[GREATEST_HINGE_GAP]
    if low - 1e-9 <= frame.gap <= high + 1e-9:
        return frame.gap
    nearest = low if frame.gap < low else high
    reader.refuse(
        where,
        f"{given.part} {figure_with_unit(max(0.0, frame.gap), reader.shown)} off {given.on}",
        f"{reader.least(low)} to {figure_with_unit(high, reader.shown)}",
        "without a gap it binds at its hinges before it closes, and a wide one shows",
        f"place {given.part} {reader.least(nearest)} off",
    )  # fmt: skip
    return math.nan


def _read_starts(
    reader: DesignReader, at: str, given: Hung, frame: ClosedPlacement, leaf: Leaf, count: int
) -> tuple[float, ...] | None:
    """Where the hinges begin along what it hangs on, the outer ones as far in at either end."""
    along = frame.into.placement.x_axis
    own, other = frame.extent(frame.into, along), frame.extent(frame.turning, along)
    low, high = max(own[0], other[0]) - own[0], min(own[1], other[1]) - own[0]
    least, between = reader.rules[HINGE_IN], reader.rules[BETWEEN_HINGES]
    most = (high - low - count * leaf.length_mm - (count - 1) * between) / 2
    why = "a leaf is let in clear of the ends, and the hinges stand apart"
    if most < least:
        room = (high - low - 2 * least - (count - 1) * between) / count
        reader.refuse(
            f"{at}hinge.leaf_length", figure_with_unit(leaf.length_mm, reader.shown),
            f"at most {reader.safe_figure(max(0.0, math.floor(room)), 0.0)}", why,
            "use shorter hinges, or make both longer",
        )  # fmt: skip
        return None
    inset = min(max(leaf.length_mm, least), most)
    if given.inset is not None:
        inset = reader.length(
            f"{at}inset", given.inset, at_least=at_least_known(least),
            at_most=at_most_known(most), why=why,
        )  # fmt: skip
    first, last = low + inset, high - inset - leaf.length_mm
    return (first, last) if count == 2 else (first, (first + last) / 2, last)


def _read_reach(
    reader: DesignReader,
    at: str,
    given: Hung,
    frame: ClosedPlacement,
    sides: Sequence[Placed],
    leaf: Leaf,
) -> float:
    """From the pin to the stays' ends [mm]: within all that they are screwed to."""
    pin = dot(frame.pin(leaf), frame.reach)
    below = reader.rules[STAY_BELOW]
    near, far = below, math.inf
    for side in (*sides, frame.turning):
        low, high = frame.extent(side, frame.reach)
        near, far = max(near, low - pin + below), min(far, high - pin - below)
    for side in sides:
        low, high = frame.extent(side, frame.rise)
        deep = min(high, frame.under) - low
        inner, way = inner_of(frame, side)
        reaches = frame.extent(frame.turning, frame.along)
        is_under = reaches[0] < inner + way * reader.rules[STAY_BESIDE] < reaches[1]
        if deep < 2 * below or not is_under or far < near:
            reader.refuse(
                f"{at}stays_on", side.instance,
                f"a part at the side of {given.part}, under it and {reader.least(2 * below)} high",
                "the stay's screws stand in it and in what turns, with wood all round",
                "name another part",
            )  # fmt: skip
            return math.nan
    usual = near + reader.rules[STAY_REACH] * (far - near)
    if given.stay.reach is None:
        return usual
    return reader.length(
        f"{at}stay.reach", given.stay.reach, at_least=at_least_known(near),
        at_most=at_most_known(far), why="its screws stand clear of the ends of what they hold in",
    )  # fmt: skip
