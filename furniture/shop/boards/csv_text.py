"""A boards file as lines of cells, whatever a spreadsheet made of it; what cannot be is named."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from pathlib import Path

from furniture.units import Reader

_BINARY = {
    b"PK": ("a spreadsheet, not a CSV file", "save it from the spreadsheet as CSV in UTF-8"),
    b"\xd0\xcf": ("a spreadsheet, not a CSV file", "save it from the spreadsheet as CSV in UTF-8"),
    b"%PDF": ("a PDF, not a CSV file", "save the table as CSV in UTF-8"),
}
"""How files that are no text begin, as their formats state it (from memory)."""
_SEPARATORS = (",", ";", "\t")
_COMMA = re.compile(r"([-+]?[0-9]+),([0-9]{1,2}|[0-9]{4,})(\s*[^\W\d_%\"']*)")
"""A figure with a decimal comma; three figures behind it may be thousands, and stay as they are."""


def text_of(reader: Reader, path: Path) -> str | None:
    """The file's text, of UTF-8 or of UTF-16 that says so; nothing with the reason noted.

    Args:
        reader: keeps the problems.
        path: of the file.
    """
    where, allowed = f"boards file {path.name}", "a CSV file in UTF-8"
    try:
        raw = path.read_bytes()
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no file can have this name"
        reader.refuse(
            where, "a file that cannot be read", allowed, why,
            "put it beside the model, or correct its name",
        )  # fmt: skip
        return None
    for begins, (what, remedy) in _BINARY.items():
        if raw.startswith(begins):
            why = "its name ends as a CSV file's does, its content is something else"
            reader.refuse(where, what, allowed, why, remedy)
            return None
    encoding = "utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = raw.decode(encoding)
    except UnicodeDecodeError as error:
        before = raw[: error.start].rpartition(b"\n")
        line, column = raw[: error.start].count(b"\n") + 1, len(before[2]) + 1
        reader.refuse(
            f"{path.name} line {line}", f"a letter in another encoding, at column {column}",
            allowed, "it is not UTF-8, and which letter is meant cannot be told",
            "save it again as CSV in UTF-8",
        )  # fmt: skip
        return None
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        why = "text has no such byte: the file is damaged or no CSV file"
        reader.refuse(f"{path.name} line {line}", "a zero byte", allowed, why, "save it again")
        return None
    return text


def separator_of(heading: str, known: Sequence[str]) -> str:
    """What parts the cells: the comma, or the semicolon or tab that finds more known headings.

    Args:
        heading: the first line.
        known: every heading that there may be.
    """

    def found(separator: str) -> int:
        cells = (cell.partition("[")[0].strip(' "').lower() for cell in heading.split(separator))
        return sum(cell in known for cell in cells)

    return max(_SEPARATORS, key=found)


def cells_of(reader: Reader, where: str, line: str, separator: str) -> list[str]:
    """The cells of a line; none where it is no line of a CSV file, noted.

    Args:
        reader: keeps the problems.
        where: what to call the line.
        line: its text.
        separator: what parts the cells.
    """
    try:
        return next(csv.reader([line], delimiter=separator), [])
    except csv.Error as error:
        reader.refuse(where, "a line that cannot be parted into cells", "cells and separators",
                      str(error), "write the line again")  # fmt: skip
        return []


def with_points(cell: str) -> str:
    """A figure with a decimal comma as one with a point; any other cell as it is.

    Args:
        cell: of a file in which commas do not part the cells.
    """
    match = _COMMA.fullmatch(cell)
    return f"{match[1]}.{match[2]}{match[3]}" if match else cell
