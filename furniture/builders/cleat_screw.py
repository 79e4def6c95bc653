"""The screw through a cleat: as long as it can be without coming out of what it bites."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.builders.fixings import Screw
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.sold_screws import (
    NUMBER_8_MM,
    USUAL_SCREW_MM,
    longest_sold_mm,
    read_screw_diameter,
    sold_mm,
)
from furniture.joints import Driven, HoldBy
from furniture.rules.building import (
    LEAST_BITE,
    LEAST_CLEAT,
    LEAST_SCREW,
    SCREW_SKIN,
    SLOT_LENGTH,
    SLOT_LENGTH_INCH,
    SLOT_WIDTH,
    SLOT_WIDTH_INCH,
)
from furniture.units import range_as_text, said

_LOOSER_MM = 0.5
"""How much narrower than its slot a screw is, so that it slides. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bitten:
    """What the screws of a cleat go into, so that it can still move [mm].

    `skin` is where they must not come out. `instead` is what is refused where no screw that is sold
    serves: parameter, given, allowed and remedy.
    """

    thickness: float
    called: str
    skin: str
    instead: tuple[str, str, str, str]


def cleat_slot_mm(reader: DesignReader) -> tuple[float, float]:
    """The width and the length of a cleat's slots [mm], of the piece's unit."""
    rules = reader.rules
    if reader.shown.is_inch:
        return rules[SLOT_WIDTH_INCH], rules[SLOT_LENGTH_INCH]
    return rules[SLOT_WIDTH], rules[SLOT_LENGTH]


def cleat_thicknesses_mm(reader: DesignReader, bitten: float) -> tuple[float, float] | None:
    """From what to what cleats may be thick so that a screw that is sold serves them all [mm].

    None where none serves the thinnest.

    Args:
        reader: knows the rules and the unit.
        bitten: how thick what the screws go into is [mm].
    """
    inside = bitten - reader.rules[SCREW_SKIN]
    bite = min(reader.rules[LEAST_BITE], max(inside, 0.0) / 2)
    least = reader.rules[LEAST_CLEAT]
    most: float | None = None
    for length in sorted(sold_mm(reader.shown.is_inch)):
        if length - inside <= (least if most is None else most) and length - bite >= least:
            most = length - bite
    return None if most is None else (least, most)


def read_cleat_screw(
    reader: DesignReader, where: str, given: object, cleat: float, bitten: Bitten
) -> Driven | None:
    """The screw through a cleat; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        where: what messages call the cleats, up to the names of their parameters.
        given: a `Screw`, or nothing for one that is worked out.
        cleat: how thick the cleat is [mm].
        bitten: what it goes into.
    """
    if not isinstance(given, Screw | None):
        why = f"it says what holds the {bitten.called}"
        reader.refuse(f"{where}screw", said(given), "Screw(...)", why, "leave it out")
        return None
    is_inch, skin = reader.shown.is_inch, reader.rules[SCREW_SKIN]
    most = cleat + bitten.thickness - skin
    usual = longest_sold_mm(most, is_inch)
    least = cleat + min(reader.rules[LEAST_BITE], max(bitten.thickness - skin, 0.0) / 2)
    diameter, length = (NUMBER_8_MM if is_inch else USUAL_SCREW_MM), usual
    if given is not None:
        reader.names(f"{where}screw.", given)
        diameter = read_screw_diameter(
            reader, f"{where}screw.diameter", given.diameter, at_least=reader.rules[LEAST_SCREW],
            at_most=cleat_slot_mm(reader)[0] - _LOOSER_MM, why="it slides in its slot",
        )  # fmt: skip
        length = reader.limit(
            f"{where}screw.length", reader.length(f"{where}screw.length", given.length),
            at_least=at_least_known(least), at_most=at_most_known(most), given=given.length,
            why=f"it bites the {bitten.called} and does not come out of {bitten.skin}",
            remedy=lambda nearest: _sold_remedy(reader, usual, least, nearest),
        )  # fmt: skip
    elif not usual >= least and not math.isnan(most):
        _refuse_unsold(reader, where, cleat, bitten)
    if math.isnan(diameter) or math.isnan(length):
        return None
    return Driven(
        by=HoldBy.SCREW,
        name=(given.name if given else "") or "round-head wood screw",
        diameter_mm=diameter,
        incoming_mm=cleat,
        into_mm=length - cleat,
        note=(given.note if given else "")
        or f"with a washer; not glued, so that the {bitten.called} can move",
    )


def _sold_remedy(reader: DesignReader, usual: float, least: float, nearest: float) -> str:
    """The longest screw that is sold and serves; else any that would."""
    if usual >= least:
        return f"take one that is sold {reader.least(usual)} long"
    side = reader.least(nearest) if nearest <= least else reader.safe_figure(nearest, math.inf)
    return f"cut one to {side}, as none so long is sold"


def _refuse_unsold(reader: DesignReader, where: str, cleat: float, bitten: Bitten) -> None:
    """No screw that is sold holds by these cleats: say which cleats would take one."""
    why = (
        f"no length in which screws are sold bites this {bitten.called} without coming out of "
        f"{bitten.skin}"
    )
    skin = reader.rules[SCREW_SKIN]
    bite = min(reader.rules[LEAST_BITE], (bitten.thickness - skin) / 2)
    sold = sold_mm(reader.shown.is_inch)
    fitting = [
        (
            max(length - bitten.thickness + skin, reader.rules[LEAST_CLEAT]),
            length - bite,
            length,
        )
        for length in sold
    ]
    thicker = next((each for each in fitting if cleat < each[0] <= each[1]), None)
    if bitten.thickness <= skin or thicker is None:
        parameter, told, allowed, remedy = bitten.instead
        reader.refuse(parameter, told, allowed, why, remedy)
        return
    low, high, length = thicker
    reader.refuse(
        f"{where}stock", f"cleats {reader.least(cleat)} thick",
        f"{range_as_text(low, high, reader.shown)} thick", why,
        f"use cleats {reader.least(low)} thick, which take a screw {reader.least(length)} long",
    )  # fmt: skip
