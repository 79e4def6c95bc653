"""The last rail of a run is cut to what lies opposite: what that is, and over which faces."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence

from furniture.joints.joint import Role
from furniture.making.operations import After, Axis, Kind, Operation, Span, Stage
from furniture.making.parting import off_both_ends
from furniture.making.units import Unit
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces.piece import Piece, placed_named

_SAME_WAY = 0.5
"""Grain lies along a way where it lies along it rather than across. Own rule."""


def closing_rail(
    piece: Piece, unit: Unit, operations: Sequence[Operation]
) -> Iterator[tuple[Operation, str]]:
    """What the parts opposite the last rail of a run measure, put together dry, and what waits.

    Args:
        piece: what is made.
        unit: the length that the run comes off.
        operations: of all units.
    """
    if not off_both_ends(unit):
        return
    lengths = [
        each
        for each in operations
        if each.stage is Stage.PART
        and any(size.instance in unit.instances and size.axis is Axis.LENGTH for size in each.sizes)
    ]
    if not lengths:
        return
    last = lengths[-1]
    opposite = _opposite(piece, last.sizes[0].instance)
    if not opposite:
        return
    names = set(opposite)
    yield (
        Operation(
            key=f"{last.sizes[0].instance}: measure what lies opposite",
            kind=Kind.MEASURE,
            stage=Stage.PART,
            takes=opposite,
            gives=opposite,
            span=_span_of(piece, opposite, placed_named(piece, last.sizes[0].instance)),
            after=tuple(
                After(each.key, Why.MATE_FIRST)
                for each in operations
                if each is not last and _brings_to_size(each, names)
            ),
        ),
        last.key,
    )


def _brings_to_size(operation: Operation, names: set[str]) -> bool:
    """Whether it gives one of these parts a width or a length, or itself."""
    is_sized = any(
        size.instance in names and size.axis is not Axis.THICKNESS for size in operation.sizes
    )
    comes_off = names & {*operation.gives} - {*operation.takes}
    return bool(comes_off) or (is_sized and operation.stage in (Stage.MILL, Stage.PART))


def _opposite(piece: Piece, closing: str) -> tuple[str, ...]:
    """The parts along the side across from a rail: those that close on its neighbours.

    Where these close on uprights, the row is what stands between the uprights, with them. Strips
    that become one board stand there together.
    """
    way = placed_named(piece, closing).placement.x_axis
    joined, boards = _joined(piece), _boards(piece)
    sides = {
        name
        for each in piece.joinings
        if each.role is Role.CORNER and closing in (each.into, each.incoming)
        for name in (each.into, each.incoming)
        if name != closing
    }
    beyond = {other for side in sides for other in joined[side] - {closing}}

    def is_between(name: str, ends: Container[str]) -> bool:
        met = {other for strip in boards[name] for other in joined[strip] if other in ends}
        return len(met) > 1 and name not in sides and name != closing

    def runs_along(name: str) -> bool:
        return abs(dot(placed_named(piece, name).placement.x_axis, way)) > _SAME_WAY

    found = {name for name in beyond if runs_along(name)}
    if found:
        row = found | {name for name in joined if is_between(name, found)}
    else:
        row = {name for name in joined if runs_along(name) and is_between(name, beyond)}
        row |= {end for name in row for end in joined[name] & beyond}
    return tuple(each.instance for each in piece.placed if each.instance in row)


def _span_of(piece: Piece, row: Sequence[str], closing: Placed) -> Span:
    """From the outermost face of a row to the other, along the grain of the rail that it is for."""
    way = closing.placement.x_axis

    def outermost(sign: float) -> tuple[str, Face]:
        out = scaled(way, sign)
        last = max((placed_named(piece, name) for name in row), key=lambda each: _reach(each, out))
        return last.instance, last.placement.face_towards(out)

    return Span(low=outermost(-1.0), high=outermost(1.0))


def _reach(placed: Placed, way: Vector) -> float:
    """How far a part's blank reaches along a way [mm]."""
    low, high = box_of(placed.part.blank, placed.placement)
    return sum(max(a * w, b * w) for a, b, w in zip(low, high, way, strict=True))


def _boards(piece: Piece) -> Mapping[str, set[str]]:
    """What each part is glued up into one board with, itself among it."""
    boards = {each.instance: {each.instance} for each in piece.placed}
    for each in piece.joinings:
        if each.role is Role.EDGE_GLUE:
            whole = boards[each.into] | boards[each.incoming]
            boards |= dict.fromkeys(whole, whole)
    return boards


def _joined(piece: Piece) -> Mapping[str, set[str]]:
    """What each part closes on, at a corner or with fasteners."""
    joined: dict[str, set[str]] = {each.instance: set() for each in piece.placed}
    for joining in piece.joinings:
        is_seat = joining.role in (Role.RIM, Role.SEAT)
        if not is_seat and (joining.role is Role.CORNER or joining.fasteners):
            joined[joining.into].add(joining.incoming)
            joined[joining.incoming].add(joining.into)
    return joined
