"""What a piece stands on, what is asked of its edges, and what they have left for it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.ballast import Room
from furniture.checks.bodies import Body, Load
from furniture.checks.side_by_side import choices
from furniture.checks.support import Edge
from furniture.pieces import DrawnOut
from furniture.rules import USUAL_RULES, Rules


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """An empty piece on its edges: its top, the front of its base, the box that ballast lies in.

    `base_kg` is the mass of the base that is drawn out with an edge, `drawn_out` the parameters
    that do it; None where a maker places the parts and may draw out any side. `fixing_n` is what a
    fixing to the wall at its top must bear; None where nobody would fix it to one. `rules` are
    the maker's.
    """

    piece: Body
    edges: tuple[Edge, ...]
    top_mm: float
    front_mm: float
    room: Room | None = None
    base_kg: float = 0.0
    drawn_out: tuple[DrawnOut, ...] | None = None
    fixing_n: float | None = None
    rules: Rules = USUAL_RULES

    @property
    def is_squat(self) -> bool:
        """Whether it is no higher than its base is across, so that nobody fixes it to a wall."""
        return self.top_mm <= min(self.size_across(edge) for edge in self.edges)

    def size_across(self, edge: Edge) -> float:
        """The base's own size [mm] at right angles to an edge."""
        return max(edge.inside_mm(other.start_mm) for other in self.edges)


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


Burdens = list[list[tuple[float, float]]]
"""For every choice of loads its mass [kg] and its mass times arm [kg mm]."""


def burdens_at(loads: Sequence[Load], edge: Edge, demand: Demand) -> Burdens:
    """What every choice of loads weighs, and how far inside an edge it stands.

    Args:
        loads: the loads that may stand on the piece
        edge: the edge over which it would tip
        demand: what is asked of the edge
    """
    return [
        [
            (
                math.fsum(body.mass_kg for body in each.bodies),
                math.fsum(body.mass_kg * demand.surplus_mm(body, edge) for body in each.bodies),
            )
            for each in group
        ]
        for group in choices(loads, edge)
    ]


def worst_of(group: list[tuple[float, float]], growth_mm: float) -> tuple[float, float]:
    """Of a choice the one that counts for least once the edge has moved; nothing if none hurts.

    Args:
        group: the choice, each a mass [kg] and its mass times arm [kg mm]
        growth_mm: how far the edge has moved outward [mm]

    **Source:** statics; a load that holds the piece down may be absent.
    """
    mass, moment = min(group, key=lambda each: each[1] + each[0] * growth_mm)
    return (mass, moment) if moment + mass * growth_mm < 0.0 else (0.0, 0.0)


def reserve_kgmm(own: tuple[float, float], burdens: Burdens, growth_mm: float = 0.0) -> float:
    """What an edge has left [kg mm], loads counting only where they make things worse.

    Args:
        own: the empty piece's mass [kg] and how far inside the edge its centre is [mm]
        burdens: what may stand on it
        growth_mm: how far the edge has moved outward [mm]

    **Source:** statics.
    """
    worse = (worst_of(group, growth_mm) for group in burdens)
    return own[0] * (own[1] + growth_mm) + math.fsum(
        moment + mass * growth_mm for mass, moment in worse
    )
