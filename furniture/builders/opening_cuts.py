"""Openings cut where they are wanted: bores and slots in the parts' own frames."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import product

import shapely

from furniture.builders.opening_room import Near, Short, near_of, refuse_short, shortest
from furniture.builders.openings import Hole
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.rules import DesignReader
from furniture.joints import Joint
from furniture.parts.cuts import Along, Bore, Slot
from furniture.parts.cuts import Hole as HoleMade
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import FRONT, UP, dot
from furniture.pieces import OpeningFor, PlacedOpening
from furniture.rules.building import LEAST_OPENING_WOOD
from furniture.units import figure_with_unit

_SAME_MM = 1e-6


def with_openings(
    reader: DesignReader,
    holes: Sequence[Hole],
    placed: Sequence[Placed],
    joints: Sequence[Joint],
    grain: Callable[[str], PanelGrain],
) -> tuple[list[Placed], tuple[PlacedOpening, ...]]:
    """The instances with their openings cut, and where those are.

    What would meet an edge or a joint is noted.

    Args:
        reader: keeps the problems.
        holes: as `read_openings` gives them.
        placed: every part of the piece in its place.
        joints: between them; their dowels are kept clear of.
        grain: of each level instance.
    """
    standing = {each.instance: each for each in placed}
    near: dict[str, list[Near]] = {}
    openings: list[PlacedOpening] = []
    short: list[Short] = []
    moves: dict[str, str] = {}
    for hole in holes:
        part = standing[hole.on]
        if hole.on not in near:
            near[hole.on] = near_of(part, placed, joints, standing)
        hole_at = _at_its_height(hole, part, standing)
        cut, line = _cut(part, hole_at, grain(hole.on))
        openings.append(
            replace(opening_at(part, cut.shape(part.part.blank), hole.purpose), least_mm=hole.least)
        )
        opening = Near(what="another opening", shape=line, reach=hole.reach)
        least = reader.rules[LEAST_OPENING_WOOD]
        found = shortest(hole.parameter, hole.on, opening, near[hole.on], least)
        if found is not None:
            short.append(found)
            if sum(each.parameter == hole.parameter for each in holes) == 1:
                moves[hole.parameter] = _moved(
                    reader, part, hole_at, grain(hole.on), line, found
                )  # fmt: skip
            elif hole.between is not None:
                moves[hole.parameter] = ""
        near[hole.on].append(opening)
        standing[hole.on] = replace(part, part=replace(part.part, cuts=(*part.part.cuts, cut)))
    refuse_short(
        reader,
        short,
        {each.parameter: None if each.least is None else (each.least, each.size) for each in holes},
        moves,
    )
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


def _at_its_height(hole: Hole, part: Placed, standing: Mapping[str, Placed]) -> Hole:
    """The hole with its place along an upright part, where that is said by what it is between."""
    if hole.between is None:
        return hole
    boxes = [box_of(each.part.blank, each.placement) for each in map(standing.get, hole.between)
             if each is not None]  # fmt: skip
    (_, top), (bottom, _) = sorted(boxes, key=lambda box: box[0][2])
    middle = (top[2] + bottom[2]) / 2.0
    x, y, _ = part.placement.to_part((*part.placement.origin[:2], middle))
    is_grain_up = abs(dot(part.placement.x_axis, UP)) > 0.5
    return replace(hole, from_edge=x if is_grain_up else y)


def _moved(
    reader: DesignReader,
    part: Placed,
    hole: Hole,
    grain: PanelGrain,
    line: shapely.Geometry,
    short: Short,
) -> str:
    """The nearest place with room that a script can say; nothing where there is none."""
    step, free = reader.shown.step_mm, short.elsewhere
    (left0, edge0), ways = _seen(part, grain)
    middle = line.centroid
    if hole.between is not None:  # its height is given, so it moves level alone
        level = ways[0]
        far = [(middle.x + sign * 1e4 * level[0], middle.y + sign * 1e4 * level[1])
               for sign in (-1.0, 1.0)]  # fmt: skip
        free = free.intersection(shapely.LineString(far))
    if shapely.is_empty(free):
        return ""
    near = shapely.shortest_line(middle, free).coords[-1]
    wanted, now = (
        [(at[0] - left0) * way[0] + (at[1] - edge0) * way[1] for way in ways]
        for at in (near, (middle.x, middle.y))
    )
    tried = [
        (was,)
        if abs(to - was) < _SAME_MM
        else tuple(whole(to / step) * step for whole in (math.floor, math.ceil))
        for to, was in zip(wanted, now, strict=True)
    ]
    for seen in product(*tried):
        at = [
            origin + seen[0] * ways[0][axis] + seen[1] * ways[1][axis]
            for axis, origin in enumerate((left0, edge0))
        ]
        if free.distance(shapely.Point(at)) < _SAME_MM:
            told = (
                f"{name}='{figure_with_unit(to, reader.shown)}'"
                for name, to, was in zip(("from_left", "from_edge"), seen, now, strict=True)
                if to != was
            )
            return f"write {', '.join(told)}"
    return ""


def _seen(
    part: Placed, grain: PanelGrain
) -> tuple[tuple[float, float], tuple[tuple[float, float], tuple[float, float]]]:
    """Where the left and lower corner of a part lies in its own frame, and the ways from there."""
    corner, aside, up = (_point(part, grain, *seen) for seen in ((0, 0), (1, 0), (0, 1)))
    ways = [(each[0] - corner[0], each[1] - corner[1]) for each in (aside, up)]
    return corner, (ways[0], ways[1])


def _point(part: Placed, grain: PanelGrain, left: float, edge: float) -> tuple[float, float]:
    """A place in the part's own frame, of one from its left and from its front or lower edge."""
    blank = part.part.blank
    if abs(dot(part.placement.x_axis, UP)) > 0.5:
        return edge, blank.width_mm - left if _runs_from_right(part) else left
    depth = blank.length_mm if grain is PanelGrain.ACROSS else blank.width_mm
    return grain.point((left, edge), depth)


def _cut(part: Placed, hole: Hole, grain: PanelGrain) -> tuple[Bore | Slot, shapely.Geometry]:
    """The cut in the part's frame, and the line of centres of its round ends."""
    blank = part.part.blank
    is_grain_up = abs(dot(part.placement.x_axis, UP)) > 0.5
    is_turned = is_grain_up or grain is PanelGrain.ACROSS
    across, along = (
        (blank.width_mm, blank.length_mm) if is_turned else (blank.length_mm, blank.width_mm)
    )
    left = (across / 2 if math.isnan(hole.from_left) else hole.from_left) + hole.aside
    edge = along / 2 if math.isnan(hole.from_edge) else hole.from_edge
    x, y = _point(part, grain, left, edge)
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
        along=Along.GRAIN if is_turned else Along.ACROSS,
    )
    dx, dy = (straight, 0.0) if is_turned else (0.0, straight)
    return slot, shapely.LineString([(x - dx, y - dy), (x + dx, y + dy)])


def _runs_from_right(part: Placed) -> bool:
    """Whether part y runs from the right edge as one faces it (from the back edge: an upright)."""
    to_left = part.placement.y_axis[0]
    return to_left < -0.5 or dot(part.placement.y_axis, FRONT) > 0.5
