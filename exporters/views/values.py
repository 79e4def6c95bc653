"""What a view is made of: plain shapes in the view's own plane [mm], classed as they are drawn."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.vectors import Point2, Vector, cross, dot, subtract


class EdgeClass(Enum):
    """How an edge is drawn."""

    VISIBLE = "visible"
    HIDDEN = "hidden"
    SMOOTH = "smooth"
    """Where a curved face runs out into a flat one: drawn thin, or left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight edge."""

    start: Point2
    end: Point2


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """A circular arc, counter-clockwise from `start_deg` to `end_deg`; 0 to 360 is a circle."""

    centre: Point2
    radius: float
    start_deg: float
    end_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EllipseArc:
    """An elliptic arc: `major` is the half axis as a vector, parameters counter-clockwise [rad]."""

    centre: Point2
    major: Point2
    ratio: float
    start: float
    end: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """A chain of points, for a curve that is none of the others."""

    points: tuple[Point2, ...]


Shape = Line | Arc | EllipseArc | Polyline


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnEdge:
    """A shape and how it is drawn."""

    shape: Shape
    edge_class: EdgeClass


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewFrame:
    """How space is looked at: what lies to the right and up on the paper, and which point is 0, 0.

    The eye looks against `right` x `up`.
    """

    right: Vector
    up: Vector
    origin: Vector = (0.0, 0.0, 0.0)

    @property
    def towards_eye(self) -> Vector:
        """The direction from the object to the eye."""
        return cross(self.right, self.up)

    def to_paper(self, point: Vector) -> Point2:
        """A point of space in the view's plane [mm]."""
        offset = subtract(point, self.origin)
        return (dot(offset, self.right), dot(offset, self.up))


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A projection at 1:1: edges in the plane of its frame, and the bounds of them all."""

    frame: ViewFrame
    edges: tuple[DrawnEdge, ...]
    low: Point2
    high: Point2


@dataclass(frozen=True, slots=True, kw_only=True)
class CutArea:
    """A closed area of cut wood in a section, outline first, then any holes.

    `of` names the instance that is cut; a section of one part leaves it empty.
    """

    outline: tuple[Point2, ...]
    holes: tuple[tuple[Point2, ...], ...] = ()
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionView:
    """A section: what is seen beyond the cutting plane, and the wood that the plane cuts."""

    view: View
    cut: tuple[CutArea, ...]
