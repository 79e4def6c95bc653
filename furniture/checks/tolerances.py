"""How small errors add up, worst case and by chance, and which measurement matters most."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.mitre import mitre_face_mm
from furniture.checks.rows.bench import DADO_ERRORS, MITRE_ERRORS
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bench import (
    ANGLE_ERROR,
    FEELER,
    GLUE_LINE,
    KERF_ERROR,
    LENGTH_ERROR,
    POSITION_ERROR,
    THICKNESS_ERROR,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Error:
    """One measurement's possible error, how often it occurs and how strongly it counts.

    tolerance is plus or minus so much [mm]; weight is how far the result moves for a unit of it.
    """

    what: str
    tolerance_mm: float
    count: int = 1
    weight: float = 1.0

    @property
    def worst_mm(self) -> float:
        """Its part in the worst case [mm]."""
        return self.count * abs(self.weight) * self.tolerance_mm

    @property
    def variance_mm2(self) -> float:
        """Its part in the sum of squares [mm2]."""
        return self.count * (self.weight * self.tolerance_mm) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Errors that add up to one result, and what that result is."""

    told: str
    errors: tuple[Error, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One measurement's share of the statistical sum, 0 to 1."""

    what: str
    share: float


def worst_case_mm(errors: Sequence[Error]) -> float:
    """The sum of errors [mm] when all go the same way.

    Args:
        errors: the errors in the chain

    **Source:** arithmetic stack (Scholz, Tolerance Stack Analysis Methods, 1995).
    """
    return math.fsum(error.worst_mm for error in errors)


def statistical_mm(errors: Sequence[Error]) -> float:
    """The sum of errors [mm] by chance: root of the sum of squares.

    Args:
        errors: the errors in the chain, independent of each other

    **Source:** root sum square (Scholz, Tolerance Stack Analysis Methods, 1995).
    """
    return math.sqrt(math.fsum(error.variance_mm2 for error in errors))


def shares(errors: Sequence[Error]) -> tuple[Share, ...]:
    """Each measurement's share of the statistical sum, the most important first.

    Args:
        errors: the errors in the chain
    """
    whole = math.fsum(error.variance_mm2 for error in errors)
    if whole <= 0.0:
        return ()
    ranked = sorted(errors, key=lambda error: error.variance_mm2, reverse=True)
    return tuple(Share(what=error.what, share=error.variance_mm2 / whole) for error in ranked)


def chained_run(dados: int, rules: Rules = USUAL_RULES) -> tuple[Error, ...]:
    """The errors in the top shelf's height when each dado is measured from the one below.

    Args:
        dados: how many dados up to that shelf, 1 or more
        rules: the maker's

    **Source:** own rule: every rise brings a position error and a kerf's, the top shelf its own
    thickness.
    """
    return (
        Error(what="each dado from the one below", tolerance_mm=rules[POSITION_ERROR], count=dados),
        Error(what="kerf at each dado", tolerance_mm=rules[KERF_ERROR], count=dados),
        Error(what="thickness of the top shelf", tolerance_mm=rules[THICKNESS_ERROR]),
    )


def datum_run(rules: Rules = USUAL_RULES) -> tuple[Error, ...]:
    """The errors in the top shelf's height when every dado is measured from one end.

    Args:
        rules: the maker's

    **Source:** own rule: one position error, one kerf's and one thickness, however many dados.
    """
    return (
        Error(what="dado from the datum end", tolerance_mm=rules[POSITION_ERROR]),
        Error(what="kerf at the dado", tolerance_mm=rules[KERF_ERROR]),
        Error(what="thickness of the top shelf", tolerance_mm=rules[THICKNESS_ERROR]),
    )


def dado_run_finding(
    dados: int, allowed_mm: float, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """How far the top shelf may be off, measured from one datum, and what chaining would add.

    Args:
        dados: how many dados the post has
        allowed_mm: the error that may pass [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** as `worst_case_mm` and `statistical_mm`; errors: common practice, no source.
    """
    datum, chain = datum_run(rules), chained_run(dados, rules)
    worst = worst_case_mm(datum)
    return Finding(
        check=DADO_ERRORS,
        subject=f"top of {dados} dados",
        value=worst,
        limits=DADO_ERRORS.limits(cautions=allowed_mm),
        basis=f"worst case from one datum, by chance {show(statistical_mm(datum))}; measured from "
        f"dado to dado it would be {show(worst_case_mm(chain))} and "
        f"{show(statistical_mm(chain))}; {_matters(datum)}",
        advice=f"strike every dado from the datum end, cut them against one stop or story stick, "
        f"and trim the top last: it then takes up {show(worst)}",
    )


def last_gap_mm(face_mm: float, angle_error_deg: float, corners: int) -> float:
    """How far the last joint of a ring of mitres gapes [mm] when all the others are closed.

    Args:
        face_mm: length of the mitre's face [mm]
        angle_error_deg: error of each cut [deg]
        corners: corners of the ring; each has two cuts

    **Source:** own geometry: face x tan(2 x corners x error).
    """
    return face_mm * math.tan(abs(math.radians(2.0 * corners * angle_error_deg)))


def mitre_gap_mm(thickness_mm: float, angle_error_deg: float) -> float:
    """How far a box's last corner gapes [mm] when all eight cuts have the same error of tilt.

    Args:
        thickness_mm: thickness of the rails [mm]
        angle_error_deg: error of the blade's tilt at each cut [deg]

    **Source:** own geometry, as `last_gap_mm`.
    """
    return last_gap_mm(mitre_face_mm(thickness_mm), angle_error_deg, 4)


def corner_gap_mm(thickness_mm: float, angle_error_deg: float) -> float:
    """How far each corner gapes [mm] when the error is shared out over all four.

    Args:
        thickness_mm: thickness of the rails [mm]
        angle_error_deg: error of the blade's tilt at each cut [deg]

    **Source:** own geometry: mitre face x tan(2 x error).
    """
    return mitre_face_mm(thickness_mm) * math.tan(abs(math.radians(2.0 * angle_error_deg)))


def length_gap_mm(length_error_mm: float) -> float:
    """The opening [mm] that unequal opposite rails force on a corner.

    Args:
        length_error_mm: difference between two rails that should be equal [mm]

    **Source:** own geometry: the difference is shared by two mitres, each at 45 degrees.
    """
    return abs(length_error_mm) / 2.0 * math.sqrt(2.0)


def usual_mitre_errors(rules: Rules = USUAL_RULES) -> tuple[float, float]:
    """How far off a blade's tilt is at each cut [deg], and two equal rails from one another [mm].

    Args:
        rules: the maker's

    **Source:** the rules `angle_error` and, cut to one stop, half of `length_error`.
    """
    return rules[ANGLE_ERROR], rules[LENGTH_ERROR] / 2.0


def mitre_errors(
    thickness_mm: float, angle_error_deg: float, length_error_mm: float
) -> tuple[Error, ...]:
    """The errors in the gap of a mitred box's last corner.

    Args:
        thickness_mm: thickness of the rails [mm]
        angle_error_deg: error of the blade's tilt at each of eight cuts [deg]
        length_error_mm: difference between two rails that should be equal [mm]

    **Source:** as `mitre_gap_mm` and `length_gap_mm`.
    """
    return (
        Error(
            what=f"blade tilt, {angle_error_deg:g}° at each of eight cuts",
            tolerance_mm=mitre_gap_mm(thickness_mm, angle_error_deg),
        ),
        Error(
            what="equal length of opposite rails",
            tolerance_mm=length_gap_mm(length_error_mm),
        ),
    )


def mitre_finding_of_errors(
    thickness_mm: float,
    show: Show,
    angle_error_deg: float | None = None,
    length_error_mm: float | None = None,
    rules: Rules = USUAL_RULES,
) -> Finding:
    """How far a mitred box's last corner gapes, and which of angle and length matters more.

    Args:
        thickness_mm: thickness of the rails [mm]
        show: puts a length into the piece's unit
        angle_error_deg: error of the blade's tilt at each of eight cuts [deg]; the rule's left out
        length_error_mm: difference between two rails that should be equal [mm]; the rule's left out
        rules: the maker's

    **Source:** as `mitre_gap_mm`; limit twice the thickest good glue line, own rule: the last
    corner's gap is a wedge, on average half of what it is at its wide end.
    """
    usual_angle, usual_length = usual_mitre_errors(rules)
    angle_error_deg = usual_angle if angle_error_deg is None else angle_error_deg
    length_error_mm = usual_length if length_error_mm is None else length_error_mm
    angle = mitre_gap_mm(thickness_mm, angle_error_deg)
    length = length_gap_mm(length_error_mm)
    errors = mitre_errors(thickness_mm, angle_error_deg, length_error_mm)
    worst = worst_case_mm(errors)
    limit = 2.0 * rules[GLUE_LINE]
    limits = MITRE_ERRORS.limits(cautions=limit)
    verdict = MITRE_ERRORS.verdict(worst, limits)
    test_gap = math.floor(max(0.0, limit - length) / rules[FEELER] + 1e-6) * rules[FEELER]
    return Finding(
        check=MITRE_ERRORS,
        subject="last corner to close",
        value=worst,
        limits=limits,
        basis=f"{angle_error_deg:g} deg at each of eight cuts opens it {show(angle)}, rails "
        f"unequal by {show(length_error_mm)} open it {show(length)}; shared over four corners "
        f"the angle alone opens each {show(corner_gap_mm(thickness_mm, angle_error_deg))}; "
        f"{_matters(errors)}",
        advice=f"cut four short test pieces off one strip, close three corners and turn the tilt "
        f"until the fourth gapes no more than {show(test_gap)}; cut opposite rails against one "
        "stop, dry-fit, and trim the last rail to close the corner"
        if verdict is not Verdict.OK
        else "cut opposite rails against one stop and leave the last rail long until the dry fit",
    )


def _matters(errors: Sequence[Error]) -> str:
    ranked = shares(errors)
    told = ", then ".join(f"{each.what} ({each.share:.0%})" for each in ranked)
    return f"what matters most: {told}"
