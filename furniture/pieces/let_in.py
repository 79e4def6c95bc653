"""Keys: parts let into slots across a closed corner, square at first and made flush in place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from furniture.joints.joint import Joining, Role
from furniture.parts.cuts import InSlope, Slope
from furniture.parts.faces import ENDS
from furniture.parts.part import Part, Placed
from furniture.parts.vectors import dot, subtract
from furniture.pieces.piece import Piece, placed_named

_SAME_MM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Slotted:
    """One part's half of a slot: the cut's place among its cuts, and its shape."""

    instance: str
    index: int
    shape: InSlope


@dataclass(frozen=True, slots=True, kw_only=True)
class LetIn:
    """A key, the halves of its slot in the parts of its corner, and the cuts of its own ends.

    The ends are sawn and planed flush with the outer faces once the key is glued in.
    """

    instance: str
    slots: tuple[Slotted, ...]
    ends: tuple[int, ...]


def let_in_of(piece: Piece) -> tuple[LetIn, ...]:
    """The keys of a piece, in its order: those with no other cut than their two ends.

    Args:
        piece: that is made.
    """
    tongues: dict[str, list[Joining]] = {}
    for each in piece.joinings:
        if each.role is Role.LOOSE_TONGUE:
            tongues.setdefault(each.incoming, []).append(each)
    found = (
        _let_in(piece, placed, tongues[placed.instance])
        for placed in piece.placed
        if placed.instance in tongues
    )
    return tuple(each for each in found if each is not None)


def square_until_flush(piece: Piece) -> Mapping[str, Part]:
    """The keys by their instances as they are glued in: with square ends.

    Args:
        piece: that is made.
    """
    return {
        each.instance: replace(placed_named(piece, each.instance).part, cuts=())
        for each in let_in_of(piece)
    }


def _let_in(piece: Piece, key: Placed, joined: list[Joining]) -> LetIn | None:
    shapes = [cut.shape(key.part.blank) for cut in key.part.cuts]
    ends = [each.face for each in shapes if isinstance(each, Slope)]
    slots = tuple(slot for each in joined for slot in _slots(placed_named(piece, each.into), key))
    if sorted(ends, key=lambda face: face.value) != sorted(ENDS, key=lambda face: face.value):
        return None
    if len(ends) != len(shapes) or len(slots) != len(joined) or len(slots) < len(ENDS):
        return None
    return LetIn(instance=key.instance, slots=slots, ends=tuple(range(len(shapes))))


def _slots(rail: Placed, key: Placed) -> Iterator[Slotted]:
    """The slots of a rail that run out through its outer face and have the key's middle in them."""
    blank = key.part.blank
    middle = rail.placement.to_part(
        key.placement.to_piece((blank.length_mm / 2, blank.width_mm / 2, blank.thickness_mm / 2))
    )
    for index, cut in enumerate(rail.part.cuts):
        shape = cut.shape(rail.part.blank)
        if not isinstance(shape, InSlope) or shape.depth_mm is not None:
            continue
        corner, down, out = shape.frame(rail.part.blank)
        at = subtract(middle, corner)
        is_level = shape.span[0] < middle[shape.along] < shape.span[1]
        is_on_mitre = abs(dot(_off_axis(at, shape.along), out)) < _SAME_MM
        if is_level and is_on_mitre and 0.0 < dot(_off_axis(at, shape.along), down) < shape.down[1]:
            yield Slotted(instance=rail.instance, index=index, shape=shape)


def _off_axis(way: tuple[float, float, float], axis: int) -> tuple[float, float, float]:
    """A way without what of it lies along an axis."""
    x, y, z = (0.0 if each == axis else value for each, value in enumerate(way))
    return x, y, z
