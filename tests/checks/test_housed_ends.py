"""The end of a shelf in its dado and on what lies under it: worked by hand, and by numbers."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.housing import Ledge, peak_bearing_mpa, rested_bearing_mpa


def test_without_a_ledge_the_dado_bears_alone() -> None:
    """4 F / (b d): 4 of 1200 N over 120 by 4."""
    assert rested_bearing_mpa(120.0, 4.0, 1200.0, []) == pytest.approx(10.0)
    assert rested_bearing_mpa(120.0, 4.0, 1200.0, []) == pytest.approx(
        peak_bearing_mpa(120.0, 4.0, 1200.0, 0.0)
    )


def test_a_ledge_like_the_dado_has_both_bear_evenly() -> None:
    """F / (2 b d): an eighth of what presses the dado alone, as nothing turns."""
    even = rested_bearing_mpa(120.0, 4.0, 1200.0, [Ledge(wide_mm=120.0, reach_mm=4.0)])
    assert even == pytest.approx(1200.0 / 960.0)
    halves = [Ledge(wide_mm=60.0, reach_mm=4.0)] * 2
    assert rested_bearing_mpa(120.0, 4.0, 1200.0, halves) == pytest.approx(even)


def test_where_the_end_would_lift_off_a_ledge_bears_no_more() -> None:
    """On a ledge as wide as its dado the end bears over three depths, however long that is.

    From the dado's back a wedge of pressure falls to nothing at d + e, its middle of mass a third
    of the way, which is the mouth: (d + e) / 3 = d, so e = 2 d and the peak 2 F / (b 3 d).
    """
    for reach in (8.0, 30.0, 300.0):
        peak = rested_bearing_mpa(120.0, 4.0, 1200.0, [Ledge(wide_mm=120.0, reach_mm=reach)])
        assert peak == pytest.approx(2.0 * 1200.0 / (120.0 * 12.0))


@given(
    depth=st.floats(3.0, 12.0),
    reach=st.floats(2.0, 90.0),
    wide=st.floats(8.0, 120.0),
)
def test_the_pressure_balances_the_load_by_numbers(depth: float, reach: float, wide: float) -> None:
    """A dense row of springs that a rigid end presses, those of the ledge only where it sinks."""
    strips = 4000
    places = np.concatenate([
        np.linspace(-depth, 0.0, strips, endpoint=False) + depth / strips / 2.0,
        np.linspace(0.0, reach, strips, endpoint=False) + reach / strips / 2.0,
    ])  # fmt: skip
    areas = np.concatenate([np.full(strips, 120.0 * depth / strips),
                            np.full(strips, wide * reach / strips)])  # fmt: skip
    bears = np.ones(2 * strips, dtype=bool)
    for _ in range(60):
        x, a = places[bears], areas[bears]
        sunk, turned = np.linalg.solve(
            [[a.sum(), (a * x).sum()], [(a * x).sum(), (a * x * x).sum()]], [1000.0, 0.0]
        )
        now = (places < 0.0) | (sunk + turned * places > 0.0)
        if (now == bears).all():
            break
        bears = now
    peak = (sunk + turned * places)[bears].max()
    found = rested_bearing_mpa(120.0, depth, 1000.0, [Ledge(wide_mm=wide, reach_mm=reach)])
    assert found == pytest.approx(peak, rel=5e-3)
