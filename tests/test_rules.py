"""The table of rules: something reads every row, and what a maker may change is read changed."""

from __future__ import annotations

import ast
import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from furniture.checks.advice import Remedy
from furniture.checks.ground import Demand
from furniture.checks.of_piece.standing import standing_of
from furniture.checks.of_piece.structure import stood, structure_findings_of
from furniture.checks.of_piece.tolerances import tolerance_findings_of
from furniture.checks.rows.standing import CHILD
from furniture.checks.stability_findings import press_findings
from furniture.rules import ALL_RULES, USUAL_RULES, Rule, Rules
from furniture.rules.bearing import (
    BARE_SHARE,
    FAILS_AT_SHARE,
    HINGED_SHARE,
    LEAN_SHARE,
    LEAST_RACKING,
    STEP_TIMES,
    STIFF_SHARE,
)
from furniture.rules.bench import (
    ANGLE_ERROR,
    FEELER,
    KERF_ERROR,
    LENGTH_ERROR,
    POSITION_ERROR,
    THICKNESS_ERROR,
)
from furniture.rules.checking import BALLAST_HEIGHT_SHARE
from furniture.rules.design import LEAST_LOAD, MOST_BALLAST, MOST_GROWTH, MOST_INWARD
from furniture.solids.measure import weigh
from tests.checks.cases import POT, STAND, millimetres
from tests.hazards.dangers import DANGERS
from tests.models import piece_of

ROOT = Path(__file__).parents[1]
TABLE = ROOT / "furniture" / "rules"


def _names() -> dict[str, Rule]:
    """The rules by the name of their constant."""
    by_value = {rule.name: rule for rule in ALL_RULES}
    found = {}
    for path in TABLE.glob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.Call):
                name = ast.unparse(node.targets[0])
                if name.lower() in by_value:
                    found[name] = by_value[name.lower()]
    return found


def _readers() -> Iterator[tuple[Path, ast.AST]]:
    for package in ("furniture", "exporters"):
        for path in (ROOT / package).rglob("*.py"):
            if TABLE not in path.parents:
                for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                    yield path, node


def test_every_rule_has_a_constant_of_its_name() -> None:
    assert len(_names()) == len(ALL_RULES) == len({rule.name for rule in ALL_RULES})


def test_a_rule_that_nothing_reads_does_not_stand_in_the_table() -> None:
    imported = {
        alias.name
        for _, node in _readers()
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert set(_names()) <= imported


def test_what_a_maker_may_change_is_nowhere_read_past_the_change() -> None:
    """Its usual figure is read from `Rules` alone; what is fixed says why."""
    names = _names()
    past = {
        (path.name, node.value.id)
        for path, node in _readers()
        if isinstance(node, ast.Attribute)
        and node.attr == "value"
        and isinstance(node.value, ast.Name)
        and node.value.id in names
        and not names[node.value.id].fixed
    }
    assert past == set()


@pytest.mark.parametrize(("rule", "value"), [(MOST_GROWTH, 1e-3), (MOST_BALLAST, 1e-3),
                                             (LEAST_LOAD, 0.999), (MOST_INWARD, 1e-3)])  # fmt: skip
def test_what_is_advised_goes_by_the_makers_rules(rule: Rule, value: float) -> None:
    """Each limit of advice, drawn to next to nothing, changes what is advised."""
    usual, changed = (_advised(rules) for rules in (USUAL_RULES, Rules(changed=((rule, value),))))
    assert usual
    assert changed != usual


def _advised(rules: Rules) -> list[Remedy]:
    stand = replace(STAND, rules=rules)
    demands = (Demand(slope=math.tan(math.radians(angle))) for angle in (12.0, 14.0, 17.0))
    found = [each for demand in demands for each in stand.to_do((POT,), demand, millimetres)[1]]
    for press_n in (100.0, 150.0, 500.0):
        for finding in press_findings(stand, press_n, CHILD, millimetres):
            found += finding.remedies
    return found


BEARS_ROWS = {
    "D01": (LEAST_RACKING, STIFF_SHARE, HINGED_SHARE, BARE_SHARE, FAILS_AT_SHARE),
    "D02": (LEAN_SHARE,),
    "D06": (STEP_TIMES,),
}
"""Dangerous pieces whose statics hang on these rules."""


@pytest.mark.parametrize("row_id", BEARS_ROWS)
def test_what_bears_goes_by_the_makers_rules(row_id: str) -> None:
    row = next(each for each in DANGERS if each.id == row_id)
    piece = row.build().build()
    weighed = weigh(piece)

    def told(rules: Rules) -> object:
        made = replace(piece, rules=rules)
        return structure_findings_of(stood(made, weighed), rules)

    usual = told(USUAL_RULES)
    for rule in BEARS_ROWS[row_id]:
        changed = [Rules(changed=((rule, rule.value * times),)) for times in (0.3, 3.0)]
        assert any(told(each) != usual for each in changed), rule.name


def test_errors_and_ballast_go_by_the_makers_rules() -> None:
    piece = piece_of("herb_stand")
    weighed = weigh(piece)
    for rule in (THICKNESS_ERROR, POSITION_ERROR, KERF_ERROR, LENGTH_ERROR, ANGLE_ERROR, FEELER):
        rules = Rules(changed=((rule, 2.0 * rule.value),))
        assert tolerance_findings_of(replace(piece, rules=rules), rules) != tolerance_findings_of(
            piece
        ), rule.name
    less = replace(piece, rules=Rules(changed=((BALLAST_HEIGHT_SHARE, 0.2),)))
    rooms = [standing_of(each, weighed).room for each in (less, piece)]
    low, usual = (each.most_kg((160.0, 120.0)) for each in rooms if each is not None)
    assert low < usual
