"""The table of agreement itself: fresh, each fact once, and only of what a maker's figure meets."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import pytest

from tests.published.agreement import (
    FOLDER,
    TABLE,
    all_cases,
    comparable,
    facts,
    is_same,
    table_of_agreement,
)
from tests.published.case import Says
from tests.reached import defined, home_of, reached


def test_committed_table_is_fresh() -> None:
    committed = comparable(TABLE.read_text(encoding="utf-8"))
    now = comparable(table_of_agreement())
    stale = [line for line, other in zip(committed, now, strict=False) if not is_same(line, other)]
    assert stale == [], "AGREEMENT.md is stale: run python -m tests.published"
    assert len(committed) == len(now), "AGREEMENT.md is stale: run python -m tests.published"


def test_a_last_digit_may_change_with_the_machine_and_no_other() -> None:
    assert is_same("| 9.3079 MPa | 9.3232 MPa |", "| 9.3079 MPa | 9.3231 MPa |")
    assert not is_same("| 9.3079 MPa | 9.3232 MPa |", "| 9.3079 MPa | 9.3332 MPa |")
    assert not is_same("| 9.3079 MPa | 9.3232 MPa |", "| 9.3079 MPa | 9.3232 psi |")


def test_no_fact_is_counted_twice() -> None:
    ids = Counter(case.id for case in all_cases())
    facts = Counter((case.source, case.place, case.quantity) for case in all_cases())
    assert [each for each, count in (ids + facts).items() if count > 1] == []


def test_the_count_that_the_guide_gives_is_the_one_that_is_counted() -> None:
    guide = " ".join((FOLDER.parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8").split())
    sources = {case.source for case in facts()}
    assert f"It holds {len(facts())} facts from {len(sources)} sources" in guide


def test_a_fact_is_worked_out() -> None:
    """Figures that are only read back stand apart, and each has its word for it."""
    assert all(case.tolerance > 0.0 for case in facts())
    assert {case.says for case in all_cases()} == set(Says)


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.stem)
def test_a_makers_script_reaches_what_is_compared(path: Path) -> None:
    """What a case calls is what the packet's figures come from, so a test cannot vouch for it."""
    named = {
        home_of(node.module or "", alias.name)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert (named & defined()) - reached() == set()


def test_what_nothing_but_a_test_calls_is_told_from_what_is_reached() -> None:
    assert home_of("furniture", "MitredBox") in reached()
    assert ("furniture.structure.plate", "plate_of") in reached()
    assert ("tests.reached", "reached") not in reached()
    assert ("furniture.solids.make", "forget_solids") in defined() - reached()
