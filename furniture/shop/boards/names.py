"""What a name in a wish means: an instance, a part, or a group of instances."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.pieces import Piece, distinct_parts
from furniture.units import Reader

ALL = "all"


def instances_meant(piece: Piece, name: str) -> tuple[str, ...]:
    """The instances that a name means, in the piece's order; none when it means nothing.

    An instance's own name, a part's name, `all`, or a plural: `tiers` means every instance whose
    name holds `tier`, `side rails` every one that holds `side rail`.

    Args:
        piece: the piece.
        name: as written.
    """
    instances = tuple(each.instance for each in piece.placed)
    if name in instances:
        return (name,)
    for each in distinct_parts(piece):
        if each.part.name == name:
            return each.instances
    if name == ALL:
        return instances
    if name.endswith("s") and len(name) > 1:
        stem = name[:-1].split()
        return tuple(one for one in instances if _holds(one.split(), stem))
    return ()


def _holds(words: list[str], stem: list[str]) -> bool:
    size = len(stem)
    return any(words[at : at + size] == stem for at in range(len(words) - size + 1))


def read_names(reader: Reader, parameter: str, given: object, piece: Piece) -> tuple[str, ...]:
    """The instances that one or several names mean, in the order written; unknown ones are noted.

    Args:
        reader: keeps the problems.
        parameter: its name.
        given: one name or several.
        piece: the piece.
    """
    names: Sequence[object] = given if isinstance(given, (list, tuple)) else (given,)
    found: list[str] = []
    for name in names:
        meant = instances_meant(piece, name) if isinstance(name, str) else ()
        if not meant:
            listed = ", ".join(each.instance for each in piece.placed)
            reader.refuse(
                parameter, repr(name), f"{listed}, a plural of their names, or 'all'",
                "it names parts of this piece",
                f"write {piece.placed[0].instance!r}" if piece.placed else "leave it out",
            )  # fmt: skip
        found.extend(one for one in meant if one not in found)
    return tuple(found)
