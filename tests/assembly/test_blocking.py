"""Who stands in whose way: against closed forms for boxes, and for faces that only touch."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.assembly.blocking import blocked_along
from furniture.assembly.body import Body
from furniture.parts.vectors import unit
from furniture.solids.facets import Facet
from tests.fresh import law


def box_facets(low, high) -> tuple[Facet, ...]:
    """The six faces of an upright box between two opposite corners [mm]."""
    found = []
    for axis in range(3):
        u, v = (axis + 1) % 3, (axis + 2) % 3
        for end, sign in ((low, -1.0), (high, 1.0)):
            corners = []
            for at_u, at_v in ((low, low), (high, low), (high, high), (low, high)):
                point = [0.0, 0.0, 0.0]
                point[axis], point[u], point[v] = end[axis], at_u[u], at_v[v]
                corners.append((point[0], point[1], point[2]))
            normal = [0.0, 0.0, 0.0]
            normal[axis] = sign
            found.append(Facet(outer=tuple(corners), normal=(normal[0], normal[1], normal[2])))
    return tuple(found)


def body(name, low, high):
    return Body(name=name, facets=box_facets(low, high), volume_mm3=1.0, centre=low)


def blocks(moving, other, direction):
    """Whether the moving box, taken along the direction for ever, meets the other."""
    return bool(blocked_along([body("a", *moving), body("b", *other)], unit(direction))[0, 1])


PLATE = ((0.0, 0.0, 0.0), (100.0, 50.0, 10.0))


@pytest.mark.parametrize("distance", [0.0, 0.13, 37.0, 100000.0])
def test_a_plate_of_a_twentieth_of_a_millimetre_blocks_however_far_off(distance):
    """Nothing is sampled along the way, so nothing thin is jumped over."""
    sheet = ((40.0, 20.0, 10.0 + distance), (41.0, 21.0, 10.05 + distance))
    assert blocks(PLATE, sheet, (0, 0, 1))
    assert not blocks(PLATE, sheet, (0, 0, -1))


@pytest.mark.parametrize("clearance", [0.13, 0.05, 0.001, 0.0])
def test_a_tenon_leaves_its_mortise_with_clearance_or_with_none(clearance):
    """Cheeks that slide on one another do not block, down to no clearance at all."""
    above = ((50.0, 0.0, 10.0 + clearance), (150.0, 50.0, 20.0))
    below = ((50.0, 0.0, -10.0), (150.0, 50.0, 0.0))
    for cheek in (above, below):
        assert not blocks(PLATE, cheek, (1, 0, 0))


def test_a_thousandth_of_a_millimetre_of_wood_in_the_way_is_found():
    assert blocks(PLATE, ((120.0, 0.0, 9.999), (150.0, 50.0, 20.0)), (1, 0, 0))
    assert not blocks(PLATE, ((120.0, 0.0, 10.0), (150.0, 50.0, 20.0)), (1, 0, 0))


def test_two_boxes_that_meet_at_a_slant_leave_each_other_along_the_slant():
    """The bisector of a mitre: a box turned by 45 degrees against another, face on face."""
    half = math.sqrt(0.5)
    turn = np.array([[half, -half, 0.0], [half, half, 0.0], [0.0, 0.0, 1.0]])

    def turned(low, high):
        facets = box_facets(low, high)
        points = [tuple(tuple(turn @ p) for p in facet.outer) for facet in facets]
        normals = [tuple(turn @ facet.normal) for facet in facets]
        return tuple(
            type(facet)(outer=outer, normal=normal)
            for facet, outer, normal in zip(facets, points, normals, strict=True)
        )

    first = Body(
        name="a",
        facets=turned((0.0, -30.0, 0.0), (20.0, 30.0, 50.0)),
        volume_mm3=1.0,
        centre=(0.0, 0.0, 0.0),
    )
    second = Body(
        name="b",
        facets=turned((-20.0, -30.0, 0.0), (0.0, 30.0, 50.0)),
        volume_mm3=1.0,
        centre=(0.0, 0.0, 0.0),
    )
    for away in ((half, half, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-half, half, 0.0)):
        table = blocked_along([first, second], away)
        assert not table[0, 1], away
    for into in ((-half, -half, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)):
        assert blocked_along([first, second], into)[0, 1], into


def closed_form(moving, other, direction):
    """Boxes square to one another overlap at some time: the times of each axis have one in common.

    Along each axis the moving box overlaps the other during one span of time; the boxes meet when
    all three spans and the time after the start share more than an instant. None when it is so
    close that rounding decides.
    """
    start, end = 0.0, math.inf
    for axis in range(3):
        gap_low = other[0][axis] - moving[1][axis]
        gap_high = other[1][axis] - moving[0][axis]
        speed = direction[axis]
        if abs(speed) < 1e-9:
            if gap_low >= 0.0 or gap_high <= 0.0:
                return False
            continue
        times = sorted((gap_low / speed, gap_high / speed))
        start, end = max(start, times[0]), min(end, times[1])
    if abs(end - start) < 1e-3:
        return None
    return end > start


whole = st.integers(min_value=-40, max_value=40)
side = st.integers(min_value=1, max_value=25)
boxes = st.tuples(st.tuples(whole, whole, whole), st.tuples(side, side, side)).map(
    lambda pair: (
        tuple(float(a) for a in pair[0]),
        tuple(float(a + b) for a, b in zip(*pair, strict=True)),
    )
)
ways = (
    st.tuples(*[st.integers(min_value=-3, max_value=3)] * 3)
    .filter(any)
    .map(lambda way: unit(tuple(float(value) for value in way)))
)


@law(few=100, full=1000)
@given(moving=boxes, other=boxes, direction=ways)
def test_boxes_along_any_way_as_the_closed_form_has_it(moving, other, direction):
    overlap = all(moving[0][a] < other[1][a] and other[0][a] < moving[1][a] for a in range(3))
    expected = closed_form(moving, other, direction)
    if overlap or expected is None:
        return
    assert blocks(moving, other, direction) == expected


@law(few=20, full=200)
@given(many=st.lists(boxes, min_size=2, max_size=6), direction=ways)
def test_the_other_way_along_a_line_is_the_table_turned_over(many, direction):
    """If a cannot leave b one way, b cannot leave a the other way."""
    bodies = [body(str(index), *each) for index, each in enumerate(many)]
    there = blocked_along(bodies, direction)
    back = blocked_along(bodies, tuple(-value for value in direction))
    np.testing.assert_array_equal(there, back.T)
