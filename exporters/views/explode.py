"""Placed parts moved apart, and the lines that show where each came from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from exporters.views.values import Line, ViewFrame
from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, scaled

_STILL: Vector = (0.0, 0.0, 0.0)


def exploded(placed: Sequence[Placed], shifts: Mapping[str, Vector]) -> tuple[Placed, ...]:
    """The same parts, each moved by the shift of its instance; one without a shift stays.

    Args:
        placed: the parts in their places.
        shifts: by instance, how far it is moved, piece frame [mm].
    """
    return tuple(
        replace(
            each,
            placement=replace(
                each.placement, origin=add(each.placement.origin, shifts.get(each.instance, _STILL))
            ),
        )
        for each in placed
    )


def trails(
    placed: Sequence[Placed], shifts: Mapping[str, Vector], frame: ViewFrame
) -> tuple[Line, ...]:
    """A line for each part that moves, from its middle in place to its middle moved [mm].

    Args:
        placed: the parts in their places.
        shifts: by instance, how far it is moved, piece frame [mm].
        frame: how they are looked at, in the piece frame.
    """
    lines = []
    for each in placed:
        shift = shifts.get(each.instance, _STILL)
        if shift == _STILL:
            continue
        middle = middle_of(each)
        lines.append(Line(start=frame.to_paper(middle), end=frame.to_paper(add(middle, shift))))
    return tuple(lines)


def middle_of(placed: Placed) -> Vector:
    """The middle of a placed part's blank, piece frame [mm]."""
    low, high = box_of(placed.part.blank, placed.placement)
    return scaled(add(low, high), 0.5)


def shifts_against_assembly(
    placed: Sequence[Placed], joinings: Sequence[Joining], distance_mm: float
) -> dict[str, Vector]:
    """How far each part is moved so that every joint opens the way it was pushed home.

    A part goes with the part that it enters, and from there back along its first way in. Where
    joints form a ring, a part follows the first joint that names it. Own rule: it keeps every part
    on the line along which the maker will push it.

    Args:
        placed: the parts in their places.
        joinings: the piece's joints; one with no way in leaves its part where it is.
        distance_mm: how far each joint opens [mm].
    """
    shifts: dict[str, Vector] = {}
    incoming = {joining.incoming for joining in joinings}
    for each in placed:
        if each.instance not in incoming:
            shifts[each.instance] = _STILL
    waiting = [joining for joining in joinings if joining.ways_in]
    while waiting:
        ready = next((one for one in waiting if one.into in shifts), waiting[0])
        waiting.remove(ready)
        if ready.incoming in shifts:
            continue
        base = shifts.setdefault(ready.into, _STILL)
        shifts[ready.incoming] = add(base, scaled(ready.ways_in[0], -distance_mm))
    return shifts
