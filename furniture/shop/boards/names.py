"""What a name in a wish means: an instance, a part, or a group of instances."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from furniture.pieces import Piece, distinct_parts
from furniture.units import Reader, plural, said, word_remedy

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
    return tuple(one for one in instances if name in _plurals(one))


def _plurals(instance: str) -> set[str]:
    """What an instance may be called among others: `tiers`, `side rails`, `left side rails`."""
    words = instance.split()
    return {
        plural(" ".join(words[start:end]))
        for end in range(1, len(words) + 1)
        for start in range(end)
    }


def _words(piece: Piece) -> list[str]:
    """Every name that a wish may use: groups first, then instances and parts."""
    instances = [each.instance for each in piece.placed]
    counts = Counter(word for each in instances for word in sorted(_plurals(each)))
    groups = [word for word, count in counts.items() if count > 1]
    parts = [each.part.name for each in distinct_parts(piece)]
    return list(dict.fromkeys([*groups, *instances, *parts, ALL]))


def read_names(reader: Reader, parameter: str, given: object, piece: Piece) -> tuple[str, ...]:
    """The instances that one or several names mean, in the order written; unknown ones are noted.

    Args:
        reader: keeps the problems.
        parameter: its name.
        given: one name or several.
        piece: the piece.
    """
    if given is None:
        names: Sequence[object] = (None,)
    else:
        names = reader.several(parameter, given, str, repr(ALL))
    found: list[str] = []
    for name in names:
        meant = instances_meant(piece, name) if isinstance(name, str) else ()
        if not meant:
            listed = ", ".join(each.instance for each in piece.placed)
            reader.refuse(
                parameter, said(name), f"{listed}, a plural of their names, or 'all'",
                "it names parts of this piece",
                word_remedy(name, _words(piece)),
            )  # fmt: skip
        found.extend(one for one in meant if one not in found)
    return tuple(found)
