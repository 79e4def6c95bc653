"""What a run prints when its packet stands: what has no place, what was found, what was written."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from exporters.report.terminal import (
    GUIDANCE_SHORT,
    advice_of,
    bench_lines,
    counts_of,
    first_of_all,
    rows_of,
)
from exporters.report.unbroken import HELD
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import shown_by
from furniture.pieces import Piece, timbers_of
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.units import Amounts, figure

if TYPE_CHECKING:
    from rich.console import Console

_NOT_CHECKED = "The checks were not made: --only left them out. --strict makes them all the same."


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One piece of a run.

    Args:
        piece: what was written.
        weighed: one copy, where its solids were made.
        groups: the findings by subject; None when no check was made.
        copies: how many are made.
        changes: what became of an earlier design's parts, a line each.
    """

    piece: Piece
    weighed: Weighed | None
    groups: Sequence[Group] | None
    copies: int = 1
    changes: Sequence[str] = ()


def report(
    pieces: Sequence[Told],
    cutting: CuttingOutcome | None,
    of_boards: Sequence[Group],
    files: int,
    target: Path,
) -> None:
    """What changed, what has no place, then each piece's worst findings, and the plan.

    Args:
        pieces: what was written.
        cutting: the plan, when one was made.
        of_boards: what was found of the boards and is told of no piece.
        files: how many were written.
        target: as the maker wrote it.
    """
    from rich.text import Text

    console = _console()
    for each in pieces:
        for line in each.changes:
            console.print(Text(line))
    if cutting is not None:
        from exporters.cutting import left_out_report

        for line in left_out_report(cutting):
            console.print(Text(line, style="bold red"))
    for each in pieces:
        _report_piece(console, each)
    if any(each.groups is None for each in pieces):
        console.print(Text(_NOT_CHECKED))
    elif pieces:
        console.print(Text(GUIDANCE_SHORT))
    if cutting is not None:
        from exporters.cutting import cutting_lines

        for line in (
            *cutting_lines(cutting),
            *bench_lines(of_boards, Amounts(shown=cutting.job.shown)),
        ):
            console.print(Text(line.replace(HELD, " ")))
    console.print(Text(f"{files} files in {target}"))


def _console() -> Console:
    from rich.console import Console

    class Printer(Console):
        def on_broken_pipe(self) -> None:
            raise BrokenPipeError  # rich would end the process here, with an exit code of its own

    return Printer(width=None if sys.stdout.isatty() else 110)


def _report_piece(console: Console, told: Told) -> None:
    from rich.text import Text

    piece = told.piece
    if told.weighed is not None:
        copies = f", {told.copies} of them" if told.copies > 1 else ""
        mass = shown_by(piece).mass(told.weighed.whole.mass_kg)
        overall = _overall(told.weighed, piece)
        console.print(f"{piece.name}: {overall}, {mass}{copies}", highlight=False)
    for timber in timbers_of(piece):
        if timber.moisture_is_assumed:
            line = f"{timber.name}: moisture not given, {timber.moisture_pct:g} % assumed"
            console.print(Text(line))
    if told.groups is not None:
        with console.capture() as captured:
            _report_findings(console, piece, told.groups)
        console.file.write(captured.get().replace(HELD, " "))


def _overall(weighed: Weighed, piece: Piece) -> str:
    """Width, depth and height of the whole, as it stands."""
    low, high = weighed.extents
    sizes = [figure(high[axis] - low[axis], piece.shown) for axis in range(3)]
    return f"{' x '.join(sizes)} {piece.shown.unit.symbol} overall"


def _report_findings(console: Console, piece: Piece, groups: Sequence[Group]) -> None:
    """What is not in order with its advice, gravest first; the rest counted."""
    from rich.table import Table
    from rich.text import Text

    show = shown_by(piece)
    console.print(Text(first_of_all(groups, show)))
    rows = rows_of(groups, show)
    if rows:
        table = Table(box=None, pad_edge=False)
        for heading in ("verdict", "check", "worst case", "found", "asked"):
            table.add_column(heading)
        for row in rows:
            table.add_row(*(Text(cell) for cell in row))
        console.print(table)
    for what, advice in advice_of(groups):
        console.print(Text(what))
        console.print(Text(f"  {advice}"))
    for line in (*bench_lines(groups, show), *counts_of(groups)):
        console.print(Text(line))
