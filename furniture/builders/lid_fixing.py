"""How a stand's lid is held: loose, glued in its rabbets, or screwed to slotted cleats."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.builders.base_box import BoxFigures
from furniture.builders.rules import at_most_known
from furniture.joints import ButtJoint, Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Along, Slot
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, LEFT
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, Reader, parameters

CLEARS_END_MM = 1.0
"""Between a cleat's ends and the rails that it stands between [mm]. Own rule."""
SLOT_WIDTH_MM, SLOT_LENGTH_MM = 5.0, 14.0
"""Slots for 4 mm screws with room for the lid's seasons. Common practice, no source."""
SLOT_SHARE = 0.2
"""Where the slots lie from either end of a cleat, as a share of its length. Own rule."""


class LidFixing(Enum):
    """How the lid is held."""

    LOOSE = "loose"
    """By its rabbets and housings alone."""
    GLUED = "glued"
    """Glued in the rabbets: a solid lid fixed so cannot move with the seasons."""
    CLEATS = "cleats"
    """Screwed from below through slotted cleats, free to move."""


@parameters
class Cleats:
    """Two strips inside the side rails under the lid, slotted for its screws.

    Args:
        stock: of the cleats; the lid's and tiers' own when left out.
        width: how far each stands out from its rail.
    """

    stock: Stock | None = None
    width: Given = "20 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class CleatFigures:
    """The cleats' figures [mm]."""

    timber: Timber
    width: float


def read_cleats(
    reader: Reader,
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
        reader.refuse("cleats", repr(given), "Cleats(...)", why, "write Cleats()")
        return None
    reader.names("cleats.", cleats)
    timber = thin if cleats.stock is None else read_stock(reader, "cleats.stock", cleats.stock)
    width = reader.length(
        "cleats.width",
        cleats.width,
        at_least=SLOT_WIDTH_MM + 10.0,
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
    return CleatFigures(timber=timber, width=width)


def place_cleats(cleats: CleatFigures, box: BoxFigures, side_rail: float) -> list[Placed]:
    """The two cleats, their tops level with the rabbet floor.

    Args:
        cleats: their figures.
        box: of the base.
        side_rail: length of the side rails that is free at their inner faces [mm].
    """
    thickness = cleats.timber.thickness_mm
    start = box.rail + CLEARS_END_MM
    length = side_rail - CLEARS_END_MM - start
    blank = Blank(length_mm=length, width_mm=cleats.width, thickness_mm=thickness)
    slots = tuple(
        Slot(
            face=Face.FACE_SIDE,
            x_mm=x,
            y_mm=cleats.width / 2,
            length_mm=SLOT_LENGTH_MM,
            width_mm=SLOT_WIDTH_MM,
            along=Along.GRAIN,
        )
        for x in (SLOT_SHARE * length, (1 - SLOT_SHARE) * length)
    )
    part = Part(name="cleat", blank=blank, timber=cleats.timber, cuts=slots, rough=box.rough)
    height = box.rabbet_floor - thickness
    return [
        Placed(
            instance=instance,
            part=part,
            placement=Placement(origin=(right, start, height), x_axis=BACK, y_axis=LEFT),
        )
        for instance, right in (
            ("left cleat", box.rail + cleats.width),
            ("right cleat", box.width - box.rail),
        )
    ]


def cleat_joints() -> list[Joint]:
    """Each cleat glued to its side rail."""
    return [
        ButtJoint(into=f"{side} side rail", incoming=f"{side} cleat") for side in ("left", "right")
    ]


def fixing_notes(fixing: LidFixing) -> tuple[str, ...]:
    """What the sheets say of it."""
    if fixing is LidFixing.GLUED:
        return ("the lid is glued in its rabbets: a solid lid may split, a sheet lid will not",)
    if fixing is LidFixing.CLEATS:
        return ("screw the lid through the cleats' slots, without glue, so that it can move",)
    return ()
