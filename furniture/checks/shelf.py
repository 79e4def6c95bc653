"""A shelf under its load: how far it sags in time, and how hard its wood works."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.advice import Change, Remedy, least_that, lighter, longer, said
from furniture.checks.beams import Support
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Show, Verdict, not_checked
from furniture.checks.rows.shelves import (
    BENDING,
    HAND_BENDING,
    HAND_SHEAR,
    SAG,
    SHEAR,
    STRICT_SAG,
)
from furniture.checks.spans import (
    EvenLoad,
    Span,
    Stress,
    beyond_bracket,
    drawn_in,
    greatest_bending,
    greatest_deflection_mm,
    greatest_shear,
    thicker,
)
from furniture.checks.stability import GRAVITY_M_S2
from furniture.checks.strength import (
    DIVISOR_REASON,
    Grain,
    divisor,
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

MOST_THICKER_SHARE = 0.5
"""How much thicker a shelf or post may be made before it is another design [-]. Own rule."""
MOST_SHORTER_SHARE = 0.25
"""How much shorter a span may be made [-]. Own rule."""
MOST_BRACKET_SHARE = 0.8
"""How far a bracket may reach under a shelf [-]. Own rule."""
LEAST_BRACKET_SHARE = 1.0 / 3.0
"""How far a bracket reaches at least, to be worth its screws [-]. Own rule."""
LEAST_LOAD_SHARE = 0.25
"""The least share of the stated loads that is still worth stating [-]. Own rule."""
VISIBLE_SAG_SHARE = 1.0 / 360.0
STRICT_SAG_SHARE = 1.0 / 600.0
_SAG_SOURCE = (
    "common practice, no source: the eye sees a sag of about 1/360 of the span (1/32 in a foot), "
    "1/600 looks straight; a projection counts twice its length"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """A shelf as a beam: its loads include its own weight, its cuts are the true wood left.

    `own` says which of the loads is its own weight, which no maker can leave off; points are hands,
    which pass. `least_length_mm` is what its loads and joints need of its span, and
    `turned_would_do` says that with the grain turned every way in which it bends is right.
    `brackets` names those under it; the span begins at their end, `bracket_mm` from what holds it.
    """

    name: str
    species: Species
    grain: Grain
    span: Span
    creep: Creep = Creep.UNSEASONED
    own: EvenLoad | None = None
    least_length_mm: float = 0.0
    turned_would_do: bool = False
    brackets: str = ""
    bracket_mm: float = 0.0

    @property
    def loads_kg(self) -> float:
        """The mass of what stands on it [kg]."""
        own = 0.0 if self.own is None else self.own.force_n
        return max(0.0, self.span.load_n - own) / GRAVITY_M_S2

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
        _sag(shelf, SAG, VISIBLE_SAG_SHARE, show),
        _sag(shelf, STRICT_SAG, STRICT_SAG_SHARE, show),
        *stress_findings(shelf, show),
    )


def stress_findings(shelf: Shelf, show: Show) -> tuple[Finding, ...]:
    """Bending and shear stress: with a hand that leans on the edge nothing fails, for it passes.

    Args:
        shelf: the shelf with its loads
        show: puts a length into the piece's unit

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-13 and 9-14; limits as in `strength`.
    """
    return (_bending(shelf, show), _shear(shelf, show))


def _sag(shelf: Shelf, check: Check, share: float, show: Show) -> Finding:
    limit = sag_length_mm(shelf.span) * share
    sag = long_term_sag_mm(shelf)
    if sag is None:
        return _unknown(shelf, check, "stiffness")
    limits = check.limits(cautions=limit)
    verdict = check.verdict(sag, limits)

    def holds(span: Span) -> bool:
        changed = replace(shelf, span=span)
        return (long_term_sag_mm(changed) or 0.0) <= sag_length_mm(span) * share

    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        own = (long_term_sag_mm(shelf.empty) or 0.0) if shelf.own is not None else 0.0
        remedies = (*_changes(shelf, holds, show), *_lighter(shelf, sag, own, limit, show))
    return Finding(
        check=check,
        subject=shelf.name,
        value=sag,
        limits=limits,
        basis=f"{_held(shelf)}, {show.force(shelf.span.load_n)} over {show(shelf.span.length_mm)}, "
        f"{CREEP_SOURCE[shelf.creep]}; limit: {_SAG_SOURCE}",
        advice=said(remedies, _else(shelf, remedies)) if verdict is not Verdict.OK else "",
        remedies=remedies,
    )


def _changes(
    shelf: Shelf, holds: Callable[[Span], bool], show: Show, what: str = "it"
) -> tuple[Remedy, ...]:
    """Thicker, shorter, or borne by a bracket: each tried on the span itself, within its limits."""
    span, own = shelf.span, shelf.own
    most_thicker = MOST_THICKER_SHARE * span.section.thickness_mm
    most_shorter = min(MOST_SHORTER_SHARE * span.length_mm, span.length_mm - shelf.least_length_mm)
    found: list[Remedy] = []
    enough = least_that(lambda by: holds(thicker(span, by, own)), 0.0, most_thicker)
    if enough is not None:
        words = f"make {what} {{}} thicker"
        found += longer(Change.THICKNESS, words, enough, show, most_thicker)
    enough = least_that(lambda by: holds(drawn_in(span, by, own)), 0.0, most_shorter)
    if enough is not None and not span.points:
        words = f"make {what} {{}} shorter in the span"
        found += longer(Change.SPAN, words, enough, show, most_shorter)
    if span.support is Support.CANTILEVER:
        most = MOST_BRACKET_SHARE * span.length_mm
        enough = least_that(lambda reach: holds(beyond_bracket(span, reach)), 0.0, most)
        if enough is not None:
            whole = shelf.bracket_mm + span.length_mm
            enough = max(shelf.bracket_mm + enough, LEAST_BRACKET_SHARE * whole)
            most += shelf.bracket_mm
            words = "put a bracket under it that reaches {} from what holds it"
            if shelf.brackets:
                words = f"let {shelf.brackets} reach {{}} from what holds it"
            found += longer(Change.BRACKET, words, enough, show, most)
    return tuple(found)


def _else(shelf: Shelf, remedies: tuple[Remedy, ...]) -> str:
    """What would do where no single change within the limits does."""
    if shelf.turned_would_do:
        return "turn the grain along the span"
    if remedies:
        return ""
    if shelf.span.support is Support.CANTILEVER:
        return "bear its front as well, on a second post or between uprights"
    return "put another upright or a rail under its middle"


def _lighter(
    shelf: Shelf, found: float, own: float, limit: float, show: Show
) -> tuple[Remedy, ...]:
    """How much may stand on it; nothing where a hand is meant or its own weight is too much."""
    if own >= limit or shelf.span.points or shelf.loads_kg <= 0.0:
        return ()
    share = (limit - own) / (found - own)
    least = LEAST_LOAD_SHARE * shelf.loads_kg
    return lighter("stand at most {} on it", share * shelf.loads_kg, show, least)


def _bending(shelf: Shelf, show: Show) -> Finding:
    limit = working_bending_mpa(shelf.species, shelf.grain)
    check = HAND_BENDING if shelf.span.points else BENDING
    if limit is None:
        return _unknown(shelf, check, "bending strength")
    worst = greatest_bending(shelf.span)
    own = 0.0 if shelf.own is None else greatest_bending(shelf.empty.span).stress_mpa
    return _stress(
        shelf, check, worst, limit, own,
        lambda span: greatest_bending(span).stress_mpa, show,
    )  # fmt: skip


def _shear(shelf: Shelf, show: Show) -> Finding:
    limit = working_shear_mpa(shelf.species, shelf.grain)
    check = HAND_SHEAR if shelf.span.points else SHEAR
    if limit is None:
        return _unknown(shelf, check, "shear strength")
    worst = greatest_shear(shelf.span)
    own = 0.0 if shelf.own is None else greatest_shear(shelf.empty.span).stress_mpa
    return _stress(
        shelf, check, worst, limit, own,
        lambda span: greatest_shear(span).stress_mpa, show,
    )  # fmt: skip


def _stress(
    shelf: Shelf, check: Check, worst: Stress, limit: float, own: float,
    stress_of: Callable[[Span], float], show: Show,
) -> Finding:  # fmt: skip
    """A stress against the working stress; loads that stay fail at the strength itself."""
    strength = None if shelf.span.points else limit * divisor(shelf.species)
    limits = check.limits(cautions=limit, fails=strength)
    verdict = check.verdict(worst.stress_mpa, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        remedies = (
            *_changes(shelf, lambda span: stress_of(span) <= limit, show),
            *_lighter(shelf, worst.stress_mpa, own, limit, show),
        )
    return Finding(
        check=check,
        subject=shelf.name,
        value=worst.stress_mpa,
        limits=limits,
        basis=f"{_held(shelf)}; greatest {show(worst.at_mm)} from the held or left end, where "
        f"{show(worst.section.thickness_mm)} of thickness is left; {DIVISOR_REASON}",
        advice=said(remedies, _else(shelf, remedies)) if verdict is not Verdict.OK else "",
        remedies=remedies,
    )


def _held(shelf: Shelf) -> str:
    return f"{shelf.span.support.value}, {shelf.grain.value}"


def _unknown(shelf: Shelf, check: Check, what: str) -> Finding:
    return not_checked(
        check, shelf.name, f"no {what} is printed for {shelf.species.name}",
        advice="take a species whose values are known, or load a sample before relying on it",
    )  # fmt: skip
