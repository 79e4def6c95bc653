"""Where the packet of each copy stands in the folder of a batch."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

BATCH_SUMMARY = "batch.json"


@dataclass(frozen=True, slots=True)
class CopiesIn:
    """The folder of a batch, and by each copy's mark what its packet's folder in there is called.

    Copies that are worked otherwise have a folder of their own.
    """

    folder: Path
    names: Mapping[str, str]

    def packet_of(self, mark: str, slug: str) -> Path:
        """The folder of a copy's packet.

        Args:
            mark: of the copy.
            slug: of its piece, which its folder is called by where the batch does not tell.
        """
        return self.folder / self.names.get(mark, slug)


def copies_in(folder: Path) -> CopiesIn:
    """The copies that the batch of a folder tells of; none where it cannot be read."""
    try:
        pieces = json.loads((folder / BATCH_SUMMARY).read_text(encoding="utf-8"))["pieces"]
        names = {str(mark): str(each["folder"]) for each in pieces for mark in each["copies"]}
    except (OSError, ValueError, KeyError, TypeError):
        names = {}
    return CopiesIn(folder, names)
