"""What the assembly tests share: boards, a cut of their own, and a replay by the kernel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, ClassVar

from furniture.assembly import AssemblyPlan, Step
from furniture.joints import Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Cut, Misfit, Shape
from furniture.parts.cuts.figures import Figures, Says
from furniture.parts.faces import Face, face_on
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement, box_of
from furniture.parts.tools import Tool, box_tool
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces import Piece, compose, placed_named
from furniture.solids.make import placed_solid
from furniture.timber.stock import Stock, Timber, read_stock
from furniture.units import Reader

COMMON_MM3 = 0.01
"""Common volume that counts as none: the packet's own limit."""


@lru_cache
def oak(thickness_mm: float = 20.0) -> Timber:
    """Some oak; only splines ask for its thickness."""
    reader = Reader()
    stock = Stock(name="oak", species="white oak", thickness=f"{thickness_mm} mm", moisture="9 %")
    found = read_stock(reader, "stock", stock)
    assert found is not None, reader.problems
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Hollow(Cut):
    """A box sunk anywhere into a blank: stands for a frame or a mortise that is one rigid part."""

    kind: ClassVar[str] = "hollow"

    x_from: float
    x_to: float
    y_from: float
    y_to: float
    z_from: float
    z_to: float

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        low = (self.x_from, self.y_from, self.z_from)
        return (box_tool(low, (self.x_to, self.y_to, self.z_to)),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        spans = ((self.x_from, self.x_to), (self.y_from, self.y_to), (self.z_from, self.z_to))
        sides = [
            min(high, size) - max(low, 0.0)
            for (low, high), size in zip(spans, blank.size, strict=True)
        ]
        return sides[0] * sides[1] * sides[2]

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        return ()

    def shape(self, blank: Blank) -> Shape:
        spans = ((self.x_from, self.x_to), (self.y_from, self.y_to), (self.z_from, self.z_to))
        for axis in (2, 1, 0):
            low, high = spans[axis]
            if low < 0.0 or high > blank.size[axis]:
                is_far = low >= 0.0
                along = 1 if axis == 0 else 0
                return Channel(
                    face=face_on(axis, is_far), along=along, wide=spans[3 - axis - along],
                    floor_mm=low if is_far else high, run=spans[along],
                )  # fmt: skip
        return Channel(
            face=Face.FACE_SIDE, along=0, wide=spans[1], floor_mm=self.z_from, run=spans[0]
        )

    def figures(self, blank: Blank) -> Figures:
        """Nothing is drawn of it here: only where it is."""
        return Figures(
            sizes=(), place=Says.IN.of(Face.FACE_SIDE), at=(self.x_from, self.y_from, self.z_from),
            seen=None,
        )  # fmt: skip


def hollow(low: Vector, high: Vector) -> Hollow:
    """A hollow between two corners of the part frame."""
    return Hollow(
        x_from=low[0], x_to=high[0], y_from=low[1], y_to=high[1], z_from=low[2], z_to=high[2]
    )


def board(
    name: str,
    size: Vector,
    origin: Vector,
    x_axis: Vector = (1.0, 0.0, 0.0),
    y_axis: Vector = (0.0, 1.0, 0.0),
    cuts: tuple[Cut, ...] = (),
) -> Placed:
    """A squared part of that length, width and thickness where it is told to stand."""
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    part = Part(name=name, blank=blank, timber=oak(), cuts=cuts)
    placement = Placement(origin=origin, x_axis=x_axis, y_axis=y_axis)
    return Placed(instance=name, part=part, placement=placement)


def piece_of(placed: Sequence[Placed], joints: Sequence[Joint] = ()) -> Piece:
    """A piece of these parts."""
    return compose(name="test piece", placed=placed, joints=joints)


def replay(piece: Piece, plan: AssemblyPlan, fine_mm: float = 1.0) -> list[str]:
    """Everything wrong with a plan when its moves are made with the solids; none when it is right.

    Each step is drawn back along its way, a hair, then in fine steps, then in growing ones until
    the two sides are clear of each other, and the kernel asked for their common volume; a step of
    two legs as far along the last one as it says, and then along the one before. Parts must have
    been put together before they move or are moved on to.
    """
    wrong = []
    together = {frozenset({each.instance}) for each in piece.placed}
    for step in plan.steps:
        moving, onto = frozenset(step.moving), frozenset(step.onto)
        for side in (moving, onto):
            if side not in together:
                wrong.append(f"{sorted(side)} were not together yet")
        together -= {moving, onto}
        together.add(moving | onto)
        wrong += _meetings(piece, step, fine_mm)
    if together != {frozenset(each.instance for each in piece.placed)}:
        wrong.append(f"in the end the piece is in {len(together)} lots")
    return wrong


def _meetings(piece: Piece, step: Step, fine_mm: float) -> list[str]:
    found = []
    corner = None if step.before is None else step.before.left_mm
    distance, stride, start = 0.0, 0.05, (0.0, 0.0, 0.0)
    back = scaled(step.direction, -1.0)
    while distance < 3000.0:
        if corner is not None and distance >= corner:
            assert step.before is not None
            start, back = scaled(back, corner), scaled(step.before.way, -1.0)
            distance, stride, corner = 0.0, 0.05, None
        shift = add(start, scaled(back, distance))
        is_clear = True
        for a in step.moving:
            for b in step.onto:
                if not _boxes_meet(piece, a, b, shift):
                    continue
                is_clear = False
                common = _common(_solid(piece, a).translate(shift), _solid(piece, b))
                if common >= COMMON_MM3:
                    found.append(f"{a} meets {b} by {common:.3f} mm3, {distance:.2f} mm from home")
        if is_clear and distance > 0.0 and corner is None:
            break
        distance = distance + stride if corner is None else min(distance + stride, corner)
        stride = fine_mm if distance < 25.0 else stride * 1.2
    return found


def _boxes_meet(piece: Piece, a: str, b: str, shift: Vector) -> bool:
    first, second = placed_named(piece, a), placed_named(piece, b)
    low, high = box_of(first.part.blank, first.placement)
    low, high = add(low, shift), add(high, shift)
    other = box_of(second.part.blank, second.placement)
    return all(low[i] < other[1][i] - 1e-9 and other[0][i] < high[i] - 1e-9 for i in range(3))


def _solid(piece: Piece, instance: str) -> Any:
    placed = placed_named(piece, instance)
    return placed_solid(placed.part, placed.placement)


def _common(first: Any, second: Any) -> float:
    return float(sum(solid.Volume() for solid in first.intersect(second).Solids()))
