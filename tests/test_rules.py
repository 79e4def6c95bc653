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
from furniture.checks.rows.standing import CHILD
from furniture.checks.stability_findings import press_findings
from furniture.rules import ALL_RULES, USUAL_RULES, Rule, Rules
from furniture.rules.design import LEAST_LOAD, MOST_BALLAST, MOST_GROWTH, MOST_INWARD
from tests.checks.cases import POT, STAND, millimetres

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
