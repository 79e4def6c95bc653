"""A moving part season by season: how much it changes, against the room that it has."""

from __future__ import annotations

import math
from typing import Any

from reportlab.lib.utils import simpleSplit
from reportlab.platypus import Flowable

from exporters.pdf.fonts import drawable
from exporters.report.style import (
    BLACK,
    FINE_PT,
    LIGHT,
    MIDDLE,
    MM,
    PALE,
    SMALL_SIZE,
    THIN_PT,
    bold,
    plain,
)
from exporters.report.unbroken import HELD, unbroken
from furniture.checks.finding import Show
from furniture.checks.of_piece.seasons import Hold, Movement
from furniture.rules import Rules
from furniture.rules.staying import CARD_PLAY
from furniture.rules.wood import HARMLESS_PRESS
from furniture.timber.climates import Climate

ROW_MM, BAR_MM, LINE_MM = 3.0, 2.0, 2.7
CHART_MM = 47.0
"""Where the chart begins, right of the words and figures of its rows [mm]."""


class MovementPicture(Flowable):  # type: ignore[misc]
    """Three rows (driest, as made, dampest) of bars from zero, and the line where room ends.

    Args:
        movement: the part.
        climate: the place.
        show: puts a length [mm] into the piece's unit.
        width_mm: the room on paper [mm].
        rules: the maker's.
    """

    def __init__(
        self, movement: Movement, climate: Climate, show: Show, width_mm: float, rules: Rules
    ) -> None:
        super().__init__()
        self._movement = movement
        self._limits = limits_of(movement, rules)
        self._climate = climate
        self._show = show
        self.width = width_mm * MM
        self._title = simpleSplit(title_of(movement), bold(), SMALL_SIZE, self.width - 1 * MM)
        words = unbroken(self._told(), HELD)
        lines = simpleSplit(words, plain(), SMALL_SIZE, self.width - 1 * MM)
        self.words = [line.replace(HELD, " ") for line in lines]
        head = (len(self._title) + len(self.words)) * LINE_MM + 0.8
        self._chart = (3 * ROW_MM + 4.8) * MM
        self.height = head * MM + self._chart
        low, high = _range(movement, self._limits)
        self._zero = CHART_MM * MM
        room = self.width - self._zero - 4.0 * MM
        self.points_per_mm = room / (high - low)
        self._zero += -low * self.points_per_mm

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """The size that it takes [pt]."""
        return (self.width, self.height)

    def draw(self) -> None:
        """Draw it: words, limits, bars."""
        canvas, movement = self.canv, self._movement
        canvas.saveState()
        y = self.height - SMALL_SIZE
        for font, grey, lines in ((bold(), BLACK, self._title), (plain(), MIDDLE, self.words)):
            canvas.setFont(font, SMALL_SIZE)
            canvas.setFillColor(grey)
            for line in lines:
                canvas.drawString(0, y, drawable(line))
                y -= LINE_MM * MM
        bottom = self._chart - 3 * ROW_MM * MM
        limits = self._limits
        for limit in limits:
            self._limit(canvas, limit, bottom)
        self._limit_words(canvas, limits, bottom)
        canvas.setLineWidth(FINE_PT)
        canvas.setStrokeColor(BLACK)
        canvas.line(self._zero, bottom, self._zero, bottom + 3 * ROW_MM * MM)
        rows = (
            (_season_words(self._climate.driest.name, self._climate.driest.moisture_pct),
             movement.shift.driest_mm),
            (f"as made, {movement.meeting.inner.made_at_pct:.1f} %", 0.0),
            (_season_words(self._climate.dampest.name, self._climate.dampest.moisture_pct),
             movement.shift.dampest_mm),
        )  # fmt: skip
        for index, (label, change) in enumerate(rows):
            self._row(canvas, bottom + (2 - index) * ROW_MM * MM, label, change)
        canvas.restoreState()

    def _row(self, canvas: Any, y: float, label: str, change: float) -> None:
        middle = y + ROW_MM * MM / 2
        base = middle - SMALL_SIZE * 0.36
        canvas.setFillColor(BLACK)
        canvas.setFont(plain(), SMALL_SIZE)
        canvas.drawString(0, base, drawable(label))
        canvas.drawRightString((CHART_MM - 3.0) * MM, base, signed(change, self._show))
        end = self._zero + change * self.points_per_mm
        canvas.setFillColor(LIGHT)
        canvas.setStrokeColor(BLACK)
        canvas.setLineWidth(FINE_PT)
        low, high = min(self._zero, end), max(self._zero, end)
        if high - low > 0.1:
            canvas.rect(low, middle - BAR_MM * MM / 2, high - low, BAR_MM * MM, stroke=1, fill=1)

    def _limit(self, canvas: Any, limit: float, bottom: float) -> None:
        """Where it jams or strains: a line, and the ground past it shaded."""
        x = self._zero + limit * self.points_per_mm
        top = bottom + 3 * ROW_MM * MM
        edge = (CHART_MM - 1.5) * MM if limit < 0 else self.width
        canvas.setFillColor(PALE)
        canvas.rect(min(x, edge), bottom, abs(edge - x), top - bottom, stroke=0, fill=1)
        canvas.setStrokeColor(BLACK)
        canvas.setLineWidth(THIN_PT)
        canvas.setDash([2.2, 1.6])
        canvas.line(x, bottom - 1.2 * MM, x, top)
        canvas.setDash()

    def _limit_words(self, canvas: Any, limits: tuple[float, ...], bottom: float) -> None:
        """The limit's figure below its line; one for both where glue strains either way."""
        figure = signed(limits[-1], self._show)
        if len(limits) > 1:
            figure = f"±{self._show(limits[-1])}"
        text = f"{_LIMIT_WORDS[self._movement.meeting.hold]} {figure}"
        canvas.setFillColor(BLACK)
        canvas.setFont(plain(), SMALL_SIZE)
        x = self._zero + sum(limits) / len(limits) * self.points_per_mm
        half = canvas.stringWidth(text, plain(), SMALL_SIZE) / 2
        x = min(max(x, half), self.width - half)
        canvas.drawCentredString(x, bottom - 4.2 * MM, text)

    def _told(self) -> str:
        movement, show = self._movement, self._show
        inner = movement.meeting.inner
        size = f"{show(inner.size_mm)} of {inner.species.name}"
        if movement.wanted_mm is not None:
            room = movement.meeting.room_mm
            widest = room - min(0.0, movement.shift.driest_mm, movement.shift.dampest_mm)
            return (
                f"{size}, made with {show(room)} of gap in all where {show(movement.wanted_mm)} is "
                f"wanted; the gap opens to {show(widest)}"
            )
        if movement.meeting.hold is Hold.GLUED:
            return f"{size}, held fast by glue: how far the two would part ways"
        return f"{size}; its dado is made {show(movement.meeting.room_mm)} wider"


_LIMIT_WORDS = {Hold.LOOSE: "jams at", Hold.GLUED: "strains past", Hold.HOUSED: "presses at"}


def title_of(movement: Movement) -> str:
    """The part, what holds it and which of its sizes is meant."""
    inner, outer = movement.meeting.inner, movement.meeting.outer
    word = {Hold.LOOSE: "in", Hold.GLUED: "glued to", Hold.HOUSED: "housed in"}
    return f"{inner.part} {word[movement.meeting.hold]} {outer.part}: {inner.across.value}"


def limits_of(movement: Movement, rules: Rules) -> tuple[float, ...]:
    """The changes at which it jams, strains or presses [mm]; glue strains both ways.

    Args:
        movement: the part.
        rules: the maker's.
    """
    if movement.meeting.hold is Hold.GLUED:
        return (-movement.limit_mm, movement.limit_mm)
    if movement.meeting.hold is Hold.LOOSE:
        return (max(0.0, movement.limit_mm - rules[CARD_PLAY]),)
    return (movement.limit_mm + rules[HARMLESS_PRESS],)


def signed(change_mm: float, show: Show) -> str:
    """A change with its sign; a true minus for a loss."""
    if abs(change_mm) < 1e-9:
        return "0"
    return f"{'+' if change_mm > 0.0 else '−'}{show(abs(change_mm))}"


def _range(movement: Movement, limits: tuple[float, ...]) -> tuple[float, float]:
    places = (0.0, movement.shift.driest_mm, movement.shift.dampest_mm, *limits)
    low, high = min(places), max(places)
    return (low, max(high, low + 0.1)) if math.isfinite(low) else (0.0, 1.0)


def _season_words(name: str, moisture_pct: float) -> str:
    return f"{name} season, {moisture_pct:.1f} %"
