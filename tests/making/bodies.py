"""What is sawn of several parts that are one: slots across closed corners, and what stands out.

The parts stand where the piece's record places them; figures are told on one of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from manifold3d import CrossSection, Manifold

from furniture.making.operations import Operation
from furniture.making.settings import CornerSlot, Flush, MitreGroove
from furniture.parts.faces import Face
from tests.making.passes import NOTHING, OVER, end_of, inwards, level

FAR_MM = 300.0
"""So far past a corner or a face all is taken that lies there."""
Standing = Mapping[str, np.ndarray]
"""By instance, the three axes of its frame and its origin in the piece, in columns."""


@dataclass(frozen=True, slots=True)
class Prism:
    """An outline in space, corner by corner, and the way that it is swept [mm]."""

    outline: tuple[np.ndarray, ...]
    sweep: np.ndarray

    def moved(self, matrix: np.ndarray) -> Prism:
        """Seen from another frame."""
        turn, start = matrix[:, :3], matrix[:, 3]
        return Prism(tuple(turn @ each + start for each in self.outline), turn @ self.sweep)

    def solid(self) -> Manifold:
        """In the light kernel."""
        both = [*self.outline, *(each + self.sweep for each in self.outline)]
        return Manifold.hull_points(np.array(both))


def corner_frame(wood: Any, end: Face, on: Face, lean_deg: float) -> tuple[np.ndarray, ...]:
    """The long point of a mitre, the way down its slope, out of it, and along its sharp line."""
    lean, at = math.radians(lean_deg), np.zeros(3)
    at[end.axis], at[on.axis] = end_of(wood, end, on), level(wood, on)
    first, outer = np.array(end.normal, dtype=float), np.array(on.normal, dtype=float)
    along = np.zeros(3)
    along[3 - end.axis - on.axis] = 1.0
    down = -first * math.sin(lean) - outer * math.cos(lean)
    return at, down, first * math.cos(lean) - outer * math.sin(lean), along


def slots_of(operation: Operation, setting: CornerSlot) -> list[CornerSlot]:
    """The slot, or where a cutter takes several passes, each of them."""
    wide = None if operation.rig is None else operation.rig.cutter.size_mm
    if not operation.near_mm or wide is None:
        return [setting]
    return [
        replace(setting, near_mm=setting.near_mm + shift, width_mm=wide)
        for shift in operation.near_mm
    ]


def slot_prism(wood: Any, setting: CornerSlot) -> Prism:
    """What a pass takes, in the frame of the part that it is told on."""
    at, down, out, along = corner_frame(wood, setting.end, setting.long_face, setting.lean_deg)
    axis = setting.off.axis
    start = level(wood, setting.off) + inwards(setting.off) * setting.near_mm
    at = at.copy()
    at[axis] = start
    floor, sky = at + down * setting.depth_mm, at - down * FAR_MM
    outline = (floor - out * FAR_MM, floor + out * FAR_MM, sky + out * FAR_MM, sky - out * FAR_MM)
    return Prism(outline, along * inwards(setting.off) * setting.width_mm)


def flush_prisms(woods: Mapping[str, Any], setting: Flush, standing: Standing) -> Iterator[Prism]:
    """What stands out of each face, in the frame of the piece."""
    for name, face in setting.with_faces:
        wood, box = woods[name], np.array(woods[name].bounding_box())
        middle = (box[:3] + box[3:]) / 2
        middle[face.axis] = level(wood, face)
        first, second = (np.eye(3)[(face.axis + more) % 3] for more in (1, 2))
        reach = float(np.max(box[3:] - box[:3])) + FAR_MM
        outline = tuple(
            middle + a * reach * first + b * reach * second
            for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
        )
        yield Prism(outline, np.array(face.normal) * FAR_MM).moved(standing[name])


def back(matrix: np.ndarray) -> np.ndarray:
    """From the piece into a part's own frame."""
    turn = matrix[:, :3].T
    return np.column_stack([turn, -turn @ matrix[:, 3]])


def taken_of(
    operation: Operation, woods: Mapping[str, Any], standing: Standing
) -> Mapping[str, Sequence[Prism]]:
    """What a pass on a body takes of each of its parts, in the frame of that part.

    Args:
        operation: a slot across a corner, or what makes its keys flush.
        woods: the parts of the body by instance, each in its own frame.
        standing: where they stand in the piece.
    """
    setting = operation.setting
    if isinstance(setting, CornerSlot):
        there = [
            slot_prism(woods[setting.of], each).moved(standing[setting.of])
            for each in slots_of(operation, setting)
        ]
        names = list(woods)  # a blade asks for no name: it takes all that lies in its way
    elif isinstance(setting, Flush):
        there = list(flush_prisms(woods, setting, standing))
        names = list(dict.fromkeys(each.instance for each in operation.cuts))
    else:
        raise TypeError(f"nothing is sawn of a body by {type(setting).__name__}")
    return {name: [each.moved(back(standing[name])) for each in there] for name in names}


def mitre_groove(wood: Manifold, setting: MitreGroove, segments: int) -> Manifold:
    """The groove for a spline, square into the slope."""
    at, down, out, along = corner_frame(wood, setting.end, setting.long_face, setting.lean_deg)
    box, sharp = wood.bounding_box(), setting.sharp_axis
    at = at.copy()
    at[sharp] = 0.0
    size = abs(level(wood, setting.long_face) - level(wood, setting.long_face.opposite))
    slope = size / math.cos(math.radians(setting.lean_deg))
    whole = (setting.whole_low_mm, setting.whole_high_mm)
    near, far = setting.near_mm, setting.near_mm + setting.width_mm
    if setting.off is setting.long_face:  # it runs along the sharp line
        u, v = (near, far), _run(box[sharp], box[sharp + 3], whole)
    else:
        start, way = level(wood, setting.off), inwards(setting.off)
        low, high = sorted((start + way * near, start + way * far))
        u, v = _run(0.0, slope, whole), (low, high)
    section = _rounded(u, v, setting.corner_mm, segments)
    matrix = np.column_stack([down, along, out, at - out * setting.depth_mm])
    if np.linalg.det(matrix[:, :3]) < 0:
        section = section.mirror((0.0, 1.0))
        matrix[:, 1] *= -1.0
    return section.extrude(setting.depth_mm + OVER).transform(matrix)


def _run(low: float, high: float, whole: tuple[float, float]) -> tuple[float, float]:
    return (
        low + (whole[0] if whole[0] > NOTHING else -OVER),
        high - (whole[1] if whole[1] > NOTHING else -OVER),
    )


def _rounded(
    u: tuple[float, float], v: tuple[float, float], radius: float, segments: int
) -> CrossSection:
    """A rectangle with round corners; those of an open end lie outside the wood."""
    section = CrossSection.square((u[1] - u[0], v[1] - v[0])).translate((u[0], v[0]))
    if radius <= NOTHING:
        return section
    centres = [
        (a, b) for a in (u[0] + radius, u[1] - radius) for b in (v[0] + radius, v[1] - radius)
    ]
    circle = CrossSection.circle(radius, segments)
    return CrossSection.batch_hull([circle.translate(each) for each in centres])
