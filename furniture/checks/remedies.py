"""What to change so that a piece stands, and by how much."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.finding import Show
from furniture.checks.stability import GRAVITY_M_S2, Body, Load, placed
from furniture.checks.support import Edge

MOST_BALLAST = 3.0
"""Ballast as a share of the piece's mass that is still offered [-]. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What is asked about one edge, as a tilt of the whole or a push on it.

    A body at height z needs its centre `tilt x z + reach` inside the edge; beside that the whole
    must resist `moment_nmm`. A tilt limit has only a slope; 13 % of the weight at a height y has
    only a reach, 0.13 y; a push of so many newtons has only a moment.
    """

    slope: float = 0.0
    reach_mm: float = 0.0
    moment_nmm: float = 0.0

    def surplus_mm(self, body: Body, edge: Edge) -> float:
        """How far the body's centre is further inside the edge than it needs [mm]."""
        needed = self.slope * body.centre_mm[2] + self.reach_mm
        return edge.inside_mm(body.centre_mm[:2]) - needed


def base_growth_mm(
    piece: Body, loads: Sequence[Load], edge: Edge, demand: Demand, base_kg: float = 0.0
) -> float:
    """How far the edge must move outward [mm], the rest staying where it is; 0 if it stands.

    A base that is drawn out with its edge takes its own middle along by half as much.

    Args:
        piece: the empty piece
        loads: the loads that may stand on it; none for the empty case
        edge: the edge over which it would tip
        demand: what is asked
        base_kg: the mass of the base that is drawn out [kg]; what it gains in mass is not counted

    **Source:** statics; the reserve grows with the edge in straight pieces, solved by Newton.
    """
    share = 1.0 - base_kg / (2.0 * piece.mass_kg)
    own = (piece.mass_kg, demand.surplus_mm(piece, edge))
    others = _others(loads, edge, demand)
    wanted = demand.moment_nmm / GRAVITY_M_S2
    growth = 0.0
    for _ in range(len(others) + 2):
        grown = (own[0], own[1] - (1.0 - share) * growth)
        missing = wanted - _reserve(grown, others, growth)
        if missing <= 1e-9:
            break
        working = own[0] * share + math.fsum(mass for mass, arm in others if arm + growth < 0.0)
        growth += missing / working
    return growth


def ballast_kg(
    piece: Body,
    loads: Sequence[Load],
    edges: Sequence[Edge],
    demand: Demand,
    at_mm: tuple[float, float, float],
) -> float | None:
    """The least mass [kg] at a place that makes every edge hold; None where no mass there can.

    Args:
        piece: the empty piece
        loads: the loads that may stand on it; none for the empty case
        edges: all edges of the support polygon
        demand: what is asked of each edge
        at_mm: where the ballast's centre would lie (x, y, z) [mm]

    **Source:** statics; each load counts only where it makes things worse.
    """
    needs = [0.0]
    place = Body(mass_kg=1.0, centre_mm=at_mm)
    for edge in edges:
        own = (piece.mass_kg, demand.surplus_mm(piece, edge))
        reserve = _reserve(own, _others(loads, edge, demand), 0.0)
        missing = demand.moment_nmm / GRAVITY_M_S2 - reserve
        if missing > 1e-9:
            helps = demand.surplus_mm(place, edge)
            if helps <= 0.0:
                return None
            needs.append(missing / helps)
    return max(needs)


def bearable_share(
    piece: Body, loads: Sequence[Load], edges: Sequence[Edge], demand: Demand
) -> float | None:
    """The share of every stated load that the piece bears, 0 to 1; None if empty fails already.

    Args:
        piece: the empty piece
        loads: the stated loads
        edges: all edges of the support polygon
        demand: what is asked of each edge

    **Source:** statics, the reserve is linear in the loads.
    """
    share = 1.0
    for edge in edges:
        own = piece.mass_kg * demand.surplus_mm(piece, edge) - demand.moment_nmm / GRAVITY_M_S2
        if own < 0.0:
            return None
        burden = -_reserve((0.0, 0.0), _others(loads, edge, demand), 0.0)
        if burden > own:
            share = min(share, own / burden)
    return share


def advice_to_stand(
    piece: Body,
    loads: Sequence[Load],
    edges: Sequence[Edge],
    edge: Edge,
    demand: Demand,
    ballast_at_mm: tuple[float, float, float] | None,
    show: Show,
    base_kg: float = 0.0,
) -> str:
    """The ways to make the piece hold about an edge, each with its amount.

    A base that would double and ballast of several times the piece are not offered.

    Args:
        piece: the empty piece
        loads: the loads of the case; none for the empty case
        edges: all edges of the support polygon
        edge: the edge that does not hold
        demand: what is asked
        ballast_at_mm: where ballast could lie (x, y, z) [mm], or None where there is no box
        show: puts a length into the piece's unit
        base_kg: the mass of the base that is drawn out with an edge [kg]

    **Source:** statics, as `base_growth_mm`, `ballast_kg` and `bearable_share`.
    """
    grows = base_growth_mm(piece, loads, edge, demand, base_kg)
    ways = []
    if grows <= max(edge.inside_mm(other.start_mm) for other in edges):
        ways.append(f"move the {edge.name} edge of the base outward by {show(grows)}")
    note = ""
    if ballast_at_mm is not None:
        ballast = ballast_kg(piece, loads, edges, demand, ballast_at_mm)
        if ballast is None:
            note = "; no ballast in the box would do, it would tip with the rest"
        elif ballast <= MOST_BALLAST * piece.mass_kg:
            ways.append(f"put {_up(ballast)} kg in the box")
    share = bearable_share(piece, loads, edges, demand) if loads else None
    if share is not None and share < 1.0:
        ways.append(f"stand at most {math.floor(share * 100.0)} % of the stated loads on it")
    ways.append("fix it to the wall")
    return ", or ".join(ways) + note


def _others(loads: Sequence[Load], edge: Edge, demand: Demand) -> list[tuple[float, float]]:
    bodies = (placed(load, edge) for load in loads)
    return [(body.mass_kg, demand.surplus_mm(body, edge)) for body in bodies]


def _reserve(own: tuple[float, float], others: list[tuple[float, float]], growth: float) -> float:
    worse = (mass * min(0.0, arm + growth) for mass, arm in others)
    return own[0] * (own[1] + growth) + math.fsum(worse)


def _up(mass_kg: float) -> str:
    """The mass rounded up to 0.1 kg, so that the advice is enough."""
    return f"{math.ceil(mass_kg * 10.0 - 1e-6) / 10.0:.1f}"
