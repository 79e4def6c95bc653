"""Sheets of paper, their frames, and the scales that drawings are printed at."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


@dataclass(frozen=True, slots=True)
class Size:
    """Width and height [mm]."""

    width_mm: float
    height_mm: float


class Paper(Enum):
    """A named paper; the value is how it lies when its long side is level.

    **Source:** A4 and A3: ISO 216. Letter and Tabloid: ASME Y14.1 sizes A and B (8.5 x 11 in,
    11 x 17 in).
    """

    A4 = Size(297.0, 210.0)
    A3 = Size(420.0, 297.0)
    LETTER = Size(279.4, 215.9)
    TABLOID = Size(431.8, 279.4)

    @property
    def title(self) -> str:
        """The paper's name as people write it."""
        return {"LETTER": "Letter", "TABLOID": "Tabloid"}.get(self.name, self.name)


def paper_named(name: str) -> Paper:
    """The paper of that name, such as `A4` or `Letter`.

    Raises:
        ValueError: there is none.
    """
    for paper in Paper:
        if paper.name == name.upper():
            return paper
    raise ValueError(f"'{name}' is not one of {', '.join(paper.title for paper in Paper)}")


class Orientation(Enum):
    """Which way the paper lies."""

    LANDSCAPE = "landscape"
    PORTRAIT = "portrait"


class Projection(Enum):
    """Where views stand beside the front view."""

    FIRST_ANGLE = "first angle"
    THIRD_ANGLE = "third angle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box2:
    """An upright rectangle on paper [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top [mm]."""
        return self.top - self.bottom

    @property
    def centre(self) -> tuple[float, float]:
        """The middle [mm]."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def grown(self, by: float) -> Box2:
        """The rectangle with every side moved out [mm]."""
        return Box2(
            left=self.left - by, bottom=self.bottom - by, right=self.right + by, top=self.top + by
        )

    def moved(self, dx: float, dy: float) -> Box2:
        """The rectangle shifted [mm]."""
        return Box2(
            left=self.left + dx,
            bottom=self.bottom + dy,
            right=self.right + dx,
            top=self.top + dy,
        )

    def overlaps(self, other: Box2) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right - 1e-6
            and other.left < self.right - 1e-6
            and self.bottom < other.top - 1e-6
            and other.bottom < self.top - 1e-6
        )

    def holds(self, other: Box2) -> bool:
        """Whether the other lies wholly inside."""
        return (
            self.left <= other.left + 1e-6
            and self.bottom <= other.bottom + 1e-6
            and self.right >= other.right - 1e-6
            and self.top >= other.top - 1e-6
        )


def box_round(boxes: list[Box2]) -> Box2:
    """The rectangle round all of these.

    Raises:
        ValueError: there are none.
    """
    return Box2(
        left=min(box.left for box in boxes),
        bottom=min(box.bottom for box in boxes),
        right=max(box.right for box in boxes),
        top=max(box.top for box in boxes),
    )


FILING_MARGIN_MM = 20.0
MARGIN_MM = 10.0
"""Left border for filing and the other three [mm]. **Source:** ISO 5457:1999 (read second-hand)."""


def page_size(paper: Paper, orientation: Orientation) -> Size:
    """Width and height of the paper as it lies [mm]."""
    size = paper.value
    if orientation is Orientation.PORTRAIT:
        return Size(size.height_mm, size.width_mm)
    return size


def frame_of(paper: Paper, orientation: Orientation) -> Box2:
    """The frame line on the paper [mm]: everything that is drawn lies inside it."""
    size = page_size(paper, orientation)
    return Box2(
        left=FILING_MARGIN_MM,
        bottom=MARGIN_MM,
        right=size.width_mm - MARGIN_MM,
        top=size.height_mm - MARGIN_MM,
    )


@dataclass(frozen=True, slots=True, order=True)
class Scale:
    """A drawing scale: so many mm of the thing to one mm on paper."""

    reduction: float

    @property
    def text(self) -> str:
        """The scale as the title block says it."""
        if self.reduction >= 1:
            return f"1:{self.reduction:g}"
        return f"{1 / self.reduction:g}:1"

    @property
    def factor(self) -> float:
        """Paper length of one mm of the thing [mm]."""
        return 1.0 / self.reduction


ISO_SCALES = tuple(Scale(r) for r in (0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0))
"""**Source:** ISO 5455 (2:1 and 5:1 read; the reductions from memory)."""

INCH_SCALES = tuple(Scale(r) for r in (0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0))
"""Full, half, quarter, eighth size ... as rules are divided. Common practice, no source."""


def scales_for(is_inch: bool) -> tuple[Scale, ...]:
    """The standard scales of a piece shown in inches or in millimetres, largest first."""
    return INCH_SCALES if is_inch else ISO_SCALES
