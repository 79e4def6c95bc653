"""Pads under the base: four at its corners and one under the post, what the piece stands on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.builders.base_box import BoxFigures
from furniture.builders.panels import place_panel
from furniture.builders.rules import DesignReader, at_most_known
from furniture.joints import ButtJoint, Joint, Role
from furniture.parts.part import Kin, Placed
from furniture.parts.placement import box_of
from furniture.pieces import FixedBody, Reference, Surface
from furniture.rules.building import LEAST_ON_PAD, LEAST_PAD
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Given, parameters, said


@parameters
class Feet:
    """A pad of wood glued under each corner of the base, and under a post.

    The base is lifted by the stock's thickness, and the pads' outer corners are what it tips over.

    Args:
        stock: of the pads; its thickness is their height.
        length: left to right.
        width: front to back.
        inset: from the base's outside.
    """

    stock: Stock | None = None
    length: Given = "40 mm"
    width: Given = "30 mm"
    inset: Given = "4 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class FootFigures:
    """The pads' figures [mm]."""

    timber: Timber
    length: float
    width: float
    inset: float

    @property
    def height(self) -> float:
        """How far the base is lifted."""
        return self.timber.thickness_mm


def read_feet(reader: DesignReader, given: object, box: BoxFigures) -> FootFigures | None:
    """The pads' figures; none when there are none; problems are noted with the reader."""
    if given is None:
        return None
    if not isinstance(given, Feet):
        why = "it says what the base stands on"
        reader.refuse(
            "feet",
            said(given),
            "Feet(...)",
            why,
            f"write {reader.example('Feet')}",
        )
        return None
    reader.names("feet.", given)
    timber = read_stock(reader, "feet.stock", given.stock)
    inset = reader.length(
        "feet.inset",
        given.inset,
        at_least=0.0,
        at_most=at_most_known(box.rail - reader.rules[LEAST_ON_PAD]),
        why=f"at least {reader.least(reader.rules[LEAST_ON_PAD])} of rail lie on each pad",
    )
    why = "a pad is large enough to be glued, and pads stay apart"
    length, width = (
        reader.length(
            f"feet.{name}",
            side,
            at_least=reader.rules[LEAST_PAD],
            at_most=at_most_known((extent - 2 * inset) / 4),
            why=why,
        )
        for name, side, extent in (
            ("length", given.length, box.width),
            ("width", given.width, box.depth),
        )
    )
    if timber is None:
        return None
    return FootFigures(timber=timber, length=length, width=width, inset=inset)


def feet_height_mm(given: object, feet: FootFigures | None) -> float:
    """How far the pads lift the base [mm]: not-a-number where they could not be read."""
    if given is None:
        return 0.0
    return math.nan if feet is None else feet.height


def place_feet(feet: FootFigures, box: BoxFigures, has_post: bool) -> list[Placed]:
    """The pads below the base, their tops at its underside (height 0)."""
    left, right = feet.inset, box.width - feet.inset - feet.length
    front, back = feet.inset, box.depth - feet.inset - feet.width
    places = {
        "front left foot": (left, front),
        "front right foot": (right, front),
        "back left foot": (left, back),
        "back right foot": (right, back),
    }
    if has_post:
        places["post foot"] = ((box.width - feet.length) / 2, back)
    return [
        replace(placed, part=replace(placed.part, name="foot"))
        for placed in (
            place_panel(
                name,
                feet.timber,
                (x, y),
                (x + feet.length, y + feet.width),
                -feet.height,
                box.rough,
                kin=Kin("foot"),
            )
            for name, (x, y) in places.items()
        )
    ]


def foot_joints(feet: Sequence[Placed], standing: Sequence[Placed]) -> list[Joint]:
    """Each pad butted under every part that stands on it, panels apart."""
    found: list[Joint] = []
    for foot in feet:
        low, high = box_of(foot.part.blank, foot.placement)
        for other in standing:
            other_low, other_high = box_of(other.part.blank, other.placement)
            is_upright = abs(other.placement.z_axis[2]) < 0.5
            meets = all(
                min(high[a], other_high[a]) - max(low[a], other_low[a]) > 1e-6 for a in (0, 1)
            )
            if is_upright and meets and abs(other_low[2] - high[2]) < 1e-6:
                found.append(ButtJoint(into=other.instance, incoming=foot.instance, role=Role.SEAT))
    return found


def feet_under(
    feet: FootFigures | None, box: BoxFigures, standing: Sequence[Placed], has_post: bool
) -> tuple[list[Placed], list[Joint], float]:
    """The pads, their joints, and how far they lift all that stands [mm]; nothing for no pads."""
    if feet is None:
        return [], [], 0.0
    pads = place_feet(feet, box, has_post)
    return pads, foot_joints(pads, standing), feet.height


def lifted(placed: Placed, height: float) -> Placed:
    """The instance raised by a height [mm]."""
    x, y, z = placed.placement.origin
    return replace(placed, placement=replace(placed.placement, origin=(x, y, z + height)))


def lifted_surface(surface: Surface, height: float) -> Surface:
    """The surface raised by a height [mm]."""
    return replace(surface, top_mm=surface.top_mm + height)


def lifted_body(body: FixedBody, height: float) -> FixedBody:
    """The weight raised by a height [mm]."""
    x, y, z = body.centre_mm
    return replace(body, centre_mm=(x, y, z + height))


def lifted_reference(reference: Reference, height: float) -> Reference:
    """The figure raised by a height [mm]; heights of tops stay measured from the floor."""
    start, end = reference.start, reference.end
    return replace(
        reference,
        start=(start[0], start[1], start[2] + (0.0 if reference.from_floor else height)),
        end=(end[0], end[1], end[2] + height),
    )
