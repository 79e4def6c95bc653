"""Parameter sets that a maker fills in: kept exactly as given, judged later and all at once.

Making one never fails, so that a script with three mistakes hears of all three.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field, fields, is_dataclass
from enum import Enum
from types import MappingProxyType
from typing import Any, TypeVar, dataclass_transform

_Class = TypeVar("_Class")

REQUIRED: Any = None
"""The default of a parameter that must be given."""


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def parameters(cls: type[_Class]) -> type[_Class]:
    """The class as a frozen, keyword-only set of parameters that remembers unknown names.

    A misspelt parameter does not raise here: `misspelt_in` lists it for the reader to report.
    """
    # A field like the others, so that `dataclasses.replace` hands it on.
    cls.__annotations__[_RECORD] = "Any"
    setattr(cls, _RECORD, field(default=None, repr=False, compare=False))
    made = dataclass(frozen=True, kw_only=True)(cls)
    fill: Callable[..., None] = made.__init__
    known = set(names_in(made))

    def __init__(self: object, **given: object) -> None:  # noqa: N807
        before = given.pop(_RECORD, None)
        fill(self, **{name: value for name, value in given.items() if name in known})
        record = _Record(
            values={name: getattr(self, name) for name in known},
            given=tuple(name for name in given if name in known),
            misspelt=tuple(name for name in given if name not in known),
        ).after(before)
        object.__setattr__(self, _RECORD, record)

    # What help() and an editor show is what a script writes, each with its default.
    __init__.__signature__ = _signature_of(made)  # type: ignore[attr-defined]
    made.__init__ = __init__  # type: ignore[method-assign]
    return made


def _signature_of(made: Any) -> inspect.Signature:
    """The parameters by keyword, those that must be given without a default."""
    kind = inspect.Parameter.KEYWORD_ONLY
    named = [
        inspect.Parameter(entry.name, kind, annotation=entry.type, default=_default_of(entry))
        for entry in fields(made)
        if entry.name != _RECORD
    ]
    self = inspect.Parameter("self", inspect.Parameter.POSITIONAL_OR_KEYWORD)
    return inspect.Signature([self, *named], return_annotation=None)


def _default_of(entry: Any) -> object:
    if entry.default_factory is not MISSING:
        return entry.default_factory()
    return inspect.Parameter.empty if entry.default is MISSING else entry.default


_RECORD = "_record"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Record:
    """What a parameter set was made with: values by name, names given, names it does not have."""

    values: Mapping[str, object]
    given: tuple[str, ...]
    misspelt: tuple[str, ...]

    def after(self, before: object) -> _Record:
        """The record of a set made from another one, of which every value comes along."""
        if not isinstance(before, _Record):
            return self
        changed = (name for name in self.given if self.values[name] is not before.values[name])
        return _Record(
            values=self.values,
            given=tuple(dict.fromkeys((*before.given, *changed))),
            misspelt=tuple(dict.fromkeys((*before.misspelt, *self.misspelt))),
        )


def is_parameters(value: object) -> bool:
    """Whether this is a set of parameters that a maker filled in."""
    return isinstance(getattr(value, _RECORD, None), _Record)


def names_in(parameter_set: Any) -> list[str]:
    """The names of the parameters of a set, or of its class."""
    return [entry.name for entry in fields(parameter_set) if entry.name != _RECORD]


def misspelt_in(parameter_set: object) -> tuple[str, ...]:
    """The names that were given to a parameter set and that it does not have."""
    record = getattr(parameter_set, _RECORD, None)
    return record.misspelt if isinstance(record, _Record) else ()


def is_given(parameter_set: object, name: str) -> bool:
    """Whether a parameter was given, rather than left at its default."""
    record = getattr(parameter_set, _RECORD, None)
    return isinstance(record, _Record) and name in record.given


def as_given(value: object) -> Any:
    """A parameter set, or anything in one, as plain data for piece.json: text stays as typed."""
    if is_parameters(value):
        return {name: as_given(getattr(value, name)) for name in names_in(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, (list, tuple)):
        return [as_given(item) for item in value]
    if isinstance(value, Mapping):
        return {str(key): as_given(item) for key, item in value.items()}
    if value is None or isinstance(value, (str, bool, int)):
        return value
    if isinstance(value, type):
        return value.__name__
    if is_dataclass(value) and not isinstance(value, type):
        name = getattr(value, "name", None)
        if isinstance(name, str):
            return name
        return {entry.name: as_given(getattr(value, entry.name)) for entry in fields(value)}
    if isinstance(value, float):
        return value if value == value and abs(value) != float("inf") else str(value)
    return str(value)


def read_only(value: Any) -> Any:
    """Plain data that cannot be changed: mappings and lists in it, however deep, are read only."""
    if isinstance(value, Mapping):
        return MappingProxyType({key: read_only(item) for key, item in value.items()})
    if isinstance(value, (list, tuple)):
        return tuple(read_only(item) for item in value)
    return value
