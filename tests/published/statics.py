"""Textbook crates and cabinets in our own terms."""

from __future__ import annotations

from furniture.checks.stability import GRAVITY_M_S2, Body, Leaning, empty_leaning, tipping_push_n
from furniture.checks.support import Edge, support_edges


def crate(width: float, weight_n: float, centre_height: float, deep: float = 1000.0) -> Body:
    """A body of a weight whose centre stands over the middle of its width."""
    return Body(mass_kg=weight_n / GRAVITY_M_S2, centre_mm=(width / 2.0, deep / 2.0, centre_height))


def right_edge(width: float, inset: float = 0.0, deep: float = 1000.0) -> Edge:
    """The edge to the right of a base of a width, its feet set in from the sides."""
    right, left = width - inset, inset
    edges = support_edges(((left, 0.0), (right, 0.0), (right, deep), (left, deep)))
    return max(edges, key=lambda edge: edge.outward[0])


def leaning(width: float, centre_height: float) -> Leaning:
    """A crate about its right edge."""
    return empty_leaning(crate(width, 1.0, centre_height), right_edge(width))


def push_n(width: float, weight_n: float, height: float, inset: float = 0.0) -> float:
    """The horizontal force at a height that tips a crate over its right edge."""
    body = crate(width, weight_n, height / 2.0)
    return tipping_push_n(body, (), right_edge(width, inset), height)
