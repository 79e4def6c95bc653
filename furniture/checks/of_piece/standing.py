"""A piece as it stands: its bodies, the room in its box, and where a cable leaves it."""

from __future__ import annotations

import math

from furniture.checks.ballast import Room
from furniture.checks.of_piece.reading import box_round
from furniture.checks.stability import Body, Load, Surface
from furniture.checks.stability_findings import Standing
from furniture.joints.joint import Role
from furniture.pieces import OpeningFor, Piece, placed_named
from furniture.pieces.weighed import Weighed
from furniture.rules.checking import BALLAST_HEIGHT_SHARE


def standing_of(piece: Piece, weighed: Weighed) -> Standing:
    """The piece as it stands, as the statics take it: heights above the floor.

    Args:
        piece: the piece as cut
        weighed: its mass and where it touches the floor
    """
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
            thing=load.name,
            on=surfaces[load.on],
            mass_kg=load.mass_kg,
            footprint_mm=load.footprint_mm,
            centre_height_mm=load.centre_height_mm,
        )
        for load in piece.loads
        if not load.kind.is_person
    )
    return Standing(
        piece=Body(mass_kg=weighed.whole.mass_kg, centre_mm=(x, y, z - floor)),
        contacts_mm=weighed.floor,
        top_mm=weighed.extents[1][2] - floor,
        loads=loads,
        surfaces=tuple(surfaces.values()),
        room=_room_of(piece, floor),
        base_kg=math.fsum(
            weighed.parts[each.part.id].mass_kg
            for each in piece.placed
            if each.instance in piece.intent.base
        ),
        drawn_out=piece.intent.drawn_out,
    )


def _room_of(piece: Piece, floor_mm: float) -> Room | None:
    """The free inside of the piece's box above a floor that is so high in the piece's frame."""
    inside = piece.intent.inside
    if inside is None:
        return None
    low, high = inside.low, inside.high
    return Room(
        low_mm=(low[0], low[1], low[2] - floor_mm),
        high_mm=(high[0], high[1], high[2] - floor_mm),
        is_open_below=inside.is_open_below,
        bottom_is_loose=not inside.is_open_below and _bottom_is_loose(piece),
        fill_share=piece.rules[BALLAST_HEIGHT_SHARE],
    )


def _bottom_is_loose(piece: Piece) -> bool:
    """Whether neither glue nor anything driven in holds the lowest panel in the rails of a box."""
    rims = [each for each in piece.joinings if each.role is Role.RIM]
    if not rims:
        return False
    lowest = min(
        {each.incoming for each in rims},
        key=lambda name: box_round(placed_named(piece, name))[0][2],
    )
    own = [each for each in piece.joinings if lowest in (each.into, each.incoming)]
    is_driven = any(
        lowest in thing.where and thing.diameter_mm is not None and thing.length_mm is not None
        for thing in piece.fixings
    )
    return not is_driven and not any(each.glue_area_mm2 > 0.0 or each.fasteners for each in own)


def cable_height_mm(piece: Piece, weighed: Weighed) -> float | None:
    """The height [mm] above the floor of the highest opening for a cable; None without one.

    Args:
        piece: the piece as cut, which says what its openings are for
        weighed: its extents
    """
    heights = [each.centre[2] for each in piece.intent.openings if each.purpose is OpeningFor.CABLE]
    return max(heights) - weighed.extents[0][2] if heights else None
