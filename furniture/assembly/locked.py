"""Why a group cannot be put together: the fewest parts that lock one another, and how."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from furniture.assembly.body import Body
from furniture.assembly.directions import opposite
from furniture.assembly.splitting import leaving_groups
from furniture.assembly.values import NoOrder
from furniture.parts.vectors import Vector
from furniture.parts.ways import way_in_words
from furniture.units import listed

Table = NDArray[np.bool_]


def locked(
    bodies: Sequence[Body], lines: Sequence[Vector], tables: Sequence[Table], group: Sequence[int]
) -> NoOrder:
    """The parts that lock one another within a group that cannot be taken apart, with the reason.

    Args:
        bodies: all parts.
        lines: what was tried.
        tables: for each line, who is blocked by whom.
        group: rows of the tables, of which none can leave the others.
    """
    core = list(group)
    for each in group:  # whatever is not needed for the lock is left out
        lesser = [other for other in core if other != each]
        if len(lesser) > 1 and _is_locked(tables, lesser):
            core = lesser
    names = [bodies[each].name for each in core]
    ways = [_free_ways(lines, tables, a, b) for a, b in combinations(core, 2)]
    told = [
        _pair_in_words(bodies[a].name, bodies[b].name, free)
        for (a, b), free in zip(combinations(core, 2), ways, strict=True)
        if len(free) < 2 * len(lines)
    ]
    return NoOrder(
        stuck=tuple(names),
        reason=f"{listed(names)} lock one another: {'; '.join(told)}. No one straight way serves.",
    )


def _is_locked(tables: Sequence[Table], group: Sequence[int]) -> bool:
    rows = np.array(group)
    return not any(leaving_groups(table[np.ix_(rows, rows)]) for table in tables)


def _free_ways(
    lines: Sequence[Vector], tables: Sequence[Table], first: int, second: int
) -> list[Vector]:
    """The ways in which the first part can leave the second, were the two alone."""
    free: list[Vector] = []
    for line, table in zip(lines, tables, strict=True):
        if not table[first, second]:
            free.append(line)
        if not table[second, first]:
            free.append(opposite(line))
    return free


def _pair_in_words(first: str, second: str, free: Sequence[Vector]) -> str:
    if not free:
        return f"{first} cannot leave {second} at all"
    ways = " or ".join(dict.fromkeys(way_in_words(way) for way in free))
    return f"{first} leaves {second} only {ways}"
