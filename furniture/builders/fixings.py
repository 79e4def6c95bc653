"""Screws, pegs and other hardware as a maker states them: what is bought, and whether it fits."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from furniture.builders.common import Names
from furniture.builders.rules import DesignReader, at_least_known, at_most_known, is_room
from furniture.builders.sold_screws import read_screw_diameter
from furniture.parts.blank import Blank
from furniture.parts.cuts import Hole
from furniture.pieces import Bought, SoldBy
from furniture.pieces.bought import Fixing
from furniture.rules.building import (
    GREATEST_SCREW,
    LEAST_BITE,
    LEAST_PEG,
    LEAST_SCREW,
    LOOSEST_PEG,
    LOOSEST_SCREW,
    PILOT_TIGHTER,
    SCREW_HEAD,
)
from furniture.units import REQUIRED, Given, counted, parameters, said


@dataclass(frozen=True, slots=True, kw_only=True)
class Seating:
    """A bore in a part, for what stands in it: the part's name and blank, and the bore."""

    instance: str
    blank: Blank
    bore: Hole

    @property
    def through_mm(self) -> float:
        """The wood that a thing in the bore passes [mm]: the part, or the bore's own depth."""
        depth = self.bore.depth_mm
        return self.blank.across(self.bore.face) if depth is None else depth

    @property
    def is_sunk(self) -> bool:
        """Whether its mouth is countersunk."""
        return self.bore.mouth_radius_mm > self.bore.radius_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a bore asks of the thing in it [mm]."""

    least: float
    most: float
    why: str
    length: float
    why_long: str


class Held(ABC):
    """What stands in a bore."""

    bites_beyond: ClassVar[bool]
    """Whether it holds in the wood or the wall that it comes to beyond a bore right through."""
    sold_by: ClassVar[SoldBy]

    diameter: Given
    length: Given
    name: str
    note: str

    @abstractmethod
    def room(self, reader: DesignReader, bore: str, seating: Seating | None) -> Room:
        """What its bore asks of it; a countersink too small for its head is noted.

        Args:
            reader: keeps the problems.
            bore: what messages call it.
            seating: nothing when the bore could not be read.
        """

    def read_diameter(self, reader: DesignReader, parameter: str, room: Room) -> float:
        """Its diameter [mm], within what its bore asks; problems are noted with the reader.

        Args:
            reader: keeps the problems.
            parameter: what messages call it.
            room: what its bore asks.
        """
        return reader.length(
            parameter, self.diameter, at_least=room.least, at_most=room.most, why=room.why
        )


@parameters
class Screw(Held):
    """A wood screw that stands in a hole; its head follows the hole's countersink.

    Args:
        diameter: of its shank.
        length: as it is sold; a countersunk one is measured with its head.
        name: as one asks for it (default: worked out from the hole).
        note: what else to know, such as a washer under its head.
    """

    bites_beyond = True
    sold_by = SoldBy.GAUGE

    diameter: Given = REQUIRED
    length: Given = REQUIRED
    name: str = ""
    note: str = ""

    def read_diameter(self, reader: DesignReader, parameter: str, room: Room) -> float:
        return read_screw_diameter(
            reader, parameter, self.diameter, at_least=room.least, at_most=room.most, why=room.why
        )

    def room(self, reader: DesignReader, bore: str, seating: Seating | None) -> Room:
        least, most = reader.rules[LEAST_SCREW], reader.rules[GREATEST_SCREW]
        if seating is None:
            return Room(least=least, most=most, why="so thick are wood screws", length=3.0,
                        why_long="it has a length")  # fmt: skip
        size = seating.bore.width_mm
        if seating.bore.depth_mm is not None:
            return Room(
                least=max(least, size + reader.rules[PILOT_TIGHTER]),
                most=most,
                why="a screw cuts its thread into a blind hole that is thinner than it is",
                length=seating.through_mm,
                why_long="it fills its hole",
            )
        least, most = max(least, size - reader.rules[LOOSEST_SCREW]), min(most, size)
        why = "a screw passes through its hole, and its head does not"
        if seating.is_sunk:
            head = 2.0 * seating.bore.mouth_radius_mm / reader.rules[SCREW_HEAD]
            why += "; the countersink takes the whole head, twice as wide as the screw"
            if is_room(
                reader, f"{bore} countersink_diameter",
                2.0 * seating.bore.mouth_radius_mm, least * reader.rules[SCREW_HEAD],
                "a countersink takes the whole head, which is about twice as wide as the screw",
                lambda nearest: f"make it {nearest}",
            ):  # fmt: skip
                most = min(most, head)
        return Room(
            least=least,
            most=most,
            why=why,
            length=seating.through_mm + reader.rules[LEAST_BITE],
            why_long="it passes its part and bites "
            f"{reader.least(reader.rules[LEAST_BITE])} and more (own rule)",
        )


@parameters
class Peg(Held):
    """A turned peg or pin that is glued in a hole and stands out of it.

    Args:
        diameter: of the tenon that goes into the hole.
        length: over all.
        name: as one asks for it.
        note: what else to know, such as its wood.
    """

    bites_beyond = False
    sold_by = SoldBy.SIZE

    diameter: Given = REQUIRED
    length: Given = REQUIRED
    name: str = "peg"
    note: str = ""

    def room(self, reader: DesignReader, bore: str, seating: Seating | None) -> Room:
        size = math.nan if seating is None else seating.bore.width_mm
        return Room(
            least=at_least_known(size - reader.rules[LOOSEST_PEG], reader.rules[LEAST_PEG]),
            most=at_most_known(size),
            why="a peg is glued in a hole of its own size",
            length=3.0 if seating is None else seating.through_mm,
            why_long="it fills its hole",
        )


@parameters
class Hardware:
    """Any other thing that is bought and fixed to named parts, such as felt pads or a wall strap.

    Args:
        name: as one asks for it.
        quantity: how many.
        on: the parts that it is fixed to, by name, or all of a kind, such as `rails`.
        diameter: if it has one.
        length: if it has one.
        note: what else to know.
    """

    name: str = ""
    quantity: int = 1
    on: str | Sequence[str] = ()
    diameter: Given | None = None
    length: Given | None = None
    note: str = ""


def read_held(
    reader: DesignReader, where: str, given: Held, seating: Seating | None
) -> Bought | None:
    """What stands in a bore, or nothing with the problems noted.

    Args:
        reader: keeps the problems.
        where: the cut's name in messages.
        given: the screw or peg.
        seating: its bore; nothing when that could not be read.
    """
    room = given.room(reader, where, seating)
    where = f"{where} holds"
    reader.names(f"{where} ", given)
    diameter = given.read_diameter(reader, f"{where} diameter", room)
    length = reader.length(
        f"{where} length", given.length, at_least=room.length, at_most=400.0, why=room.why_long
    )
    if seating is None or math.isnan(diameter) or math.isnan(length):
        return None
    head = "countersunk" if seating.is_sunk else "round-head"
    return Bought(
        name=str(given.name) or f"{head} wood screw",
        quantity=1,
        diameter_mm=diameter,
        length_mm=length,
        where=(seating.instance,),
        note=str(given.note),
        sold_by=given.sold_by,
    )


def read_hardware(reader: DesignReader, hardware: object, names: Names) -> tuple[Bought, ...]:
    """What else is bought; problems are noted with the reader."""
    found = []
    for index, each in enumerate(reader.several("hardware", hardware, Hardware, "Hardware(...)")):
        where = counted("hardware", index, getattr(each, "name", None))
        if not isinstance(each, Hardware):
            reader.refuse(where, said(each), "a Hardware", "it says what is bought",
                          "write Hardware(name='felt pad', quantity=4)")  # fmt: skip
            continue
        reader.names(f"{where} ", each)
        if reader.is_name(f"{where} name", each.name) and not each.name.strip():
            reader.refuse(
                f"{where} name", said(each.name), "what one asks for in a shop",
                "a list of things to buy names them", "write 'felt pad'",
            )  # fmt: skip
        count = reader.whole(f"{where} quantity", each.quantity, 1, 1000, 1, "so many are bought")
        meant: list[str] = []
        for on in reader.several(f"{where} on", each.on, str, repr("".join(names.instances[:1]))):
            found_names = names.meant_by(on)
            if not found_names:
                reader.refuse(f"{where} on", said(on), names.listed, "it is fixed to a part",
                              names.remedy(on))  # fmt: skip
            meant.extend(found_names)
        diameter, length = (
            None
            if size is None
            else reader.length(
                f"{where} {name}", size, at_least=0.5, at_most=3000.0, why="it has a size"
            )
            for name, size in (("diameter", each.diameter), ("length", each.length))
        )
        found.append(
            Bought(
                name=str(each.name),
                quantity=count if isinstance(count, int) else 1,
                diameter_mm=diameter,
                length_mm=length,
                where=tuple(dict.fromkeys(meant)),
                note=reader.text(f"{where} note", each.note, longest=None),
                fixing=Fixing.ON,
            )
        )
    return tuple(found)
