"""What a name in a wish means: an instance, a part, or a group of instances."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.pieces import Piece, distinct_parts
from furniture.units import Reader, plural, said, word_remedy

ALL = "all"


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """What a wish may speak of.

    Args:
        instances: in order.
        groups: what several are called together, such as a part's name, with those it means.
    """

    instances: tuple[str, ...]
    groups: Mapping[str, tuple[str, ...]]


def names_of(piece: Piece) -> Names:
    """The instances of a piece, and its parts as groups of them."""
    return Names(
        instances=tuple(each.instance for each in piece.placed),
        groups={each.part.name: each.instances for each in distinct_parts(piece)},
    )


def instances_meant(names: Names, name: str) -> tuple[str, ...]:
    """The instances that a name means, in order; none when it means nothing.

    An instance's own name, a group's name, `all`, or a plural: `tiers` means every instance whose
    name holds `tier`, `side rails` every one that holds `side rail`.
    """
    if name in names.instances:
        return (name,)
    if name in names.groups:
        return names.groups[name]
    if name == ALL:
        return names.instances
    return tuple(one for one in names.instances if name in _plurals(one))


def _plurals(instance: str) -> set[str]:
    """What an instance may be called among others: `tiers`, `side rails`, `left side rails`."""
    words = instance.split()
    return {
        plural(" ".join(words[start:end]))
        for end in range(1, len(words) + 1)
        for start in range(end)
    }


def _words(names: Names) -> list[str]:
    """Every name that a wish may use: plurals first, then instances and groups."""
    counts = Counter(word for each in names.instances for word in sorted(_plurals(each)))
    plurals = [word for word, count in counts.items() if count > 1]
    return list(dict.fromkeys([*plurals, *names.instances, *names.groups, ALL]))


def read_names(reader: Reader, parameter: str, given: object, names: Names) -> tuple[str, ...]:
    """The instances that one or several names mean, in the order written; unknown ones are noted.

    Args:
        given: one name or several.
    """
    if given is None:
        written: Sequence[object] = (None,)
    else:
        written = reader.several(parameter, given, str, repr(ALL))
    found: list[str] = []
    for name in written:
        meant = instances_meant(names, name) if isinstance(name, str) else ()
        if not meant:
            listed = ", ".join(names.instances)
            reader.refuse(
                parameter, said(name), f"{listed}, a plural of their names, or 'all'",
                "it names parts of this piece",
                word_remedy(name, _words(names)),
            )  # fmt: skip
        found.extend(one for one in meant if one not in found)
    return tuple(found)
