"""What is read off a part sheet, as values: figures, callouts, views; and its texts and leaders."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

MM_PER_INCH = 25.4


@dataclass
class ReadFigure:
    """A dimension as printed: which way, what it says and what it measures [mm], where it ends."""

    is_level: bool
    is_running: bool
    text: str
    said_mm: float
    measured_mm: float
    start: tuple[float, float]
    end: tuple[float, float]

    def low_mm(self, size_mm: float, wide_mm: float = 0.0, is_back: bool = False) -> float:
        """Where what it strikes begins, from the low end of a size; it may be drawn backwards [mm].

        A figure that runs from the high end goes to the wall of what is `wide_mm` that is nearer
        there.
        """
        way = self.end[0] - self.start[0] if self.is_level else self.end[1] - self.start[1]
        return size_mm - self.said_mm - wide_mm if (way < 0) != is_back else self.said_mm


@dataclass
class ReadCallout:
    """Words in our terms, the letter they stand for, and where their leader or letters point."""

    words: str
    targets: list[tuple[float, float]]


@dataclass
class ReadView:
    """A view: its heading, its outline's box (model mm), the figures, circles and arcs in it, and
    the face that it says is alike."""

    heading: str
    box: tuple[float, float, float, float]
    figures: list[ReadFigure] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    arcs: list[tuple[float, float, float]] = field(default_factory=list)
    alike: str = ""

    def running(self, is_level: bool) -> list[ReadFigure]:
        """Its running figures one way, without the datum's nought."""
        return [
            f for f in self.figures if f.is_running and f.is_level == is_level and f.text != "0"
        ]

    def span(self, is_level: bool) -> float | None:
        """What its longest plain dimension one way says [mm]; one in brackets defines nothing."""
        said = [
            figure.said_mm
            for figure in self.figures
            if not figure.is_running and figure.is_level == is_level and figure.text[0] != "("
        ]
        return max(said, default=None)


@dataclass
class ReadSheet:
    """Everything a part sheet says; `later` are cuts that are made once the part is glued in."""

    unit: str
    texts: list[str]
    views: dict[str, ReadView]
    callouts: list[ReadCallout]
    later: list[ReadCallout] = field(default_factory=list)
    is_mirrored: bool = False
    is_third_angle: bool = False

    def drawn_for(self, face: str) -> str:
        """The face whose view shows this one: itself, or the one that it is said to be like."""
        if face in self.views:
            return face
        return next((name for name, view in self.views.items() if face == view.alike), face)


@dataclass
class ReadText:
    """A line of text as written."""

    words: str
    x: float
    y: float
    height: float
    layer: str
    is_turned: bool
    halign: int


def figure_mm(text: str, unit: str) -> float:
    """The length that a printed figure stands for [mm]; a decimal in brackets is the sharper."""
    plain = re.sub(r" [+-](?= |$|\))", "", text.strip())
    if plain.startswith("(") and plain.endswith(")"):
        plain = plain[1:-1]
    bracket = re.search(r"\(([\d.]+)\)", plain)
    factor = MM_PER_INCH if unit == "in" else 1.0
    if bracket:
        return float(bracket[1]) * factor
    return float(sum((Fraction(word) for word in plain.split()), Fraction(0))) * factor


def text_of(entity: Any) -> ReadText:
    """A TEXT entity as read."""
    at = entity.dxf.insert if entity.dxf.halign == 0 else entity.dxf.align_point
    return ReadText(
        words=entity.dxf.text,
        x=at.x,
        y=at.y,
        height=entity.dxf.height,
        layer=entity.dxf.layer,
        is_turned=abs(entity.dxf.rotation - 90) < 1,
        halign=entity.dxf.halign,
    )


Line = tuple[tuple[float, float], tuple[float, float]]


def leaders_of(space: Any) -> list[Line]:
    """Both strokes of every leader, by their ends."""
    return [
        ((line.dxf.start.x, line.dxf.start.y), (line.dxf.end.x, line.dxf.end.y))
        for line in space.query("LINE")
        if line.dxf.layer == "leader"
    ]
