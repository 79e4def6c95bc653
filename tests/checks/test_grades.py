"""The rows of the checks are the rule: a verdict is what the row says of its figures."""

from __future__ import annotations

import pytest

from furniture import Load, SteppedStand, Tier
from furniture.checks.finding import Kind, Sense, Verdict
from furniture.checks.of_piece import Place, read_setting
from furniture.checks.of_piece.setting import HeldBy
from furniture.checks.rows import ALL_CHECKS
from furniture.checks.rows.bench import CLAMP_ROOM, TOOL_ON_HAND
from tests.builders.bench import a_box, a_stand, oak
from tests.checks.of_piece_cases import found, loaded_stand, named

POT = Load(
    name="pot", on="tier 2", mass="60 kg", footprint=("60 mm", "60 mm"), centre_height="80 mm"
)
FALLS = a_stand(
    base_depth="130 mm",
    loads=[POT],
    tiers=(
        Tier(width="200 mm", depth="100 mm", rise="220 mm"),
        Tier(width="160 mm", depth="190 mm", rise="200 mm"),
    ),
)
DESIGNS = [
    loaded_stand(),
    loaded_stand(lid_gap_across="0.5 mm"),
    loaded_stand(thick=oak("15 mm")),
    FALLS,
    a_box(),
]


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("held", list(HeldBy))
def test_every_finding_keeps_to_its_row(design: SteppedStand, held: HeldBy) -> None:
    """Judged again here, by the plain meaning of the row's levels: the gravest that is crossed."""
    for each in found(design, read_setting(Place(held=held))):
        assert each.check in ALL_CHECKS, each.check.name
        if each.value is None or each.stated is not None:
            continue
        worse = [
            verdict
            for verdict, limit in (
                (Verdict.NOTE, each.limits.notes),
                (Verdict.CAUTION, each.limits.cautions),
                (Verdict.FAIL, each.limits.fails),
            )
            if limit is not None
            and (
                each.value < limit
                if each.check.sense is Sense.AT_LEAST
                else each.check.sense is Sense.AT_MOST and each.value > limit
            )
        ]
        assert each.verdict is (worse[-1] if worse else Verdict.OK), each


COUNTS = (TOOL_ON_HAND, CLAMP_ROOM)
"""Rows whose value is a number of cuts and has no unit."""


def test_every_row_stands_once_and_says_its_source() -> None:
    names = [each.name for each in ALL_CHECKS]
    assert len(set(names)) == len(names)
    for each in ALL_CHECKS:
        assert each.source
        assert each.unit or not each.says or each in COUNTS
        has_levels = any((each.fails, each.cautions, each.notes))
        assert has_levels, each.name


def test_a_design_that_falls_over_fails_on_the_level_floor() -> None:
    tilt = named(found(FALLS), "tilt before it tips", "front edge, loaded")
    assert tilt.value is not None
    assert tilt.value < 0.0
    assert tilt.verdict is Verdict.FAIL


def test_a_standard_that_was_not_written_for_it_never_fails_it() -> None:
    voluntary = [each for each in ALL_CHECKS if "voluntary" in each.name]
    assert len(voluntary) >= 2
    assert all(each.fails is None for each in voluntary)


def test_what_belongs_to_the_bench_is_no_fault_of_the_design() -> None:
    bench = {each.name for each in ALL_CHECKS if each.kind is Kind.BENCH}
    assert {"short rip at the saw", "sum of errors round a mitred box"} <= bench
    assert all(each.fails is None for each in ALL_CHECKS if each.kind is Kind.BENCH)
