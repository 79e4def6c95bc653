"""The end of a run: it fits the screen, and its three answers are what was found."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from exporters.command import run
from exporters.cutting.findings import place_groups
from exporters.report.screen import Said, rows_of
from exporters.report.terminal import changes_of
from exporters.report.unbroken import NO_BREAK
from exporters.run_report import Run, Told, ending
from furniture.checks.check import Check, Level, Verdict
from furniture.checks.finding import Finding, Sense
from furniture.checks.of_piece import Group, Subject, findings_by_subject
from furniture.checks.rows.proofs import PLACES
from furniture.checks.rows.standing import TILT, TOP_PUSH
from furniture.pieces import Piece
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.solids.measure import weigh
from tests.everywhere.designs import drawn, overloaded
from tests.models import NAMES, piece_of
from tests.shop.boards.bench import board, outcome_of_model, stand, thin_board

ROWS = 24
JARGON = re.compile(
    r"\bgap \d+(\.\d+)? ?%|refuted|proven|left out:|copies|bound\b|optim|"
    r"verdict|worst case|asked|minding",
    re.IGNORECASE,
)


def _run(piece: Piece, cutting: CuttingOutcome | None) -> Run:
    weighed = weigh(piece)
    groups = (*findings_by_subject(piece, weighed), *place_groups(cutting))
    return Run(
        pieces=(Told(piece=piece, weighed=weighed, groups=groups),),
        cutting=cutting,
        of_boards=(),
        files=("sheets.pdf", "checks.pdf"),
        target=Path("out/piece"),
    )


@cache
def _of_model(name: str) -> Run:
    return _run(piece_of(name), outcome_of_model(name))


def _lines(ended: Run, columns: int = 80) -> list[str]:
    lines = [line for each in ending(ended, columns) for line in each.lines(columns)]
    return [line.replace(NO_BREAK, " ") for line in lines]


def _text(ended: Run, columns: int = 80) -> str:
    return " ".join(" ".join(_lines(ended, columns)).split())


def _is_on_one_screen(ended: Run, columns: int = 80) -> None:
    lines = _lines(ended, columns)
    assert len(lines) < ROWS, "\n".join(lines)
    assert all(len(line) <= columns for line in lines)
    text = " ".join(lines)
    assert not JARGON.search(text), JARGON.search(text)
    assert text.index("Will it stand?") < text.index("What to change?")
    assert lines[-2].endswith("start with sheets.pdf")
    for each in changes_of(ended.pieces[0].groups or ()).first:
        assert sum(f"{each.check.name}, {each.subject}"[:60] in line for line in lines) <= 1


@pytest.mark.parametrize("columns", [80, 110])
@pytest.mark.parametrize("name", NAMES)
def test_a_model_ends_on_one_screen(name: str, columns: int) -> None:
    ended = _of_model(name)
    _is_on_one_screen(ended, columns)
    text = _text(ended, columns)
    assert "Do my boards do? Yes. All " in text
    assert "overall, " in text
    assert re.search(r"\(\d+ (EUR|USD), \d+ % used\)", text)


@pytest.mark.seeds(few=12, full=100)
def test_any_piece_ends_on_one_screen_and_its_answers_are_what_was_found(seed: int) -> None:
    design = drawn(seed)
    for piece in (design.piece, overloaded(design) if design.piece.surfaces else design.piece):
        outcome = outcome_of(cutting_job(piece, design.boards, design.wishes))
        ended = _run(piece, outcome)
        _is_on_one_screen(ended)
        _is_true(ended, _text(ended))


def _is_true(ended: Run, text: str) -> None:
    """The three answers against the findings and the plan, read without the printer."""
    (told,) = ended.pieces
    findings = [each for group in told.groups or () for each in group.findings]
    fails = [e for e in findings if e.verdict is Verdict.FAIL and e.check is not PLACES]
    falls = any(each.check is TILT for each in fails)
    pushed = any(e.check is TOP_PUSH and e.verdict is Verdict.CAUTION for e in findings)
    (stands,) = re.findall(r"Will it stand\? (.*?)\. ", text)
    if falls:
        assert stands == "No"
    elif fails:
        assert stands in ("Not as it is", "On a flat floor only")
    else:
        assert (stands == "Barely") == pushed
        assert stands in ("Yes", "Barely")
    assert ("This first:" in text) == bool(fails)
    (boards,) = re.findall(r"Do my boards do\? (.*?)\.", text)
    plan = ended.cutting.plan if ended.cutting else None
    missing = 0 if plan is None else sum(each.copies for each in plan.unplaced)
    assert (boards == "No") == bool(missing)
    assert (f"{missing} part" in text) or not missing


def test_a_piece_that_lacks_a_board_ends_on_one_screen_and_says_what_to_buy() -> None:
    job = cutting_job(stand(), [board(), thin_board(widths="60 mm")])
    ended = _run(stand(), outcome_of(job))
    _is_on_one_screen(ended)
    text = _text(ended)
    assert "Do my boards do? No. 2 parts have NO PLACE on these boards" in text
    assert "board feet" in text
    bare = _run(stand(), outcome_of(cutting_job(stand())))
    _is_on_one_screen(bare)
    assert "Do my boards do? No boards are given. To buy (clear wood" in _text(bare)


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
    ended = _of_model("key_rack")
    told = replace(ended.pieces[0], groups=(Group(subject=Subject.SAW, findings=findings),))
    lines = _lines(replace(ended, pieces=(told,)))
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
