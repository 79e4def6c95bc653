"""Glue-ups on paper: each with its picture and what a maker must know before the glue is open."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.sheets.dxf import document_of
from exporters.sheets.glue_sheet import sheets_of_cells
from exporters.sheets.glue_shown import glue_ups_shown, notes_on_glue_ups
from exporters.sheets.paper import Paper
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Lettering, Sheet, Stroke
from exporters.sheets.whole_task import WholeTask
from exporters.views.frames import isometric_from_below
from exporters.work.glue_words import GlueWords, cut_before_glue
from exporters.work.work_of import Work
from furniture import Ballast
from furniture.assembly import NoOrder, assembly_of
from furniture.making.glue_ups import GlueUps, stages_of
from furniture.parts.vectors import DOWN, FRONT, RIGHT, dot
from models.herb_stand import stand as herb_stand
from tests.everywhere.designs import drawn
from tests.exporters.collisions import collisions_in
from tests.exporters.work.sheet_words import task_of, whole_work, words_on
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def said_of(name):
    cut = cut_before_glue(whole_work(name).making)
    gluing = whole_work(name).making.gluing
    words = GlueWords(piece=piece_of(name), cut_before=cut, gluing=gluing)
    return {each.number: words.sentences_of(each) for each in whole_work(name).found.stages}


def glue_sheets(task: WholeTask, work: Work) -> list[Sheet]:
    """Every glue-up on sheets that hold nothing else."""
    return sheets_of_cells(
        task, glue_ups_shown(task.piece, work), notes_on_glue_ups(task.piece, work)
    )


_OF_PICTURES = (LineClass.PICTURE, LineClass.FINE_PICTURE)


@pytest.mark.parametrize("paper", Paper, ids=lambda paper: paper.title)
@pytest.mark.parametrize("name", NAMES)
def test_every_glue_up_is_pictured_and_nothing_runs_into_anything(name, paper):
    work = whole_work(name)
    sheets = glue_sheets(task_of(piece_of(name), paper, "glue-ups"), work)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == ()
        assert any(
            isinstance(item, Stroke) and item.line_class in _OF_PICTURES for item in sheet.items
        )
    said = words_on(sheets)
    for sentences in said_of(name).values():
        for sentence in sentences:
            assert all(word in said for word in sentence.split())


@pytest.mark.parametrize("name", NAMES)
def test_what_goes_in_dry_what_presses_and_what_is_measured_is_said(name):
    for stage in whole_work(name).found.stages:
        said = " ".join(said_of(name)[stage.number])
        assert all(each in said for each in (stage.dry if len(stage.dry) < 3 else ()))
        assert ("band" in said) == bool(stage.bands)
        assert ("lamps:" in said) == bool(stage.clamps)
        slanting = [each for each in stage.clamps if max(map(abs, each.direction)) < 0.9]
        assert ("across the corners" in said) == bool(slanting)
        assert ("iagonals" in said) == any(hasattr(each, "lengths_mm") for each in stage.checks)
        assert said.count("plane") == len(
            {(each.face, each.when, each.flush_with) for each in stage.levelled}
        )


def test_the_ring_of_the_herb_stand_closes_at_once_and_its_feet_keep_off_the_bottom():
    said = said_of("herb_stand")
    (glued,) = [each for each in said[2] if each.startswith("Glue 4 mitre joints, about ")]
    assert glued.endswith("g: 2 min to spread it, then 6 until all is tight")
    slid = "Tiers 1 to 4: middle on the middle of post, 95, 80, 65 and 50 past it each way in turn"
    assert slid in said[3]
    assert "Tier 1 is the lowest, tier 4 the highest" in said[3]
    assert "Lid goes in dry: no glue on it" in said[2]
    assert "No glue between the 5 feet and bottom" in said[4]
    assert "Push home: bottom, then the 5 feet up" in said[4]


@pytest.mark.seeds(few=8, full=100)
def test_no_two_glue_ups_have_one_title(seed):
    """Three rails were glued at their mitres, and then `front rail, left side rail and right side
    rail` again, to the uprights.
    """
    piece = drawn(seed).piece
    found = stages_of(piece, assembly_of(piece))
    stages = found.stages if isinstance(found, GlueUps) else ()
    titles = [GlueWords(piece=piece).title_of(each) for each in stages]
    assert len(set(titles)) == len(titles)


def test_what_was_glued_before_comes_as_one_to_what_it_is_put_to():
    titles = [
        each.title for each in glue_ups_shown(piece_of("yarn_steps"), whole_work("yarn_steps"))
    ]
    rails = "front rail, left side rail and right side rail"
    assert titles[2:4] == [rails, f"{rails} as one, to both uprights"]


def test_feet_that_no_cut_locates_are_set_out_from_edges_on_the_one_sheet():
    """By hand: 2 mm in at the corners; the post foot 160 - 36 / 2 = 142 in."""
    work, piece = whole_work("herb_stand"), piece_of("herb_stand")
    (sheet,) = glue_sheets(task_of(piece, Paper.A4, "glue-ups"), work)
    said = words_on([sheet])
    assert "back right foot: 2 from both edges." in said
    assert "Post foot: 142 from the left and 2 from the back." in said


def test_what_stands_at_an_edge_is_flush_with_it():
    """`0 from both edges` is no place that a maker would measure."""
    stages = whole_work("herb_stand").found.stages
    for off, told in (
        (((0.0, 1, True), (0.0, 2, False)), "flush with the back and the bottom"),
        (((0.0, 1, True), (30.0, 0, False)), "flush with the back and 30 from the left"),
    ):
        words = GlueWords(piece=piece_of("herb_stand"), set_out={"post foot": off})
        said = [each for stage in stages for each in words.sentences_of(stage)]
        assert f"Post foot: {told}" in said


def test_a_weight_is_told_with_what_it_lies_on():
    plates = Ballast(
        name="steel plates", mass="3.2 kg", size=("220 mm", "80 mm", "24 mm"), from_front="60 mm"
    )
    piece = replace(herb_stand, ballast=plates).build()
    found = stages_of(piece, assembly_of(piece))
    (last,) = [each for each in found.stages if "bottom" in each.dry]
    said = GlueWords(piece=piece).sentences_of(last)
    fixed = "fixed where the sheet of bottom shows, so that nothing shifts"
    assert f"In with it: steel plates, {fixed}" in said
    assert "Fix bottom with 2 panel pins in pilot holes, placed as its sheet shows" in said


def test_what_hangs_is_fixed_to_the_wall_before_it_is_hung():
    words = GlueWords(piece=piece_of("key_rack")).last_of(whole_work("key_rack").found)
    assert words[0].startswith("Fix wall cleat to the wall with 2 ")
    assert "onto wall cleat" in words[1]


def test_a_piece_without_an_order_says_why():
    piece = piece_of("tea_box")
    why = NoOrder(stuck=("lid",), reason="lid is caught between front rail and back rail.")
    work = replace(whole_work("tea_box"), found=why)
    (sheet,) = glue_sheets(task_of(piece, Paper.A4, "glue-ups"), work)
    assert "caught" in words_on([sheet])


def test_the_view_from_below_sees_underside_front_and_right():
    frame = isometric_from_below()
    for way in (DOWN, FRONT, RIGHT):
        assert dot(frame.towards_eye, way) == pytest.approx(3.0**-0.5)


def test_parts_that_nothing_joins_have_no_glue_ups():
    apart = replace(piece_of("herb_stand"), joinings=(), fixings=(), fixed=())
    found = stages_of(apart, assembly_of(apart))
    assert found.stages == ()
    assert GlueWords(piece=apart).last_of(found)


@pytest.mark.parametrize("name", ["herb_stand", "seedling_steps"])
def test_like_parts_that_come_in_are_told_apart_in_the_picture(name):
    sheets = glue_sheets(task_of(piece_of(name), Paper.A4, "glue-ups"), whole_work(name))
    named = [each.text for sheet in sheets for each in sheet.items if isinstance(each, Lettering)]
    tiers = [each.instance for each in piece_of(name).placed if each.instance.startswith("tier ")]
    assert all(named.count(each) <= 1 for each in tiers)
    assert named.count(tiers[0]) == named.count(tiers[-1]) == 1
