"""One thing has one name wherever a maker reads: no text of the house has another form of it."""

from __future__ import annotations

import ast
import contextlib
import functools
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import furniture
from exporters.options import HelpAsked, options_of
from exporters.reference import reference_page
from tests.models import ROOT, SCRIPTS

BANNED = {
    r"\bcross-cut": "crosscut",
    r"\bdadoes\b": "dados",
    r"\brebat(e|es|ed)\b": "rabbet",
    r"\b(named|reference) end\b": "datum end",
    r"\bhousings?\b": "dado, as a noun",
    r"\bproven best\b|\brefuted?\b|\boptimal\b": "No cheaper choice of these boards exists.",
    r"\b(wants?|to) mind(ing)?\b": "caution",
    r"\bleaves? with \d": "exit code",
    r"\brear(ward)?\b": "back",
    r"\bwhen left out\b|\bwhen none is given\b": "default: ...",
    r"\binstances? (or|such|that)\b|\bor a group\b": "one part by its own name, or all of a kind",
    r"\bbores\b|\bbore (from|in|to) the\b|\bbore \d|"
    r"\b(a|the|its|blind|whole|dowel's|pilot|clearance) bore\b": "hole; bore is what one does",
}
SOURCES = [*sorted((ROOT / "furniture").rglob("*.py")), *sorted((ROOT / "exporters").rglob("*.py"))]
OWN_WORDS = {"housing", "FitRule.housing"}
"""A parameter of that name, which a script writes."""
DATA = (
    ROOT / "furniture" / "shop" / "cutting" / "plan.py",
    ROOT / "furniture" / "parts" / "faces.py",
)
"""Where piece.json's words for a bound and for faces stand: they are data for a program."""


@functools.cache
def _texts(path: Path) -> tuple[tuple[int, str], ...]:
    """Every text of a file but docstrings, each with its line."""
    return tuple(_read_texts(path))


def _read_texts(path: Path) -> Iterator[tuple[int, str]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    silent = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in silent
        ):
            yield node.lineno, node.value


def _without_names(text: str) -> str:
    """A text without the names of parameters, which a script writes as they are: `housing=`."""
    return re.sub(r"\b\w+=", "", text)


@pytest.mark.parametrize("pattern", BANNED)
def test_no_text_has_another_name_for_it(pattern: str) -> None:
    found = [
        f"{path.relative_to(ROOT)}:{line}: {text!r}, say {BANNED[pattern]}"
        for path in [*SOURCES, *SCRIPTS]
        if path not in DATA
        for line, text in _texts(path)
        if " " in text.strip() and re.search(pattern, _without_names(text), re.IGNORECASE)
    ]
    assert not found, "\n".join(found)


def _help() -> str:
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.suppress(HelpAsked):
        options_of(["--help"])
    return said.getvalue()


PAGES = {
    "README": (ROOT / "README.md").read_text(encoding="utf-8"),
    "parameters": reference_page(vars(furniture)),
    "--help": _help(),
}


@pytest.mark.parametrize("page", PAGES)
def test_no_page_of_help_has_another_name_for_it(page: str) -> None:
    """Code aside, which a script writes as it is, and the other spelling, which is said once."""
    plain = re.sub(
        r"```.*?```|`[^`\n]*`|\((?:housing|rebate|miter)\)", "", PAGES[page], flags=re.DOTALL
    )
    found = {
        f"{word[0]}: say {BANNED[pattern]}"
        for pattern in BANNED
        for word in re.finditer(pattern, " ".join(plain.split()), re.IGNORECASE)
    }
    assert not found, "\n".join(found)


def test_the_reader_of_texts_sees_a_planted_one(tmp_path: Path) -> None:
    path = tmp_path / "planted.py"
    path.write_text('"""A dadoes docstring."""\nx = f"cut {1} dadoes"\n', encoding="utf-8")
    assert [text for _, text in _texts(path) if "dadoes" in text] == [" dadoes"]
