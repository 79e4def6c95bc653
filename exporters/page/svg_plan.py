"""The picture of stability from above as an SVG: drawn by what draws it on paper."""

from __future__ import annotations

import math
from html import escape
from typing import Any

from reportlab.lib.colors import toColor
from reportlab.pdfbase.pdfmetrics import stringWidth

from exporters.page.svg import SvgCanvas, number_in_svg
from exporters.report.plan import Plan
from exporters.report.plan_picture import PlanPicture
from furniture.checks.finding import Show

_WIDE_MM = 110.0
_ROUND = 0.5523
"""How far the control points of a quarter circle stand off, in radii. Source: closed form."""


def svg_of_plan(plan: Plan, show: Show, title: str) -> str:
    """The picture as an SVG element, its lengths in points.

    Args:
        plan: what it shows.
        show: puts a length [mm] into the piece's unit.
        title: what it says to those who do not see it.
    """
    picture = PlanPicture(plan, show, (_WIDE_MM, _WIDE_MM))
    canvas = _PictureCanvas(picture.height)
    picture.canv = canvas
    picture.draw()
    width, height = (number_in_svg(side) for side in (picture.width, picture.height))
    return (
        f'<svg class="standing" role="img" aria-label="{escape(title, quote=True)}"'
        f' viewBox="0 0 {width} {height}" font-family="DejaVu Sans, Verdana, sans-serif"'
        f' xmlns="http://www.w3.org/2000/svg">{"".join(canvas.marks())}</svg>'
    )


class _PictureCanvas(SvgCanvas):
    """What a picture of a page asks of its canvas beyond what a sheet does."""

    def __init__(self, height: float) -> None:
        super().__init__(height)
        self._font, self._size = "", 1.0

    def saveState(self) -> None:  # noqa: N802 - the page writer's own names
        """The picture is alone."""

    def restoreState(self) -> None:  # noqa: N802
        """The picture is alone."""

    def setStrokeColor(self, colour: Any) -> None:  # noqa: N802
        """Of the pen."""
        self._pen["stroke"] = _hex(colour)

    def setFillColor(self, colour: Any) -> None:  # noqa: N802
        """Of areas and letters."""
        self._fill = _hex(colour)

    def setFont(self, font: str, size: float) -> None:  # noqa: N802
        """Which letters, how large [pt]."""
        self._font, self._size = font, size

    def stringWidth(self, text: str, font: str, size: float) -> float:  # noqa: N802
        """Of a text [pt]."""
        return float(stringWidth(text, font, size))

    def drawCentredString(self, x: float, y: float, text: str) -> None:  # noqa: N802
        """A text about a middle."""
        run = self.beginText()
        run.setFont(self._font, self._size)
        left = x - self.stringWidth(text, self._font, self._size) / 2
        run.setTextTransform(1.0, 0.0, 0.0, 1.0, left, y)
        run.textOut(text)
        self.drawText(run)

    def rect(
        self, x: float, y: float, width: float, height: float, stroke: int = 1, fill: int = 0
    ) -> None:
        """An upright rectangle."""
        path = self.beginPath()
        path.moveTo(x, y)
        path.lineTo(x + width, y)
        path.lineTo(x + width, y + height)
        path.lineTo(x, y + height)
        path.close()
        self._area(path, stroke, fill)

    def circle(self, x: float, y: float, radius: float, stroke: int = 1, fill: int = 0) -> None:
        """A whole circle."""
        path = self.beginPath()
        path.moveTo(x + radius, y)
        for quarter in range(4):
            self._quarter(path, (x, y), radius, 90.0 * quarter)
        path.close()
        self._area(path, stroke, fill)

    def wedge(
        self,
        x0: float,
        y0: float,
        x1: float,
        y1: float,
        start: float,
        extent: float,
        stroke: int = 1,
        fill: int = 0,
    ) -> None:
        """A quarter of the circle in a square; `extent` is 90 degrees."""
        x, y, radius = (x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / 2
        turn = math.radians(start)
        path = self.beginPath()
        path.moveTo(x, y)
        path.lineTo(x + radius * math.cos(turn), y + radius * math.sin(turn))
        self._quarter(path, (x, y), radius, start)
        path.close()
        self._area(path, stroke, fill)

    def _quarter(self, path: Any, middle: tuple[float, float], radius: float, start: float) -> None:
        """On from a point of a circle by a quarter of it."""
        cos, sin = math.cos(math.radians(start)), math.sin(math.radians(start))
        points = [(1.0, _ROUND), (_ROUND, 1.0), (0.0, 1.0)]
        flat = [
            middle[axis] + radius * (u * (cos, sin)[axis] + v * (-sin, cos)[axis])
            for u, v in points
            for axis in (0, 1)
        ]
        path.curveTo(*flat)

    def _area(self, path: Any, stroke: int, fill: int) -> None:
        """Filled first, then drawn round."""
        if fill:
            self.drawPath(path, stroke=0, fill=1)
        if stroke:
            self.drawPath(path)


def _hex(colour: Any) -> str:
    return "#" + str(toColor(colour).hexval())[2:]
