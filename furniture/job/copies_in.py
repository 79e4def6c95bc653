"""Where the packet of each copy stands in the folder of a batch."""

from __future__ import annotations

import json
from pathlib import Path

BATCH_SUMMARY = "batch.json"


def folder_of_copy(folder: Path, mark: str, slug: str) -> Path:
    """The folder of a copy's packet: copies that are worked otherwise have one of their own.

    Args:
        folder: of the batch.
        mark: of the copy.
        slug: of its piece, which its folder is called by where the batch does not tell.
    """
    try:
        pieces = json.loads((folder / BATCH_SUMMARY).read_text(encoding="utf-8"))["pieces"]
        names = [each["folder"] for each in pieces if mark in each["copies"]]
    except (OSError, ValueError, KeyError, TypeError):
        names = []
    return folder / str(next(iter(names), slug))
