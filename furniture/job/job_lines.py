"""A file of TOML with the lines that its keys stand on, which its own reader does not tell."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from furniture.errors import DesignError, Problem
from furniture.units import Reader, said, word_remedy


class JobError(DesignError):
    """A job file that cannot be followed, with everything that is wrong with it."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        super().__init__(problems)
        count = len(self.problems)
        heading = f"the job file has {count} problem{'' if count == 1 else 's'}"
        self.args = ("\n".join([heading, *self.args[0].split("\n")[1:]]),)


def text_and_tables(path: Path) -> tuple[str, dict[str, Any]]:
    def alone(given: str, allowed: str, why: str, remedy: str) -> JobError:
        return JobError([Problem(parameter=str(path), given=given, allowed=allowed, why=why,
                                 remedy=remedy)])  # fmt: skip

    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise alone("text that is not UTF-8", "UTF-8", "its letters cannot be told",
                    "save it as UTF-8") from error  # fmt: skip
    except OSError as error:
        raise alone(error.strerror or "no file", "a job file", "it cannot be read",
                    "correct its name, or write one with --job-template") from error  # fmt: skip
    try:
        return text, tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        told = str(error)
        twice = "Cannot overwrite" in told or "twice" in told
        raise alone(
            told, "TOML: key = value, texts in quotes",
            "a key stands there twice, and only one of them can be true" if twice
            else "the file cannot be read from there on",
            "leave one of them out" if twice
            else "put quotes round every text and every name with a space or a dot in it",
        ) from error  # fmt: skip


@dataclass(slots=True)
class Lines:
    """A file that is read, and what is wrong with it by line, table and key."""

    path: Path
    text: str
    reader: Reader

    def refuse(self, table: str, key: str, given: str, allowed: str, why: str, remedy: str) -> None:
        """Note a problem with the line that it stands on."""
        self.reader.refuse(self.at(table, key), given, allowed, why, remedy)

    def at(self, table: str, key: str) -> str:
        """Where something stands: the file, its line where it can be found, table and key."""
        name = f"{table} {key!r}".strip() if key else table
        number = self._line(table, key)
        return f"{self.path.name} line {number}, {name}" if number else f"{self.path.name}, {name}"

    def at_item(self, table: str, key: str, one: str, number: int) -> str:
        """Where the table in braces of that number stands in a list, from 1 on; each is a `one`."""
        start = self._line(table, key)
        name = f"{table}, {one} {number}"
        opened = 0
        for line, text in enumerate(self.text.splitlines(), start=1):
            opened += text.count("{") if start is not None and line >= start else 0
            if opened >= number:
                return f"{self.path.name} line {line}, {name}"
        return self.at(table, key)

    def _line(self, table: str, key: str) -> int | None:
        """The line of a key in its table, or of the table; TOML tells none, so the text is read."""
        there = list(self._lines_of(table))
        named = re.escape(key)
        for pattern in (
            rf"^\s*{named}\s*=|[\"']{named}[\"']",
            rf"(?<![\w.-]){named}(?![\w.-])",
        ):
            for number, line in there if key else ():
                if re.search(pattern, line) and not line.lstrip().startswith("#"):
                    return number
        inside = f"{table}.{key}"
        return next((n for n, line in there if _heading(line) == inside), None) or (
            there[0][0] if there else None
        )

    def _lines_of(self, table: str) -> Iterator[tuple[int, str]]:
        """The lines of a table and of those in it, its heading first; of the file by no name."""
        inside = ""
        for number, line in enumerate(self.text.splitlines(), start=1):
            inside = _heading(line) or inside
            is_in = table in ("", inside) or inside.startswith(f"{table}.")
            if is_in or (not inside and line.strip().startswith(table)):
                yield number, line

    def table(self, record: Mapping[str, Any], name: str) -> Mapping[str, Any]:
        """A table of the file; empty where there is none, or what is no table, which is noted."""
        value = record.get(name, {})
        if isinstance(value, dict):
            return value
        self.refuse(name, "", said(value), "a table", "it holds keys with their values",
                    f"write [{name}] on a line of its own")  # fmt: skip
        return {}

    def list_in(self, table: Mapping[str, Any], name: str, key: str) -> list[Any]:
        """A list of a table; empty where there is none, or what is no list, which is noted."""
        value = table.get(key, [])
        if isinstance(value, list):
            return value
        self.refuse(name, key, said(value), "a list", "several may be done",
                    f"write {key} = [{json.dumps(value, default=str)}]")  # fmt: skip
        return []

    def known(self, table: str, keys: Sequence[str], allowed: Sequence[str]) -> None:
        """Note every key that there is not."""
        for key in keys:
            if key not in allowed:
                self.refuse(table, key, "a value", ", ".join(allowed), "there is no such key",
                            word_remedy(key, allowed))  # fmt: skip


def _heading(line: str) -> str:
    """The table that a line begins, its quotes left out; empty where it begins none."""
    found = re.match(r"\s*\[+\s*(.+?)\s*\]+\s*(#.*)?$", line)
    return "" if found is None or "=" in found[1] else re.sub("[\"']", "", found[1])


def flat(table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Keys with their values; `post.width` without quotes is a table in a table, and the same."""
    for key, value in table.items():
        if isinstance(value, dict):
            yield from ((f"{key}.{inner}", each) for inner, each in value.items())
        else:
            yield key, value
