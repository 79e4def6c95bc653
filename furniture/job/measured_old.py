"""What is there, with the sizes that were measured on it."""

from __future__ import annotations

from collections.abc import Mapping

from furniture.job.figures import Figure
from furniture.job.old import Old, as_measured


def with_measured(old: Old, measured: Mapping[Figure, float]) -> Old:
    """The same, every part of it as large as it was measured; an opening is no part.

    Args:
        old: what is there.
        measured: figures of its parts [mm].
    """
    there = {each.name for each in old.parts}
    for figure, value in measured.items():
        if figure.instance in there and not figure.is_opening:
            old = as_measured(old, figure.instance, figure.axis, value)
    return old
