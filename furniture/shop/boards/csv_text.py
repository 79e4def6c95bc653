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
_WESTERN = "cp1252"
_COMMA = re.compile(r"([-+]?[0-9]+),([0-9]{1,2}|[0-9]{4,})(\s*(?:[^\W\d_%\"']*|[€$£]))")
"""A figure with a decimal comma; three figures behind it may be thousands, and stay as they are."""


def text_of(reader: Reader, path: Path) -> str | None:
    """The file's text, of UTF-8 or of UTF-16 that says so; nothing with the reason noted.

    What is neither is read as Windows-1252, which spreadsheets of western Europe and America write
    and of which Latin-1's letters are a part, and that is remarked: figures are the same in all of
    them, so only a letter of a name or a note could be another one.
    """
    where, allowed = f"boards file {path.name}", "a CSV file in UTF-8"
    try:
        raw = path.read_bytes()
    except (OSError, ValueError) as error:
        reader.refuse(
            where, "no file that can be read", allowed, _why_not(path, error),
            "put it beside the script, or correct its name",
        )  # fmt: skip
        return None
    for begins, (what, remedy) in _BINARY.items():
        if raw.startswith(begins):
            why = "its name ends as a CSV file's does, its content is something else"
            reader.refuse(where, what, allowed, why, remedy)
            return None
    text = _decoded(reader, path, raw)
    if text is None:
        return None
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        why = "text has no such byte: the file is damaged or no CSV file"
        reader.refuse(f"{path.name} line {line}", "a zero byte", allowed, why, "save it again")
        return None
    return text


def _decoded(reader: Reader, path: Path, raw: bytes) -> str | None:
    try:
        return raw.decode("utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
    except UnicodeDecodeError:
        pass
    try:
        text = raw.decode(_WESTERN)
    except UnicodeDecodeError as error:
        before = raw[: error.start].rpartition(b"\n")
        line, column = raw[: error.start].count(b"\n") + 1, len(before[2]) + 1
        reader.refuse(
            f"{path.name} line {line}", f"a letter in another encoding, at column {column}",
            "a CSV file in UTF-8",
            "it is neither UTF-8 nor Windows-1252, and which letter is meant cannot be told",
            "save it again as CSV in UTF-8",
        )  # fmt: skip
        return None
    line = next(at for at, each in enumerate(text.split("\n"), start=1) if not each.isascii())
    reader.remark(
        f"{path.name} is not in UTF-8: its letters are read as Windows-1252 (Latin-1) has them; "
        f"look at line {line}."
    )
    return text


def _why_not(path: Path, error: OSError | ValueError) -> str:
    """Why there is nothing to read, in words."""
    match error:
        case FileNotFoundError():
            return f"there is no file {path.name} in {path.parent.name or 'this folder'}"
        case IsADirectoryError():
            return f"{path.name} is a folder"
        case OSError() if error.strerror:
            return error.strerror
        case _:
            return "no file can have this name"


def separator_of(heading: str, known: Sequence[str]) -> str | None:
    """What parts the cells: the comma, or the semicolon or tab that finds more known headings.

    None where the line has no heading that is known.

    Args:
        known: every heading that there may be.
    """

    def found(separator: str) -> int:
        cells = (
            re.split(r"[\[(]", cell)[0].strip(' "').lower() for cell in heading.split(separator)
        )
        return sum(cell in known for cell in cells)

    best = max(_SEPARATORS, key=found)
    return best if found(best) else None


def cells_of(reader: Reader, where: str, line: str, separator: str) -> list[str]:
    """The cells of a line; none where it is no line of a CSV file, noted.

    Args:
        where: what to call the line.
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
        cell: of a boards file, its quotes taken off.
    """
    match = _COMMA.fullmatch(cell)
    return f"{match[1]}.{match[2]}{match[3]}" if match else cell
