"""The report of the checks read back from its file."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pdfplumber

from exporters.no_break import NO_BREAK


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A report read back."""

    pages: tuple[Any, ...]
    text: str


def read(path: Path) -> Read:
    """The report's pages and all their text, lines joined."""
    document = pdfplumber.open(path)
    pages = tuple(document.pages)
    text = "\n".join(page.extract_text() for page in pages)
    return Read(pages=pages, text=text.replace(NO_BREAK, " "))


def rows_on(page: Any) -> list[str]:
    """The rows of findings on a page, left column first: what they say, without their figures."""
    words = page.extract_words(keep_blank_chars=False)
    heads = sorted((each for each in words if each["text"] == "found"), key=lambda each: each["x0"])
    found = []
    for head in heads:
        rules = [line for line in page.lines
                 if abs(line["top"] - line["bottom"]) < 0.1 and line["top"] > head["top"]
                 and line["x0"] < head["x0"] < line["x1"]]  # fmt: skip
        left, right = rules[0]["x0"], rules[0]["x1"]
        own = [line["top"] for line in rules if abs(line["x1"] - right) < 1.0]
        for top, bottom in itertools.pairwise(sorted(set(own))):
            inside = [each for each in words if top - 1.0 < each["top"] < bottom - 1.0
                      and left - 1.0 < each["x0"] < right]  # fmt: skip
            first = min((each["top"] for each in inside), default=0.0)
            figure = any(abs(each["x0"] - head["x0"]) < 0.5 and each["top"] < first + 1.0
                         for each in inside)  # fmt: skip
            told = [each for each in inside if not figure or each["x0"] < head["x0"] - 0.5]
            text = " ".join(each["text"] for each in told).replace(NO_BREAK, " ")
            if text:
                found.append(text)
    return found
