"""Reading a tree of cuts: its passes in order, the piece in hand at each, and what is left."""

from __future__ import annotations

from collections.abc import Iterator

from furniture.shop.cutting.plan import (
    CutDirection,
    CutNode,
    LeafUse,
    NumberedCut,
    Rectangle,
)
from furniture.shop.cutting.values import Saw
from furniture.shop.cutting.zones import TOUCH


def is_usable(piece: Rectangle, saw: Saw) -> bool:
    """Whether an offcut is worth keeping."""
    return (
        piece.length_mm >= saw.usable_length_mm - TOUCH
        and piece.width_mm >= saw.usable_width_mm - TOUCH
        and piece.area_mm2 > TOUCH
    )


def worth_of_offcuts(tree: CutNode, saw: Saw) -> float:
    """What the offcuts worth keeping are worth, in passes of the saw; one large more than two."""
    return sum(
        worth_of_offcut(leaf.piece, tree.piece, saw)
        for leaf in leaves(tree)
        if leaf.use is LeafUse.OFFCUT
    )


def worth_of_offcut(piece: Rectangle, whole: Rectangle, saw: Saw) -> float:
    """What a piece of a whole is worth in passes of the saw; nothing if not worth keeping."""
    if not is_usable(piece, saw):
        return 0.0
    return piece.area_mm2 * piece.area_mm2 / max(whole.area_mm2, 1.0) / saw.worth_a_pass_mm2


def is_held_safely(workpiece: Rectangle, direction: CutDirection, saw: Saw) -> bool:
    """Whether the piece in hand is long enough for a cut, and for a rip wide enough."""
    if direction is CutDirection.CROSSCUT:
        return workpiece.length_mm >= saw.shortest_crosscut_mm - TOUCH
    return (
        workpiece.length_mm >= saw.shortest_rip_mm - TOUCH
        and workpiece.width_mm >= saw.narrowest_rip_mm - TOUCH
    )


def numbered_cuts(tree: CutNode, kerf: float) -> tuple[NumberedCut, ...]:
    """All passes of the saw in the order they are made, numbered from 1."""
    passes = enumerate(_passes(tree, kerf), start=1)
    return tuple(
        NumberedCut(
            number=number,
            direction=direction,
            workpiece=workpiece,
            position_mm=position,
            kerf_mm=kerf,
        )
        for number, (direction, workpiece, position) in passes
    )


def leaves(tree: CutNode) -> tuple[CutNode, ...]:
    """The pieces that are cut no further, in the order they come free."""
    if not tree.children:
        return (tree,)
    return tuple(leaf for child in tree.children for leaf in leaves(child))


def _passes(node: CutNode, kerf: float) -> Iterator[tuple[CutDirection, Rectangle, float]]:
    """The direction of every pass, the piece in hand and where the kerf begins [mm]."""
    if node.direction is not None:
        start, end = span(node.piece, node.direction)
        hand = start
        for index, child in enumerate(node.children):
            low, high = span(child.piece, node.direction)
            if index == 0 and low - start > TOUCH:
                whole = slice_of(node.piece, node.direction, hand, end)
                yield node.direction, whole, low - kerf
                hand = low
            if end - high > TOUCH:
                yield node.direction, slice_of(node.piece, node.direction, hand, end), high
                hand = high + kerf
    for child in node.children:
        yield from _passes(child, kerf)


def span(piece: Rectangle, direction: CutDirection) -> tuple[float, float]:
    """From where to where a piece reaches across the cuts of a direction [mm]."""
    if direction is CutDirection.CROSSCUT:
        return piece.x_mm, piece.x_end_mm
    return piece.y_mm, piece.y_end_mm


def slice_of(piece: Rectangle, direction: CutDirection, low: float, high: float) -> Rectangle:
    """The piece between two cuts of a direction, at low and high [mm]."""
    if direction is CutDirection.CROSSCUT:
        return Rectangle(x_mm=low, y_mm=piece.y_mm, length_mm=high - low, width_mm=piece.width_mm)
    return Rectangle(x_mm=piece.x_mm, y_mm=low, length_mm=piece.length_mm, width_mm=high - low)
