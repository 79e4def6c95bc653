"""What is cut already: the parts of an earlier design as they lie on the bench, and offcuts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.cuts.left import put
from furniture.pieces import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """What a part is cut from: the stock's name and its species. Its thickness is the part's."""

    stock: str
    species: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OldPart:
    """One piece of wood that is there, in its own part frame [mm].

    Args:
        name: the instance that it was cut for, or what an offcut is called.
        blank: as it is now.
        cuts: that are made in it.
        wood: what it is of.
        is_offcut: whether it was cut for nothing; then nothing is lost with it.
    """

    name: str
    blank: Blank
    cuts: tuple[Cut, ...]
    wood: Wood
    is_offcut: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A sheet of the earlier packet.

    Args:
        revision: the letter that it carries; empty while it never changed.
        says: every text on it that does not hang on its place in the set.
        changed: those of them that came with that letter.
    """

    revision: str
    says: tuple[str, ...]
    changed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Old:
    """An earlier design: its wood by name, and its sheets by name without their number."""

    name: str
    slug: str
    parts: tuple[OldPart, ...]
    sheets: Mapping[str, Drawn] = field(default_factory=dict)


def old_of(piece: Piece) -> Old:
    """The piece as it was, every part of it cut.

    Args:
        piece: the earlier design.
    """
    return Old(
        name=piece.name,
        slug=piece.slug,
        parts=tuple(
            OldPart(
                name=each.instance,
                blank=each.part.blank,
                cuts=each.part.cuts,
                wood=Wood(stock=each.part.timber.name, species=each.part.timber.species.name),
            )
            for each in piece.placed
        ),
    )


def as_measured(old: Old, name: str, axis: int, size_mm: float) -> Old:
    """The same with one size of one part as the callipers tell it; its cuts keep to their faces.

    Args:
        old: what is there.
        name: of the part.
        axis: 0 length, 1 width, 2 thickness.
        size_mm: measured [mm].

    Raises:
        KeyError: there is no such part.
    """
    part = _part_named(old, name)
    size = put(part.blank.size, axis, size_mm)
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return _with(old, replace(part, blank=blank))


def _part_named(old: Old, name: str) -> OldPart:
    for each in old.parts:
        if each.name == name:
            return each
    raise KeyError(name)


def _with(old: Old, part: OldPart) -> Old:
    parts = tuple(part if each.name == part.name else each for each in old.parts)
    return replace(old, parts=parts)
