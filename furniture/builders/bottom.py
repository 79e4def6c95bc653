"""How a bottom is held in its rabbets, which are open below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from enum import Enum

from furniture.builders.rules import DesignReader
from furniture.joints import Driven, HoldBy, Joint
from furniture.pieces import Note
from furniture.rules.building import LEAST_BITE
from furniture.timber.stock import Timber
from furniture.timber.wood import Kind
from furniture.units import said

PIN_MM, PIN_INCH_MM = 1.4, 25.4 / 16
PINS_SOLD_MM = (15.0, 20.0, 25.0, 30.0, 40.0)
PINS_SOLD_IN = (0.625, 0.75, 1.0, 1.25, 1.5)
"""Thickness and lengths of panel pins [mm, in]. Common practice, no source."""


class BottomFixing(Enum):
    """How the bottom is held."""

    LOOSE = "loose"
    """By nothing but what else stands under it: it can drop out."""
    PINNED = "pinned"
    """By a pin at the middle of each end, so that it can move with the seasons."""
    GLUED = "glued"
    """Glued in its rabbets: for sheet stock, as solid wood cannot move there."""


def read_bottom_fixing(
    reader: DesignReader, given: object, thickness: float
) -> tuple[BottomFixing, tuple[Driven, ...]]:
    """How the bottom is held, and its pins; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: a `BottomFixing`; nothing is the usual way, by pins, which holds solid wood and
            sheets alike.
        thickness: of the bottom [mm]; 0 for none.

    Returns:
        The fixing, and what is driven through each end of the bottom.
    """
    usual = BottomFixing.LOOSE if thickness == 0.0 else BottomFixing.PINNED
    fixing = reader.choice("bottom_fixing", usual if given is None else given, BottomFixing, usual)
    if thickness == 0.0 and fixing is not BottomFixing.LOOSE:
        reader.refuse(
            "bottom_fixing", said(fixing), "BottomFixing.LOOSE", "there is no bottom to hold",
            "write BottomFixing.LOOSE, or give the bottom a stock",
        )  # fmt: skip
    if fixing is not BottomFixing.PINNED or thickness == 0.0:
        return fixing, ()
    note = "one at the middle of each end, so that the bottom can move"
    return fixing, panel_pin(reader, thickness, "bottom_fixing", note)


def panel_pin(
    reader: DesignReader, thickness: float, parameter: str, note: str
) -> tuple[Driven, ...]:
    """The shortest panel pin that is sold and bites; a panel too thick for any is noted.

    Args:
        reader: keeps the problems.
        thickness: of the panel [mm].
        parameter: that says how it is held.
        note: where the pins go.
    """
    sold = [each * 25.4 for each in PINS_SOLD_IN] if reader.shown.is_inch else PINS_SOLD_MM
    least = thickness + reader.rules[LEAST_BITE]
    if not math.isnan(thickness) and least > max(sold):
        reader.refuse(
            parameter, "pins", "another way", "no panel pin is long enough for such a thick panel",
            "write 'glued'",
        )  # fmt: skip
    length = min((each for each in sold if each >= least - 1e-6), default=max(sold))
    pin = Driven(
        by=HoldBy.PIN,
        name="panel pin",
        diameter_mm=PIN_INCH_MM if reader.shown.is_inch else PIN_MM,
        incoming_mm=thickness,
        into_mm=length - thickness,
        note=note,
    )
    return (pin,)


def pinned(
    joints: Sequence[Joint], pins: tuple[Driven, ...], rails: tuple[str, ...]
) -> list[Joint]:
    """The bottom's joints, those at its two ends with their pins.

    Args:
        joints: of the bottom.
        pins: what is driven through each end.
        rails: at its ends.
    """
    return [replace(joint, driven=pins) if joint.into in rails else joint for joint in joints]


def bottom_notes(fixing: BottomFixing, bottom: Timber | None) -> tuple[Note, ...]:
    """What the sheets say of it.

    Args:
        fixing: how it is held.
        bottom: its timber.
    """
    if fixing is BottomFixing.PINNED:
        said = "pin the bottom from below at the middle of its two ends only, without glue"
        return (Note(said, ("bottom",)),)
    if fixing is BottomFixing.GLUED:
        is_sheet = bottom is not None and bottom.species.kind is Kind.SHEET
        told = "" if is_sheet else ": use sheet stock, solid wood may split"
        return (Note(f"the bottom is glued in its rabbets{told}", ("bottom",)),)
    return ()
