"""The lengths that a maker wrote into a design: what may give when something else was measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from string import digits
from typing import Any, Protocol, runtime_checkable

from furniture.units import counted
from furniture.units.parameters import is_parameters, names_in
from furniture.units.reading import ReadingError, read_length

Step = str | int | tuple[str]
"""A field by name, a place in a list, or a key of a mapping (in a tuple of its own). A place in a
rule for several means that one of them, stated by itself."""


@runtime_checkable
class RuleForSeveral(Protocol):
    """Parameters that state several things by a rule, such as tiers that step back."""

    def one_by_one(self) -> Sequence[Any]:
        """The same, each stated by itself; none where the rule cannot be read."""


@runtime_checkable
class KnownAs(Protocol):
    """Parameters that messages call otherwise than by their place, such as `shelf:`."""

    @property
    def known_as(self) -> str: ...


@runtime_checkable
class Called(Protocol):
    """What has a name of its own in messages, such as a stock's, or the kind of a cut."""

    @property
    def called(self) -> str: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A length of the design: where it stands, and its figure now [mm].

    A stock that serves twice is one thing: its thickness stands at several paths.

    Args:
        name: as messages call it, such as `tier 3 depth`; no other lever has it.
        paths: where it stands.
        value_mm: its figure [mm].
    """

    name: str
    paths: tuple[tuple[Step, ...], ...]
    value_mm: float

    @property
    def in_script(self) -> str:
        """The same as Python would reach it, which counts from nought: `tiers[2].depth`."""
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
    found: dict[object, Lever] = {}
    owners = []  # kept, so that none is made anew where another was: they are told apart by id
    for owner, path, name, value in _lengths(design, design, (), _Name()):
        owners.append(owner)
        # Two tiers stated by one value are two tiers; a stock in two places is one stock.
        at = (id(owner), path[-1]) if isinstance(owner, Called) and owner.called else path
        known = found.get(at)
        paths = (path,) if known is None else (*known.paths, path)
        found[at] = Lever(name=name if known is None else known.name, paths=paths, value_mm=value)
    return tuple(found.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Name:
    """What a message calls a value: what it is of, with what parts the two, and its own word."""

    before: str = ""
    own: str = ""
    is_several: bool = False

    @property
    def text(self) -> str:
        return self.before + self.own

    def of_figure(self, owner: object, field: str) -> _Name:
        """A field of a parameter set; figures that are given by name stand there by their own."""
        parted = " " if self.before or self.own[-1:] in (":", ")", *digits) else "."
        before = f"{self.text}{parted}" if self.own else self.before
        value = getattr(owner, field)
        called = f"({value.called})" if isinstance(value, Called) and value.called else ""
        if field in getattr(owner, "unnamed", ()):
            return _Name(before=f"{before}{called} " if called else before)
        written = str(getattr(type(owner), "__annotations__", {}).get(field, ""))
        own = f"{field} {called}" if called else field
        return _Name(before=before, own=own, is_several="Sequence[" in written)

    def of_key(self, key: str, item: object) -> _Name:
        """One of a mapping."""
        own = f"{self.own}[{key!r}]" if self.own else key
        own += f" ({item.called})" if isinstance(item, Called) and item.called else ""
        return _Name(before=self.before, own=own)

    def of_one(self, index: int, item: object) -> _Name:
        """One of several, counted from one."""
        if isinstance(item, KnownAs):
            return _Name(before=self.before, own=item.known_as)
        named = getattr(item, "name", None) or getattr(item, "on", None)
        called = item.called if isinstance(item, Called) else named
        one = self.own.replace("_", " ").removesuffix("s")
        return _Name(before=self.before, own=counted(one, index, called))


def _lengths(
    value: object, owner: object, path: tuple[Step, ...], name: _Name
) -> Iterator[tuple[object, tuple[Step, ...], str, float]]:
    """Every length [mm] with what it is of, its path and what messages call it."""
    if getattr(value, "is_no_wood", False):
        return
    items: list[tuple[Step, object, _Name]] = []
    listed = value if isinstance(value, (list, tuple)) else None
    if name.is_several and listed is None and not isinstance(value, RuleForSeveral):
        name = name.of_one(0, value)
    if is_parameters(value) or (is_dataclass(value) and not isinstance(value, type)):
        own = (
            names_in(value)
            if is_parameters(value)
            else [each.name for each in fields(value) if each.init]  # type: ignore[arg-type]
        )
        items = [(each, getattr(value, each), name.of_figure(value, each)) for each in own]
    elif isinstance(value, Mapping):
        items = [((str(key),), item, name.of_key(str(key), item)) for key, item in value.items()]
    elif listed is not None:
        items = [(at, item, name.of_one(at, item)) for at, item in enumerate(listed)]
    elif path and (isinstance(value, str) or hasattr(value, "magnitude")):
        try:
            yield owner, path, name.text, read_length(value)
        except ReadingError:
            return
    if isinstance(value, RuleForSeveral):
        several = enumerate(value.one_by_one())
        items += [(at, item, name.of_one(at, item)) for at, item in several]
    for step, item, called in items:
        yield from _lengths(item, value, (*path, step), called)


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
        several = value.one_by_one() if isinstance(value, RuleForSeveral) else value
        items = [
            _with(item, tuple(rest), text) if index == step else item
            for index, item in enumerate(several)
        ]
        return tuple(items) if isinstance(value, tuple) else items
    return replace(value, **{step: _with(getattr(value, step), tuple(rest), text)})
