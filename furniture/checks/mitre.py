"""The glue of a mitred corner, with and without splines: a conservative estimate."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, said
from furniture.checks.finding import Finding, Sense, Show, Verdict, graded
from furniture.checks.strength import (
    LEAST_STRENGTH_ACROSS_SHARE,
    Grain,
    divisor,
    strength_at_angle_mpa,
    working_shear_mpa,
)
from furniture.timber.species import Species

END_GRAIN_SHARE = 0.25
KNOCK_N = 100.0
"""A hand that pushes a box side in its middle [N]: own rule, about 10 kg."""

MOST_SPLINE_SHARE = 1.0
"""How deep a spline goes at most, as a share of the rail's thickness [-]: it stays in the corner's
own wood. Own rule."""
SPLINE_SPACING_MM = 12.0
"""The height that each spline takes, with the wood between [mm]. Common practice, no source."""
ESTIMATE = "an estimate, no accepted formula: "


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre:
    """A 90 degree corner cut by tilting the blade: the mitre runs through the thickness.

    Splines lie across the corner; each holds by its two faces, `spline_depth_mm` deep into each
    rail. The rail is the longer one between two corners.
    """

    name: str
    species: Species
    height_mm: float
    thickness_mm: float
    rail_length_mm: float
    splines: int = 0
    spline_depth_mm: float = 0.0


def mitre_face_mm(thickness_mm: float) -> float:
    """The length [mm] of the cut through the thickness at 45 degrees.

    Args:
        thickness_mm: thickness of the rail [mm]

    **Source:** geometry, thickness x root 2.
    """
    return thickness_mm * math.sqrt(2.0)


def mitre_area_mm2(mitre: Mitre) -> float:
    """The glued area [mm2] of the mitre itself.

    Args:
        mitre: the corner

    **Source:** geometry.
    """
    return mitre.height_mm * mitre_face_mm(mitre.thickness_mm)


def spline_area_mm2(mitre: Mitre) -> float:
    """The glued area [mm2] of all splines in one of the two rails, side grain on side grain.

    A spline that lies across the corner, reaching so far in from the outside, shows a triangle
    with two sides of that depth in each rail, halved by the mitre.

    Args:
        mitre: the corner

    **Source:** geometry: two faces, each a right triangle of half the square of the depth.
    """
    triangle = mitre.spline_depth_mm**2 / 2.0
    return mitre.splines * 2.0 * triangle


def mitre_moment_nmm(mitre: Mitre) -> float:
    """The moment [N mm] that a glued mitre takes without splines before it opens.

    Args:
        mitre: the corner

    Raises:
        ValueError: where no strength is printed for the species.

    **Source:** own rule: Hankinson's strength at 45 degrees between bending strength and strength
    across the grain, over the divisor, a quarter of it for end grain that drinks the glue (Wood
    Handbook ch. 10, butt joints, from memory); section modulus of the mitre's face.
    """
    along, across = mitre.species.mor_mpa, mitre.species.strength_across_mpa
    if along is None:
        raise ValueError(f"no strength is printed for {mitre.species.name}")
    wood = strength_at_angle_mpa(along, across or LEAST_STRENGTH_ACROSS_SHARE * along, 45.0)
    working = wood / divisor(mitre.species) * END_GRAIN_SHARE
    face = mitre_face_mm(mitre.thickness_mm)
    return working * mitre.height_mm * face**2 / 6.0


def spline_moment_nmm(mitre: Mitre) -> float:
    """The moment [N mm] that the splines add, by shear of their glued faces.

    Args:
        mitre: the corner

    **Source:** own rule: working rolling shear on the area, its centre a third of the depth from
    the corner's outside, turning about the inside of the mitre.
    """
    shear = working_shear_mpa(mitre.species, Grain.ACROSS) or 0.0
    arm = max(0.0, mitre_face_mm(mitre.thickness_mm) - mitre.spline_depth_mm / 3.0)
    return shear * spline_area_mm2(mitre) * arm


def mitre_finding(mitre: Mitre, show: Show, knock_n: float = KNOCK_N) -> Finding:
    """The push on the middle of a side that its glued corners take, against a stated push.

    Args:
        mitre: the corner
        show: puts a length into the piece's unit
        knock_n: the push that it should take [N]

    **Source:** own rule, as `mitre_moment_nmm`; a side held at both ends, moment F L / 8.
    """
    if mitre.species.mor_mpa is None:
        return _finding(mitre, None, knock_n, "no strength is printed for the wood", ())
    capacity = _push_n(mitre, spline_moment_nmm(mitre))
    areas = (
        f"{show.area(mitre_area_mm2(mitre))} of mitre, counted at a quarter as end grain, and "
        f"{show.area(spline_area_mm2(mitre))} of spline"
        + (f"; without its splines {show.force(_push_n(mitre, 0.0))}" if mitre.splines else "")
    )
    return _finding(mitre, capacity, knock_n, areas, _splines(mitre, knock_n, show))


def _push_n(mitre: Mitre, of_splines_nmm: float) -> float:
    """The push on the middle of a side that is held at both ends [N]."""
    return 8.0 * (mitre_moment_nmm(mitre) + of_splines_nmm) / mitre.rail_length_mm


def _splines(mitre: Mitre, knock_n: float, show: Show) -> tuple[Remedy, ...]:
    """How many splines it wants, as many as the corner's height has room for."""
    missing = knock_n * mitre.rail_length_mm / 8.0 - mitre_moment_nmm(mitre)
    deepest = show.down(MOST_SPLINE_SHARE * mitre.thickness_mm)
    depth = mitre.spline_depth_mm or deepest
    one = spline_moment_nmm(replace(mitre, splines=1, spline_depth_mm=depth))
    if one <= 0.0 or missing <= 0.0:
        return ()
    count = math.ceil(missing / one - 1e-9)
    word = "spline" if count == 1 else "splines"
    remedy = Remedy(
        change=Change.SPLINES, words=f"put {count} {word} {show(depth)} deep across each corner",
        amount=float(count), unit="", enough=missing / one,
        most=math.floor(mitre.height_mm / SPLINE_SPACING_MM),
    )  # fmt: skip
    return (remedy,) if remedy.is_allowed else ()


def _finding(
    mitre: Mitre, capacity: float | None, knock_n: float, areas: str, remedies: tuple[Remedy, ...]
) -> Finding:
    verdict = (
        Verdict.CAUTION if capacity is None else graded(capacity, knock_n, None, Sense.AT_LEAST)
    )
    return Finding(
        check="glue of a mitred corner",
        subject=mitre.name,
        value=capacity,
        limit=knock_n,
        sense=Sense.AT_LEAST,
        unit="N",
        verdict=verdict,
        basis=f"{ESTIMATE}push on the middle of a side; {areas}; limit is a hand's push, own rule",
        advice=""
        if verdict is Verdict.OK
        else said(remedies, "" if remedies else "screw or nail a block into the corner inside"),
        remedies=remedies if verdict is not Verdict.OK else (),
    )
