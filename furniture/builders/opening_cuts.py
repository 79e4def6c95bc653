"""Openings cut where they are wanted: bores and slots in the parts' own frames."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

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
    for hole in holes:
        part = standing[hole.on]
        if hole.on not in near:
            near[hole.on] = near_of(part, placed, joints, standing)
        cut, line = _cut(part, _at_its_height(hole, part, standing), grain(hole.on))
        openings.append(
            replace(opening_at(part, cut.shape(part.part.blank), hole.purpose), least_mm=hole.least)
        )
        opening = Near(what="another opening", shape=line, reach=hole.reach)
        least = reader.rules[LEAST_OPENING_WOOD]
        found = shortest(hole.parameter, hole.on, opening, near[hole.on], least)
        short += [] if found is None else [found]
        near[hole.on].append(opening)
        standing[hole.on] = replace(part, part=replace(part.part, cuts=(*part.part.cuts, cut)))
    refuse_short(
        reader,
        short,
        {each.parameter: None if each.least is None else (each.least, each.size) for each in holes},
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
    if is_grain_up and _runs_from_right(part):
        left = across - left
    x, y = (edge, left) if is_grain_up else grain.point((left, edge), along)
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
