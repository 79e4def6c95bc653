"""The cutting plan as a run gives it: report, packet, refusals, an interrupt."""

from __future__ import annotations

import csv
import io
import json
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from exporters.command import run
from exporters.cutting import boards_answer, cutting_record, planning
from exporters.cutting.tables import CUTTING_HEADER
from furniture import (
    Composition,
    CuttingWishes,
    Match,
    MatchRule,
    MeasuredBoard,
    PlacedPart,
    SawSetUp,
    Shop,
    Stock,
)
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.models import ROOT
from tests.shop.boards.bench import board, stand, thin_board

SHOP = Shop(saw=SawSetUp(shortest_rip="150 mm", shortest_crosscut="100 mm"))
PLAN_ALONE = ("--only", "cutting", "--date", "2026-01-01")


@pytest.fixture(scope="module")
def packet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packet of a stand with its plan alone."""
    target = tmp_path_factory.mktemp("plan") / "out"
    arguments = ["--out", str(target), *PLAN_ALONE]
    assert run(stand(), arguments, boards=[board(), thin_board()], shop=SHOP) == 0
    return target


def test_the_report_says_yield_what_is_missing_why_and_what_to_buy():
    job = cutting_job(stand(), [board(price="30 EUR"), thin_board(widths="60 mm")], saw=SHOP.saw)
    outcome = outcome_of(job)
    text = "\n".join(boards_answer(outcome))
    assert "boards A and T (30 EUR, " in text
    assert "white oak 4/4" in text
    nothing = "\n".join(boards_answer(outcome_of(cutting_job(stand()))))
    assert nothing.startswith("No boards are given.\nTo buy: thick: ")
    assert "board feet" in nothing
    assert "m3" in nothing


def test_a_sheet_is_bought_by_its_size_and_thickness_not_by_board_feet():
    """Nor is it planed: it is as thick as its stock."""
    ply = Stock(name="ply", species="birch plywood 6.5 mm", thickness="6.2 mm")
    shelf = PlacedPart(name="shelf", stock=ply, length="280 mm", width="150 mm")
    outcome = outcome_of(cutting_job(Composition(parts=shelf).build()))
    text = "\n".join(boards_answer(outcome))
    assert "ply: birch plywood 6.5 mm, 6.2 mm thick: 1 of 610 x " in text
    assert not any(word in text for word in ("board f", "/4", "m3", "faults ask"))
    (bought,) = cutting_record(outcome)["to_buy"]
    assert (bought["quarters"], bought["board_feet"]) == (None, None)
    assert bought["boards"][0]["thickness_mm"] == 6.2
    small = MeasuredBoard(
        name="S", stock="ply", length="200 mm", widths="100 mm", thickness="6.2 mm"
    )
    there = outcome_of(cutting_job(Composition(parts=shelf).build(), [small]))
    (left,) = cutting_record(there)["unplaced"]
    assert left["would_do"]["thickness_mm"] == 6.2


def test_a_packet_with_the_plan_alone_needs_no_solids_and_is_the_same_twice(packet, tmp_path):
    """Once in a process of its own, which says whether the kernel was imported, once here."""
    script = (
        "import sys\n"
        "from exporters.command import run\n"
        "from tests.shop.boards.bench import board, stand, thin_board\n"
        "from tests.exporters.test_cutting_runs import PLAN_ALONE, SHOP\n"
        "piece = stand()\n"
        "before = 'OCP' in sys.modules\n"
        "boards = [board(), thin_board()]\n"
        "code = run(piece, ['--out', sys.argv[1], *PLAN_ALONE], boards=boards, shop=SHOP)\n"
        "print(code, before, 'OCP' in sys.modules)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(tmp_path / "one")],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.splitlines()[-1] == "0 False False", done.stdout
    texts = []
    for target in (tmp_path / "one", packet):
        files = json.loads((target / "piece.json").read_text(encoding="utf-8"))["files"]
        texts.append({name: (target / name).read_bytes() for name in files})
    assert texts[0] == texts[1]
    assert {"cutting.csv", "pictures/boards.png", "sheets.pdf", "piece.json"} <= set(texts[0])
    assert any(name.startswith("sheets/01-board") for name in texts[0])
    rows = list(csv.reader(io.StringIO(texts[0]["cutting.csv"].decode("utf-8"))))
    assert tuple(rows[0]) == CUTTING_HEADER


def test_without_boards_the_packet_says_what_to_buy_and_has_no_plan(tmp_path, capsys):
    target = tmp_path / "out"
    assert run(stand(), ["--out", str(target), "--only", "parts", "--only", "cutting"]) == 0
    record = json.loads((target / "piece.json").read_text(encoding="utf-8"))["cutting_plan"]
    assert record["status"] == "no boards"
    assert record["proof"] is None
    assert {each["stock"] for each in record["to_buy"]} == {"thick", "thin"}
    assert not (target / "cutting.csv").exists()
    assert "board feet" in capsys.readouterr().out
    assert run(stand(), ["--out", str(target), "--only", "parts"]) == 0
    assert json.loads((target / "piece.json").read_text())["cutting_plan"] is None


def test_bad_boards_are_refused_and_the_old_packet_stays(packet, capsys):
    before = {path: path.read_bytes() for path in packet.rglob("*") if path.is_file()}
    bad = [board(thickness="12 mm"), thin_board(length="-3 mm")]
    assert run(stand(), ["--out", str(packet), *PLAN_ALONE], boards=bad, shop=SHOP) == 1
    text = capsys.readouterr().err
    assert "board 1 (A) thickness" in text
    assert "board 2 (T) length" in text
    assert {path: path.read_bytes() for path in packet.rglob("*") if path.is_file()} == before


def test_an_interrupt_takes_the_best_plan_so_far(monkeypatch):
    """The first report of progress is answered by the signal that Ctrl-C sends."""
    monkeypatch.setattr(planning, "QUIET_SECONDS", 0.0)

    class Impatient(io.StringIO):
        def write(self, text: str) -> int:
            if not self.getvalue():
                signal.raise_signal(signal.SIGINT)
            return super().write(f"{text}\n")

    handler = signal.getsignal(signal.SIGINT)
    stream = Impatient()
    monkeypatch.setattr("builtins.print", lambda text, file: file.write(text))
    outcome = planning.planned(cutting_job(stand(), [board(), thin_board()], saw=SHOP.saw), stream)
    assert outcome.plan is not None
    assert outcome.plan.rounds == 1
    assert outcome.plan.boards
    said = stream.getvalue().splitlines()
    assert all(line.startswith("Looking for a better cutting plan, ") for line in said[:-1])
    assert all("every part has a place" in line for line in said)
    assert said[-1].startswith("Stopped by hand. The best plan so far is taken: ")
    assert signal.getsignal(signal.SIGINT) is handler


def test_a_match_that_no_board_can_keep_says_what_no_board_has() -> None:
    wishes = CuttingWishes(
        matches=[Match(name="curl", rule=MatchRule.CENTRED_ON_FIGURE, on="lid", price="1 EUR")],
    )
    job = cutting_job(stand(), [board(), thin_board()], wishes, SHOP.saw)
    lines = boards_answer(outcome_of(job))
    assert "Wish not met: curl (worth 1 EUR): no board has a zone marked 'figure'." in lines


def test_a_match_of_unlike_stocks_says_that_no_board_suits_all() -> None:
    together = Match(
        name="pair", rule=MatchRule.SAME_BOARD, on=["lid", "front rail"], price="1 EUR"
    )
    wishes = CuttingWishes(matches=[together])
    job = cutting_job(stand(), [board(), thin_board()], wishes, SHOP.saw)
    lines = boards_answer(outcome_of(job))
    told = "its parts are of different stocks, and no board suits all"
    assert f"Wish not met: pair (worth 1 EUR): {told}." in lines
