"""From boards to blanks with few machines: what is planed is planed once, and by what is there."""

from __future__ import annotations

from functools import cache

import pytest

from exporters.work import steps_of, work_of
from exporters.work.words import WorkWords
from furniture import MeasuredBoard, Shop
from furniture.making.making import Making
from furniture.making.operations import Kind
from furniture.making.settings import Machine, Trench
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.shop.tools.reading import usual_or
from tests.models import piece_of

BARE = Shop(dado_head=None, jointer=None, planer=None)


@cache
def making(thick: str) -> Making:
    """The key rack off two boards, the first so thick, in a shop without most machines."""
    piece = piece_of("key_rack")
    boards = [
        MeasuredBoard(
            name="A", stock="walnut, boards", length="2 m", widths="190 mm", thickness=thick
        ),
        MeasuredBoard(
            name="B", stock="walnut, thin", length="1 m", widths="190 mm", thickness="11.8 mm"
        ),
    ]
    outcome = outcome_of(cutting_job(piece, boards))
    assert outcome.plan is not None
    assert outcome.plan.unplaced == ()
    return work_of(piece, usual_or(BARE, piece.shown), outcome).making


@pytest.mark.parametrize("thick", ["15.5 mm", "17 mm", "17.5 mm", "17.7 mm"])
def test_a_board_of_one_thickness_is_planed_whole_and_its_blanks_not_again(thick: str) -> None:
    planed = [each for each in making(thick).operations if each.kind is Kind.PLANE]
    assert [each.takes for each in planed] == [("board A",)]
    faces = [each for each in making(thick).operations if each.kind is Kind.JOINT_FACE]
    assert len(faces) == (thick != "15.5 mm")


def test_no_machine_is_used_that_is_not_there() -> None:
    used = {each.rig.machine for each in making("17.7 mm").operations if each.rig is not None}
    assert not used & {Machine.JOINTER, Machine.PLANER}


def test_a_rabbet_routed_in_passes_tells_how_much_of_the_bit_is_at_work() -> None:
    piece = piece_of("herb_stand")
    operations = work_of(piece, usual_or(BARE, piece.shown)).making.operations
    rabbets = [each for each in operations if each.kind is Kind.RABBET]
    assert rabbets
    for each in rabbets:
        assert isinstance(each.setting, Trench)
        for shows in each.near_mm:
            assert 0.0 < shows <= each.setting.width_mm + 1e-9
        if each.near_mm:
            assert each.near_mm[-1] == pytest.approx(each.setting.width_mm)


def test_only_what_waits_for_a_measurement_is_cut_as_measured() -> None:
    """A thickness that was planed and then read is no reason to measure a length."""
    piece = piece_of("key_rack")
    words, steps = WorkWords(piece, making("17.5 mm")), steps_of(making("17.5 mm"))
    assert not any(words.as_measured(step) for step in steps)
