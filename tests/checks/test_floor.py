"""One low corner."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture.checks.finding import Verdict
from furniture.checks.floor import angle_on_uneven_floor_deg, rocks, uneven_floor_finding
from furniture.checks.stability import Body, empty_leaning
from furniture.checks.stability_findings import tilt_asked
from tests.checks.cases import FEET, STAND, millimetres


def test_rock_of_a_square_is_that_of_its_diagonal() -> None:
    # Hand-worked: 200 mm square, corner 141.42 mm from the other diagonal; 2 mm gives 0.8102 deg.
    square = ((0.0, 0.0), (200.0, 0.0), (200.0, 200.0), (0.0, 200.0))
    found = rocks(square, (100.0, 100.0), 2.0)
    assert len(found) == 4
    for rock in found:
        assert rock.angle_deg == pytest.approx(math.degrees(math.atan(2 / 141.4214)), abs=1e-5)
        assert rock.hangs  # the centre lies on the diagonal: it just stands on the others


def test_centre_off_the_middle_hangs_one_corner_and_sits_on_the_other() -> None:
    hangs = {rock.corner_mm: rock.hangs for rock in rocks(FEET, (100.0, 60.0), 2.0)}
    assert hangs[(300.0, 180.0)]
    assert not hangs[(0.0, 0.0)]


def test_three_feet_never_rock() -> None:
    found = rocks(((0.0, 0.0), (300.0, 0.0), (150.0, 200.0)), (150.0, 80.0), 2.0)
    assert not any(rock.hangs for rock in found)
    # Lowering the back foot of a tripod leans it back by 2 mm in 200.
    back = next(rock for rock in found if rock.corner_mm == (150.0, 200.0))
    assert back.angle_deg == pytest.approx(math.degrees(math.atan(0.01)))
    assert back.towards == pytest.approx((0.0, 1.0))


def test_a_flat_floor_costs_nothing() -> None:
    edge = STAND.edges()[0]
    leaning = empty_leaning(STAND.piece, edge)
    flat = rocks(FEET, (150.0, 110.0), 0.0)
    assert angle_on_uneven_floor_deg(leaning, flat) == leaning.angle_deg


def test_finding_costs_at_most_the_rock_and_advises_a_shim() -> None:
    finding = uneven_floor_finding(STAND, tilt_asked(is_table_top=False), millimetres)
    assert finding.verdict is Verdict.OK
    top_heavy = replace(STAND, piece=Body(mass_kg=5.0, centre_mm=(150.0, 90.0, 500.0)), loads=())
    worse = uneven_floor_finding(top_heavy, tilt_asked(is_table_top=False), millimetres)
    assert worse.value is not None
    assert worse.value < math.degrees(math.atan(90 / 500))
    assert worse.verdict is Verdict.CAUTION
    assert "shim" in worse.advice
