"""How a lid is held: loose, glued in its rabbets, screwed to slotted cleats, or there is none."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from furniture.builders.base_box import BoxFigures
from furniture.builders.cleat_screw import Bitten, cleat_slot_mm, read_cleat_screw
from furniture.builders.fixings import Screw
from furniture.builders.rules import DesignReader, at_most_known
from furniture.joints import ButtJoint, Driven, Joint, Role
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
    CLEAT_WOOD,
    SCREW_SKIN,
    SLOT_SHARE,
)
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, parameters, said


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
    slot_length: float
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
    slot, slot_length = cleat_slot_mm(reader)
    width = reader.length(
        "cleats.width",
        cleats.width,
        at_least=slot + 2 * reader.rules[CLEAT_WOOD],
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
    least = reader.least(2 * reader.rules[SCREW_SKIN])
    bitten = Bitten(
        thickness=box.lid_thickness, called="lid", skin="its top",
        instead=("lid_fixing", "cleats", "LidFixing.LOOSE",
                 f"write LidFixing.LOOSE, or take a lid at least {least} thick"),
    )  # fmt: skip
    screw = read_cleat_screw(reader, "cleats.", cleats.screw, timber.thickness_mm, bitten)
    if screw is None:
        return None
    return CleatFigures(timber=timber, width=width, slot=slot, slot_length=slot_length, screw=screw)


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
            length_mm=cleats.slot_length,
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
    screws = tuple(
        replace(cleats.screw, off_middle_mm=each, slides=Along.GRAIN) for each in (-off, off)
    )
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
