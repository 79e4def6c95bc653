"""What a sheet is made of, in millimetres on paper with the origin at the lower left corner.

These are finished values: the writer only turns them into another format, and decides nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from exporters.sheets.paper import Box2, Orientation, Paper, Projection, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.views.values import Shape
from furniture.parts.vectors import Point2


class Anchor(Enum):
    """Which point of a text lies at its place: along the line, then up."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line of the sheet."""

    shape: Shape
    line_class: LineClass


class InSet(Enum):
    """What depends on a sheet's place in its set, and is filled in once that is known."""

    SHEET = "which sheet of how many"
    DRAWING_NUMBER = "the drawing number, which tells sheets that go on from one another apart"
    DATE = "the day of issue, the same for all sheets"
    REVISION = "the letter of the last change that this sheet saw"
    MARK = "that letter at what changed"
    PART_SHEETS = "the sheets that a part is drawn on"
    VIEW_SHEET = "the sheet that a section or a detail is drawn on"
    WORK = "the steps of the work that a part is made in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """One line of text; its place is on the base line. Turned is read from the right.

    `in_set` says what of it is filled in once the whole set is known, `of` the id of the part, or
    the letter of the section or detail, that this is about.
    """

    text: str
    at: Point2
    height: float
    anchor: Anchor = Anchor.LEFT
    is_turned: bool = False
    line_class: LineClass = LineClass.TEXT
    in_set: InSet | None = None
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A filled shape, such as an arrowhead: three or four corners."""

    corners: tuple[Point2, ...]
    line_class: LineClass


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatched:
    """An area of cut wood, outline first, then any holes."""

    outline: tuple[Point2, ...]
    holes: tuple[tuple[Point2, ...], ...] = ()
    angle_deg: float = 45.0
    spacing_mm: float = 2.5


Drawn = Stroke | Lettering | Filled


class FigureKind(Enum):
    """What a dimension measures."""

    LEVEL = "along the sheet"
    UPRIGHT = "up the sheet"
    RUNNING_LEVEL = "running, along the sheet"
    RUNNING_UPRIGHT = "running, up the sheet"

    @property
    def is_running(self) -> bool:
        """Whether it is one of a row that is measured from one datum."""
        return self in (FigureKind.RUNNING_LEVEL, FigureKind.RUNNING_UPRIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A dimension: what it measures, its text from the model, and how it is drawn.

    Args:
        kind: which way it measures.
        start: the first point, or the datum of a running figure.
        end: the second point, or the feature of a running figure.
        line_at: a point that the dimension line (or the end of a running figure's leader) runs to.
        text: from the model.
        text_at: the middle of the text.
        value_mm: the length in the model [mm].
        factor: paper length of one mm of the thing in this view.
        drawn: the lines, arrowheads and letters of it.
    """

    kind: FigureKind
    start: Point2
    end: Point2
    line_at: Point2
    text: str
    text_at: Point2
    value_mm: float
    factor: float
    drawn: tuple[Drawn, ...]


Item = Stroke | Lettering | Filled | Hatched | Figure


class Shows(Enum):
    """What a sheet of the whole shows; the value is how its title names it, in this order."""

    WHOLE = "general arrangement"
    EXPLODED = "exploded view"
    LISTS = "parts list"
    INSIDE = "sections and joints"
    POSITIONS = "positions"
    WORK = "work in order"
    GLUE_UPS = "glue-ups"
    FIGURES = "figures"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet: paper, scale and everything drawn on it; the texts that its letter stands at.

    `parts` are the ids of the parts that it defines, `shows` what it names of the whole, `letters`
    those of the sections and details of the whole that are drawn on it.
    """

    name: str
    title: str
    paper: Paper
    orientation: Orientation
    scale: Scale
    style: SheetStyle
    frame: Box2
    items: tuple[Item, ...]
    changed: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    shows: frozenset[Shows] = frozenset()
    letters: tuple[str, ...] = ()


class PartsOn(Enum):
    """Whether parts share sheets."""

    SHARED = "shared"
    THEIR_OWN = "own"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSettings:
    """What a whole set of sheets has in common.

    Args:
        paper: the paper or its name; none takes A4, or Letter for a piece in inches.
        projection: none takes first angle, or third for a piece in inches.
        dated: of issue; none leaves the field to be written in.
        revision: of this issue.
        drawing_number: of the whole set; none makes one from the piece's name.
        parts_on: whether parts share sheets, or each has its own.
    """

    paper: Paper | str | None = None
    projection: Projection | None = None
    dated: date | None = None
    revision: str = "-"
    drawing_number: str | None = None
    parts_on: PartsOn = PartsOn.SHARED
