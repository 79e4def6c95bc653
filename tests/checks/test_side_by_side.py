"""Loads that stand beside or behind each other, never inside."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.bodies import Body, Load, combined
from furniture.checks.side_by_side import fit, side_by_side_finding
from furniture.checks.stability import righting_moment_nmm, worst_leaning
from furniture.checks.support import support_edges
from tests.checks.cases import FEET, PIECE, TOP, millimetres

FRONT = support_edges(FEET)[0]
# TOP is 200 wide and 210 deep, from y -60 to 150.
WIDE = Load(name="tray", on=TOP, mass_kg=2.0, footprint_mm=(180, 80), centre_height_mm=30)
BOX = Load(name="box", on=TOP, mass_kg=3.0, footprint_mm=(150, 60), centre_height_mm=40)


def test_two_that_have_no_room_abreast_stand_one_behind_the_other() -> None:
    # The heavier for its depth in front: the box at -60 + 30, the tray behind it at -60 + 60 + 40.
    both = worst_leaning(PIECE, (WIDE, BOX), FRONT)
    assert sorted(both.loads) == ["box", "tray"]  # high up, the tray behind tips it too
    assert sorted(body.centre_mm[1] for body in both.bodies) == [-30.0, 40.0]
    overhang = 3.0 * 30.0 * 9.80665  # on a level floor the tray, over the base, only helps
    own = 5.0 * 110.0 * 9.80665
    assert righting_moment_nmm(PIECE, (WIDE, BOX), FRONT) == pytest.approx(own - overhang)


def test_two_that_stand_abreast_are_both_at_the_edge() -> None:
    narrow = tuple(replace(each, footprint_mm=(90, 80)) for each in (WIDE, BOX))
    assert fit(TOP, narrow)
    leaning = worst_leaning(PIECE, narrow, FRONT)
    assert sorted(leaning.loads) == ["box", "tray"]
    assert {body.centre_mm[1] for body in leaning.bodies} == {-20.0}


def test_two_that_do_not_fit_are_told_and_taken_as_overlapping() -> None:
    big = tuple(replace(each, footprint_mm=(150, 150)) for each in (WIDE, BOX))
    finding = side_by_side_finding(TOP, big, millimetres)
    assert finding is not None
    assert "cautious bound" in finding.basis
    assert side_by_side_finding(TOP, big[:1], millimetres) is None
    assert {b.centre_mm[1] for b in worst_leaning(PIECE, big, FRONT).bodies} == {15.0}


loads_on_one = st.lists(
    st.builds(
        Load, name=st.uuids().map(str), on=st.just(TOP), mass_kg=st.floats(0.2, 6.0),
        footprint_mm=st.tuples(st.floats(110, 200), st.floats(10, 70)),
        centre_height_mm=st.floats(5, 100),
    ),
    min_size=1, max_size=3,
)  # fmt: skip


@given(things=loads_on_one)
def test_no_subset_in_no_order_is_worse(things: list[Load]) -> None:
    found = righting_moment_nmm(PIECE, things, FRONT)
    worst = PIECE.weight_n * FRONT.inside_mm(PIECE.centre_mm[:2])
    least = 90.0
    for count in range(1, len(things) + 1):
        for subset in combinations(things, count):
            for order in permutations(subset):
                y, bodies = TOP.y0_mm, []
                for load in order:
                    depth = load.footprint_mm[1]
                    centre = (150.0, y + depth / 2.0, TOP.top_mm + load.centre_height_mm)
                    bodies.append(Body(mass_kg=load.mass_kg, centre_mm=centre))
                    y += depth
                whole = combined((PIECE, *bodies))
                worst = min(worst, whole.weight_n * FRONT.inside_mm(whole.centre_mm[:2]))
                least = min(least, worst_leaning(whole, (), FRONT).angle_deg)
    if len(things) == 1 or fit(TOP, things):
        assert found == pytest.approx(worst, rel=1e-9, abs=1e-6)
        assert worst_leaning(PIECE, things, FRONT).angle_deg <= least + 1e-9
