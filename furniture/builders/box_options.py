"""What a box and the base of a stand are offered alike: how they close, and what is added."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from furniture.builders.ballast import Ballast, read_ballast
from furniture.builders.base_box import BoxFigures
from furniture.builders.bottom import BottomFixing, bottom_notes, read_bottom_fixing
from furniture.builders.common import Names, StockOf
from furniture.builders.feet import Feet, FootFigures, read_feet
from furniture.builders.fixings import Hardware, read_hardware
from furniture.builders.lid_fixing import (
    CleatFigures,
    Cleats,
    LidFixing,
    fixing_notes,
    read_cleats,
)
from furniture.builders.openings import (
    Hole,
    Opening,
    Vent,
    bushings_of,
    opening_notes,
    read_openings,
)
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader
from furniture.joints import Driven
from furniture.pieces import Bought, FixedBody, Note
from furniture.timber.stock import Stock, Timber
from furniture.units import Given, Shown, is_given, is_meant, said

_SIDES = ("left side rail", "right side rail")


class BoxOptionsGiven(Protocol):
    """The parameters of a builder that say how its box closes and what is added to it."""

    @property
    def bottom(self) -> Stock | None: ...
    @property
    def bottom_fixing(self) -> BottomFixing | None: ...
    @property
    def lid_fixing(self) -> LidFixing: ...
    @property
    def cleats(self) -> Cleats | None: ...
    @property
    def openings(self) -> Sequence[Opening]: ...
    @property
    def vents(self) -> Sequence[Vent]: ...
    @property
    def feet(self) -> Feet | None: ...
    @property
    def ballast(self) -> Ballast | None: ...
    @property
    def hardware(self) -> Sequence[Hardware]: ...
    @property
    def shown(self) -> Shown: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """How lid and bottom are held, and the weight that lies between them."""

    lid: LidFixing
    cleats: CleatFigures | None
    bottom: BottomFixing
    pins: tuple[Driven, ...]
    fixed: tuple[FixedBody, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Additions:
    """What is bored through it, put under it and bought for it."""

    openings: tuple[Opening, ...]
    holes: tuple[Hole, ...]
    feet: FootFigures | None
    hardware: tuple[Bought, ...]


def has_lid(given: BoxOptionsGiven) -> bool:
    """Whether the box has a lid."""
    return not is_meant(given.lid_fixing, LidFixing.NONE)


def lies_in_rabbets(given: BoxOptionsGiven) -> bool:
    """Whether the box has a lid that lies in its rails' rabbets."""
    return has_lid(given) and not slides(given) and not is_hinged(given)


def is_hinged(given: BoxOptionsGiven) -> bool:
    """Whether the box has a lid on hinges."""
    return is_meant(given.lid_fixing, LidFixing.HINGED)


def slides(given: BoxOptionsGiven) -> bool:
    """Whether the box has a lid that slides in grooves."""
    return is_meant(given.lid_fixing, LidFixing.SLIDING)


_OF_THE_LID = ("flush_allowance", "lid_gap_along", "lid_gap_across")


def of_the_lid(given: BoxOptionsGiven) -> tuple[tuple[str, Given | None], ...]:
    """What was written that only a lid needs."""
    return tuple(
        (name, getattr(given, name))
        for name in (_OF_THE_LID[:1] if slides(given) else _OF_THE_LID)
        if is_given(given, name) and getattr(given, name) is not None
    )


_ALONG_ONLY = {
    LidFixing.CLEATS: "cleats run from front to back and keep a lid flat across its grain alone",
    LidFixing.SLIDING: "a lid that slides lies in grooves along its grain, and is drawn out so",
    LidFixing.HINGED: "the screws of hinges do not hold in end grain, which its back edge would be",
}
"""Why the grain of a lid that is held so runs from left to right."""


def lid_grain(reader: DesignReader, given: BoxOptionsGiven, stock: StockOf) -> PanelGrain:
    """Which way the lid's grain runs; a way in which its fixing does not hold is noted."""
    grain = stock.grain("lid")
    for fixing, why in _ALONG_ONLY.items():
        if grain is not PanelGrain.ALONG and is_meant(given.lid_fixing, fixing):
            reader.refuse("own_grain['lid']", said(grain), "PanelGrain.ALONG", why, "leave it out")
            return PanelGrain.ALONG
    return grain


def end_rails(stock: StockOf, cross: tuple[str, ...]) -> tuple[str, ...]:
    """The rails that a bottom's ends lie in, at whose middle it is pinned.

    Args:
        stock: of every instance, and how its grain lies.
        cross: the rails in front and behind that reach over the middle of the box.
    """
    return _SIDES if stock.grain("bottom") is PanelGrain.ALONG else cross


def bottom_thickness(given: BoxOptionsGiven, stock: StockOf) -> float:
    """The bottom's thickness [mm]; 0 for none."""
    return 0.0 if given.bottom is None else stock.thickness("bottom")


def read_closing(
    reader: DesignReader,
    given: BoxOptionsGiven,
    figures: BoxFigures,
    stock: StockOf,
    *,
    free_depth: float,
    free_beside: float,
) -> Closing:
    """How the box closes; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the builder's parameters.
        figures: of the box.
        stock: of every instance.
        free_depth: how far back the box is free inside, from its front [mm].
        free_beside: room for a cleat along a side rail [mm].
    """
    bottom = bottom_thickness(given, stock)
    lid = reader.choice("lid_fixing", given.lid_fixing, LidFixing, LidFixing.LOOSE)
    ballast = read_ballast(reader, given.ballast, figures, bottom, free_depth)
    bottom_fixing, pins = read_bottom_fixing(reader, given.bottom_fixing, bottom)
    timber = stock.timber("lid")
    return Closing(
        lid=lid,
        cleats=read_cleats(reader, lid, given.cleats, timber, figures, bottom, free_beside),
        bottom=bottom_fixing,
        pins=pins,
        fixed=() if ballast is None else (ballast,),
    )


def read_additions(
    reader: DesignReader, given: BoxOptionsGiven, figures: BoxFigures, names: Names
) -> Additions:
    """What is added to the box; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the builder's parameters.
        figures: of the box.
        names: of all parts, which openings and hardware may name.
    """
    openings = reader.several("openings", given.openings, Opening, "Opening(...)")
    return Additions(
        openings=tuple(each for each in openings if isinstance(each, Opening)),
        holes=read_openings(reader, openings, given.vents, names),
        feet=read_feet(reader, given.feet, figures),
        hardware=read_hardware(reader, given.hardware, names),
    )


def fixings_of(closing: Closing, additions: Additions) -> list[Bought]:
    """What is bought for these options; what holds the joints is counted off them."""
    return [
        *bushings_of(additions.openings, additions.holes),
        *(body.bought for body in closing.fixed if body.bought is not None),
        *additions.hardware,
    ]


def notes_of(
    closing: Closing, additions: Additions, names: Names, bottom: Timber | None
) -> list[Note]:
    """What the sheets say of these options, and of a bottom of that timber."""
    return [
        *fixing_notes(closing.lid),
        *bottom_notes(closing.bottom, bottom),
        *opening_notes(additions.openings, names),
    ]
