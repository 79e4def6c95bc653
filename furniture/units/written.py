"""The door for values whose lengths live in millimetres: a maker writes them as text, by name.

A field such as `stop_from_face_edge_mm` is written `stop_from_face_edge="12 mm"`, and
`blade_tilt_deg` is written `blade_tilt="45 deg"`. One rule for every cut and every joint, so that a
new one needs no door of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields
from enum import Enum
from types import UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from furniture.units.reader import Reader
from furniture.units.texts import said
from furniture.units.words import nearest_word

_Value = TypeVar("_Value")
Special = Mapping[type, Callable[[Reader, str, object], Any]]
"""How fields of some types are read: given the reader, the parameter's name and what was given."""

_GREATEST = 1e15
"""No plain number of a cut or a joint comes near this one."""
_ENDINGS = ("_mm", "_deg")
NOT_WRITTEN = {"is_written": False}
"""Metadata of a field that is not for a maker to write."""


def written_name(field_name: str) -> str:
    """The name that a maker writes for a field: without its unit."""
    for ending in _ENDINGS:
        if field_name.endswith(ending):
            return field_name.removesuffix(ending)
    return field_name


def read_value(
    reader: Reader,
    where: str,
    kind: type[_Value],
    given: Mapping[str, object],
    special: Special | None = None,
) -> _Value | None:
    """A value of a dataclass from what a maker wrote; nothing, with its problems noted, if unread.

    Args:
        reader: keeps the problems.
        where: put before each parameter's name.
        kind: the dataclass.
        given: by written name.
        special: how fields of some types are read.
    """
    all_fields: tuple[Field[Any], ...] = fields(kind)  # type: ignore[arg-type]
    own = [entry for entry in all_fields if entry.metadata != NOT_WRITTEN]
    known = {written_name(entry.name): entry for entry in own}
    hints = get_type_hints(kind)
    before = reader.noted
    meant: set[str | None] = set()
    for name in given:
        if name not in known:
            close = nearest_word(name, [one for one in known if one not in given])
            meant.add(close)
            is_like = nearest_word(name, list(known)) is not None
            reader.refuse(
                f"{where}{name}",
                "a value",
                f"what help({kind.__name__}) lists" if is_like else ", ".join(known),
                "there is no parameter of this name",
                f"write {close}" if close else "leave it out",
            )
    values: dict[str, object] = {}
    for name, entry in known.items():
        if name in given:
            hint = hints[entry.name]
            values[entry.name] = _read(reader, f"{where}{name}", entry.name, hint, given[name],
                                       special or {})  # fmt: skip
        elif entry.default is MISSING and entry.default_factory is MISSING and name not in meant:
            reader.refuse(
                f"{where}{name}", "nothing", f"what help({kind.__name__}) says",
                "it must be given", f"write it as in {reader.example(kind.__name__)}",
            )  # fmt: skip
    if reader.noted > before:
        return None
    return kind(**values)


def _read(
    reader: Reader, parameter: str, field_name: str, hint: Any, given: object, special: Special
) -> object:
    kinds = _kinds(hint)
    if given is None and type(None) in kinds:
        return None
    if field_name.endswith("_mm"):
        return reader.length(parameter, given)
    if field_name.endswith("_deg"):
        return reader.angle(parameter, given)
    for kind in kinds:
        if kind in special:
            return special[kind](reader, parameter, given)
        if isinstance(kind, type) and issubclass(kind, Enum):
            return reader.choice(parameter, given, kind, next(iter(kind)))
    is_taken = any(_is_a(given, kind) for kind in kinds)
    if not is_taken:
        allowed = " or ".join(
            _IN_WORDS.get(kind, kind.__name__) for kind in kinds if kind is not type(None)
        )
        one = allowed.split(" or ")[0]
        reader.refuse(parameter, said(given), allowed, "it is of this kind", f"write {one}")
    return given


def _kinds(hint: Any) -> tuple[type, ...]:
    if get_origin(hint) in (Union, UnionType):
        return tuple(get_args(hint))
    return (get_origin(hint) or hint,)


def _is_a(given: object, kind: type) -> bool:
    if kind is bool:
        return isinstance(given, bool)
    if kind in (int, float):
        if isinstance(given, bool) or not isinstance(given, int if kind is int else int | float):
            return False
        return abs(given) < _GREATEST
    return isinstance(given, kind)


_IN_WORDS: dict[type, str] = {
    bool: "True or False",
    int: "a whole number",
    float: "a plain number",
    str: "text",
}
