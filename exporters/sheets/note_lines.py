"""Notes at the foot of a sheet."""

from __future__ import annotations

from exporters.sheets.callouts import LINE_SHARE, text_lines
from exporters.sheets.lettering import wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.values import Item


def place_notes(
    notes: tuple[str, ...],
    frame: Box2,
    title: Box2,
    style: SheetStyle,
    share: float = LINE_SHARE,
) -> tuple[list[Item], float]:
    """The notes beside the title block, or above it where there is no room, and their top [mm].

    Args:
        notes: one paragraph each.
        frame: of the sheet.
        title: the title block.
        style: pens and heights.
        share: of a capital from one line to the next.
    """
    if not notes:
        return [], title.top
    beside = title.left - frame.left - 5.0
    pitch = style.text_height_mm * share
    if beside > 45.0:
        lines = _lines(notes, beside, style)
        high = len(lines) * pitch
        top = max(frame.bottom + high + 2.0, title.top - 1.5)
        over = len(_lines(notes, frame.width - 4.0, style)) * pitch + 3.5
        if top - title.top <= over:
            return list(text_lines(lines, frame.left + 2.5, top, style, share)), max(title.top, top)
    lines = _lines(notes, frame.width - 4.0, style)
    top = title.top + len(lines) * pitch + 2.5
    return list(text_lines(lines, frame.left + 2.5, top, style, share)), top + 1.0


def _lines(notes: tuple[str, ...], width: float, style: SheetStyle) -> tuple[str, ...]:
    return tuple(line for note in notes for line in wrapped(note, style.text_height_mm, width))
