"""The work in order: the checklist of operations, on as many sheets as it takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain, count

from exporters.sheets.checklist import checklist_columns, columns_in
from exporters.sheets.glue_sheet import (
    cells_held,
    sheets_of_cells,
    sheets_taken,
    stacked_cells,
)
from exporters.sheets.glue_shown import glue_ups_shown, notes_on_glue_ups
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.part_notes import rounded_note
from exporters.sheets.values import Item, Sheet
from exporters.sheets.whole_task import Framed, WholeTask, framed, sheet_of
from exporters.work.checklist import (
    Tick,
    checklist_of,
    key_to_strips,
    rough_wood_in_words,
    side_by_side,
)
from exporters.work.work_mark import work_mark
from exporters.work.work_of import Work
from furniture.making.making import Making
from furniture.pieces.piece import Piece
from furniture.units.showing import is_rounded

_MARGIN_MM = 1.5
_NOTE = (
    "Faces, edges and ends are named by where they are in the piece, seen from its front. Fence "
    "and stop are set to the near side of the cutter; of a tilted blade, which leans right, to the "
    "long point (if it leans left, edge and stop change sides). Pictures look along the feed: "
    "below the line what lies down, above it the edge at fence or sled and the end at the stop; "
    "hatched is cut away. Wood lies as drawn where nothing else is said."
)


_SHARES = tuple(share / 100 for share in range(80, 2, -2))
"""How much of the last sheet's height the checklist may be left with, so that glue-ups stand below
it. Own rule."""


_CLOSER = (1.0, 0.6, 0.3)
"""How much of the usual gap between operations is tried, for the fewest sheets. Own rule."""


def work_sheets(task: WholeTask, making: Making) -> list[Sheet]:
    """Every operation in order, gathered by set-up, each with a box to tick.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        making: of the piece.
    """
    task = replace(task, notes=_notes(task.piece, making))
    return _sheets(task, _filled(task, making, None), [])


def work_and_glue_sheets(task: WholeTask, glue_task: WholeTask, work: Work) -> list[Sheet]:
    """The operations and then the glue-ups; these begin below the last operations where that saves
    a sheet, and operations stand closer to one another where that does.

    Args:
        task: what the sheets of operations say.
        glue_task: what those of glue-ups say.
        work: on the piece.
    """
    closer = (
        replace(
            task, style=replace(task.style, checklist_gap_mm=share * task.style.checklist_gap_mm)
        )
        for share in _CLOSER
    )
    return min((_with_glue_ups(each, glue_task, work) for each in closer), key=len)


def _with_glue_ups(task: WholeTask, glue_task: WholeTask, work: Work) -> list[Sheet]:
    making = work.making
    task = replace(task, notes=_notes(task.piece, making))
    notes = tuple(e for e in notes_on_glue_ups(task.piece, work) if e not in task.notes)
    cells = glue_ups_shown(task.piece, work)
    pages = _filled(task, making, None)
    last: _Last | None = None
    filled, held, fewest = pages, 0, sheets_taken(glue_task, cells, notes)
    for share in _SHARES:
        tried = _Last(number=len(pages), share=share, notes=notes)
        count = cells_held(cells, tried.below(task), task.style)
        further = sheets_taken(glue_task, cells[count:], notes)
        # of as few sheets the shortest checklist: its columns come out even, and pictures large
        if further > fewest or (further == fewest and last is None):
            continue
        shorter = _filled(task, making, tried)
        if len(shorter) > len(pages):
            break
        last, held, fewest, filled = tried, count, further, shorter
    after = sheets_of_cells(glue_task, cells[held:], notes) if held < len(cells) else []
    if last is None:
        return [*_sheets(task, pages, []), *after]
    below = stacked_cells(cells[:held], last.below(task), task.style)
    return [*_sheets(task, filled, below, last), *after]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Last:
    """The last sheet of operations, which of its height they take, and the notes on glue-ups."""

    number: int
    share: float
    notes: tuple[str, ...]

    def below(self, task: WholeTask) -> Box2:
        """The room below the operations [mm]."""
        whole = _begun(task, self.number, self).region
        top = whole.top - self.share * whole.height
        return replace(whole, top=top, bottom=whole.bottom + _MARGIN_MM)


def _notes(piece: Piece, making: Making) -> tuple[str, ...]:
    """What the first sheet says of all of them."""
    rough = rough_wood_in_words(piece, making)
    ticks = [each for each in checklist_of(piece, making) if isinstance(each, Tick)]
    is_marked = any(is_rounded(text) for each in ticks for text in (each.set_to, *each.lines))
    return (
        _NOTE,
        *([rounded_note(piece.shown)] if is_marked else []),
        *side_by_side(making),
        *key_to_strips(making),
        *([rough] if rough else []),
        f'In a job file the numbers are those of work = "{work_mark(making)}".',
    )


def _begun(task: WholeTask, number: int, last: _Last | None) -> Framed:
    notes = task.notes if number == 1 else ()
    if last is not None and last.number == number:
        notes = tuple(dict.fromkeys((*notes, *last.notes)))
    return framed(replace(task, notes=notes), Orientation.PORTRAIT, None, bool(notes))


def _filled(task: WholeTask, making: Making, last: _Last | None) -> list[list[list[Item]]]:
    """The columns of each sheet."""

    def columns() -> Iterator[Box2]:
        for number in count(1):
            region = _begun(task, number, last).region.grown(-_MARGIN_MM)
            if last is not None and number == last.number:
                top = last.below(task).top
                region = replace(region, bottom=top + _MARGIN_MM)
            yield from columns_in(region)

    a_page = len(columns_in(_begun(task, 1, last).region.grown(-_MARGIN_MM)))
    filled = checklist_columns(checklist_of(task.piece, making), columns(), task.style)
    return [filled[at : at + a_page] for at in range(0, len(filled), a_page)]


def _sheets(
    task: WholeTask,
    pages: Sequence[Sequence[Sequence[Item]]],
    below: Sequence[Item],
    last: _Last | None = None,
) -> list[Sheet]:
    sheets = []
    for number, page in enumerate(pages, start=1):
        items = [*_begun(task, number, last).items, *chain.from_iterable(page)]
        items += below if number == len(pages) else ()
        sheets.append(sheet_of(task, Orientation.PORTRAIT, Scale(1.0), items, number))
    return sheets
