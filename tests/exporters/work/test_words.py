"""The work in a maker's words: faces by where they are, figures in the piece's unit."""

from __future__ import annotations

import pytest

from exporters.faces import FaceNames
from exporters.work import WORK_HEADER, WorkWords, steps_of, work_rows
from exporters.work.names import woods_in_words
from exporters.work.rig_words import rig_in_words, set_in_words
from furniture.making.operations import Kind
from furniture.making.precedence import Why
from furniture.parts.faces import Face
from tests.exporters.work.sheet_words import whole_work
from tests.models import NAMES, piece_of


def making_of(name):
    return whole_work(name).making


def lines_of(name):
    words = WorkWords(piece_of(name), making_of(name))
    return [line.text for step in steps_of(making_of(name)) for line in words.lines_of(step)]


@pytest.mark.parametrize(
    ("instances", "face", "said"),
    [
        (("front rail",), Face.FACE_SIDE, "outside"),
        (("front rail",), Face.BACK_SIDE, "inside"),
        (("front rail",), Face.FACE_EDGE, "bottom edge"),
        (("left stub",), Face.NAMED_END, "post end"),
        (("left stub",), Face.FAR_END, "mitre end"),
        (("post",), Face.NAMED_END, "foot end"),
        (("post",), Face.FAR_END, "top end"),
        (("tier 1",), Face.FACE_SIDE, "top"),
        (("tier 1",), Face.FACE_EDGE, "front edge"),
        (("left stub", "left side rail", "front rail"), Face.BACK_SIDE, "inside"),
        (("left stub", "left side rail", "front rail"), Face.NAMED_END, "left stub end"),
        (("tier 1", "post"), Face.FACE_EDGE, "face edge"),
    ],
)
def test_a_face_is_called_by_where_it_is_in_the_herb_stand(instances, face, said):
    assert FaceNames(piece=piece_of("herb_stand")).of(instances, face) == said


@pytest.mark.parametrize("name", NAMES)
def test_no_line_speaks_in_our_own_terms(name):
    for line in lines_of(name):
        for term in ("face side", "back side", "face edge", "named end", "far end", "_"):
            assert term not in line, line


@pytest.mark.parametrize("name", NAMES)
def test_every_operation_is_in_one_step_and_in_its_order(name):
    told = [each.key for step in steps_of(making_of(name)) for each in step.operations]
    assert told == [each.key for each in making_of(name).operations]


def test_five_dados_are_one_set_up_with_a_spacer():
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    step = next(
        each for each in steps_of(making) if any(one.kind is Kind.DADO for one in each.operations)
    )
    cut = next(each for each in step.operations if each.kind is Kind.DADO)
    assert set_in_words(step.set_up, cut, piece.shown) == (
        "height 7, stop 670.1, 4 spacers of 150 before it, one less each time"
    )
    assert WorkWords(piece, making).lines_of(step)[-1].text == (
        "post: 5 dados; inside down, right edge to the sled, foot end at the stop"
    )


def test_figures_are_in_the_unit_of_the_piece():
    piece, making = piece_of("yarn_steps"), making_of("yarn_steps")
    fences = [
        set_in_words(step.set_up, step.operations[0], piece.shown)
        for step in steps_of(making)
        if step.set_up and any(one.kind is Kind.RIP for one in step.operations)
    ]
    assert fences[:2] == ["fence 4 1/4", "fence 5 3/4"]


def test_the_head_says_what_stands_on_the_arbor():
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    heads = {rig_in_words(each.rig, piece.shown) for each in making.set_ups
             if each.rig.cutter.stack}  # fmt: skip
    assert heads
    for words in heads:
        size, _, stack = words.partition(": ")
        sawn = sum(float(each) for each in stack.split(",")[0].split(" + ")[1:])
        outer = 2 * next(each.rig.cutter.stack.outer_mm for each in making.set_ups
                         if each.rig.cutter.stack)  # fmt: skip
        assert float(size.split()[-1]) == pytest.approx(outer + sawn)


def test_numbered_wood_is_named_as_a_run():
    assert woods_in_words(("lid", "tier 1", "tier 2", "tier 3", "tier 5")) == (
        "lid, tiers 1 to 3 and tier 5"
    )
    assert woods_in_words(("tier 1", "tier 2")) == "tiers 1 and 2"


@pytest.mark.parametrize("name", NAMES)
def test_the_table_has_a_row_for_each_operation_with_its_reasons(name):
    rows = work_rows(piece_of(name), making_of(name))
    assert len(rows) == len(making_of(name).operations)
    assert all(len(row) == len(WORK_HEADER) for row in rows)
    reasons = {each.value for each in Why}
    for number, row in enumerate(rows, start=1):
        cells = dict(zip(WORK_HEADER, row, strict=True))
        assert cells["n"] == str(number)
        assert all(int(each) < number for each in cells["after"].split())
        assert set(filter(None, cells["why"].split("; "))) <= reasons
