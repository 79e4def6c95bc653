"""What of a script must not stand in words for paper: the names of its parameters."""

from __future__ import annotations

import re
from collections.abc import Collection

import furniture
from furniture.reference import reference

PARAMETERS = frozenset(
    one.name
    for said in reference(vars(furniture)).values()
    for each in said
    for one in each.parameters
)
"""Every name that a script may write before an equals sign."""


def program_text(text: str, parts: Collection[str] = ()) -> list[str]:
    """The parameters that a text names: by an underscore, or alone in brackets.

    Args:
        text: as a maker reads it.
        parts: names of parts, which may stand in brackets.
    """
    spelt = (each for each in re.findall(r"\w+_\w+", text) if each in PARAMETERS)
    bracketed = (
        name
        for each in re.findall(r"\(([\w ,.]+)\)", text)
        for name in re.split(r"[, .]+", each)
        if all(one in PARAMETERS for one in re.split(r"[, .]+", each)) and each not in parts
    )
    return [*spelt, *bracketed]
