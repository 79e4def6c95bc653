"""A part as a plate, against the closed forms of beams and plates."""

from __future__ import annotations

import math

import pytest

from furniture.parts.blank import Blank
from furniture.structure.plate import Stiffness, plate_of
from tests.structure.held import X, Y, Z, held_at

OAK = Stiffness(along=12000.0, across=1000.0, shear=800.0)


def clamped(plate, loads):
    """The same with the whole named end held, in all three ways over its thickness."""
    width, thickness = plate.blank.width_mm, plate.blank.thickness_mm
    points = [
        ((0.0, y, z), way)
        for y in (0.0, width / 2, width) for z in (0.0, thickness) for way in (X, Z)
    ] + [((0.0, width / 2, thickness / 2), Y)]  # fmt: skip
    return held_at(plate, points, loads)


def strip(length=600.0, width=30.0, thickness=10.0, mesh=75.0):
    return plate_of(Blank(length_mm=length, width_mm=width, thickness_mm=thickness), OAK, mesh)


def test_a_cantilever_falls_by_the_beam_formula():
    """F L^3 / 3 E I with I = 30 x 10^3 / 12."""
    plate = strip()
    held = clamped(plate, [((600.0, y, 5.0), Z, 5.0) for y in (0.0, 30.0)])
    found = held.moved((600.0, 15.0, 5.0), Z)
    assert found == pytest.approx(10.0 * 600.0**3 / (3 * 12000.0 * 30.0 * 10.0**3 / 12), rel=5e-3)


def test_a_rail_on_edge_falls_by_the_beam_formula_and_its_shear():
    """F L^3 / 3 E I + 6/5 F L / G A, on edge."""
    plate = strip(length=600.0, width=60.0, thickness=12.0)
    held = clamped(plate, [((600.0, y, 6.0), Y, 5.0) for y in (0.0, 60.0)])
    found = held.moved((600.0, 30.0, 6.0), Y)
    bending = 10.0 * 600.0**3 / (3 * 12000.0 * 12.0 * 60.0**3 / 12)
    shear = 1.2 * 10.0 * 600.0 / (800.0 * 12.0 * 60.0)
    assert found == pytest.approx(bending + shear, rel=0.03)


def test_a_stretched_rail_gives_by_hooke():
    plate = strip()
    ends = ((0.0, 125.0), (15.0, 250.0), (30.0, 125.0))
    held = clamped(plate, [((600.0, y, 5.0), X, size) for y, size in ends])
    found = held.moved((600.0, 15.0, 5.0), X)
    assert found == pytest.approx(500.0 * 600.0 / (12000.0 * 300.0), rel=1e-6)


def test_bending_stress_at_the_clamp_is_that_of_the_section():
    """6 F L / b t^2 a short way from the clamp, where the moment is F (L - x)."""
    plate = strip()
    held = clamped(plate, [((600.0, y, 5.0), Z, 5.0) for y in (0.0, 30.0)])
    along, _ = plate.stresses(held.own, (150.0, 15.0, 5.0))
    assert along == pytest.approx(6 * 10.0 * 450.0 / (30.0 * 10.0**2), rel=0.02)


def test_a_strip_twists_by_st_venant_to_an_eighth():
    """T L / G J with J = b t^3 / 3 (1 - 0.63 t/b)."""
    plate = strip(length=600.0, width=60.0, thickness=15.0)
    couple = 1000.0 / 60.0
    held = clamped(plate, [((600.0, 60.0, 7.5), Z, couple), ((600.0, 0.0, 7.5), Z, -couple)])
    lifted = [held.moved((600.0, y, 7.5), Z) for y in (0.0, 60.0)]
    angle = (lifted[1] - lifted[0]) / 60.0
    stiff = 800.0 * 60.0 * 15.0**3 / 3 * (1 - 0.63 * 15.0 / 60.0)
    assert angle == pytest.approx(1000.0 * 600.0 / stiff, rel=0.13)


def test_a_plate_on_four_edges_sags_by_navier():
    """488 x 288 x 5 under 1e-3 MPa, simply held on its four edges: the double sine series of an
    orthotropic plate without Poisson's ratio (Timoshenko and Woinowsky-Krieger, ch. 11, from
    memory)."""
    a, b, t, q = 488.0, 288.0, 5.0, 1e-3
    plate = plate_of(Blank(length_mm=a, width_mm=b, thickness_mm=t), OAK, 60.0)
    edges = [
        at
        for at in [tuple(each) for each in plate.nodes()]
        if at[0] in (0.0, a) or at[1] in (0.0, b)
    ]
    cell = a / plate.counts[0] * b / plate.counts[1]
    inside = [at for at in [tuple(each) for each in plate.nodes()] if at not in edges]
    held = held_at(plate, [(at, Z) for at in edges] + [
        ((0.0, 0.0, t / 2), X), ((0.0, 0.0, t / 2), Y), ((a, 0.0, t / 2), Y)
    ], [(at, Z, q * cell) for at in inside])  # fmt: skip
    middle = held.moved((a / 2, b / 2, t / 2), Z)
    dx, dy = OAK.along * t**3 / 12, OAK.across * t**3 / 12
    dxy = OAK.shear * (1 - 0.63 * t / b) * t**3 / 12
    series = sum(
        16 * q / (math.pi**6 * m * n)
        * math.sin(m * math.pi / 2) * math.sin(n * math.pi / 2)
        / (dx * (m / a) ** 4 + 4 * dxy * (m * n / (a * b)) ** 2 + dy * (n / b) ** 4)
        for m in range(1, 40, 2) for n in range(1, 40, 2)
    )  # fmt: skip
    assert middle == pytest.approx(series, rel=0.03)
