"""The head of a part's cell: its number and name, and what is told of it in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from exporters.sheets.broken import Break
from exporters.sheets.callouts import LINE_SHARE, NoRoomError, text_lines
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2, Scale
from exporters.sheets.part_notes import made_words, standing_words
from exporters.sheets.part_task import PartTask, Span
from exporters.sheets.values import InSet, Item, Lettering

_PAD_MM = 2.5
_MOST_NAMES = 4
_BROKEN = "Drawn broken, a plain stretch left out: the figures hold."


def head_of(
    task: PartTask, span: Span, scale: Scale, breaks: Sequence[Break], cell: Box2
) -> tuple[list[Item], Box2]:
    """The part's number and name, what is told of it, and the room below [mm].

    Args:
        task: what is drawn.
        span: of its cuts.
        scale: of its plain views.
        breaks: what is left out of its length.
        cell: the room there is [mm].

    Raises:
        NoRoomError: they take the whole cell.
    """
    style, count = task.style, len(task.part.cuts)
    left, wide = cell.left + _PAD_MM, cell.width - 2 * _PAD_MM
    words = f"{task.item} {task.part.name} ({scale.text})"
    if task.alike:
        numbered = sorted(zip(task.items, (part.name for part in task.parts), strict=True))
        names = [name for _, name in numbered]
        listed = ", ".join(str(item) for item, _ in numbered)
        told = ", ".join(names) if len(names) < _MOST_NAMES else f"{names[0]} to {names[-1]}"
        words = f"{listed} {told} ({scale.text})"
    if task.opposite is not None:
        words = f"{words} as drawn, {task.opposite.item} {task.opposite.part.name} opposite hand"
    notes = [standing_words(task.stands)] if task.stands else []
    notes += [*task.notes, *([_BROKEN] if breaks else [])]
    if span[1] - span[0] < count:
        words = f"{words}, cuts {span[0] + 1} to {span[1]} of {count}"
        notes.append(f"Cuts {span[0] + 1} to {span[1]} of {count}, in the order of the cutting.")
    y = cell.top - 0.8
    items: list[Item] = []
    for line in wrapped(words, style.heading_height_mm, wide):
        y -= style.heading_height_mm + 1.2
        items.append(Lettering(text=line, at=(left, y), height=style.heading_height_mm))
    y -= 2.2
    high, beside = style.text_height_mm, 0.0
    for text in (task.told, " ".join(notes)):
        lines = wrapped(text, high, wide)
        items += text_lines(lines, left, y, style)
        y -= len(lines) * high * LINE_SHARE
        beside = text_width(f"{lines[-1]} ", high) if lines else beside
    work = made_words(task.work) if task.work else ""
    if work and beside + text_width(work, high) <= wide:  # it goes on where the notes end
        lines, at, y = (work,), left + beside, y + high * LINE_SHARE
    else:
        lines, at = wrapped(work, high, wide), left
    items += [replace(line, in_set=InSet.WORK) for line in text_lines(lines, at, y, style)]
    y -= len(lines) * high * LINE_SHARE
    if y - cell.bottom < 20.0:
        raise NoRoomError("the words take the whole cell")
    pad = _PAD_MM
    return items, Box2(
        left=cell.left + pad, bottom=cell.bottom + pad, right=cell.right - pad, top=y - 1.0
    )
