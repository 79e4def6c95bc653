"""How bodies look along a way: their facets as outlines and planes, worked out once a way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.body import Body
from furniture.parts.vectors import Vector, cross, unit

_EDGE_ON = 1e-6

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """Facets seen along a direction, as arrays: outlines, and depth = a u + b v + c [mm]."""

    owner: Indices
    outline: Any
    plane: Floats
    nearest: Floats
    farthest: Floats
    edge_slack: Floats
    face_slack: Floats

    def only(self, chosen: Any) -> Sheet:
        """Some of the facets."""
        return Sheet(
            self.owner[chosen],
            self.outline[chosen],
            self.plane[chosen],
            self.nearest[chosen],
            self.farthest[chosen],
            self.edge_slack[chosen],
            self.face_slack[chosen],
        )

    def moved(self, by: Floats) -> Sheet:
        """The same facets moved, `by` in the frame of what is seen [mm]."""
        plane = self.plane.copy()
        plane[:, 2] += by[2] - plane[:, 0] * by[0] - plane[:, 1] * by[1]
        outline = self.outline
        if self.owner.size:
            outline = shapely.transform(outline, lambda points: points + by[:2])
        return replace(
            self,
            outline=outline,
            plane=plane,
            nearest=self.nearest + by[2],
            farthest=self.farthest + by[2],
        )


class Scene:
    """Bodies in their places, seen along any way; what was seen once is kept.

    So is who is `blocked` by whom along a way, which `blocked_along` works out. Rows of the bodies
    are the owners of the facets.
    """

    def __init__(self, bodies: Sequence[Body]) -> None:
        self.bodies = bodies
        facets = [(row, facet) for row, body in enumerate(bodies) for facet in body.facets]
        rings = [
            (index, ring)
            for index, (_, facet) in enumerate(facets)
            for ring in (facet.outer, *facet.holes)
        ]
        self._points = np.array(
            [point for _, ring in rings for point in ring], dtype=np.float64
        ).reshape(-1, 3)
        sizes = [len(ring) for _, ring in rings]
        self._facet_of_ring = np.array([index for index, _ in rings], dtype=np.intp)
        self._ring_of_point = np.repeat(np.arange(len(rings)), sizes)
        self._normals = np.array([facet.normal for _, facet in facets]).reshape(-1, 3)
        self._owner = np.array([row for row, _ in facets], dtype=np.intp)
        self._edge_slack = np.array([facet.edge_slack_mm for _, facet in facets], dtype=np.float64)
        self._face_slack = np.array([facet.face_slack_mm for _, facet in facets], dtype=np.float64)
        self._seen: dict[Vector, tuple[Sheet, Sheet]] = {}
        self.blocked: dict[Vector, NDArray[np.bool_]] = {}

    def seen(self, direction: Vector) -> tuple[Sheet, Sheet]:
        """The facets that look back against the direction, and those that look along it."""
        if direction not in self._seen:
            turn = turn_of(direction)
            points, normals = self._points @ turn.T, self._normals @ turn.T
            self._seen[direction] = (
                self._sheet(points, normals, normals[:, 2] < -_EDGE_ON),
                self._sheet(points, normals, normals[:, 2] > _EDGE_ON),
            )
        return self._seen[direction]

    def _sheet(self, points: Floats, normals: Floats, chosen: NDArray[np.bool_]) -> Sheet:
        number = np.cumsum(chosen) - 1
        facet_of_point = self._facet_of_ring[self._ring_of_point]
        is_point = chosen[facet_of_point]
        is_ring = chosen[self._facet_of_ring]
        points = points[is_point]
        if not len(points):
            none = np.zeros(0)
            rows = np.zeros(0, dtype=np.intp)
            outlines = np.array([], dtype=object)
            return Sheet(rows, outlines, np.zeros((0, 3)), none, none, none, none)
        rings = shapely.linearrings(
            points[:, :2], indices=(np.cumsum(is_ring) - 1)[self._ring_of_point[is_point]]
        )
        outline = shapely.polygons(rings, indices=number[self._facet_of_ring[is_ring]])
        is_bad = ~shapely.is_valid(outline)
        outline[is_bad] = shapely.make_valid(outline[is_bad])
        first = np.searchsorted(number[facet_of_point[is_point]], np.arange(chosen.sum()))
        normal = normals[chosen]
        lean = normal[:, 2]
        level = (normal * points[first]).sum(axis=1)
        return Sheet(
            self._owner[chosen],
            outline,
            np.stack([-normal[:, 0] / lean, -normal[:, 1] / lean, level / lean], axis=1),
            np.minimum.reduceat(points[:, 2], first),
            np.maximum.reduceat(points[:, 2], first),
            self._edge_slack[chosen],
            self._face_slack[chosen] / np.abs(lean),
        )


class Side:
    """One side of a parting: some bodies of a scene, moving or standing as one."""

    def __init__(self, scene: Scene, rows: Sequence[int]) -> None:
        self.scene = scene
        self.rows = tuple(rows)
        self.bodies = [scene.bodies[row] for row in rows]
        self._seen: dict[Vector, tuple[Sheet, Sheet]] = {}

    def seen(self, direction: Vector, shift: Vector | None = None) -> tuple[Sheet, Sheet]:
        """As of the scene, the side moved by `shift` [mm]."""
        if direction not in self._seen:
            back, along = self.scene.seen(direction)
            self._seen[direction] = (
                back.only(np.isin(back.owner, self.rows)),
                along.only(np.isin(along.owner, self.rows)),
            )
        back, along = self._seen[direction]
        if shift is None:
            return back, along
        by = turn_of(direction) @ np.array(shift)
        return back.moved(by), along.moved(by)


def turn_of(direction: Vector) -> Floats:
    """The frame in which a direction is looked along: two ways across it, and itself."""
    helper: Vector = (1.0, 0.0, 0.0) if abs(direction[0]) < 0.9 else (0.0, 1.0, 0.0)
    u_axis = unit(cross(direction, helper))
    return np.array([u_axis, cross(direction, u_axis), direction])
