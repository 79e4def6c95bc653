"""The command line of a model script: exit codes, what is on disk after, what a maker reads."""

from __future__ import annotations

import csv
import json
import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from exporters.command import DONE, run
from furniture import Load, SteppedStand, Stock, Tier, TierRule
from tests.exporters import exchange_bench as bench
from tests.models import NAMES, ROOT

pytestmark = pytest.mark.some_models

THICK = Stock(name="thick", species="white oak", thickness="19.7 mm", moisture="9 %")
THIN = Stock(name="thin", species="white oak", thickness="10.2 mm")
STAND = SteppedStand(
    name="Small stand",
    thick=THICK,
    thin=THIN,
    base_width="260 mm",
    base_depth="180 mm",
    base_height="70 mm",
    post_width="80 mm",
    post_proud="24 mm",
    tiers=TierRule(count=2, width="220 mm", depth="110 mm", rise="120 mm"),
)


def _tree(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def packet(tmp_path_factory):
    folder = tmp_path_factory.mktemp("packet") / "out"
    assert run(STAND, ["--out", str(folder), "--date", "2026-03-14"]) == 0
    return folder


def test_the_whole_packet_stands_where_it_should(packet):
    names = set(_tree(packet))
    assert {"small-stand.step", "sheets.pdf", "parts.csv", "checks.csv", "piece.json"} <= names
    assert {"pictures/piece.png", "pictures/apart.png", "pictures/outlines.svg"} <= names
    sheets = " ".join(name for name in names if name.startswith("sheets/"))
    shown = (
        "general-arrangement",
        "exploded-view",
        "sections-and-joints",
        "work-in-order",
        "parts",
    )
    assert [kind for kind in shown if kind not in sheets] == []
    summary = json.loads((packet / "piece.json").read_text())
    assert set(summary["files"]) == names


def test_parts_csv_says_what_the_summary_says(packet):
    summary = json.loads((packet / "piece.json").read_text())
    with (packet / "parts.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["part"] for row in rows] == [part["name"] for part in summary["parts"]]
    for row, part in zip(rows, summary["parts"], strict=True):
        assert float(row["length"]) == pytest.approx(part["length_mm"], abs=0.05)
        rough = part["rough_length_mm"] - part["length_mm"]
        assert float(row["rough length"]) - float(row["length"]) == pytest.approx(rough, abs=0.1)
        assert float(row["mass kg each"]) == pytest.approx(part["mass_kg"], abs=5e-4)
        assert int(row["quantity"]) == part["quantity"]


def test_checks_csv_has_a_row_for_every_finding(packet):
    summary = json.loads((packet / "piece.json").read_text())
    with (packet / "checks.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == len(summary["checks"]) > 0
    assert {row["verdict"] for row in rows} <= {"in order", "note", "caution", "fail"}
    assert {row["kind"] for row in rows} == {"design", "bench"}
    tilts = [row for row in rows if row["check"] == "tilt before it tips"]
    assert len(tilts) == 1  # the worst edge speaks for all
    assert all("local codes" in row["basis"] for row in tilts)


def test_an_assumed_moisture_is_printed(capsys, tmp_path):
    assert run(STAND, ["--out", str(tmp_path / "x"), "--only", "parts"]) == 0
    assert "moisture not given, 8 % assumed: thin" in capsys.readouterr().out


def test_only_what_was_asked_for_stays(packet, tmp_path):
    target = tmp_path / "out"
    assert run(STAND, ["--out", str(target), "--only", "parts", "--only", "step"]) == 0
    assert set(_tree(target)) == {"small-stand.step", "parts.csv", "piece.json"}
    assert run(STAND, ["--out", str(target), "--only", "parts"]) == 0
    assert set(_tree(target)) == {"parts.csv", "piece.json"}
    assert json.loads((target / "piece.json").read_text())["mass_kg"] is None


BAD = [
    ({"base_width": 260}, "base_width"),
    ({"base_width": "260"}, "base_width"),
    ({"base_depth": "26 parsnips"}, "base_depth"),
    ({"base_height": "-70 mm"}, "base_height"),
    ({"post_width": "0 mm"}, "post_width"),
    ({"dado_depth": "25 mm"}, "dado_depth"),
    ({"rabbet_width": "19 mm"}, "rabbet_width"),
    ({"flush_allowance": float("nan")}, "flush_allowance"),
    ({"base_width": "wide"}, "base_width"),
    ({"tiers": [Tier(width="900 mm", depth="100 mm", rise="120 mm")]}, "tier 1 width"),
    ({"tiers": TierRule(count=3, width="220 mm", depth="90 mm", rise="12 mm")}, "rise"),
    ({"tiers": TierRule(count=21, width="220 mm", depth="90 mm", rise="60 mm")}, "tiers.count"),
]


@pytest.mark.parametrize(("change", "parameter"), BAD)
def test_bad_input_is_told_and_nothing_on_disk_changes(change, parameter, packet, capsys):
    before = _tree(packet)
    assert run(replace(STAND, **change), ["--out", str(packet)]) == 1
    assert parameter in capsys.readouterr().err
    assert _tree(packet) == before


def test_every_problem_of_a_design_is_told_at_once(tmp_path, capsys):
    bad = replace(STAND, base_width=260, dado_depth="15 mm", thin=Stock(species="plum"))
    assert run(bad, ["--out", str(tmp_path / "x")]) == 1
    told = capsys.readouterr().err
    for parameter in ("base_width", "dado_depth", "thin species", "thin thickness"):
        assert parameter in told
    assert "smallest change that would do" in told
    assert not (tmp_path / "x").exists()


def test_a_misspelt_parameter_is_told_with_the_nearest_name(tmp_path, capsys):
    bad = SteppedStand(thick=THICK, thin=THIN, base_widht="260 mm")
    assert run(bad, ["--out", str(tmp_path / "x")]) == 1
    told = capsys.readouterr().err
    assert "base_widht" in told
    assert "write base_width" in told


@pytest.mark.parametrize(
    "arguments",
    [[], ["--out"], ["--out", "x", "--only", "everything"], ["--out", "x", "--paper", "A0"],
     ["--out", "x", "--date", "soon"], ["--out", "x", "--nonsense"], ["--out", ""], ["--out", " "],
     ["--out", "a\0b"], ["--out", "a\x1b[1mb"], ["--out", "a\nb"], ["--out", "\udcff"],
     ["--out", "x", "--revision", "\udcff"], ["--out", "x", "--revision", "A\x1b"],
     ["--out", "n" * 300], ["--out", "a/" * 3000 + "b"]],
)  # fmt: skip
def test_a_wrong_command_line_leaves_with_1(arguments, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert run(STAND, arguments) == 1
    assert capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_name_longer_than_any_file_name_still_names_files(tmp_path):
    piece = STAND.build()
    for name in ("n" * 300, "木" * 90, "𠀀" * 90):
        bad = replace(piece, name=name)
        assert run(bad, ["--out", str(tmp_path / name[0]), "--only", "step"]) == 0


@pytest.mark.parametrize(("name", "who"), [("SIGINT", "by hand"), ("SIGTERM", "by the system")])
def test_a_stop_at_any_step_says_what_stands(name, who, tmp_path):
    target, told = tmp_path / "out", tmp_path / "told"
    arguments = ["--out", str(target), "--only", "parts"]
    assert run(replace(STAND, base_width="270 mm"), arguments) == 0
    piece, before = STAND.build(), _tree(target)
    stopped = finished = 0
    for number in (1, 4, 9, 16, 20, 24, 28, 32, 36, 40):

        def body(number=number):
            file = os.open(told, os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
            os.dup2(file, 1)
            os.dup2(file, 2)
            sys.stdout, sys.stderr = os.fdopen(1, "w"), os.fdopen(2, "w")
            stop = getattr(signal, name)
            bench.at_step(number, lambda: os.kill(os.getpid(), stop))
            code = run(piece, arguments)
            sys.stdout.flush()
            sys.stderr.flush()
            return code

        code, words = bench.in_child(body), told.read_text()
        assert bench.strays(tmp_path) == []
        if code == 1:
            stopped += 1
            assert f"stopped {who}" in words or f"ended {who}" in words
            assert "nothing was written" in words
            assert _tree(target) == before
        else:
            finished += 1
            assert code == 0
            assert "nothing was written" not in words
            assert _tree(target) != before
            assert run(replace(STAND, base_width="270 mm"), arguments) == 0
    assert stopped
    assert finished


def test_help_leaves_with_0(capsys):
    assert run(STAND, ["--help"]) == 0
    assert "--out" in capsys.readouterr().out


def test_a_target_that_is_not_ours_leaves_with_1(tmp_path, capsys):
    (tmp_path / "novel.txt").write_text("chapter one")
    assert run(STAND, ["--out", str(tmp_path)]) == 1
    assert "piece.json" in capsys.readouterr().err
    assert set(_tree(tmp_path)) == {"novel.txt"}


FALLS = replace(
    STAND,
    tiers=TierRule(count=2, width="220 mm", depth="140 mm", rise="220 mm"),
    loads=[
        Load(
            name="pot", on="tier 2", mass="60 kg", footprint=("60 mm", "60 mm"),
            centre_height="80 mm",
        )
    ],
)  # fmt: skip


def test_strict_leaves_with_2_when_a_check_fails_and_writes_all_the_same(tmp_path):
    target = tmp_path / "out"
    arguments = ["--out", str(target), "--only", "checks"]
    assert run(FALLS, arguments) == 0
    assert run(FALLS, [*arguments, "--strict"]) == 2
    assert (target / "checks.csv").is_file()


def test_strict_checks_whatever_only_says_and_writes_what_it_would_without(tmp_path, capsys):
    arguments = ["--only", "parts", "--date", "2026-03-14"]
    assert run(FALLS, ["--out", str(tmp_path / "a"), *arguments]) == 0
    told = capsys.readouterr().out
    assert "Not checked" in told
    assert "in order" not in told.lower()
    assert run(FALLS, ["--out", str(tmp_path / "b"), *arguments, "--strict"]) == 2
    told = capsys.readouterr().out
    assert "Not checked" not in told
    assert "fail" in told
    assert _tree(tmp_path / "a") == _tree(tmp_path / "b")


def test_the_packet_of_another_piece_goes_only_when_that_is_said(tmp_path, capsys):
    target = tmp_path / "out"
    arguments = ["--out", str(target), "--only", "parts"]
    assert run(replace(STAND, name="Tea box"), arguments) == 0
    before = _tree(target)
    assert run(STAND, arguments) == 1
    told = capsys.readouterr().err
    assert '"Tea box"' in told
    assert '"Small stand"' in told
    assert "--replace" in told
    assert _tree(target) == before
    assert run(STAND, [*arguments, "--replace"]) == 0
    assert json.loads((target / "piece.json").read_text())["slug"] == "small-stand"
    assert run(STAND, arguments) == 0


def test_a_table_that_the_maker_changed_is_kept_and_said(tmp_path, capsys):
    target = tmp_path / "out"
    arguments = ["--out", str(target), "--only", "parts"]
    assert run(STAND, arguments) == 0
    (target / "parts.csv").write_text("with my prices")
    assert run(STAND, arguments) == 0
    assert "parts (yours).csv" in capsys.readouterr().err
    assert (target / "parts (yours).csv").read_text() == "with my prices"
    assert (target / "parts.csv").read_text().startswith("number,part")
    assert run(STAND, arguments) == 0
    assert set(_tree(target)) == {"parts.csv", "parts (yours).csv", "piece.json"}


def test_a_target_that_is_taken_is_told_before_the_plan_is_looked_for(tmp_path, monkeypatch):
    from exporters.cutting import planning

    def too_late(*_):
        raise AssertionError

    monkeypatch.setattr(planning, "planned", too_late)
    (tmp_path / "novel.txt").write_text("chapter one")
    assert run(STAND, ["--out", str(tmp_path)]) == 1
    (tmp_path / "plain").write_text("text")
    assert run(STAND, ["--out", str(tmp_path / "plain" / "out")]) == 1


@pytest.mark.parametrize("name", NAMES)
def test_parts_alone_never_load_the_kernel(name, tmp_path):
    code = (
        "import runpy, sys\n"
        f"sys.argv = ['model', '--out', {str(tmp_path / 'x')!r}, '--only', 'parts']\n"
        "try:\n"
        f"    runpy.run_path({str(ROOT / 'models' / (name + '.py'))!r}, run_name='__main__')\n"
        "except SystemExit as done:\n"
        "    assert done.code == 0, done.code\n"
        "print(sorted({'OCP', 'cadquery', 'ezdxf', 'vtkmodules'} & set(sys.modules)))\n"
    )
    result = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert result.stdout.splitlines()[-1] == "[]"


def test_a_script_with_bad_input_shows_no_traceback(tmp_path):
    script = tmp_path / "bad.py"
    text = (ROOT / "models" / "herb_stand.py").read_text()
    script.write_text(text.replace('base_width="320 mm"', "base_width=320"))
    result = subprocess.run(
        [sys.executable, str(script), "--out", str(tmp_path / "x")],
        cwd=ROOT, capture_output=True, text=True, env={"PYTHONPATH": str(ROOT), "PATH": ""},
        check=False,
    )  # fmt: skip
    assert result.returncode == 1
    assert "base_width" in result.stderr
    assert "Traceback" not in result.stderr
    assert not (tmp_path / "x").exists()


def test_a_reader_that_goes_away_makes_no_packet_unwritten(tmp_path: Path) -> None:
    target = tmp_path / "out"
    command = [sys.executable, "models/key_rack.py", "--out", str(target), "--only", "parts"]
    with subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as made:
        assert made.stdout is not None
        assert made.stderr is not None
        made.stdout.close()
        told = made.stderr.read()
        assert made.wait() == DONE
    assert told == ""
    assert (target / "piece.json").is_file()
