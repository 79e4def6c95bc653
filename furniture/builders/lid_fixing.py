"""How a lid is held: loose, glued in its rabbets, screwed to slotted cleats, or there is none."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum

from furniture.builders.base_box import BoxFigures
from furniture.builders.fixings import (
    NUMBER_8_MM,
    USUAL_SCREW_MM,
    Screw,
    longest_sold_mm,
    sold_mm,
)
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.joints import ButtJoint, Driven, HoldBy, Joint, Role
from furniture.parts.blank import Blank
from furniture.parts.cuts import Along, Slot
from furniture.parts.faces import Face
from furniture.parts.part import Kin, Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, LEFT
from furniture.pieces import Note
from furniture.rules import Rules
from furniture.rules.building import (
    CLEAT_CLEAR,
    LEAST_BITE,
    LEAST_CLEAT,
    LEAST_SCREW,
    SCREW_SKIN,
    SLOT_LENGTH,
    SLOT_SHARE,
    SLOT_WIDTH,
    SLOT_WIDTH_INCH,
)
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, parameters, range_as_text, said


class LidFixing(Enum):
    """How the lid is held."""

    LOOSE = "loose"
    """By its rabbets and housings alone."""
    GLUED = "glued"
    """Glued in the rabbets: a solid lid fixed so cannot move with the seasons."""
    CLEATS = "cleats"
    """Screwed from below through slotted cleats, free to move."""
    SLIDING = "sliding"
    """In grooves of the rails, drawn out over a notch in one of them; of a box, not a stand."""
    HINGED = "hinged"
    """Over the rails, on hinges at the back; of a box, not a stand."""
    NONE = "none"
    """There is no lid: the box is open above."""


@parameters
class Cleats:
    """Two strips inside the side rails under the lid, slotted for its screws.

    Args:
        stock: of the cleats (default: the lid's and tiers' own).
        width: how far each stands out from its rail.
        screw: through each slot into the lid (default: worked out from cleat and lid).
    """

    stock: Stock | None = None
    width: Given = "20 mm"
    screw: Screw | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CleatFigures:
    """The cleats' figures [mm]."""

    timber: Timber
    width: float
    slot: float
    screw: Driven


def read_cleats(
    reader: DesignReader,
    fixing: LidFixing,
    given: object,
    thin: Timber | None,
    box: BoxFigures,
    bottom_thickness: float,
    free_beside: float,
) -> CleatFigures | None:
    """The cleats' figures, none when the lid has none; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        fixing: how the lid is held.
        given: a `Cleats`, or nothing for the usual ones.
        thin: the stock of cleats that name none.
        box: of the base.
        bottom_thickness: of the bottom, 0 for none [mm].
        free_beside: room for a cleat along a side rail [mm].
    """
    if fixing is not LidFixing.CLEATS:
        if given is not None:
            reader.refuse(
                "cleats", "cleats", "nothing", "this lid is not held by cleats",
                "write lid_fixing=LidFixing.CLEATS, or leave cleats out",
            )  # fmt: skip
        return None
    cleats = Cleats() if given is None else given
    if not isinstance(cleats, Cleats):
        why = "it says what the cleats are"
        reader.refuse("cleats", said(given), "Cleats(...)", why, "write Cleats()")
        return None
    reader.names("cleats.", cleats)
    timber = thin if cleats.stock is None else read_stock(reader, "cleats.stock", cleats.stock)
    slot = reader.rules[SLOT_WIDTH_INCH if reader.shown.is_inch else SLOT_WIDTH]
    width = reader.length(
        "cleats.width",
        cleats.width,
        at_least=slot + 10.0,
        at_most=at_most_known(free_beside),
        why="a cleat holds a slot with wood on both sides, and leaves room between the two",
    )
    if timber is None:
        return None
    reader.limit(
        "cleats.stock thickness",
        timber.thickness_mm,
        at_most=at_most_known(box.rabbet_floor - bottom_thickness - 5.0),
        why="the cleats lie between the lid and the bottom",
    )
    screw = _read_screw(reader, cleats.screw, slot, timber.thickness_mm, box.lid_thickness)
    if screw is None:
        return None
    return CleatFigures(timber=timber, width=width, slot=slot, screw=screw)


def _read_screw(
    reader: DesignReader, given: object, slot: float, cleat: float, lid: float
) -> Driven | None:
    """The screw through a slot: as long as it can be without coming out of the lid."""
    if not isinstance(given, Screw | None):
        why = "it says what holds the lid"
        reader.refuse("cleats.screw", said(given), "Screw(...)", why, "leave it out")
        return None
    is_inch = reader.shown.is_inch
    most = cleat + lid - reader.rules[SCREW_SKIN]
    usual = longest_sold_mm(most, is_inch)
    least = cleat + min(reader.rules[LEAST_BITE], max(lid - reader.rules[SCREW_SKIN], 0.0) / 2)
    diameter, length = (NUMBER_8_MM if is_inch else USUAL_SCREW_MM), usual
    if given is not None:
        reader.names("cleats.screw.", given)
        diameter = reader.length(
            "cleats.screw.diameter", given.diameter, at_least=reader.rules[LEAST_SCREW],
            at_most=slot - 0.5, why="it slides in its slot",
        )  # fmt: skip
        length = reader.limit(
            "cleats.screw.length", reader.length("cleats.screw.length", given.length),
            at_least=at_least_known(least), at_most=at_most_known(most), given=given.length,
            why="it bites the lid and does not come out of its top",
            remedy=lambda nearest: _sold_remedy(reader, usual, least, nearest),
        )  # fmt: skip
    elif not usual >= least and not math.isnan(most):
        _refuse_unsold(reader, cleat, lid)
    if math.isnan(diameter) or math.isnan(length):
        return None
    return Driven(
        by=HoldBy.SCREW,
        name=(given.name if given else "") or "round-head wood screw",
        diameter_mm=diameter,
        incoming_mm=cleat,
        into_mm=length - cleat,
        is_slotted=True,
        note=(given.note if given else "") or "with a washer; not glued, so that the lid can move",
    )


def _sold_remedy(reader: DesignReader, usual: float, least: float, nearest: float) -> str:
    """The longest screw that is sold and serves; else any that would."""
    if usual >= least:
        return f"take one that is sold {reader.least(usual)} long"
    side = reader.least(nearest) if nearest <= least else reader.safe_figure(nearest, math.inf)
    return f"cut one to {side}, as none so long is sold"


def _refuse_unsold(reader: DesignReader, cleat: float, lid: float) -> None:
    """No screw that is sold holds this lid by these cleats: say which cleats would take one."""
    why = "no length in which screws are sold bites this lid without coming out of its top"
    bite = min(reader.rules[LEAST_BITE], (lid - reader.rules[SCREW_SKIN]) / 2)
    sold = sold_mm(reader.shown.is_inch)
    fitting = [
        (
            max(length - lid + reader.rules[SCREW_SKIN], reader.rules[LEAST_CLEAT]),
            length - bite,
            length,
        )
        for length in sold
    ]
    thicker = next((each for each in fitting if cleat < each[0] <= each[1]), None)
    if lid <= reader.rules[SCREW_SKIN] or thicker is None:
        reader.refuse(
            "lid_fixing", "cleats", "LidFixing.LOOSE", why, "write LidFixing.LOOSE, or take a "
            f"lid at least {reader.least(2 * reader.rules[SCREW_SKIN])} thick",
        )  # fmt: skip
        return
    low, high, length = thicker
    reader.refuse(
        "cleats.stock", f"cleats {reader.least(cleat)} thick",
        f"{range_as_text(low, high, reader.shown)} thick", why,
        f"use cleats {reader.least(low)} thick, which take a screw {reader.least(length)} long",
    )  # fmt: skip


def place_cleats(
    cleats: CleatFigures, box: BoxFigures, side_rail: float, rules: Rules
) -> list[Placed]:
    """The two cleats, their tops level with the rabbet floor.

    Args:
        cleats: their figures.
        box: of the base.
        side_rail: length of the side rails that is free at their inner faces [mm].
    """
    thickness = cleats.timber.thickness_mm
    start = box.rail + rules[CLEAT_CLEAR]
    length = side_rail - rules[CLEAT_CLEAR] - start
    blank = Blank(length_mm=length, width_mm=cleats.width, thickness_mm=thickness)
    slots = tuple(
        Slot(
            face=Face.FACE_SIDE,
            x_mm=x,
            y_mm=cleats.width / 2,
            length_mm=rules[SLOT_LENGTH],
            width_mm=cleats.slot,
            along=Along.GRAIN,
        )
        for x in (rules[SLOT_SHARE] * length, (1 - rules[SLOT_SHARE]) * length)
    )
    part = Part(name="cleat", blank=blank, timber=cleats.timber, cuts=slots, rough=box.rough)
    height = box.rabbet_floor - thickness
    return [
        Placed(
            instance=instance,
            part=part,
            placement=Placement(origin=(right, start, height), x_axis=BACK, y_axis=LEFT),
            kin=Kin("cleat"),
        )
        for instance, right in (
            ("left cleat", box.rail + cleats.width),
            ("right cleat", box.width - box.rail),
        )
    ]


def cleat_joints(cleats: CleatFigures, length: float, rules: Rules) -> list[Joint]:
    """Each cleat glued to its side rail, and screwed to the lid through its slots.

    Args:
        cleats: their figures.
        length: of a cleat [mm].
    """
    off = (0.5 - rules[SLOT_SHARE]) * length
    screws = tuple(replace(cleats.screw, off_middle_mm=each) for each in (-off, off))
    found: list[Joint] = []
    for side in ("left", "right"):
        cleat = f"{side} cleat"
        found.append(ButtJoint(into=f"{side} side rail", incoming=cleat))
        found.append(
            ButtJoint(into="lid", incoming=cleat, role=Role.SEAT, is_glued=False, driven=screws)
        )
    return found


def fixing_notes(fixing: LidFixing) -> tuple[Note, ...]:
    """What the sheets say of it."""
    if fixing is LidFixing.GLUED:
        said = "the lid is glued in its rabbets: a solid lid may split, a sheet lid will not"
        return (Note(said, ("lid",)),)
    if fixing is LidFixing.CLEATS:
        said = "screw the lid through the cleats' slots, without glue, so that it can move"
        return (Note(said, ("lid",)),)
    return ()
