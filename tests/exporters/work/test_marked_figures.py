"""A figure a little over or under its mark never reads as a sum or a difference among words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from exporters.sheets.glue_shown import glue_ups_shown, notes_on_glue_ups
from exporters.sheets.paper import Paper
from exporters.sheets.work_sheet import work_sheets
from exporters.work import Work, work_of
from exporters.work.checklist import Tick, checklist_of, rough_wood_in_words
from furniture.assembly import assembly_of
from furniture.pieces import Piece
from furniture.units import figure, figure_among_words, inches, millimetres
from furniture.units.showing import is_rounded
from tests.everywhere.designs import drawn
from tests.exporters.work.sheet_words import task_of, words_on

READS_AS_A_SUM = re.compile(r"\d [+-] [^\W\d_(]|\d [+-] \d")


def said_of(piece: Piece, work: Work) -> Iterator[str]:
    """Every text of the work and its glue-ups."""
    yield rough_wood_in_words(piece, work.making)
    for each in checklist_of(piece, work.making):
        if isinstance(each, Tick):
            yield from (each.set_to, *each.lines, each.set_beside, *each.beside)
    for shown in glue_ups_shown(piece, work):
        yield from shown.sentences


@pytest.mark.parametrize("mm", [2.7, 0.2, 25.6, 254.3, 10.318])
def test_a_mark_stands_in_brackets_among_words(mm: float) -> None:
    shown = inches(64)
    marked, told = figure(mm, shown), figure_among_words(mm, shown)
    assert is_rounded(marked) == is_rounded(told) == (marked != told)
    assert not READS_AS_A_SUM.search(f"{told} across, {told} and {told}")
    assert figure_among_words(mm, millimetres()) == figure(mm, millimetres())


def test_the_sign_of_a_sum_is_known() -> None:
    for said in ("less 7/64 - across", "at 1/4 - and 3", "26 - x 4", "28 + 3"):
        assert READS_AS_A_SUM.search(said)
    for said in ("25/64 - (0.383) off", "10 23/64 +, or", "7/64 (-) across"):
        assert not READS_AS_A_SUM.search(said)


@pytest.mark.seeds(few=3, full=60)
def test_no_mark_reads_as_a_sum_and_each_is_explained(seed: int) -> None:
    """`its opening less 7/64 - across` was a subtraction, and no sheet of the work said else."""
    piece = replace(drawn(seed).piece, shown=inches(16))
    work = work_of(piece, order=assembly_of(piece))
    said = list(said_of(piece, work))
    assert [each for each in said if READS_AS_A_SUM.search(each)] == []
    on_sheets = words_on(work_sheets(task_of(piece, Paper.A4, "work"), work.making))
    note = "a little over or under that mark"
    ticks = [each for each in checklist_of(piece, work.making) if isinstance(each, Tick)]
    if any(is_rounded(text) for each in ticks for text in (each.set_to, *each.lines)):
        assert note in on_sheets
    if any(is_rounded(text) for each in glue_ups_shown(piece, work) for text in each.sentences):
        assert any(note in each for each in notes_on_glue_ups(piece, work))
