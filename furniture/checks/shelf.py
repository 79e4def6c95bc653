"""A shelf under its load: how far it sags in time, and how hard its wood works."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.beams import Support
from furniture.checks.finding import Finding, Sense, Show, Verdict, verdict_of
from furniture.checks.spans import (
    EvenLoad,
    Span,
    greatest_bending,
    greatest_deflection_mm,
    greatest_shear,
)
from furniture.checks.strength import (
    DIVISOR_REASON,
    Grain,
    stiffness_gpa,
    working_bending_mpa,
    working_shear_mpa,
)
from furniture.timber.species import Species


class Creep(Enum):
    """By how much a load that stays makes a shelf sag more than at first [-]."""

    NONE = 1.0
    SEASONED = 1.5
    DRY_ROOM = 1.6
    DAMP_ROOM = 1.8
    UNSEASONED = 2.0


CREEP_SOURCE: dict[Creep, str] = {
    Creep.NONE: "at first, before any creep",
    Creep.SEASONED: "NDS 3.5.2: seasoned lumber 1.5 in the mean, single boards 1 to 3",
    Creep.DRY_ROOM: "EN 1995-1-1 Table 3.2, service class 1: 1 + 0.6",
    Creep.DAMP_ROOM: "EN 1995-1-1 Table 3.2, service class 2: 1 + 0.8",
    Creep.UNSEASONED: "NDS 3.5.2: unseasoned lumber, or moisture that comes and goes, 2.0",
}

VISIBLE_SAG_SHARE = 1.0 / 360.0
STRICT_SAG_SHARE = 1.0 / 600.0
_SAG_SOURCE = (
    "common practice, no source: the eye sees a sag of about 1/360 of the span (1/32 in a foot), "
    "1/600 looks straight; a projection counts twice its length"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """A shelf as a beam: its loads include its own weight, its cuts are the true wood left.

    `own` says which of the loads is its own weight, which no maker can leave off.
    """

    name: str
    species: Species
    grain: Grain
    span: Span
    creep: Creep = Creep.UNSEASONED
    own: EvenLoad | None = None

    @property
    def empty(self) -> Shelf:
        """The same shelf with nothing but its own weight on it."""
        evens = () if self.own is None else (self.own,)
        return replace(self, span=replace(self.span, points=(), evens=evens))


def long_term_sag_mm(shelf: Shelf) -> float | None:
    """The greatest sag [mm] with creep; None where the species has no printed stiffness.

    Args:
        shelf: the shelf with its loads

    **Source:** NDS 3.5.2 (American Wood Council's answers), K times the first deflection, all
    loads taken as staying.
    """
    stiffness = stiffness_gpa(shelf.species, shelf.grain)
    if stiffness is None:
        return None
    return greatest_deflection_mm(shelf.span, stiffness) * shelf.creep.value


def sag_length_mm(span: Span) -> float:
    """The length [mm] that a sag is judged by: the span, or twice a projection.

    Args:
        span: the span

    **Source:** common practice, no source.
    """
    return span.length_mm * (2.0 if span.support is Support.CANTILEVER else 1.0)


def shelf_findings(shelf: Shelf, show: Show) -> tuple[Finding, ...]:
    """Sag by the visible and by the strict rule, bending and shear stress under loads that stay.

    Args:
        shelf: the shelf with its loads
        show: puts a length into the piece's unit

    **Source:** as `long_term_sag_mm` and `strength`; limits of sag: common practice, no source.
    """
    return (
        _sag(shelf, "sag that shows", VISIBLE_SAG_SHARE, Verdict.FAIL, show),
        _sag(shelf, "sag by the strict rule", STRICT_SAG_SHARE, Verdict.CAUTION, show),
        *stress_findings(shelf, show, Verdict.FAIL),
    )


def stress_findings(shelf: Shelf, show: Show, otherwise: Verdict) -> tuple[Finding, ...]:
    """Bending and shear stress alone: for a passing load, such as a hand that leans on the edge.

    Args:
        shelf: the shelf with its loads
        show: puts a length into the piece's unit
        otherwise: the verdict over the limit; a caution for loads that pass

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-13 and 9-14; limits as in `strength`.
    """
    return (_bending(shelf, otherwise, show), _shear(shelf, otherwise, show))


def _sag(shelf: Shelf, check: str, share: float, otherwise: Verdict, show: Show) -> Finding:
    limit = sag_length_mm(shelf.span) * share
    sag = long_term_sag_mm(shelf)
    if sag is None:
        return _unknown(shelf, check, limit, "mm", "stiffness")
    verdict = verdict_of(sag, limit, Sense.AT_MOST, otherwise)
    return Finding(
        check=check,
        subject=shelf.name,
        value=sag,
        limit=limit,
        sense=Sense.AT_MOST,
        unit="mm",
        verdict=verdict,
        basis=f"{_held(shelf)}, {shelf.span.load_n:.1f} N over {show(shelf.span.length_mm)}, "
        f"{CREEP_SOURCE[shelf.creep]}; limit: {_SAG_SOURCE}",
        advice="" if verdict is Verdict.OK else _against_sag(shelf, sag, limit, show),
    )


def _against_sag(shelf: Shelf, sag: float, limit: float, show: Show) -> str:
    """Sag goes with the cube of thickness and of the span, its limit with the span.

    A load that lies on the whole length shrinks with it; one that does not stays as it is.
    """
    span, excess = shelf.span, sag / limit
    is_even = not span.points and all(
        load.from_mm <= 0.0 and load.to_mm >= span.length_mm for load in span.evens
    )
    thicker = span.section.thickness_mm * (excess ** (1.0 / 3.0) - 1.0)
    shorter = span.length_mm * (1.0 - excess ** (-1.0 / (3.0 if is_even else 2.0)))
    own = (long_term_sag_mm(shelf.empty) or 0.0) if shelf.own is not None else 0.0
    ways = [f"make it {show(thicker)} thicker", f"{show(shorter)} shorter in the span"]
    return ", or ".join([*ways, *_lighter(shelf, sag, own, limit)])


def _lighter(shelf: Shelf, found: float, own: float, limit: float) -> list[str]:
    """How much of the loads it bears, in words; nothing where its own weight is too much."""
    if own >= limit:
        return []
    share = math.floor((limit - own) / (found - own) * 100.0)
    what = "this" if shelf.own is None else "what stands on it"
    return [f"load it with {share}% of {what}"]


def _bending(shelf: Shelf, otherwise: Verdict, show: Show) -> Finding:
    limit = working_bending_mpa(shelf.species, shelf.grain)
    if limit is None:
        return _unknown(shelf, "bending stress of a shelf", None, "MPa", "bending strength")
    worst = greatest_bending(shelf.span)
    verdict = verdict_of(worst.stress_mpa, limit, Sense.AT_MOST, otherwise)
    thicker = worst.section.thickness_mm * ((worst.stress_mpa / limit) ** 0.5 - 1.0)
    turn = (
        ", or turn the grain along the span"
        if shelf.grain is Grain.ACROSS and working_along_is_enough(shelf)
        else ""
    )
    return Finding(
        check="bending stress of a shelf",
        subject=shelf.name,
        value=worst.stress_mpa,
        limit=limit,
        sense=Sense.AT_MOST,
        unit="MPa",
        verdict=verdict,
        basis=f"{_held(shelf)}; greatest {show(worst.at_mm)} from the held or left end, where "
        f"{show(worst.section.thickness_mm)} of thickness is left; {DIVISOR_REASON}",
        advice=""
        if verdict is Verdict.OK
        else ", or ".join(
            [
                f"leave {show(thicker)} more thickness there",
                *_lighter(shelf, worst.stress_mpa, _own_bending(shelf), limit),
            ]
        )
        + turn,
    )


def _own_bending(shelf: Shelf) -> float:
    """The bending stress [MPa] of its own weight, where it is told apart."""
    return 0.0 if shelf.own is None else greatest_bending(shelf.empty.span).stress_mpa


def working_along_is_enough(shelf: Shelf) -> bool:
    """Whether the bending stress would be right with the grain along the span.

    Args:
        shelf: the shelf with its loads
    """
    along = working_bending_mpa(shelf.species, Grain.ALONG)
    return along is not None and greatest_bending(shelf.span).stress_mpa <= along


def _shear(shelf: Shelf, otherwise: Verdict, show: Show) -> Finding:
    limit = working_shear_mpa(shelf.species, shelf.grain)
    if limit is None:
        return _unknown(shelf, "shear stress of a shelf", None, "MPa", "shear strength")
    worst = greatest_shear(shelf.span)
    verdict = verdict_of(worst.stress_mpa, limit, Sense.AT_MOST, otherwise)
    thicker = worst.section.thickness_mm * (worst.stress_mpa / limit - 1.0)
    return Finding(
        check="shear stress of a shelf",
        subject=shelf.name,
        value=worst.stress_mpa,
        limit=limit,
        sense=Sense.AT_MOST,
        unit="MPa",
        verdict=verdict,
        basis=f"{_held(shelf)}; greatest {show(worst.at_mm)} from the held or left end; "
        f"{DIVISOR_REASON}",
        advice="" if verdict is Verdict.OK else f"leave {show(thicker)} more thickness there",
    )


def _held(shelf: Shelf) -> str:
    return f"{shelf.span.support.value}, {shelf.grain.value}"


def _unknown(shelf: Shelf, check: str, limit: float | None, unit: str, what: str) -> Finding:
    return Finding(
        check=check,
        subject=shelf.name,
        value=None,
        limit=limit,
        sense=Sense.AT_MOST,
        unit=unit,
        verdict=Verdict.CAUTION,
        basis=f"no {what} is printed for {shelf.species.name}",
        advice="take a species whose values are known, or load a sample before relying on it",
    )
