"""Cuts that strengthen a mitred corner: the groove for a spline, and the slot for a key.

Both are struck from the long point of the mitred end that they belong to, so they hold the mitre's
own figures too: each can be made, drawn and rebuilt without looking at another cut.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit
from furniture.parts.cuts.figures import SECTION_OF_RUN, Care, Figures, Says, Size, Struck
from furniture.parts.cuts.left import put
from furniture.parts.cuts.slopes import InSlope
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import Point2, Vector, add, scaled

_AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class SplineGroove(Cut):
    """A groove sunk square into the sloping face of a mitred end, for a loose spline.

    `from_long_point_mm` and `down_slope_mm` are where it begins and how far it goes down the slope.
    `start_mm` and `run_mm` are the same along the sharp line, struck from the face edge where the
    long point lies on a wide face and from the face side where it lies on an edge.
    """

    kind: ClassVar[str] = "spline groove"

    end: Face
    long_point: Face
    mitre_angle_deg: float
    from_long_point_mm: float
    down_slope_mm: float
    start_mm: float
    run_mm: float
    depth_mm: float

    def _outline(self) -> tuple[Point2, ...]:
        """Corners down the slope and out of it [mm]."""
        start, end = self.from_long_point_mm, self.from_long_point_mm + self.down_slope_mm
        depth = self.depth_mm
        return ((start, -depth), (end, -depth), (end, OVERSHOOT_MM), (start, OVERSHOOT_MM))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        shape = self.shape(blank)
        past = _past_open_faces(shape.span, blank.size[shape.along])
        return (_slope_prism(blank, shape, self._outline(), past),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return _area_in_wood(blank, self.shape(blank), self._outline()) * self.run_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        placed = _placement_misfits(self.end, self.long_point, self.mitre_angle_deg)
        if placed:
            return placed
        angle = math.radians(self.mitre_angle_deg)
        slope = blank.across(self.long_point) / math.cos(angle)
        start = self.from_long_point_mm
        run = blank.size[_third_axis(self.end, self.long_point)]
        deepest = start / math.tan(angle)
        lies, stays = "the groove lies on the mitred face", "the groove stays in the wood"
        return (
            *misfit("from_long_point_mm", start, 1e-3, slope - self.down_slope_mm - 1e-3, lies),
            *misfit("down_slope_mm", self.down_slope_mm, 0.2, slope - 2e-3, lies),
            *misfit("start_mm", self.start_mm, 0.0, run - self.run_mm, lies),
            *misfit("run_mm", self.run_mm, 1e-3, run, lies),
            *misfit("depth_mm", self.depth_mm, 1e-3, deepest - 1e-3, stays),
        )

    def shape(self, blank: Blank) -> InSlope:
        third = _third_axis(self.end, self.long_point)
        return InSlope(
            end=self.end,
            long_point=self.long_point,
            angle_deg=self.mitre_angle_deg,
            down=(self.from_long_point_mm, self.from_long_point_mm + self.down_slope_mm),
            depth_mm=self.depth_mm,
            span=_span_in_part(third, self.start_mm, self.run_mm, blank),
        )

    def figures(self, blank: Blank) -> Figures:
        shape, wide, run = self.shape(blank), self.down_slope_mm, self.run_mm
        if shape.along == 2:
            wide, run = run, wide
        at = shape.point(blank, (sum(shape.down) / 2, -self.depth_mm), sum(shape.span) / 2)
        sizes = (Says.WIDE.dialled(wide), Says.DEEP.dialled(self.depth_mm), Says.LONG.ruled(run))
        return Figures(
            sizes=sizes,
            more=(Says.SQUARE_TO_MITRE.of(),),
            place=Says.DOWN_MITRE.of(self.end, Size(self.from_long_point_mm, Care.RULE)),
            at=at,
            seen=SECTION_OF_RUN[shape.along],
            struck=_struck_along(shape, self.start_mm, at, blank),
        )

    def turned_about(self, axis: int, blank: Blank) -> SplineGroove:
        third, start = _third_axis(self.end, self.long_point), self.start_mm
        if axis != third:
            start = blank.size[third] - start - self.run_mm
        return replace(
            self,
            end=_turned(self.end, axis),
            long_point=_turned(self.long_point, axis),
            start_mm=start,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class KeySlot(Cut):
    """One part's half of a saw slot across the outside of a mitred corner, for a key.

    Its floor is square to the mitre, `depth_mm` in from the outside corner. `start_mm` and
    `width_mm` lie along the sharp line, struck from the face edge where the long point lies on a
    wide face and from the face side where it lies on an edge.
    """

    kind: ClassVar[str] = "key slot"

    end: Face
    long_point: Face
    mitre_angle_deg: float
    start_mm: float
    width_mm: float
    depth_mm: float

    def half_length_mm(self) -> float:
        """The floor's length in this part, from the mitre to the outer face [mm]."""
        return self.depth_mm / math.tan(math.radians(self.mitre_angle_deg))

    def _outline(self) -> tuple[Point2, ...]:
        """Corners down the slope and out of it [mm]."""
        inward, over = -self.half_length_mm() - OVERSHOOT_MM, OVERSHOOT_MM
        # Out of the outer face the tool stays square to the mitre, well past the corner.
        return ((-over, inward), (self.depth_mm, inward), (self.depth_mm, over), (-over, over))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        shape = self.shape(blank)
        return (_slope_prism(blank, shape, self._outline(), shape.span),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return _area_in_wood(blank, self.shape(blank), self._outline()) * self.width_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        placed = _placement_misfits(self.end, self.long_point, self.mitre_angle_deg)
        if placed:
            return placed
        angle = math.radians(self.mitre_angle_deg)
        slope = blank.across(self.long_point) / math.cos(angle)
        run = blank.size[_third_axis(self.end, self.long_point)]
        deepest = min(slope, blank.length_mm * math.sin(angle)) - 1e-3
        return (
            *misfit("depth_mm", self.depth_mm, 0.2, deepest, "the slot leaves the inner corner"),
            *misfit("width_mm", self.width_mm, 0.2, run - 2e-3, "a slot leaves wood beside it"),
            *misfit(
                "start_mm", self.start_mm, 1e-3, run - self.width_mm - 1e-3, "the slot lies on it"
            ),
        )

    def shape(self, blank: Blank) -> InSlope:
        third = _third_axis(self.end, self.long_point)
        return InSlope(
            end=self.end,
            long_point=self.long_point,
            angle_deg=self.mitre_angle_deg,
            down=(0.0, self.depth_mm),
            depth_mm=None,
            span=_span_in_part(third, self.start_mm, self.width_mm, blank),
        )

    def figures(self, blank: Blank) -> Figures:
        shape, half = self.shape(blank), self.half_length_mm()
        at = shape.point(blank, (self.depth_mm, -half / 2), sum(shape.span) / 2)
        deep = Says.DEEP_FROM_CORNER.dialled(self.depth_mm)
        return Figures(
            sizes=(Says.WIDE.dialled(self.width_mm), deep),
            more=(Says.ACROSS_MITRE.of(),),
            place=Says.BARE.of(self.end),
            at=at,
            seen=SECTION_OF_RUN[shape.along],
            struck=_struck_along(shape, self.start_mm, at, blank),
        )

    def turned_about(self, axis: int, blank: Blank) -> KeySlot:
        third, start = _third_axis(self.end, self.long_point), self.start_mm
        if axis != third:
            start = blank.size[third] - start - self.width_mm
        return replace(
            self,
            end=_turned(self.end, axis),
            long_point=_turned(self.long_point, axis),
            start_mm=start,
        )


def _struck_along(shape: InSlope, start: float, at: Vector, blank: Blank) -> tuple[Struck, ...]:
    """Where a cut in a mitre begins along its sharp line; nothing where it begins at the datum."""
    axis = shape.along
    point = put(at, axis, shape.span[1] if axis == 2 else shape.span[0])
    return (Struck(axis=axis, point=point, seen=SECTION_OF_RUN[3 - axis]),) if start > 0.0 else ()


def _third_axis(end: Face, long_point: Face) -> int:
    return 3 - end.axis - long_point.axis


def _turned(face: Face, axis: int) -> Face:
    return face if axis == face.axis else face.opposite


def _placement_misfits(end: Face, long_point: Face, angle_deg: float) -> tuple[Misfit, ...]:
    placed = end in ENDS and long_point in WIDE_FACES + EDGES
    return (
        *misfit("end", 0.0 if placed else 1.0, 0.0, 0.0, "a mitre is cut on an end"),
        *misfit("mitre_angle_deg", angle_deg, 0.1, 60.0, "a saw tilts or turns this far"),
    )


def _span_in_part(axis: int, start: float, run: float, blank: Blank) -> tuple[float, float]:
    """A span struck from the face edge or the face side, in part coordinates [mm]."""
    if axis == 2:
        return blank.thickness_mm - start - run, blank.thickness_mm - start
    return start, start + run


def _past_open_faces(span: tuple[float, float], extent: float) -> tuple[float, float]:
    low, high = span
    return (
        low - OVERSHOOT_MM if low <= 1e-9 else low,
        high + OVERSHOOT_MM if high >= extent - 1e-9 else high,
    )


def _slope_prism(
    blank: Blank, shape: InSlope, outline: Sequence[Point2], span: tuple[float, float]
) -> Prism:
    """An outline down and out of the slope, swept along the sharp line over a span [mm]."""
    corner, down, out = shape.frame(blank)
    return Prism(
        origin=add(corner, scaled(_AXES[shape.along], span[0])),
        u_axis=down,
        v_axis=out,
        outline=tuple(OutlinePoint(u=u, v=v) for u, v in outline),
        sweep=scaled(_AXES[shape.along], span[1] - span[0]),
    )


def _area_in_wood(blank: Blank, shape: InSlope, outline: Sequence[Point2]) -> float:
    """The part of an outline that lies in the bare blank's section [mm2]: clipped by its sides."""
    corner, down, out = shape.frame(blank)
    axes = (shape.end.axis, shape.long_point.axis)
    points = [
        tuple(corner[axis] + u * down[axis] + v * out[axis] for axis in axes) for u, v in outline
    ]
    for index, axis in enumerate(axes):
        points = _clipped(points, index, 0.0, 1.0)
        points = _clipped(points, index, blank.size[axis], -1.0)
    total = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)
    )
    return abs(total) / 2


def _clipped(
    points: list[tuple[float, ...]], index: int, limit: float, sign: float
) -> list[tuple[float, ...]]:
    """A convex polygon cut off where one coordinate passes a limit."""
    kept: list[tuple[float, ...]] = []
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        inside_a, inside_b = sign * (a[index] - limit), sign * (b[index] - limit)
        if inside_a >= 0.0:
            kept.append(a)
        if inside_a * inside_b < 0.0:
            share = inside_a / (inside_a - inside_b)
            kept.append(tuple(p + share * (q - p) for p, q in zip(a, b, strict=True)))
    return kept
