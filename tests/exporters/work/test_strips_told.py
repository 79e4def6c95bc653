"""Strips that are glued up, as the checklist, work.csv and piece.json tell them."""

from __future__ import annotations

from exporters.sheets.dxf import document_of
from exporters.sheets.paper import Paper
from exporters.sheets.pens import ISO_STYLE, LineClass
from exporters.sheets.strips_picture import picture_of
from exporters.sheets.values import Lettering, Stroke
from exporters.sheets.work_sheet import work_sheets
from exporters.summary import summary_of
from exporters.work import work_record
from exporters.work.boards_of import boards_of
from exporters.work.checklist import Tick, checklist_of
from exporters.work.steps import steps_of, steps_on
from exporters.work.strips_shown import strips_shown
from exporters.work.tables import WORK_HEADER, work_rows
from furniture.making.operations import Kind
from tests.exporters.collisions import collisions_in
from tests.exporters.work.bookkeeping import faults_of
from tests.exporters.work.sheet_words import task_of
from tests.making.glued_up import of_strips


def _lines(stage: str) -> list[str]:
    piece, making = of_strips().piece, of_strips().making
    rows = [dict(zip(WORK_HEADER, row, strict=True)) for row in work_rows(piece, making)]
    return [f"{row['wood']}: {row['work']}" for row in rows if row["stage"] == stage]


def test_strips_are_jointed_laid_out_glued_and_scraped_in_words() -> None:
    """A lid of 414.3 mm with its wood to spare is 242.1 mm wide, and 15 thick when glued.

    By hand, oak at 1.379 MPa: 414.3 x 15 x 1.379 = 8.57 kN on each line, which no two light bars
    (3.02 kN each) give; two heads 50 mm from the ends and no more than 250 between are three.
    """
    lines = _lines("glue up strips")
    assert "lid, strip 2: joint the front edge true; top face to the fence" in lines
    assert "lid, strip 2: joint the back edge true; underside to the fence" in lines
    (laid,) = [each for each in lines if each.startswith("lid: strips side by side")]
    assert "strip 1 at the front edge" in laid
    (glue,) = [each for each in lines if each.startswith("lid") and "glue on both" in each]
    assert "2 joints" in glue
    assert "24 h before planing" in glue
    (takes,) = [each for each in of_strips().making.edge_gluing if each.wood == "lid"]
    assert takes.force_n is not None
    assert round(takes.force_n) == 8570
    assert (takes.lines, takes.clamps.count) == (2, 3)
    assert "lid: once it has set, scrape the glue off both faces" in lines


def test_the_checklist_has_them_before_the_wood_is_milled() -> None:
    texts = [
        line
        for each in checklist_of(of_strips().piece, of_strips().making)
        if isinstance(each, Tick)
        for line in each.lines
    ]
    glued = next(at for at, each in enumerate(texts) if "glue on both edges" in each)
    planed = next(at for at, each in enumerate(texts) if "plane to thickness" in each and
                  "lid" in each)  # fmt: skip
    assert glued < planed
    assert any("cuts, for " in each and "lid, strip" in each for each in texts)


def test_the_record_says_of_which_strips_a_part_is_glued_and_where_they_lie() -> None:
    work = work_record(of_strips().piece, of_strips().making)
    lid = next(each for each in work["workpieces"] if each["id"] == "lid")
    assert lid["from"] is None
    assert [each["id"] for each in lid["glued_of"]] == [f"lid, strip {n}" for n in (1, 2, 3)]
    assert [each["wood"] for each in work["edge_glue_ups"]] == ["lid", "bottom"]
    assert faults_of(summary_of(of_strips().piece, None, (), ("piece.json",), work=work)) == []


def test_a_part_of_strips_comes_from_the_boards_of_all_of_them() -> None:
    assert set(boards_of(of_strips().making)["lid"]) == {"T", "U"}


def test_strips_are_pictured_in_their_order_with_every_clamp_and_caul() -> None:
    """The lid of 242.1 mm has its strips at 81.37, 79.37 and 81.37; the middle clamp is below."""
    piece, making = of_strips().piece, of_strips().making
    (step,) = (each for each in steps_of(making)
               if any(one.kind is Kind.EDGE_GLUE for one in each.operations))  # fmt: skip
    shown = strips_shown(piece, making, step)
    assert shown is not None
    assert (shown.of, shown.widths) == ("lid", ("81.37", "79.37", "81.37"))
    assert (shown.clamps, shown.cauls, shown.first_edge) == (3, 3, "front edge")
    picture = picture_of(shown, ISO_STYLE)
    assert picture is not None
    words = [each.text for each in picture.items if isinstance(each, Lettering)]
    assert words == ["1", "2", "3", *shown.widths, "front edge", "lid"]
    lines = [each.line_class for each in picture.items if isinstance(each, Stroke)]
    assert lines.count(LineClass.HIDDEN) == 1
    (sheet, *_) = work_sheets(task_of(piece, Paper.A4, "work"), making)
    assert collisions_in(document_of(sheet)) == ()
    assert set(words) <= {each.text for each in sheet.items if isinstance(each, Lettering)}


def test_a_part_that_is_glued_up_names_the_steps_that_glue_it() -> None:
    making = of_strips().making
    gluing = {
        step.number
        for step in steps_of(making)
        for each in step.operations
        if each.kind in (Kind.LAY_OUT_STRIPS, Kind.EDGE_GLUE, Kind.SCRAPE)
        and {"lid", "lid, strip 1"} & {*each.takes, *each.gives}
    }
    assert len(gluing) == 3
    assert gluing <= set(steps_on(making)["lid"])
