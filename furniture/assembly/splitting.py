"""Which part or group of parts can leave the rest along a line: closed sets of a blocking table.

A group can leave along d when none of its parts is blocked by a part outside it: when it holds,
with each part, all that block the part. The smallest such groups follow from the strongly connected
components of the graph 'is blocked by'. **Source:** R. H. Wilson and J.-C. Latombe, 'Geometric
reasoning about mechanical assembly', Artificial Intelligence 71 (1994), its directional blocking
graph; cited from memory.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import connected_components

Table = NDArray[np.bool_]


def leaving_groups(blocked: Table) -> list[frozenset[int]]:
    """The groups that can leave along the table's direction, each as row numbers.

    For every part it gives the smallest group that must leave with it, and the largest that can
    leave without it.

    Args:
        blocked: row A, column B is true when A is blocked by B.
    """
    count = len(blocked)
    if count < 2:
        return []
    _, label = connected_components(csr_matrix(blocked), directed=True, connection="strong")
    groups = [np.flatnonzero(label == each) for each in range(label.max() + 1)]
    if len(groups) == 1:
        return []
    reach = _closure(blocked, label, len(groups))
    everything = frozenset(range(count))
    found: dict[frozenset[int], None] = {}
    for index in range(len(groups)):
        for chosen in (reach[index], ~reach[:, index]):
            group = frozenset(int(row) for each in np.flatnonzero(chosen) for row in groups[each])
            if group and group != everything:
                found[group] = None
    return list(found)


def _closure(blocked: Table, label: NDArray[np.intp], count: int) -> Table:
    """Which component reaches which, itself included."""
    reach = np.eye(count, dtype=np.bool_)
    rows, columns = np.nonzero(blocked)
    reach[label[rows], label[columns]] = True
    for through in range(count):
        reach |= np.outer(reach[:, through], reach[through])
    return reach
