"""What a script may say, gathered from the code: names, parameters, defaults, one example each.

`help(...)` and the parameter reference read the same values, so neither can say what is not so.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from enum import Enum
from typing import Any

from furniture.examples import EXAMPLES, MUST_BE_GIVEN
from furniture.joints import Fit, Joint
from furniture.parts.cuts import Cut
from furniture.units import NOT_WRITTEN, millimetres
from furniture.units.parameters import names_in
from furniture.units.written import written_name

_NAMED_BY_JOIN = ("into", "incoming")
_UNITS = {"_mm": "mm", "_deg": "deg"}
LEFT_OUT = "None"
"""The default of what may be left out: its words say what holds then."""
NOTHING = ('""', "()", "{}")
"""Defaults that hold nothing, as one would write them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParameterSaid:
    """One parameter: its name, what it means, and what holds when it is left out.

    Attributes:
        name: as a script writes it.
        means: in words; empty where the class says it as a whole.
        default: as one would write it; None where it must be given.
    """

    name: str
    means: str
    default: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One thing that a script may write.

    Attributes:
        name: of the class.
        about: what it is, in one paragraph or several.
        parameters: in their order.
        example: a line that can be copied.
    """

    name: str
    about: str
    parameters: tuple[ParameterSaid, ...]
    example: str


def reference(names: Mapping[str, object]) -> dict[str, tuple[Said, ...]]:
    """Everything that has an example, by subject.

    Args:
        names: what a script can import, by name.
    """
    return {
        subject: tuple(_said(names[name], example) for name, example in examples.items())
        for subject, examples in EXAMPLES.items()
    }


def choices(names: Mapping[str, object]) -> dict[str, tuple[tuple[str, str], ...]]:
    """Every choice that has names: how each is written, and what it says.

    Args:
        names: what a script can import, by name.
    """
    return {
        name: tuple((f"{name}.{member.name}", _says(member)) for member in kind)
        for name, kind in sorted(names.items())
        if isinstance(kind, type) and issubclass(kind, Enum)
    }


def _says(member: Enum) -> str:
    """What a choice says besides its name."""
    own = member.name.lower().replace("_", " ")
    return "" if str(member.value).lower().replace("-", " ") == own else str(member.value)


def show_as_written(names: Mapping[str, object]) -> None:
    """Have help() show what a script writes: no unit in a parameter's name, and an example.

    Args:
        names: what a script can import, by name.
    """
    for examples in EXAMPLES.values():
        for name, example in examples.items():
            kind: Any = names[name]
            text = inspect.cleandoc(kind.__doc__ or "")
            if is_written_with_units(kind):
                text = re.sub(r"\b(\w+?)_(?:mm|deg)\b", r"\1", text)
            if is_dataclass(names[name]):
                kind.__signature__ = _signature(kind)
            kind.__doc__ = f"{text}\n\nExample:\n    {example}\n"


def is_written_with_units(kind: object) -> bool:
    """Whether it is a joint or a cut: its lengths live in millimetres and are written as text."""
    return isinstance(kind, type) and issubclass(kind, (Joint, Cut))


@dataclass(frozen=True, slots=True)
class _AsWritten:
    """A default in a signature, shown as a script has it: `SLIP`, `"0.5 mm"`."""

    text: str
    value: object

    def __repr__(self) -> str:
        return self.text


def _signature(kind: Any) -> inspect.Signature:
    """What help() shows before all else: each name, and its default as one would write it."""
    by_keyword = inspect.Parameter.KEYWORD_ONLY
    return inspect.Signature(
        [
            inspect.Parameter(
                name, by_keyword,
                default=inspect.Parameter.empty if default is None
                else _AsWritten(default, _value(entry)),
            )
            for name, default, entry in _own(kind)
        ]
    )  # fmt: skip


def _own(kind: Any) -> list[tuple[str, str | None, Any]]:
    """What a script writes of a class: its name, its default as one would write it, its field."""
    must = MUST_BE_GIVEN.get(kind.__name__, ())
    entries = (
        [(written_name(entry.name), entry) for entry in _written(kind)]
        if is_written_with_units(kind)
        else [(entry.name, entry) for entry in fields(kind) if entry.name in names_in(kind)]
    )
    return [(name, None if name in must else _default(entry), entry) for name, entry in entries]


def _written(kind: Any) -> list[Any]:
    """The fields of a joint or a cut that a script writes by name."""
    return [
        entry
        for entry in fields(kind)
        if entry.metadata != NOT_WRITTEN
        and not (issubclass(kind, Joint) and entry.name in _NAMED_BY_JOIN)
    ]


def _said(kind: Any, example: str) -> Said:
    about, means = _read_docstring(kind.__doc__ or "")
    own = _own(kind) if is_dataclass(kind) else []
    return Said(
        name=kind.__name__,
        about=about,
        parameters=tuple(
            ParameterSaid(name=name, means=means.get(name, ""), default=default)
            for name, default, _ in own
        ),
        example=example,
    )


def _read_docstring(text: str) -> tuple[str, dict[str, str]]:
    """What stands before the arguments, and what is said of each."""
    plain = inspect.cleandoc(text)
    about = re.split(r"\n\s*(?:Args|Raises|Example|Attributes|Source):", plain)[0]
    block = re.search(r"\nArgs:\n((?:    .*\n?|\n(?=    ))*)", plain + "\n")
    means: dict[str, str] = {}
    name = ""
    for line in block[1].splitlines() if block else ():
        start = re.match(r"    (\w+): (.*)", line)
        if start:
            name, means[start[1]] = start[1], start[2]
        elif name and line.strip():
            means[name] += f" {line.strip()}"
    return " ".join(about.split()), means


def _value(entry: Any) -> object:
    """The default itself."""
    made = entry.default_factory
    return entry.default if made is MISSING else made()


def _default(entry: Any) -> str | None:
    """How the default is written; None where the parameter must be given."""
    value = _value(entry)
    for ending, unit in _UNITS.items():
        if entry.name.endswith(ending) and isinstance(value, (int, float)):
            return f'"{value:g} {unit}"'
    if value is MISSING or (value is None and "None" not in str(entry.type)):
        return None
    return _as_written(value)


def _as_written(value: object) -> str:
    if value is None:
        return LEFT_OUT
    if isinstance(value, Enum):
        return f"{type(value).__name__}.{value.name}"
    if isinstance(value, Fit):
        return value.name.upper()
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, (tuple, list)):
        return f"[{', '.join(_as_written(each) for each in value)}]" if value else "()"
    if isinstance(value, (bool, int, float)):
        return f"{value:g}" if isinstance(value, float) else str(value)
    if isinstance(value, Mapping):
        return str(dict(value))
    return "millimetres()" if value == millimetres() else f"{type(value).__name__}()"
