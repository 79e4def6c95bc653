"""The work as a plan tells it: what is ticked, with its small pictures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from exporters.pdf.page import PdfPage
from exporters.plan.small import picture_page
from exporters.sheets.glue_picture import glue_up_pictures
from exporters.sheets.glue_shown import GlueUpShown, glue_ups_shown, notes_on_glue_ups
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE, SheetStyle
from exporters.sheets.strips_picture import picture_of
from exporters.work.checklist import MachineHead, StageHead, Tick, checklist_of
from exporters.work.steps import Step, steps_of
from exporters.work.work_of import Work
from furniture.making.operations import CLOSES, Kind
from furniture.pieces.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Small:
    """A small picture, and what it shows in words, for who does not see it."""

    page: PdfPage
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TickRow:
    """One thing to tick, the keys of its operations, which stay when figures change, its pictures.

    `pictures` are that of its set-up, as on the sheets of the work, or those of its glue-up: what
    comes together, and what is then together.
    """

    tick: Tick
    keys: tuple[str, ...]
    pictures: tuple[Small, ...] = ()


WorkRow = StageHead | MachineHead | TickRow


def work_rows(piece: Piece, work: Work | None) -> Iterator[WorkRow]:
    """The checklist's own entries, each tick with the keys of its step; glue-ups in full.

    Args:
        piece: that is made.
        work: on it; None has no rows.

    Raises:
        SolidError: a part cannot be made.
    """
    if work is None:
        return
    making = work.making
    style = INCH_STYLE if piece.shown.is_inch else ISO_STYLE
    steps = {str(step.number): step for step in steps_of(making)}
    glue_ups = {} if work.found is None else _glue_ups(piece, work)
    notes: tuple[str, ...] = notes_on_glue_ups(piece, work)
    for entry in checklist_of(piece, making):
        if not isinstance(entry, Tick):
            yield entry
            continue
        step = steps[entry.number]
        keys = tuple(each.key for each in step.operations)
        shown = glue_ups.pop(_glue_up_of(step), None)
        if shown is None:
            yield TickRow(tick=entry, keys=keys, pictures=tuple(_set_up(entry, style)))
            continue
        if shown.closes is not None:
            lines = (*notes, *(f"{each}." for each in shown.sentences))
            title = f"glue-up {shown.number}: {shown.title}"
            entry, notes = replace(entry, set_to=title, lines=lines), ()
        yield TickRow(tick=entry, keys=keys, pictures=tuple(_coming(shown, style)))


_LAID_IN = -1
"""Stands for what is laid in last, which no stage closes."""


def _glue_ups(piece: Piece, work: Work) -> dict[int | None, GlueUpShown]:
    """What is shown of each glue-up, by its number."""
    shown = glue_ups_shown(piece, work)
    return {_LAID_IN if each.closes is None else each.closes: each for each in shown}


def _glue_up_of(step: Step) -> int | None:
    """The number of the glue-up that a step closes; of one that lays in, what stands for it."""
    for each in step.operations:
        if each.glue_up is not None and each.kind in CLOSES:
            return each.glue_up.number
        if each.kind in (Kind.LAY_IN, Kind.HANG):
            return _LAID_IN
    return None


_GLUE_UP_MM = (44.0, 50.0)
"""How wide and how high the small pictures of a glue-up are. Own rule."""


def _coming(shown: GlueUpShown, style: SheetStyle) -> Iterator[Small]:
    says = (f"What comes together: {shown.title}", f"All that is then together: {shown.title}")
    for picture, each in zip(glue_up_pictures(shown, style, _GLUE_UP_MM), says, strict=False):
        yield Small(page=picture_page(picture, style), says=each)


def _set_up(entry: Tick, style: SheetStyle) -> Iterator[Small]:
    picture = None if entry.shown is None else picture_of(entry.shown, style)
    if picture is not None and entry.shown is not None:
        says = f"Set-up of step {entry.number}: {entry.shown.said}"
        yield Small(page=picture_page(picture, style), says=says)
