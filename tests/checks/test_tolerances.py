"""Sums of errors, and mitres that do not close."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.finding import Verdict
from furniture.checks.mitre import mitre_face_mm
from furniture.checks.tolerances import (
    Error,
    chained_run,
    corner_gap_mm,
    dado_run_finding,
    datum_run,
    length_gap_mm,
    mitre_finding_of_errors,
    mitre_gap_mm,
    shares,
    statistical_mm,
    worst_case_mm,
)
from tests.checks.cases import millimetres

errors = st.lists(
    st.builds(
        Error,
        what=st.sampled_from(["thickness", "kerf", "position"]),
        tolerance_mm=st.floats(0.01, 2.0),
        count=st.integers(1, 8),
        weight=st.floats(-2.0, 2.0).filter(lambda weight: abs(weight) > 0.01),
    ),
    min_size=1,
    max_size=6,
)


@given(chain=errors)
def test_chance_is_never_worse_than_the_worst_case(chain: list[Error]) -> None:
    assert statistical_mm(chain) <= worst_case_mm(chain) + 1e-12


@given(chain=errors)
def test_shares_make_a_whole_and_are_ranked(chain: list[Error]) -> None:
    found = [each.share for each in shares(chain)]
    assert sum(found) == pytest.approx(1.0)
    assert found == sorted(found, reverse=True)


def test_root_sum_square_is_what_chance_does() -> None:
    # Simulated: tolerances as three standard deviations; the sum's three are the root sum square.
    chain = [
        Error(what="thickness", tolerance_mm=0.1, count=4),
        Error(what="position", tolerance_mm=0.3, weight=0.5),
    ]
    chance = np.random.default_rng(1)
    total = chance.normal(0.0, 0.1 / 3, (200_000, 4)).sum(axis=1)
    total += 0.5 * chance.normal(0.0, 0.3 / 3, 200_000)
    assert 3.0 * total.std() == pytest.approx(statistical_mm(chain), rel=0.01)


@pytest.mark.parametrize("dados", [2, 5, 20])
def test_one_datum_beats_a_chain(dados: int) -> None:
    assert worst_case_mm(datum_run()) < worst_case_mm(chained_run(dados))
    assert statistical_mm(datum_run()) < statistical_mm(chained_run(dados))


def test_mitre_gap_worked_by_hand() -> None:
    # 0.1 deg in eight cuts is 0.8 deg; on 18 mm stock (face 25.456 mm) 0.355 mm.
    assert mitre_gap_mm(18.0, 0.1) == pytest.approx(0.355, abs=0.0005)
    assert corner_gap_mm(18.0, 0.1) == pytest.approx(0.0889, abs=0.0001)


def test_mitre_gap_drawn_and_measured() -> None:
    # Four rails laid end to end as plane pieces, each turned by twice the error too little or too
    # much: after four corners the outside has turned 8 errors short of 360 deg, and the last
    # mitre's faces, which meet at one end, stand that angle apart.
    error, thickness = math.radians(0.1), 18.0
    heading = 4 * (math.pi / 2 - 2 * error)
    face = thickness * math.sqrt(2.0)
    first = np.array([math.cos(math.radians(45)), math.sin(math.radians(45))]) * face
    last = (
        np.array([math.cos(math.radians(45) + heading), math.sin(math.radians(45) + heading)])
        * face
    )
    assert np.linalg.norm(first - last) == pytest.approx(mitre_gap_mm(18.0, 0.1), rel=1e-3)


def test_unequal_rails_open_a_corner() -> None:
    assert length_gap_mm(0.2) == pytest.approx(0.2 / math.sqrt(2.0))


def test_the_last_corner_may_gape_two_glue_lines() -> None:
    """A glue line is good up to 0.15 mm, and the gap is a wedge: 0.3 at its wide end."""
    just, over = 0.3 - 1e-6, 0.3 + 1e-6
    for gap, verdict in ((just, Verdict.OK), (over, Verdict.CAUTION)):
        unequal = gap * math.sqrt(2.0)  # the two mitres that share it stand at 45 degrees
        finding = mitre_finding_of_errors(19.0, millimetres, 0.0, unequal)
        assert finding.value == pytest.approx(gap)
        assert finding.verdict is verdict


def test_tilt_set_as_advised_closes_the_box() -> None:
    finding = mitre_finding_of_errors(19.0, millimetres)
    assert finding.verdict is Verdict.CAUTION
    assert "93%" in finding.basis
    match = re.search(r"the fourth gapes no more than ([\d.]+) mm", finding.advice)
    assert match
    gap = float(match[1])
    assert gap == pytest.approx(round(gap / 0.05) * 0.05)  # what a feeler gauge shows
    angle = math.degrees(math.atan(gap / mitre_face_mm(19.0))) / 8.0
    again = mitre_finding_of_errors(19.0, millimetres, angle_error_deg=angle)
    assert again.verdict is Verdict.OK


def test_the_run_tells_what_to_trim_last() -> None:
    finding = dado_run_finding(4, 0.5, millimetres)
    assert finding.verdict is Verdict.OK
    assert "trim the top last" in finding.advice
    assert dado_run_finding(4, 0.1, millimetres).verdict is Verdict.CAUTION
