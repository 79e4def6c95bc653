"""A piece and what it weighs, put to the checks."""

from __future__ import annotations

from collections.abc import Callable

from furniture.checks.finding import Finding, Show
from furniture.checks.housing import HAND_N, Housing, Lever, housing_findings
from furniture.checks.stability import GRAVITY_M_S2, Body, Load, Surface
from furniture.checks.stability_findings import (
    TABLE_TOP_EQUIPMENT,
    Standing,
    press_findings,
    push_findings,
    tilt_findings,
    weight_share_findings,
)
from furniture.joints.joint import GrainRelation, Joining
from furniture.pieces import Piece, Stance, placed_named
from furniture.pieces.weighed import Weighed
from furniture.units import figure_with_unit

TOP_PUSH_N = 10.0
"""A knock at the top [N]. Own rule: about a kilogram's push, what a sleeve or a cat does."""


def findings_of(piece: Piece, weighed: Weighed) -> tuple[Finding, ...]:
    """Every finding on the piece: standing first, then its joints.

    A piece that hangs on a wall does not stand, so nothing is said of its tipping.

    Args:
        piece: the piece as cut.
        weighed: its mass and where it touches the floor.
    """
    show: Show = _shown_by(piece)
    if piece.stance is Stance.WALL:
        return _lever_findings(piece, weighed, show)
    standing = standing_of(piece, weighed)
    return (
        *tilt_findings(standing, TABLE_TOP_EQUIPMENT, show),
        *weight_share_findings(standing, show),
        *push_findings(standing, TOP_PUSH_N, standing.top_mm, "push at the top", show),
        *press_findings(standing, HAND_N, "hand leaning on a front edge", show),
        *_lever_findings(piece, weighed, show),
    )


def _shown_by(piece: Piece) -> Callable[[float], str]:
    return lambda mm: figure_with_unit(mm, piece.shown)


def standing_of(piece: Piece, weighed: Weighed) -> Standing:
    """The piece as it stands, as the statics take it: heights above the floor."""
    floor = weighed.extents[0][2]
    x, y, z = weighed.whole.centre_mm
    surfaces = {
        each.instance: Surface(
            name=each.instance,
            x0_mm=each.low[0],
            x1_mm=each.high[0],
            y0_mm=each.low[1],
            y1_mm=each.high[1],
            top_mm=each.top_mm - floor,
        )
        for each in piece.surfaces
    }
    loads = tuple(
        Load(
            name=f"{load.name} on {load.on}",
            on=surfaces[load.on],
            mass_kg=load.mass_kg,
            footprint_mm=load.footprint_mm,
            centre_height_mm=load.centre_height_mm,
        )
        for load in piece.loads
    )
    return Standing(
        piece=Body(mass_kg=weighed.whole.mass_kg, centre_mm=(x, y, z - floor)),
        contacts_mm=weighed.floor,
        top_mm=weighed.extents[1][2] - floor,
        loads=loads,
        surfaces=tuple(surfaces.values()),
    )


def _lever_findings(piece: Piece, weighed: Weighed, show: Show) -> tuple[Finding, ...]:
    """Every loaded tier that is held at one side only, as a lever in its dado."""
    found: list[Finding] = []
    for surface in piece.surfaces:
        loads = [load for load in piece.loads if load.on == surface.instance]
        held = [
            joining
            for joining in piece.joinings
            if joining.incoming == surface.instance and joining.seat is not None
        ]
        if not loads or len(held) != 1:
            continue
        housing = _housing_of(piece, held[0], surface.high[1] - surface.low[1])
        for load in loads:
            reach = max(0.0, housing.projection_mm - load.footprint_mm[1] / 2)
            lever = Lever(
                what=f"{load.name} at its front",
                force_n=load.mass_kg * GRAVITY_M_S2,
                reach_mm=reach,
            )
            found.extend(housing_findings(housing, lever, show))
    del weighed
    return tuple(found)


def _housing_of(piece: Piece, joining: Joining, projection: float) -> Housing:
    post = placed_named(piece, joining.into)
    shelf = placed_named(piece, joining.incoming)
    assert joining.seat is not None
    top = post.placement.to_piece((post.part.blank.length_mm, 0.0, 0.0))[2]
    underside = shelf.placement.origin[2]
    above = max(0.0, top - underside - joining.seat.thickness_mm - joining.clearance_mm)
    side = (GrainRelation.LONG_TO_LONG, GrainRelation.CROSSING)
    return Housing(
        name=joining.incoming,
        shelf=shelf.part.timber.species,
        post=post.part.timber.species,
        width_mm=joining.seat.run_mm,
        depth_mm=joining.seat.depth_mm,
        shelf_thickness_mm=joining.seat.thickness_mm,
        clearance_mm=joining.clearance_mm,
        above_mm=above,
        projection_mm=projection,
        side_grain_mm2=sum(face.area_mm2 for face in joining.glue if face.grain in side),
        end_grain_mm2=sum(face.area_mm2 for face in joining.glue if face.grain not in side),
    )
