"""Boards files in the maker's unit: fractions under a heading, corners of a polygon, errors."""

from __future__ import annotations

import csv
import re

import pytest

from furniture import DesignError
from furniture.shop.boards.job import cutting_job
from tests.models import ROOT, piece_of
from tests.shop.boards.bench import MODELS, job_of_model, stand

INCH = 25.4
HEADINGS = (
    "what,board,name,x [in],y [in],length [in],width [in],corners [in],thickness [in],stock,"
    "price [USD],note\n"
)
GOOD = (
    'board,1,,,,48,5 1/8,,33/64,"cherry, sides",30,\n'
    'board,2,,,,27,7 1/2,,17/64,"cherry, panels",20,\n'
)


def _job(path, rows):
    path.write_text(HEADINGS + GOOD + rows, encoding="utf-8")
    return cutting_job(piece_of("tea_box"), path)


def _problems(path, rows):
    with pytest.raises(DesignError) as caught:
        _job(path, rows)
    return caught.value.problems


def test_inches_and_fractions_under_a_heading_are_inches(tmp_path):
    """By hand: 5 1/8 in is 130.175 mm, 4 3/4 in is 120.65 mm."""
    rows = (
        'knot,1,,10 1/2,2,1,3/4,,,,,\nsapwood,1,,,,,,"0, 4 3/4; 48, 4 1/2; 48, 5; 0, 5",,,,pale\n'
    )
    first = _job(tmp_path / "b.csv", rows).boards[0]
    assert first.greatest_width_mm == pytest.approx(130.175)
    assert first.length_mm == pytest.approx(48 * INCH)
    knot, sapwood = first.zones
    assert knot.outline[0] == pytest.approx((10.5 * INCH, 2 * INCH))
    assert knot.outline[2] == pytest.approx((11.5 * INCH, 2.75 * INCH))
    assert sapwood.outline[0] == pytest.approx((0.0, 120.65))
    assert sapwood.outline[2] == pytest.approx((48 * INCH, 5 * INCH))


def test_corners_may_be_written_with_spaces_where_no_figure_has_two_words(tmp_path):
    old = _job(tmp_path / "a.csv", 'check,1,,,,,,"0 3, 2 3.25, 0 3.5",,,,\n').boards[0].zones
    new = _job(tmp_path / "b.csv", 'check,1,,,,,,"0, 3; 2, 3 1/4; 0, 3 1/2",,,,\n').boards[0].zones
    for one, other in zip(old[0].outline, new[0].outline, strict=True):
        assert one == pytest.approx(other)


def test_corners_that_cannot_be_told_apart_are_one_kind_of_problem_with_an_example(tmp_path):
    found = _problems(tmp_path / "b.csv", 'check,1,,,,,,"0 3, 2 3 1/4, 0 3 1/2",,,,\n')
    assert {problem.parameter for problem in found} == {"b.csv line 4 corners"}
    for problem in found:
        assert "[in]" in problem.allowed
        assert ";" in problem.remedy
    example = re.search(r"'([^']+)'", found[0].allowed)
    assert example is not None
    assert _job(tmp_path / "c.csv", f'check,1,,,,,,"{example[1]}",,,,\n').boards[0].zones


@pytest.mark.parametrize(
    ("row", "where"),
    [
        ("knot,1,,ten,2,1,3/4,,,,,\n", "line 4 x"),
        ("knot,1,,,2,1,3/4,,,,,\n", "line 4 x"),
        ("board,3,,,,wide,5,,33/64,black cherry,,\n", "length"),
        ("board,3,,,,40,60,,33/64,black cherry,,\n", "width"),
        ("board,3,,,,40,5,,9,black cherry,,\n", "thickness"),
    ],
)
def test_an_inch_file_is_answered_in_inches(tmp_path, row, where):
    found = _problems(tmp_path / "b.csv", row)
    assert any(where in problem.parameter for problem in found)
    for problem in found:
        assert " mm" not in problem.remedy
        assert " in" in problem.remedy or '"' in problem.remedy
        assert " mm" not in problem.allowed
        assert " in" in problem.allowed or problem.given == "nothing"  # any length would do


def test_a_millimetre_file_is_answered_in_millimetres(tmp_path):
    path = tmp_path / "b.csv"
    path.write_text(
        "what,board,x,y,length,width,corners [mm],thickness,stock\n"
        "board,A,,,1500 mm,190 mm,,19.7 mm,thick\n"
        'knot,A,,,,,"0 3, 2",,\n'
        "knot,A,1 mm,here,5 mm,5 mm,,,\n",
        encoding="utf-8",
    )
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), path)
    found = {problem.parameter: problem for problem in caught.value.problems}
    assert "[mm]" in found["b.csv line 3 corners"].allowed
    assert "'260 mm'" in found["b.csv line 4 y"].remedy


@pytest.mark.parametrize("name", MODELS)
def test_the_models_files_say_what_was_read(name):
    """Every row of the file is a board, a width or a zone of the job, and nothing else is."""
    path = ROOT / "models" / f"{name}_boards.csv"
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if line[:1] != "#"]
    rows = list(csv.DictReader(lines))
    boards = {board.name: board for board in job_of_model(name).boards}
    assert set(boards) == {row["board"] for row in rows if row["what"] == "board"}
    for board in boards.values():
        own = [row for row in rows if row["board"] == board.name]
        zones = [row for row in own if row["what"] not in ("board", "width")]
        assert [row["what"] for row in zones] == [zone.kind.value for zone in board.zones]
        assert [row["note"] for row in zones] == [zone.description for zone in board.zones]
        widths = [row for row in own if row["what"] == "width"]
        assert len(board.stations) == (len(widths) or 2)


def test_boards_of_a_design_that_cannot_be_built_are_answered_in_its_unit(tmp_path, capsys):
    from dataclasses import replace

    from exporters.command import run
    from furniture import SteppedStand, inches
    from tests.exporters.test_command import STAND

    assert isinstance(STAND, SteppedStand)
    path = tmp_path / "b.csv"
    path.write_text(
        "what,board,length,width,thickness,stock\nboard,A,40,8,1,ash\n", encoding="utf-8"
    )
    bad = replace(STAND, base_width="20 cows", shown=inches(32))
    assert run(bad, ["--out", str(tmp_path / "out")], boards=path) == 1
    said = capsys.readouterr().err
    assert "b.csv line 1 length" in said
    assert "'length [in]'" in said
    assert "[mm]' if" not in said


@pytest.mark.parametrize(("written", "meant"), [("knott", "knot"), ("chek", "check")])
def test_a_misspelt_kind_is_answered_with_the_nearest(tmp_path, written, meant):
    (problem,) = _problems(tmp_path / "b.csv", f"{written},1,,10,2,1,3/4,,,,,\n")
    assert problem.parameter == "b.csv line 4 what"
    assert problem.remedy == f"write {meant!r}"


@pytest.mark.parametrize("written", ["bord", "plank", ""])
def test_a_misspelt_board_line_is_one_problem_and_not_one_for_each_line_after_it(tmp_path, written):
    rows = (
        f'{written},3,,,,48,,,33/64,"cherry, sides",30,\n'
        "width,3,,0,,,5,,,,,\nknot,3,,10,2,1,3/4,,,,,\n"
    )
    (problem,) = _problems(tmp_path / "b.csv", rows)
    assert problem.parameter == "b.csv line 4 what"
    if written == "bord":
        assert problem.remedy == "write 'board'"


def test_a_misspelt_heading_is_answered_with_the_nearest(tmp_path):
    path = tmp_path / "b.csv"
    path.write_text(HEADINGS.replace("length", "lenght") + GOOD, encoding="utf-8")
    with pytest.raises(DesignError) as caught:
        cutting_job(piece_of("tea_box"), path)
    assert any(problem.remedy == "write 'length'" for problem in caught.value.problems)
