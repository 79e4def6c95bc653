"""A drawing sheet as an SVG: the same strokes as its page of the PDF."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Any

from ezdxf.document import Drawing
from reportlab.pdfbase.pdfmetrics import stringWidth

from exporters.pdf.draw import POINTS_PER_MM, Sketcher
from exporters.pdf.page import PdfPage, page_of


def svg_of(document: Drawing, title: str) -> str:
    """The sheet as an SVG element, its lengths in points, its letters as text.

    Args:
        document: a drawing sheet.
        title: what it is called to those who do not see it.
    """
    return svg_of_page(page_of(document), title)


def svg_of_page(page: PdfPage, title: str, kind: str = "sheet") -> str:
    """A page as an SVG element, as `svg_of` makes it of a sheet.

    Args:
        page: a drawing and its paper.
        title: what it is called to those who do not see it.
        kind: of picture, by which the page's style knows it.
    """
    width, height = (side * POINTS_PER_MM for side in page.paper_mm)
    canvas = SvgCanvas(height)
    Sketcher(canvas, page.document, page.scale, page.model_origin).draw(page.document.modelspace())
    marks = "".join(canvas.marks())
    return (
        f'<svg class="{kind}" role="img" aria-label="{escape(title, quote=True)}"'
        f' viewBox="0 0 {number_in_svg(width)} {number_in_svg(height)}" xmlns="http://www.w3.org/2000/svg">'
        f"{marks}</svg>"
    )


def number_in_svg(value: float) -> str:
    """A length with as many places as are seen.

    Args:
        value: [pt].
    """
    return f"{value:.2f}".rstrip("0").rstrip(".")


class _SvgPath:
    """A path as the page writer takes it: moves, lines and curves."""

    def __init__(self, height: float) -> None:
        self._height = height
        self.steps: list[str] = []

    def _put(self, letter: str, *values: float) -> None:
        at = [
            number_in_svg(self._height - value if index % 2 else value)
            for index, value in enumerate(values)
        ]
        self.steps.append(letter + " ".join(at))

    def moveTo(self, x: float, y: float) -> None:  # noqa: N802 - the page writer's own name
        """Begin at a point."""
        self._put("M", x, y)

    def lineTo(self, x: float, y: float) -> None:  # noqa: N802
        """A straight line to a point."""
        self._put("L", x, y)

    def curveTo(self, *values: float) -> None:  # noqa: N802
        """A curve by two points of control to a point."""
        self._put("C", *values)

    def close(self) -> None:
        """Back to where it began."""
        self.steps.append("Z")


class _SvgText:
    """One run of letters as the page writer takes it."""

    def __init__(self) -> None:
        self.matrix: tuple[float, ...] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
        self.font, self.size, self.text = "", 1.0, ""

    def setTextTransform(self, *values: float) -> None:  # noqa: N802
        """Where its letters stand and how they are turned."""
        self.matrix = values

    def setFont(self, font: str, size: float) -> None:  # noqa: N802
        """Which letters, how large [pt]."""
        self.font, self.size = font, size

    def textOut(self, text: str) -> None:  # noqa: N802
        """The letters."""
        self.text += text


class SvgCanvas:
    """What the sketcher asks of a page writer, written as SVG; strokes of one pen go together.

    Args:
        height: of the page [pt]; SVG counts down from its top.
    """

    def __init__(self, height: float) -> None:
        self._height = height
        self._pen: dict[str, str] = {}
        self._fill = "#000"
        self._runs: list[tuple[str, list[str]]] = []
        self._other: list[str] = []

    def marks(self) -> Iterator[str]:
        """All elements in the order drawn, but for strokes of one pen, which are one path."""
        for pen, steps in self._runs:
            yield f'<path {pen} d="{"".join(steps)}"/>' if steps else pen

    def setLineWidth(self, width: float) -> None:  # noqa: N802
        """Of the pen [pt]."""
        self._pen["stroke-width"] = number_in_svg(width)

    def setStrokeGray(self, grey: float) -> None:  # noqa: N802
        """Of the pen, 0 black."""
        self._pen["stroke"] = _grey(grey)

    def setLineJoin(self, join: int) -> None:  # noqa: N802
        """Round, for all."""

    def setLineCap(self, cap: int) -> None:  # noqa: N802
        """Square off or round."""
        self._pen["stroke-linecap"] = "round" if cap else "butt"

    def setDash(self, dashes: Any = None, phase: float = 0.0) -> None:  # noqa: N802
        """Dashes and gaps [pt]; none is a whole line."""
        if dashes:
            self._pen["stroke-dasharray"] = " ".join(number_in_svg(each) for each in dashes)
            self._pen["stroke-dashoffset"] = number_in_svg(phase)
        else:
            self._pen.pop("stroke-dasharray", None)
            self._pen.pop("stroke-dashoffset", None)

    def setFillGray(self, grey: float) -> None:  # noqa: N802
        """Of areas and letters, 0 black."""
        self._fill = _grey(grey)

    def beginPath(self) -> _SvgPath:  # noqa: N802
        """An empty path."""
        return _SvgPath(self._height)

    def drawPath(  # noqa: N802
        self, path: _SvgPath, stroke: int = 1, fill: int = 0, fillMode: int = 0
    ) -> None:
        """A path as strokes or as an area."""
        if fill:
            self._put(f'fill="{self._fill}" fill-rule="evenodd" stroke="none"', path.steps)
        else:
            pen = " ".join(f'{key}="{value}"' for key, value in self._pen.items())
            self._put(f'fill="none" stroke-linejoin="round" {pen}', path.steps)

    def line(self, x0: float, y0: float, x1: float, y1: float) -> None:
        """A straight stroke."""
        path = self.beginPath()
        path.moveTo(x0, y0)
        path.lineTo(x1, y1)
        self.drawPath(path)

    def beginText(self) -> _SvgText:  # noqa: N802
        """An empty run of letters."""
        return _SvgText()

    def drawText(self, run: _SvgText) -> None:  # noqa: N802
        """A run of letters, as wide as the sheet's own font has them whatever font shows them."""
        if not run.text.strip():
            return
        a, b, c, d, x, y = run.matrix
        matrix = " ".join(number_in_svg(v) for v in (a, -b, -c, d, x, self._height - y))
        weight = ' font-weight="bold"' if "Bold" in run.font else ""
        wide = stringWidth(run.text, run.font, run.size)
        self._runs.append(
            (
                f'<text transform="matrix({matrix})" font-size="{number_in_svg(run.size)}"{weight}'
                f' fill="{self._fill}" textLength="{number_in_svg(wide)}"'
                f' lengthAdjust="spacingAndGlyphs">{escape(run.text)}</text>',
                [],
            )
        )

    def _put(self, pen: str, steps: list[str]) -> None:
        if self._runs and self._runs[-1][0] == pen:
            self._runs[-1][1].extend(steps)
        else:
            self._runs.append((pen, list(steps)))


def _grey(grey: float) -> str:
    return f"#{round(255 * grey):02x}" + f"{round(255 * grey):02x}" * 2
