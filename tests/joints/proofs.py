"""What the joint tests measure on the solids themselves, with the kernel and nothing of ours."""

from __future__ import annotations

from typing import Any

from furniture.joints import Contact, Joining, Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector
from furniture.pieces import Piece, compose, placed_named
from furniture.solids.make import placed_solid, solid_of
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Reader

OVERLAP_MM3 = 0.01
"""Common volume that counts as none: the packet's own limit."""


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


def distance_to(solid: Any, at: Vector, towards: Vector) -> list[float]:
    """Where a straight line through `at` pierces the solid, signed along `towards` [mm]."""
    from OCP.gp import gp_Dir, gp_Lin, gp_Pnt
    from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector

    meet = IntCurvesFace_ShapeIntersector()
    meet.Load(solid.wrapped, 1e-7)
    meet.Perform(gp_Lin(gp_Pnt(*at), gp_Dir(*towards)), -1000.0, 1000.0)
    return sorted(meet.WParameter(index + 1) for index in range(meet.NbPnt()))


def contact_fault(piece: Piece, joining: Joining, contact: Contact) -> str:
    """What is untrue about a contact, in words; nothing when it is true."""
    own = distance_to(solid_named(piece, joining.incoming), contact.at, contact.towards)
    if not any(abs(value) < 1e-5 for value in own):
        return f"{joining.kind}, {contact.what}: not on the part that goes in, {own}"
    other = distance_to(solid_named(piece, joining.into), contact.at, contact.towards)
    ahead = [value for value in other if value > -1e-5]
    if not ahead or abs(ahead[0] - contact.stand_off_mm) > 1e-5:
        return f"{joining.kind}, {contact.what}: {contact.stand_off_mm} stated, {other} found"
    return ""


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
    """Fail unless nothing overlaps, every contact is true and every way in is free."""
    for joining in piece.joinings:
        shared = common_volume(
            solid_named(piece, joining.into), solid_named(piece, joining.incoming)
        )
        assert shared < OVERLAP_MM3, f"{joining.kind}: {shared} mm3 in common"
        faults = [contact_fault(piece, joining, contact) for contact in joining.contacts]
        assert not any(faults), faults
        blocked = blocked_ways(piece, joining, steps)
        assert not blocked, blocked
