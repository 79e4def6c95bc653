"""Tipping and sliding against a rigid-body simulation, mujoco: gravity leans until it topples."""

from __future__ import annotations

import math

import pytest

from furniture.checks.floor import angle_on_uneven_floor_deg, rocks
from furniture.checks.stability import (
    Body,
    Load,
    Surface,
    combined,
    empty_leaning,
    placed,
    sliding_force_n,
    tipping_push_n,
    worst_leaning,
)
from furniture.checks.support import Edge, support_edges
from tests.published import bodies
from tests.published.bodies import Scene
from tests.published.case import Case, How, Source, from_source

_FEET = ((0.0, 0.0), (300.0, 0.0), (300.0, 180.0), (0.0, 180.0))
_THREE = ((0.0, 0.0), (300.0, 0.0), (150.0, 200.0))
_SIX = ((80.0, 0.0), (220.0, 0.0), (300.0, 90.0), (220.0, 180.0), (80.0, 180.0), (0.0, 90.0))
_PIECE = Body(mass_kg=5.0, centre_mm=(150.0, 110.0, 230.0))
# Equal on its four feet: on uneven ones the simulation lets the light feet go first and chatters.
_SQUAT = Body(mass_kg=5.0, centre_mm=(150.0, 90.0, 40.0))
_TOP = Surface(name="top tier", x0_mm=50, x1_mm=250, y0_mm=-60, y1_mm=150, top_mm=500)
_LOW = Surface(name="low tier", x0_mm=0, x1_mm=300, y0_mm=-40, y1_mm=150, top_mm=200)
_LOADS = (
    Load(name="pot", on=_TOP, mass_kg=1.2, footprint_mm=(110, 110), centre_height_mm=60),
    Load(name="books", on=_LOW, mass_kg=2.5, footprint_mm=(200, 130), centre_height_mm=90),
)


def _edge(feet: tuple[tuple[float, float], ...], name: str) -> Edge:
    return next(edge for edge in support_edges(feet) if edge.name == name)


def _towards(edge: Edge) -> float:
    return math.degrees(math.atan2(edge.outward[1], edge.outward[0]))


def _tilt_case(
    feet: tuple[tuple[float, float], ...], name: str, side: str, loads: tuple[Load, ...]
) -> Case:
    edge = _edge(feet, side)
    leaning = worst_leaning(_PIECE, loads, edge)
    standing = tuple(placed(load, edge) for load in loads if load.name in leaning.loads)
    scene = Scene(pads_mm=feet, bodies=(_PIECE, *standing))
    return Case(
        id=f"mujoco-tilt-{name}-{side}".replace(" ", "-"),
        quantity=f"tilt before a stand on {name} falls over its {side} edge",
        place="gravity leans, halving to 0.05 deg",
        how=How.LIBRARY,
        expected=lambda: bodies.tip_angle_deg(scene, _towards(edge)),
        unit="deg",
        tolerance=0.5,
        reason="round pads of 2 mm on a floor that gives a little",
        compute=lambda: leaning.angle_deg,
    )


def _subset_case(side: str, left_out: str) -> Case:
    """No simulated subset topples sooner than the one that we call the worst."""
    edge = _edge(_FEET, side)
    some = tuple(load for load in _LOADS if load.name != left_out)
    scene = Scene(pads_mm=_FEET, bodies=(_PIECE, *(placed(load, edge) for load in some)))
    alone = combined((_PIECE, *(placed(load, edge) for load in some)))
    return Case(
        id=f"mujoco-without-{left_out}-{side}",
        quantity=f"tilt over the {side} edge without the {left_out}",
        place="gravity leans, halving to 0.05 deg",
        how=How.LIBRARY,
        expected=lambda: bodies.tip_angle_deg(scene, _towards(edge)),
        unit="deg",
        tolerance=0.5,
        reason="round pads of 2 mm on a floor that gives a little",
        compute=lambda: empty_leaning(alone, edge).angle_deg,
    )


def _push_case(side: str, height: float) -> Case:
    edge = _edge(_FEET, side)
    ours = tipping_push_n(_PIECE, (), edge, height)
    scene = Scene(pads_mm=_FEET, bodies=(_PIECE,))
    return Case(
        id=f"mujoco-push-{side}-{height:g}",
        quantity=f"push {height:g} mm up that tips it over its {side} edge",
        place="the push grows, halving to a 500th",
        how=How.LIBRARY,
        expected=lambda: bodies.tipping_push_n(scene, _towards(edge), height, 4.0 * ours),
        unit="N",
        tolerance=0.02 * ours,
        reason="2 %: the halving's last step and the round pads",
        compute=lambda: ours,
    )


def _slide_case(friction: float) -> Case:
    scene = Scene(pads_mm=_FEET, bodies=(_SQUAT,), friction=friction)
    return Case(
        id=f"mujoco-slide-{friction:g}",
        quantity=f"low push that slides a squat box at friction {friction:g}",
        place="the push grows, halving to a 250th",
        how=How.LIBRARY,
        expected=lambda: _sliding_push(scene, 60.0),
        unit="N",
        tolerance=0.03 * sliding_force_n(_SQUAT.mass_kg, friction),
        reason="3 %: the simulation's friction creeps a little before it lets go",
        compute=lambda: sliding_force_n(_SQUAT.mass_kg, friction),
    )


def _sliding_push(scene: Scene, most_n: float) -> float:
    low, high = 0.0, most_n
    while high - low > most_n / 250.0:
        middle = (low + high) / 2.0
        low, high = (
            (low, middle) if bodies.run(scene, 0.0, 90.0, middle, 10.0).slid else (middle, high)
        )
    return (low + high) / 2.0


CASES = from_source(
    Source(title="mujoco 4 (rigid-body simulation)", found="PyPI, mujoco"),
    _tilt_case(_FEET, "four feet, empty,", "right", ()),
    _tilt_case(_FEET, "four feet, loaded,", "front", _LOADS),
    _tilt_case(_THREE, "three feet,", "back right", ()),
    _tilt_case(_SIX, "six feet, loaded,", "front left", _LOADS),
    _subset_case("front", "pot"),
    _push_case("back", 560.0),
    _slide_case(0.2),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)


@pytest.mark.parametrize(
    ("friction", "tips"), [(0.2, False), (0.25, False), (0.36, True), (0.6, True)]
)
def test_slides_below_and_tips_above_the_ratio_of_arm_to_height(
    friction: float, tips: bool
) -> None:
    # Over the back edge the centre is 70 mm inside and 230 mm up: it tips from friction 0.304 on.
    scene = Scene(pads_mm=_FEET, bodies=(_PIECE,), friction=friction)
    outcome = bodies.run(scene, 22.0, 90.0)
    assert outcome.toppled is tips
    assert outcome.slid or tips


def test_one_low_corner_costs_no_more_than_we_say() -> None:
    """The floor is 6 mm low under the front right corner: simulated with a shorter pad there."""
    low_mm = 6.0
    found = rocks(_FEET, _PIECE.centre_mm[:2], low_mm)
    edge = _edge(_FEET, "front")
    ours = angle_on_uneven_floor_deg(
        empty_leaning(_PIECE, edge), found, lambda line: empty_leaning(_PIECE, line)
    )
    scene = Scene(pads_mm=_FEET, bodies=(_PIECE,), low_pad=(1, low_mm))
    theirs = bodies.tip_angle_deg(scene, -90.0)
    flat = bodies.tip_angle_deg(Scene(pads_mm=_FEET, bodies=(_PIECE,)), -90.0)
    assert theirs < flat - 0.5
    assert ours == pytest.approx(theirs, abs=0.5)


def test_a_low_pad_near_the_line_of_its_neighbours_costs_next_to_nothing() -> None:
    """A fifth pad 3 mm before the front edge, the floor 6 mm low under it: it hangs all along."""
    pads, low_mm = (*_FEET, (150.0, -3.0)), 6.0
    found = rocks(pads, _PIECE.centre_mm[:2], low_mm)
    leanings = [empty_leaning(_PIECE, edge) for edge in support_edges(pads) if edge.name == "front"]
    ours = min(
        angle_on_uneven_floor_deg(each, found, lambda line: empty_leaning(_PIECE, line))
        for each in leanings
    )
    scene = Scene(pads_mm=pads, bodies=(_PIECE,), low_pad=(4, low_mm))
    assert ours == pytest.approx(bodies.tip_angle_deg(scene, -90.0), abs=0.5)
