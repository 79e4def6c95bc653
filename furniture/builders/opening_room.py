"""The wood that openings leave: to edges, to other parts and cuts, and to one another."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import assert_never

import shapely
from shapely.affinity import translate

from furniture.builders.rules import DesignReader
from furniture.joints import Joint
from furniture.joints.holding import driven_through
from furniture.joints.relation import box_in
from furniture.parts.cuts import Bite, Channel, Eased, InSlope, Slope, Stub, TongueEnd
from furniture.parts.cuts import Hole as HoleMade
from furniture.parts.faces import WIDE_FACES
from furniture.parts.part import Placed
from furniture.parts.vectors import add, scaled
from furniture.rules.building import LEAST_OPENING_WOOD
from furniture.units import at_least_text, at_most_text, listed

_NEAR_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Something in the plane of a part's wide face that an opening keeps away from [mm]."""

    what: str
    shape: shapely.Geometry
    reach: float = 0.0


def near_of(
    part: Placed, placed: Sequence[Placed], joints: Sequence[Joint], standing: Mapping[str, Placed]
) -> list[Near]:
    """The part's outside, then what else its openings keep away from.

    Args:
        part: the one with the openings.
        placed: every part of the piece in its place.
        joints: between them; their dowels are kept clear of.
        standing: the parts by instance, with the openings that they have by now.
    """
    return [*_neighbours(part, placed), *_own_cuts(part), *_dowels(part, joints, standing)]


def _neighbours(part: Placed, placed: Sequence[Placed]) -> list[Near]:
    """The outside of the part, and every other part that reaches into it or lies on it."""
    length, width, thickness = part.part.blank.size
    found = [Near(what="the edge", shape=shapely.box(0.0, 0.0, length, width).exterior)]
    for other in placed:
        if other.instance == part.instance:
            continue
        low, high = box_in(part, other)
        sides = ((0, length), (1, width), (2, thickness))
        if all(low[axis] <= size + 1e-6 and high[axis] >= -1e-6 for axis, size in sides):
            shape = shapely.box(
                max(0.0, low[0]), max(0.0, low[1]), min(length, high[0]), min(width, high[1])
            )
            found.append(Near(what=other.instance, shape=shape))
    return found


def _own_cuts(part: Placed) -> list[Near]:
    """What the part has already that an opening may not run into, seen on its face side."""
    blank = part.part.blank
    found = []
    for cut in part.part.cuts:
        shape, reach = cut.shape(blank), 0.0
        match shape:
            case HoleMade() if shape.face in WIDE_FACES:
                seen = shapely.LineString([shape.first[:2], shape.last[:2]])
                reach = shape.radius_mm
            case Channel():
                low, high = shape.corners(blank)
                seen = shapely.box(*low[:2], *high[:2])
            case Bite():  # less its round corners, which are in its reach
                reach = shape.corner_mm
                low, high = shape.core(blank)
                seen = shapely.MultiPoint(list(product(*zip(low[:2], high[:2], strict=True))))
                seen = seen.convex_hull
            case HoleMade() | Slope() | InSlope() | Eased() | TongueEnd() | Stub():
                continue  # these take an end or an edge, which is kept clear of
            case _:
                assert_never(shape)
        found.append(Near(what=f"its {cut.name}", shape=seen, reach=reach))
    return found


def _dowels(part: Placed, joints: Sequence[Joint], standing: Mapping[str, Placed]) -> list[Near]:
    """The dowels, pins and screws that stand in the part, end gap and all."""
    found = []
    for joint in joints:
        if part.instance not in (joint.into, joint.incoming):
            continue
        into, incoming = standing[joint.into], standing[joint.incoming]
        joining = joint.work(into, incoming).joining
        driven = driven_through(joint.driven, joining.faces, into, incoming)
        for each in (*joining.fasteners, *driven):
            reaches = (-each.incoming_mm - each.end_gap_mm, each.into_mm + each.end_gap_mm)
            ends = [
                part.placement.to_part(add(each.at, scaled(each.axis, reach))) for reach in reaches
            ]
            line = shapely.LineString([(end[0], end[1]) for end in ends])
            other = joint.incoming if part.instance == joint.into else joint.into
            found.append(
                Near(what=f"the {each.name}s to {other}", shape=line, reach=each.diameter_mm / 2)
            )
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Short:
    """An opening that leaves too little wood.

    Attributes:
        parameter: of the opening.
        on: the part that it is in.
        what: what it comes too near to.
        is_edge: whether that is the outside of its own part.
        wood_mm: what is left between [mm]; less than 0 where it runs past.
        has_room: whether it has enough on all sides once it is moved straight away from there.
        elsewhere: where its middle has enough on all sides, seen on the part's face side.
    """

    parameter: str
    on: str
    what: str
    is_edge: bool
    wood_mm: float
    has_room: bool
    elsewhere: shapely.Geometry


def shortest(
    parameter: str, on: str, opening: Near, near: Sequence[Near], least: float
) -> Short | None:
    """Where the opening leaves least wood, if that is too little.

    Args:
        parameter: of the opening.
        on: the part that it is in.
        opening: itself.
        near: the part's outside, then all else that it keeps away from.
        least: wood that must be left [mm].
    """
    line = opening.shape
    if math.isnan(opening.reach) or shapely.is_empty(line):
        return None
    worst, wood = min(
        ((each, _wood_mm(line, opening.reach, each, near[0])) for each in near),
        key=lambda found: found[1],
    )
    if wood >= least - _NEAR_MM:
        return None
    moved = _moved_away(line, worst, near[0], least - wood)
    has_room = moved is not None and all(
        _wood_mm(moved, opening.reach, each, near[0]) >= least - _NEAR_MM for each in near
    )
    return Short(
        parameter=parameter, on=on, what=worst.what, is_edge=worst is near[0], wood_mm=wood,
        has_room=has_room, elsewhere=_elsewhere(line, opening.reach, near, least),
    )  # fmt: skip


def _elsewhere(
    line: shapely.Geometry, reach: float, near: Sequence[Near], least: float
) -> shapely.Geometry:
    """Where the middle of an opening has enough wood on all sides."""
    outside, *others = near
    x, y = line.centroid.coords[0]
    ends = [(each[0] - x, each[1] - y) for each in line.coords]
    inside = shapely.Polygon(outside.shape).buffer(-reach - least, join_style="mitre")
    free = shapely.intersection_all([translate(inside, -dx, -dy) for dx, dy in ends])
    for each in others:
        swept = shapely.union_all([translate(each.shape, -dx, -dy) for dx, dy in ends]).convex_hull
        free = free.difference(swept.buffer(reach + each.reach + least))
    return free


def _wood_mm(line: shapely.Geometry, reach: float, each: Near, outside: Near) -> float:
    """The wood between an opening and something near it, less than 0 where it runs past [mm]."""
    away = float(line.distance(each.shape))
    if each is outside and not shapely.Polygon(outside.shape).contains(line):
        away = -away
    return away - reach - each.reach


def _moved_away(
    line: shapely.Geometry, near: Near, outside: Near, by_mm: float
) -> shapely.Geometry | None:
    """The opening so much further from something; None where it lies upon it."""
    (x, y), (to_x, to_y) = shapely.shortest_line(near.shape, line).coords
    length = math.hypot(to_x - x, to_y - y)
    if length < _NEAR_MM:
        return None
    is_past = near is outside and not shapely.Polygon(outside.shape).contains(line)
    by = by_mm / length * (-1.0 if is_past else 1.0)
    return translate(line, by * (to_x - x), by * (to_y - y))


def refuse_short(
    reader: DesignReader,
    found: Sequence[Short],
    sizes: Mapping[str, tuple[float, float] | None],
    moves: Mapping[str, str],
) -> None:
    """One problem for each opening as it was written, however many parts and holes it makes.

    Args:
        reader: keeps the problems.
        found: all openings that are.
        sizes: of each opening by its parameter, how small it may be and how large it is [mm]; None
            where it is not one round hole.
        moves: of each opening by its parameter, where else it has room, as a script says it.
    """
    by_parameter: dict[str, list[Short]] = {}
    for each in found:
        by_parameter.setdefault(each.parameter, []).append(each)
    least = reader.rules[LEAST_OPENING_WOOD]
    for parameter, short in by_parameter.items():
        worst = min(short, key=lambda each: each.wood_mm)
        others = list(dict.fromkeys(each.on for each in short))
        others.remove(worst.on)
        where = f"the edge of {worst.on}" if worst.is_edge else worst.what
        told = f"an opening in {worst.on} that "
        if worst.wood_mm >= 0:
            told += f"leaves {at_most_text(worst.wood_mm, reader.shown)} of wood to {where}"
        else:
            length = at_least_text(-worst.wood_mm, reader.shown)
            told += f"runs {length} {'past' if worst.is_edge else 'into'} {where}"
        if others:
            told += f"; {listed(others)} {'has' if len(others) == 1 else 'have'} too little too"
        remedy = _remedy(reader, short, worst, where, sizes.get(parameter), moves.get(parameter))
        reader.refuse(
            parameter, told, f"at least {reader.least(least)} of wood",
            "an opening stays in whole wood, clear of edges, joints and other openings",
            remedy,
        )  # fmt: skip


def _remedy(
    reader: DesignReader,
    short: Sequence[Short],
    worst: Short,
    where: str,
    sizes: tuple[float, float] | None,
    move: str | None,
) -> str:
    """Moving it, or a thinner bit, as far as either does: what has to pass it decides its size."""
    lacks = reader.rules[LEAST_OPENING_WOOD] - worst.wood_mm
    ways = []
    if move is not None:
        ways += [move] if move else []
    elif all(each.has_room for each in short):
        away = reader.least(lacks)
        ways.append(f"move it {away} away from {where} (from_left, from_edge)")
    if sizes is None:
        ways.append("make the row shorter: fewer, closer or wider vents (count, spacing, size)")
    elif sizes[1] - 2.0 * lacks >= sizes[0]:
        most = at_most_text(sizes[1] - 2.0 * lacks, reader.shown)
        ways.append(f"make it {most} at most (size)")
    if not ways:
        ways.append(f"make {worst.on} larger, or let it be in another part (on)")
    return ", or ".join(ways)
