"""What the joint tests measure on the solids themselves, with the kernel and nothing of ours."""

from __future__ import annotations

from typing import Any

from furniture.joints import Joining, Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector, dot
from furniture.pieces import Piece, compose, placed_named
from furniture.solids.make import placed_solid, solid_of
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Reader

OVERLAP_MM3 = 0.01
"""Common volume that counts as none: the packet's own limit."""
PUSH_MM = 0.005
"""How far a part is pushed to see what it touches: less than any play."""
AREA_MM2, AREA_SHARE = 1.0, 0.005
"""How nearly areas agree: slabs of that thickness on slopes, and circles as polygons."""


def timber(thickness_mm: float) -> Timber:
    """Oak of that thickness."""
    reader = Reader()
    stock = Stock(name="oak", species="white oak", thickness=f"{thickness_mm} mm", moisture="9 %")
    found = read_stock(reader, "stock", stock)
    assert found is not None, reader.problems
    return found


def board(
    name: str,
    size: tuple[float, float, float],
    origin: Vector,
    x_axis: Vector,
    y_axis: Vector,
    cuts: tuple[Cut, ...] = (),
) -> Placed:
    """A squared part of that length, width and thickness, standing where it is told."""
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    part = Part(name=name, blank=blank, timber=timber(size[2]), cuts=cuts)
    placement = Placement(origin=origin, x_axis=x_axis, y_axis=y_axis)
    return Placed(instance=name, part=part, placement=placement)


def pair(joint: Joint, into: Placed, incoming: Placed, *others: Joint) -> Piece:
    """A piece of two parts and the joints between them."""
    return compose(name="pair", placed=[into, incoming], joints=[joint, *others])


def solid_named(piece: Piece, instance: str) -> Any:
    """The solid of an instance where it stands."""
    placed = placed_named(piece, instance)
    return placed_solid(placed.part, placed.placement)


def volume_of(piece: Piece, instance: str) -> float:
    """The volume of an instance [mm3]."""
    return float(solid_of(placed_named(piece, instance).part).Volume())


def common_volume(a: Any, b: Any) -> float:
    """The wood that two solids share [mm3]."""
    common = a.intersect(b)
    return float(sum(solid.Volume() for solid in common.Solids()))


def area_faults(piece: Piece, joining: Joining) -> list[str]:
    """Ways in which more or less wood touches than the faces of a joint state.

    Pushed a little further than home, the incoming part shares with the other a slab over each
    face that touches: its area, by the push, by the slope of the face to the push.
    """
    still = solid_named(piece, joining.into)
    moving = solid_named(piece, joining.incoming)
    touching = [face for face in joining.faces if face.play_mm == 0.0]
    found = []
    for way in dict.fromkeys(face.normal for face in joining.faces):
        x, y, z = (value * PUSH_MM for value in way)
        shared = common_volume(still, moving.translate((x, y, z))) / PUSH_MM
        stated = sum(face.area_mm2 * max(0.0, dot(face.normal, way)) for face in touching)
        if abs(shared - stated) > AREA_MM2 + AREA_SHARE * stated:
            found.append(f"{joining.kind}, {way}: {shared:.1f} mm2 touch, {stated:.1f} stated")
    return found


def blocked_ways(piece: Piece, joining: Joining, steps: tuple[float, ...]) -> list[str]:
    """The stated ways in that are not free when the part is drawn back out by these steps [mm]."""
    still = solid_named(piece, joining.into)
    moving = solid_named(piece, joining.incoming)
    found = []
    for way in joining.ways_in:
        for step in steps:
            shared = common_volume(
                still, moving.translate((-way[0] * step, -way[1] * step, -way[2] * step))
            )
            if shared >= OVERLAP_MM3:
                found.append(f"{joining.kind}: way {way}, {step} mm back shares {shared:.3f} mm3")
    return found


def prove(piece: Piece, steps: tuple[float, ...] = (0.05, 1.0, 7.0, 60.0, 900.0)) -> None:
    """Fail unless nothing overlaps, all stated faces and no others touch, ways in are free."""
    for joining in piece.joinings:
        shared = common_volume(
            solid_named(piece, joining.into), solid_named(piece, joining.incoming)
        )
        assert shared < OVERLAP_MM3, f"{joining.kind}: {shared} mm3 in common"
        faults = area_faults(piece, joining)
        assert not faults, faults
        blocked = blocked_ways(piece, joining, steps)
        assert not blocked, blocked
