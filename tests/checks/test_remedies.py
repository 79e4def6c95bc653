"""Advice that is followed is enough, and just enough."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from furniture.checks.advice import Change, Remedy
from furniture.checks.ballast import Room
from furniture.checks.base_growth import base_growth_mm
from furniture.checks.bodies import Surface
from furniture.checks.ground import Demand, Ground
from furniture.checks.remedies import ballast_kg, bearable_share, strap_n, ways_to_stand
from furniture.checks.stability import (
    Body,
    Load,
    combined,
    placed,
    tipping_push_n,
    worst_leaning,
    worst_pushed,
)
from furniture.checks.support import Edge, Point, support_edges
from furniture.pieces import DrawnOut
from furniture.units import Amounts, inches, millimetres
from furniture.units.gravity import GRAVITY_M_S2
from tests.checks.cases import FEET, PIECE, POT, loads, pieces

EDGES = support_edges(FEET)
LIMIT = 25.0
TILT = Demand(slope=math.tan(math.radians(LIMIT)))
BOX = (150.0, 90.0, 30.0)
ROOM = Room(low_mm=(20.0, 20.0, 10.0), high_mm=(280.0, 160.0, 70.0))
SHOP = Amounts(shown=millimetres())
edges = st.sampled_from(EDGES)


def _worst_angle(piece: Body, things: tuple[Load, ...]) -> float:
    return min(worst_leaning(piece, things, edge).angle_deg for edge in EDGES)


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
    ballast = ballast_kg(piece, things, EDGES, TILT, BOX)
    assume(ballast is not None)
    assert ballast is not None
    needed = ballast[0]
    heavier = combined((piece, Body(mass_kg=needed, centre_mm=BOX))) if needed else piece
    angle = _worst_angle(heavier, things)
    if needed == 0.0:
        assert angle >= LIMIT - 1e-6
    else:
        assert angle == pytest.approx(LIMIT, abs=1e-6)


@given(piece=pieces(), things=loads())
def test_share_of_the_loads_as_told_just_holds(piece: Body, things: tuple[Load, ...]) -> None:
    share = bearable_share(piece, things, EDGES, TILT)
    empty = _worst_angle(piece, ())
    if share is None:
        assert empty < LIMIT + 1e-6
        return
    some = tuple(replace(load, mass_kg=load.mass_kg * share) for load in things)
    angle = _worst_angle(piece, some)
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


def _ground(piece: Body, contacts: tuple[Point, ...] = FEET) -> Ground:
    return Ground(
        piece=piece, edges=support_edges(contacts), top_mm=600.0, front_mm=0.0, room=ROOM,
        base_kg=piece.mass_kg / 3.0,
    )  # fmt: skip


def _holds(
    piece: Body, things: tuple[Load, ...], grounds: tuple[Edge, ...], demand: Demand
) -> bool:
    """Every edge has the surplus that is asked, any load absent or at its worst."""
    for edge in grounds:
        own = piece.mass_kg * demand.surplus_mm(piece, edge)
        others = [
            body.mass_kg * min(0.0, demand.surplus_mm(body, edge))
            for body in (placed(each, edge) for each in things)
        ]
        if own + math.fsum(others) < demand.moment_nmm / GRAVITY_M_S2 - 1e-3:
            return False
    return True


def _follow(remedy: Remedy, ground: Ground, things: tuple[Load, ...], is_drawn_out: bool):
    """The piece, its loads and its edges after the change, the base drawn out or on runners."""
    piece, edges, loads_now = ground.piece, ground.edges, things
    for part in remedy.parts if remedy.change is Change.TOGETHER else (remedy,):
        if part.change is Change.BALLAST:
            front = min(0.0, *(edge.start_mm[1] for edge in edges))
            from_front = front + float(part.words.split("middle ")[1].split(" mm")[0])
            at = (sum(ROOM.low_mm[axis] + ROOM.high_mm[axis] for axis in (0,)) / 2.0, from_front)
            weight = Body(mass_kg=part.amount, centre_mm=ROOM.centre(at))
            piece = combined((piece, weight))
        elif part.change is Change.BASE:
            x, y, z = piece.centre_mm
            moved = []
            for edge in edges:
                by = sum(each.amount for each in part.parts if each.words.endswith(edge.name))
                by += sum(
                    each.amount
                    for each in part.parts
                    if edge.name == "front" and each.words.endswith("forward")
                )
                moved.append(edge.moved(by))
                if is_drawn_out:
                    share = ground.base_kg / 2.0 / ground.piece.mass_kg
                    x += edge.outward[0] * by * share
                    y += edge.outward[1] * by * share
            piece, edges = replace(piece, centre_mm=(x, y, z)), tuple(moved)
        elif part.change is Change.LOAD:
            loads_now = tuple(
                replace(each, mass_kg=each.mass_kg * part.amount / 100.0) for each in loads_now
            )
    return piece, loads_now, edges


demands = st.one_of(
    st.floats(5.0, 20.0).map(lambda deg: Demand(slope=math.tan(math.radians(deg)))),
    st.floats(2.0, 40.0).map(lambda push: Demand(moment_nmm=push * 600.0)),
    st.just(Demand(reach_mm=0.13 * 600.0)),
)


@given(piece=pieces(), things=loads(), demand=demands, drawn=st.booleans())
def test_every_way_to_stand_is_enough_and_allowed(
    piece: Body, things: tuple[Load, ...], demand: Demand, drawn: bool
) -> None:
    ground = _ground(piece)
    assume(not _holds(piece, things, ground.edges, demand))
    remedies, wall = ways_to_stand(ground, things, demand, SHOP)
    assert ("wall" in wall) is (ground.fixing_n is not None)
    for remedy in remedies:
        assert remedy.is_enough, remedy
        assert remedy.is_allowed, remedy
        after, some, edges = _follow(remedy, ground, things, drawn)
        assert _holds(after, some, edges, demand), remedy.words
        for part in remedy.parts or (remedy,):
            if part.change is Change.BALLAST:
                assert part.amount <= 1.5 * piece.mass_kg + 1e-9
            if part.change is Change.BASE:
                assert part.amount <= 0.25 * 300.0 + 1e-9


def test_a_light_piece_is_not_asked_to_hold_many_times_its_mass() -> None:
    light = Body(mass_kg=2.0, centre_mm=(150.0, 110.0, 230.0))
    ground, demand = _ground(light), Demand(moment_nmm=45.0 * 600.0)
    remedies, otherwise = ways_to_stand(ground, (), demand, SHOP)
    assert remedies == ()
    assert otherwise
    # Over its back the wall holds it; over the front 45 x 600 - 2 x 9.80665 x 110 is lacking.
    held = strap_n(ground, (), demand)
    assert held == pytest.approx(45.0 - 2.0 * 9.80665 * 110.0 / 600.0)
    _, wall = ways_to_stand(replace(ground, fixing_n=4.0 * held), (), demand, SHOP)
    assert f"bears {math.ceil(4.0 * held)} N" in wall


def test_where_one_change_is_not_enough_two_are_offered_together() -> None:
    back = Body(mass_kg=5.0, centre_mm=(150.0, 130.0, 230.0))
    low = replace(ROOM, high_mm=(280.0, 160.0, 18.0))
    ground = replace(_ground(back), room=low)
    remedies, _ = ways_to_stand(ground, (), Demand(moment_nmm=8.0 * 600.0), SHOP)
    assert [each.change for each in remedies] == [Change.TOGETHER]
    base, ballast = remedies[0].parts
    assert (base.change, ballast.change) == (Change.BASE, Change.BALLAST)


def test_ballast_is_still_no_more_than_every_edge_bears_once_it_is_rounded_up() -> None:
    """So much of it 125 mm from the front draws the whole back too far, by 0.08 mm in 102."""
    light = Body(mass_kg=0.5, centre_mm=(60.0, 70.0, 40.0))
    tier = Surface(name="tier", x0_mm=0.0, x1_mm=60.0, y0_mm=-24.0, y1_mm=36.0, top_mm=40.0)
    thing = Load(
        name="load", on=tier, mass_kg=0.25, footprint_mm=(10.0, 10.0), centre_height_mm=5.0
    )
    ground, demand = _ground(light), Demand(reach_mm=78.0)
    assert not _holds(light, (thing,), ground.edges, demand)
    for remedy in ways_to_stand(ground, (thing,), demand, SHOP)[0]:
        for is_drawn_out in (True, False):
            after, some, edges = _follow(remedy, ground, (thing,), is_drawn_out)
            assert _holds(after, some, edges, demand), remedy.words


def test_ballast_that_would_tip_with_the_rest_is_not_advised() -> None:
    # 13 % of the weight at 900 mm asks for 117 mm; the middle of the box is 90 mm inside.
    demand = Demand(reach_mm=0.13 * 900.0)
    assert ballast_kg(PIECE, (), EDGES, demand, BOX) is None
    remedies, _ = ways_to_stand(_ground(PIECE), (), demand, SHOP)
    assert all(each.change is not Change.BALLAST for each in remedies)


def test_ballast_is_of_a_stuff_that_goes_into_the_box() -> None:
    at = (150.0, 90.0)
    assert ROOM.stuff_for(1.0, at) == "dry sand"
    assert ROOM.stuff_for(ROOM.volume_mm3(at) * 1e-9 * 1500.0 * 1.01, at) == "steel plates"
    assert ROOM.stuff_for(ROOM.most_kg(at) * 1.01, at) is None


def test_advice_is_in_the_pieces_units() -> None:
    inch = Amounts(shown=inches(64))
    remedies, wall = ways_to_stand(_ground(PIECE), (POT,), TILT, inch)
    words = " ".join([wall, *(each.words for each in remedies)])
    assert " lb" in words or " in" in words
    assert not re.search(r"\d (mm|kg|N)\b", words)


def test_a_piece_that_nobody_fixes_is_sent_to_no_wall() -> None:
    off_centre = Body(mass_kg=5.0, centre_mm=(150.0, 170.0, 90.0))
    for fixing, is_strapped in ((None, False), (80.0, True)):
        ground = replace(_ground(off_centre), room=None, fixing_n=fixing)
        remedies, otherwise = ways_to_stand(ground, (), Demand(moment_nmm=40.0 * 180.0), SHOP)
        assert ("wall" in otherwise) is is_strapped
        assert remedies or otherwise


def test_a_parameter_that_draws_the_base_out_is_named_with_its_figure() -> None:
    depth = DrawnOut(
        parameter="base_depth", size="deep", now_mm=180.0, most_mm=1200.0, sides=("front",)
    )
    width = DrawnOut(
        parameter="base_width", size="wide", now_mm=300.0, most_mm=1200.0,
        sides=("left", "right"), times=2.0,
    )  # fmt: skip
    fore = Body(mass_kg=5.0, centre_mm=(140.0, 40.0, 230.0))
    ground = replace(_ground(fore), room=None, drawn_out=(depth, width))
    remedies, _ = ways_to_stand(ground, (), Demand(moment_nmm=4.0 * 600.0), SHOP)
    growth = base_growth_mm(fore, (), EDGES[0], Demand(moment_nmm=4.0 * 600.0), ground.base_kg)
    (base,) = remedies
    told = re.fullmatch(r"make the base ([\d.]+) mm deep", base.words)
    assert told
    assert base.all_parameters == ("base_depth",)
    assert 180.0 + growth <= float(told[1]) < 180.0 + growth + 0.5
    # Over the back nothing of the builder moves the edge, so nothing is said of the base.
    aft = replace(ground, piece=Body(mass_kg=5.0, centre_mm=(150.0, 150.0, 230.0)))
    remedies, otherwise = ways_to_stand(aft, (), Demand(moment_nmm=4.0 * 600.0), SHOP)
    assert remedies == ()
    assert "base" not in otherwise
