"""What every cut can tell: the wood it takes away, its defining numbers, and where it does not fit.

A cut is an immutable value in the part frame. Every reader (solid, sheet, table, piece.json) works
from these values alone.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from enum import Enum
from typing import ClassVar, TypeVar

from furniture.errors import Problem
from furniture.parts.blank import Blank
from furniture.parts.cuts.figures import Figures
from furniture.parts.cuts.left import Left
from furniture.parts.cuts.shapes import Shape
from furniture.parts.faces import Arris, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import Vector
from furniture.units import RangeDraft, Shown

AShape = TypeVar("AShape", bound=Shape)
RecordValue = str | float | None
AXIS_NAMES = ("x", "y", "z")
_AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
QUARTER_TURN_BULGE = 0.41421356237309503  # tan(90 deg / 4)


class NoTurnedForm(ValueError):  # noqa: N818 - says what is missing
    """A cut that cannot be written after half a turn of its part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut(ABC):
    """One operation on a blank. Lengths in mm, angles in degrees, part frame."""

    kind: ClassVar[str]
    is_placed_by_centre: ClassVar[bool] = False
    """Whether its fields say where its centre lies, so that a row of it can be stepped."""
    is_bored: ClassVar[bool] = False
    """Whether it is a round hole, so that a screw or a peg can stand in it."""

    @property
    def name(self) -> str:
        """What a maker calls it."""
        return self.kind

    @abstractmethod
    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        """The shapes that this cut takes away from `blank`, running past open faces."""

    @abstractmethod
    def removed_alone_mm3(self, blank: Blank) -> float:
        """The wood that this cut takes from the bare blank [mm3], in closed form."""

    @abstractmethod
    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        """Every number of this cut that the blank cannot take; empty when it fits."""

    @abstractmethod
    def shape(self, blank: Blank) -> Shape:
        """What it looks like once it is made: what sections, proofs and checks ask of it."""

    @abstractmethod
    def figures(self, blank: Blank) -> Figures:
        """Where it is struck from and how large it is: what must be said so that it can be made."""

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The wood between this cut and the outside of the bare blank, place by place."""
        return self.shape(blank).leaves(blank)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """Every face of the bare blank that this cut breaks."""
        return self.shape(blank).opens(blank)

    def turned_about(self, axis: int, blank: Blank) -> Cut:
        """The same cut after the part is turned half a turn about part axis 0, 1 or 2.

        Raises:
            NoTurnedForm: it cannot be written after such a turn.
        """
        raise NoTurnedForm(f"a {self.kind} has no form turned about {AXIS_NAMES[axis]} of {blank}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """A number of a cut outside what the blank allows [mm or degrees]."""

    field: str
    given: float
    low: float
    high: float
    why: str


def shapes_of(cuts: Iterable[Cut], blank: Blank, wanted: type[AShape]) -> tuple[AShape, ...]:
    """The cuts that have one shape, as that shape, in their order.

    Args:
        cuts: of one part.
        blank: its wood.
        wanted: the shape asked for.
    """
    shapes = (cut.shape(blank) for cut in cuts)
    return tuple(shape for shape in shapes if isinstance(shape, wanted))


def misfit(field: str, given: float, low: float, high: float, why: str) -> tuple[Misfit, ...]:
    """A misfit when `given` is outside [low, high] or not a number, else nothing."""
    slack = 1e-9
    if low - slack <= given <= high + slack:
        return ()
    return (Misfit(field=field, given=given, low=low, high=high, why=why),)


def problems_of(cut: Cut, blank: Blank, where: str, shown: Shown) -> tuple[Problem, ...]:
    """The cut's misfits as design problems, `where` naming the part.

    Args:
        cut: the cut to try.
        blank: the wood it is made in.
        where: the part's name, put before the number's name.
        shown: the piece's unit.
    """
    return tuple(
        _angle_problem(miss, f"{where}: {cut.name}, {miss.field.removesuffix('_deg')}")
        if miss.field.endswith("_deg")
        else RangeDraft(
            parameter=f"{where}: {cut.name}, {miss.field.removesuffix('_mm')}",
            given_mm=miss.given,
            low_mm=miss.low,
            high_mm=miss.high,
            why=miss.why,
        ).told(shown)
        for miss in cut.misfits(blank)
    )


def _angle_problem(miss: Misfit, parameter: str) -> Problem:
    """An angle that does not fit, its limits rounded to the allowed side [deg]."""
    low, high = math.ceil(miss.low * 100 - 1e-7) / 100, math.floor(miss.high * 100 + 1e-7) / 100
    nearest = high if miss.given > miss.high else low
    return Problem(
        parameter=parameter,
        given=f"{miss.given:g} degrees",
        allowed=f"{low:g} to {high:g} degrees",
        why=miss.why,
        remedy=f"make it {nearest:g} degrees",
    )


def record_of(cut: Cut) -> dict[str, RecordValue]:
    """The cut as plain data: its kind and every defining number, units in the keys."""
    record: dict[str, RecordValue] = {"kind": cut.kind}
    for field in fields(cut):
        value = getattr(cut, field.name)
        if isinstance(value, Enum):
            record[field.name] = str(value.value)
        elif isinstance(value, Arris):
            record[field.name] = value.name
        elif value is None:
            record[field.name] = None
        else:
            record[field.name] = round(float(value), 9) + 0.0
    return record


def pocket(
    blank: Blank,
    face: Face,
    spans: Mapping[int, tuple[float, float]],
    depth: float,
    radii: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0),
) -> Prism:
    """The prism that sinks a rectangle into a face, past the face and past any edge it reaches.

    Args:
        blank: the wood.
        face: the face it is sunk from.
        spans: for both axes that lie in the face, from and to [mm].
        depth: below the face [mm].
        radii: of the corners (low u, low v), (high u, low v), (high u, high v), (low u, high v),
            u before v in axis order [mm].
    """
    u, v = (axis for axis in range(3) if axis != face.axis)
    if face.axis == 1:  # x cross z points to -y: take z first to stay counter-clockwise
        u, v = v, u
        radii = (radii[0], radii[3], radii[2], radii[1])
    (u0, u1), (v0, v1) = (_run_out(spans[axis], blank.size[axis]) for axis in (u, v))
    origin = [0.0, 0.0, 0.0]
    origin[face.axis] = blank.size[face.axis] - depth if face.is_far else -OVERSHOOT_MM
    sweep = [0.0, 0.0, 0.0]
    sweep[face.axis] = depth + OVERSHOOT_MM
    return Prism(
        origin=(origin[0], origin[1], origin[2]),
        u_axis=_AXES[u],
        v_axis=_AXES[v],
        outline=rounded_rectangle(u0, u1, v0, v1, radii),
        sweep=(sweep[0], sweep[1], sweep[2]),
    )


def _run_out(span: tuple[float, float], extent: float) -> tuple[float, float]:
    low, high = span
    return (
        low - OVERSHOOT_MM if low <= 1e-9 else low,
        high + OVERSHOOT_MM if high >= extent - 1e-9 else high,
    )


def rounded_rectangle(
    u0: float, u1: float, v0: float, v1: float, radii: tuple[float, float, float, float]
) -> tuple[OutlinePoint, ...]:
    """A counter-clockwise rectangle, corners rounded by `radii` in the order they are met [mm]."""
    corners = ((u0, v0), (u1, v0), (u1, v1), (u0, v1))
    along = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
    points: list[OutlinePoint] = []
    for index, ((u, v), radius) in enumerate(zip(corners, radii, strict=True)):
        leaving, coming = along[index], along[index - 1]
        if radius <= 0.0:
            points.append(OutlinePoint(u=u, v=v))
            continue
        points.append(
            OutlinePoint(
                u=u - coming[0] * radius, v=v - coming[1] * radius, bulge=QUARTER_TURN_BULGE
            )
        )
        points.append(OutlinePoint(u=u + leaving[0] * radius, v=v + leaving[1] * radius))
    return _without_doubles(points)


def _without_doubles(points: list[OutlinePoint]) -> tuple[OutlinePoint, ...]:
    """Drop a straight side of no length (two full-radius corners meet there)."""
    kept: list[OutlinePoint] = []
    for index, point in enumerate(points):
        after = points[(index + 1) % len(points)]
        if point.bulge == 0.0 and abs(point.u - after.u) + abs(point.v - after.v) < 1e-9:
            continue
        kept.append(point)
    return tuple(kept)
