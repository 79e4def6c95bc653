"""Shelves with their loads at the worst place."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.beams import Support
from furniture.checks.loaded_spans import (
    span_before_post,
    span_between_uprights,
    span_past_post,
    with_hand,
)
from furniture.checks.spans import EvenLoad, Span, greatest_bending, moment_nmm
from furniture.checks.stability import GRAVITY_M_S2
from tests.checks.cases import POT

POT_N = POT.mass_kg * GRAVITY_M_S2


def test_a_pot_at_the_front_edge_worked_by_hand() -> None:
    # 150 mm before the post, pot 110 deep: its middle 95 mm out; the tier's own 4 N at 75 mm.
    span = span_before_post(150.0, 90.0, 16.0, 4.0, (POT,))
    assert span.load_n == pytest.approx(4.0 + POT_N)
    assert moment_nmm(span, 0.0) == pytest.approx(-(4.0 * 75.0 + POT_N * 95.0))


def test_a_pot_wider_than_the_overhang_covers_it() -> None:
    span = span_past_post(55.0, 160.0, 16.0, 1.0, (POT,))
    assert moment_nmm(span, 0.0) == pytest.approx(-(1.0 + POT_N) * 27.5)


@given(place=st.floats(0.0, 490.0))
def test_the_middle_is_the_worst_place_between_uprights(place: float) -> None:
    worst = span_between_uprights(600.0, 160.0, 16.0, 0.0, (POT,))
    elsewhere = Span(
        support=Support.SIMPLE,
        length_mm=600.0,
        section=worst.section,
        evens=(EvenLoad(from_mm=place, to_mm=place + 110.0, force_n=POT_N),),
    )
    most = greatest_bending(worst).stress_mpa
    assert greatest_bending(elsewhere).stress_mpa <= most * (1.0 + 1e-9)


def test_a_hand_leans_where_it_bends_most() -> None:
    projecting = span_before_post(150.0, 90.0, 16.0, 0.0, ())
    assert moment_nmm(with_hand(projecting, 100.0), 0.0) == pytest.approx(-15_000.0)
    resting = span_between_uprights(600.0, 160.0, 16.0, 0.0, ())
    assert moment_nmm(with_hand(resting, 100.0), 300.0) == pytest.approx(100.0 * 600.0 / 4.0)
