"""A packet told against an earlier one: on the screen, on a sheet, in piece.json, by letters."""

from __future__ import annotations

import json
import shutil
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pytest

from exporters.batch import Batch
from exporters.command import run
from exporters.revision.against import Letters, next_letter
from exporters.revision.marks import names_of, revised, sheets_record
from exporters.revision.sheet import changes_sheets
from exporters.sheets.dxf import document_of
from exporters.sheets.geometry import items_box
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Figure, InSet, Lettering, Sheet, SheetSettings, Stroke
from furniture import SteppedStand, Stock, TierRule
from furniture.job import old_of
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
ONLY = ["--only", "sheets", "--parts-on", "own", "--date", "2026-03-14"]


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
    for name in ("front-rail", "side-rail"):  # off one strip with the stubs, rough shorter now
        assert letters[name] == "A", name
    for name in ("tier-1-2", "exploded-view"):
        assert letters[name] == "-", name


def test_the_steps_that_make_a_part_are_no_change_of_it(second: Path) -> None:
    """They hang on all the work: a set-up more anywhere gives every part behind it others."""
    rows = {row["name"]: row for row in _record(second)["sheets"]}
    (path,) = (second / "sheets").glob("*-post.dxf")
    assert any(text.startswith("Made in steps") for text in _texts(path))
    assert not any("Made in step" in text for text in rows["post"]["says"])


def test_numbers_stay_and_the_list_stands_before_them(first: Path, second: Path) -> None:
    old = {path.name for path in (first / "sheets").iterdir()}
    new = {path.name for path in (second / "sheets").iterdir()}
    assert new == old | {"00-what-changed.dxf"}
    assert _record(second)["files"][0] == "sheets/00-what-changed.dxf"


def test_a_sheet_that_did_not_change_is_the_same_file(first: Path, second: Path) -> None:
    name = next(path.name for path in (first / "sheets").glob("*-tier-1-2.dxf"))
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
    assert letters["exploded-view"] == "-"
    stub = next(row for row in _record(target)["sheets"] if row["name"] == "left-stub")
    assert "104.4" in stub["changed"]
    assert Counter(_texts(target / stub["file"]))["A"] > 0, "what A changed is still marked A"
    assert {letter for name, letter in letters.items() if name.startswith("tier")} == {"B"}


def test_letters_stay_without_being_told_against(second: Path, tmp_path: Path) -> None:
    """The packet that is replaced carries letters: what did not change since keeps its own."""
    target = tmp_path / "out"
    shutil.copytree(second, target)
    assert run(WIDER, ["--out", str(target), *ONLY]) == 0
    before, after = _letters(second), _letters(target)
    del before["what-changed"]
    assert after == before
    assert "A" in after.values()
    assert "revision" not in _record(target)


@pytest.fixture(scope="module")
def plain() -> tuple[Sheet, ...]:
    """The sheets of the wider stand, told against nothing."""
    return sheets_of(WIDER.build(), SheetSettings())


def test_other_words_for_the_same_are_no_change(plain: tuple[Sheet, ...]) -> None:
    """Only figures and names of the design count: a sheet worded otherwise keeps its letter."""
    piece = WIDER.build()

    def letters(change: Callable[[str], str]) -> set[str]:
        sheets = {
            row["name"]: Drawn(revision="A", says=tuple(change(each) for each in row["says"]))
            for row in sheets_record(plain)
        }
        old = replace(old_of(piece), sheets=sheets)
        again = revised(plain, Letters(old=old, letter="B"), piece)
        return {_letter(each) for each in again}

    assert letters(lambda text: text) == {"A"}
    assert letters(lambda text: text.replace("from", "off").replace("the ", "")) == {"A"}
    assert "B" in letters(lambda text: text.replace("111.2", "110")), "a figure"
    assert "B" in letters(lambda text: text.replace("front edge", "back edge")), "another face"
    assert "B" in letters(lambda text: text.replace("beech", "oak")), "another wood"


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
    assert "name the folder in which" in capsys.readouterr().err
    assert not target.exists()


def test_the_next_letter_follows_the_last() -> None:
    def old(*letters: str) -> Old:
        sheets = {str(at): Drawn(revision=each, says=()) for at, each in enumerate(letters)}
        return Old(name="x", slug="x", parts=(), sheets=sheets)

    assert next_letter(old()) == "A"
    assert next_letter(old("-", "")) == "A"
    assert next_letter(old("A", "C", "-")) == "D"
    assert next_letter(old("Z")) == "AA"
    assert next_letter(old("final")) == "A"


def test_marks_stand_clear_and_only_at_what_changed(plain: tuple[Sheet, ...]) -> None:
    """A mark at each changed figure, in nobody's way; none where the sheet says what it said."""
    from exporters.revision.against import Against
    from furniture.job import verdicts_of

    piece = WIDER.build()
    sheets = {
        row["name"]: Drawn(revision="-", says=tuple(row["says"]))
        for row in sheets_record(sheets_of(STAND.build(), SheetSettings()))
    }
    old = replace(old_of(STAND.build()), sheets=sheets)
    against = Against(named="x", old=old, verdicts=verdicts_of(old, piece), letter="A")
    marked = revised(plain, against, piece)
    for before, after, name in zip(plain, marked, names_of(plain), strict=True):
        added = len(after.items) - len(before.items)
        is_changed = _letter(after) == "A"
        assert (added > 0) == is_changed, name
        assert collisions_in(document_of(after)) == collisions_in(document_of(before)), name
    for sheet in changes_sheets(piece, against, SheetSettings(), len(plain)):
        assert collisions_in(document_of(sheet)) == ()


def test_every_dimension_that_changed_carries_its_own_mark(plain: tuple[Sheet, ...]) -> None:
    """Though all of a sheet change: the triangle stands beside the figure, or a line ties it."""
    piece = WIDER.build()
    told = [
        Counter(row["says"]) - Counter(each.text for each in _dimensions(sheet))
        for row, sheet in zip(sheets_record(plain), plain, strict=True)
    ]
    sheets = {
        name: Drawn(revision="-", says=tuple(says.elements()))
        for name, says in zip(names_of(plain), told, strict=True)
    }
    marked = revised(plain, Letters(old=replace(old_of(piece), sheets=sheets), letter="A"), piece)
    count = 0
    for before, after in zip(plain, marked, strict=True):
        added = after.items[len(before.items) :]
        lines = [item for item in added if isinstance(item, Stroke)]
        letters = [item for item in added if isinstance(item, Lettering)]
        dimensions = _dimensions(before)
        assert len(letters) == len(dimensions), before.name
        assert collisions_in(document_of(after)) == (), before.name
        for each in dimensions:
            words = items_box(part for part in each.drawn if isinstance(part, Lettering))
            near = words.grown(_BESIDE_MM)
            assert any(near.overlaps(items_box([line])) for line in lines), (before.name, each.text)
        count += len(dimensions)
    assert count > 50


_BESIDE_MM = 3.5


def _dimensions(sheet: Sheet) -> list[Figure]:
    """The figures of a sheet; the origin of running ones never changes, nor does a letter: the
    table that gives its lengths says what changed."""
    found = [item for item in sheet.items if isinstance(item, Figure)]
    return [each for each in found if each.value_mm > 0.0 and not each.text.isalpha()]


def _letter(sheet: Sheet) -> str:
    (letter,) = (
        item.text
        for item in sheet.items
        if isinstance(item, Lettering) and item.in_set is InSet.REVISION
    )
    return letter
