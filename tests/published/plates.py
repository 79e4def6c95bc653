"""A notched post in plane stress by finite elements: a thin hand on scikit-fem."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
from skfem import (
    Basis,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    asm,
    condense,
    solve,
)
from skfem.models.elasticity import linear_elasticity

E_MPA = 10_000.0
NU = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class NotchedPost:
    """A post held at its foot, notched in its front face, pushed at its top [N, mm]."""

    height_mm: float
    thickness_mm: float
    width_mm: float
    notch_at_mm: float
    notch_height_mm: float
    notch_depth_mm: float
    push_n: float = 0.0
    press_n: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """The sway of the top [mm] and the stress at the back face behind the notch [MPa]."""

    sway_mm: float
    back_stress_mpa: float


@cache
def solved(post: NotchedPost, cells: int = 24) -> Solved:
    """The finite-element answer; front face at x = 0, back at x = thickness, foot at y = 0."""
    mesh = _mesh(post, cells)
    # Plane stress as plane strain with changed constants.
    lam = E_MPA * NU / (1.0 - NU**2)
    mu = E_MPA / (2.0 * (1.0 + NU))
    basis = Basis(mesh, ElementVector(ElementQuad2()))
    stiffness = asm(linear_elasticity(lam, mu), basis)
    top = mesh.facets_satisfying(lambda x: np.isclose(x[1], post.height_mm))
    facets = FacetBasis(mesh, ElementVector(ElementQuad2()), facets=top)
    area = post.thickness_mm * post.width_mm

    @LinearForm
    def traction(v: Any, w: Any) -> Any:
        return post.push_n / area * v[0] - post.press_n / area * v[1]

    foot = basis.get_dofs(lambda x: np.isclose(x[1], 0.0))
    u = solve(*condense(stiffness, asm(traction, facets), D=foot))
    sway = basis.probes(np.array([[post.thickness_mm / 2.0], [post.height_mm - 1e-9]])) @ u
    return Solved(sway_mm=float(sway[0]), back_stress_mpa=_back_stress(post, basis, u, lam, mu))


def _mesh(post: NotchedPost, cells: int) -> MeshQuad:
    size = post.thickness_mm / cells
    low, high = _notch(post)
    xs = _grid([0.0, post.notch_depth_mm, post.thickness_mm], size)
    ys = _grid([0.0, low, high, post.height_mm], size)
    mesh = MeshQuad.init_tensor(xs, ys)
    centre = mesh.p[:, mesh.t].mean(axis=1)
    cut = (centre[0] < post.notch_depth_mm) & (centre[1] > low) & (centre[1] < high)
    return mesh.remove_elements(np.nonzero(cut)[0])


def _notch(post: NotchedPost) -> tuple[float, float]:
    half = post.notch_height_mm / 2.0
    return post.notch_at_mm - half, post.notch_at_mm + half


def _grid(stops: list[float], size: float) -> np.ndarray:
    pieces = [np.linspace(a, b, max(2, round((b - a) / size) + 1)) for a, b in pairwise(stops)]
    return np.unique(np.concatenate(pieces))


def _back_stress(post: NotchedPost, basis: Basis, u: np.ndarray, lam: float, mu: float) -> float:
    """The stress along the post at its back face, level with the middle of the notch."""
    step = post.thickness_mm / 200.0
    x = post.thickness_mm - 1e-9
    y = post.notch_at_mm
    places = np.array([[x, x, x, x - step], [y + step, y - step, y, y]])
    moved = (basis.probes(places) @ u).reshape(2, -1)
    strain_y = (moved[1, 0] - moved[1, 1]) / (2.0 * step)
    strain_x = (moved[0, 2] - moved[0, 3]) / step
    return float((lam + 2.0 * mu) * strain_y + lam * strain_x)
