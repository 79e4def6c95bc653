"""A shelf under its load: how far it sags in time, and how hard its wood works."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.advice import Change, Remedy, least_that, lighter, longer, said
from furniture.checks.beams import Support
from furniture.checks.check import Check, Limits
from furniture.checks.finding import Finding, Show, Verdict, not_checked
from furniture.checks.rows.shelves import (
    BENDING,
    HAND_BENDING,
    HAND_SHEAR,
    PERSON_BENDING,
    PERSON_SAG,
    PERSON_SHEAR,
    SAG,
    SHEAR,
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
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.design import (
    LEAST_BRACKET,
    LEAST_LOAD,
    MOST_BRACKET,
    MOST_SHORTER,
    MOST_THICKER,
)
from furniture.rules.wood import (
    BREAKING_RESERVE,
    SAG_JUDGED_FROM,
    SAG_TOLD_FROM,
    STRICT_SAG,
    VISIBLE_SAG,
)
from furniture.rules.wood import PERSON_SAG as PERSON_SAG_RULE
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

_SAG_SOURCE = "the eye sees 1/384 of a span, 1/600 looks straight; a projection counts twice"


class Bearer(Enum):
    """What a shelf is asked to bear: what stays on it, a hand besides, or a person."""

    THINGS = "things that stay"
    HAND = "a hand"
    PERSON = "a person"


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
    bears: Bearer = Bearer.THINGS

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


def shelf_findings(shelf: Shelf, show: Show, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """Sag, bending and shear stress under loads that stay; of a short span no sag is told.

    Args:
        shelf: the shelf with its loads
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** as `long_term_sag_mm` and `strength`; limits of sag: the rules' own sources.
    """
    is_told = sag_length_mm(shelf.span) >= rules[SAG_TOLD_FROM]
    sag = (_sag(shelf, show, rules),) if is_told else ()
    return (*sag, *stress_findings(shelf, show, rules))


def stress_findings(shelf: Shelf, show: Show, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """Bending and shear stress under loads that stay, or with a hand or a person besides.

    Loads that stay caution beyond the working stress and fail near the mean strength. A hand passes
    and cautions beyond that strength, a person is tested by it and fails.

    Args:
        shelf: the shelf with its loads
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-13 and 9-14; limits as in `strength`.
    """
    return (_bending(shelf, show, rules), _shear(shelf, show, rules))


def person_sag_finding(shelf: Shelf, show: Show, rules: Rules = USUAL_RULES) -> Finding:
    """How far it gives under a person, who does not stay.

    Args:
        shelf: the shelf with the person's press on it
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** elastic beam; limit: own rule.
    """
    stiffness = stiffness_gpa(shelf.species, shelf.grain)
    if stiffness is None:
        return _unknown(shelf, PERSON_SAG, "stiffness")
    sag = greatest_deflection_mm(shelf.span, stiffness)
    limits = PERSON_SAG.limits(cautions=sag_length_mm(shelf.span) * rules[PERSON_SAG_RULE])
    is_right = PERSON_SAG.verdict(sag, limits) is Verdict.OK
    return Finding(
        check=PERSON_SAG,
        subject=shelf.name,
        value=sag,
        limits=limits,
        basis=f"{_held(shelf)}, {show.force(shelf.span.load_n)}, at once",
        advice="" if is_right else "make it thicker, or put a rail under its middle",
    )


def _sag(shelf: Shelf, show: Show, rules: Rules) -> Finding:
    sag = long_term_sag_mm(shelf)
    if sag is None:
        return _unknown(shelf, SAG, "stiffness")
    length = sag_length_mm(shelf.span)
    is_judged = length >= rules[SAG_JUDGED_FROM]
    share = rules[VISIBLE_SAG]
    limits = SAG.limits(
        notes=length * rules[STRICT_SAG], cautions=length * share if is_judged else None
    )

    def holds(span: Span) -> bool:
        changed = replace(shelf, span=span)
        return (long_term_sag_mm(changed) or 0.0) <= sag_length_mm(span) * share

    remedies: tuple[Remedy, ...] = ()
    is_amiss = SAG.verdict(sag, limits) is Verdict.CAUTION
    if is_amiss:
        own = (long_term_sag_mm(shelf.empty) or 0.0) if shelf.own is not None else 0.0
        remedies = (
            *_changes(shelf, holds, show), *_lighter(shelf, sag, own, length * share, show),
        )  # fmt: skip
    return Finding(
        check=SAG,
        subject=shelf.name,
        value=sag,
        limits=limits,
        basis=f"{_held(shelf)}, {show.force(shelf.span.load_n)} over {show(shelf.span.length_mm)}, "
        f"{CREEP_SOURCE[shelf.creep]}; limit: {_SAG_SOURCE}",
        advice=said(remedies, _else(shelf, remedies)) if is_amiss else "",
        remedies=remedies,
    )


def _changes(
    shelf: Shelf, holds: Callable[[Span], bool], show: Show, what: str = "it"
) -> tuple[Remedy, ...]:
    """Thicker, shorter, or borne by a bracket: each tried on the span itself, within its limits."""
    span, own = shelf.span, shelf.own
    most_thicker = MOST_THICKER.value * span.section.thickness_mm
    most_shorter = min(MOST_SHORTER.value * span.length_mm, span.length_mm - shelf.least_length_mm)
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
        most = MOST_BRACKET.value * span.length_mm
        enough = least_that(lambda reach: holds(beyond_bracket(span, reach)), 0.0, most)
        if enough is not None:
            whole = shelf.bracket_mm + span.length_mm
            enough = max(shelf.bracket_mm + enough, LEAST_BRACKET.value * whole)
            most += shelf.bracket_mm
            words = "put a bracket of your own under it that reaches {} from what holds it"
            if shelf.brackets:
                words = f"let {shelf.brackets} reach {{}} from what holds it"
            found += longer(Change.BRACKET, words, enough, show, most)
    return tuple(found)


def _else(shelf: Shelf, remedies: tuple[Remedy, ...]) -> str:
    """What would do where no single change within the limits does."""
    if shelf.turned_would_do:
        return "lay its grain along the span, where you place the part yourself"
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
    least = LEAST_LOAD.value * shelf.loads_kg
    return lighter("stand at most {} on it", share * shelf.loads_kg, show, least)


def _bending(shelf: Shelf, show: Show, rules: Rules) -> Finding:
    limit = working_bending_mpa(shelf.species, shelf.grain)
    check = {Bearer.THINGS: BENDING, Bearer.HAND: HAND_BENDING, Bearer.PERSON: PERSON_BENDING}[
        shelf.bears
    ]
    if limit is None:
        return _unknown(shelf, check, "bending strength")
    worst = greatest_bending(shelf.span)
    own = 0.0 if shelf.own is None else greatest_bending(shelf.empty.span).stress_mpa
    return _stress(
        shelf, check, worst, limit, own,
        lambda span: greatest_bending(span).stress_mpa, show, rules,
    )  # fmt: skip


def _shear(shelf: Shelf, show: Show, rules: Rules) -> Finding:
    limit = working_shear_mpa(shelf.species, shelf.grain)
    check = {Bearer.THINGS: SHEAR, Bearer.HAND: HAND_SHEAR, Bearer.PERSON: PERSON_SHEAR}[
        shelf.bears
    ]
    if limit is None:
        return _unknown(shelf, check, "shear strength")
    worst = greatest_shear(shelf.span)
    own = 0.0 if shelf.own is None else greatest_shear(shelf.empty.span).stress_mpa
    return _stress(
        shelf, check, worst, limit, own,
        lambda span: greatest_shear(span).stress_mpa, show, rules,
    )  # fmt: skip


def _stress(
    shelf: Shelf, check: Check, worst: Stress, limit: float, own: float,
    stress_of: Callable[[Span], float], show: Show, rules: Rules,
) -> Finding:  # fmt: skip
    """A stress against what such a load may come to; what it is advised by is its first limit."""
    strength = limit * divisor(shelf.species)
    limits = {
        Bearer.THINGS: Limits(cautions=limit, fails=strength / rules[BREAKING_RESERVE]),
        Bearer.HAND: Limits(cautions=strength),
        Bearer.PERSON: Limits(fails=strength),
    }[shelf.bears]
    limit = limits.cautions or strength
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
