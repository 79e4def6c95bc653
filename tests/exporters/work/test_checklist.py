"""The checklist on paper: every step once, in order, clear of everything, on every paper."""

from __future__ import annotations

import pytest

from exporters.sheets.dxf import document_of
from exporters.sheets.paper import Paper
from exporters.sheets.work_sheet import work_sheets
from exporters.work import steps_of
from exporters.work.checklist import MachineHead, StageHead, Tick, checklist_of
from furniture.making.bench.cautions import SANDING, Hazard, rig_hazards
from furniture.making.operations import Stage
from tests.exporters.collisions import collisions_in
from tests.exporters.work.sheet_words import task_of, whole_work, words_on
from tests.models import NAMES, piece_of


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_ticked_once_under_its_stage(name):
    making = whole_work(name).making
    entries = checklist_of(piece_of(name), making)
    ticks = [each for each in entries if isinstance(each, Tick)]
    assert [each.number for each in ticks] == [str(each.number) for each in steps_of(making)]
    stages = [each.title for each in entries if isinstance(each, StageHead)]
    assert stages == list(dict.fromkeys(each.stage.value for each in making.operations))


@pytest.mark.parametrize("name", NAMES)
def test_what_may_hurt_is_said_once_for_all_machines(name):
    piece, making = piece_of(name), whole_work(name).making
    asked = {hazard for each in making.operations if each.rig for hazard in rig_hazards(each.rig)}
    asked |= set(SANDING)  # dust, wherever wood is sanded
    if any(each.stage is Stage.PART and len(each.gives) > 1 for each in making.operations):
        asked.add(Hazard.PARTED_AT_STOP)
    heads = [each for each in checklist_of(piece, making) if isinstance(each, MachineHead)]
    said = [caution for each in heads for caution in each.cautions]
    assert len(said) == len(set(said)) == len(asked)


@pytest.mark.parametrize("paper", Paper, ids=lambda paper: paper.title)
@pytest.mark.parametrize("name", NAMES)
def test_nothing_runs_into_anything_and_nothing_is_lost(name, paper):
    piece, making = piece_of(name), whole_work(name).making
    sheets = work_sheets(task_of(piece, paper, "work in order"), making)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == ()
    said = words_on(sheets).split()
    for entry in checklist_of(piece, making):
        if isinstance(entry, Tick):
            words = " ".join((entry.number, entry.set_to, *entry.lines)).split()
            assert set(words) <= set(said)


def test_the_herb_stand_takes_no_more_than_four_sheets_of_a4():
    piece = piece_of("herb_stand")
    task = task_of(piece, Paper.A4, "work in order")
    assert len(work_sheets(task, whole_work("herb_stand").making)) <= 4
