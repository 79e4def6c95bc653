"""Random lopsided designs, each walked through every output."""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from furniture import DesignError, Problem
from furniture.checks.check import Verdict
from furniture.checks.of_piece import findings_of
from furniture.solids.measure import weigh
from tests.everywhere.designs import Drawn, drawn, overloaded
from tests.everywhere.remedies import followed
from tests.everywhere.walk import Walk

PLANTED = 4
"""The seed of a design that faults are planted in."""
DOWEL = {"name": "dowel", "quantity": 1, "diameter_mm": 6.0, "length_mm": 30.0, "note": ""}


@pytest.mark.seeds(few=3, full=200)
def test_every_output_is_true(seed: int, tmp_path: Path) -> None:
    """Ids, tables, piece.json, STEP, sheets, checks, what is bought, the plan, the order."""
    design = drawn(seed)
    Walk(design.piece, tmp_path).everything(design.boards, design.wishes, design.saw)


@pytest.mark.seeds(few=3, full=200)
def test_what_is_refused_says_what_would_do(seed: int) -> None:
    """A remedy that names a figure is followed: that figure is not refused again for that."""
    design = drawn(seed)
    for figures, error in design.refused:
        assert all(each.given and each.allowed and each.why for each in error.problems)
        for problem in error.problems:
            changed = followed(figures, problem)
            if changed is None:
                continue
            told = [(each.parameter, each.why) for each in _problems(design, changed)]
            assert (problem.parameter, problem.why) not in told, problem


def _problems(design: Drawn, figures: Mapping[str, Any]) -> tuple[Problem, ...]:
    try:
        design.make(**figures).build()
    except DesignError as error:
        return error.problems
    return ()


def _a_lost_cut(record: dict[str, Any]) -> None:
    next(row for row in record["parts"] if row["cuts"])["cuts"].pop()


def _a_part_out_of_its_place(record: dict[str, Any]) -> None:
    record["placements"][-1]["origin_mm"][0] += 0.5


def _one_id_for_two(record: dict[str, Any]) -> None:
    record["parts"][1]["id"] = record["parts"][0]["id"]


def _a_mass_of_another(record: dict[str, Any]) -> None:
    record["parts"][0]["mass_kg"] = record["parts"][1]["mass_kg"]


def _a_dowel_too_many(record: dict[str, Any]) -> None:
    record["bought"].append({**DOWEL, "where": [record["placements"][0]["instance"]]})


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> tuple[Drawn, Walk]:
    """A design that faults are planted in, its record and findings worked out once."""
    design = drawn(PLANTED)
    walk = Walk(design.piece, tmp_path_factory.mktemp("planted"))
    assert walk.record
    return design, walk


@pytest.mark.parametrize(
    "fault",
    [_a_lost_cut, _a_part_out_of_its_place, _one_id_for_two, _a_mass_of_another, _a_dowel_too_many],
)
def test_the_walk_sees_a_fault_that_is_planted(
    fault: Callable[[dict[str, Any]], None], planted: tuple[Drawn, Walk], tmp_path: Path
) -> None:
    """A walk that cannot fail would prove nothing."""
    design, first = planted
    walk = first.on_another(copy.deepcopy(first.record), tmp_path)
    fault(walk.record)
    with pytest.raises((AssertionError, KeyError)):
        walk.everything(design.boards, design.wishes, design.saw)


@pytest.mark.seeds(few=3, full=100)
def test_a_planted_hazard_is_found(seed: int) -> None:
    """300 kg on the narrowest surface is told of, or what it stands on fails already without it, or
    is of a wood so little known that this is told instead."""
    design = next(each for each in map(drawn, count(seed)) if each.piece.surfaces)
    heavy = overloaded(design)
    before, after = (findings_of(piece, weigh(piece)) for piece in (design.piece, heavy))
    sound, hazard = (
        {(each.check.name, each.subject) for each in found if each.is_amiss}
        for found in (before, after)
    )
    on = heavy.loads[0].on
    fails = any(each.verdict is Verdict.FAIL and on in each.subject for each in before)
    is_not_checked = any(
        each.is_amiss and each.value is None and on in each.subject for each in after
    )
    assert hazard - sound or fails or is_not_checked


def test_statics_end_where_the_solvers_reduction_does_not() -> None:
    """The solver's own reduction of this piece's program once ended without an answer."""
    piece = drawn(953393).piece
    assert findings_of(piece, weigh(piece))
