"""Wood that is there no more."""

from __future__ import annotations

from dataclasses import replace

from furniture.job import Old


def without_part(old: Old, name: str) -> Old:
    """The same where one part was never cut, or is spoilt."""
    kept = tuple(each for each in old.parts if each.name != name)
    assert len(kept) == len(old.parts) - 1
    return replace(old, parts=kept)
