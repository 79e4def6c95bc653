"""A shelf let into two sides as a solid in plane stress: a thin hand on scikit-fem.

It knows nothing of plates, springs or joints: one body of wood whose grain runs up in the sides and
along in the shelf, glued all round its housings. x runs along the shelf, z up.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    asm,
    condense,
    solve,
)
from skfem.helpers import grad


@dataclass(frozen=True, slots=True, kw_only=True)
class Bookcase:
    """Two sides on the floor and one shelf between them [mm, MPa]."""

    span: float
    depth: float
    thickness: float
    side: float
    height: float
    at: float
    into: float
    along: float
    across: float
    shear: float


def solved(case: Bookcase, *, even_n: float = 0.0, push_n: float = 0.0) -> tuple[float, float]:
    """The shelf's sag beside its ends, and how far the left side's top sways [mm].

    Args:
        case: the sizes; its feet stand fast
        even_n: spread on the shelf's top [N]
        push_n: sideways on the top of the left side [N]
    """
    mesh = _mesh(case)
    basis = Basis(mesh, ElementVector(ElementQuad2()))
    middle = mesh.p[:, mesh.t].mean(axis=1)
    right = case.side + case.span
    is_shelf = (
        (middle[1] > case.at) & (middle[1] < case.at + case.thickness)
        & (middle[0] > case.side - case.into) & (middle[0] < right + case.into)
    )  # fmt: skip
    along_x = np.where(is_shelf, case.along, case.across)[:, None]
    along_z = np.where(is_shelf, case.across, case.along)[:, None]

    @BilinearForm
    def stiffness(u: Any, v: Any, w: Any) -> Any:
        du, dv = grad(u), grad(v)
        slide = case.shear * (du[0, 1] + du[1, 0]) * (dv[0, 1] + dv[1, 0])
        return case.depth * (along_x * du[0, 0] * dv[0, 0] + along_z * du[1, 1] * dv[1, 1] + slide)

    top = FacetBasis(
        mesh, ElementVector(ElementQuad2()),
        facets=mesh.facets_satisfying(
            lambda p: np.isclose(p[1], case.at + case.thickness)
            & (p[0] > case.side) & (p[0] < right)
        ),
    )  # fmt: skip
    side_top = FacetBasis(
        mesh, ElementVector(ElementQuad2()),
        facets=mesh.facets_satisfying(
            lambda p: np.isclose(p[1], case.height) & (p[0] < case.side)
        ),
    )  # fmt: skip

    @LinearForm
    def even(v: Any, w: Any) -> Any:
        return -even_n / case.span * v[1]

    @LinearForm
    def pushed(v: Any, w: Any) -> Any:
        return push_n / case.side * v[0]

    feet = basis.get_dofs(lambda p: np.isclose(p[1], 0.0))
    loads = asm(even, top) + asm(pushed, side_top)
    u = solve(*condense(asm(stiffness, basis), loads, D=feet))
    level = case.at + case.thickness / 2.0

    def moved(x: float, z: float) -> Any:
        return basis.probes(np.array([[x], [z]])) @ u

    ends = (moved(case.side + 1e-6, level)[1] + moved(right - 1e-6, level)[1]) / 2.0
    sag = ends - moved(case.side + case.span / 2.0, level)[1]
    return float(sag), float(moved(case.side / 2.0, case.height - 1e-6)[0])


def _mesh(case: Bookcase) -> MeshQuad:
    right = case.side + case.span
    xs = _grid(
        [0.0, case.side - case.into, case.side, right, right + case.into, right + case.side],
        [4, 3, 60, 3, 4],
    )
    zs = _grid([0.0, case.at, case.at + case.thickness, case.height], [30, 6, 15])
    mesh = MeshQuad.init_tensor(xs, zs)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    is_air = (middle[0] > case.side) & (middle[0] < right)
    is_air &= (middle[1] < case.at) | (middle[1] > case.at + case.thickness)
    return mesh.remove_elements(np.nonzero(is_air)[0])


def _grid(stops: list[float], counts: list[int]) -> np.ndarray:
    pieces = [np.linspace(a, b, n + 1) for (a, b), n in zip(pairwise(stops), counts, strict=True)]
    return np.unique(np.concatenate(pieces))
