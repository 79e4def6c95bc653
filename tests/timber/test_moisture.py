"""Moisture in equilibrium: it rises with humidity, falls with heat, and turns back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.timber.moisture import (
    equilibrium_moisture_pct,
)

temperatures = st.floats(0.0, 55.0)
humidities = st.floats(1.0, 97.0)


@given(temperature=temperatures, humidity=humidities)
def test_damper_air_makes_damper_wood(temperature: float, humidity: float) -> None:
    assert equilibrium_moisture_pct(temperature, humidity + 1.0) > equilibrium_moisture_pct(
        temperature, humidity
    )


@given(temperature=st.floats(15.0, 50.0), humidity=st.floats(10.0, 90.0))
def test_warmer_air_of_the_same_humidity_makes_drier_wood(
    temperature: float, humidity: float
) -> None:
    assert equilibrium_moisture_pct(temperature + 5.0, humidity) < equilibrium_moisture_pct(
        temperature, humidity
    )


def test_dry_air_makes_dry_wood() -> None:
    assert equilibrium_moisture_pct(20.0, 0.0) == 0.0


@pytest.mark.parametrize(("temperature", "humidity"), [(20, 100), (20, -1), (80, 50), (-10, 50)])
def test_air_outside_the_equation_is_refused(temperature: float, humidity: float) -> None:
    with pytest.raises(ValueError, match="given"):
        equilibrium_moisture_pct(temperature, humidity)
