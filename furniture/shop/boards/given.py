"""Boards as the maker measures them: text with units, kept as written until they are read.

Board coordinates: x along the grain from the end the tape was hooked on, y across from the straight
edge (joint one edge first and measure every width square off it).
"""

from __future__ import annotations

from collections.abc import Sequence

from furniture.shop.cutting.values import BoardEnd, ZoneKind, ZoneShows
from furniture.timber.stock import Stock
from furniture.units import REQUIRED, Given, parameters


@parameters
class BoardZone:
    """A stretch of a board that is not like the rest: a rectangle, or corners in order.

    Args:
        kind: knot, check, sapwood ... or figure and even grain, which are worth having.
        x: from the board's end to the zone.
        y: from the straight edge to the zone.
        length: along the grain.
        width: across it.
        corners: (x, y) pairs in order instead of x, y, length and width.
        shows: on which face of the board, as it lies measured.
        worth: what it costs you to use this figure up on parts that do not need it, such as `15
            EUR`.
        name: what matches call it (default: its kind and a number).
        description: in your words.
    """

    kind: ZoneKind = REQUIRED
    x: Given | None = None
    y: Given | None = None
    length: Given | None = None
    width: Given | None = None
    corners: Sequence[tuple[Given, Given]] = ()
    shows: ZoneShows = ZoneShows.BOTH
    worth: str | None = None
    name: str = ""
    description: str = ""


@parameters
class MeasuredBoard:
    """One board as it lies on the bench.

    Args:
        name: what is chalked on it.
        stock: the `Stock` it is kept for, the stock's name, or a species alone.
        length: between its ends as found.
        widths: one width, or (distance from the end, width) pairs where it tapers.
        thickness: measured at its thinnest, never nominal.
        price: of the whole board, such as `48 EUR`.
        zones: faults and figure: what is not clear wood.
        description: in your words.
        sawn_ends: ends that are sawn square already, so that no trim comes off them.
    """

    name: str = REQUIRED
    stock: Stock | str = REQUIRED
    length: Given = REQUIRED
    widths: Given | Sequence[tuple[Given, Given]] = REQUIRED
    thickness: Given = REQUIRED
    price: str | None = None
    zones: Sequence[BoardZone] = ()
    description: str = ""
    sawn_ends: Sequence[BoardEnd] = ()
