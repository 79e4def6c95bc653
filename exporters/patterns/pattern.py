"""A full-size pattern: lines at 1:1 with what has to be said about them, before any paper."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from exporters.sheets.blocks import CLASS_OF
from exporters.sheets.figures import stroke
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Stroke
from exporters.views.values import EdgeClass, View
from furniture.parts.vectors import Point2


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """Words about a point of a pattern [mm]; `points` are all the places that they are true of.

    A page that shows several of the points says the words once, with `shared` before them.
    """

    text: str
    points: tuple[Point2, ...]
    shared: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedLine:
    """A line of a pattern with a name, told on every page that shows a stretch of it [mm]."""

    text: str
    start: Point2
    end: Point2


class Printed(Enum):
    """On how many pages a pattern is worth printing."""

    ON_FEW_PAGES = "on few pages or not at all"
    ON_ALL_IT_TAKES = "on as many pages as it takes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One pattern at true size, in a plane of its own.

    Args:
        slug: for its file name.
        shows: what it is of, in words.
        more: what its heading says after that.
        core: the rectangle round the wood [mm].
        strokes: its lines.
        notes: what is said about points of it.
        named: what is said about lines of it.
        printed: whether it is printed however many pages it takes.
    """

    slug: str
    shows: str
    more: str = ""
    core: Box2
    strokes: tuple[Stroke, ...]
    notes: tuple[Note, ...]
    named: tuple[NamedLine, ...]
    printed: Printed = Printed.ON_FEW_PAGES

    @property
    def heading(self) -> str:
        """What stands at the pattern."""
        return f"{self.shows}{self.more}"


def strokes_of(view: View) -> tuple[Stroke, ...]:
    """The edges of a view that can be seen, at true size."""
    return tuple(
        Stroke(shape=edge.shape, line_class=CLASS_OF[edge.edge_class])
        for edge in view.edges
        if edge.edge_class is EdgeClass.VISIBLE
    )


def outline(core: Box2) -> tuple[Stroke, ...]:
    """The four sides of a rectangle."""
    corners = [
        (core.left, core.bottom),
        (core.right, core.bottom),
        (core.right, core.top),
        (core.left, core.top),
    ]
    after = [*corners[1:], corners[0]]
    return tuple(stroke(a, b, LineClass.VISIBLE) for a, b in zip(corners, after, strict=True))
