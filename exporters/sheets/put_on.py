"""What stands in a part or lies on it and no cut shows, with its place: pins, ballast."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from exporters.sheets.annotation import LOOK_OF_FACE, Annotation, Bench, Look, Position
from furniture.joints.joint import Fastener, HoldBy
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.cuts.figures import Care
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed
from furniture.parts.vectors import Vector, dot
from furniture.pieces.bought import bought_for, size_in_words
from furniture.pieces.piece import Distinct, FixedBody, Piece, placed_named
from furniture.units import figure, figure_with_unit

_SQUARE = 0.999
_SAME_MM = 0.5
_THROUGH_FACE = frozenset({HoldBy.PIN, HoldBy.SCREW})


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOn:
    """A thing in or on a part: its outline in the plane of a face, part frame [mm].

    Args:
        name: in trade words.
        size: as one asks for it.
        face: that it is driven in from, or lies on.
        low: one corner of its outline; a pin's both corners are its middle.
        high: the other.
    """

    name: str
    size: str
    face: Face
    low: Vector
    high: Vector

    @property
    def is_driven(self) -> bool:
        """Whether it is driven in at one place."""
        return self.low == self.high


def put_on(piece: Piece, each: Distinct) -> tuple[PutOn, ...]:
    """What is driven through a part without a bore, and what lies on it, by its first instance.

    Args:
        piece: its joints and what is fixed in it.
        each: the part and its instances.
    """
    placed = placed_named(piece, each.instances[0])
    found = [
        mark
        for joining in piece.joinings
        if joining.incoming == placed.instance
        for fastener in joining.fasteners
        for mark in _driven(piece, placed, fastener)
    ]
    found += [_lying(piece, placed, body) for body in piece.fixed if body.on == placed.instance]
    return tuple(found)


def _driven(piece: Piece, placed: Placed, fastener: Fastener) -> Iterator[PutOn]:
    """A pin or a screw where nothing is bored for it."""
    if fastener.by not in _THROUGH_FACE:
        return
    way = placed.placement.direction_to_part(fastener.axis)
    face = next((face for face in Face if dot(face.normal, way) < -_SQUARE), None)
    if face is None:
        return
    at = placed.placement.to_part(fastener.at)
    if any(_is_in(at, hole, face) for hole in shapes_of(placed.part.cuts, placed.part.blank, Hole)):
        return
    point = put(at, face.axis, level_of(face, placed.part.blank))
    yield PutOn(
        name=fastener.name,
        size=size_in_words(bought_for(fastener), piece.shown),
        face=face,
        low=point,
        high=point,
    )


def _is_in(at: Vector, hole: Hole, face: Face) -> bool:
    """Whether a fastener goes through a hole of the same way."""
    if hole.face.axis != face.axis:
        return False
    return all(
        min(hole.first[axis], hole.last[axis]) - _SAME_MM
        <= at[axis]
        <= max(hole.first[axis], hole.last[axis]) + _SAME_MM
        for axis in range(3)
        if axis != face.axis
    )


def _lying(piece: Piece, placed: Placed, body: FixedBody) -> PutOn:
    """A weight that lies on a part."""
    corners = [
        placed.placement.to_part(
            (
                body.centre_mm[0] + end * body.size_mm[0] / 2,
                body.centre_mm[1] + end * body.size_mm[1] / 2,
                body.centre_mm[2] + end * body.size_mm[2] / 2,
            )
        )
        for end in (-1.0, 1.0)
    ]
    low, high = (tuple(pick(pair) for pair in zip(*corners, strict=True)) for pick in (min, max))
    up = placed.placement.direction_to_part((0.0, 0.0, 1.0))
    face = max(Face, key=lambda each: dot(each.normal, up))
    level = level_of(face, placed.part.blank)
    *first, last = body.size_mm
    size = " x ".join([*(figure(mm, piece.shown) for mm in first),
                       figure_with_unit(last, piece.shown)])  # fmt: skip
    return PutOn(
        name=body.name,
        size=size,
        face=face,
        low=put((low[0], low[1], low[2]), face.axis, level),
        high=put((high[0], high[1], high[2]), face.axis, level),
    )


def annotated_put_on(things: tuple[PutOn, ...], part: Part, bench: Bench) -> tuple[Annotation, ...]:
    """What the part's sheet says of them: words, and places from the part's datums.

    Args:
        things: in or on the part.
        part: the part.
        bench: its wood and how figures are shown.
    """
    return tuple(_annotation(each, part, bench) for each in things)


def _corners(thing: PutOn) -> tuple[Vector, ...]:
    """The corners of its outline, one after another."""
    first, second = (axis for axis in range(3) if axis != thing.face.axis)
    return (
        thing.low,
        put(thing.low, first, thing.high[first]),
        thing.high,
        put(thing.low, second, thing.high[second]),
    )


def _annotation(thing: PutOn, part: Part, bench: Bench) -> Annotation:
    look = Look.FACE_SIDE if thing.face.axis == 2 else LOOK_OF_FACE[thing.face]
    positions = []
    for axis in (axis for axis in range(3) if axis != thing.face.axis):
        datum = bench.faces.datums.on(axis)
        level = level_of(datum, part.blank)
        near = thing.high if datum.is_far else thing.low
        positions.append(
            Position(
                axis=axis,
                value_mm=abs(level - near[axis]),
                point=near,
                look=look,
                care=Care.RULE,
            )
        )
    verb = "from" if thing.is_driven else "on"
    return Annotation(
        noun=thing.name,
        spec=thing.size,
        place=f"{verb} {bench.faces.called(thing.face)}",
        target=thing.low,
        look=look,
        positions=tuple(positions),
        centres=((thing.low, 0.0),) if thing.is_driven else (),
        outline=() if thing.is_driven else _corners(thing),
    )
