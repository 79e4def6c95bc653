"""A packet told against an earlier one: on the screen, on a sheet, in piece.json, by letters."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from exporters.batch import Batch
from exporters.command import run
from exporters.revision.against import next_letter
from exporters.revision.marks import names_of, revised
from exporters.revision.sheet import changes_sheets
from exporters.sheets.dxf import document_of
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import InSet, Lettering, Sheet, SheetSettings
from furniture import SteppedStand, Stock, TierRule
from furniture.job import read_packet
from furniture.job.old import Drawn, Old
from tests.exporters.collisions import collisions_in

STAND = SteppedStand(
    name="Small stand",
    thick=Stock(name="thick", species="beech", thickness="19.7 mm", moisture="8 %"),
    thin=Stock(name="thin", species="beech", thickness="13.4 mm", moisture="8 %"),
    base_width="320 mm",
    base_depth="210 mm",
    base_height="84 mm",
    post_width="110 mm",
    tiers=TierRule(count=2, width="260 mm", depth="130 mm", rise="140 mm"),
)
WIDER = replace(STAND, post_width="111.2 mm")
ONLY = ["--only", "sheets", "--date", "2026-03-14"]


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("earlier") / "out"
    assert run(STAND, ["--out", str(target), *ONLY]) == 0
    return target


@pytest.fixture(scope="module")
def second(first: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("later") / "out"
    assert run(WIDER, ["--out", str(target), "--against", str(first), *ONLY]) == 0
    return target


def _record(folder: Path) -> dict[str, Any]:
    record: dict[str, Any] = json.loads((folder / "piece.json").read_text(encoding="utf-8"))
    return record


def _letters(folder: Path) -> dict[str, str]:
    return {row["name"]: row["revision"] for row in _record(folder)["sheets"]}


def _texts(path: Path) -> list[str]:
    return [text.dxf.text for text in ezdxf.readfile(path).modelspace().query("TEXT")]


def test_piece_json_tells_every_part(second: Path) -> None:
    record = _record(second)
    revision = record["revision"]
    assert revision["letter"] == "A"
    told = {row["instance"]: row for row in revision["parts"][: len(record["placements"])]}
    assert set(told) == {row["instance"] for row in record["placements"]}
    assert {name for name, row in told.items() if row["verdict"] == "trim"} == {
        "left stub", "right stub", "lid",
    }  # fmt: skip
    assert told["post"]["verdict"] == "make new"
    assert "1.2 mm too narrow" in told["post"]["why"]
    assert told["left stub"]["off"][0]["mm"] == pytest.approx(0.6)
    assert told["left stub"]["from"] == "left stub"
    assert revision["parts"][-1] | {"serves": []} == revision["parts"][-1] | {
        "instance": "post", "verdict": "not needed any more", "from": "post", "serves": [],
    }  # fmt: skip


def test_sheets_of_what_changed_carry_the_letter_and_others_keep_theirs(second: Path) -> None:
    letters = _letters(second)
    for name in ("left-stub", "right-stub", "post", "lid", "what-changed", "general-arrangement"):
        assert letters[name] == "A", name
    for name in ("front-rail", "side-rail", "tier-1-2", "order-of-assembly"):
        assert letters.get(name, "-") == "-", name


def test_numbers_stay_and_the_list_stands_before_them(first: Path, second: Path) -> None:
    old = {path.name for path in (first / "sheets").iterdir()}
    new = {path.name for path in (second / "sheets").iterdir()}
    assert new == old | {"00-what-changed.dxf"}
    assert _record(second)["files"][0] == "sheets/00-what-changed.dxf"


def test_a_sheet_that_did_not_change_is_the_same_file(first: Path, second: Path) -> None:
    name = next(path.name for path in (first / "sheets").glob("*-front-rail.dxf"))
    assert _texts(first / "sheets" / name) == _texts(second / "sheets" / name)


def test_the_sheet_says_what_to_do(second: Path) -> None:
    told = " ".join(_texts(second / "sheets" / "00-what-changed.dxf"))
    for words in ("plane 0.6 mm off the", "by hand", "what was cut is 1.2 mm", "make new"):
        assert words in told, words


def test_the_list_comes_first_on_the_screen(
    first: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = ["--out", str(tmp_path / "x"), "--only", "parts", "--against", str(first)]
    assert run(WIDER, target) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith(f"Against {first}"[:40])
    assert any(line.startswith("  post: make new (what was cut is 1.2 mm") for line in lines)


def test_letters_go_on_when_the_same_folder_is_replaced(first: Path, tmp_path: Path) -> None:
    """Told against the packet that is replaced: A, then B for what changed since, A stays."""
    target = tmp_path / "out"
    assert run(WIDER, ["--out", str(target), "--against", str(first), *ONLY]) == 0
    lower = replace(WIDER, tiers=replace(STAND.tiers, width="250 mm"))
    assert run(lower, ["--out", str(target), "--against", str(target), *ONLY]) == 0
    letters = _letters(target)
    assert letters["left-stub"] == "A"
    assert letters["front-rail"] == "-"
    stub = next(row for row in _record(target)["sheets"] if row["name"] == "left-stub")
    assert "104.4" in stub["changed"]
    assert Counter(_texts(target / stub["file"]))["A"] > 0, "what A changed is still marked A"
    assert {letter for name, letter in letters.items() if name.startswith("tier")} == {"B"}


def test_what_cannot_be_compared_with_is_refused_and_changes_nothing(
    first: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "out"
    for folder, words in ((tmp_path / "none", "no piece.json"), (first, "another piece")):
        design = replace(WIDER, name="Other") if folder is first else WIDER
        assert run(design, ["--out", str(target), "--against", str(folder), *ONLY]) == 1
        assert words in capsys.readouterr().err
        assert not target.exists()
    batch = Batch(name="Day", of=[STAND])
    assert run(batch, ["--out", str(target), "--against", str(first), *ONLY]) == 1
    assert "run that piece alone" in capsys.readouterr().err


def test_the_next_letter_follows_the_last() -> None:
    def old(*letters: str) -> Old:
        sheets = {str(at): Drawn(revision=each, says=()) for at, each in enumerate(letters)}
        return Old(name="x", slug="x", parts=(), sheets=sheets)

    assert next_letter(old()) == "A"
    assert next_letter(old("-", "")) == "A"
    assert next_letter(old("A", "C", "-")) == "D"
    assert next_letter(old("Z")) == "AA"
    assert next_letter(old("final")) == "A"


def test_marks_stand_clear_and_only_at_what_changed(first: Path) -> None:
    """A mark at each changed figure, in nobody's way; none where the sheet says what it said."""
    from exporters.revision.against import Against
    from furniture.job import verdicts_of

    old, piece = read_packet(first), WIDER.build()
    against = Against(named="x", old=old, verdicts=verdicts_of(old, piece), letter="A")
    plain = sheets_of(piece, SheetSettings())
    marked = revised(plain, against)
    for before, after, name in zip(plain, marked, names_of(plain), strict=True):
        added = len(after.items) - len(before.items)
        is_changed = _letter(after) == "A"
        assert (added > 0) == is_changed, name
        assert collisions_in(document_of(after)) == collisions_in(document_of(before)), name
    for sheet in changes_sheets(piece, against, SheetSettings(), len(plain)):
        assert collisions_in(document_of(sheet)) == ()


def _letter(sheet: Sheet) -> str:
    (letter,) = (
        item.text
        for item in sheet.items
        if isinstance(item, Lettering) and item.in_set is InSet.REVISION
    )
    return letter
