"""Advice that is followed is enough, and just enough."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from furniture.checks.remedies import (
    Demand,
    advice_to_stand,
    ballast_kg,
    base_growth_mm,
    bearable_share,
)
from furniture.checks.stability import (
    Body,
    Load,
    combined,
    tipping_push_n,
    worst_leaning,
    worst_over_edges,
    worst_pushed,
)
from furniture.checks.support import Edge, support_edges
from tests.checks.cases import FEET, PIECE, POT, loads, millimetres, pieces

EDGES = support_edges(FEET)
LIMIT = 25.0
TILT = Demand(slope=math.tan(math.radians(LIMIT)))
BOX = (150.0, 90.0, 30.0)
edges = st.sampled_from(EDGES)


def _moved(edge: Edge, by: float) -> Edge:
    """The same edge moved outward."""
    start = (edge.start_mm[0] + by * edge.outward[0], edge.start_mm[1] + by * edge.outward[1])
    end = (edge.end_mm[0] + by * edge.outward[0], edge.end_mm[1] + by * edge.outward[1])
    return Edge(start_mm=start, end_mm=end, outward=edge.outward)


@given(piece=pieces(), things=loads(), edge=edges)
def test_a_base_that_grows_as_told_just_holds(
    piece: Body, things: tuple[Load, ...], edge: Edge
) -> None:
    before = worst_leaning(piece, things, edge).angle_deg
    growth = base_growth_mm(piece, things, edge, TILT)
    after = worst_leaning(piece, things, _moved(edge, growth)).angle_deg
    if before >= LIMIT:
        assert growth == 0.0
    else:
        assert after == pytest.approx(LIMIT, abs=1e-6)


@given(piece=pieces(), things=loads())
def test_ballast_as_told_just_holds(piece: Body, things: tuple[Load, ...]) -> None:
    needed = ballast_kg(piece, things, EDGES, TILT, BOX)
    assume(needed is not None)
    assert needed is not None
    heavier = combined((piece, Body(mass_kg=needed, centre_mm=BOX))) if needed else piece
    angle = worst_over_edges(heavier, things, EDGES).angle_deg
    if needed == 0.0:
        assert angle >= LIMIT - 1e-6
    else:
        assert angle == pytest.approx(LIMIT, abs=1e-6)


@given(piece=pieces(), things=loads())
def test_share_of_the_loads_as_told_just_holds(piece: Body, things: tuple[Load, ...]) -> None:
    share = bearable_share(piece, things, EDGES, TILT)
    empty = worst_over_edges(piece, (), EDGES).angle_deg
    if share is None:
        assert empty < LIMIT + 1e-6
        return
    from dataclasses import replace

    some = tuple(replace(load, mass_kg=load.mass_kg * share) for load in things)
    angle = worst_over_edges(piece, some, EDGES).angle_deg
    assert angle >= LIMIT - 1e-6
    if share < 1.0:
        assert angle == pytest.approx(LIMIT, abs=1e-5)


@given(piece=pieces(), things=loads(), edge=edges, push=st.floats(1.0, 60.0))
def test_a_push_is_answered_in_the_same_way(
    piece: Body, things: tuple[Load, ...], edge: Edge, push: float
) -> None:
    demand = Demand(moment_nmm=push * 600.0)
    growth = base_growth_mm(piece, things, edge, demand)
    after = tipping_push_n(piece, things, _moved(edge, growth), 600.0)
    assert after >= push - 1e-6
    if growth > 0.0:
        assert after == pytest.approx(push, rel=1e-6)


@given(piece=pieces(), things=loads(), edge=edges)
def test_a_share_of_the_weight_is_answered_in_the_same_way(
    piece: Body, things: tuple[Load, ...], edge: Edge
) -> None:
    demand = Demand(reach_mm=0.13 * 900.0)
    growth = base_growth_mm(piece, things, edge, demand)
    after = worst_pushed(piece, things, _moved(edge, growth), 900.0)
    assert after.inside_mm / 900.0 >= 0.13 - 1e-9


def test_ballast_that_would_tip_with_the_rest_is_not_advised() -> None:
    # 13 % of the weight at 900 mm asks for 117 mm; the middle of the box is 90 mm inside.
    demand = Demand(reach_mm=0.13 * 900.0)
    assert ballast_kg(PIECE, (), EDGES, demand, BOX) is None
    front = EDGES[0]
    text = advice_to_stand(PIECE, (), EDGES, front, demand, BOX, millimetres)
    assert "no ballast" in text
    assert " kg" not in text


def test_advice_shows_lengths_in_the_pieces_unit_and_rounds_masses_up() -> None:
    back = next(edge for edge in EDGES if edge.name == "back")
    text = advice_to_stand(PIECE, (POT,), EDGES, back, TILT, BOX, lambda mm: f"{mm / 25.4:.3f} in")
    growth = base_growth_mm(PIECE, (POT,), back, TILT)
    needed = ballast_kg(PIECE, (POT,), EDGES, TILT, BOX)
    assert needed is not None
    assert f"outward by {growth / 25.4:.3f} in" in text
    told = float(text.split("put ")[1].split(" kg")[0])
    assert needed <= told < needed + 0.11
