"""The table of agreement: every published case beside ours, written from the tests' own data."""

from __future__ import annotations

import math
import re
from collections import Counter
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

from tests.published.case import Case, How, Says, Source

FOLDER = Path(__file__).parent
TABLE = FOLDER / "AGREEMENT.md"

_HEAD = """# Agreement with the outside world

Written by `python -m tests.published` from the cases that the tests in this folder check; a test
fails when this file is stale. A fact is a figure that we work out and that its source has come to
by another way; a table is one fact: its row says how many cells were compared and gives the largest
difference. What is typed from a source is no fact: it is counted apart. *How* says how the source's
value was come by: read in the source or a copy of its page, read in a reprint that names its table,
or worked by hand from data that was read. No expected value is from memory. What is compared is
what the checks call.
"""

_COPIED = """Figures that our data has from a source, typed once more from it or from a reprint:
they show that the data was copied right, and nothing else."""
_SPREAD = """Figures of our data beside those of another source: they show how far woods, and those
who test them, lie apart. The tolerance is what was found, so that a change is seen."""
_LIBRARIES = """What general-purpose libraries compute for the same question is no published fact,
but a judge that shares nothing with our formulas."""


def all_cases() -> tuple[Case, ...]:
    """The cases of every file in this folder, in the order of the files' names."""
    names = sorted(module.name for module in iter_modules([str(FOLDER)]))
    modules = (import_module(f"tests.published.{name}") for name in names if name[:5] == "test_")
    return tuple(case for module in modules for case in getattr(module, "CASES", ()))


def table_of_agreement() -> str:
    """The whole text of the table."""
    cases = all_cases()
    lines = [_HEAD, f"{_counted(facts())}.", *_sections(facts())]
    judged = [case for case in cases if case.how is How.LIBRARY]
    for title, words, found in (
        ("Against general-purpose libraries", _LIBRARIES, judged),
        ("Data typed twice", _COPIED, [case for case in cases if case.says is Says.COPIED]),
        ("How far sources differ", _SPREAD, [case for case in cases if case.says is Says.SPREAD]),
    ):
        lines += ["", f"# {title}", "", words, "", f"{_counted(found)}.", *_sections(found)]
    return "\n".join(lines) + "\n"


def facts() -> list[Case]:
    """What is worked out by us and was published by others."""
    return [e for e in all_cases() if e.how is not How.LIBRARY and e.says is Says.FACT]


def _sections(cases: list[Case]) -> list[str]:
    sources = dict.fromkeys(case.source for case in cases)
    return [line for source in sources for line in _section(source, cases)]


def _counted(cases: list[Case]) -> str:
    hows = Counter(case.how.value for case in cases)
    return (
        f"{len(cases)} from {len({case.source for case in cases})} sources; "
        f"{sum(case.agrees for case in cases)} agree; "
        + ", ".join(f"{count} {how}" for how, count in sorted(hows.items()))
    )


def _section(source: Source | None, cases: list[Case]) -> list[str]:
    assert source is not None
    rows = _rows([case for case in cases if case.source == source])
    return ["", f"## {source.title}", "", f"Found: {source.found}", "", *rows]


def comparable(text: str) -> list[str]:
    """The lines of a table, without the last digits of what a library computed.

    Those may change with the machine; how near they must be is what the cases' own tests ask.
    """
    return [_without_simulated(line) for line in text.splitlines()]


def is_same(line: str, other: str) -> bool:
    """Whether two lines differ in the last of five digits at most: sums round either way."""
    words, others = (_NUMBER.split(each) for each in (line, other))
    figures, other_figures = (
        [float(each) for each in _NUMBER.findall(one)] for one in (line, other)
    )
    return words == others and all(
        math.isclose(a, b, rel_tol=2e-4) for a, b in zip(figures, other_figures, strict=True)
    )


_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?")


def _without_simulated(line: str) -> str:
    cells = line.split(" | ")
    if len(cells) == 7 and cells[2] == How.LIBRARY.value:
        return " | ".join((*cells[:3], cells[4], cells[6]))
    return line


def _rows(cases: list[Case]) -> list[str]:
    head = "| quantity | place | how | source | ours | difference | tolerance, and why |"
    return [head, "|---|---|---|---:|---:|---:|---|", *(_row(case) for case in cases)]


def _row(case: Case) -> str:
    unit = f" {case.unit}" if case.unit != "-" else ""
    return (
        f"| {case.quantity} | {case.place} | {case.how.value} | {_theirs(case)} "
        f"| {_ours(case)} | {_difference(case)} "
        f"| {case.tolerance:.3g}{unit}: {case.reason} |"
    )


def _theirs(case: Case) -> str:
    return f"{case.cells} cells" if case.cells > 1 else f"{_figure(case.theirs)} {case.unit}"


def _ours(case: Case) -> str:
    return f"{case.cells} cells" if case.cells > 1 else f"{_figure(case.ours)} {case.unit}"


def _difference(case: Case) -> str:
    """The difference, coarse enough not to change from one machine to the next."""
    if abs(case.difference) < 1e-6 * max(1.0, abs(case.theirs)):
        return "0"
    return f"{case.difference:+.2g}"


def _figure(value: float) -> str:
    if value and not 1e-3 <= abs(value) < 1e6:
        return f"{value:.3e}"
    return f"{value:.5g}"
