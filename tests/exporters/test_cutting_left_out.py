"""Parts without a place are said first and everywhere, and count as a failed check."""

from __future__ import annotations

import csv
import json
import re
import signal
from dataclasses import replace

import matplotlib.image
import pytest

from exporters import command
from exporters.command import run
from exporters.cutting import boards_answer, planning
from exporters.cutting.findings import place_groups
from exporters.cutting.sheets import cutting_sheets
from exporters.sheets.dxf import document_of
from exporters.sheets.values import Lettering, SheetSettings
from furniture import SawSetUp, Shop, SteppedStand, TierRule, inches
from furniture.checks.finding import Verdict
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.units import Reader
from furniture.units.showing import MM_PER_INCH
from tests.exporters.collisions import collisions_in
from tests.shop.boards.bench import THICK, THIN, board, stand, thin_board

SHOP = Shop(saw=SawSetUp(shortest_rip="150 mm", shortest_crosscut="100 mm"))
NARROW = [board(), thin_board(widths="60 mm")]
WIDE = [board(), thin_board()]


@pytest.fixture(scope="module")
def outcome():
    return outcome_of(cutting_job(stand(), NARROW, saw=SHOP.saw))


def test_the_report_names_the_part_the_rule_and_the_board_that_would_do(outcome):
    first, buy, others, *lines = boards_answer(outcome)
    assert first == "No. 2 parts have NO PLACE on these boards: tier 1, tier 2."
    assert all("board T is 60.5 mm too narrow" in line and "would do" in line for line in lines[:2])
    assert buy.startswith("To buy: ")
    assert others.startswith("The other 9 parts come from boards A and T (")
    assert boards_answer(outcome_of(cutting_job(stand(), WIDE, saw=SHOP.saw)))[0].startswith("Yes.")
    assert boards_answer(outcome_of(cutting_job(stand())))[0].startswith("No boards are given.")


def test_copies_of_one_part_are_named_and_not_counted_before_both_their_names():
    """`2 x tier 1, tier 2` are three parts to a reader."""
    even = SteppedStand(
        name="Even", thick=THICK, thin=THIN, base_width="260 mm", base_depth="180 mm",
        base_height="70 mm", post_width="80 mm",
        tiers=TierRule(count=2, width="220 mm", depth="110 mm", rise="120 mm"),
    ).build()  # fmt: skip
    first, *lines = boards_answer(outcome_of(cutting_job(even, NARROW, saw=SHOP.saw)))
    assert first == "No. 2 parts have NO PLACE on these boards: tier 1, tier 2."
    assert any(line.startswith("tier 1 and tier 2: ") for line in lines)


def test_the_least_thickness_that_would_do_is_one_that_a_tape_shows():
    """15.7 mm is a little under 5/8 in, which is no answer to one who buys by it."""
    piece = replace(stand(), shown=inches(16))
    told = " ".join(boards_answer(outcome_of(cutting_job(piece, [board(widths="25 mm")]))))
    assert "thick, would do" in told
    for text in re.findall(r"at least (.*?) thick, would do", told):
        thick = Reader(piece.shown).length("thick", text)
        assert any(0.0 <= thick - stock < MM_PER_INCH / 16 for stock in (19.7, 10.2)), text


def test_every_board_sheet_says_it_above_the_drawing_and_nothing_collides(outcome):
    sheets = cutting_sheets(stand(), outcome, SheetSettings(), 1)
    drawings = [sheet for sheet in sheets if not sheet.name.endswith("lists")]
    assert drawings
    for sheet in drawings:
        texts = [item for item in sheet.items if isinstance(item, Lettering)]
        (loud,) = [text for text in texts if "NO PLACE" in text.text]
        assert loud.height >= 1.3 * sheet.style.text_height_mm
        assert loud.at[1] > max(t.at[1] for t in texts if t.text in ("post", "lid, strip 1", "1"))
        assert collisions_in(document_of(sheet)) == ()


def test_each_part_left_out_is_a_failed_check(outcome):
    (group,) = place_groups(outcome)
    assert [each.subject for each in group.findings] == ["tier 1", "tier 2"]
    assert {each.verdict for each in group.findings} == {Verdict.FAIL}
    (fine,) = place_groups(outcome_of(cutting_job(stand(), WIDE, saw=SHOP.saw)))
    assert [each.verdict for each in fine.findings] == [Verdict.OK]
    assert place_groups(outcome_of(cutting_job(stand()))) == ()


def test_it_is_the_answer_of_the_boards_and_strict_leaves_with_2(tmp_path, capsys):
    only = ["--only", "cutting"]
    assert run(stand(), ["--out", str(tmp_path / "a"), *only], boards=NARROW, shop=SHOP) == 0
    (answer,) = [line for line in capsys.readouterr().out.splitlines() if "NO PLACE" in line]
    assert answer.startswith("Do my boards do? No. 2 parts have NO PLACE")
    strict = ["--out", str(tmp_path / "b"), *only, "--strict"]
    assert run(stand(), strict, boards=NARROW, shop=SHOP) == 2
    assert run(stand(), strict, boards=WIDE, shop=SHOP) == 0
    summary = json.loads((tmp_path / "a" / "piece.json").read_text(encoding="utf-8"))
    assert {each["verdict"] for each in summary["checks"]} == {"fail"}
    assert summary["cutting_plan"]["status"] == "incomplete"
    with (tmp_path / "a" / "cutting.csv").open(newline="", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["what"] == "NO PLACE"]
    assert [row["name"] for row in rows] == ["tier 1", "tier 2"]
    picture = matplotlib.image.imread(tmp_path / "a" / "pictures" / "boards.png")[..., :3]
    red = (picture[..., 0] > 0.6) & (picture[..., 1] < 0.2) & (picture[..., 2] < 0.2)
    assert red.mean() > 0.03
    assert red[: red.shape[0] // 2].sum() > 0.95 * red.sum()


def test_the_checks_table_holds_it(tmp_path):
    arguments = ["--out", str(tmp_path / "c"), "--only", "cutting", "--only", "checks"]
    assert run(stand(), arguments, boards=NARROW, shop=SHOP) == 0
    with (tmp_path / "c" / "checks.csv").open(newline="", encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["check"] == "parts without a place"]
    assert [(row["where"], row["verdict"]) for row in rows] == [
        ("tier 1", "fail"),
        ("tier 2", "fail"),
    ]
    assert (tmp_path / "c" / "checks.pdf").stat().st_size > 0


def test_a_second_interrupt_ends_it_and_leaves_the_last_packet(tmp_path, capsys, monkeypatch):
    """Asked twice, nothing is written; the plan is not waited for."""

    def twice(*_: object) -> None:
        signal.raise_signal(signal.SIGINT)
        signal.raise_signal(signal.SIGINT)

    target = tmp_path / "out"
    arguments = ["--out", str(target), "--only", "cutting"]
    assert run(stand(), arguments, boards=WIDE, shop=SHOP) == 0
    before = {path: path.read_bytes() for path in target.rglob("*") if path.is_file()}
    monkeypatch.setattr(planning, "outcome_of", twice)
    assert run(stand(), arguments, boards=NARROW, shop=SHOP) == 1
    assert "nothing was written" in capsys.readouterr().err
    assert {path: path.read_bytes() for path in target.rglob("*") if path.is_file()} == before


def test_the_help_names_every_output_and_what_the_exit_codes_mean(capsys):
    assert run(stand(), ["--help"]) == 0
    text = " ".join(capsys.readouterr().out.split())
    for output in command.Output:
        assert output.value in text
    for words in ("A4, A3, Letter, Tabloid", "Ctrl-C", "0 the packet is written", "has no place"):
        assert words in text
