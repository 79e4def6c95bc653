"""One thing has one name wherever a maker reads: no text of the house has another form of it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.models import ROOT, SCRIPTS

BANNED = {
    r"\bcross-cut": "crosscut",
    r"\bdadoes\b": "dados",
    r"\brebat(e|es|ed)\b": "rabbet",
    r"\b(datum|reference) end\b": "named end",
    r"\bhousings?\b": "dado, as a noun",
    r"\bproven best\b|\brefuted?\b|\boptimal\b": "No cheaper choice of these boards exists.",
    r"\b(wants?|to) mind(ing)?\b": "caution",
    r"\bleaves? with \d": "exit code",
}
SOURCES = [*sorted((ROOT / "furniture").rglob("*.py")), *sorted((ROOT / "exporters").rglob("*.py"))]
OWN_WORDS = {"housing", "FitRule.housing"}
"""A parameter of that name, which a script writes."""
PROOFS = ROOT / "furniture" / "shop" / "cutting" / "plan.py"
"""Where piece.json's word for a bound stands: it is data for a program."""


def _texts(path: Path) -> Iterator[tuple[int, str]]:
    """Every text of a file but docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    silent = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in silent
        ):
            yield node.lineno, node.value


@pytest.mark.parametrize("pattern", BANNED)
def test_no_text_has_another_name_for_it(pattern: str) -> None:
    found = [
        f"{path.relative_to(ROOT)}:{line}: {text!r}, say {BANNED[pattern]}"
        for path in [*SOURCES, *SCRIPTS]
        if path != PROOFS
        for line, text in _texts(path)
        if " " in text.strip() and re.search(pattern, text, re.IGNORECASE)
    ]
    assert not found, "\n".join(found)


def test_the_reader_of_texts_sees_a_planted_one(tmp_path: Path) -> None:
    path = tmp_path / "planted.py"
    path.write_text('"""A dadoes docstring."""\nx = f"cut {1} dadoes"\n', encoding="utf-8")
    assert [text for _, text in _texts(path) if "dadoes" in text] == [" dadoes"]
