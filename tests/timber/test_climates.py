"""Places and their seasons."""

from __future__ import annotations

import pytest

from furniture.timber.climates import (
    USUAL_CLIMATE,
    UnknownClimate,
    climate_names,
    climate_of,
    find_climate,
)
from furniture.timber.moisture import equilibrium_moisture_pct
from furniture.units import Amounts, millimetres


@pytest.mark.parametrize("name", climate_names())
def test_each_place_has_a_dry_and_a_damp_season_with_a_source(name: str) -> None:
    climate = find_climate(name)
    assert climate.driest.moisture_pct < climate.dampest.moisture_pct
    for season in climate.seasons:
        assert 3.0 < season.moisture_pct < 16.0
        assert season.source
        assert season.how in ("read", "memory", "assumed")
        assert f"{season.moisture_pct:.1f} %" in season.told(Amounts(shown=millimetres()))


def test_the_usual_place_is_there() -> None:
    assert find_climate(USUAL_CLIMATE.upper()).name == USUAL_CLIMATE


def test_own_readings_make_a_place() -> None:
    shed = climate_of("my shed", (10.0, 55.0), (18.0, 80.0))
    assert shed.dampest.moisture_pct == equilibrium_moisture_pct(18.0, 80.0)
    assert shed.driest.source == "measured"


def test_unknown_place_names_the_nearest() -> None:
    with pytest.raises(UnknownClimate, match="heated house"):
        find_climate("heated hose")
