"""The words of the report: its answer, its sentences, its counts, and what it refuses."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from typing import Any

import pytest

from exporters.command import run
from exporters.packet import Packet
from exporters.report.movement_picture import MovementPicture
from exporters.report.standing import standing_answer
from exporters.report.terminal import change_lines
from exporters.report.unbroken import HELD
from exporters.report.words import asked, counted, found_and_limit, happens
from furniture import HeldBy, Place, ShopRules, Tier
from furniture.checks.check import Check, Level
from furniture.checks.finding import Finding, Kind, Sense, Verdict
from furniture.checks.of_piece import (
    Group,
    Setting,
    Subject,
    findings_by_subject,
    read_setting,
)
from furniture.checks.of_piece.seasons import movements_of
from furniture.checks.rows import ALL_CHECKS
from furniture.rules import USUAL_RULES
from furniture.solids.measure import weigh
from furniture.units import Amounts, inches, millimetres
from tests.builders.bench import a_box
from tests.checks.of_piece_cases import POT, loaded_stand
from tests.models import piece_of


def test_a_rule_that_cannot_be_is_refused_with_its_remedy(tmp_path, capsys):
    rules = ShopRules(tilt_askd="12 deg", sleeve=3, glue_line="0.2 mm", push_share=-1)
    target = tmp_path / "x"
    assert run(loaded_stand(), ["--out", str(target)], rules=rules) == 1
    told = capsys.readouterr().err
    for words in (
        "rules.tilt_askd",
        "'tilt_asked'",
        "'3 N'",
        "rules.glue_line",
        "rules.push_share",
    ):
        assert words in told
    assert not target.exists()


def _finding(check: Check, stated: Verdict = Verdict.OK) -> Finding:
    return Finding(check=check, subject="tier 1", value=1.0, basis="", stated=stated)


def _with_all_levels(**changes: Any) -> Check:
    level = Level(when="said here")
    return Check(name="a check", fails=level, cautions=level, notes=level, **changes)


@pytest.mark.parametrize("check", ALL_CHECKS)
def test_every_check_is_told_as_a_sentence(check):
    told = happens(_finding(check), Amounts(shown=millimetres()))
    assert told[0].isupper()
    assert told.endswith(".")
    assert "{" not in told


def test_counts_are_of_all_groups():
    """Checks are counted, each by the worst that it found."""
    levels = (Verdict.OK, Verdict.OK, Verdict.FAIL, Verdict.CAUTION, Verdict.NOTE)
    rows = [replace(_with_all_levels(), name=f"check {number}") for number, _ in enumerate(levels)]
    ok, right, bad, caution, note = (
        _finding(row, each) for row, each in zip(rows, levels, strict=True)
    )
    at_saw = _finding(_with_all_levels(kind=Kind.BENCH), Verdict.CAUTION)
    bad_too, fine_there = _finding(rows[2], Verdict.FAIL), _finding(rows[2])
    groups = (
        Group(subject=Subject.STANDING, findings=(ok, bad, note, bad_too)),
        Group(subject=Subject.SAW, findings=(fine_there, right, caution, at_saw)),
    )
    assert counted(groups) == ("1 fails, 1 caution, 1 note, 1 caution at the bench, 2 in order.")
    assert Packet(files=(), groups=groups, weighed=None).findings == (
        ok, bad, note, bad_too, fine_there, right, caution, at_saw,
    )  # fmt: skip


def test_a_place_that_is_not_known_is_refused(capsys, tmp_path):
    target = tmp_path / "x"
    assert run(loaded_stand(base_width=26), ["--out", str(target)], place="the moon") == 1
    told = capsys.readouterr().err
    assert "place.climate" in told
    assert "base_width" in told
    assert not target.exists()


FALLS = loaded_stand(
    base_depth="130 mm",
    loads=[replace(POT, on="tier 2", mass="60 kg")],
    tiers=(
        Tier(width="200 mm", depth="100 mm", rise="220 mm"),
        Tier(width="160 mm", depth="190 mm", rise="200 mm"),
    ),
)


def _first(design, place=None, rules=None):
    """Its first answer."""
    piece = design.build()
    groups = findings_by_subject(piece, weigh(piece), read_setting(place, rules))
    return standing_answer(groups, Amounts(shown=piece.shown)).sentence


def test_the_first_sentence_says_whether_it_stands():
    falls = _first(FALLS)
    assert falls == "No. With what is to stand on it, it falls forward on a level floor."
    light = _first(loaded_stand())
    assert re.match(r"Yes. It tips backward at a push of [\d.]+ N at its top, or", light)
    heavy = ShopRules(table_top_mass="1 kg", pushed_from="1 kg")
    pushed = _first(loaded_stand(), rules=heavy)
    assert re.match(r"Barely. Little tips it: a push of [\d.]+ N at its top", pushed)
    assert "over backward" in pushed
    assert _first(a_box()).startswith("Yes. ")
    fixed = _first(loaded_stand(), Place(held=HeldBy.WALL))
    assert fixed.startswith("Yes. It is fixed to the wall")
    rack = piece_of("key_rack")
    groups = findings_by_subject(rack, weigh(rack))
    told = standing_answer(groups, Amounts(shown=rack.shown)).sentence
    assert told.startswith("Yes. It hangs on the wall")


def test_what_a_small_tilt_brings_down_barely_stands():
    """It was told `Yes` first, and cautioned for its 2.5 degrees below."""
    top_heavy = replace(FALLS, loads=[replace(POT, on="tier 2", mass="2 kg")])
    told = _first(top_heavy)
    assert told == (
        "Barely. Little tips it: with what is to stand on it, it falls forward when tilted 2.51°."
    )


def test_strict_stops_on_a_stand_that_falls_and_not_on_one_with_cautions(tmp_path, capsys):
    arguments = ["--only", "checks", "--strict"]
    assert run(FALLS, ["--out", str(tmp_path / "a"), *arguments]) == 2
    out = " ".join(capsys.readouterr().out.split())
    assert "Will it stand? No. " in out
    fixed = Place(held=HeldBy.WALL)
    assert run(loaded_stand(), ["--out", str(tmp_path / "b"), *arguments], place=fixed) == 0
    assert "caution" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("value", "limit", "unit", "shown"),
    [
        (0.3332, 0.3, "mm", millimetres()),
        (0.30001, 0.3, "mm", inches(64)),
        (9.9996, 10.0, "N", millimetres()),
        (9.9996, 10.0, "N", inches(64)),
        (9.998, 10.0, "deg", millimetres()),
        (250.2, 250.0, "MPa", millimetres()),
    ],
)
def test_what_was_found_and_what_is_asked_are_told_apart(value, limit, unit, shown):
    sense = Sense.AT_MOST if value > limit else Sense.AT_LEAST
    row = Check(name="a", unit=unit, sense=sense, cautions=Level(when="said here"))
    limits = row.limits(cautions=limit)
    finding = Finding(check=row, subject="tier 1", value=value, limits=limits, basis="")
    show = Amounts(shown=shown)
    told, least = found_and_limit(finding, show)
    assert told != least
    word = sense.value
    assert asked(finding, show) == f"{word} {least}"
    assert told.split()[1:] == least.split()[1:]
    group = Group(subject=Subject.SAW, findings=(finding,))
    said = " ".join(each.text for each in change_lines((group,), show, 1))
    assert f"{told}, limit {word} {least}" in said


@pytest.mark.parametrize("width", range(40, 100, 7))
def test_words_over_a_picture_of_the_seasons_keep_figure_and_unit(width):
    piece = loaded_stand().build()
    climate = Setting().climate
    for movement in movements_of(piece, Setting()):
        picture = MovementPicture(
            movement, climate, Amounts(shown=piece.shown), float(width), USUAL_RULES
        )
        lines = picture.words
        assert not any(HELD in line for line in lines)
        for one, other in itertools.pairwise(lines):
            assert not (re.search(r"\d$", one) and other.startswith("mm")), lines
