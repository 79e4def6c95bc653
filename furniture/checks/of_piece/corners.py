"""Mitred corners as the checks take them: their wood, and the splines and keys across them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.checks.mitre import (
    Across,
    Mitre,
    key_across_mitre,
    spline_across_mitre,
)
from furniture.joints.joint import Joining, Role
from furniture.joints.mitre_plane import planes_on
from furniture.joints.reading import extent_along, is_tilted_mitre
from furniture.parts.cuts import Channel, shapes_of
from furniture.parts.faces import EDGES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import dot
from furniture.pieces import Piece, placed_named
from furniture.timber.species import Kind


def mitres_of(piece: Piece) -> tuple[Mitre, ...]:
    """Every corner of rails mitred by tilting the blade, with its splines or keys.

    Args:
        piece: the piece as cut
    """
    return tuple(
        _mitre(piece, each)
        for each in piece.joinings
        if is_tilted_mitre(each, placed_named(piece, each.incoming))
    )


def _mitre(piece: Piece, joining: Joining) -> Mitre:
    rails = [placed_named(piece, name) for name in (joining.into, joining.incoming)]
    longer = max(rails, key=lambda rail: rail.part.blank.length_mm)
    thickness = min(rail.part.blank.thickness_mm for rail in rails)
    return Mitre(
        name=f"{joining.incoming} at {joining.into}",
        species=min(
            (rail.part.timber.species for rail in rails), key=lambda each: each.mor_mpa or 0.0
        ),
        height_mm=min(_glued_height_mm(rail) for rail in rails),
        thickness_mm=thickness,
        rail_length_mm=longer.part.blank.length_mm,
        across=tuple(_across(piece, each, thickness) for each in _across_corner(piece, joining)),
        clear_mm=_clear_mm(rails[0]) if piece.intent.takes_corner_parts else None,
        bottom_is_held=any(_is_held_in(piece, panel, rails) for panel in piece.placed),
    )


def _is_held_in(piece: Piece, panel: Placed, rails: Sequence[Placed]) -> bool:
    """Whether a panel is glued to the rails of a corner, or fastened to them."""
    names = {rail.instance for rail in rails}
    joints = [
        each for each in piece.joinings if each.incoming == panel.instance and each.into in names
    ]
    is_sheet = panel.part.timber.species.kind is Kind.SHEET
    return len(joints) == len(names) and all(
        each.glue_area_mm2 > 0.0 or (is_sheet and each.fasteners) for each in joints
    )


def _glued_height_mm(rail: Placed) -> float:
    """The height of a mitre whose face is the wood that rabbets along the rail leave [mm].

    What splines and keys take of it is not taken off: they bear more than the end grain there.
    """
    blank = rail.part.blank
    steps = [each for each in shapes_of(rail.part.cuts, blank, Channel) if each.step in EDGES]
    lost = sum((each.wide[1] - each.wide[0]) * each.depth_mm(blank) for each in steps)
    return blank.width_mm - lost / blank.thickness_mm


def _clear_mm(rail: Placed) -> tuple[float, float]:
    """The stretch of a rail's width that no rabbet along an edge takes [mm]."""
    low, high = 0.0, rail.part.blank.width_mm
    for step in shapes_of(rail.part.cuts, rail.part.blank, Channel):
        if step.step is Face.FACE_EDGE:
            low = max(low, step.wide[1])
        elif step.step is Face.BACK_EDGE:
            high = min(high, step.wide[0])
    return low, high


def _across(piece: Piece, joining: Joining, thickness_mm: float) -> Across:
    """A spline or key as it lies in one rail, read off its place on the mitre."""
    area = joining.glue_area_mm2
    rail, spline = (placed_named(piece, each) for each in (joining.into, joining.incoming))
    (way, *_), walls = joining.ways_in, joining.glued_faces
    blank = spline.part.blank
    corners = [
        spline.placement.to_piece((blank.length_mm / 2.0, y, z))
        for y in (0.0, blank.width_mm)
        for z in (0.0, blank.thickness_mm)
    ]
    # The rail's other end is mitred too, square to this one: only the nearer plane tells.
    plane = min(planes_on(rail), key=lambda each: abs(each.read(corners[0])[2]))
    if abs(dot(way, plane.outward)) < 0.5:  # in from the corner's outside, as keys go
        depth = max(extent_along(wall, way) for wall in walls)
        return replace(key_across_mitre(thickness_mm, depth), area_mm2=area)
    down = [plane.read(corner)[0] for corner in corners]
    return spline_across_mitre(thickness_mm, area, min(down), max(down))


def _across_corner(piece: Piece, joining: Joining) -> list[Joining]:
    """The splines and keys that are in both rails of a corner, as they lie in the first."""
    in_other = {
        each.incoming
        for each in piece.joinings
        if each.role is Role.LOOSE_TONGUE and each.into == joining.incoming
    }
    return [
        each
        for each in piece.joinings
        if each.role is Role.LOOSE_TONGUE
        and each.into == joining.into
        and each.incoming in in_other
    ]
