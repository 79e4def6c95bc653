"""The table of agreement: every published case beside ours, written from the tests' own data."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

from tests.published.case import Case, How

FOLDER = Path(__file__).parent
TABLE = FOLDER / "AGREEMENT.md"

_HEAD = """# Agreement with the outside world

Written by `python -m tests.published` from the cases that the tests in this folder check; a test
fails when this file is stale. *How* says how the source's value was come by: read in the source or
in a reprint that names its table, recalled from memory, or worked by hand or by a library from
data that was read. A case agrees when the difference is within its tolerance.
"""


def all_cases() -> tuple[Case, ...]:
    """The cases of every file in this folder, in the order of the files' names."""
    names = sorted(module.name for module in iter_modules([str(FOLDER)]))
    modules = (import_module(f"tests.published.{name}") for name in names if name[:5] == "test_")
    return tuple(case for module in modules for case in getattr(module, "CASES", ()))


def table_of_agreement() -> str:
    """The whole text of the table."""
    cases = all_cases()
    sources = tuple(dict.fromkeys(case.source for case in cases))
    lines = [
        _HEAD,
        f"{len(cases)} values from {len(sources)} sources; "
        f"{sum(case.agrees for case in cases)} agree.",
    ]
    for source in sources:
        lines += ["", f"## {source}", "", *_rows([c for c in cases if c.source == source])]
    return "\n".join(lines) + "\n"


def comparable(text: str) -> list[str]:
    """The lines of a table, without the last digits of what a library computed.

    Those may change with the machine; how near they must be is what the cases' own tests ask.
    """
    return [_without_simulated(line) for line in text.splitlines()]


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
        f"| {case.quantity} | {case.place} | {case.how.value} | {_figure(case.theirs)}{unit} "
        f"| {_figure(case.ours)}{unit} | {_difference(case)} "
        f"| {case.tolerance:.3g}{unit}: {case.reason} |"
    )


def _difference(case: Case) -> str:
    """The difference, coarse enough not to change from one machine to the next."""
    if abs(case.difference) < 1e-6 * max(1.0, abs(case.theirs)):
        return "0"
    return f"{case.difference:+.2g}"


def _figure(value: float) -> str:
    if value and not 1e-3 <= abs(value) < 1e6:
        return f"{value:.3e}"
    return f"{value:.5g}"
