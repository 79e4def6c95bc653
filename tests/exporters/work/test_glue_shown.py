"""What is shown of a glue-up: the wood as it is by then, in the plan with picture and words."""

from __future__ import annotations

import pytest

from exporters.plan.work_rows import TickRow, work_rows
from exporters.sheets.glue_shown import glue_ups_shown
from furniture.solids.make import placed_solid, volume_of
from tests.exporters.work.sheet_words import whole_work
from tests.models import piece_of

KEYED = "button_box"


def shared_mm3(first, second):
    return placed_solid(first.part, first.placement).intersect(
        placed_solid(second.part, second.placement)
    ).Volume()  # fmt: skip


def test_a_frame_is_whole_until_the_slots_for_its_keys_are_sawn():
    """A key fills its slot, so all of it lies in wood that is there when the frame closes."""
    piece = piece_of(KEYED)
    frame, keyed, *later = glue_ups_shown(piece, whole_work(KEYED))
    done = {each.instance: each for each in piece.placed}
    rails = {each.instance: each for each in frame.placed}
    assert len(rails) == 4
    key = done["key 1"]
    share = sum(shared_mm3(rail, key) for rail in rails.values()) / volume_of(key.part)
    assert share == pytest.approx(1.0, rel=1e-3)
    # once they are let in: the slots are there, the keys square until they are made flush
    let_in = {each.instance: each for each in keyed.placed}
    assert sum(shared_mm3(let_in[name], key) for name in rails) == pytest.approx(0.0, abs=0.1)
    square = let_in["key 1"].part
    assert volume_of(square) == pytest.approx(
        square.blank.length_mm * square.blank.width_mm * square.blank.thickness_mm, rel=1e-6
    )
    for stage in later:
        assert all(each == done[each.instance] for each in stage.placed)


def test_the_plan_shows_each_glue_up_apart_and_together_with_its_words():
    piece, work = piece_of(KEYED), whole_work(KEYED)
    rows = [each for each in work_rows(piece, work) if type(each) is TickRow]
    drawn = [each for each in rows if len(each.pictures) == 2]
    shown = glue_ups_shown(piece, work)
    assert len(drawn) == len(shown)
    for row, each in zip(drawn, shown, strict=True):
        apart, together = row.pictures
        assert each.title in apart.says
        assert each.title in together.says
        # closed up it takes less room than apart, with names
        assert sum(together.page.paper_mm) < sum(apart.page.paper_mm)
        if each.closes is not None:
            said = " ".join(row.tick.lines)
            assert all(f"{sentence}." in said for sentence in each.sentences)
    assert not any(", pictured" in line for row in rows for line in row.tick.lines)
