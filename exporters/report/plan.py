"""What the plan picture of stability shows, as plain values in the piece's frame [mm]."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from furniture.checks.of_piece import Setting, standing_of
from furniture.checks.of_piece.stability import is_table_top_piece
from furniture.checks.stability import (
    Leaning,
    combined,
    empty_leaning,
    worst_leaning,
)
from furniture.checks.stability_findings import Standing, TiltLimits, tilt_asked
from furniture.checks.support import Edge, support_corners
from furniture.parts.vectors import Point2
from furniture.pieces.piece import Piece, Stance
from furniture.pieces.weighed import Weighed

SHORT_SHARE = 0.06
"""Edges shorter than this share of the way round are the corners of round feet. Own rule."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanEdge:
    """One edge that it may tip over: empty, and with the worst of its loads."""

    letter: str
    edge: Edge
    empty: Leaning
    loaded: Leaning | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The piece from above: where it stands, what it carries, its centres of mass.

    `loaded` is the centre with the loads of the worst case, about the edge `worst`.
    """

    corners: tuple[Point2, ...]
    contacts: tuple[Point2, ...]
    tiers: tuple[tuple[Point2, Point2], ...]
    centre: Point2
    edges: tuple[PlanEdge, ...]
    worst: PlanEdge
    loaded: Point2 | None
    asked: TiltLimits

    @property
    def box(self) -> tuple[Point2, Point2]:
        """The least and the greatest corner of all that it shows."""
        points = [*self.corners, self.centre, *(point for tier in self.tiers for point in tier)]
        if self.loaded is not None:
            points.append(self.loaded)
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return ((min(xs), min(ys)), (max(xs), max(ys)))


def plan_of_piece(piece: Piece, weighed: Weighed, setting: Setting) -> Plan | None:
    """The plan of a piece that stands; none for one that hangs or cannot stand.

    Args:
        piece: with its loads.
        weighed: its masses.
        setting: where it stands.
    """
    if piece.stance is Stance.WALL:
        return None
    standing = standing_of(piece, weighed)
    asked = tilt_asked(is_table_top_piece(standing, setting), setting.rules)
    try:
        return plan_of(standing, asked)
    except ValueError:
        return None


def plan_of(standing: Standing, asked: TiltLimits) -> Plan:
    """The plan of a piece that stands.

    Args:
        standing: the piece as the statics take it.
        asked: the tilt that such a piece should bear.

    Raises:
        ValueError: it stands on nothing.
    """
    edges = [
        PlanEdge(
            letter=letter,
            edge=edge,
            empty=empty_leaning(standing.piece, edge),
            loaded=worst_leaning(standing.piece, standing.loads, edge) if standing.loads else None,
        )
        for letter, edge in zip(LETTERS, _long_edges(standing.edges()), strict=False)
    ]
    worst = min(edges, key=lambda each: (each.loaded or each.empty).angle_deg)
    loaded = None
    if worst.loaded is not None and worst.loaded.loads:
        loaded = combined((standing.piece, *worst.loaded.bodies)).centre_mm[:2]
    return Plan(
        corners=support_corners(standing.contacts_mm),
        contacts=standing.contacts_mm,
        tiers=tuple(
            ((each.x0_mm, each.y0_mm), (each.x1_mm, each.y1_mm)) for each in standing.surfaces
        ),
        centre=standing.piece.centre_mm[:2],
        edges=tuple(edges),
        worst=worst,
        loaded=loaded,
        asked=asked,
    )


def foot_of(point: Point2, edge: Edge) -> Point2:
    """Where the shortest way from a point to the edge's line ends [mm]."""
    inside = edge.inside_mm(point)
    return (point[0] + inside * edge.outward[0], point[1] + inside * edge.outward[1])


def _long_edges(edges: Sequence[Edge]) -> list[Edge]:
    lengths = [_length(each) for each in edges]
    whole = sum(lengths)
    kept = [
        each for each, length in zip(edges, lengths, strict=True) if length >= SHORT_SHARE * whole
    ]
    return kept or list(edges)


def _length(edge: Edge) -> float:
    steps = pairwise((edge.start_mm, edge.end_mm))
    return sum(((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in steps)
