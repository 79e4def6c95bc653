"""Beams of even section: the handbook's cases of deflection, moment and shear."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.checks.sections import Rectangle


class Support(Enum):
    """How a beam is held."""

    SIMPLE = "resting on both ends"
    FIXED = "held fast at both ends"
    CANTILEVER = "held at one end"


class Loading(Enum):
    """How the whole load lies on a beam."""

    EVEN = "spread evenly"
    POINT = "at one point: the middle, or the free end of a cantilever"
    QUARTERS = "half at each quarter point"


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamCase:
    """The factors of one case: bending and shear deflection, moment and shear force."""

    bending: float
    shear: float
    moment: float
    force: float


CASES: dict[tuple[Support, Loading], BeamCase] = {
    (Support.SIMPLE, Loading.EVEN): BeamCase(bending=5 / 384, shear=1 / 8, moment=1 / 8, force=0.5),
    (Support.SIMPLE, Loading.POINT): BeamCase(bending=1 / 48, shear=1 / 4, moment=1 / 4, force=0.5),
    (Support.SIMPLE, Loading.QUARTERS): BeamCase(
        bending=11 / 768, shear=1 / 8, moment=1 / 8, force=0.5
    ),
    (Support.FIXED, Loading.EVEN): BeamCase(bending=1 / 384, shear=1 / 8, moment=1 / 12, force=0.5),
    (Support.FIXED, Loading.POINT): BeamCase(bending=1 / 192, shear=1 / 4, moment=1 / 8, force=0.5),
    (Support.FIXED, Loading.QUARTERS): BeamCase(
        bending=1 / 384, shear=1 / 8, moment=3 / 32, force=0.5
    ),
    (Support.CANTILEVER, Loading.EVEN): BeamCase(
        bending=1 / 8, shear=1 / 2, moment=1 / 2, force=1.0
    ),
    (Support.CANTILEVER, Loading.POINT): BeamCase(bending=1 / 3, shear=1.0, moment=1.0, force=1.0),
}
"""Factors of W L^3/(E I), W L/(G A'), W L and W, with W the whole load.

Source of the deflections: Wood Handbook, FPL-GTR-282 (2021), Table 9-1 (p. 9-3); moments, forces
and the deflection of a beam held at both ends with loads at its quarters: statics. The table's
1/96 belongs to a beam that rests on its ends, at the load points: tests/published has the proof.
"""


def deflection_mm(
    support: Support,
    loading: Loading,
    load_n: float,
    span_mm: float,
    section: Rectangle,
    stiffness_gpa: float,
) -> float:
    """The bending deflection [mm] in the middle, or at the free end of a cantilever.

    The handbook's stiffness was measured on beams and holds their shear deflection already, so
    no shear term is added to it.

    Args:
        support: how the beam is held
        loading: how the load lies
        load_n: the whole load [N]
        span_mm: clear span or projection [mm]
        section: even section
        stiffness_gpa: modulus of elasticity as printed, shear included [GPa]

    Raises:
        KeyError: a case that the table does not hold: a cantilever with loads at the quarters.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-2 and Table 9-1 (p. 9-2, 9-3).
    """
    factor = CASES[support, loading].bending
    return factor * load_n * span_mm**3 / (stiffness_gpa * 1000.0 * section.second_moment_mm4)


def shear_deflection_mm(
    support: Support,
    loading: Loading,
    load_n: float,
    span_mm: float,
    section: Rectangle,
    shear_stiffness_gpa: float,
) -> float:
    """The part of the deflection [mm] that shear adds, for a stiffness free of shear.

    Args:
        support: how the beam is held
        loading: how the load lies
        load_n: the whole load [N]
        span_mm: clear span or projection [mm]
        section: even section
        shear_stiffness_gpa: modulus of rigidity [GPa]; a sixteenth of the stiffness if unknown

    Raises:
        KeyError: a case that the table does not hold.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-2, 9-4 and Table 9-1 (p. 9-2, 9-3).
    """
    factor = CASES[support, loading].shear
    return factor * load_n * span_mm / (shear_stiffness_gpa * 1000.0 * section.shear_area_mm2)


def greatest_moment_nmm(support: Support, loading: Loading, load_n: float, span_mm: float) -> float:
    """The greatest bending moment [N mm] of a case.

    Args:
        support: how the beam is held
        loading: how the load lies
        load_n: the whole load [N]
        span_mm: clear span or projection [mm]

    Raises:
        KeyError: a case that the table does not hold.

    **Source:** statics.
    """
    return CASES[support, loading].moment * load_n * span_mm


def greatest_shear_n(support: Support, loading: Loading, load_n: float) -> float:
    """The greatest shear force [N] of a case.

    Args:
        support: how the beam is held
        loading: how the load lies
        load_n: the whole load [N]

    Raises:
        KeyError: a case that the table does not hold.

    **Source:** statics.
    """
    return CASES[support, loading].force * load_n
