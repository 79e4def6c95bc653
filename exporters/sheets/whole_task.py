"""What a sheet of the whole piece says, the sheet begun, and the sheet made of its items."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from exporters.sheets.geometry import items_box
from exporters.sheets.note_lines import place_notes
from exporters.sheets.paper import Box2, Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Sheet, Shows
from furniture.pieces.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeTask:
    """The whole piece to draw on one sheet, and how; the scale of the fields is filled in."""

    piece: Piece
    fields: TitleFields
    notes: tuple[str, ...]
    name: str
    paper: Paper
    style: SheetStyle
    shows: frozenset[Shows] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """A sheet begun: frame, title block and notes are drawn, and the room that is left."""

    items: tuple[Item, ...]
    region: Box2
    title: Box2
    notes_right: float


def framed(
    task: WholeTask,
    orientation: Orientation,
    scale: Scale | None,
    has_notes: bool,
    *,
    scale_told: str = "-",
) -> Framed:
    """Frame, title block and notes of a sheet, and the room above them.

    Args:
        task: what the sheet says.
        orientation: of the paper.
        scale: for the title block; none on a sheet that is not to one scale.
        has_notes: whether this sheet carries the notes.
        scale_told: what the title block says in place of a scale.
    """
    frame = frame_of(task.paper, orientation)
    fields = replace(task.fields, scale=scale.text if scale else scale_told)
    items: list[Item] = list(frame_items(frame))
    block, title = title_block(fields, frame.right, frame.bottom, task.style)
    items += block
    top, notes_right = title.top, frame.left
    if has_notes and task.notes:
        notes, top = place_notes(task.notes, frame, title, task.style)
        items += notes
        notes_right = items_box(notes).right
    region = Box2(left=frame.left, bottom=top, right=frame.right, top=frame.top)
    return Framed(items=tuple(items), region=region, title=title, notes_right=notes_right)


def sheet_of(
    task: WholeTask, orientation: Orientation, scale: Scale, items: Sequence[Item], number: int = 1
) -> Sheet:
    """The sheet that holds these items.

    Args:
        task: what it says.
        orientation: of the paper.
        scale: of what is drawn; 1:1 on a sheet that is not to scale.
        items: everything on it, frame and title block too.
        number: of this one among sheets that go on from one another; later ones have it in their
            name.
    """
    return Sheet(
        name=task.name if number == 1 else f"{task.name}-{number}",
        title=task.fields.title,
        paper=task.paper,
        orientation=orientation,
        scale=scale,
        style=task.style,
        frame=frame_of(task.paper, orientation),
        items=tuple(items),
        shows=task.shows,
    )
