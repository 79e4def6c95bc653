"""A refusal's remedy followed as it is written: `make it 12 mm`, `write '40 mm'`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from furniture.errors import Problem

_STEP = re.compile(r"\.?([A-Za-z_]+)|\[(\d+)\]")
_FIGURE = re.compile(r"(?:make it|write) '?([\d./ ]+ ?(?:mm|in|%))'?")


def followed(figures: Mapping[str, Any], problem: Problem) -> dict[str, Any] | None:
    """The figures with one changed as the problem asks; None where it asks for something else."""
    found = _FIGURE.match(problem.remedy)
    path = [match[1] or int(match[2]) for match in _STEP.finditer(problem.parameter)]
    spelt = "".join(match[0] for match in _STEP.finditer(problem.parameter))
    if found is None or spelt != problem.parameter or path[0] not in figures:
        return None
    try:
        return _changed(dict(figures), path, found[1].strip())
    except (AttributeError, IndexError, KeyError, TypeError):
        return None


def _changed(value: Any, path: list[str | int], to: str) -> Any:
    if not path:
        return to
    step, rest = path[0], path[1:]
    if isinstance(value, dict):
        return {**value, step: _changed(value[step], rest, to)}
    if isinstance(step, int):
        kept = list(value)
        kept[step] = _changed(kept[step], rest, to)
        return type(value)(kept)
    return replace(value, **{step: _changed(getattr(value, step), rest, to)})
