"""Common blanks: which parts come off one, where each lies, and what the saw takes between them."""

from __future__ import annotations

import math

import pytest

from furniture.blanks import as_laid, common_blanks, parted, runs_round_corners
from models.herb_stand import stand
from models.tea_box import box
from models.yarn_steps import stand as steps

KERF = 3.2


def blanks(piece, longest=math.inf):
    return common_blanks(piece, runs_round_corners(piece), KERF, longest)


def test_five_rails_come_off_one_blank_as_worked_by_hand():
    # 105 + 210 + 320 + 210 + 105 and four corners, each 3.2 sqrt 2 and a skim of 0.5.
    rails = blanks(stand.build())[0]
    assert rails.instances == (
        "left stub", "left side rail", "front rail", "right side rail", "right stub",
    )  # fmt: skip
    assert rails.blank.length_mm == pytest.approx(950 + 4 * (3.2 * math.sqrt(2) + 0.5))


def test_small_equal_parts_come_off_one_blank_with_a_kerf_between():
    feet = blanks(stand.build())[1]
    assert len(feet.members) == 5
    assert feet.blank.length_mm == pytest.approx(5 * 36 + 4 * KERF)


def test_a_ring_is_opened_and_comes_off_one_blank():
    (rails,) = blanks(box.build())
    assert rails.instances == ("left side rail", "front rail", "right side rail", "back rail")
    assert {each.part.rough for each in rails.members} == {rails.rough}


def test_a_blank_too_long_for_any_board_is_parted_and_one_part_alone_is_none():
    parted = blanks(steps.build(), 700)
    assert [each.instances for each in parted] == [("left side rail", "front rail")]
    for each in blanks(stand.build(), 700):
        assert each.rough_length_mm <= 700


def test_no_instance_is_in_two_blanks_and_members_keep_clear_of_one_another():
    for piece in (stand.build(), steps.build(), box.build()):
        found = blanks(piece)
        names = [name for each in found for name in each.instances]
        assert len(names) == len(set(names))
        for each in found:
            for before, after in zip(each.members, each.members[1:], strict=False):
                assert after.at_mm - before.end_mm >= KERF - 1e-9


def test_parts_whose_long_work_differs_do_not_share_a_blank():
    from dataclasses import replace

    piece = stand.build()
    changed = tuple(
        replace(each, part=replace(each.part, cuts=each.part.cuts[1:]))
        if each.instance == "front rail"
        else each
        for each in piece.placed
    )
    found = blanks(replace(piece, placed=changed))
    assert [each.instances for each in found][:2] == [
        ("left stub", "left side rail"), ("right side rail", "right stub"),
    ]  # fmt: skip


def test_what_was_parted_for_its_boards_is_laid_as_it_was() -> None:
    """Four rails off two lengths are two lengths still when some of them are sawn."""
    (run,) = [each for each in blanks(box.build()) if len(each.members) == 4]
    first, second = parted(run, KERF, lambda each: len(each.members) < 3)
    lengths = [frozenset(first.instances), frozenset(second.instances)]
    assert as_laid(run, lengths, KERF) == (first, second)
    assert as_laid(run, lengths[1:], KERF) == (second,)
    assert as_laid(run, [frozenset(run.instances)], KERF) == (run,)
    assert as_laid(run, (), KERF) == ()
    assert as_laid(run, [frozenset({run.instances[0], "lid"})], KERF) == ()
