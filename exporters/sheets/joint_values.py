"""What a joint in section shows, as values: figures between points of the piece frame [mm]."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.joints.joint import Metal
from furniture.parts.vectors import Vector
from furniture.units import Dialled, Shown, dialled, figure

BEYOND_MM = 9.0
"""How much of the wood beside a joint is shown with it. Own rule."""


class SpanKind(Enum):
    """What a figure of a joint in section tells."""

    WIDTH = "width of the cut"
    DEPTH = "depth of the cut"
    LEFT = "wood left behind the cut"
    WALL = "thickness of the part that is cut"
    INCOMING = "thickness of the part let in"
    BORED = "depth of a hole"
    BORED_AT = "from the datum to the middle of a hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A distance across a joint, between two points.

    It is printed as everywhere else on the sheets, so what is left behind a cut may differ by a
    dial's last digit from the difference of two printed figures.
    """

    kind: SpanKind
    start: Vector
    end: Vector
    value_mm: float

    def printed(self, shown: Shown) -> Dialled:
        """Its figure."""
        return dialled(self.value_mm, shown)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """A gap that the joint leaves on purpose, and its middle.

    Where glue holds it, `to_hold_mm` is from what to what play it may be cut.
    """

    at: Vector
    value_mm: float
    to_hold_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeSeen:
    """Two parts that meet on a slope: the cut's name, its angle [deg], a point of the slope."""

    noun: str
    angle_deg: float
    at: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Proud:
    """How far the part that is cut stands higher than the one in it, as cut, and where."""

    at: Vector
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """What is bought and stands in the joint, in words, and a point of it."""

    at: Vector
    name: str
    size_mm: tuple[float, float] | None
    """Diameter and length; None where its name says enough."""

    def printed(self, shown: Shown) -> str:
        """Such as `dowel dia 6 x 30`."""
        if self.size_mm is None:
            return self.name
        wide, long = (figure(mm, shown) for mm in self.size_mm)
        return f"{self.name} dia {wide} x {long}"


@dataclass(frozen=True, slots=True, kw_only=True)
class JointProfile:
    """One joint cut square across.

    Args:
        into: instance that is cut.
        incoming: instance that is let in.
        axis: of the piece that the cutting plane stands square to.
        run: from where to where along that axis the joint looks the same [mm].
        spans: figures between two points.
        clearances: gaps.
        slopes: where the two meet on a slope.
        prouds: what stands higher as cut.
        inside: what is bought and stands in it.
        corners: points that a picture of it must hold.
        metal: what is bought and cut across with it.
    """

    into: str
    incoming: str
    axis: int
    run: tuple[float, float]
    spans: tuple[Span, ...] = ()
    clearances: tuple[Clearance, ...] = ()
    slopes: tuple[SlopeSeen, ...] = ()
    prouds: tuple[Proud, ...] = ()
    inside: tuple[Inside, ...] = ()
    corners: tuple[Vector, ...] = ()
    metal: tuple[Metal, ...] = ()
