"""Plain data read back into values, with the path of everything that cannot be."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, dataclass, field, fields
from enum import Enum
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from furniture.errors import Problem
from furniture.parts.cuts import Cut
from furniture.parts.faces import Arris, Face

_AS_WRITTEN = "take a packet as it was written"


@dataclass(slots=True, kw_only=True)
class Reading:
    """What is read, and what is wrong with it so far."""

    where: str
    problems: list[Problem] = field(default_factory=list)

    def refuse(self, at: str, given: str, allowed: str, why: str, remedy: str) -> None:
        """Note a problem at a path inside what is read."""
        place = f"{self.where}: {at}" if at else self.where
        self.problems.append(
            Problem(parameter=place, given=given, allowed=allowed, why=why, remedy=remedy)
        )

    def rows(
        self, record: Mapping[str, Any], key: str, above: str = ""
    ) -> Iterator[tuple[str, Mapping[str, Any]]]:
        """Every row of a list with its path."""
        at = f"{above}.{key}" if above else key
        rows = record.get(key)
        if not isinstance(rows, list):
            self.refuse(at, repr(rows)[:40], "a list", "it lists what was made", _AS_WRITTEN)
            return
        for index, row in enumerate(rows):
            if isinstance(row, dict):
                yield f"{at}[{index}]", row
            else:
                self.refuse(f"{at}[{index}]", repr(row)[:40], "an object",
                            "it says several things of one", _AS_WRITTEN)  # fmt: skip

    def text(self, row: Mapping[str, Any], at: str, key: str) -> str:
        """A text that is not empty."""
        value = row.get(key)
        if isinstance(value, str) and value:
            return value
        self.refuse(f"{at}.{key}", repr(value)[:40], "a text", "parts go by it", _AS_WRITTEN)
        return ""


def number(reading: Reading, row: Mapping[str, Any], at: str, key: str) -> float | None:
    """A finite number; nothing where there is none, which is noted."""
    value = row.get(key)
    if isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value):
        return float(value)
    reading.refuse(f"{at}.{key}", repr(value)[:40], "a finite number", "it is a figure of the wood",
                   _AS_WRITTEN)  # fmt: skip
    return None


def cut_from(reading: Reading, row: Mapping[str, Any], at: str) -> Cut | None:
    """The cut that a record of `record_of` is of; nothing where it cannot be read.

    Args:
        reading: keeps the problems.
        row: its kind and its defining numbers.
        at: its path.
    """
    kinds = {kind.kind: kind for kind in _kinds(Cut)}  # type: ignore[type-abstract]
    kind = kinds.get(str(row.get("kind")))
    if kind is None:
        reading.refuse(
            f"{at}.kind", repr(row.get("kind"))[:40], ", ".join(sorted(kinds)),
            "a cut of another kind cannot be told from wood",
            "run the script that defines it, or take the knifewall that wrote this packet",
        )  # fmt: skip
        return None
    hints = get_type_hints(kind)
    values: dict[str, Any] = {}
    count = len(reading.problems)
    for each in fields(kind):
        if each.name in row:
            values[each.name] = _value(
                reading, row[each.name], hints[each.name], f"{at}.{each.name}"
            )
        elif each.default is MISSING:
            reading.refuse(f"{at}.{each.name}", "nothing", "a value", f"a {kind.kind} needs it",
                           _AS_WRITTEN)  # fmt: skip
    return kind(**values) if len(reading.problems) == count else None


def _kinds(base: type[Cut]) -> Iterator[type[Cut]]:
    """Every kind of cut that there is, a maker's own too."""
    for kind in base.__subclasses__():
        if "kind" in vars(kind):
            yield kind
        yield from _kinds(kind)


def _value(reading: Reading, value: Any, hint: Any, at: str) -> Any:
    options = get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,)
    if value is None and NoneType in options:
        return None
    own = next((each for each in options if each is not NoneType), hint)
    if own is Arris:
        return _arris(reading, value, at)
    if isinstance(own, type) and issubclass(own, Enum):
        return _chosen(reading, value, own, at)
    found = number(reading, {"": value}, at, "")
    if found is not None and own in (int, bool):
        return own(round(found))
    return found


def _chosen(reading: Reading, value: Any, choice: type[Enum], at: str) -> Enum | None:
    allowed = {str(each.value): each for each in choice}
    if value in allowed:
        return allowed[value]
    reading.refuse(
        at, repr(value)[:40], ", ".join(allowed), "these are all that there are", _AS_WRITTEN
    )
    return None


def _arris(reading: Reading, value: Any, at: str) -> Arris | None:
    faces = {each.value: each for each in Face}
    names = str(value).split(" / ")
    if len(names) == 2 and all(name in faces for name in names):
        first, second = (faces[name] for name in names)
        if first.axis != second.axis:
            return Arris(first, second)
    reading.refuse(at, repr(value)[:40], "two faces that meet, such as 'face side / face edge'",
                   "an edge lies between them", _AS_WRITTEN)  # fmt: skip
    return None
