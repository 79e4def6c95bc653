"""One low corner."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture.checks.finding import Verdict
from furniture.checks.floor import angle_on_uneven_floor_deg, rocks, uneven_floor_finding
from furniture.checks.stability import Body, Leaning, empty_leaning
from furniture.checks.stability_findings import tilt_asked
from furniture.checks.support import Edge
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
    assert angle_on_uneven_floor_deg(leaning, flat, _over) == leaning.angle_deg


def _over(edge: Edge) -> Leaning:
    return empty_leaning(STAND.piece, edge)


def test_a_corner_near_the_line_of_its_neighbours_costs_next_to_nothing() -> None:
    """Five pads: the fifth stands 0.5 mm before the front edge, and the four others bear it.

    By hand: without it the front edge is y = 0 as ever, 90 mm before the centre, at 300 up; the
    piece would have to turn by atan(2 / 0.5), 76 degrees, until it touched.
    """
    body = Body(mass_kg=5.0, centre_mm=(150.0, 90.0, 300.0))
    four = replace(STAND, piece=body, loads=())
    five = replace(four, contacts_mm=(*four.contacts_mm, (150.0, -0.5)))
    asked = tilt_asked(is_table_top=False)
    before, after = (uneven_floor_finding(each, asked, millimetres).value for each in (four, five))
    assert before is not None
    assert after is not None
    assert before - 0.2 < after
    (fifth,) = [each for each in rocks(five.contacts_mm, (150.0, 90.0), 2.0)
                if each.corner_mm == (150.0, -0.5)]  # fmt: skip
    assert fifth.angle_deg > 75.0


def test_a_corner_that_bears_more_than_its_neighbours_costs_all_of_its_rock() -> None:
    """By hand: the centre lies beyond the line of its neighbours, so nothing keeps it from turning.

    That is y = 0, and the corner is 60 mm before it: atan(2 / 60), to the front.
    """
    pads = ((0.0, 0.0), (150.0, -60.0), (300.0, 0.0), (150.0, 20.0))
    body = Body(mass_kg=5.0, centre_mm=(150.0, -20.0, 100.0))
    (front,) = [each for each in rocks(pads, (150.0, -20.0), 2.0) if each.corner_mm[1] == -60.0]
    assert not front.hangs
    for edge in replace(STAND, contacts_mm=pads).edges():
        leaning = empty_leaning(body, edge)
        share = max(0.0, -edge.outward[1])
        left = angle_on_uneven_floor_deg(leaning, [front], lambda line: empty_leaning(body, line))
        lost = math.degrees(math.atan(2.0 / 60.0)) * share
        assert left == pytest.approx(leaning.angle_deg - lost, abs=1e-9)


def test_finding_costs_at_most_the_rock_and_advises_a_shim() -> None:
    finding = uneven_floor_finding(STAND, tilt_asked(is_table_top=False), millimetres)
    assert finding.verdict is Verdict.OK
    top_heavy = replace(STAND, piece=Body(mass_kg=5.0, centre_mm=(150.0, 90.0, 500.0)), loads=())
    worse = uneven_floor_finding(top_heavy, tilt_asked(is_table_top=False), millimetres)
    assert worse.value is not None
    assert worse.value < math.degrees(math.atan(90 / 500))
    assert worse.verdict is Verdict.CAUTION
    assert "shim" in worse.advice
