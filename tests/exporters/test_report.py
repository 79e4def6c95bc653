"""The report of the checks: its words and figures read back, its pictures measured with a ruler."""

from __future__ import annotations

import csv
import itertools
import json
import math
import re
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from exporters.command import run
from exporters.report.style import SMALL_SIZE, TEXT_SIZES
from exporters.report.unbroken import HELD, unbroken
from exporters.report.write import write_report
from furniture import Place, ShopRules, StandsOn
from furniture.checks.check import Check, Level, Limits
from furniture.checks.finding import Finding, Sense, Verdict, without_figure
from furniture.checks.of_piece import (
    Group,
    Setting,
    Subject,
    findings_by_subject,
    standing_of,
)
from furniture.checks.of_piece.seasons import movements_of
from furniture.checks.stability_findings import tilt_asked, tilt_findings
from furniture.pieces import Stance
from furniture.rules import ALL_RULES
from furniture.solids.measure import weigh
from furniture.units import Amounts
from tests.checks.of_piece_cases import loaded_stand
from tests.exporters.read_report import read, rows_on
from tests.models import NAMES, piece_of
from tests.program_text import program_text

pytestmark = pytest.mark.some_models

POINTS_PER_MM = 72 / 25.4
MOST_PAGES = {"seedling_steps": 2, "herb_stand": 2}
"""On a floor and without boards, where the table and the plan of their scripts spare them some
cautions."""
PENS = {"margin": 0.45, "light": 0.78}
"""Greys that lines of the pictures are drawn in: margins of the centre, and tiers."""


@pytest.fixture(scope="module")
def packet(tmp_path_factory):
    """The checks of a stand that stands on a table, as a maker gets them."""
    folder = tmp_path_factory.mktemp("report") / "out"
    arguments = ["--out", str(folder), "--only", "checks", "--date", "2026-03-14"]
    place = Place(climate="maritime house", stands_on=StandsOn.TABLE)
    assert run(loaded_stand(), arguments, place=place) == 0
    return folder


@pytest.fixture(scope="module")
def summary(packet):
    return json.loads((packet / "piece.json").read_text())


@pytest.fixture(scope="module")
def report(packet):
    return read(packet / "checks.pdf")


def test_the_report_stands_in_the_packet_and_is_listed(summary):
    assert set(summary["files"]) == {"checks.csv", "checks.pdf", "rules.csv", "piece.json"}
    assert summary["place"]["climate"] == "maritime house"
    assert summary["place"]["stands_on"] == "table"


def test_it_says_how_many_checks_are_in_order(report, summary):
    design = [each for each in summary["checks"] if each["kind"] == "design"]
    count = {
        verdict: sum(each["verdict"] == verdict for each in design)
        for verdict in ("ok", "note", "caution", "fail")
    }
    assert f"{count['fail']} fail" in report.text
    assert f"{count['caution']} caution" in report.text
    assert f"{count['ok']} in order" in report.text


def test_words_come_before_figures_and_codes_decide(report):
    first = report.pages[0].extract_text()
    assert "local codes and tests of the finished piece decide" in first
    assert "licensed" in first
    words = report.pages[0].extract_words()
    told = next(word for word in words if word["text"] == "Standing:")
    pictured = next(word for word in words if word["text"] == "above,")
    assert told["x0"] < report.pages[0].width / 2 < pictured["x0"], "the picture is on their right"
    assert first.index("Fit and assembly") < (first + report.text).index("Every finding")
    assert "Every finding" in first
    assert 1 <= len(report.pages) <= 2
    assert not re.search(r"\w+\(.*=", report.text), "no program text on paper"


def test_the_rules_stand_in_the_packet_with_those_that_a_maker_changed(tmp_path, capsys):
    rules = ShopRules(tilt_asked="12 deg", sleeve="5 lbf", push_share=0.08)
    arguments = ["--out", str(tmp_path / "x"), "--only", "checks"]
    assert run(loaded_stand(), arguments, rules=rules) == 0
    record = json.loads((tmp_path / "x" / "piece.json").read_text())
    by_name = {each["name"]: each for each in record["rules"]}
    assert set(by_name) == {rule.name for rule in ALL_RULES}
    changed = {name for name, each in by_name.items() if each["value"] != each["usual"]}
    assert changed == {"tilt_asked", "sleeve", "push_share"}
    assert all(each["source"] and each["what"] for each in record["rules"])
    (tilt,) = (each for each in record["checks"] if each["check"] == "tilt before it tips")
    assert tilt["limit"] == 12.0
    flat = " ".join(read(tmp_path / "x" / "checks.pdf").text.split())
    assert "Made and judged by changed rules: tilt_asked 12° (usually 10°), sleeve 22.2 N" in flat
    with (tmp_path / "x" / "rules.csv").open(encoding="utf-8", newline="") as file:
        rows = {row["rule"]: row for row in csv.DictReader(file)}
    assert set(rows) == set(by_name)
    assert {name for name, row in rows.items() if row["usually"]} == changed
    assert (rows["tilt_asked"]["figure"], rows["tilt_asked"]["usually"]) == ("12°", "10°")


def test_every_finding_has_its_row_with_its_verdict(report, summary):
    """What is not in order has a row of its own that begins with its verdict; what is in order
    has none before it, and shares a row only where nothing of it is measured."""
    words = {"note": "note", "caution": "caution", "fail": "fails"}
    texts = [text for page in report.pages for text in rows_on(page)]
    for each in summary["checks"]:
        name = re.escape(each["check"])
        (text,) = (text for text in texts if re.search(rf"(^|: |, |; ){name}, ", text))
        before = text[: text.index(each["check"])]
        if each["verdict"] == "ok":
            assert not any(word in before for word in words.values()), text
        else:
            at_bench = (
                " at the bench" if (each["kind"], each["verdict"]) == ("bench", "caution") else ""
            )
            assert before.endswith(f"{words[each['verdict']]}{at_bench}: "), text
            others = [one for one in summary["checks"] if one is not each]
            assert not any(f", {one['check']}, " in text for one in others), "a row of its own"
    assert "What has no verdict before it is in order" in " ".join(report.text.split())


def _in_order(name: str, subject: str, value: float | None = None) -> Finding:
    check = Check(name=name, unit="mm", sense=Sense.AT_LEAST, fails=Level(when="it is"))
    if value is None:
        return without_figure(check, Verdict.OK, "why", subject=subject)
    return Finding(check=check, subject=subject, value=value, limits=Limits(fails=1.0), basis="why")


def test_what_is_merely_in_order_shares_a_row_and_nothing_else_does(tmp_path):
    """Two proofs of the piece and one of its lid are one row; what has a figure, and what fails
    without one, have their own."""
    failing = replace(_in_order("proof of wood", "the piece"), stated=Verdict.FAIL)
    findings = (
        _in_order("proof of fit", "the piece"), _in_order("proof of way", "the piece"),
        _in_order("proof of hold", "lid"), failing, _in_order("gap", "lid", 2.0),
        _in_order("play", "lid", 2.0),
    )  # fmt: skip
    piece = loaded_stand().build()
    path = write_report(
        piece, weigh(piece), (Group(subject=Subject.FIT, findings=findings),),
        tmp_path / "checks.pdf", setting=Setting(), dated=date(2026, 3, 14),
    )  # fmt: skip
    told = {text for page in read(path).pages for text in rows_on(page)}
    assert "Fit and assembly: fails: proof of wood, the piece" in told
    assert "proof of fit, proof of way, the piece; proof of hold, lid" in told
    assert {"gap, lid", "play, lid"} <= told


def test_words_are_as_large_as_costs_no_page(report, tmp_path):
    """A report that goes on one page anyhow has its words at full size; small letters are never
    smaller than a table's."""
    piece = piece_of("key_rack")
    path = write_report(
        piece, weigh(piece), findings_by_subject(piece, weigh(piece)), tmp_path / "checks.pdf",
        setting=Setting(), dated=date(2026, 3, 14),
    )  # fmt: skip
    (page,) = read(path).pages
    sizes = {round(char["size"], 2) for char in page.chars}
    assert max(TEXT_SIZES) in sizes
    for each in (page, *report.pages):
        assert min(round(char["size"], 2) for char in each.chars) >= SMALL_SIZE


@pytest.fixture(scope="module")
def tilts():
    """Every edge, empty and loaded, reckoned here again: the plan shows what one line sums up."""
    piece = loaded_stand().build()
    standing = standing_of(piece, weigh(piece))
    shown = Amounts(shown=piece.shown)
    return tilt_findings(standing, tilt_asked(is_table_top=True), shown)


def test_the_tilts_are_told_for_every_edge_and_the_worst_stands_in_piece_json(
    report, summary, tilts
):
    assert len(tilts) == 8
    flat = " ".join(report.text.split())
    for each in tilts:
        assert f"tips at {each.value:.1f}°" in flat
    (told,) = (each for each in summary["checks"] if each["check"] == "tilt before it tips")
    assert told["value"] == pytest.approx(min(each.value for each in tilts))


def test_margins_are_drawn_true_to_scale_and_figured(report, summary, tilts):
    """A margin is the tangent of the empty tilt times the height of the centre of mass."""
    page = report.pages[0]
    scale = float(re.search(r"at 1:([\d.]+)", page.extract_text())[1])
    height = summary["centre_of_mass_mm"][2]
    expected = sorted(
        math.tan(math.radians(each.value)) * height
        for each in tilts
        if each.tipping is not None and not each.tipping.is_loaded
    )
    lines = [
        math.hypot(line["x1"] - line["x0"], line["bottom"] - line["top"])
        for line in page.lines
        if _grey(line) == pytest.approx(PENS["margin"], abs=0.01)
    ]
    drawn = sorted(length / POINTS_PER_MM * scale for length in lines)
    assert drawn == pytest.approx(expected, abs=0.05 * scale)
    for margin in expected:
        assert re.search(rf"{margin:.1f}".rstrip("0").rstrip(".") + " mm", page.extract_text())


def test_the_support_and_the_tiers_are_drawn_true_to_scale(report, summary):
    """The base is 300 by 200 and the tiers 200 and 160 wide."""
    page = report.pages[0]
    scale = float(re.search(r"at 1:([\d.]+)", page.extract_text())[1])
    widths = [
        (shape["x1"] - shape["x0"]) / POINTS_PER_MM * scale
        for shape in (*page.rects, *page.curves)
        if shape.get("stroke")
    ]
    for width in (300.0, 200.0, 160.0):
        assert any(abs(each - width) < 0.05 * scale for each in widths), widths


def test_bars_of_the_seasons_are_in_proportion(tmp_path):
    """The lid's two bars are as long beside each other as its two changes."""
    piece = loaded_stand().build()
    weighed, setting = weigh(piece), Setting()
    path = write_report(
        piece,
        weighed,
        findings_by_subject(piece, weighed),
        tmp_path / "checks.pdf",
        setting=setting,
        dated=date(2026, 3, 14),
    )
    shift = movements_of(piece, setting)[0].shift
    page = next(each for each in read(path).pages if "Season by season" in each.extract_text())
    head = next(each["top"] for each in page.extract_words() if each["text"] == "Season")
    bars = [
        rect["x1"] - rect["x0"]
        for rect in page.rects
        if rect["top"] > head
        and rect.get("stroke")
        and _fill(rect) == pytest.approx(PENS["light"], abs=0.01)
    ]
    dry, damp = bars[:2]
    assert dry / damp == pytest.approx(abs(shift.driest_mm / shift.dampest_mm), rel=0.01)
    text = page.extract_text()
    assert f"+{shift.dampest_mm:.1f} mm" in text
    assert f"−{abs(shift.driest_mm):.1f} mm" in text


def test_equal_pieces_give_equal_bytes(tmp_path):
    piece = loaded_stand().build()
    weighed = weigh(piece)
    groups = findings_by_subject(piece, weighed)
    dated = date(2026, 3, 14)
    first, second = (
        write_report(piece, weighed, groups, tmp_path / name, setting=Setting(), dated=dated)
        for name in ("a.pdf", "b.pdf")
    )
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize("name", NAMES)
def test_every_model_is_told_within_its_pages(name, tmp_path):
    """Nothing runs off a page, no line of text lies on another, and no parameter is named."""
    piece = piece_of(name)
    weighed = weigh(piece)
    path = write_report(
        piece,
        weighed,
        findings_by_subject(piece, weighed),
        tmp_path / "checks.pdf",
        setting=Setting(),
        dated=date(2026, 3, 14),
    )
    told = read(path)
    assert len(told.pages) <= MOST_PAGES.get(name, 1)
    assert program_text(told.text, {each.instance for each in piece.placed}) == []
    for page in told.pages:
        assert not _overlapping(page)
        for word in page.extract_words():
            assert word["x0"] >= 0
            assert word["x1"] <= page.width
            assert word["bottom"] <= page.height
    if piece.stance is Stance.WALL:
        assert "tip-over does not apply" in told.text
        assert "the fixing is the thing to check" in told.text
        assert "from above" not in told.text
    else:
        assert "Standing, from above" in told.text


def test_a_piece_without_surfaces_or_floor_is_told(tmp_path):
    """Nothing carries anything, and what touches the floor lies in a line: no plan, and a fail."""
    piece = replace(loaded_stand().build(), surfaces=(), loads=())
    weighed = replace(weigh(piece), floor=((0.0, 0.0), (10.0, 0.0)))
    groups = findings_by_subject(piece, weighed)
    path = write_report(
        piece, weighed, groups, tmp_path / "checks.pdf", setting=Setting(), dated=date(2026, 3, 14)
    )
    told = " ".join(read(path).text.split())
    assert "at least three places to stand on" in told
    assert "Standing, from above" not in told


def test_inch_pieces_are_told_on_letter_in_inches(tmp_path):
    piece = piece_of("tea_box")
    weighed = weigh(piece)
    groups = findings_by_subject(piece, weighed)
    path = write_report(
        piece, weighed, groups, tmp_path / "checks.pdf", setting=Setting(), dated=date(2026, 3, 14)
    )
    told = read(path)
    assert (told.pages[0].width, told.pages[0].height) == (612, 792)
    assert not re.search(r"\d mm\b", told.text)


def _grey(line: dict[str, Any]) -> float:
    colour = line.get("stroking_color") or (0.0,)
    return float(colour[0]) if len(set(colour)) == 1 else -1.0


def _fill(rect: dict[str, Any]) -> float:
    colour = rect.get("non_stroking_color") or (0.0,)
    return float(colour[0]) if len(set(colour)) == 1 else -1.0


def _overlapping(page: Any) -> list[tuple[str, str]]:
    """Words whose boxes share more than a sliver."""
    words = page.extract_words(use_text_flow=True)
    found = []
    for index, one in enumerate(words):
        for other in words[index + 1 :]:
            across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            if across > 1.0 and down > 2.0:
                found.append((one["text"], other["text"]))
    return found


def test_an_inch_piece_says_no_word_in_metric(tmp_path):
    yarn = piece_of("yarn_steps")
    groups = findings_by_subject(yarn, weigh(yarn))
    path = write_report(
        yarn, weigh(yarn), groups, tmp_path / "yarn.pdf", setting=Setting(),
        dated=date(2026, 3, 14),
    )  # fmt: skip
    text = read(path).text
    metric = re.compile(r"\d (mm|kg|N|MPa|mm2|deg C|°C)\b")
    assert not metric.search(text), metric.search(text)
    assert re.search(r"\d lbf", text)
    assert re.search(r"\d psi", text)
    flat = " ".join(text.split())
    assert "in the box, with its middle" in flat
    advised = {name for group in groups for each in group.findings for name in each.parameters}
    assert advised == {"ballast", "ballast.from_front", "bottom", "bottom_fixing"}
    for each in (finding for group in groups for finding in group.findings):
        for words in (each.subject, each.advice, each.basis):
            assert not metric.search(words), (each.check, words)
    assert {each.unit for group in groups for each in group.findings} >= {"N", "MPa", "mm"}


def test_a_figure_is_not_parted_from_its_unit(tmp_path, capsys, report):
    told = "where 10 N is asked, 2 15/16 in from the front, 50 % of 20.5 mm, 3 dowels in 2 rows"
    assert unbroken(told, "_") == (
        "where 10_N is asked, 2_15/16_in from the front, 50_% of 20.5_mm, 3 dowels in 2 rows"
    )
    assert run(loaded_stand(), ["--out", str(tmp_path / "x"), "--only", "checks"]) == 0
    out = capsys.readouterr().out
    assert HELD not in out
    lines = [line.rstrip() for line in (*out.splitlines(), *report.text.splitlines())]
    parted = [
        (one, other)
        for one, other in itertools.pairwise(lines)
        if re.search(r"\d$", one) and re.match(r"\s*(mm|N|kg|MPa|%)(?!\w)", other)
    ]
    assert not parted


def test_which_measurements_matter_most_is_ranked(report):
    """Three tables stand beside one another, so each third of the page is read by itself."""
    thirds: list[list[int]] = [[], [], []]
    at = next(i for i, page in enumerate(report.pages) if "matter most" in page.extract_text())
    for number, page in enumerate(report.pages[at:]):
        words = page.extract_words()
        top = min(word["top"] for word in words if number or word["text"] == "Which")
        for word in words:
            if word["top"] >= top and re.fullmatch(r"\d+%", word["text"]):
                thirds[int(3 * word["x0"] / page.width)].append(int(word["text"][:-1]))
    for shares in thirds:
        assert shares == sorted(shares, reverse=True)
        assert sum(shares) == pytest.approx(100, abs=1)
    assert [len(shares) for shares in thirds] == [3, 3, 2]
    text = report.text[report.text.index("Which measurements matter most") :]
    assert text.index("dado from the datum end") < text.index("kerf at the dado")
