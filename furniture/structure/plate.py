"""One part as an orthotropic plate: how much it gives at its joint points under unit forces there.

The blank is meshed in rectangles. Each has the twelve-term bending of a thin plate and the four
corner displacements of a membrane with two bubble modes, so that a rail bends on edge, a shelf
flat and both twist. The plate is held at one corner just so that it cannot move, and what it gives
relative to that corner is a flexibility; the six motions of the whole part are added by the frame.

**Source:** twelve-term rectangular plate element and the four-node membrane with incompatible
modes, as in every textbook of finite elements (from memory); both are tested against closed forms.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import cho_factor, cho_solve

from furniture.parts.blank import Blank
from furniture.parts.vectors import Vector
from furniture.rules.strengths import STIFFNESS_ACROSS
from furniture.timber.species import Species

Floats = NDArray[np.float64]
Places = NDArray[np.intp]

MESH_MM = 75.0
"""About the side of a rectangle of the mesh [mm]: 40 to 90 differ by under 3 % on a shelf."""
PER_NODE = 5
"""Unknowns at a node: along, across and out of the plate, and its slope along and across."""
SHEAR_SHARE = 1.0 / 15.0
"""Shear modulus beside the stiffness along the grain [-].

**Source:** E/16 is the rule of EN 338 (from memory); beech is printed with 899 MPa at 12.2 GPa
(J. Wood Sci. 2019, doi 10.1186/s10086-019-1794-4, Table 1, read): a fourteenth. Between them.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffness:
    """A wood's moduli [MPa]: along the grain, across it, and in shear between the two."""

    along: float
    across: float
    shear: float


def stiffness_of(species: Species) -> Stiffness | None:
    """The moduli of a species [MPa], or None where its stiffness is not known.

    **Source:** the species' rows; the shares as stated above.
    """
    if species.moe_gpa is None:
        return None
    along = species.moe_gpa * 1000.0
    ratio = species.stiffness_across_ratio
    across = along * (STIFFNESS_ACROSS.value if ratio is None else ratio)
    return Stiffness(along=along, across=across, shear=along * SHEAR_SHARE)


@dataclass(frozen=True, slots=True, eq=False)
class Plate:
    """A meshed blank, held at one corner, ready to be loaded.

    `rows(...)` give the displacement of a point as a row over the unknowns, `solve` what the plate
    does under forces on them.
    """

    blank: Blank
    wood: Stiffness
    counts: tuple[int, int]
    free: NDArray[np.intp]
    factor: tuple[Floats, bool]

    @property
    def steps(self) -> tuple[float, float]:
        """The sides of a rectangle [mm]."""
        return (self.blank.length_mm / self.counts[0], self.blank.width_mm / self.counts[1])

    @property
    def size(self) -> int:
        """How many unknowns the whole mesh has."""
        return PER_NODE * (self.counts[0] + 1) * (self.counts[1] + 1)

    def solve(self, forces: Floats) -> Floats:
        """Displacements of all unknowns under forces on them; columns are cases."""
        found = np.zeros_like(forces)
        found[self.free] = cho_solve(self.factor, forces[self.free])
        return found

    def row(self, point: Vector, direction: Vector) -> Floats:
        """The displacement of one point along a direction, as a row; as `rows`."""
        return np.asarray(self.rows(np.array([point]), np.array([direction]))[0])

    def rows(self, points: Floats, directions: Floats) -> Floats:
        """The displacements of points along directions, a row over the unknowns each.

        Args:
            points: n x 3, part frame [mm]; through the thickness they move with the plate's slope
            directions: n x 3, part frame
        """
        a, b = self.steps
        cells, x, y = self._cells(points[:, :2])
        nodes = self._nodes(cells[:, 0], cells[:, 1])
        height = points[:, 2] - self.blank.thickness_mm / 2.0
        back = _to_coefficients(a, b)
        out, along, across = (terms @ back for terms in _terms(x, y))
        u, v = x / a, y / b
        flat = np.stack([(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v], axis=1)
        bent = (
            directions[:, 2:3] * out
            - (height * directions[:, 0])[:, None] * along
            - (height * directions[:, 1])[:, None] * across
        )
        rows = np.zeros((points.shape[0], self.size))
        here = np.arange(points.shape[0])[:, None]
        for axis in range(2):
            rows[here, PER_NODE * nodes + axis] = directions[:, axis : axis + 1] * flat
        for k in range(3):
            rows[here, PER_NODE * nodes + 2 + k] = bent[:, k::3]
        return rows

    def stresses(self, displaced: Floats, at: Vector) -> tuple[float, float]:
        """The greatest stress along and across the grain at one point [MPa]; as `stresses_at`."""
        along, across = self.stresses_at(displaced, np.array([at[:2]]))[0]
        return float(along), float(across)

    def stresses_at(self, displaced: Floats, places: Floats) -> Floats:
        """The greatest stress along and across the grain through the thickness [MPa].

        Args:
            displaced: all unknowns
            places: n x 2, part frame [mm]; where rectangles meet, that of the one beyond
        """
        a, b = self.steps
        cells, x, y = self._cells(places)
        corners = displaced.reshape(-1, PER_NODE)[self._nodes(cells[:, 0], cells[:, 1])]
        terms = corners[:, :, 2:].reshape(places.shape[0], 12) @ _to_coefficients(a, b).T
        bent = np.einsum("ndk,nk->nd", _curvatures(x, y), terms)
        u, v = x / a, y / b
        dx = np.stack([v - 1.0, 1.0 - v, v, -v], axis=1) / a
        dy = np.stack([u - 1.0, -u, u, 1.0 - u], axis=1) / b
        half = self.blank.thickness_mm / 2.0
        along = np.abs((dx * corners[:, :, 0]).sum(axis=1)) + half * np.abs(bent[:, 0])
        across = np.abs((dy * corners[:, :, 1]).sum(axis=1)) + half * np.abs(bent[:, 1])
        return np.stack([self.wood.along * along, self.wood.across * across], axis=1)

    def nodes(self) -> Floats:
        """The nodes in the plate's middle plane, part frame, n x 3 [mm]."""
        a, b = self.steps
        j, i = np.divmod(np.arange(self.size // PER_NODE), self.counts[0] + 1)
        return np.stack([i * a, j * b, np.full(i.shape, self.blank.thickness_mm / 2.0)], axis=1)

    def _cells(self, places: Floats) -> tuple[Places, Floats, Floats]:
        """The rectangle that each place lies in, and where in it [mm]."""
        steps = np.array(self.steps)
        inside = np.clip(places, 0.0, [self.blank.length_mm, self.blank.width_mm])
        cells = np.minimum((inside / steps).astype(np.intp), np.array(self.counts) - 1)
        x, y = (inside - cells * steps).T
        return cells, x, y

    def _nodes(self, i: Places, j: Places) -> Places:
        """The four corners of rectangles, counter-clockwise from the one nearest the datums."""
        wide = self.counts[0] + 1
        first = j * wide + i
        return np.stack([first, first + 1, first + wide + 1, first + wide], axis=-1)


@lru_cache(maxsize=256)
def plate_of(blank: Blank, wood: Stiffness, mesh_mm: float = MESH_MM) -> Plate:
    """The plate of a blank.

    Args:
        blank: its size
        wood: its moduli
        mesh_mm: about the side of a rectangle [mm]
    """
    counts = (
        max(2, math.ceil(blank.length_mm / mesh_mm)),
        max(2, math.ceil(blank.width_mm / mesh_mm)),
    )
    a, b = blank.length_mm / counts[0], blank.width_mm / counts[1]
    bend, flat = _bending(a, b, blank, wood), _membrane(a, b, blank.thickness_mm, wood)
    size = PER_NODE * (counts[0] + 1) * (counts[1] + 1)
    whole = np.zeros((size, size))
    wide = counts[0] + 1
    for j in range(counts[1]):
        for i in range(counts[0]):
            first = j * wide + i
            nodes = (first, first + 1, first + wide + 1, first + wide)
            bent = [PER_NODE * node + 2 + k for node in nodes for k in range(3)]
            slid = [PER_NODE * node + k for node in nodes for k in range(2)]
            whole[np.ix_(bent, bent)] += bend
            whole[np.ix_(slid, slid)] += flat
    # Held at the corner in all five, and against turning in its plane at the corner beside it.
    held = {0, 1, 2, 3, 4, PER_NODE * counts[0] + 1}
    free = np.array([index for index in range(size) if index not in held], dtype=np.intp)
    return Plate(blank, wood, counts, free, cho_factor(whole[np.ix_(free, free)]))


def _terms(x: Floats, y: Floats) -> tuple[Floats, Floats, Floats]:
    """The twelve terms of a plate's deflection at points, and their slopes along and across."""
    one, none = np.ones_like(x), np.zeros_like(x)
    out = [one, x, y, x * x, x * y, y * y, x**3, x * x * y, x * y * y, y**3, x**3 * y, x * y**3]
    along = [
        none, one, none, 2 * x, y, none, 3 * x * x, 2 * x * y, y * y, none, 3 * x * x * y, y**3,
    ]  # fmt: skip
    across = [
        none, none, one, none, x, 2 * y, none, x * x, 2 * x * y, 3 * y * y, x**3, 3 * x * y * y,
    ]  # fmt: skip
    return np.stack(out, axis=-1), np.stack(along, axis=-1), np.stack(across, axis=-1)


def _curvatures(x: Floats, y: Floats) -> Floats:
    """Second derivatives of the twelve terms at points, n x 3 x 12: along, across, twice twist."""
    none, two = np.zeros_like(x), np.full_like(x, 2.0)
    along = [none, none, none, two, none, none, 6 * x, 2 * y, none, none, 6 * x * y, none]
    across = [none, none, none, none, none, two, none, none, 2 * x, 6 * y, none, 6 * x * y]
    twist = [
        none, none, none, none, two, none, none, 4 * x, 4 * y, none, 6 * x * x, 6 * y * y,
    ]  # fmt: skip
    rows = [np.stack(each, axis=-1) for each in (along, across, twist)]
    return np.stack(rows, axis=-2)


@lru_cache(maxsize=512)
def _to_coefficients(a: float, b: float) -> Floats:
    """From the corners' deflections and slopes to the coefficients of the twelve terms."""
    corners = np.array([(0.0, 0.0), (a, 0.0), (a, b), (0.0, b)])
    terms = np.stack(_terms(corners[:, 0], corners[:, 1]), axis=1).reshape(12, 12)
    return np.asarray(np.linalg.inv(terms), dtype=np.float64)


_GAUSS = ((-math.sqrt(0.6), 5.0 / 9.0), (0.0, 8.0 / 9.0), (math.sqrt(0.6), 5.0 / 9.0))


def _bending(a: float, b: float, blank: Blank, wood: Stiffness) -> Floats:
    t = blank.thickness_mm
    # St Venant: a strip twists more softly than a wide plate by its edges, 0.63 t/W of it.
    narrow = max(0.2, 1.0 - 0.63 * t / max(t, min(blank.length_mm, blank.width_mm)))
    moduli = np.diag([wood.along, wood.across, wood.shear * narrow]) * t**3 / 12.0
    total = np.zeros((12, 12))
    for u, wu in _GAUSS:
        for v, wv in _GAUSS:
            at = np.array([a * (u + 1.0) / 2.0]), np.array([b * (v + 1.0) / 2.0])
            bent = _curvatures(*at)[0]
            total += wu * wv * a * b / 4.0 * bent.T @ moduli @ bent
    back = _to_coefficients(a, b)
    return np.asarray(back.T @ total @ back, dtype=np.float64)


def _membrane(a: float, b: float, t: float, wood: Stiffness) -> Floats:
    """The four-node membrane with two bubble modes, these condensed."""
    moduli = np.diag([wood.along, wood.across, wood.shear]) * t
    point = 1.0 / math.sqrt(3.0)
    whole = np.zeros((12, 12))
    for u in (-point, point):
        for v in (-point, point):
            dx = np.array([-(1 - v), 1 - v, 1 + v, -(1 + v)]) / (2.0 * a)
            dy = np.array([-(1 - u), -(1 + u), 1 + u, 1 - u]) / (2.0 * b)
            strains = np.zeros((3, 12))
            strains[0, 0:8:2], strains[1, 1:8:2] = dx, dy
            strains[2, 0:8:2], strains[2, 1:8:2] = dy, dx
            bubble_x, bubble_y = -4.0 * u / a, -4.0 * v / b
            strains[0, 8], strains[2, 9] = bubble_x, bubble_x
            strains[2, 10], strains[1, 11] = bubble_y, bubble_y
            whole += a * b / 4.0 * strains.T @ moduli @ strains
    kept, gone = slice(0, 8), slice(8, 12)
    return np.asarray(
        whole[kept, kept]
        - whole[kept, gone] @ np.linalg.solve(whole[gone, gone], whole[gone, kept]),
        dtype=np.float64,
    )
