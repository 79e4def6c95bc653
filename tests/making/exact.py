"""The same passes in the exact kernel: round is round, and no facet stands between two figures.

Where a figure lies is read as for the light kernel; what is cut away is made anew.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import cadquery as cq
import numpy as np

from furniture.making.settings import (
    Bored,
    Easing,
    Notched,
    Parallel,
    Setting,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import Face
from tests.making import passes
from tests.making.bodies import Prism
from tests.making.passes import NOTHING, Pass, end_of, inwards, level

_FAR_MM = 4000.0
_ON_FACE = 1e-6
Spans = dict[int, tuple[float, float]]


@dataclass(frozen=True, slots=True, eq=False)
class Exact:
    """A solid of the exact kernel, called as the light one is."""

    shape: Any

    def __sub__(self, other: Exact) -> Exact:
        return Exact(self.shape.cut(other.shape))

    def volume(self) -> float:
        """All of it [mm3]."""
        return float(sum(each.Volume() for each in self.shape.Solids()))

    def decompose(self) -> list[Exact]:
        """Its pieces."""
        return [Exact(each) for each in self.shape.Solids()]

    def corners(self) -> np.ndarray:
        """Every vertex; wood that is planed and sawn reaches furthest at one [mm]."""
        return np.array([each.toTuple() for each in self.shape.Vertices()])

    def bounding_box(self) -> tuple[float, ...]:
        """Least and greatest corner [mm]."""
        found = self.corners()
        return (*found.min(axis=0).tolist(), *found.max(axis=0).tolist())

    def transform(self, matrix: np.ndarray) -> Exact:
        """Moved and turned by three axes and an origin, in columns."""
        plane = cq.Plane(tuple(matrix[:, 3]), tuple(matrix[:, 0]), tuple(matrix[:, 2]))
        return Exact(self.shape.moved(cq.Location(plane)))


class ExactKernel:
    """Makes boxes and passes."""

    def box(self, low: Any, high: Any) -> Exact:
        """Between two corners."""
        size = [b - a for a, b in zip(low, high, strict=True)]
        return Exact(cq.Solid.makeBox(*size, cq.Vector(*low)))

    def passed(self, wood: Any, setting: Setting) -> Pass:
        """The wood after a pass."""
        nothing: Any = Exact(cq.Compound.makeCompound([]))
        beyond: Any = nothing
        match setting:
            case Surface(face=face, takes_mm=takes):
                kept = _cut_off(wood, face, level(wood, face) + inwards(face) * takes, 0.0, None)
            case Parallel(off=off, at_mm=high):
                there = level(wood, off) + inwards(off) * high
                kept = _cut_off(wood, off.opposite, there, 0.0, None)
            case Slice(off=off, lean_deg=lean, long_face=on):
                there = end_of(wood, off, on) + inwards(off) * setting.at_mm
                kept = _cut_off(wood, off.opposite, there, lean, on)
                beyond = _beyond(wood, off.opposite, there, lean, on, setting.kerf_mm)
            case Skim(face=face, lean_deg=lean, long_face=on):
                there = end_of(wood, face, on) + inwards(face) * setting.takes_mm
                kept = _cut_off(wood, face, there, lean, on)
            case _:
                kept = wood - Exact(_tool(wood, setting))
        return Pass(kept=kept, beyond=beyond)

    def glued(self, strips: Sequence[Any]) -> Exact:
        """All of them as one."""
        first, *others = (each.shape for each in strips)
        return Exact(first.fuse(*others).clean())

    def less(self, wood: Any, prism: Prism) -> Exact:
        """The wood without what a prism takes."""
        wire = cq.Wire.makePolygon([cq.Vector(*each) for each in prism.outline], close=True)
        return Exact(wood.shape.cut(cq.Solid.extrudeLinear(wire, [], cq.Vector(*prism.sweep))))


def _half(wood: Any, face: Face, at: float, lean: float, on: Face | None, past: float) -> Any:
    """All that lies beyond a plane, which leaves the wood longest towards `face` on that face."""
    normal, point = np.array(face.normal, dtype=float), np.zeros(3)
    point[face.axis] = at
    if on is not None:
        normal = normal * math.cos(math.radians(lean))
        normal -= np.array(on.normal) * math.sin(math.radians(lean))
        point[on.axis] = level(wood, on)
    corner = cq.Vector(-_FAR_MM, -_FAR_MM, past)
    block = cq.Solid.makeBox(2 * _FAR_MM, 2 * _FAR_MM, _FAR_MM, corner)
    return block.moved(cq.Location(cq.Plane(origin=tuple(point), normal=tuple(normal))))


def _cut_off(wood: Exact, face: Face, at: float, lean: float, on: Face | None) -> Exact:
    return Exact(wood.shape.cut(_half(wood, face, at, lean, on, 0.0)))


def _beyond(
    wood: Exact, face: Face, at: float, lean: float, on: Face | None, kerf: float
) -> Exact:  # fmt: skip
    return Exact(wood.shape.intersect(_half(wood, face, at, lean, on, kerf)))


def _block(spans: Spans) -> Any:
    low, high = ([spans[axis][end] for axis in range(3)] for end in (0, 1))
    return cq.Solid.makeBox(*(b - a for a, b in zip(low, high, strict=True)), cq.Vector(*low))


def _pin(spans: Spans, along: int, centre: dict[int, float], radius: float) -> Any:
    """A round bar through a span of one axis."""
    start = [spans[along][0] if axis == along else centre[axis] for axis in range(3)]
    way = cq.Vector(*(float(axis == along) for axis in range(3)))
    run = spans[along][1] - spans[along][0]
    return cq.Solid.makeCylinder(radius, run, cq.Vector(*start), way)


def _left(spans: Spans, along: int, corner: dict[int, tuple[float, int]], radius: float) -> Any:
    """What a round cutter leaves in a corner."""
    block, centre = dict(spans), {}
    for axis, (at, way) in corner.items():
        low, high = sorted((at, at + way * radius))
        block[axis], centre[axis] = (low, high), at + way * radius
    return _block(block).cut(_pin(spans, along, centre, radius))


def _rounded(wood: Any, spans: Spans, sink: int, radius: float) -> Any:
    tool = _block(spans)
    if radius <= NOTHING:
        return tool
    first, second = (axis for axis in range(3) if axis != sink)
    for i, way in ((0, 1), (1, -1)):
        for j, back in ((0, 1), (1, -1)):
            at, there = spans[first][i], spans[second][j]
            if passes._is_inside(wood, first, at) and passes._is_inside(wood, second, there):
                corner = {first: (at, way), second: (there, back)}
                tool = tool.cut(_left(spans, sink, corner, radius))
    return tool


def _tool(wood: Any, setting: Setting) -> Any:
    match setting:
        case Trench(face=face, off=off, along=along):
            end = setting.near_mm + setting.width_mm
            spans = {
                along: passes._run(wood, along, setting.whole_low_mm, setting.whole_high_mm),
                off.axis: passes._span(wood, off, setting.near_mm, end),
                face.axis: passes._span(wood, face, 0.0, setting.depth_mm),
            }
            return _rounded(wood, spans, face.axis, setting.corner_mm)
        case Notched(edge=edge, off=off):
            end = setting.near_mm + setting.length_mm
            spans = {
                off.axis: passes._span(wood, off, setting.near_mm, end),
                edge.axis: passes._span(wood, edge, 0.0, setting.depth_mm),
                2: passes._run(wood, 2, 0.0, 0.0),
            }
            return _rounded(wood, spans, 2, setting.corner_mm)
        case Easing(arris=arris, size_mm=size):
            faces = (arris.first, arris.second)
            corner = {face.axis: (level(wood, face), inwards(face)) for face in faces}
            return _eased(wood, setting, corner, size)
        case Bored():
            return _bored(wood, setting)
    raise ValueError(f"no setting tells what {type(setting).__name__} takes")


def _eased(wood: Any, setting: Easing, corner: dict[int, tuple[float, int]], size: float) -> Any:
    run = setting.arris.run_axis
    spans: Spans = {run: passes._run(wood, run, 0.0, 0.0)}
    if setting.is_round:
        return _left(spans, run, corner, size)
    points = []
    for shift in ({}, *({axis: size} for axis in corner)):
        point = [spans[run][0]] * 3
        for axis, (at, way) in corner.items():
            point[axis] = at + way * shift.get(axis, 0.0)
        points.append(cq.Vector(*point))
    wire = cq.Wire.makePolygon(points, close=True)
    way = [0.0, 0.0, 0.0]
    way[run] = spans[run][1] - spans[run][0]
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(*way))


def _bored(wood: Any, setting: Bored) -> Any:
    sink, radius = setting.face.axis, setting.diameter_mm / 2
    if setting.depth_mm is None:
        spans: Spans = {sink: passes._run(wood, sink, 0.0, 0.0)}
    else:
        spans = {sink: passes._span(wood, setting.face, 0.0, setting.depth_mm)}
    first, second = (sink + 1) % 3, (sink + 2) % 3
    ends = [setting.at_mm, *([setting.to_mm] if setting.to_mm is not None else [])]
    centres = [passes._centre(wood, setting, each) for each in ends]
    tool = _pin(spans, sink, {first: centres[0][0], second: centres[0][1]}, radius)
    if len(centres) > 1:
        a, b = centres
        along = first if abs(a[0] - b[0]) > abs(a[1] - b[1]) else second
        other = second if along == first else first
        mid = a[1] if other == second else a[0]
        low, high = sorted((a[0], b[0]) if along == first else (a[1], b[1]))
        slot = {**spans, along: (low, high), other: (mid - radius, mid + radius)}
        far = _pin(spans, sink, {first: b[0], second: b[1]}, radius)
        tool = tool.fuse(_block(slot), far)
    if setting.mouth_mm > setting.diameter_mm:
        at = [0.0, 0.0, 0.0]
        at[first], at[second], at[sink] = *centres[0], level(wood, setting.face)
        way = cq.Vector(*(-each for each in setting.face.normal))
        cone = cq.Solid.makeCone(
            setting.mouth_mm / 2, radius, setting.mouth_depth_mm, cq.Vector(*at), way
        )
        tool = tool.fuse(cone)
    return tool
