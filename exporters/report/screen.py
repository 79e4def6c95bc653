"""Lines for a screen: broken with a hanging indent, and as many as it holds."""

from __future__ import annotations

import os
import shutil
import sys
import textwrap
from collections.abc import Iterable
from dataclasses import dataclass

from exporters.no_break import with_spaces
from exporters.report.unbroken import unbroken

COLUMNS, ROWS = 80, 24
"""The screen that the end of a run fits, and what is taken where there is none."""
FEWEST_COLUMNS = 40
_BOLD, _PLAIN = "\x1b[1m", "\x1b[0m"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One thing that is said: how far in it begins, and how many lines it may take."""

    text: str
    indent: int = 0
    most: int | None = None
    more: str = "..."
    is_loud: bool = False

    def lines(self, columns: int) -> list[str]:
        """Its lines; what does not fit ends with `more`, which says where the rest is.

        Args:
            columns: of the screen.
        """
        margin = " " * self.indent
        return textwrap.wrap(
            unbroken(self.text),
            width=columns,
            initial_indent=margin,
            subsequent_indent=margin + "  ",
            max_lines=self.most,
            placeholder=f" {self.more}",
            break_long_words=self.most is not None,
            break_on_hyphens=False,
        )


def rows_of(said: Iterable[Said], columns: int) -> int:
    """How many rows of the screen they take; a line longer than the screen runs on.

    Args:
        said: in their order.
        columns: of the screen.
    """
    return sum(-(-len(line) // columns) for each in said for line in each.lines(columns))


def printed(said: Iterable[Said]) -> None:
    """Print to standard output; loud lines are bold where it is a terminal that may show it."""
    columns, is_bold = columns_of(), sys.stdout.isatty() and "NO_COLOR" not in os.environ
    for each in said:
        for line in each.lines(columns):
            text = with_spaces(line)
            print(f"{_BOLD}{text}{_PLAIN}" if is_bold and each.is_loud else text)


def columns_of() -> int:
    """The columns of the terminal, or of the usual one where there is none."""
    return max(FEWEST_COLUMNS, shutil.get_terminal_size((COLUMNS, ROWS)).columns)
