"""The lengths that a maker wrote into a design: what may give when something else was measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from furniture.units.parameters import is_parameters, names_in
from furniture.units.reading import ReadingError, read_length

Step = str | int | tuple[str]
"""A field by name, a place in a list, or a key of a mapping (in a tuple of its own)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A length of the design: where it stands, and its figure now [mm].

    A stock that serves twice is one thing: its thickness stands at several paths.
    """

    paths: tuple[tuple[Step, ...], ...]
    value_mm: float

    @property
    def name(self) -> str:
        """What the script calls it, such as `tiers[2].depth`."""
        text = ""
        for step in self.paths[0]:
            if isinstance(step, str):
                text += f".{step}" if text else step
            else:
                text += f"[{step!r}]" if isinstance(step, int) else f"[{step[0]!r}]"
        return text


def levers_of(design: object) -> tuple[Lever, ...]:
    """Every length that is written in a design, its defaults too; what is worked out is none.

    Args:
        design: a parameter set, or anything else, which has none.
    """
    found: dict[tuple[int, Step], Lever] = {}
    for owner, path, value in _lengths(design, design, ()):
        at = (id(owner), path[-1])
        known = found.get(at)
        paths = (path,) if known is None else (*known.paths, path)
        found[at] = Lever(paths=paths, value_mm=value)
    return tuple(found.values())


def _lengths(
    value: object, owner: object, path: tuple[Step, ...]
) -> Iterator[tuple[object, tuple[Step, ...], float]]:
    """Every length [mm] with what it is of and its path."""
    items: list[tuple[Step, object]] = []
    if is_parameters(value):
        items = [(name, getattr(value, name)) for name in names_in(value)]
    elif is_dataclass(value) and not isinstance(value, type):
        items = [(each.name, getattr(value, each.name)) for each in fields(value) if each.init]
    elif isinstance(value, Mapping):
        items = [((str(key),), item) for key, item in value.items()]
    elif isinstance(value, (list, tuple)):
        items = list(enumerate(value))
    elif path and (isinstance(value, str) or hasattr(value, "magnitude")):
        try:
            yield owner, path, read_length(value)
        except ReadingError:
            return
    for step, item in items:
        yield from _lengths(item, value, (*path, step))


def with_lever(design: Any, lever: Lever, value_mm: float) -> Any:
    """The design with another figure there.

    Args:
        design: that the lever is of.
        lever: which length.
        value_mm: its new figure [mm].
    """
    for path in lever.paths:
        design = _with(design, path, f"{value_mm:.9f} mm")
    return design


def _with(value: Any, path: tuple[Step, ...], text: str) -> Any:
    if not path:
        return text
    step, *rest = path
    if isinstance(step, tuple):
        return {**value, step[0]: _with(value[step[0]], tuple(rest), text)}
    if isinstance(step, int):
        items = [
            _with(item, tuple(rest), text) if index == step else item
            for index, item in enumerate(value)
        ]
        return tuple(items) if isinstance(value, tuple) else items
    return replace(value, **{step: _with(getattr(value, step), tuple(rest), text)})
