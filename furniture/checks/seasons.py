"""What the seasons do to a piece: loose lids, glued panels, wide posts and trapped shelves."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.advice import Change, Remedy, longer, said, shorter
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Show, Verdict, not_checked
from furniture.checks.rows.seasons import GLUED_ACROSS, LOOSE_GAP, SWELLING
from furniture.checks.strength import Grain, stiffness_gpa
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.design import LEAST_GLUED, MOST_PLAY
from furniture.rules.staying import CARD_PLAY
from furniture.rules.wood import GAP_PLAY, GAP_PRESS, GLUED_CAUTION, GLUED_FAILS, HARMLESS_PRESS
from furniture.timber.climates import Climate, Season
from furniture.timber.doubt import movement_doubt_told
from furniture.timber.movement import Across, Sawn, change_mm, coefficient
from furniture.timber.play import gap_for_growth_mm
from furniture.timber.species import Kind, Species

METHOD = "Wood Handbook Eq. 13-2, good for 6 to 14 % moisture and about 5 % short at most"
DATA_UNKNOWN = "no movement coefficient is known for it"

WIDER_STEP_MM = 0.05
_NONE: tuple[Remedy, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One size of one part that meets another: along it, across it or through it."""

    part: str
    species: Species
    sawn: Sawn
    across: Across
    size_mm: float
    made_at_pct: float


class GluedHow(Enum):
    """How two parts are glued to each other."""

    HELD_IN_FRAME = "held at both its edges"
    BETWEEN = "housed at both its edges, where it bears"
    LAPPED = "face to face, or in a dado"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """How a size has changed [mm] since it was made, in the driest and the dampest season."""

    driest_mm: float
    dampest_mm: float

    @property
    def range_mm(self) -> float:
        """The whole travel from season to season [mm]."""
        return abs(self.dampest_mm - self.driest_mm)

    @property
    def greatest_mm(self) -> float:
        """The larger change since it was made, whichever way [mm]."""
        return max(abs(self.driest_mm), abs(self.dampest_mm))


def change_in(side: Side, season: Season) -> float:
    """How much the size has grown [mm] in a season since it was made; negative where it shrank.

    Args:
        side: the size and the wood that it is made of
        season: the season

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15).
    """
    return change_mm(
        side.species, side.size_mm, side.made_at_pct, season.moisture_pct, side.sawn, side.across
    )


def shift_of(side: Side, climate: Climate) -> Shift:
    """How the size changes at a place, in its driest and its dampest season.

    Args:
        side: the size and the wood that it is made of
        climate: the place
    """
    return Shift(
        driest_mm=change_in(side, climate.driest), dampest_mm=change_in(side, climate.dampest)
    )


def difference_across(inner: Side, outer: Side, climate: Climate) -> Shift:
    """How much more the inner size grows than the outer one [mm], season by season.

    Args:
        inner: the size that goes in or lies on
        outer: the size that holds it
        climate: the place
    """
    one, other = shift_of(inner, climate), shift_of(outer, climate)
    return Shift(
        driest_mm=one.driest_mm - other.driest_mm, dampest_mm=one.dampest_mm - other.dampest_mm
    )


def gap_to_leave_mm(
    inner: Side, outer: Side, climate: Climate, rules: Rules = USUAL_RULES
) -> float:
    """The whole gap [mm] to leave when it is made, both sides together, so that it never jams.

    Args:
        inner: the loose part's size
        outer: the opening's size
        climate: the place
        rules: the maker's

    **Source:** Wood Handbook Eq. 13-2 for both parts; own rule for the play.
    """
    shift = difference_across(inner, outer, climate)
    return gap_for_growth_mm((shift.driest_mm, shift.dampest_mm), rules[CARD_PLAY])


def widest_gap_mm(inner: Side, outer: Side, climate: Climate, gap_mm: float) -> float:
    """How wide the gap opens [mm] in the season that opens it most.

    Args:
        inner: the loose part's size
        outer: the opening's size
        climate: the place
        gap_mm: the gap when it is made, both sides together [mm]

    **Source:** Wood Handbook Eq. 13-2 for both parts.
    """
    shift = difference_across(inner, outer, climate)
    return gap_mm - min(0.0, shift.dampest_mm, shift.driest_mm)


def loose_fit_finding(
    inner: Side,
    outer: Side,
    gap_mm: float,
    climate: Climate,
    show: Show,
    most_gap_mm: float = math.inf,
    rules: Rules = USUAL_RULES,
) -> Finding:
    """Whether a loose lid or panel keeps its play in the dampest season.

    Args:
        inner: the loose part's size
        outer: the opening's size
        gap_mm: the gap when it is made, both sides together [mm]
        climate: the place
        show: puts a length into the piece's unit
        most_gap_mm: the gap at which its edges no longer lie on what bears them [mm]
        rules: the maker's

    **Source:** as `gap_to_leave_mm`.
    """
    subject = f"{inner.part} in {outer.part}, across its {inner.across.value}"
    if not (_known(inner) and _known(outer)):
        return _unknown(LOOSE_GAP, subject)
    needed = gap_to_leave_mm(inner, outer, climate, rules)
    growth = needed - rules[CARD_PLAY]
    press = growth - rules[GAP_PRESS]
    limits = LOOSE_GAP.limits(
        cautions=growth + rules[GAP_PLAY],
        # A sheet travels a few tenths and gives a little: it binds, and forces no corner apart.
        fails=press if press > 0.0 and inner.species.kind is not Kind.SHEET else None,
    )
    verdict = LOOSE_GAP.verdict(gap_mm, limits)
    shift = difference_across(inner, outer, climate)
    widest = widest_gap_mm(inner, outer, climate, gap_mm)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        side = show.up(needed / 2.0)
        words = f"leave {show(2.0 * side)} in all when you make it, {{}} a side"
        most = (most_gap_mm + min(0.0, shift.driest_mm)) / 2.0
        remedies = longer(Change.GAP, words, needed / 2.0, show, most)
    return Finding(
        check=LOOSE_GAP,
        subject=subject,
        value=gap_mm,
        limits=limits,
        basis=f"{climate.name}: made at {inner.made_at_pct:.1f} %, {climate.dampest.told(show)} "
        f"changes it by {signed(shift.dampest_mm, show)}, {climate.driest.told(show)} by "
        f"{signed(shift.driest_mm, show)}, when the gap is {show(widest)}; {_rings(inner)}"
        f"{METHOD}{_doubt(rules, inner, outer)}",
        advice=""
        if verdict is Verdict.OK
        else said(
            remedies,
            _quarter(inner, lambda one: gap_to_leave_mm(one, outer, climate, rules) <= gap_mm),
            "" if remedies else "widen the rabbets first, or make it of sheet stock",
        ),
        remedies=remedies,
    )


def glued_across_finding(
    inner: Side,
    outer: Side,
    climate: Climate,
    show: Show,
    how: GluedHow = GluedHow.LAPPED,
    rules: Rules = USUAL_RULES,
) -> Finding:
    """Whether two parts glued to each other can bear that one moves and the other does not.

    Args:
        inner: the size that wants to move, glued over its whole length
        outer: the size that holds it
        climate: the place
        show: puts a length into the piece's unit
        how: how they are glued
        rules: the maker's

    **Source:** Wood Handbook Eq. 13-2; limits: common practice, no source: glue lines under 100 mm
    of a lively wood never show it, and nailed chests move 4 mm.
    """
    met = "glued to" if how is not GluedHow.BETWEEN else "held at both ends, as far apart as"
    subject = f"{inner.part} {met} {outer.part}, across its {inner.across.value}"
    if not (_known(inner) and _known(outer)):
        return _unknown(GLUED_ACROSS, subject)
    shift = difference_across(inner, outer, climate)
    limits = GLUED_ACROSS.limits(rules)
    verdict = GLUED_ACROSS.verdict(shift.greatest_mm, limits)
    advice, remedies = ("", _NONE)
    if verdict in (Verdict.CAUTION, Verdict.FAIL):
        advice, remedies = _loosen(inner, outer, climate, show, how, rules)
    return Finding(
        check=GLUED_ACROSS,
        subject=subject,
        value=shift.greatest_mm,
        limits=limits,
        basis=f"{climate.name}: the two part ways by {signed(shift.driest_mm, show)} in the "
        f"{climate.driest.name} season and {signed(shift.dampest_mm, show)} in the "
        f"{climate.dampest.name}; up to {show(rules[GLUED_CAUTION])} wood and glue give, over "
        f"{show(rules[GLUED_FAILS])} one of them cracks (common practice, no source)"
        f"{_held_stress(inner, shift, show)}; {_rings(inner)}{METHOD}"
        + _doubt(rules, inner, outer),
        advice=advice,
        remedies=remedies,
    )


def held_stress_mpa(inner: Side, shift: Shift) -> float | None:
    """The stress across the grain [MPa] of a part wholly held, an upper bound; None if not known.

    Args:
        inner: the size that wants to move
        shift: how it differs from what holds it

    **Source:** Hooke's law with the stiffness across the grain, no creep to ease it.
    """
    stiffness = stiffness_gpa(inner.species, Grain.ACROSS)
    if stiffness is None:
        return None
    return shift.greatest_mm / inner.size_mm * stiffness * 1000.0


def swelling_finding(
    shelf: Side, housing: Side, clearance_mm: float, climate: Climate, show: Show,
    rules: Rules = USUAL_RULES,
) -> Finding:  # fmt: skip
    """Whether a shelf's thickness still fits its housing in the dampest season.

    Args:
        shelf: the thickness that goes in
        housing: the width of the housing, which lies along the grain of its upright
        clearance_mm: how much wider the housing is [mm]
        climate: the place
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** Wood Handbook Eq. 13-2; a press of more than 0.1 mm is a caution: common practice.
    """
    subject = f"{shelf.part} in its dado in {housing.part}"
    if not (_known(shelf) and _known(housing)):
        return _unknown(SWELLING, subject)
    swells = max(0.0, difference_across(shelf, housing, climate).dampest_mm)
    limit = max(0.0, swells - rules[HARMLESS_PRESS])
    limits = SWELLING.limits(cautions=limit)
    verdict = SWELLING.verdict(clearance_mm, limits)
    remedies: tuple[Remedy, ...] = ()
    if verdict is not Verdict.OK:
        wider = math.ceil((limit - clearance_mm) / WIDER_STEP_MM - 1e-6) * WIDER_STEP_MM
        one = Remedy(
            change=Change.PLAY, words=f"cut the dado {show(wider)} wider", amount=wider,
            unit="mm", enough=limit - clearance_mm, most=rules[MOST_PLAY] - clearance_mm,
        )  # fmt: skip
        remedies = (one,) if one.is_allowed else ()
    return Finding(
        check=SWELLING,
        subject=subject,
        value=clearance_mm,
        limits=limits,
        basis=f"{climate.name}: the thickness grows by {show(swells)} when "
        f"{climate.dampest.told(show)}; "
        f"{show(rules[HARMLESS_PRESS])} of press does no harm (common practice, no source); "
        f"{_rings(shelf)}{METHOD}{_doubt(rules, shelf, housing)}",
        advice=""
        if verdict is Verdict.OK
        else said(
            remedies,
            f"season the stock nearer to {climate.dampest.moisture_pct:.0f} % before you plane it",
        ),
        remedies=remedies,
    )


def slot_length_mm(screw_mm: float, side: Side, climate: Climate) -> float:
    """The length of a slotted screw hole [mm] that lets the part travel from season to season.

    The screw stands in its middle when the wood is half way between the seasons.

    Args:
        screw_mm: diameter of the screw's shank [mm]
        side: the distance from where the part is fixed to the screw
        climate: the place

    **Source:** own rule: shank and the whole travel.
    """
    return screw_mm + shift_of(side, climate).range_mm


def _held_stress(inner: Side, shift: Shift, show: Show) -> str:
    stress, strength = held_stress_mpa(inner, shift), inner.species.strength_across_mpa
    if stress is None or strength is None:
        return ""
    return (
        f"; wholly held it would bear {show.stress(stress)} of the {show.stress(strength)} that "
        "split it"
    )


def _loosen(
    inner: Side, outer: Side, climate: Climate, show: Show, how: GluedHow, rules: Rules
) -> tuple[str, tuple[Remedy, ...]]:
    """Ways to let a glued part move, each tried on the same formula."""
    limit_mm, least = rules[GLUED_CAUTION], rules[LEAST_GLUED] * inner.size_mm
    greatest = difference_across(inner, outer, climate).greatest_mm
    quarter = _quarter(
        inner, lambda one: difference_across(one, outer, climate).greatest_mm <= limit_mm
    )
    if how is GluedHow.HELD_IN_FRAME:
        side = gap_to_leave_mm(inner, outer, climate, rules) / 2.0
        words = "leave it without glue, with a gap of {} a side"
        loose = longer(Change.GAP, words, side, show, math.inf)
        return said(loose, quarter, "make it of sheet stock"), loose
    if how is GluedHow.BETWEEN:
        turned = "turn its grain, so that it runs from one to the other"
        return said(_NONE, turned, quarter, "make it of sheet stock"), _NONE
    bearable = inner.size_mm * limit_mm / greatest
    words = f"glue only the middle {{}} of its {inner.across.value} and leave the rest dry"
    middle = shorter(Change.GLUED, words, bearable, show, least)
    words = f"make it {{}} {_SIZED[inner.across]}"
    narrower = shorter(Change.GLUED, words, bearable, show, least)
    otherwise = "" if middle else "pin or screw it at one line only, in slots elsewhere"
    return said((*middle, *narrower), quarter, otherwise), (*middle, *narrower)


_SIZED = {Across.LENGTH: "long", Across.WIDTH: "wide", Across.THICKNESS: "thick"}


def _quarter(inner: Side, would_do: Callable[[Side], bool]) -> str:
    """Quarter sawn stock, where that alone is enough."""
    if inner.species.kind is Kind.SHEET or inner.across is not Across.WIDTH:
        return ""
    quarter = replace(inner, sawn=Sawn.QUARTER)
    if inner.sawn is Sawn.QUARTER or not _known(quarter) or not would_do(quarter):
        return ""
    return "take quarter sawn stock"


def _rings(side: Side) -> str:
    """How the rings lie, or that it is not known."""
    if side.species.kind is Kind.SHEET:
        return ""
    if side.sawn is Sawn.UNKNOWN:
        return "how its rings lie is not stated, so the way that moves more is taken; "
    return f"{side.sawn.value}; "


def _doubt(rules: Rules, *sides: Side) -> str:
    """What sources differ on in how the woods move."""
    return "".join(dict.fromkeys(movement_doubt_told(each.species, rules) for each in sides))


def _known(side: Side) -> bool:
    try:
        coefficient(side.species, side.sawn, side.across)
    except ValueError:
        return False
    return True


def _unknown(check: Check, subject: str) -> Finding:
    return not_checked(
        check, subject, f"{DATA_UNKNOWN}, so its movement is not known",
        advice="measure a sample over a season, or take a species whose movement is printed",
    )  # fmt: skip


def signed(size_mm: float, show: Show) -> str:
    """A change of size with its sign.

    Args:
        size_mm: how much it has grown [mm]
        show: puts a length into the piece's unit

    **Source:** own rule: a sign before the text of its size.
    """
    return f"{'+' if size_mm >= 0.0 else '-'}{show(abs(size_mm))}"
