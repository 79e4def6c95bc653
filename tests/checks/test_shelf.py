"""Sag and stress of shelves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.advice import Change
from furniture.checks.beams import Support
from furniture.checks.finding import Finding, Verdict
from furniture.checks.sections import Rectangle
from furniture.checks.shelf import (
    CREEP_SOURCE,
    Bearer,
    Creep,
    Shelf,
    long_term_sag_mm,
    sag_length_mm,
    shelf_findings,
    stress_findings,
)
from furniture.checks.spans import (
    EvenLoad,
    PointLoad,
    Span,
    Stretch,
    beyond_bracket,
    drawn_in,
    greatest_bending,
)
from furniture.checks.strength import (
    LEAST_STRENGTH_ACROSS_SHARE,
    Grain,
    divisor,
    stiffness_gpa,
    strength_at_angle_mpa,
    working_bearing_mpa,
    working_bending_mpa,
    working_shear_mpa,
)
from furniture.timber.species import find_species, species_names
from tests.checks.cases import millimetres, remedy_of

CHERRY = find_species("cherry")
BOARD = Rectangle(width_mm=200.0, thickness_mm=18.0)
SPAN = Span(
    support=Support.SIMPLE,
    length_mm=600.0,
    section=BOARD,
    evens=(EvenLoad(from_mm=0.0, to_mm=600.0, force_n=98.1),),
)
SHELF = Shelf(name="shelf", species=CHERRY, grain=Grain.ALONG, span=SPAN)


def _named(findings: tuple[Finding, ...]) -> dict[str, Finding]:
    return {finding.check.name: finding for finding in findings}


def test_sag_with_creep_worked_by_hand() -> None:
    # 0.2756 mm at first (closed form), twice in the long run.
    assert long_term_sag_mm(SHELF) == pytest.approx(2 * 0.2756, abs=0.0005)
    assert long_term_sag_mm(replace(SHELF, creep=Creep.NONE)) == pytest.approx(0.2756, abs=0.0003)


def test_every_creep_has_its_source() -> None:
    assert set(CREEP_SOURCE) == set(Creep)


def test_across_the_grain_it_sags_by_the_ratio() -> None:
    # Wood Handbook Table 5-1: black cherry 0.086 tangential over longitudinal.
    across = long_term_sag_mm(replace(SHELF, grain=Grain.ACROSS))
    along = long_term_sag_mm(SHELF)
    assert across is not None
    assert along is not None
    assert along / across == pytest.approx(0.086)


def test_a_projection_is_judged_by_twice_its_length() -> None:
    assert sag_length_mm(SPAN) == 600.0
    assert sag_length_mm(replace(SPAN, support=Support.CANTILEVER)) == 1200.0


def test_thicker_as_advised_is_right() -> None:
    long = replace(
        SHELF,
        span=replace(
            SPAN, length_mm=1200.0, evens=(EvenLoad(from_mm=0.0, to_mm=1200.0, force_n=200.0),)
        ),
    )
    finding = _named(shelf_findings(long, millimetres))["sag that shows"]
    assert finding.verdict is Verdict.CAUTION  # it shows, and nothing breaks
    by = remedy_of(finding, Change.THICKNESS)
    thicker = replace(BOARD, thickness_mm=18.0 + by.enough)
    again = replace(long, span=replace(long.span, section=thicker))
    assert long_term_sag_mm(again) == pytest.approx(finding.limit, rel=1e-3)
    assert 0.0 <= by.amount - by.enough < 0.5
    assert by.amount <= 9.0


def test_a_shelf_twice_as_thick_is_not_advised() -> None:
    load = EvenLoad(from_mm=0.0, to_mm=1200.0, force_n=900.0)
    long = replace(SHELF, span=replace(SPAN, length_mm=1200.0, evens=(load,)))
    finding = _named(shelf_findings(long, millimetres))["sag that shows"]
    assert (finding.value or 0.0) > 8.0 * (finding.limit or 0.0)
    assert finding.remedies == ()
    assert "another upright" in finding.advice


@pytest.mark.parametrize(
    ("length", "share", "verdict"),
    [
        (399.0, 1 / 100, None),
        (499.0, 1 / 100, Verdict.NOTE),
        (500.0, 1 / 383, Verdict.CAUTION),
        (500.0, 1 / 385, Verdict.NOTE),
        (500.0, 1 / 601, Verdict.OK),
    ],
)
def test_small_shelves_are_not_judged_by_their_sag(
    length: float, share: float, verdict: Verdict | None
) -> None:
    span = replace(
        SPAN, length_mm=length, evens=(EvenLoad(from_mm=0.0, to_mm=length, force_n=1.0),)
    )
    unit = long_term_sag_mm(replace(SHELF, span=span))
    assert unit is not None
    force = share * length / unit
    loaded = replace(span, evens=(EvenLoad(from_mm=0.0, to_mm=length, force_n=force),))
    found = _named(shelf_findings(replace(SHELF, span=loaded), millimetres))
    told = found.get("sag that shows")
    assert (None if told is None else told.verdict) is verdict


def test_shorter_as_advised_is_right() -> None:
    # An even load per length, so that the load shrinks with the span.
    def shelf(length: float) -> Shelf:
        even = EvenLoad(from_mm=0.0, to_mm=length, force_n=length / 12.0)
        return replace(SHELF, span=replace(SPAN, length_mm=length, evens=(even,)))

    finding = _named(shelf_findings(shelf(1200.0), millimetres))["sag that shows"]
    by = remedy_of(finding, Change.SPAN)
    short = drawn_in(shelf(1200.0).span, by.enough)  # a load that stays as it is
    sag = long_term_sag_mm(replace(SHELF, span=short))
    assert sag == pytest.approx(short.length_mm / 384.0, rel=1e-3)
    assert by.amount <= 300.0


def test_the_true_section_after_cuts_is_what_works() -> None:
    groove = Stretch(
        from_mm=290.0, to_mm=310.0, section=Rectangle(width_mm=200.0, thickness_mm=6.0)
    )
    grooved = replace(SHELF, span=replace(SPAN, cuts=(groove,)))
    plain = _named(shelf_findings(SHELF, millimetres))["bending stress of a shelf"]
    cut = _named(shelf_findings(grooved, millimetres))["bending stress of a shelf"]
    assert plain.value is not None
    assert cut.value == pytest.approx(9.0 * plain.value)  # a third of the thickness, squared


def test_a_hand_across_the_grain_cautions_beyond_the_strength_itself() -> None:
    def under(force: float) -> Shelf:
        return Shelf(
            name="tier",
            species=find_species("white oak"),
            grain=Grain.ACROSS,
            span=Span(
                support=Support.CANTILEVER,
                length_mm=150.0,
                section=Rectangle(width_mm=90.0, thickness_mm=16.0),
                points=(PointLoad(at_mm=150.0, force_n=force),),
            ),
            bears=Bearer.HAND,
        )

    bending, shear = stress_findings(under(100.0), millimetres)
    # Closed form: 15,000 N mm over 90 x 16^2 / 6; tension perpendicular 5.5 MPa.
    assert bending.value == pytest.approx(15_000 / 3_840)
    assert bending.limit == pytest.approx(5.5)
    assert bending.verdict is Verdict.OK
    assert shear.verdict is Verdict.OK
    breaks = stress_findings(under(150.0), millimetres)[0]
    assert breaks.verdict is Verdict.CAUTION
    turned = stress_findings(replace(under(150.0), turned_would_do=True), millimetres)[0]
    assert "grain along the span" in turned.advice
    assert "grain along the span" not in breaks.advice
    assert all(each.change is not Change.LOAD for each in breaks.remedies)  # a hand is no load
    bracket = remedy_of(breaks, Change.BRACKET)
    rest = beyond_bracket(under(150.0).span, bracket.amount)
    assert greatest_bending(rest).stress_mpa <= 5.5
    assert bracket.amount <= 0.8 * 150.0


def test_a_person_fails_at_the_strength_itself() -> None:
    for force, verdict in ((0.99, Verdict.OK), (1.01, Verdict.FAIL)):
        stands = replace(SHELF, bears=Bearer.PERSON)
        unit = stress_findings(stands, millimetres)[0]
        assert unit.value is not None
        assert unit.limit is not None
        load = SPAN.evens[0].force_n * unit.limit / unit.value * force
        even = EvenLoad(from_mm=0.0, to_mm=600.0, force_n=load)
        told = stress_findings(replace(stands, span=replace(SPAN, evens=(even,))), millimetres)[0]
        assert told.verdict is verdict


def test_what_comes_near_the_strength_fails() -> None:
    def bending(force: float) -> Finding:
        load = EvenLoad(from_mm=0.0, to_mm=600.0, force_n=force)
        shelf = replace(SHELF, span=replace(SPAN, evens=(load,)))
        return _named(shelf_findings(shelf, millimetres))["bending stress of a shelf"]

    limit = bending(1.0).limit
    value = bending(1.0).value
    assert limit is not None
    assert value is not None
    to_limit = limit / value
    assert bending(0.99 * to_limit).verdict is Verdict.OK
    assert bending(1.01 * to_limit).verdict is Verdict.CAUTION
    # The strength is four times the working stress, and a reserve of 1.5 is kept from it.
    assert bending(2.66 * to_limit).verdict is Verdict.CAUTION
    assert bending(2.67 * to_limit).verdict is Verdict.FAIL


def test_a_wood_without_values_is_not_passed_in_silence() -> None:
    bare = replace(CHERRY, moe_gpa=None, mor_mpa=None, shear_mpa=None)
    findings = shelf_findings(replace(SHELF, species=bare), millimetres)
    assert all(finding.value is None for finding in findings)
    assert all(finding.verdict is Verdict.CAUTION for finding in findings)


def test_an_unloaded_shelf_passes() -> None:
    empty = replace(SHELF, span=replace(SPAN, evens=()))
    assert all(f.verdict is Verdict.OK for f in shelf_findings(empty, millimetres))


@pytest.mark.parametrize("name", species_names())
def test_across_the_grain_is_always_weaker_and_softer(name: str) -> None:
    species = find_species(name)
    along, across = stiffness_gpa(species, Grain.ALONG), stiffness_gpa(species, Grain.ACROSS)
    assert along is not None
    assert across is not None
    assert across < along
    strong = working_bending_mpa(species, Grain.ALONG)
    weak = working_bending_mpa(species, Grain.ACROSS)
    assert strong is not None
    assert weak is not None
    assert weak < strong


def test_the_guess_for_strength_across_is_below_every_printed_one() -> None:
    for name in species_names():
        species = find_species(name)
        if species.strength_across_mpa is not None and species.moe_gpa is not None:
            assert species.mor_mpa is not None
            assert species.strength_across_mpa / species.mor_mpa > LEAST_STRENGTH_ACROSS_SHARE


def test_divisors_cover_what_the_standard_asks_of_clear_wood() -> None:
    # ASTM D245/D2555 (memory): weakest twentieth at a scatter of 16 %, then 2.3 for hardwoods.
    weakest = 1.0 - 1.645 * 0.16
    assert divisor(CHERRY) > 2.3 / weakest


def test_rolling_shear_is_the_least_of_its_range() -> None:
    along, across = working_shear_mpa(CHERRY, Grain.ALONG), working_shear_mpa(CHERRY, Grain.ACROSS)
    assert along is not None
    assert across == pytest.approx(0.18 * along)
    assert working_bearing_mpa(find_species("teak")) is None


def test_hankinson_meets_both_ends() -> None:
    assert strength_at_angle_mpa(100.0, 5.0, 0.0) == pytest.approx(100.0)
    assert strength_at_angle_mpa(100.0, 5.0, 90.0) == pytest.approx(5.0)
    # Closed form at 45 degrees: 2 P Q / (P + Q).
    assert strength_at_angle_mpa(100.0, 5.0, 45.0) == pytest.approx(1000.0 / 105.0)
