"""Entities drawn on a page: curves as exact vectors, text as text, blocks through their parts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ezdxf import path as paths
from ezdxf.document import Drawing
from ezdxf.entities import (
    DXFEntity,
    DXFGraphic,
    Hatch,
    Insert,
    LWPolyline,
    MText,
    Solid,
    Text,
)
from ezdxf.entities import Line as LineEntity
from ezdxf.entities.dimension import Dimension
from ezdxf.math import Vec2
from ezdxf.path import Command, Path

from exporters.pdf.dashes import phase_for
from exporters.pdf.fonts import em_of_capital
from exporters.pdf.hatching import strokes_of
from exporters.pdf.lettering import Block, block_of_mtext, block_of_text
from exporters.pdf.pens import PAPER_INK, Ink, Pens
from furniture.parts.vectors import Point2

POINTS_PER_MM = 72.0 / 25.4
_ROUND, _BUTT = 1, 0
_BAR_MM = 0.18
"""Pen of a fraction's bar [mm]. Own rule: a fourteenth of the letter height, as its strokes are."""
_CURVES = frozenset({"LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE", "POLYLINE", "SPLINE"})
_NOT_DRAWN = frozenset({"VIEWPORT", "POINT", "ATTDEF"})


class Sketcher:
    """Draws entities of one document on the current page of a page writer.

    Args:
        canvas: the page writer, in points.
        document: the drawing that the entities belong to.
        scale: mm of model space per mm of paper.
        origin: the point of model space at the page's lower left corner [mm].
    """

    def __init__(self, canvas: Any, document: Drawing, scale: float, origin: Point2) -> None:
        self._canvas = canvas
        self._document = document
        self._pens = Pens(document, scale)
        self._factor = POINTS_PER_MM / scale
        self._origin = origin

    def draw(self, entities: Iterable[DXFEntity], parent: Ink = PAPER_INK) -> None:
        """Draw the entities in their order.

        Args:
            entities: of the document.
            parent: the ink of the block reference that holds them.

        Raises:
            ValueError: an entity of a kind that sheets do not use.
        """
        for entity in entities:
            kind = entity.dxftype()
            if kind in _NOT_DRAWN or not isinstance(entity, DXFGraphic):
                continue
            if not self._pens.is_printed(entity):
                continue
            ink = self._pens.ink_of(entity, parent)
            if isinstance(entity, Insert):
                self.draw(entity.virtual_entities(), ink)
                self.draw(entity.attribs, ink)
            elif isinstance(entity, Dimension):
                self.draw(entity.virtual_entities(), ink)
            elif isinstance(entity, MText):
                self._letters(block_of_mtext(entity, self._document), ink)
            elif isinstance(entity, Text):  # and the attributes of a block
                self._letters(block_of_text(entity, self._document), ink)
            elif isinstance(entity, Hatch):
                self._hatch(entity, ink)
            elif isinstance(entity, Solid):
                self._fill([paths.from_vertices(entity.wcs_vertices(), close=True)], ink)
            elif kind in _CURVES:
                self._curve(entity, ink)
            else:
                raise ValueError(f"a sheet has no place for an entity of kind {kind}")

    def _at(self, point: Any) -> tuple[float, float]:
        return (
            (float(point.x) - self._origin[0]) * self._factor,
            (float(point.y) - self._origin[1]) * self._factor,
        )

    def _set_pen(
        self, ink: Ink, width_mm: float | None = None, line_mm: float | None = None
    ) -> None:
        canvas = self._canvas
        width = ink.width_mm if width_mm is None else width_mm
        canvas.setLineWidth(width * POINTS_PER_MM)
        canvas.setStrokeGray(ink.grey)
        canvas.setLineJoin(_ROUND)
        canvas.setLineCap(_BUTT if ink.dashes_mm or width_mm is not None else _ROUND)
        if not ink.dashes_mm:
            canvas.setDash()
            return
        # a dot has no length in a line type; on paper it is as long as the pen is wide
        dashes = tuple(
            max(length, width) if index % 2 == 0 else length
            for index, length in enumerate(ink.dashes_mm)
        )
        phase = 0.0 if line_mm is None else phase_for(line_mm, dashes)
        canvas.setDash([length * POINTS_PER_MM for length in dashes], phase * POINTS_PER_MM)

    def _curve(self, entity: DXFGraphic, ink: Ink) -> None:
        per_mm = self._factor / POINTS_PER_MM
        width = line = None
        if isinstance(entity, LWPolyline):
            widths = [max(start, end) for _, _, start, end, _ in entity.get_points()]
            wide = max([float(entity.dxf.get("const_width", 0.0)), *widths])
            if wide > 0.0:  # a width in model units, such as a dot's or a thick tick's
                width = wide * per_mm
        elif isinstance(entity, LineEntity):
            line = float((entity.dxf.end - entity.dxf.start).magnitude) * per_mm
        self._set_pen(ink, width, line)
        self._canvas.drawPath(self._page_path([paths.make_path(entity)]), stroke=1, fill=0)

    def _fill(self, outlines: list[Path], ink: Ink) -> None:
        self._canvas.setFillGray(ink.grey)
        self._canvas.drawPath(self._page_path(outlines), stroke=0, fill=1, fillMode=0)

    def _hatch(self, hatch: Hatch, ink: Ink) -> None:
        if hatch.dxf.solid_fill:
            self._fill(list(paths.from_hatch(hatch)), ink)
            return
        self._set_pen(ink)
        strokes = self._canvas.beginPath()
        is_empty = True
        for start, end in strokes_of(hatch):
            strokes.moveTo(*self._at(start))
            strokes.lineTo(*self._at(end))
            is_empty = False
        if not is_empty:
            self._canvas.drawPath(strokes, stroke=1, fill=0)

    def _page_path(self, outlines: list[Path]) -> Any:
        drawn = self._canvas.beginPath()
        for outline in outlines:
            at = outline.start
            drawn.moveTo(*self._at(at))
            for command in outline.commands():
                if command.type is Command.LINE_TO:
                    drawn.lineTo(*self._at(command.end))
                elif command.type is Command.CURVE4_TO:
                    drawn.curveTo(
                        *self._at(command.ctrl1), *self._at(command.ctrl2), *self._at(command.end)
                    )
                elif command.type is Command.CURVE3_TO:
                    first = at + (command.ctrl - at) * (2.0 / 3.0)
                    second = command.end + (command.ctrl - command.end) * (2.0 / 3.0)
                    drawn.curveTo(*self._at(first), *self._at(second), *self._at(command.end))
                else:
                    drawn.moveTo(*self._at(command.end))
                at = command.end
            if outline.is_closed:
                drawn.close()
        return drawn

    def _letters(self, block: Block, ink: Ink) -> None:
        canvas = self._canvas
        across = Vec2(-block.along.y, block.along.x)
        canvas.setFillGray(ink.grey)
        for run in block.runs:
            place = block.origin + block.along * run.x + across * run.y
            x, y = self._at(place)
            letters = canvas.beginText()
            letters.setTextTransform(
                block.along.x * run.stretch,
                block.along.y * run.stretch,
                across.x,
                across.y,
                x,
                y,
            )
            letters.setFont(run.font, run.capital * em_of_capital(run.font) * self._factor)
            letters.textOut(run.text)
            canvas.drawText(letters)
        if block.rules:
            self._set_pen(Ink(width_mm=_BAR_MM, dashes_mm=(), grey=ink.grey, layer=ink.layer))
        for rule in block.rules:
            ends = [block.origin + block.along * x + across * y for x, y in (rule.start, rule.end)]
            canvas.line(*self._at(ends[0]), *self._at(ends[1]))
