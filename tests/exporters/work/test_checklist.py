"""The checklist on paper: every step once, in order, clear of everything, on every paper."""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from exporters.sheets.dxf import document_of
from exporters.sheets.paper import Paper
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Lettering, SheetSettings
from exporters.work import making_for, steps_of
from exporters.work.checklist import MachineHead, StageHead, Tick, checklist_of
from furniture.making.bench.cautions import rig_hazards
from tests.exporters.collisions import collisions_in
from tests.models import NAMES, piece_of


@cache
def work_sheets_of(name, paper):
    sheets = sheets_of(piece_of(name), SheetSettings(paper=paper, dated=date(2026, 1, 1)))
    return [sheet for sheet in sheets if "work-in-order" in sheet.name]


def words_on(sheet):
    return " ".join(item.text for item in sheet.items if isinstance(item, Lettering))


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_ticked_once_under_its_stage(name):
    making = making_for(piece_of(name))
    entries = checklist_of(piece_of(name), making)
    ticks = [each for each in entries if isinstance(each, Tick)]
    assert [each.number for each in ticks] == [str(each.number) for each in steps_of(making)]
    stages = [each.title for each in entries if isinstance(each, StageHead)]
    assert stages == list(dict.fromkeys(each.stage.value for each in making.operations))


@pytest.mark.parametrize("name", NAMES)
def test_what_may_hurt_is_said_before_the_machine_is_used(name):
    piece = piece_of(name)
    making = making_for(piece)
    asked = {hazard for each in making.operations if each.rig for hazard in rig_hazards(each.rig)}
    heads = [each for each in checklist_of(piece, making) if isinstance(each, MachineHead)]
    said = [caution for each in heads for caution in each.cautions]
    assert len(said) == len(set(said)) == len(asked)


@pytest.mark.parametrize("paper", Paper, ids=lambda paper: paper.title)
@pytest.mark.parametrize("name", NAMES)
def test_nothing_runs_into_anything_and_nothing_is_lost(name, paper):
    sheets = work_sheets_of(name, paper)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == ()
    said = " ".join(words_on(sheet) for sheet in sheets)
    for entry in checklist_of(piece_of(name), making_for(piece_of(name))):
        if isinstance(entry, Tick):
            words = " ".join((entry.number, entry.set_to, *entry.lines)).split()
            assert all(word in said for word in words)


def test_the_herb_stand_takes_no_more_than_three_sheets_of_a4():
    assert len(work_sheets_of("herb_stand", Paper.A4)) <= 3
