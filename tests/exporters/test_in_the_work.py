"""The steps that a trim is told to be made with: they are set so, and they make those cuts."""

from __future__ import annotations

import re
from dataclasses import replace

from exporters.revision.in_the_work import in_the_work, left_after
from exporters.revision.words import how_words
from exporters.work.steps import steps_of
from furniture.job import Say, old_of, verdicts_of
from furniture.making.operations import CutOf
from furniture.making.set_ups import Dial
from furniture.making.settings import Machine
from tests.making.made import model

_STEP = re.compile(r"step (\d+)")


def test_every_step_that_a_trim_names_is_set_to_what_is_left() -> None:
    """All parts 9 mm longer and uncut: each is stopped at its length where the others are."""
    found, steps = model("herb_stand"), steps_of(model("herb_stand").making)
    by_number = {each.number: each for each in steps}
    old = old_of(found.piece)
    longer = replace(old, parts=tuple(
        replace(each, cuts=(), blank=replace(each.blank, length_mm=each.blank.length_mm + 9.0))
        for each in old.parts
    ))  # fmt: skip
    work = in_the_work(found.making)
    passes = cuts = 0
    for verdict in verdicts_of(longer, found.piece, found.shop.saw):
        assert verdict.say is Say.TRIM
        words = how_words(verdict, found.piece, work)
        for (off, left), told in zip(left_after(verdict), words, strict=False):
            for number in map(int, _STEP.findall(told)):
                set_up = by_number[number].set_up
                assert set_up is not None
                assert set_up.rig.machine is Machine.TABLE_SAW
                assert not set_up.rig.tilt_deg, off
                stops = [value for dial, value in set_up.figures if dial is Dial.STOP]
                assert any(abs(value - left) < 1e-6 for value in stops), (told, stops)
                passes += 1
        for made, told in zip(verdict.cuts, words[len(verdict.off) :], strict=False):
            (number,) = map(int, _STEP.findall(told))
            there = {cut for each in by_number[number].operations for cut in each.cuts}
            assert CutOf(verdict.instance, made.index) in there
            cuts += 1
    assert passes > 0
    assert cuts > 10
