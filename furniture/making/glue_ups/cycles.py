"""Closed rings in a graph of bodies and joints."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple


class Edge(NamedTuple):
    """A joint between two bodies, and what it stands for."""

    first: int
    second: int
    payload: int


def on_cycles(edges: Sequence[Edge]) -> list[list[Edge]]:
    """The edges that lie on a closed ring, those of rings that hang together in one list.

    An edge does just when its ends still hang together without it.
    """
    kept = [
        edge
        for index, edge in enumerate(edges)
        if _are_linked(edge.first, edge.second, [*edges[:index], *edges[index + 1 :]])
    ]
    rings: list[list[Edge]] = []
    for edge in kept:
        touched = [
            ring for ring in rings
            if {edge.first, edge.second} & {end for each in ring for end in each[:2]}
        ]  # fmt: skip
        rings = [ring for ring in rings if ring not in touched]
        rings.append([each for ring in touched for each in ring] + [edge])
    return [sorted(ring, key=lambda each: each.payload) for ring in rings]


def path_between(start: int, end: int, edges: Iterable[tuple[int, int]]) -> tuple[int, ...]:
    """The nodes on a shortest way from one to another, both included; the two if there is none."""
    edges = list(edges)
    came_from = {start: start}
    waiting = [start]
    for node in waiting:
        for a, b in edges:
            for here, there in ((a, b), (b, a)):
                if here == node and there not in came_from:
                    came_from[there] = node
                    waiting.append(there)
    if end not in came_from:
        return (start, end)
    found = [end]
    while found[-1] != start:
        found.append(came_from[found[-1]])
    return tuple(found)


def _are_linked(first: int, second: int, edges: Sequence[Edge]) -> bool:
    reached, is_more = {first}, True
    while is_more and second not in reached:
        new = {end for each in edges if set(each[:2]) & reached for end in each[:2]} - reached
        reached |= new
        is_more = bool(new)
    return second in reached
