"""The frame and the title block: the fields of ISO 7200 and what a shop needs beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from exporters.sheets.figures import stroke
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2, Projection
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import InSet, Item, Lettering, Stroke
from exporters.views.values import Arc
from furniture.parts.vectors import Point2

TITLE_WIDTH_MM = 180.0
"""**Source:** ISO 7200 (from memory): 180 mm, flush in the lower right corner of the frame."""
_PAD_MM = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleFields:
    """What the title block says.

    Args:
        title: of the sheet.
        piece: that it belongs to.
        drawing_number: stays when sheets are added before or behind.
        document_type: what kind of sheet it is.
        items: numbers in the parts list of what it shows.
        material: of what it shows.
        tolerance: of all that states none.
        finish: that the piece gets.
    """

    title: str
    piece: str
    drawing_number: str
    scale: str
    sheet: str
    date: str
    revision: str
    units: str
    projection: Projection
    paper: str
    document_type: str = ""
    items: str = ""
    material: str = ""
    tolerance: str = ""
    finish: str = ""


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    value: str
    share: float
    is_heading: bool = False
    in_set: InSet | None = None


def _rows(fields: TitleFields) -> list[list[_Cell]]:
    """What has something to say; a row of which nothing has is left out, and so is its height."""
    number = _Cell("drawing number", fields.drawing_number, 0.28, in_set=InSet.DRAWING_NUMBER)
    told = [
        _Cell("items", fields.items, 0.12),
        _Cell("material", fields.material, 0.3),
        _Cell("not stated: within", fields.tolerance, 0.26),
        _Cell("finish", fields.finish, 0.32),
    ]
    rows = [
        [
            _Cell("title", fields.title, 0.52, True),
            _Cell("document type", fields.document_type, 0.2),
            number,
        ],
        [cell for cell in told if cell.value],
        [
            _Cell("date", fields.date, 0.18, in_set=InSet.DATE),
            _Cell("rev.", fields.revision, 0.1, in_set=InSet.REVISION),
            _Cell("scale", fields.scale, 0.16),
            _Cell("units", fields.units, 0.1),
            _Cell("projection", "", 0.27),
            _Cell("sheet", fields.sheet, 0.19, in_set=InSet.SHEET),
        ],
    ]
    return [_filling(row) for row in rows if row]


def _filling(row: Sequence[_Cell]) -> list[_Cell]:
    """The cells of a row as wide as the whole block, each by its share."""
    total = sum(cell.share for cell in row)
    return [replace(cell, share=cell.share / total) for cell in row]


def title_block(
    fields: TitleFields, right: float, bottom: float, style: SheetStyle
) -> tuple[list[Item], Box2]:
    """The block's items and the rectangle it takes, its lower right corner given [mm].

    Args:
        fields: what it says.
        right: x of its right side [mm].
        bottom: y of its lower side [mm].
        style: pens and heights.
    """
    items: list[Item] = []
    left = right - TITLE_WIDTH_MM
    y = bottom
    for row in reversed(_rows(fields)):
        laid = [_cell_lines(cell, style) for cell in row]
        high = max(height for _, height in laid)
        x = left
        for index, (cell, (lines, _)) in enumerate(zip(row, laid, strict=True)):
            wide = cell.share * TITLE_WIDTH_MM
            items += _cell_items(cell, lines, x, y + high, style)
            if index:
                items.append(stroke((x, y), (x, y + high), LineClass.TITLE_BLOCK))
            if cell.label == "projection":
                middle = (x + wide - 12.0, y + high / 2)
                items += projection_symbol(fields.projection, middle, style)
                text = fields.projection.value
                items.append(_text(text, x + _PAD_MM, y + high - 7.0, style))
            x += wide
        y += high
        items.append(stroke((left, y), (right, y), LineClass.TITLE_BLOCK))
    box = Box2(left=left, bottom=bottom, right=right, top=y)
    items[-1] = stroke((left, y), (right, y), LineClass.FRAME)
    items.append(stroke((left, bottom), (left, y), LineClass.FRAME))
    return items, box


_GOES_ON = ".9"
"""What a number may gain once its set is known."""


def _parted(number: str, height: float, room: float) -> tuple[str, ...]:
    """A number without spaces, broken behind its hyphens where its cell is too narrow."""
    lines = [""]
    for part in number.split("-"):
        longer = f"{lines[-1]}-{part}" if lines[-1] else part
        if lines[-1] and text_width(longer, height) > room:
            lines[-1] += "-"
            lines.append(part)
        else:
            lines[-1] = longer
    return tuple(lines)


def _height(cell: _Cell, style: SheetStyle) -> float:
    return style.heading_height_mm if cell.is_heading else style.text_height_mm


def _cell_lines(cell: _Cell, style: SheetStyle) -> tuple[tuple[str, ...], float]:
    height = _height(cell, style)
    room = cell.share * TITLE_WIDTH_MM - 2 * _PAD_MM
    if cell.is_heading and text_width(cell.value, height) > room:
        height = style.text_height_mm
    lines = wrapped(cell.value, height, room) or ("",)
    if cell.in_set is InSet.DRAWING_NUMBER:
        room -= text_width(_GOES_ON, height)
        lines = tuple(part for line in lines for part in _parted(line, height, room))
    label = style.text_height_mm
    return lines, _PAD_MM * 1.9 + label + len(lines) * height * 1.45


def _cell_items(
    cell: _Cell, lines: tuple[str, ...], left: float, top: float, style: SheetStyle
) -> list[Item]:
    label = style.text_height_mm
    height = _height(cell, style)
    room = cell.share * TITLE_WIDTH_MM - 2 * _PAD_MM
    if any(text_width(line, height) > room for line in lines):
        height = style.text_height_mm
    x = left + _PAD_MM
    y = top - _PAD_MM * 0.8 - label
    items: list[Item] = [
        Lettering(text=cell.label, at=(x, y), height=label, line_class=LineClass.TITLE_BLOCK)
    ]
    y -= _PAD_MM * 0.3
    for index, line in enumerate(lines, start=1):
        y -= height * 1.45
        if line:
            in_set = cell.in_set if index == len(lines) else None
            items.append(Lettering(text=line, at=(x, y), height=height, in_set=in_set))
    return items


def _text(text: str, x: float, y: float, style: SheetStyle) -> Lettering:
    return Lettering(text=text, at=(x, y), height=style.text_height_mm)


def projection_symbol(projection: Projection, middle: Point2, style: SheetStyle) -> list[Item]:
    """The truncated cone in two views, as the projection sets them.

    **Source:** ISO 5456-2 (from memory, checked by constructing the views): in first angle the
    frustum stands left with its small end outward, in third angle the circles stand left and the
    frustum's small end looks at them.

    Args:
        projection: first or third angle.
        middle: of the symbol [mm].
        style: pens.
    """
    x, y = middle
    small, large, half_length = 1.25, 2.5, 2.5
    is_first = projection is Projection.FIRST_ANGLE
    cone_x, circles_x = (x - 4.0, x + 4.0) if is_first else (x + 4.0, x - 4.0)
    left, right = cone_x - half_length, cone_x + half_length
    del style
    corners = [(left, y - small), (right, y - large), (right, y + large), (left, y + small)]
    items: list[Item] = [
        stroke(a, b, LineClass.SYMBOL)
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    for radius in (small, large):
        items.append(
            Stroke(
                shape=Arc(centre=(circles_x, y), radius=radius, start_deg=0.0, end_deg=360.0),
                line_class=LineClass.SYMBOL,
            )
        )
    items.append(stroke((left - 0.8, y), (right + 0.8, y), LineClass.SYMBOL))
    for dx, dy in ((large + 0.8, 0.0), (0.0, large + 0.8)):
        items.append(stroke((circles_x - dx, y - dy), (circles_x + dx, y + dy), LineClass.SYMBOL))
    return items


def frame_items(frame: Box2) -> list[Item]:
    """The frame line round the drawing."""
    corners = [
        (frame.left, frame.bottom),
        (frame.right, frame.bottom),
        (frame.right, frame.top),
        (frame.left, frame.top),
    ]
    after = [*corners[1:], corners[0]]
    return [stroke(a, b, LineClass.FRAME) for a, b in zip(corners, after, strict=True)]
