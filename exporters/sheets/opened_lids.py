"""A lid on hinges drawn open, in thin lines beside the closed one (ISO 128, from memory)."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, product

from shapely.geometry import MultiPoint

from exporters.sheets.blocks import Block
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Item, Stroke
from exporters.views.values import Line
from furniture.parts.vectors import Point2
from furniture.pieces import TurnsOpen
from furniture.pieces.piece import Piece, placed_named


def turning_in(piece: Piece, axis: int) -> tuple[TurnsOpen, ...]:
    """The lids that turn in a plane square to an axis of the piece.

    Args:
        piece: its intent says what turns.
        axis: of the piece.
    """
    return tuple(each for each in piece.intent.opens if abs(each.axis[axis]) > 0.9)


def opened_items(piece: Piece, axis: int, block: Block) -> Iterator[Item]:
    """The outline of each lid where it stands open, and the stays that hold it there.

    Args:
        piece: what is drawn.
        axis: that the view looks along.
        block: the view.
    """
    for turns in turning_in(piece, axis):
        lid = placed_named(piece, turns.instance)
        corners = [
            block.to_paper(turns.opened(lid.placement.to_piece((x, y, z))))
            for x, y, z in product(*((0.0, side) for side in lid.part.blank.size))
        ]
        outline = list(MultiPoint(corners).convex_hull.exterior.coords)
        yield from (_line((a[0], a[1]), (b[0], b[1])) for a, b in pairwise(outline))
        for on_lid, on_rail in turns.stays:
            yield _line(block.to_paper(turns.opened(on_lid)), block.to_paper(on_rail))


def _line(start: Point2, end: Point2) -> Item:
    return Stroke(shape=Line(start=start, end=end), line_class=LineClass.MOVED)
