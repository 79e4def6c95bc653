"""A new own limit cannot stand beside the table of rules: every other number says what it is."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from tests.own_limits import ALLOWED

MODEL = Path(__file__).parents[1] / "furniture"
PACKAGES = (
    "assembly", "builders", "checks", "joints", "making/bench", "making/glue_ups", "parts",
    "pieces", "shop", "structure", "timber",
)  # fmt: skip
_CONSTANT = re.compile(r"_?[A-Z][A-Z0-9_]*")
_PARTS = (
    ast.Constant, ast.BinOp, ast.UnaryOp, ast.Tuple, ast.operator, ast.unaryop, ast.expr_context,
)  # fmt: skip


def numbers_in(source: str) -> Iterator[str]:
    """The upper-case names of a module that stand for typed numbers, or for tuples of them."""
    for node in ast.parse(source).body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        target = node.targets[0] if isinstance(node, ast.Assign) else node.target
        inner = list(ast.walk(node.value))
        typed = [each.value for each in inner if isinstance(each, ast.Constant)]
        if not all(isinstance(each, _PARTS) for each in inner):
            continue
        if typed and all(type(each) in (int, float) for each in typed):
            for each in target.elts if isinstance(target, ast.Tuple) else (target,):
                if isinstance(each, ast.Name) and _CONSTANT.fullmatch(each.id):
                    yield each.id


def test_a_typed_number_is_a_rule_or_says_why_it_is_none() -> None:
    found = {
        (path.relative_to(MODEL).as_posix(), name)
        for package in PACKAGES
        for path in (MODEL / package).rglob("*.py")
        for name in numbers_in(path.read_text(encoding="utf-8"))
    }
    listed = [
        (path, name)
        for rows in ALLOWED.values()
        for path, names in rows.items()
        for name in names.split()
    ]
    assert len(listed) == len(set(listed))
    assert found - set(listed) == set(), "make each a Rule, or say why not"
    assert set(listed) - found == set(), "these are gone: take them off the list"


def test_the_reader_of_numbers_sees_a_planted_one() -> None:
    source = "LEAST = 3.0\nLOW, HIGH = 1 / 3, -2.0\n_OWN: float = 0.5\nNAME = 'x'\nWORN = LEAST\n"
    assert list(numbers_in(source)) == ["LEAST", "LOW", "HIGH", "_OWN"]
