"""The glue of a mitred corner, with and without splines: a conservative estimate."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.checks.advice import Change, Remedy, said
from furniture.checks.check import Limits
from furniture.checks.finding import Finding, Show, Verdict, not_checked
from furniture.checks.rows.joints import MITRE_GLUE
from furniture.checks.strength import (
    Grain,
    strength_at_angle_mpa,
    working_shear_mpa,
)
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.checking import (
    KEY_SHARE,
    KEY_SPACING,
    LEAST_SPLINE_STOCK,
    SPLINE_END,
    SPLINE_FADES,
    SPLINE_SHARE,
)
from furniture.rules.joinery import LEAST_SPLINE_INTO, MOST_SPLINE
from furniture.rules.strengths import GLUED_END_SHARE, STRENGTH_ACROSS
from furniture.rules.wood import BOX_KNOCK, SHORT_BOX_KNOCK
from furniture.timber.species import Species
from furniture.timber.strengths import divisor

ESTIMATE = "an estimate, no accepted formula: "


class CornerRule(Enum):
    """How a corner is judged: as any, mildly, or only told."""

    JUDGED = "a hand's push cautions"
    MILD = (
        "a short box on a table whose bottom nothing holds: a milder push cautions, a hand's is "
        "noted"
    )
    NOTED = "a short box on a table whose bottom is held lasts without keys: a hand's is noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """A spline or a key across a corner: its glued area in one rail, and that area's arm."""

    area_mm2: float
    arm_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre:
    """A 90 degree corner cut by tilting the blade: the mitre runs through the thickness.

    The rail is the longer one between two corners. `across` are the splines and keys that it has,
    `clear_mm` the stretch of the mitre's sharp line, from the first rail's face edge, that no
    rabbet takes; none where the piece takes no splines or keys. `bottom_is_held` is a panel that is
    glued or fastened in the rails that meet here.
    """

    name: str
    species: Species
    height_mm: float
    thickness_mm: float
    rail_length_mm: float
    across: tuple[Across, ...] = ()
    clear_mm: tuple[float, float] | None = None
    bottom_is_held: bool = False


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


def key_across_mitre(thickness_mm: float, depth_mm: float) -> Across:
    """A key in a slot across the outside of a mitre, side grain on side grain.

    It shows a triangle in each rail, with two sides of its depth.

    Args:
        thickness_mm: of the rail [mm]
        depth_mm: of the slot, down the mitre from the outside corner [mm]

    **Source:** geometry: two faces, each half the square of the depth; its centre a third of the
    depth from the corner's outside, turning about the inside of the mitre.
    """
    arm = max(0.0, mitre_face_mm(thickness_mm) - depth_mm / 3.0)
    return Across(area_mm2=depth_mm**2, arm_mm=arm)


def spline_across_mitre(
    thickness_mm: float, area_mm2: float, from_mm: float, to_mm: float
) -> Across:
    """A spline in grooves in both faces of a mitre.

    Args:
        thickness_mm: of the rail [mm]
        area_mm2: of its glued faces in one rail [mm2]
        from_mm: from the mitre's long point down to its near face [mm]
        to_mm: from there down to its far face [mm]

    **Source:** own rule: it turns about the inside or the outside of the mitre, whichever its
    middle is nearer to.
    """
    middle = (from_mm + to_mm) / 2.0
    arm = max(0.0, min(middle, mitre_face_mm(thickness_mm) - middle))
    return Across(area_mm2=area_mm2, arm_mm=arm)


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
    wood = strength_at_angle_mpa(along, across or STRENGTH_ACROSS.value * along, 45.0)
    working = wood / divisor(mitre.species) * GLUED_END_SHARE.value
    face = mitre_face_mm(mitre.thickness_mm)
    return working * mitre.height_mm * face**2 / 6.0


def across_moment_nmm(species: Species, across: Across) -> float:
    """The moment [N mm] that one spline or key adds, by shear of its glued faces.

    Args:
        species: of the rails
        across: the spline or key

    **Source:** own rule: working rolling shear on the area, times its arm.
    """
    return (working_shear_mpa(species, Grain.ACROSS) or 0.0) * across.area_mm2 * across.arm_mm


def mitre_finding(
    mitre: Mitre, show: Show, judged: CornerRule = CornerRule.JUDGED, rules: Rules = USUAL_RULES
) -> Finding:
    """The push on the middle of a side that its glued corners take, against a stated push.

    Args:
        mitre: the corner
        show: puts a length into the piece's unit
        judged: as any corner, or as that of a short box on a table
        rules: the maker's

    **Source:** own rule, as `mitre_moment_nmm`; a side held at both ends, moment F L / 8.
    """
    knock = rules[BOX_KNOCK]
    limits = {
        CornerRule.JUDGED: Limits(cautions=knock),
        CornerRule.MILD: Limits(notes=knock, cautions=rules[SHORT_BOX_KNOCK]),
        CornerRule.NOTED: Limits(notes=knock),
    }[judged]
    if mitre.species.mor_mpa is None:
        return not_checked(
            MITRE_GLUE, mitre.name, "no strength is printed for the wood",
            advice="screw or nail a block into the corner inside, or load a sample",
        )  # fmt: skip
    added = math.fsum(across_moment_nmm(mitre.species, each) for each in mitre.across)
    capacity = _push_n(mitre, added)
    area = math.fsum(each.area_mm2 for each in mitre.across)
    areas = (
        f"{show.area(mitre_area_mm2(mitre))} of mitre, counted at a quarter as end grain, and "
        f"{show.area(area)} of splines and keys"
        + _uncounted(mitre)
        + (f"; without them {show.force(_push_n(mitre, 0.0))}" if mitre.across else "")
    )
    is_amiss = MITRE_GLUE.verdict(capacity, limits) is Verdict.CAUTION
    asked = limits.cautions or knock
    missing = asked * mitre.rail_length_mm / 8.0 - mitre_moment_nmm(mitre) - added
    remedies = _stronger(mitre, missing, show, rules) if is_amiss else ()
    return Finding(
        check=MITRE_GLUE,
        subject=mitre.name,
        value=capacity,
        limits=limits,
        basis=f"{ESTIMATE}push on the middle of a side; {areas}; {judged.value}, own rule",
        advice=said(remedies, "" if remedies else "screw a block of your own into it")
        if is_amiss
        else "",
        remedies=remedies,
    )


def _uncounted(mitre: Mitre) -> str:
    """That splines and keys were counted as nothing, where the wood's shear is not known."""
    if not mitre.across or mitre.species.shear_mpa is not None:
        return ""
    return f", which count as nothing: no shear strength is known for {mitre.species.name}"


def _push_n(mitre: Mitre, added_nmm: float) -> float:
    """The push on the middle of a side that is held at both ends [N]."""
    return 8.0 * (mitre_moment_nmm(mitre) + added_nmm) / mitre.rail_length_mm


def _stronger(mitre: Mitre, missing_nmm: float, show: Show, rules: Rules) -> tuple[Remedy, ...]:
    """A spline or keys with the figures that their parameters take, where the corner has room."""
    if missing_nmm <= 0.0 or mitre.clear_mm is None:
        return ()
    low, high = mitre.clear_mm
    start = show.up(low + rules[SPLINE_END])
    room = high - rules[SPLINE_END] - start
    if room <= 0.0:
        return ()
    return (
        *_spline(mitre, missing_nmm, start, room, show, rules),
        *_keys(mitre, missing_nmm, start, room, show, rules),
    )


def _spline(
    mitre: Mitre, missing_nmm: float, start_mm: float, room_mm: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """One spline as long as the corner has room for, where its depth times its arm is greatest."""
    slope = mitre_face_mm(mitre.thickness_mm)
    thick = _thick_mm(mitre, show, rules)
    if thick is None:
        return ()
    down = show.down((slope + rules[SPLINE_FADES] - thick / 2.0) / 2.0)
    deep = show.down(down - rules[SPLINE_FADES])
    width = show.down(room_mm)
    one = spline_across_mitre(mitre.thickness_mm, 2.0 * width * deep, down, down + thick)
    moment = across_moment_nmm(mitre.species, one)
    if min(deep - rules[LEAST_SPLINE_INTO], width) < 0.0 or moment <= 0.0:
        return ()
    remedy = Remedy(
        change=Change.SPLINES,
        words=f"put a spline {show(thick)} thick across each corner, {show(deep)} into each side, "
        f"{show(down)} from the long point, from {show(start_mm)} up, {show(width)} wide",
        parameters=("corner_parts", "into_each", "from_long_point", "start", "width"),
        amount=width, unit="mm", enough=width * missing_nmm / moment, most=room_mm,
    )  # fmt: skip
    return (remedy,) if remedy.is_enough and remedy.is_allowed else ()


def _thick_mm(mitre: Mitre, show: Show, rules: Rules) -> float | None:
    """How thick a spline or key is [mm]; None where the rail is too thin for the thinnest stock."""
    usual = show.down(rules[SPLINE_SHARE] * mitre.thickness_mm)
    thick = max(show.up(rules[LEAST_SPLINE_STOCK]), usual)
    return thick if thick <= rules[MOST_SPLINE] * mitre.thickness_mm else None


def _keys(
    mitre: Mitre, missing_nmm: float, start_mm: float, room_mm: float, show: Show, rules: Rules
) -> tuple[Remedy, ...]:
    """As many keys as are enough, spread evenly over the corner."""
    thick = _thick_mm(mitre, show, rules)
    depth = show.down(rules[KEY_SHARE] * mitre_face_mm(mitre.thickness_mm))
    one = across_moment_nmm(mitre.species, key_across_mitre(mitre.thickness_mm, depth))
    if thick is None or one <= 0.0:
        return ()
    count = math.ceil(missing_nmm / one - 1e-9)
    most = math.floor(room_mm / rules[KEY_SPACING])
    if count > most:
        return ()
    gap = (room_mm - count * thick) / (count + 1)
    starts = [show.down(start_mm + gap + number * (gap + thick)) for number in range(count)]
    where = " and ".join(show(each) for each in starts)
    told = "a key" if count == 1 else f"{count} keys"
    return (
        Remedy(
            change=Change.KEYS,
            words=f"put {told} {show(thick)} thick across each corner, {show(depth)} deep, "
            f"from {where} up",
            parameters=("corner_parts", "depth", "start"),
            amount=float(count), unit="", enough=missing_nmm / one, most=float(most),
        ),
    )  # fmt: skip
