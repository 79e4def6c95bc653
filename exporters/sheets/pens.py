"""Lines, pens and letters of a sheet, from one dataclass: after ISO 128, or its inch twin."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class LineClass(Enum):
    """What a line or a text on a sheet is; the value is the name of its layer."""

    VISIBLE = "visible"
    HIDDEN = "hidden"
    PICTURE = "picture"
    """What is seen in a picture: a wide pen would fill it."""
    FINE_PICTURE = "fine picture"
    """The same in one so small that its lines would run together in the narrow pen too."""
    SMOOTH = "smooth"
    CENTRE = "centre"
    MOVED = "moved"
    """What moves, at the end of its way."""
    DIMENSION = "dimension"
    LEADER = "leader"
    HATCH = "hatch"
    CUTTING_PLANE = "cutting plane"
    DETAIL = "detail"
    BREAK = "break"
    GRAIN = "grain"
    FRAME = "frame"
    TABLE = "table"
    TITLE_BLOCK = "title block"
    TEXT = "text"
    SYMBOL = "symbol"
    NAME = "face name"
    PART = "part"
    KERF = "kerf"
    ZONE = "zone"
    PANEL = "panel"


class Pattern(Enum):
    """How a line is broken; the value is the name of its line type."""

    CONTINUOUS = "Continuous"
    DASHED = "dashed"
    LONG_DASH_DOT = "long dash dot"
    LONG_DASH_DOUBLE_DOT = "long dash double dot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """A pen width [mm on paper] and a line pattern."""

    width_mm: float
    pattern: Pattern = Pattern.CONTINUOUS


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStyle:
    """Every pen, height and gap of a sheet [mm on paper].

    **Source:** line types and the 2 : 1 ratio of wide to narrow after ISO 128-2 (types 01.2, 01.1,
    02.1, 04.1, 04.2, 05.1), widths from its series, lettering heights after ISO 3098-1 (2.5, 3.5,
    5), all from memory but the ratio and widths. Fine lines of small pictures: the next narrower of
    the series. The inch style follows ASME Y14.2 (0.6 mm thick,
    0.3 mm thin, letters 0.1 in and up), from memory. Gaps: own rule.
    """

    name: str
    wide_mm: float
    narrow_mm: float
    fine_mm: float
    text_height_mm: float
    heading_height_mm: float
    title_height_mm: float
    dash_pens: float = 12.0
    gap_pens: float = 3.0
    long_dash_pens: float = 24.0
    dot_pens: float = 0.5
    arrow_length_mm: float = 2.5
    arrow_width_mm: float = 0.8
    extension_gap_mm: float = 1.0
    extension_past_mm: float = 1.5
    text_gap_mm: float = 0.8
    first_lane_mm: float = 7.0
    lane_mm: float = 7.0
    text_clearance_mm: float = 1.0
    view_gap_mm: float = 10.0
    checklist_gap_mm: float = 0.8

    def pen(self, line_class: LineClass) -> Pen:
        """The pen that draws a class of line."""
        wide, narrow = self.wide_mm, self.narrow_mm
        if line_class in (LineClass.VISIBLE, LineClass.FRAME):
            return Pen(width_mm=wide)
        if line_class is LineClass.FINE_PICTURE:
            return Pen(width_mm=self.fine_mm)
        if line_class is LineClass.HIDDEN:
            return Pen(width_mm=narrow, pattern=Pattern.DASHED)
        if line_class is LineClass.CENTRE:
            return Pen(width_mm=narrow, pattern=Pattern.LONG_DASH_DOT)
        if line_class is LineClass.MOVED:
            return Pen(width_mm=narrow, pattern=Pattern.LONG_DASH_DOUBLE_DOT)
        if line_class is LineClass.CUTTING_PLANE:
            return Pen(width_mm=wide, pattern=Pattern.LONG_DASH_DOT)
        return Pen(width_mm=narrow)

    def pattern_lengths(self, pattern: Pattern) -> tuple[float, ...]:
        """Dashes as positive and gaps as negative lengths [mm on paper]; empty when unbroken."""
        d = self.narrow_mm
        if pattern is Pattern.DASHED:
            return (self.dash_pens * d, -self.gap_pens * d)
        if pattern is Pattern.LONG_DASH_DOT:
            gap = -self.gap_pens * d
            return (self.long_dash_pens * d, gap, self.dot_pens * d, gap)
        if pattern is Pattern.LONG_DASH_DOUBLE_DOT:
            gap, dot = -self.gap_pens * d, self.dot_pens * d
            return (self.long_dash_pens * d, gap, dot, gap, dot, gap)
        return ()


ISO_STYLE = SheetStyle(
    name="shop drawing mm",
    wide_mm=0.5,
    narrow_mm=0.25,
    fine_mm=0.18,
    text_height_mm=2.5,
    heading_height_mm=3.5,
    title_height_mm=5.0,
    dash_pens=8.0,
)
INCH_STYLE = SheetStyle(
    name="shop drawing inch",
    wide_mm=0.6,
    narrow_mm=0.3,
    fine_mm=0.2,
    text_height_mm=2.54,
    heading_height_mm=3.5,
    title_height_mm=5.08,
    dash_pens=8.0,
)
