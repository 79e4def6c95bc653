"""The end of a run: it fits the screen, and its three answers are what was found."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from exporters.command import run
from exporters.report.screen import COLUMNS, Said, rows_of
from exporters.report.standing import standing_answer
from exporters.report.terminal import changes_of
from exporters.report.words import counted as words_counted
from exporters.run_report import Run, ending
from furniture.checks.check import Check, Level, Verdict
from furniture.checks.finding import Finding, Sense
from furniture.checks.of_piece import Group, Subject
from furniture.checks.rows.proofs import PLACES
from furniture.checks.rows.standing import TILT, TOP_PUSH
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.units import Amounts, millimetres
from tests.everywhere.designs import drawn, overloaded
from tests.exporters.console import (
    KEPT,
    RUNS,
    WIDTHS,
    kept_file,
    lines_of,
    of_model,
    run_of,
)
from tests.models import NAMES
from tests.shop.boards.bench import board, stand, thin_board

pytestmark = pytest.mark.some_models

ROWS = 24
JARGON = re.compile(
    r"\bgap \d+(\.\d+)? ?%|refuted|proven|left out:|copies|bound\b|optim|"
    r"verdict|worst case|asked|minding|\d [+-] (x|in|mm)\b",
    re.IGNORECASE,
)


def _text(ended: Run, columns: int = 80) -> str:
    return " ".join(" ".join(lines_of(ended, columns)).split())


def _is_on_one_screen(ended: Run, columns: int = 80) -> None:
    lines = lines_of(ended, columns)
    assert len(lines) < ROWS, "\n".join(lines)
    assert all(len(line) <= columns for line in lines)
    text = " ".join(lines)
    assert not JARGON.search(text), JARGON.search(text)
    assert text.index("Will it stand?") < text.index("What to change?")
    assert lines[-2].endswith("start with sheets.pdf")
    for each in changes_of(ended.pieces[0].groups or ()).first:
        assert sum(f"{each.check.name}, {each.subject}"[:60] in line for line in lines) <= 1


@pytest.mark.some(few=7)
@pytest.mark.parametrize("columns", WIDTHS)
@pytest.mark.parametrize("name", RUNS)
def test_a_run_says_what_is_kept_of_it(name: str, columns: int) -> None:
    """Kept by `python -m tests.exporters.console`: read what has changed before you keep it."""
    assert lines_of(RUNS[name](), columns) == kept_file(name, columns).read_text().splitlines()


def test_nothing_is_kept_of_a_run_that_is_no_more() -> None:
    wanted = {kept_file(name, columns) for name in RUNS for columns in WIDTHS}
    assert set(KEPT.iterdir()) == wanted


@pytest.mark.parametrize("columns", [80, 110])
@pytest.mark.parametrize("name", NAMES)
def test_a_model_ends_on_one_screen(name: str, columns: int) -> None:
    ended = of_model(name)
    _is_on_one_screen(ended, columns)
    text = _text(ended, columns)
    assert "Do my boards do? Yes. All " in text
    assert "overall, " in text
    assert re.search(r"\(\d+ (EUR|USD), \d+ % used\)", text)


@pytest.mark.seeds(few=3, full=100)
def test_any_piece_ends_on_one_screen_and_its_answers_are_what_was_found(seed: int) -> None:
    design = drawn(seed)
    for piece in (design.piece, overloaded(design) if design.piece.surfaces else design.piece):
        outcome = outcome_of(cutting_job(piece, design.boards, design.wishes))
        ended = run_of(piece, outcome)
        _is_on_one_screen(ended)
        _is_true(ended, _text(ended))


def test_many_long_findings_and_parts_without_a_place_are_on_one_screen() -> None:
    """Where three findings in full do not fit beside what is said of the boards, fewer are told."""
    narrow = cutting_job(stand(), [board(widths="25 mm"), thin_board(widths="25 mm")])
    ended = run_of(stand(), outcome_of(narrow))
    (told,) = ended.pieces
    groups = (*(told.groups or ()), Group(subject=Subject.JOINTS, findings=_long()))
    piece = replace(told.piece, name="A small stand for the window of the long kitchen, the second")
    target = Path("out") / "a folder of a long name" / "and one in it" / "and another one in that"
    _is_on_one_screen(
        replace(ended, pieces=(replace(told, piece=piece, groups=groups),), target=target)
    )


def _long() -> tuple[Finding, ...]:
    """Four findings that have much to say."""
    return tuple(
        replace(
            _found(_check(name), 3.0, cautions=1.0),
            subject=", ".join(f"tier {number}" for number in range(1, 26)),
        )
        for name in ("one", "two", "three", "four")
    )


@pytest.mark.parametrize("columns", [40, *WIDTHS])
def test_no_heading_stands_alone_where_the_screen_is_short(columns: int) -> None:
    """Without boards it said "To buy:" and, for want of room, nothing that is to be bought."""
    ended = run_of(stand(), outcome_of(cutting_job(stand())))
    (told,) = ended.pieces
    groups = (*(told.groups or ()), Group(subject=Subject.JOINTS, findings=_long()))
    said = ending(replace(ended, pieces=(replace(told, groups=groups),)), columns)
    for each, below in pairwise(said):
        assert not (each.text.endswith(":") and re.match(r"\d+ more ", below.text))
    assert columns <= COLUMNS or any(each.text.startswith("To buy: thick: ") for each in said)


def test_two_that_fail_by_one_check_are_one_and_both_are_named() -> None:
    """It said that two checks fail, and told one of them."""
    check = _check("crushing")
    found = [replace(_found(check, value, cautions=1.0, fails=2.0), subject=f"tier {n}")
             for n, value in ((1, 3.0), (2, 4.0))]  # fmt: skip
    groups = (Group(subject=Subject.JOINTS, findings=tuple(found)),)
    show = Amounts(shown=millimetres())
    (told,) = changes_of(groups).first
    assert told.subject == "tier 2 (also 1)"
    assert standing_answer(groups, show).says.startswith("1 check fails, see below.")
    assert words_counted(groups).startswith("1 fails, ")


def _is_true(ended: Run, text: str) -> None:
    """The three answers against the findings and the plan, read without the printer."""
    (told,) = ended.pieces
    findings = [each for group in told.groups or () for each in group.findings]
    fails = [e for e in findings if e.verdict is Verdict.FAIL and e.check is not PLACES]
    falls = any(each.check is TILT for each in fails)
    tipped = any(
        each.check in (TOP_PUSH, TILT) and each.verdict is Verdict.CAUTION for each in findings
    )
    (stands,) = re.findall(r"Will it stand\? (.*?)\. ", text)
    if falls:
        assert stands == "No"
    elif fails:
        assert stands in ("Not as it is", "On a flat floor only")
    else:
        assert (stands == "Barely") == tipped
        assert stands in ("Yes", "Barely")
    assert ("This first:" in text) == bool(fails)
    (in_all,) = re.findall(r"In all: (.*?)\.", text)
    counted = sum(int(n) for n in re.findall(r"(\d+) (?:fails?|cautions?)(?=,|$)", in_all))
    changes = changes_of(told.groups or ())
    assert counted == len(changes.first) + changes.more
    for count in re.findall(r"(\d+) checks? fails?, see below", text):
        assert re.match(rf"{count} fails?,", in_all)
    (boards,) = re.findall(r"Do my boards do\? (.*?)\.", text)
    plan = ended.cutting.plan if ended.cutting else None
    missing = 0 if plan is None else sum(each.copies for each in plan.unplaced)
    assert (boards == "No") == bool(missing)
    assert (f"{missing} part" in text) or not missing


def test_a_piece_that_lacks_a_board_ends_on_one_screen_and_says_what_to_buy() -> None:
    job = cutting_job(stand(), [board(), thin_board(widths="60 mm")])
    ended = run_of(stand(), outcome_of(job))
    _is_on_one_screen(ended)
    text = _text(ended)
    assert "Do my boards do? No. 2 parts have NO PLACE on these boards" in text
    assert "board feet" in text
    bare = run_of(stand(), outcome_of(cutting_job(stand())))
    _is_on_one_screen(bare)
    assert "Do my boards do? No boards are given. To buy: thick: white oak 4/4" in _text(bare)


def _check(name: str, sense: Sense = Sense.AT_MOST) -> Check:
    level = Level(when="said here")
    return Check(name=name, unit="mm", sense=sense, fails=level, cautions=level)


def _found(
    check: Check, value: float, *, cautions: float | None = None, fails: float | None = None
) -> Finding:
    return Finding(
        check=check, subject="lid", value=value, basis="",
        limits=check.limits(cautions=cautions, fails=fails), advice=f"mend the {check.name}",
    )  # fmt: skip


@pytest.mark.some(few=1)
@pytest.mark.parametrize("many", [2, 5, 20])
def test_a_batch_ends_on_one_screen_with_what_fails_first(many: int) -> None:
    """Every piece has its sentence or is counted; the one that fails is never the one left out."""
    sound = of_model("tea_box")
    seeds = (seed for seed in range(1, 50) if drawn(seed).piece.surfaces)
    fails = run_of(overloaded(drawn(next(seeds))), None)
    assert any(e.verdict is Verdict.FAIL for g in fails.pieces[0].groups or () for e in g.findings)
    ended = replace(sound, pieces=(*(sound.pieces * (many - 1)), *fails.pieces))
    lines = lines_of(ended)
    assert len(lines) < ROWS
    text = " ".join(lines)
    told = text.count("Will it stand?")
    counted = re.search(r"(\d+) more pieces?:", text)
    assert told + (int(counted[1]) if counted else 0) == many
    assert fails.pieces[0].piece.name in text
    assert "Do my boards do?" in text


def test_parts_without_a_place_are_no_failure_of_the_design() -> None:
    job = cutting_job(stand(), [board(), thin_board(widths="60 mm")])
    text = _text(run_of(stand(), outcome_of(job)))
    assert "the boards do not hold every part" in text
    assert re.search(r"In all: (nothing fails|\d+ fails?),", text)


def test_what_fails_comes_first_and_then_what_is_farthest_over_its_limit() -> None:
    """By hand: 3 of 1 is 3 times, 0.25 where 1 is needed 4 times, 1.5 of 1 half as much."""
    findings = (
        _found(_check("a"), 1.5, cautions=1.0),
        _found(_check("b"), 3.0, cautions=1.0),
        _found(_check("c", Sense.AT_LEAST), 0.25, cautions=1.0),
        _found(_check("d"), 1.1, fails=1.0),
        _found(_check("b"), 2.0, cautions=1.0),
    )
    changes = changes_of((Group(subject=Subject.STANDING, findings=findings),))
    assert [each.check.name for each in changes.first] == ["d", "c", "b"]
    assert changes.first[2].value == 3.0
    assert changes.more == 1
    ended = of_model("key_rack")
    told = replace(ended.pieces[0], groups=(Group(subject=Subject.SAW, findings=findings),))
    lines = lines_of(replace(ended, pieces=(told,)))
    (more,) = [line for line in lines if line.strip() == "1 more in checks.pdf"]
    assert not any("mend the a" in line for line in lines), more


def test_long_advice_is_cut_with_a_word_on_where_the_rest_is() -> None:
    said = Said(text="cut " * 100, indent=5, most=2, more="... (checks.pdf)")
    lines = said.lines(80)
    assert len(lines) == 2
    assert lines[-1].endswith("... (checks.pdf)")
    assert rows_of([Said(text="x" * 200)], 80) == 3


def test_quiet_says_only_what_fails(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    boards = [board(), thin_board()]
    arguments = ["--out", str(tmp_path / "x"), "--only", "cutting", "--quiet"]
    assert run(stand(), arguments, boards=boards) == 0
    assert capsys.readouterr() == ("", "")
    assert run(stand(), arguments, boards=[board(), thin_board(widths="60 mm")]) == 0
    assert "NO PLACE" in capsys.readouterr().out


def test_parts_alone_have_their_size_and_say_that_nothing_was_checked(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert run(stand(), ["--out", str(tmp_path / "x"), "--only", "parts"]) == 0
    told = capsys.readouterr()
    assert re.search(r" x .* mm overall\n", told.out)
    assert "Not checked" in told.out
    assert "Will it stand" not in told.out
    assert "start with parts.csv" in " ".join(told.out.split())
    assert "\x1b" not in told.out + told.err
