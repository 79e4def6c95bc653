"""The figures of a design, each in turn made nonsense of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

NONSENSE = ("-16.3 mm", "0 mm", "3 m", "nan mm", "half a thumb")


def made_nonsense(figures: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each length that a script gives, in a value or a list of them too, replaced by each.

    Args:
        figures: of a design.
    """
    for name, value in figures.items():
        for where, changed in _changed(name, value):
            yield where, {**figures, name: changed}


def _changed(where: str, value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, str) and value.endswith(" mm"):
        for each in NONSENSE:
            yield f"{where} = {each}", each
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            for place, changed in _changed(f"{where}.{field.name}", getattr(value, field.name)):
                yield place, replace(value, **{field.name: changed})
    elif isinstance(value, (list, tuple)):
        for at, one in enumerate(value):
            for place, changed in _changed(f"{where}[{at}]", one):
                yield place, type(value)([*value[:at], changed, *value[at + 1 :]])
