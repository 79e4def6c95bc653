"""Stability against brute force, closed forms and laws of statics."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.stability import (
    Body,
    Load,
    combined,
    empty_leaning,
    placed,
    righting_moment_nmm,
    sliding_force_n,
    tipping_press_n,
    tipping_push_n,
    worst_leaning,
    worst_place_mm,
    worst_pushed,
)
from furniture.checks.support import Edge, support_edges
from furniture.units.gravity import GRAVITY_M_S2
from tests.checks.cases import FEET, PIECE, POT, TOP, loads, pieces

EDGES = support_edges(FEET)
FRONT = next(edge for edge in EDGES if edge.name == "front")


def _subsets(things: tuple[Load, ...]) -> list[tuple[Load, ...]]:
    return [
        subset
        for count in range(len(things) + 1)
        for subset in itertools.combinations(things, count)
    ]


def _corners_of_play(load: Load) -> list[tuple[float, float]]:
    """Where a footprint that fits its surface may have its middle, at the extremes."""
    surface, (width, depth) = load.on, load.footprint_mm
    free_x = abs(surface.x1_mm - surface.x0_mm - width) / 2
    free_y = abs(surface.y1_mm - surface.y0_mm - depth) / 2
    free_x = min(free_x, (surface.x1_mm - surface.x0_mm) / 2)
    free_y = min(free_y, (surface.y1_mm - surface.y0_mm) / 2)
    middle_x, middle_y = (surface.x0_mm + surface.x1_mm) / 2, (surface.y0_mm + surface.y1_mm) / 2
    return [
        (middle_x + sx * free_x, middle_y + sy * free_y) for sx in (-1, 0, 1) for sy in (-1, 0, 1)
    ]


def test_textbook_angle() -> None:
    # Closed form with a hand-worked figure: d = 100, h = 450 gives 12.529 deg.
    body = Body(mass_kg=12.0, centre_mm=(150.0, 100.0, 450.0))
    assert empty_leaning(body, FRONT).angle_deg == pytest.approx(12.529, abs=0.0005)


def test_textbook_push_and_press() -> None:
    # Hand-worked: 12 kg (117.72 N at 9.81), d = 100: 13.08 N at 900 mm, 235.4 N 50 mm outside.
    body = Body(mass_kg=117.72 / GRAVITY_M_S2, centre_mm=(150.0, 100.0, 450.0))
    assert tipping_push_n(body, (), FRONT, 900.0) == pytest.approx(13.08, abs=0.005)
    assert tipping_press_n(body, (), FRONT, (150.0, -50.0)) == pytest.approx(235.44, abs=0.01)


def test_no_press_over_the_base_tips() -> None:
    assert tipping_press_n(PIECE, (), FRONT, (150.0, 0.0)) is None
    assert tipping_press_n(PIECE, (), FRONT, (150.0, 90.0)) is None


@given(piece=pieces(), things=loads(), edge=st.sampled_from(EDGES))
def test_worst_subset_is_the_worst_of_all_subsets(
    piece: Body, things: tuple[Load, ...], edge: Edge
) -> None:
    found = worst_leaning(piece, things, edge)
    angles = []
    for subset in _subsets(things):
        whole = combined((piece, *(placed(load, edge) for load in subset)))
        inside, height = edge.inside_mm(whole.centre_mm[:2]), whole.centre_mm[2]
        angles.append(math.degrees(math.atan2(inside, height)))
    assert found.angle_deg == pytest.approx(min(angles), abs=1e-7)


@given(piece=pieces(), things=loads(), edge=st.sampled_from(EDGES), share=st.floats(0.0, 1.0))
def test_half_a_load_is_never_worse_than_all_or_nothing(
    piece: Body, things: tuple[Load, ...], edge: Edge, share: float
) -> None:
    found = worst_leaning(piece, things, edge)
    some = [placed(load, edge) for load in things]
    parts = [Body(mass_kg=body.mass_kg * share, centre_mm=body.centre_mm) for body in some]
    whole = combined((piece, *parts))
    inside, height = edge.inside_mm(whole.centre_mm[:2]), whole.centre_mm[2]
    angle = math.degrees(math.atan2(inside, height))
    assert angle >= found.angle_deg - 1e-7


@given(things=loads(), edge=st.sampled_from(EDGES))
def test_worst_place_is_the_worst_of_all_places(things: tuple[Load, ...], edge: Edge) -> None:
    for load in things:
        x, y, z = worst_place_mm(load, edge)
        assert edge.inside_mm((x, y)) == pytest.approx(
            min(edge.inside_mm(place) for place in _corners_of_play(load)), abs=1e-6
        )
        assert z == load.on.top_mm + load.centre_height_mm
        assert load.on.x0_mm - 1e-9 <= x <= load.on.x1_mm + 1e-9


def test_footprint_stays_on_the_tier() -> None:
    # Hand-worked: a pot 110 deep on a tier that begins 60 before the feet stands 5 before them.
    assert worst_place_mm(POT, FRONT)[:2] == (150.0, -5.0)


def test_a_heavier_load_is_not_always_worse() -> None:
    low = Load(name="books", on=TOP, mass_kg=2.0, footprint_mm=(200, 210), centre_height_mm=-480)
    assert worst_leaning(PIECE, (low,), FRONT).loads == ()
    heavier = combined((PIECE, placed(low, FRONT)))
    assert empty_leaning(heavier, FRONT).angle_deg > empty_leaning(PIECE, FRONT).angle_deg


@given(piece=pieces(), things=loads(), edge=st.sampled_from(EDGES))
def test_righting_moment_is_the_least_of_all_subsets(
    piece: Body, things: tuple[Load, ...], edge: Edge
) -> None:
    moments = []
    for subset in _subsets(things):
        bodies = (piece, *(placed(load, edge) for load in subset))
        moments.append(sum(body.weight_n * edge.inside_mm(body.centre_mm[:2]) for body in bodies))
    assert righting_moment_nmm(piece, things, edge) == pytest.approx(min(moments), abs=1e-6)


@given(piece=pieces(), things=loads(), edge=st.sampled_from(EDGES), height=st.floats(50, 1500))
def test_proportional_push_is_the_least_share_of_all_subsets(
    piece: Body, things: tuple[Load, ...], edge: Edge, height: float
) -> None:
    found = worst_pushed(piece, things, edge, height)
    shares = []
    for subset in _subsets(things):
        whole = combined((piece, *(placed(load, edge) for load in subset)))
        shares.append(edge.inside_mm(whole.centre_mm[:2]) / height)
    assert found.inside_mm / found.height_mm == pytest.approx(min(shares), abs=1e-9)


@given(piece=pieces(), things=loads(), turn=st.floats(0.0, 360.0))
def test_turning_the_whole_changes_nothing(
    piece: Body, things: tuple[Load, ...], turn: float
) -> None:
    sine, cosine = math.sin(math.radians(turn)), math.cos(math.radians(turn))

    def turned(point: tuple[float, ...]) -> tuple[float, float]:
        return (cosine * point[0] - sine * point[1], sine * point[0] + cosine * point[1])

    edges = support_edges([turned(foot) for foot in FEET])
    moved = Body(mass_kg=piece.mass_kg, centre_mm=(*turned(piece.centre_mm), piece.centre_mm[2]))
    before = min(empty_leaning(piece, edge).angle_deg for edge in EDGES)
    after = min(empty_leaning(moved, edge).angle_deg for edge in edges)
    assert after == pytest.approx(before, abs=1e-6)


def test_sliding_is_friction_times_weight() -> None:
    assert sliding_force_n(10.0, 0.3) == pytest.approx(29.42, abs=0.005)


def test_bodies_without_mass_have_no_centre() -> None:
    with pytest.raises(ValueError, match="mass"):
        combined(())


def test_a_push_on_the_floor_has_no_arm() -> None:
    with pytest.raises(ValueError, match="no arm"):
        tipping_push_n(PIECE, (), FRONT, 0.0)
