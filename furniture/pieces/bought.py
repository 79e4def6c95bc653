"""What a piece needs that is bought and not cut: dowels, screws, pegs, bushings, ballast.

Dowels, pins and screws are read off the joints that they hold; everything else a builder says.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum
from itertools import chain
from typing import TYPE_CHECKING

from furniture.joints.joint import Fastener, HoldBy
from furniture.units import Shown, figure, figure_with_unit

if TYPE_CHECKING:
    from furniture.pieces.piece import Piece


MOST_GAUGES = 24
_AS_SOLD_MM = 0.1
"""How far a measured screw may be off the gauge by which it is asked for. Own rule."""


class SoldBy(Enum):
    """How one asks for a thickness where one buys by the inch."""

    SIZE = "size"
    GAUGE = "gauge"


class Fixing(Enum):
    """How a thing is with the parts that it belongs to."""

    INTO = "into"
    """It goes in while they are put together."""
    ON = "on"
    """It is fixed over the finish."""


def gauge_mm(number: int) -> float:
    """How thick a wood screw of a gauge number is [mm].

    Args:
        number: its gauge, from 0 to 24.

    **Source:** ASME B18.6.1, wood screws: 0.060 in and 0.013 in more for each number (from memory).
    """
    return 25.4 * (0.060 + 0.013 * number)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """Things to buy of one kind and one size [mm]; a size that it does not have is None.

    `name` is in trade words, `where` names the instances that they stand in or between, `note` says
    what else a maker must know to buy the right one.
    """

    name: str
    quantity: int
    diameter_mm: float | None = None
    length_mm: float | None = None
    where: tuple[str, ...] = ()
    note: str = ""
    sold_by: SoldBy = SoldBy.SIZE
    fixing: Fixing = Fixing.INTO


def bought_parts(piece: Piece) -> tuple[Bought, ...]:
    """All that has to be bought for a piece, equal things counted together.

    Args:
        piece: its joints say what holds them, its `fixings` what else its builder knows of.
    """
    held = (_in((each.into, each.incoming), each.fasteners) for each in piece.joinings)
    fixed = (_in((each.instance,), each.fasteners) for each in piece.anchors)
    return merged((*chain(*held), *piece.fixings, *chain(*fixed)))


def merged(things: Iterable[Bought]) -> tuple[Bought, ...]:
    """The same things, those of one kind and size counted together, in the order first met."""
    found: dict[object, Bought] = {}
    for each in things:
        key = _key(each)
        known = found.get(key)
        if known is None:
            found[key] = each
            continue
        found[key] = replace(
            known,
            quantity=known.quantity + each.quantity,
            where=tuple(dict.fromkeys((*known.where, *each.where))),
        )
    return tuple(found.values())


def row_of(thing: Bought, rows: Iterable[Bought]) -> Bought | None:
    """The row among those counted together in which a thing is counted, if it is in one.

    Args:
        thing: of one place.
        rows: of `bought_parts`.
    """
    return next((row for row in rows if _key(row) == _key(thing)), None)


def bought_for(fastener: Fastener, where: tuple[str, ...] = ()) -> Bought:
    """One fastener as a thing to buy.

    Args:
        fastener: of a joint or an anchor.
        where: the instances that it stands in or between.
    """
    diameter, length = fastener.asked_by_mm or (fastener.diameter_mm, fastener.length_mm)
    return Bought(
        name=fastener.name,
        quantity=1,
        diameter_mm=diameter,
        length_mm=length,
        where=where,
        note=fastener.note,
        sold_by=SoldBy.GAUGE if fastener.by is HoldBy.SCREW else SoldBy.SIZE,
    )


def _key(thing: Bought) -> tuple[object, ...]:
    return (thing.name, _rounded(thing.diameter_mm), _rounded(thing.length_mm), thing.note)


def size_in_words(thing: Bought, shown: Shown) -> str:
    """Its size as a maker asks for it: `6 x 30 mm`, `1/4 x 1 1/4 in`, `No. 8 x 1 in`; empty when it
    has none.
    """
    wide, long = thing.diameter_mm, thing.length_mm
    if long is None:
        return "" if wide is None else figure_with_unit(wide, shown)
    size = figure_with_unit(long, shown)
    return size if wide is None else f"{thickness_in_words(thing, shown)} x {size}"


def thickness_in_words(thing: Bought, shown: Shown) -> str:
    """Its diameter as a maker asks for it, without the unit: `6`, `1/4`, `No. 8`; empty when it has
    none.
    """
    if thing.diameter_mm is None:
        return ""
    number = _gauge_of(thing) if shown.is_inch else None
    return figure(thing.diameter_mm, shown) if number is None else f"No. {number}"


def _gauge_of(thing: Bought) -> int | None:
    if thing.sold_by is not SoldBy.GAUGE or thing.diameter_mm is None:
        return None
    wide = thing.diameter_mm
    nearest = min(range(MOST_GAUGES + 1), key=lambda each: abs(gauge_mm(each) - wide))
    return nearest if abs(gauge_mm(nearest) - wide) <= _AS_SOLD_MM else None


def _in(where: tuple[str, ...], fasteners: Iterable[Fastener]) -> Iterable[Bought]:
    return (bought_for(each, where) for each in fasteners)


def _rounded(size: float | None) -> float | None:
    return None if size is None else round(size, 6)
