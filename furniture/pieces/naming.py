"""What distinct parts are called, so that every one has one name and one identifier of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.parts.part import slug_of

LONGEST_LISTED = 48
"""Letters of a name that lists its instances. Own rule: it stands on one line of a title block."""
OF_ITS_OWN = "a name that no other part has, small and capital letters and signs aside"


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Instances of equal work in the order they are placed, and what their builder calls them."""

    instances: tuple[str, ...]
    called: tuple[str, ...]


def distinct_names(parts: Sequence[Alike]) -> list[str]:
    """A name for each distinct part: its builder's, or its instances' where others share that.

    Two equal side rails are the `side rail`; unlike ones `left side rail` and `right side rail`.
    """
    names = [_joined(part.called) for part in parts]
    shared = Counter(slug_of(name) for name in names)
    return [
        _joined(part.instances) if shared[slug_of(name)] > 1 else name
        for part, name in zip(parts, names, strict=True)
    ]


def _joined(names: Sequence[str]) -> str:
    """`tier 1`, `tier 2`, `tier 3` as `tier 1, 2, 3`; unlike names side by side; many cut short."""
    if len(names) == 1:
        return names[0]
    stems = {name.rpartition(" ")[0] for name in names}
    if len(stems) == 1 and "" not in stems:
        text = f"{stems.pop()} {', '.join(name.rpartition(' ')[2] for name in names)}"
    else:
        text = ", ".join(names)
    return text if len(text) <= LONGEST_LISTED else f"{names[0]} and {len(names) - 1} alike"


def own_name_problem(
    parameter: str, given: object, taken: Iterable[str], otherwise: str
) -> Problem | None:
    """What is wrong with a name that a maker gives a part; nothing where it is the part's own.

    Args:
        parameter: where it was given.
        given: what was written.
        taken: the names that the parts before it have.
        otherwise: what to call the part, to which a number is put.
    """
    is_name = isinstance(given, str) and bool(slug_of(given))
    by_slug = {slug_of(name): name for name in taken}
    twin = by_slug.get(slug_of(given)) if isinstance(given, str) else None
    if is_name and twin is None:
        return None
    again = [(str(given), n) for n in range(2, len(by_slug) + 3)] if is_name else []
    names = (f"{base} {n}" for base, n in [*again, *((otherwise, n) for n in range(1, 999))])
    free = next(name for name in names if slug_of(name) not in by_slug)
    told = repr(given) if twin is None else f"{given!r} beside {twin!r}"
    return Problem(
        parameter=parameter,
        given=f"two parts called {given!r}" if twin == given else told,
        allowed=OF_ITS_OWN,
        why="relations, joints, tables and files name the parts",
        remedy=f"call it '{free}'",
    )


def clashes_of_parts(parts: Sequence[Alike], names: Sequence[str]) -> list[Problem]:
    """Distinct parts that go by a name of something else in the piece.

    Only the name of alike parts together can: `leg 1, 2` for `leg 1` and `leg 2`, beside another
    part called `leg 1, 2`.

    Args:
        parts: the distinct parts.
        names: of each of them.
    """
    problems = []
    for part, name in zip(parts, names, strict=True):
        for other, others_name in zip(parts, names, strict=True):
            twin = next(
                (
                    each
                    for each in (*other.instances, others_name)
                    if slug_of(each) == slug_of(name)
                ),
                None,
            )
            if other is part or twin is None or len(part.instances) == 1:
                continue
            problems.append(
                Problem(
                    parameter="placed parts",
                    given=f"{twin!r}, and {name!r} for {' and '.join(map(repr, part.instances))}, "
                    "which are alike",
                    allowed=OF_ITS_OWN,
                    why="alike parts go by one name, and tables and files must tell them apart",
                    remedy=f"call {(twin if twin in other.instances else other.instances[0])!r} "
                    "something else",
                )
            )
    return problems
