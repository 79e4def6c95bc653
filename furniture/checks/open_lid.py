"""A lid that stands open on its hinges: what it does to the piece, its hinges and its stay."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from furniture.checks.bodies import Body, combined
from furniture.checks.support import Edge
from furniture.parts.vectors import Vector, add, cross, dot, scaled, subtract, turned_about, unit
from furniture.units.gravity import GRAVITY_M_S2


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenLid:
    """A lid on hinges and the rest of its piece, heights above the floor [mm, kg].

    `pin`, `axis` and the closed `lid` say how it turns; `front` is where a hand takes it. Each of
    `stays` is fixed to the closed lid and to the rest.
    """

    rest: Body
    lid: Body
    pin: Vector
    axis: Vector
    opens_deg: float
    front: Vector
    stays: tuple[tuple[Vector, Vector], ...]
    hinges: int

    def turned(self, point: Vector, by_deg: float | None = None) -> Vector:
        """Where a point of the closed lid is once it is open [mm].

        Args:
            point: of the closed lid [mm]
            by_deg: how far open; as far as it goes when left out [deg]

        **Source:** geometry.
        """
        by = self.opens_deg if by_deg is None else by_deg
        return turned_about(point, self.pin, self.axis, by)

    @property
    def opened(self) -> Body:
        """The whole piece with its lid open.

        **Source:** statics.
        """
        lid = replace(self.lid, centre_mm=self.turned(self.lid.centre_mm))
        return combined((self.rest, lid))

    def drop_j(self) -> float:
        """What a lid let go of upright has gained where its stay stops it [J].

        **Source:** energy, weight times the fall of its centre; none before it is past upright.
        """
        arm = subtract(self.lid.centre_mm, self.pin)
        swung = subtract(arm, scaled(self.axis, dot(self.axis, arm)))
        reach = math.sqrt(dot(swung, swung))
        now = subtract(self.turned(self.lid.centre_mm), self.pin)
        is_past = dot(cross(self.axis, now), (0.0, 0.0, -1.0)) > 0.0
        return self.lid.weight_n * (reach - now[2]) / 1000.0 if is_past else 0.0

    def pulls_n(self, hand_n: float) -> tuple[float, float]:
        """What pulls on one hinge and on one stay with a hand on the open lid's front [N].

        The hand pushes on the way that the lid opens.

        Args:
            hand_n: of the hand [N]; 0 is the lid by itself

        **Source:** statics: moments about the pin; a stay only pulls.
        """
        weight = (0.0, 0.0, -self.lid.weight_n)
        way, reach = self.push_way()
        opening = hand_n * reach + self._moment(self.turned(self.lid.centre_mm), weight)
        lines = [unit(subtract(b, self.turned(a))) for a, b in self.stays]
        levers = [
            -self._moment(self.turned(a), line)
            for (a, _), line in zip(self.stays, lines, strict=True)
        ]
        stay = max(0.0, opening) / sum(levers) if levers and min(levers) > 0.0 else 0.0
        force = add(weight, scaled(way, hand_n))
        for line in lines:
            force = add(force, scaled(line, stay))
        return math.sqrt(dot(force, force)) / self.hinges, stay

    def push_way(self) -> tuple[Vector, float]:
        """The way that a hand at the open lid's front pushes it on, and how far from the pin [mm].

        **Source:** geometry.
        """
        arm = subtract(self.turned(self.front), self.pin)
        swung = subtract(arm, scaled(self.axis, dot(self.axis, arm)))
        return unit(cross(self.axis, swung)), math.sqrt(dot(swung, swung))

    def _moment(self, at: Vector, force: Vector) -> float:
        """The moment of a force about the pin, the way that the lid opens [N mm]."""
        return dot(self.axis, cross(subtract(at, self.pin), force))

    def tipping_hand_n(self, edges: tuple[Edge, ...]) -> float:
        """The push of a hand on the open lid's front that tips the piece [N]; infinite for none.

        Args:
            edges: of what it stands on

        **Source:** statics, moments about each edge.
        """
        whole, at, (way, _) = self.opened, self.turned(self.front), self.push_way()
        least = math.inf
        for edge in edges:
            outward = way[0] * edge.outward[0] + way[1] * edge.outward[1]
            tips = outward * at[2] + way[2] * edge.inside_mm(at[:2])
            if tips > 1e-9:
                rights = whole.weight_n * edge.inside_mm(whole.centre_mm[:2])
                least = min(least, max(0.0, rights) / tips)
        return least


def tip_j(whole: Body, edge: Edge) -> float:
    """What it takes to throw a piece over an edge [J]; 0 where it falls by itself.

    Args:
        whole: the piece
        edge: of what it stands on

    **Source:** energy: its centre rises until it is over the edge.
    """
    inside, high = edge.inside_mm(whole.centre_mm[:2]), whole.centre_mm[2]
    if inside <= 0.0:
        return 0.0
    return whole.mass_kg * GRAVITY_M_S2 * (math.hypot(inside, high) - high) / 1000.0
