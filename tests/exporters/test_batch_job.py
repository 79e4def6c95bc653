"""A batch in the middle of its job: each copy by its name, the boards of all."""

from __future__ import annotations

import json
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from exporters import Batch, Copies
from exporters.command import DONE, REFUSED, run
from furniture.job.figures import measurables_of
from tests.exporters.test_batch import BOARDS, BOX, LOW

BATCH = Batch(name="Market day", of=[Copies(of=BOX, count=2), LOW])
ONLY = ("--only", "parts", "--only", "work", "--only", "cutting")
NEW = replace(LOW, name="New box")
RAILS = ("front rail", "back rail", "left side rail", "right side rail")


def _run(*arguments: str) -> int:
    return run(BATCH, [*arguments, *ONLY], boards=BOARDS)


def _record(path: Path) -> dict[str, Any]:
    return json.loads(path.read_text(encoding="utf-8"))  # type: ignore[no-any-return]


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("batch") / "market"
    assert _run("--out", str(folder)) == DONE
    return folder


def _go_on(first: Path, text: str, name: str) -> tuple[int, Path]:
    path = first.parent / f"{name}.toml"
    path.write_text(f'packet = "market"\n{text}', encoding="utf-8")
    return _run("--out", str(first.parent / name), "--job", str(path)), first.parent / name


def _asked(folder: Path) -> set[str]:
    plan = _record(folder / "batch.json")["cutting_plan"]
    return {name for part in plan["parts"] for name in part["instances"]}


def test_one_copy_is_begun_and_measured(first: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its frame is glued and came out short: its lid follows, the other copy is as it was."""
    rails = ", ".join(f'"Tea box 2: {name}"' for name in RAILS)
    was = {row["id"]: row for row in _record(first / "tea-box" / "piece.json")["parts"]}
    capsys.readouterr()
    key = "lid opening"
    along, across = next(
        each.designed_mm for each in measurables_of(BOX.build()) if each.key == key
    )
    opening = f'["{along - 0.6} mm", "{across} mm"]'
    code, now = _go_on(
        first, f'[done]\nparts = [{rails}]\n[measured]\n"Tea box 2: {key}" = {opening}', "begun"
    )
    assert code == DONE
    told = capsys.readouterr().out
    assert "Tea box 2:" in told
    assert "measured: lid opening along" in told
    assert "as it stands: length of front rail and back rail drawn as 239.4 mm" in told
    begun = {row["id"]: row for row in _record(now / "tea-box-2" / "piece.json")["parts"]}
    (folder,) = (row["folder"] for row in _record(now / "batch.json")["pieces"]
                 if "Tea box 1" in row["copies"])  # fmt: skip
    other = {row["id"]: row for row in _record(now / folder / "piece.json")["parts"]}
    assert other == was
    assert begun["lid"]["length_mm"] == pytest.approx(was["lid"]["length_mm"] - 0.6)
    asked = _asked(now)
    assert not asked & {f"Tea box 2: {name}" for name in RAILS}
    record = _record(now / "batch.json")
    assert {(row["name"], *row["copies"]) for row in record["pieces"]} >= {
        ("Tea box 2", "Tea box 2")
    }
    before = _record(first / "batch.json")["cutting_plan"]["boards"]
    begun_boards = {
        board["name"] for board in before for laid in board["placements"]
        for each in laid["instances"] if each["instance"] in {f"Tea box 2: {r}" for r in RAILS}
    }  # fmt: skip
    on_them = {
        each["instance"] for board in before if board["name"] in begun_boards
        for laid in board["placements"] for each in laid["instances"]
    }  # fmt: skip
    assert not asked & on_them - {"Tea box 2: lid"}, "what lies on a begun board keeps its place"


def test_the_same_names_of_two_copies_are_told_apart(
    first: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    code, folder = _go_on(
        first,
        '[done]\nparts = ["lid", "Tea bx 2: lid", "Tea box 2: lidd"]\noperations = [1]\n'
        '[measured]\n"lid.length" = "3 mm"\n"Low box: lid.length" = "300"',
        "wrong",
    )
    assert code == REFUSED
    assert not folder.exists()
    told = capsys.readouterr().err
    assert "the job file has 6 problems" in told
    for each in ("write 'Tea box 1: lid', or with the copy that is meant", "write 'Tea box 2: lid'",
                 "write 'Tea box 1: 1', with the copy", "bare number"):  # fmt: skip
        assert each in told
    assert "wrong.toml line 3, done 'Tea box 2: lidd'" in told


def test_operations_are_those_of_a_copy(first: Path) -> None:
    work = _record(first / "tea-box" / "piece.json")["work"]["operations"]
    numbers = [row["n"] for row in work if row["sizes"]][:3]
    listed = ", ".join(f'"Tea box 1: {number}"' for number in numbers)
    spoilt = '["Tea box 2: lid"]'
    code, now = _go_on(first, f"[done]\noperations = [{listed}]\nspoilt = {spoilt}", "some")
    assert code == DONE
    assert "Tea box 2: lid" in _asked(now)
    told = _record(now / "tea-box-2" / "piece.json")["job"]["parts"]
    assert told == [{"instance": "lid", "verdict": "make new"}]
    before = _record(first / "batch.json")["cutting_plan"]["boards"]
    (board,) = (
        each["name"] for each in before for laid in each["placements"]
        if laid["instances"][0]["instance"] == "Tea box 2: lid"
    )  # fmt: skip
    lost = {each["name"]: each["length_mm"] * each["widths"][0]["width_mm"] for each in before}
    left = {
        each["name"]: each["length_mm"] * each["widths"][0]["width_mm"]
        for each in _record(now / "batch.json")["cutting_plan"]["boards"]
        if each["name"].split()[0] == board
    }
    assert sum(left.values()) < lost[board], "its wood is gone"
    done = {(each["instance"], each["axis"]) for row in work if row["n"] in numbers
            for each in row["sizes"]}  # fmt: skip
    left = _record(now / "tea-box-1" / "piece.json")["work"]["operations"]
    assert done
    assert not done & {(each["instance"], each["axis"]) for row in left for each in row["sizes"]}


def test_cuts_of_boards_go_by_the_mark_of_their_sheets(
    first: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A batch run again into the same folder may saw the boards otherwise."""
    plan = _record(first / "batch.json")["cutting_plan"]
    mark, begun = plan["mark"], next(board["name"] for board in plan["boards"] if board["cuts"])
    sawn = f"[boards.{begun}]\ncuts = 1\n"
    told = f'numbers: taken for those of work {mark} in {first}; with work = "{mark}" under [done]'
    capsys.readouterr()
    assert _go_on(first, sawn, "bare")[0] == DONE
    assert told in " ".join(capsys.readouterr().out.split()), (
        "the run says of which work they are taken"
    )
    code, _ = _go_on(first, f'[done]\nwork = ["{mark}", "Tea box 1: ..."]\n{sawn}', "half")
    assert code == REFUSED, "each copy's work has a mark of its own"
    assert _go_on(first, f'[done]\nwork = "{mark}"\n{sawn}', "marked")[0] == DONE
    assert "numbers: taken for" not in capsys.readouterr().out
    code, _ = _go_on(first, f'[done]\nwork = "{mark[::-1]}x"\n{sawn}', "other")
    assert code == REFUSED
    assert repr(mark) in capsys.readouterr().err
    with pdfplumber.open(first / "sheets.pdf") as pdf:
        page = " ".join((pdf.pages[0].extract_text() or "").split())
    assert f'"{mark}"' in page


def test_a_changed_piece_is_told_against_its_own_packet(
    first: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The low box is wider: its rails are told under its name, and the tea boxes stay."""
    changed = replace(BATCH, of=[BATCH.of[0], replace(LOW, width="210 mm"), NEW])
    out = tmp_path / "now"
    arguments = ["--out", str(out), "--against", str(first), *ONLY]
    capsys.readouterr()
    assert run(changed, arguments, boards=BOARDS) == DONE
    told = capsys.readouterr().out
    assert "Low box:" in told
    now = _record(out / "low-box" / "piece.json")["revision"]
    says = {row["instance"]: row["verdict"] for row in now["parts"]}
    changed_parts = {name for name, say in says.items() if say != "as it is"}
    assert changed_parts == {"front rail", "back rail", "lid"}, "what is as long as before stays"
    boxes = _record(out / "tea-box" / "piece.json")["revision"]
    assert {row["verdict"] for row in boxes["parts"]} == {"as it is"}
    assert "revision" not in _record(out / "new-box" / "piece.json"), "it was not there before"


def test_the_packet_of_a_batch_is_not_written_over(first: Path) -> None:
    path = first.parent / "over.toml"
    path.write_text('packet = "market"\n[done]\nparts = ["Low box: lid"]', encoding="utf-8")
    assert _run("--out", str(first), "--job", str(path)) == REFUSED


def test_a_file_to_fill_in_has_the_names_of_all_copies(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    code = run(BATCH, ["--out", str(tmp_path / "out"), "--only", "parts", "--job-template",
                       str(path)], boards=BOARDS)  # fmt: skip
    assert code == DONE
    text = path.read_text(encoding="utf-8")
    for each in ('"Tea box 1: lid"', '"Tea box 2: 1"', '# "Low box: lid.length" = "', "[boards"):
        assert each in text
    tomllib.loads(text)
