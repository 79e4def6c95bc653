"""How every level surface of a piece is borne: from one side, between two, or on rails."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.checks.of_piece.reading import Held, box_round, held_of, merged
from furniture.checks.of_piece.standing import standing_of
from furniture.checks.stability import GRAVITY_M_S2, Load
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, dot
from furniture.pieces import Piece, placed_named
from furniture.pieces.weighed import Weighed


@dataclass(frozen=True, slots=True, kw_only=True)
class Borne:
    """A level part that carries things: what holds it, what stands on it, what it weighs.

    `sides` are its housings, those on one side together; none where it lies on rails. `rails` are
    the rails that it lies on, and `weight_n` is its own weight.
    """

    shelf: Placed
    box: Box
    sides: tuple[tuple[Held, ...], ...]
    rails: tuple[Placed, ...]
    loads: tuple[Load, ...]
    weight_n: float

    @property
    def name(self) -> str:
        """The instance's name."""
        return self.shelf.instance

    @property
    def thickness_mm(self) -> float:
        """Its thickness [mm]."""
        return self.shelf.part.blank.thickness_mm

    @property
    def one_side(self) -> tuple[Held, ...]:
        """The housings that hold it alone, from one side; none where it is borne otherwise."""
        return self.sides[0] if len(self.sides) == 1 and not self.rails else ()

    @property
    def two_sides(self) -> tuple[Held, Held] | None:
        """A housing at either end of it, or None."""
        for first in self.sides:
            for second in self.sides:
                if not self.rails and dot(first[0].out, second[0].out) < -0.9:
                    return (first[0], second[0])
        return None

    def size_along(self, direction: Vector) -> float:
        """Its size along a direction of the piece [mm]."""
        low, high = self.box
        return sum(abs(direction[axis]) * (high[axis] - low[axis]) for axis in range(3))

    def projection_mm(self, held: Held) -> float:
        """From the face of what holds it to its far edge [mm]."""
        low, high = self.box
        ends = (dot(low, held.out), dot(high, held.out))
        return max(ends) - held.face_mm

    def footprint_along(self, load: Load, direction: Vector) -> float:
        """A load's size along a direction of the piece [mm]."""
        return load.footprint_mm[0] if abs(direction[0]) > 0.5 else load.footprint_mm[1]


def borne_of(piece: Piece, weighed: Weighed) -> tuple[Borne, ...]:
    """Every level surface of the piece with what bears it and what it bears.

    Args:
        piece: the piece as cut
        weighed: its mass
    """
    standing = standing_of(piece, weighed)
    found = []
    for surface in piece.surfaces:
        shelf = placed_named(piece, surface.instance)
        found.append(
            Borne(
                shelf=shelf,
                box=box_round(shelf),
                sides=merged(held_of(piece, surface.instance)),
                rails=tuple(
                    placed_named(piece, joining.into)
                    for joining in piece.joinings
                    if joining.incoming == surface.instance
                    and joining.kind == "rabbet"
                    and joining.fit is None
                ),
                loads=tuple(load for load in standing.loads if load.on.name == surface.instance),
                weight_n=weighed.parts[shelf.part.name].mass_kg * GRAVITY_M_S2,
            )
        )
    return tuple(found)
