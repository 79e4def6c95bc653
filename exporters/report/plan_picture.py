"""The picture of stability from above, drawn true to scale on a page."""

from __future__ import annotations

import math
from enum import Enum
from typing import Any

from reportlab.platypus import Flowable

from exporters.pdf.fonts import drawable
from exporters.report.plan import Plan, PlanEdge, foot_of
from exporters.report.style import (
    BLACK,
    BOLD_PT,
    FINE_PT,
    LIGHT,
    MIDDLE,
    MM,
    SMALL_SIZE,
    THIN_PT,
    bold,
    plain,
)
from furniture.checks.finding import Show
from furniture.parts.vectors import Point2

SCALES = (1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0)
"""How many mm of the piece one mm of paper may show."""
MARGIN_MM = 7.0
"""Paper round the plan for the edges' letters [mm]."""


class PlanPicture(Flowable):  # type: ignore[misc]
    """The support polygon, contacts, tiers and centres of mass, with the margin to each edge.

    Args:
        plan: what it shows.
        show: puts a length [mm] into the piece's unit.
        size_mm: the room on paper, width and height [mm].
    """

    def __init__(self, plan: Plan, show: Show, size_mm: tuple[float, float]) -> None:
        super().__init__()
        self._plan = plan
        self._show = show
        (x0, y0), (x1, y1) = plan.box
        room = (size_mm[0] - 2 * MARGIN_MM, size_mm[1] - 2 * MARGIN_MM)
        needed = max((x1 - x0) / room[0], (y1 - y0) / room[1])
        self.scale = next((each for each in SCALES if each >= needed), math.ceil(needed))
        self._origin = (x0, y0)
        self.width = size_mm[0] * MM
        self.height = ((y1 - y0) / self.scale + 2 * MARGIN_MM) * MM
        self._aside = (size_mm[0] - 2 * MARGIN_MM - (x1 - x0) / self.scale) / 2.0

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """The size that it takes [pt]."""
        return (self.width, self.height)

    def draw(self) -> None:
        """Draw it, from the back to the front."""
        canvas, plan = self.canv, self._plan
        canvas.saveState()
        canvas.setLineJoin(1)
        for low, high in plan.tiers:
            self._box(canvas, low, high)
        self._polygon(canvas, plan.corners)
        for each in plan.edges:
            self._margin(canvas, plan.centre, each)
        if plan.loaded is not None:
            self._way(canvas, plan.loaded)
        for point in plan.contacts:
            self._dot(canvas, point)
        for each in plan.edges:
            self._letter(canvas, each)
            self._figure(canvas, plan.centre, each)
        draw_centre_mark(canvas, *self.place(plan.centre))
        if plan.loaded is not None:
            draw_loaded_mark(canvas, *self.place(plan.loaded))
        canvas.restoreState()

    def place(self, point: Point2) -> Point2:
        """Where a point of the piece lies in the picture [pt]."""
        return (
            ((point[0] - self._origin[0]) / self.scale + MARGIN_MM + self._aside) * MM,
            ((point[1] - self._origin[1]) / self.scale + MARGIN_MM) * MM,
        )

    def _box(self, canvas: Any, low: Point2, high: Point2) -> None:
        (x0, y0), (x1, y1) = self.place(low), self.place(high)
        canvas.setLineWidth(FINE_PT)
        canvas.setStrokeColor(LIGHT)
        canvas.rect(x0, y0, x1 - x0, y1 - y0, stroke=1, fill=0)

    def _polygon(self, canvas: Any, corners: tuple[Point2, ...]) -> None:
        path = canvas.beginPath()
        for index, corner in enumerate(corners):
            x, y = self.place(corner)
            if index:
                path.lineTo(x, y)
            else:
                path.moveTo(x, y)
        path.close()
        canvas.setLineWidth(BOLD_PT)
        canvas.setStrokeColor(BLACK)
        canvas.drawPath(path, stroke=1, fill=0)

    def _dot(self, canvas: Any, point: Point2) -> None:
        x, y = self.place(point)
        canvas.setFillColor(BLACK)
        canvas.circle(x, y, 0.55 * MM, stroke=0, fill=1)

    def _margin(self, canvas: Any, centre: Point2, each: PlanEdge) -> None:
        """The shortest way from the empty piece's centre to an edge."""
        x0, y0 = self.place(centre)
        x1, y1 = self.place(foot_of(centre, each.edge))
        canvas.setLineWidth(THIN_PT)
        canvas.setStrokeColor(MIDDLE)
        canvas.line(x0, y0, x1, y1)

    def _figure(self, canvas: Any, centre: Point2, each: PlanEdge) -> None:
        """The length of that way, on it where it hides no contact."""
        text = self._show(each.empty.inside_mm)
        width = canvas.stringWidth(text, plain(), SMALL_SIZE)
        x, y = self._free_place(centre, each, width)
        canvas.setFillColor("white")
        canvas.rect(
            x - width / 2 - 1, y - SMALL_SIZE * 0.5, width + 2, SMALL_SIZE, stroke=0, fill=1
        )
        canvas.setFillColor(BLACK)
        canvas.setFont(plain(), SMALL_SIZE)
        canvas.drawCentredString(x, y - SMALL_SIZE * 0.36, drawable(text))

    def _free_place(self, centre: Point2, each: PlanEdge, width: float) -> Point2:
        """Where a text of that width [pt] lies clear of contacts, or else where it does least harm.

        It may stand beside its way where that is short.
        """
        x0, y0 = self.place(centre)
        x1, y1 = self.place(foot_of(centre, each.edge))
        is_steep = abs(y1 - y0) > abs(x1 - x0)
        aside = (width / 2 + 2.0, 0.0) if is_steep else (0.0, SMALL_SIZE * 0.9)
        places = [
            (x0 + (x1 - x0) * share + aside[0] * side, y0 + (y1 - y0) * share + aside[1] * side)
            for side in (0.0, 1.0, -1.0)
            for share in (0.6, 0.5, 0.7, 0.4)
        ]
        taken = [self.place(point) for point in (*self._plan.contacts, centre)]
        if self._plan.loaded is not None:
            taken.append(self.place(self._plan.loaded))
        half = (width / 2 + 3.0, SMALL_SIZE / 2 + 2.5)
        return next(
            (
                place
                for place in places
                if not any(
                    abs(x - place[0]) < half[0] and abs(y - place[1]) < half[1] for x, y in taken
                )
            ),
            places[0],
        )

    def _letter(self, canvas: Any, each: PlanEdge) -> None:
        """The edge's letter, outside its middle; the worst one's is ringed."""
        (ax, ay), (bx, by) = each.edge.start_mm, each.edge.end_mm
        x, y = self.place(((ax + bx) / 2, (ay + by) / 2))
        x += each.edge.outward[0] * 4.2 * MM
        y += each.edge.outward[1] * 4.2 * MM
        canvas.setFillColor("white")
        is_worst = each is self._plan.worst
        canvas.setStrokeColor(BLACK)
        canvas.setLineWidth(THIN_PT)
        canvas.circle(x, y, 2.3 * MM, stroke=int(is_worst), fill=1)
        canvas.setFillColor(BLACK)
        canvas.setFont(bold(), 8.0)
        canvas.drawCentredString(x, y - 2.9, each.letter)

    def _way(self, canvas: Any, point: Point2) -> None:
        """The loaded centre's way to the worst edge, in dashes."""
        x, y = self.place(point)
        x1, y1 = self.place(foot_of(point, self._plan.worst.edge))
        canvas.setStrokeColor(BLACK)
        canvas.setLineWidth(THIN_PT)
        canvas.setDash([2.2, 1.6])
        canvas.line(x, y, x1, y1)
        canvas.setDash()


def draw_centre_mark(canvas: Any, x: float, y: float, radius: float = 1.7 * MM) -> None:
    """The sign of the empty piece's centre of mass: a quartered circle.

    Args:
        canvas: the page writer.
        x: to the right [pt].
        y: up [pt].
        radius: of the circle [pt].
    """
    canvas.setStrokeColor(BLACK)
    canvas.setLineWidth(THIN_PT)
    canvas.setFillColor("white")
    canvas.circle(x, y, radius, stroke=1, fill=1)
    canvas.setFillColor(BLACK)
    for start in (0, 180):
        canvas.wedge(x - radius, y - radius, x + radius, y + radius, start, 90, stroke=0, fill=1)


def draw_loaded_mark(canvas: Any, x: float, y: float, size: float = 3.2 * MM) -> None:
    """The sign of the loaded piece's centre of mass: a triangle.

    Args:
        canvas: the page writer.
        x: to the right [pt].
        y: up [pt].
        size: from its middle to a corner [pt].
    """
    path = canvas.beginPath()
    for index in range(3):
        turn = math.radians(90 + 120 * index)
        corner = (x + size * math.cos(turn), y + size * math.sin(turn))
        if index:
            path.lineTo(*corner)
        else:
            path.moveTo(*corner)
    path.close()
    canvas.setLineWidth(THIN_PT)
    canvas.setStrokeColor(BLACK)
    canvas.drawPath(path, stroke=1, fill=0)


class Sign(Enum):
    """A sign of the picture."""

    CENTRE = "centre of mass, empty"
    LOADED = "centre of mass, loaded at its worst"
    CONTACT = "stands here"

    @property
    def looks(self) -> str:
        """How it is drawn, in words."""
        return _LOOKS[self]


_LOOKS = {
    Sign.CENTRE: "Quartered circle",
    Sign.LOADED: "Triangle",
    Sign.CONTACT: "Dot",
}


def signs_of(plan: Plan) -> dict[Sign, str]:
    """The signs that its picture has, and what each says.

    Args:
        plan: what it shows.
    """
    words = {Sign.CENTRE: f"{Sign.CENTRE.value}, with its distance to each edge"}
    if plan.loaded is not None:
        edge = f"{plan.worst.letter} {plan.worst.edge.name}"
        words[Sign.LOADED] = f"{Sign.LOADED.value} for edge {edge}, the ringed one"
    words[Sign.CONTACT] = Sign.CONTACT.value
    return words


def seen_from_above(plan: Plan, scale: str = "") -> str:
    """What its lines are, in two sentences.

    Args:
        plan: what it shows.
        scale: of the picture, where it is printed at one.
    """
    levels = "; light lines: tiers and lid" if plan.tiers else ""
    return (
        f"Standing, from above, front at the bottom{scale}. Heavy line: what it stands on{levels}."
    )


class Mark(Flowable):  # type: ignore[misc]
    """A sign of the picture, for its legend.

    Args:
        sign: which one.
    """

    def __init__(self, sign: Sign) -> None:
        super().__init__()
        self._sign = sign

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """The size that it takes [pt]."""
        return (5 * MM, 3.6 * MM)

    def draw(self) -> None:
        """Draw it."""
        x, y = 2.2 * MM, 1.7 * MM
        if self._sign is Sign.CENTRE:
            draw_centre_mark(self.canv, x, y, 1.4 * MM)
        elif self._sign is Sign.LOADED:
            draw_loaded_mark(self.canv, x, y - 1, 1.6 * MM)
        else:
            self.canv.setFillColor(BLACK)
            self.canv.circle(x, y, 0.6 * MM, stroke=0, fill=1)
