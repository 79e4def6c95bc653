"""Sheets written as DXF: model space at true size, paper space printing it at the stated scale."""

from __future__ import annotations

import logging
import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from enum import Enum
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf.enums import TextEntityAlignment

from exporters.sheets.dxf_text import as_written
from exporters.sheets.geometry import hatch_lines, shape_points
from exporters.sheets.lettering import FONT_FILE
from exporters.sheets.paper import page_size
from exporters.sheets.pens import LineClass, Pattern, SheetStyle
from exporters.sheets.values import (
    Anchor,
    Figure,
    FigureKind,
    Filled,
    Hatched,
    Item,
    Lettering,
    Sheet,
    Stroke,
)
from exporters.views.values import Arc, EllipseArc, Line, Polyline, Shape
from furniture.parts.vectors import Point2

LAYOUT_NAME = "sheet"
TEXT_STYLE = "sheet text"
DIMENSION_STYLE = "sheet dimension"
_DIMENSION_TYPE = {
    FigureKind.LEVEL: 0,
    FigureKind.UPRIGHT: 0,
    FigureKind.RUNNING_LEVEL: 6 + 64,
    FigureKind.RUNNING_UPRIGHT: 6,
}
_OWN_TEXT_PLACE, _OWN_BLOCK = 128, 32
_HEADER: dict[str, Any] = {
    "$INSUNITS": 4,  # millimetres
    "$MEASUREMENT": 1,
    "$LUNITS": 2,
    "$LTSCALE": 1.0,
    "$PSLTSCALE": 0,  # dashes are defined at model size below
    "$LWDISPLAY": 1,
}
_HATCH_NAME, _HATCH_SPACING_MM = "ANSI31", 3.175
"""Readers that ignore the lines of a pattern look for its name: slanting lines 1/8 in apart."""
_NOT_IN_R12 = frozenset({"$INSUNITS", "$MEASUREMENT", "$LWDISPLAY"})


class DxfVersion(Enum):
    """A flavour of the format."""

    R2018 = "R2018"
    R2000 = "R2000"
    R12 = "R12"
    """The oldest that programs still read: no line weights; figures, hatching and odd curves as
    plain lines and texts, so that every reader shows the same."""


def document_of(sheet: Sheet, version: DxfVersion = DxfVersion.R2018) -> Any:
    """The sheet as an ezdxf document.

    Args:
        sheet: what to write.
        version: the flavour.
    """
    with _fixed_metadata():
        document = _drawn(sheet.items, sheet.style, sheet.scale.reduction, version)
        _make_layout(document, sheet)
        return document


def plain_document(
    items: Sequence[Item], style: SheetStyle, version: DxfVersion = DxfVersion.R2018
) -> Any:
    """Items at true size in model space, on no paper.

    Args:
        items: in millimetres.
        style: pens and heights.
        version: the flavour.
    """
    with _fixed_metadata():
        return _drawn(items, style, 1.0, version)


def _new_document(version: DxfVersion) -> Any:
    """An empty document; the library's warning that R12 names no unit is known and kept quiet."""
    logger = logging.getLogger("ezdxf")
    before = logger.level
    if version is DxfVersion.R12:
        logger.setLevel(logging.ERROR)
    try:
        return ezdxf.new(version.value, setup=False)
    finally:
        logger.setLevel(before)


def _drawn(items: Sequence[Item], style: SheetStyle, size: float, version: DxfVersion) -> Any:
    document = _new_document(version)
    for name, value in _HEADER.items():
        if version is not DxfVersion.R12 or name not in _NOT_IN_R12:
            document.header[name] = value
    _make_tables(document, style, size)
    writer = _Writer(document, style, size)
    for item in items:
        writer.write(item)
    return document


def save(document: Any, path: Path) -> Path:
    """The file, written with fixed metadata so that equal sheets give equal bytes."""
    _order_classes(document)
    with _fixed_metadata():
        document.saveas(path)
    return path


def _order_classes(document: Any) -> None:
    """The class section in the order of names: the library fills it from a set, by chance."""
    document.classes.add_required_classes(document.dxfversion)
    ordered = sorted(document.classes.classes.items())
    document.classes.classes.clear()
    document.classes.classes.update(ordered)


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _make_tables(document: Any, style: SheetStyle, size: float) -> None:
    for pattern in Pattern:
        lengths = [length * size for length in style.pattern_lengths(pattern)]
        if lengths:
            total = sum(abs(length) for length in lengths)
            document.linetypes.add(pattern.value, pattern=[total, *lengths])
    for line_class in LineClass:
        pen = style.pen(line_class)
        document.layers.add(
            line_class.value,
            color=7,
            linetype=pen.pattern.value,
            lineweight=round(pen.width_mm * 100),
        )
    document.styles.add(TEXT_STYLE, font=FONT_FILE)
    _make_dimension_style(document, style, size)


def _make_dimension_style(document: Any, style: SheetStyle, size: float) -> None:
    made = document.dimstyles.add(DIMENSION_STYLE)
    made.dxf.dimtxsty = TEXT_STYLE
    made.dxf.dimtxt = style.text_height_mm * size
    made.dxf.dimasz = style.arrow_length_mm * size
    made.dxf.dimexo = style.extension_gap_mm * size
    made.dxf.dimexe = style.extension_past_mm * size
    made.dxf.dimgap = style.text_gap_mm * size
    made.dxf.dimtad = 1
    made.dxf.dimtih = 0
    made.dxf.dimtoh = 0
    made.dxf.dimdec = 2
    made.dxf.dimzin = 8
    made.dxf.dimdsep = ord(".")
    made.dxf.dimlfac = 1.0
    made.dxf.dimscale = 1.0
    made.dxf.dimclrd = made.dxf.dimclre = made.dxf.dimclrt = 256  # as the layer
    weight = round(style.narrow_mm * 100)
    made.dxf.dimlwd = made.dxf.dimlwe = weight
    for name in ("dimtxt", "dimasz", "dimexo", "dimexe", "dimgap"):  # for readers without styles
        document.header[f"${name.upper()}"] = made.dxf.get(name)


def _make_layout(document: Any, sheet: Sheet) -> None:
    page = page_size(sheet.paper, sheet.orientation)
    first = document.layouts.names_in_taborder()[1]
    document.layouts.rename(first, LAYOUT_NAME)
    layout = document.layout(LAYOUT_NAME)
    layout.page_setup(
        size=(page.width_mm, page.height_mm),
        margins=(0, 0, 0, 0),
        units="mm",
        offset=(0, 0),
        scale=(1, 1),
        name=f"{sheet.paper.title} {sheet.orientation.value}",
    )
    size = sheet.scale.reduction
    viewport = layout.add_viewport(
        center=(page.width_mm / 2, page.height_mm / 2),
        size=(page.width_mm, page.height_mm),
        view_center_point=(page.width_mm * size / 2, page.height_mm * size / 2),
        view_height=page.height_mm * size,
    )
    viewport.dxf.layer = LineClass.FRAME.value
    document.set_modelspace_vport(
        height=page.height_mm * size * 1.05,
        center=(page.width_mm * size / 2, page.height_mm * size / 2),
    )


class _Writer:
    """Turns items into entities, paper lengths multiplied up to model size."""

    def __init__(self, document: Any, style: SheetStyle, size: float) -> None:
        self._document = document
        self._style = style
        self._size = size
        self._space = document.modelspace()
        self._is_old = document.acad_release == DxfVersion.R12.value

    def write(self, item: Item) -> None:
        """Add one item to model space."""
        if isinstance(item, Figure):
            self._figure(item)
        elif isinstance(item, Hatched):
            self._hatch(item)
        else:
            self._drawn(item, self._space)

    def _at(self, point: Point2) -> Point2:
        return (point[0] * self._size, point[1] * self._size)

    def _drawn(self, item: Stroke | Lettering | Filled, space: Any) -> None:
        if isinstance(item, Stroke):
            self._shape(item.shape, {"layer": item.line_class.value}, space)
        elif isinstance(item, Lettering):
            self._text(item, space)
        else:
            corners = [self._at(corner) for corner in item.corners]
            space.add_solid(
                corners if len(corners) == 3 else [*corners[:2], corners[3], corners[2]],
                dxfattribs={"layer": item.line_class.value},
            )

    def _shape(self, shape: Shape, attributes: dict[str, Any], space: Any) -> None:
        if self._is_old and isinstance(shape, (EllipseArc, Polyline)):
            points = [self._at(point) for point in shape_points(shape)]
            space.add_polyline2d(points, dxfattribs=attributes)
        elif isinstance(shape, Line):
            space.add_line(self._at(shape.start), self._at(shape.end), dxfattribs=attributes)
        elif isinstance(shape, Arc):
            centre, radius = self._at(shape.centre), shape.radius * self._size
            if shape.end_deg - shape.start_deg >= 360.0 - 1e-6:
                space.add_circle(centre, radius, dxfattribs=attributes)
            else:
                space.add_arc(centre, radius, shape.start_deg, shape.end_deg, dxfattribs=attributes)
        elif isinstance(shape, EllipseArc):
            space.add_ellipse(
                self._at(shape.centre),
                self._at(shape.major),
                shape.ratio,
                shape.start,
                shape.end,
                dxfattribs=attributes,
            )
        elif isinstance(shape, Polyline):
            space.add_lwpolyline([self._at(p) for p in shape.points], dxfattribs=attributes)

    def _text(self, item: Lettering, space: Any) -> None:
        entity = space.add_text(
            as_written(item.text),
            height=item.height * self._size,
            rotation=90.0 if item.is_turned else 0.0,
            dxfattribs={"layer": item.line_class.value, "style": TEXT_STYLE},
        )
        align = {
            Anchor.LEFT: TextEntityAlignment.LEFT,
            Anchor.CENTRE: TextEntityAlignment.CENTER,
            Anchor.RIGHT: TextEntityAlignment.RIGHT,
        }[item.anchor]
        entity.set_placement(self._at(item.at), align=align)

    def _hatch(self, item: Hatched) -> None:
        if self._is_old:
            for start, end in hatch_lines(item):
                self._space.add_line(
                    self._at(start), self._at(end), dxfattribs={"layer": LineClass.HATCH.value}
                )
            return
        hatch = self._space.add_hatch(dxfattribs={"layer": LineClass.HATCH.value})
        step = item.spacing_mm * self._size
        angle = math.radians(item.angle_deg)
        offset = (-math.sin(angle) * step, math.cos(angle) * step)
        hatch.set_pattern_fill(
            _HATCH_NAME, definition=[[item.angle_deg, (0.0, 0.0), offset, []]], scale=1.0
        )
        hatch.dxf.pattern_angle = item.angle_deg - 45.0
        hatch.dxf.pattern_scale = step / _HATCH_SPACING_MM
        hatch.paths.add_polyline_path([self._at(p) for p in item.outline], is_closed=True)
        for hole in item.holes:
            hatch.paths.add_polyline_path([self._at(p) for p in hole], is_closed=True, flags=16)

    def _figure(self, item: Figure) -> None:
        # Some readers leave ordinate dimensions out, block and all: running figures are drawn as
        # plain lines and texts, and the DIMENSION beside them, whose block is bare, says what was
        # measured.
        is_plain = self._is_old or item.kind.is_running
        if is_plain:
            for each in item.drawn:
                self._drawn(each, self._space)
        if self._is_old:  # readers of old files measure and draw dimensions each in their own way
            return
        kind = _DIMENSION_TYPE[item.kind] | _OWN_TEXT_PLACE | _OWN_BLOCK
        attributes: dict[str, Any] = {
            "layer": LineClass.DIMENSION.value,
            "dimstyle": DIMENSION_STYLE,
            "dimtype": kind,
            "text": item.text,
            "text_midpoint": (*self._at(item.text_at), 0.0),
            "actual_measurement": item.value_mm,
        }
        start, end, line_at = (
            (*self._at(point), 0.0) for point in (item.start, item.end, item.line_at)
        )
        if item.kind in (FigureKind.LEVEL, FigureKind.UPRIGHT):
            attributes |= {"defpoint": line_at, "defpoint2": start, "defpoint3": end}
            attributes["angle"] = 0.0 if item.kind is FigureKind.LEVEL else 90.0
        else:
            attributes |= {"defpoint": start, "defpoint2": end, "defpoint3": line_at}
        entity = self._space.new_entity("DIMENSION", attributes)
        correction = 1.0 / (item.factor * self._size)
        if abs(correction - 1.0) > 1e-9:
            override = entity.override()
            override.update({"dimlfac": correction})
            override.commit()
        block = self._document.blocks.new_anonymous_block(type_char="D")
        entity.dxf.geometry = block.name
        for each in () if is_plain else item.drawn:
            self._drawn(each, block)
        for point in (start, end):
            block.add_point(point, dxfattribs={"layer": "Defpoints"})
