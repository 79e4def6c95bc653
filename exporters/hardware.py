"""What is not wood in a piece, as plain shapes: screws, pins, dowels, pegs, hinges, stays, ballast.

Pictures and sheets draw the same things from here; each knows the row of the list of what is bought
that it belongs to, and where it stands when the piece is drawn apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np

from furniture.joints.joint import Fastener, HoldBy, Joining, Metal, Section
from furniture.parts.cuts import Hole, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import UP, Vector, add, cross, length, scaled, subtract
from furniture.pieces.bought import Bought, bought_for, bought_parts, merged, row_of
from furniture.pieces.intent import Fitted, TurnsOpen
from furniture.pieces.piece import FixedBody, Piece

_WOODEN = frozenset({HoldBy.DOWEL, HoldBy.PEG, HoldBy.WEDGE})
_CLOSE_MM = 1.0
"""A bore takes a thing closely that is no more than this thinner [mm]. Own rule."""
_HEAD, _PIN_HEAD = 2.0, 1.4
"""How many times as wide as a screw or a pin its head is. Common practice, no source."""
_OUT_MM = 8.0
"""So far off its hole the point of a screw is drawn [mm]. Own rule."""
_CHAIN_MM = 2.0
"""How thick a chain or cord is drawn [mm]; nobody says. Own rule."""
_STILL: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Turned:
    """A thing turned about its third axis: rows of radius and height, axis to axis [mm]."""

    rows: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Square:
    """A box with the middle of its foot at the origin: its size [mm]."""

    size: Vector


Form = Turned | Square


class Stuff(Enum):
    """What a thing is made of, which gives it its colour."""

    STEEL = "steel"
    PEG = "peg wood"
    WEIGHT = "weight"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing that is no part, where it stands in the piece [mm].

    Args:
        name: what it is, its number among those of its place, and where.
        form: in its own frame.
        axes: of that frame, piece frame.
        origin: of that frame, piece frame.
        stuff: what it is made of.
        bought: its row of the list of what is bought; None where it is in none.
        between: the parts that it goes along with: half way between them, when there are two.
        out: how far it is drawn out of its hole where the piece is drawn apart.
        stands_out: whether it is seen where the piece is together.
        hangs: its form where the piece is drawn apart, when that is another.
        of_part: the instance whose wood it is coloured as, if it is.
    """

    name: str
    form: Form
    axes: tuple[Vector, Vector, Vector]
    origin: Vector
    stuff: Stuff
    bought: Bought | None
    between: tuple[str, ...]
    out: Vector = _STILL
    stands_out: bool = False
    hangs: Form | None = None
    of_part: str | None = None

    @property
    def long_mm(self) -> float:
        """How long it is along its third axis [mm]."""
        if isinstance(self.form, Square):
            return self.form.size[2]
        return max(high for _, high in self.form.rows)

    @property
    def middle(self) -> Vector:
        """Its middle, piece frame [mm]."""
        return add(self.origin, scaled(self.axes[2], self.long_mm / 2))

    def apart(self, shifts: Mapping[str, Vector]) -> Thing | None:
        """Where it stands when its parts are drawn apart; None where it stays in their wood.

        Args:
            shifts: how far each instance is moved, piece frame [mm].
        """
        moved = [shifts.get(name, _STILL) for name in self.between]
        is_in_both = len(moved) == 2 and not self.stands_out
        if is_in_both and length(subtract(moved[0], moved[1])) < self.long_mm:
            return None
        x, y, z = (sum(each[axis] for each in moved) / len(moved) for axis in range(3))
        origin = add(self.origin, add((x, y, z), self.out))
        return replace(self, origin=origin, form=self.hangs or self.form)


def things_of(piece: Piece) -> tuple[Thing, ...]:
    """All that the piece's typed values know of it that is no part.

    Args:
        piece: its joints, anchors, fixings, ballast and stays.
    """
    rows = bought_parts(piece)
    found: list[Thing] = []
    for joining in piece.joinings:
        found += _of_joint(joining, rows)
    for placed in piece.placed:
        for number, (hole, thing) in enumerate(_held(placed, piece), start=1):
            name = f"{thing.name} {number}, {placed.instance}"
            found.append(_in_bore(name, placed, hole, thing, rows))
    for anchor in piece.anchors:
        for number, fastener in enumerate(anchor.fasteners, start=1):
            name = f"{fastener.name} {number}, {anchor.instance}"
            found.append(_fastener(name, fastener, (anchor.instance,), rows))
    found += [_weight(each, rows) for each in piece.fixed]
    for turns in piece.intent.opens:
        found += _stays(turns, rows)
    for number, fitted in enumerate(piece.intent.fitted, start=1):
        found.append(_on_wood(fitted, number, rows))
    return tuple(found)


def _of_joint(joining: Joining, rows: tuple[Bought, ...]) -> Iterator[Thing]:
    """What holds it: rods in the wood, or what its joint says is seen of them."""
    seen = () if joining.metal else joining.fasteners
    for number, fastener in enumerate(seen, start=1):
        name = f"{fastener.name} {number}, {joining.incoming}"
        parts = (joining.incoming, joining.into)
        yield _fastener(name, fastener, parts, rows)
    for number, metal in enumerate(joining.metal, start=1):
        name = f"{metal.name} {number}, {joining.incoming}"
        row = row_of(bought_for(joining.fasteners[0]), rows) if joining.fasteners else None
        yield _metal(name, metal, (joining.incoming, joining.into), row)


def _held(placed: Placed, piece: Piece) -> Iterator[tuple[Hole, Bought]]:
    """What is bought for this part alone, in its bores, where as many bores take it closely."""
    holes = shapes_of(placed.part.cuts, placed.part.blank, Hole)
    for thing in merged(piece.fixings):
        if thing.where != (placed.instance,) or thing.diameter_mm is None:
            continue
        wide = thing.diameter_mm
        takes = [
            each for each in holes if each.is_round and 0.0 <= each.width_mm - wide <= _CLOSE_MM
        ]
        if len(takes) == thing.quantity and thing.length_mm is not None:
            yield from ((hole, thing) for hole in takes)


def _in_bore(
    name: str, placed: Placed, hole: Hole, thing: Bought, rows: tuple[Bought, ...]
) -> Thing:
    """A peg that stands out of its bore, or a screw whose head fills the bore's countersink."""
    radius, long = (thing.diameter_mm or 0.0) / 2, thing.length_mm or 0.0
    inwards = scaled(placed.placement.direction_to_piece(hole.face.normal), -1.0)
    mouth = placed.placement.to_piece(hole.centre)
    is_sunk = hole.mouth_radius_mm > hole.radius_mm
    deep = hole.depth_mm or placed.part.blank.across(hole.face)
    if is_sunk:
        head = hole.mouth_radius_mm - 0.1
        shape = ((0.0, 0.1), (head, 0.1), (radius, head), (radius, 0.9 * long), (0.0, long))
        start = mouth
    else:
        eased = min(1.0, 0.2 * radius)
        shape = ((0.0, 0.0), (radius - eased, 0.0), (radius, eased), (radius, long), (0.0, long))
        start = add(mouth, scaled(inwards, -max(0.0, long - deep)))
    return Thing(
        name=name,
        form=Turned(shape),
        axes=_frame_along(inwards),
        origin=start,
        stuff=Stuff.STEEL if is_sunk else Stuff.PEG,
        bought=row_of(thing, rows),
        between=(placed.instance,),
        out=scaled(inwards, -((long if is_sunk else min(long, deep)) + _OUT_MM)),
        stands_out=not is_sunk,
        of_part=None if is_sunk else placed.instance,
    )


def _fastener(
    name: str, fastener: Fastener, parts: tuple[str, ...], rows: tuple[Bought, ...]
) -> Thing:
    """A rod half in either part, or what is driven from the outside of the part that goes in."""
    radius, long = fastener.diameter_mm / 2, fastener.length_mm
    is_wooden = fastener.by in _WOODEN
    out = _STILL
    if is_wooden:
        form = _rod(radius, long)
    else:
        head = (_HEAD if fastener.by is HoldBy.SCREW else _PIN_HEAD) * radius
        deep = min(0.4 * long, head)
        form = Turned(((0.0, 0.0), (head, 0.0), (radius, deep), (radius, 0.9 * long), (0.0, long)))
        out = scaled(fastener.axis, -(long + _OUT_MM))
    return Thing(
        name=name,
        form=form,
        axes=_frame_along(fastener.axis),
        origin=add(fastener.at, scaled(fastener.axis, -fastener.incoming_mm)),
        stuff=Stuff.PEG if is_wooden else Stuff.STEEL,
        bought=row_of(bought_for(fastener), rows),
        between=parts if is_wooden else parts[:1],
        out=out,
    )


def _metal(name: str, metal: Metal, parts: tuple[str, str], row: Bought | None) -> Thing:
    """A barrel, or a leaf in its gain."""
    along = subtract(metal.end, metal.start)
    long = length(along)
    third = scaled(along, 1.0 / long)
    wide, thick = metal.size_mm
    form: Form = Square((wide, thick, long))
    if metal.section is Section.ROUND:
        form = _rod(wide / 2, long)
    return Thing(
        name=name,
        form=form,
        axes=(metal.across, cross(third, metal.across), third),
        origin=metal.start,
        stuff=Stuff.STEEL,
        bought=row,
        between=parts,
        stands_out=True,
    )


def _weight(body: FixedBody, rows: tuple[Bought, ...]) -> Thing:
    """Ballast, which goes along with what it lies on."""
    x, y, z = body.centre_mm
    return Thing(
        name=body.name,
        form=Square(body.size_mm),
        axes=((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), UP),
        origin=(x, y, z - body.size_mm[2] / 2),
        stuff=Stuff.WEIGHT,
        bought=None if body.bought is None else row_of(body.bought, rows),
        between=(body.on,),
        out=(0.0, 0.0, 2.0 * _OUT_MM),
    )


def _stays(turns: TurnsOpen, rows: tuple[Bought, ...]) -> Iterator[Thing]:
    """What stops an open lid, as it hangs from it."""
    stay = turns.stay
    if stay is None or stay.length_mm is None:
        return
    for number, (on_lid, on_rail) in enumerate(turns.stays, start=1):
        yield Thing(
            name=f"{stay.name} {number}, {turns.instance}",
            form=_rod(_CHAIN_MM / 2, on_lid[2] - on_rail[2]),
            axes=_frame_along(scaled(UP, -1.0)),
            origin=on_lid,
            stuff=Stuff.STEEL,
            bought=row_of(stay, rows),
            between=(turns.instance,),
            hangs=_rod(_CHAIN_MM / 2, stay.length_mm),
        )


def _on_wood(fitted: Fitted, number: int, rows: tuple[Bought, ...]) -> Thing:
    """A thing whose foot lies on the wood; its height, which nobody says, is as its width."""
    thing, (long, wide) = fitted.things[0], fitted.size_mm
    return Thing(
        name=f"{thing.name} {number}, {fitted.on}",
        form=Square((long, wide, wide)),
        axes=(fitted.along, cross(fitted.out, fitted.along), fitted.out),
        origin=fitted.at,
        stuff=Stuff.STEEL,
        bought=row_of(thing, rows),
        between=(fitted.on,),
        out=scaled(fitted.out, 2.0 * _OUT_MM),
        stands_out=True,
    )


def _rod(radius: float, long: float) -> Turned:
    return Turned(((0.0, 0.0), (radius, 0.0), (radius, long), (0.0, long)))


def _frame_along(axis: Vector) -> tuple[Vector, Vector, Vector]:
    """A right-handed frame whose third axis is the one given."""
    other = np.eye(3)[int(np.argmin(np.abs(np.array(axis))))]
    across = cross((float(other[0]), float(other[1]), float(other[2])), axis)
    first = scaled(across, 1.0 / length(across))
    return (first, cross(axis, first), axis)
