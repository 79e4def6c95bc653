"""Openings for cables and drains, and rows of vents, at stated places of named parts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import product
from typing import assert_never

import shapely

from furniture.builders.common import Names
from furniture.builders.rules import DesignReader
from furniture.joints import Joint
from furniture.joints.holding import driven_through
from furniture.joints.relation import box_in
from furniture.parts.cuts import (
    Along,
    Bite,
    Bore,
    Channel,
    Eased,
    InSlope,
    Slope,
    Slot,
    Stub,
    TongueEnd,
)
from furniture.parts.cuts import Hole as HoleMade
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import FRONT, UP, add, dot, scaled
from furniture.pieces import Bought, OpeningFor, PlacedOpening
from furniture.rules.building import LEAST_OPENING_WOOD
from furniture.units import Given, figure_with_unit, parameters, said


@parameters
class Opening:
    """A round opening right through a part.

    Places are as one faces the part: a rail from outside, a post from the front, an upright from
    between the two (its left is then its front edge for both), a panel from above.

    Args:
        on: an instance or a group, such as `tiers`, `lid`, `post`, `back rail`.
        size: of the bore: for a bushing, the diameter of its body.
        flange: the diameter of a bushing's rim, which must lie on wood too; none when left out.
        from_left: of the centre; in the middle when left out.
        from_edge: of the centre, from a panel's front edge or an upright part's lower end; in the
            middle when left out.
        purpose: cable, drain or air.
    """

    on: str = ""
    size: Given = "25 mm"
    flange: Given | None = None
    from_left: Given | None = None
    from_edge: Given | None = None
    purpose: OpeningFor = OpeningFor.CABLE


class VentKind(Enum):
    """The shape of the vents in a row."""

    BORES = "bores"
    SLOTS = "slots"


@parameters
class Vent:
    """A row of bores or of upright slots, side by side from left to right, through a part.

    Args:
        on: an instance or a group.
        kind: bores or slots.
        count: how many.
        size: diameter of a bore, width of a slot.
        length: of a slot, over its round ends.
        spacing: from centre to centre.
        from_left: of the middle of the row; in the middle of the part when left out.
        from_edge: of the row's line, as for an `Opening`.
    """

    on: str = ""
    kind: VentKind = VentKind.BORES
    count: int = 5
    size: Given = "8 mm"
    length: Given = "40 mm"
    spacing: Given = "20 mm"
    from_left: Given | None = None
    from_edge: Given | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole as one faces the part [mm]; `reach` is its radius, or that of its flange."""

    parameter: str
    on: str
    size: float
    reach: float
    half_length: float
    aside: float
    from_left: float
    from_edge: float
    purpose: OpeningFor


def read_openings(
    reader: DesignReader, openings: Sequence[object], vents: object, names: Names
) -> tuple[Hole, ...]:
    """All holes with their figures read; problems are noted with the reader.

    A place that is left out is not-a-number: the middle of the part.
    """
    holes: list[Hole] = []
    for index, opening in enumerate(openings):
        where = f"openings[{index}]"
        if not isinstance(opening, Opening):
            reader.refuse(where, said(opening), "an Opening", "it is one", "write Opening(...)")
            continue
        reader.names(f"{where}.", opening)
        size = _size(reader, f"{where}.size", opening.size, 3.0, 80.0)
        flange = size
        if opening.flange is not None:
            flange = reader.length(
                f"{where}.flange", opening.flange, at_least=0.0 if math.isnan(size) else size,
                at_most=120.0, why="a bushing's rim is wider than its body",
            )  # fmt: skip
        purpose = reader.choice(f"{where}.purpose", opening.purpose, OpeningFor, OpeningFor.CABLE)
        meant = _meant(reader, where, opening.on, names)
        if purpose is OpeningFor.DRAIN:
            _refuse_upright_drains(reader, where, opening.on, meant, names)
        left, edge = _place(reader, where, opening.from_left, opening.from_edge)
        holes += [
            Hole(
                parameter=where, on=name, size=size, reach=flange / 2, half_length=size / 2,
                aside=0.0, from_left=left, from_edge=edge, purpose=purpose,
            )
            for name in meant
        ]  # fmt: skip
    for index, vent in enumerate(reader.several("vents", vents, Vent, "Vent(...)")):
        where = f"vents[{index}]"
        if not isinstance(vent, Vent):
            reader.refuse(where, said(vent), "a Vent", "it is a row of them", "write Vent(...)")
            continue
        holes += _row(reader, where, vent, names)
    return tuple(holes)


def _row(reader: DesignReader, where: str, vent: Vent, names: Names) -> list[Hole]:
    reader.names(f"{where}.", vent)
    kind = reader.choice(f"{where}.kind", vent.kind, VentKind, VentKind.BORES)
    count = vent.count
    if not isinstance(count, int) or isinstance(count, bool) or not 1 <= count <= 40:
        reader.refuse(
            f"{where}.count", said(count), "a whole number from 1 to 40", "a row has so many",
            "make it 5",
        )  # fmt: skip
        count = 1
    size = _size(reader, f"{where}.size", vent.size, 3.0, 40.0)
    length = size
    if kind is VentKind.SLOTS:
        length = reader.length(
            f"{where}.length", vent.length, at_least=0.0 if math.isnan(size) else size + 1.0,
            at_most=400.0, why="a slot is longer than wide",
        )  # fmt: skip
    wood = reader.rules[LEAST_OPENING_WOOD]
    spacing = reader.length(
        f"{where}.spacing", vent.spacing,
        at_least=0.0 if math.isnan(size) or count == 1 else size + wood,
        why=f"{reader.least(wood)} of wood stay between two vents (own rule)",
    )  # fmt: skip
    left, edge = _place(reader, where, vent.from_left, vent.from_edge)
    return [
        Hole(
            parameter=where, on=name, size=size, reach=size / 2, half_length=length / 2,
            aside=(index - (count - 1) / 2) * spacing, from_left=left, from_edge=edge,
            purpose=OpeningFor.AIR,
        )
        for name in _meant(reader, where, vent.on, names)
        for index in range(count)
    ]  # fmt: skip


def _size(reader: DesignReader, parameter: str, given: object, least: float, most: float) -> float:
    why = "bits of this size exist, and a larger hole is a cut-out"
    return reader.length(parameter, given, at_least=least, at_most=most, why=why)


def _place(reader: DesignReader, where: str, left: object, edge: object) -> tuple[float, float]:
    why = "it is a distance into the part"
    given = {"from_left": left, "from_edge": edge}
    found = [
        math.nan
        if value is None
        else reader.length(f"{where}.{name}", value, at_least=0.0, why=why)
        for name, value in given.items()
    ]
    return (found[0], found[1])


def _meant(reader: DesignReader, where: str, on: object, names: Names) -> tuple[str, ...]:
    meant = names.meant_by(on)
    if not meant:
        reader.refuse(
            f"{where}.on", said(on), names.listed, "an opening is through a part",
            names.remedy(on),
        )  # fmt: skip
    return meant


def _refuse_upright_drains(
    reader: DesignReader, where: str, on: str, meant: Sequence[str], names: Names
) -> None:
    if not set(meant) <= set(names.level):
        reader.refuse(
            f"{where}.on", said(on), "a tier, the lid or the bottom", "water drains downwards",
            "write 'tiers', or purpose=OpeningFor.CABLE",
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Near:
    """Something in the plane of a part's wide face that an opening keeps away from [mm]."""

    what: str
    shape: shapely.Geometry
    reach: float = 0.0


def with_openings(
    reader: DesignReader, holes: Sequence[Hole], placed: Sequence[Placed], joints: Sequence[Joint]
) -> tuple[list[Placed], tuple[PlacedOpening, ...]]:
    """The instances with their openings cut, and where those are.

    What would meet an edge or a joint is noted.

    Args:
        reader: keeps the problems.
        holes: as `read_openings` gives them.
        placed: every part of the piece in its place.
        joints: between them; their dowels are kept clear of.
    """
    standing = {each.instance: each for each in placed}
    near: dict[str, list[_Near]] = {}
    openings: list[PlacedOpening] = []
    for hole in holes:
        part = standing[hole.on]
        if hole.on not in near:
            near[hole.on] = [
                *_neighbours(part, placed),
                *_own_cuts(part),
                *_dowels(part, joints, standing),
            ]
        cut, line = _cut(part, hole)
        openings.append(opening_at(part, cut.shape(part.part.blank), hole.purpose))
        _check(reader, hole, line, near[hole.on])
        near[hole.on].append(_Near(what="another opening", shape=line, reach=hole.reach))
        standing[hole.on] = replace(part, part=replace(part.part, cuts=(*part.part.cuts, cut)))
    return [standing[each.instance] for each in placed], tuple(openings)


def opening_at(placed: Placed, hole: HoleMade, purpose: OpeningFor) -> PlacedOpening:
    """Where an opening is in the piece: halfway through the wood that it goes through."""
    face, at = hole.face, list(hole.centre)
    at[face.axis] = placed.part.blank.across(face) / 2
    return PlacedOpening(
        purpose=purpose,
        instance=placed.instance,
        centre=placed.placement.to_piece((at[0], at[1], at[2])),
        axis=placed.placement.direction_to_piece(face.normal),
        size_mm=hole.width_mm,
    )


def _cut(part: Placed, hole: Hole) -> tuple[Bore | Slot, shapely.Geometry]:
    """The cut in the part's frame, and the line of centres of its round ends."""
    blank = part.part.blank
    is_grain_up = abs(dot(part.placement.x_axis, UP)) > 0.5
    across, along = (
        (blank.width_mm, blank.length_mm) if is_grain_up else (blank.length_mm, blank.width_mm)
    )
    left = (across / 2 if math.isnan(hole.from_left) else hole.from_left) + hole.aside
    edge = along / 2 if math.isnan(hole.from_edge) else hole.from_edge
    if is_grain_up and _runs_from_right(part):
        left = across - left
    x, y = (edge, left) if is_grain_up else (left, edge)
    straight = hole.half_length - hole.size / 2
    if straight <= 1e-9:
        bore = Bore(face=Face.FACE_SIDE, x_mm=x, y_mm=y, diameter_mm=hole.size)
        return bore, shapely.Point(x, y)
    slot = Slot(
        face=Face.FACE_SIDE,
        x_mm=x,
        y_mm=y,
        length_mm=2 * hole.half_length,
        width_mm=hole.size,
        along=Along.GRAIN if is_grain_up else Along.ACROSS,
    )
    dx, dy = (straight, 0.0) if is_grain_up else (0.0, straight)
    return slot, shapely.LineString([(x - dx, y - dy), (x + dx, y + dy)])


def _runs_from_right(part: Placed) -> bool:
    """Whether part y runs from the right edge as one faces it (from the back edge: an upright)."""
    to_left = part.placement.y_axis[0]
    return to_left < -0.5 or dot(part.placement.y_axis, FRONT) > 0.5


def _neighbours(part: Placed, placed: Sequence[Placed]) -> list[_Near]:
    """The outside of the part, and every other part that reaches into it or lies on it."""
    length, width, thickness = part.part.blank.size
    found = [_Near(what="the edge", shape=shapely.box(0.0, 0.0, length, width).exterior)]
    for other in placed:
        if other.instance == part.instance:
            continue
        low, high = box_in(part, other)
        sides = ((0, length), (1, width), (2, thickness))
        if all(low[axis] <= size + 1e-6 and high[axis] >= -1e-6 for axis, size in sides):
            shape = shapely.box(
                max(0.0, low[0]), max(0.0, low[1]), min(length, high[0]), min(width, high[1])
            )
            found.append(_Near(what=f"the {other.instance}", shape=shape))
    return found


def _own_cuts(part: Placed) -> list[_Near]:
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
        found.append(_Near(what=f"its {cut.name}", shape=seen, reach=reach))
    return found


def _dowels(part: Placed, joints: Sequence[Joint], standing: Mapping[str, Placed]) -> list[_Near]:
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
                _Near(what=f"the {each.name}s to {other}", shape=line, reach=each.diameter_mm / 2)
            )
    return found


def _check(reader: DesignReader, hole: Hole, line: shapely.Geometry, near: Sequence[_Near]) -> None:
    if math.isnan(hole.reach) or shapely.is_empty(line):
        return
    outline = near[0].shape
    inside = shapely.Polygon(outline).contains(line)
    for each in near:
        wood = line.distance(each.shape) - hole.reach - each.reach
        if each is near[0] and not inside:
            wood = -line.distance(each.shape) - hole.reach
        if wood < reader.rules[LEAST_OPENING_WOOD] - 1e-6:
            short = figure_with_unit(reader.rules[LEAST_OPENING_WOOD] - wood, reader.shown)
            reader.refuse(
                hole.parameter,
                f"an opening in {hole.on} that leaves {figure_with_unit(wood, reader.shown)} of "
                f"wood to {each.what}",
                f"at least {figure_with_unit(reader.rules[LEAST_OPENING_WOOD], reader.shown)}",
                "an opening stays in whole wood, clear of edges, joints and other openings",
                f"move it {short} away from {each.what} (from_left, from_edge), or make it smaller",
            )
            return


def bushings_of(openings: Sequence[Opening], holes: Sequence[Hole]) -> list[Bought]:
    """The bushings that openings with a flange are made for.

    Args:
        openings: as the maker stated them, every one an opening.
        holes: as `read_openings` gives them, all figures known.
    """
    made_for = {
        f"openings[{index}]" for index, opening in enumerate(openings) if opening.flange is not None
    }
    return [
        Bought(
            name="bushing",
            quantity=1,
            diameter_mm=hole.size,
            where=(hole.on,),
            note="the diameter is its body's; its rim covers the edge of the opening",
        )
        for hole in holes
        if hole.parameter in made_for
    ]


def opening_notes(openings: Sequence[Opening]) -> tuple[str, ...]:
    """What the sheets say of bushings and drains."""
    found = []
    for opening in openings:
        if opening.flange is not None:
            found.append(f"{opening.on}: press a bushing of {opening.size} body into its opening")
        if opening.purpose in (OpeningFor.DRAIN, OpeningFor.DRAIN.value):
            found.append(f"{opening.on}: seal the end grain inside the drain before use")
    return tuple(dict.fromkeys(found))
