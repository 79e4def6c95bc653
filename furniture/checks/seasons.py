"""What the seasons do to a piece: loose lids, glued panels, wide posts and trapped shelves."""

from __future__ import annotations

from dataclasses import dataclass, replace

from furniture.checks.finding import Finding, Sense, Show, Verdict, verdict_of
from furniture.checks.strength import Grain, stiffness_gpa
from furniture.timber.climates import Climate, Season
from furniture.timber.movement import Across, Sawn, change_mm, coefficient
from furniture.timber.play import LEAST_PLAY_MM, gap_for_growth_mm
from furniture.timber.species import Kind, Species

HARMLESS_PRESS_MM = 0.1
GLUED_LIMIT_MM = 1.0
GLUED_FAILS_MM = 2.0
METHOD = "Wood Handbook Eq. 13-2, good for 6 to 14 % moisture and about 5 % short at most"
DATA_UNKNOWN = "the handbook has no movement coefficient for it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One size of one part that meets another: along it, across it or through it."""

    part: str
    species: Species
    sawn: Sawn
    across: Across
    size_mm: float
    made_at_pct: float


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
    inner: Side, outer: Side, climate: Climate, least_play_mm: float = LEAST_PLAY_MM
) -> float:
    """The whole gap [mm] to leave when it is made, both sides together, so that it never jams.

    Args:
        inner: the loose part's size
        outer: the opening's size
        climate: the place
        least_play_mm: play that stays in the tightest season [mm]

    **Source:** Wood Handbook Eq. 13-2 for both parts; own rule for the play.
    """
    shift = difference_across(inner, outer, climate)
    return gap_for_growth_mm((shift.driest_mm, shift.dampest_mm), least_play_mm)


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
    inner: Side, outer: Side, gap_mm: float, climate: Climate, show: Show
) -> Finding:
    """Whether a loose lid or panel keeps its play in the dampest season.

    Args:
        inner: the loose part's size
        outer: the opening's size
        gap_mm: the gap when it is made, both sides together [mm]
        climate: the place
        show: puts a length into the piece's unit

    **Source:** as `gap_to_leave_mm`.
    """
    subject = f"{inner.part} in {outer.part}, across its {inner.across.value}"
    if not (_known(inner) and _known(outer)):
        return _unknown("gap of a loose part", subject, gap_mm)
    needed = gap_to_leave_mm(inner, outer, climate)
    verdict = verdict_of(gap_mm, needed, Sense.AT_LEAST, Verdict.FAIL)
    shift = difference_across(inner, outer, climate)
    widest = widest_gap_mm(inner, outer, climate, gap_mm)
    return Finding(
        check="gap of a loose part",
        subject=subject,
        value=gap_mm,
        limit=needed,
        sense=Sense.AT_LEAST,
        unit="mm",
        verdict=verdict,
        basis=f"{climate.name}: made at {inner.made_at_pct:.1f} %, {climate.dampest.told} changes "
        f"it by {_signed(shift.dampest_mm, show)}, {climate.driest.told} by "
        f"{_signed(shift.driest_mm, show)}, when the gap is {show(widest)}; {METHOD}",
        advice=""
        if verdict is Verdict.OK
        else f"leave {show(needed)} in all when you make it, "
        f"{show(needed / 2.0)} a side" + _calmer(inner, outer, climate, show),
    )


def glued_across_finding(inner: Side, outer: Side, climate: Climate, show: Show) -> Finding:
    """Whether two parts glued to each other can bear that one moves and the other does not.

    Args:
        inner: the size that wants to move, glued over its whole length
        outer: the size that holds it
        climate: the place
        show: puts a length into the piece's unit

    **Source:** Wood Handbook Eq. 13-2; limits: common practice, no source: glue across the grain
    only where the two part ways by about a millimetre (some 100 mm of a lively wood), never by two.
    """
    subject = f"{inner.part} glued to {outer.part}, across its {inner.across.value}"
    check = "glued across the grain"
    if not (_known(inner) and _known(outer)):
        return _unknown(check, subject, None)
    shift = difference_across(inner, outer, climate)
    verdict = verdict_of(shift.greatest_mm, GLUED_LIMIT_MM, Sense.AT_MOST, Verdict.CAUTION)
    if shift.greatest_mm > GLUED_FAILS_MM:
        verdict = Verdict.FAIL
    return Finding(
        check=check,
        subject=subject,
        value=shift.greatest_mm,
        limit=GLUED_LIMIT_MM,
        sense=Sense.AT_MOST,
        unit="mm",
        verdict=verdict,
        basis=f"{climate.name}: the two part ways by {_signed(shift.driest_mm, show)} in the "
        f"{climate.driest.name} season and {_signed(shift.dampest_mm, show)} in the "
        f"{climate.dampest.name}; up to {show(GLUED_LIMIT_MM)} wood and glue give, over "
        f"{show(GLUED_FAILS_MM)} one of them cracks (common practice, no source)"
        f"{_held_stress(inner, shift)}; {METHOD}",
        advice="" if verdict is Verdict.OK else _loosen(inner, outer, shift, climate, show),
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
    shelf: Side, housing: Side, clearance_mm: float, climate: Climate, show: Show
) -> Finding:
    """Whether a shelf's thickness still fits its housing in the dampest season.

    Args:
        shelf: the thickness that goes in
        housing: the width of the housing, which lies along the grain of its upright
        clearance_mm: how much wider the housing is [mm]
        climate: the place
        show: puts a length into the piece's unit

    **Source:** Wood Handbook Eq. 13-2; a press of more than 0.1 mm is a caution: common practice.
    """
    subject = f"{shelf.part} in its housing in {housing.part}"
    check = "swelling in a housing"
    if not (_known(shelf) and _known(housing)):
        return _unknown(check, subject, clearance_mm)
    swells = max(0.0, difference_across(shelf, housing, climate).dampest_mm)
    limit = max(0.0, swells - HARMLESS_PRESS_MM)
    verdict = verdict_of(clearance_mm, limit, Sense.AT_LEAST, Verdict.CAUTION)
    return Finding(
        check=check,
        subject=subject,
        value=clearance_mm,
        limit=limit,
        sense=Sense.AT_LEAST,
        unit="mm",
        verdict=verdict,
        basis=f"{climate.name}: the thickness grows by {show(swells)} when {climate.dampest.told}; "
        f"{show(HARMLESS_PRESS_MM)} of press does no harm (common practice, no source); {METHOD}",
        advice=""
        if verdict is Verdict.OK
        else f"cut the housing {show(limit - clearance_mm)} wider, or season the stock nearer to "
        f"{climate.dampest.moisture_pct:.0f} % before you plane it",
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


def _held_stress(inner: Side, shift: Shift) -> str:
    stress, strength = held_stress_mpa(inner, shift), inner.species.strength_across_mpa
    if stress is None or strength is None:
        return ""
    return f"; wholly held it would bear {stress:.1f} MPa of the {strength:g} that split it"


def _loosen(inner: Side, outer: Side, shift: Shift, climate: Climate, show: Show) -> str:
    gap = gap_to_leave_mm(inner, outer, climate)
    bearable = inner.size_mm * GLUED_LIMIT_MM / shift.greatest_mm
    return (
        f"glue no more than {show(bearable)} of its {inner.across.value}, or leave it loose with "
        f"{show(gap)} of gap, or fix it along one line only and slot the other holes by "
        f"{show(shift.range_mm)}" + _calmer(inner, outer, climate, show)
    )


def _calmer(inner: Side, outer: Side, climate: Climate, show: Show) -> str:
    """Quarter sawn stock where it would help, and sheet stock, as far as they would help."""
    if inner.species.kind is Kind.SHEET:
        return ""
    ways = ", or use sheet stock, which hardly moves"
    if inner.across is Across.WIDTH and inner.sawn is not Sawn.QUARTER:
        quarter = replace(inner, sawn=Sawn.QUARTER)
        if _known(quarter):
            now = difference_across(inner, outer, climate).range_mm
            then = difference_across(quarter, outer, climate).range_mm
            if then < now:
                ways = (
                    f", or take quarter sawn stock, which travels {show(then)} instead of "
                    f"{show(now)}" + ways
                )
    return ways


def _known(side: Side) -> bool:
    try:
        coefficient(side.species, side.sawn, side.across)
    except ValueError:
        return False
    return True


def _unknown(check: str, subject: str, value: float | None) -> Finding:
    return Finding(
        check=check,
        subject=subject,
        value=value,
        limit=None,
        sense=None,
        unit="mm",
        verdict=Verdict.CAUTION,
        basis=f"{DATA_UNKNOWN}, so its movement is not known",
        advice="measure a sample over a season, or take a species whose movement is printed",
    )


def _signed(size_mm: float, show: Show) -> str:
    return f"{'+' if size_mm >= 0.0 else '-'}{show(abs(size_mm))}"
