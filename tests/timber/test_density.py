"""Density: the ovendry mass stays, the water comes and goes, the volume follows."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.timber.density import (
    DEFAULT_MOISTURE_PCT,
    density_kg_m3,
    shrinkage_from_green_pct,
    specific_gravity,
    volumetric_shrinkage_pct,
)
from furniture.timber.species import Kind, find_species, species_names

SOLID = [name for name in species_names() if find_species(name).kind is not Kind.SHEET]
moistures = st.floats(0.0, 40.0)


@given(name=st.sampled_from(SOLID), first=moistures, second=moistures)
def test_ovendry_mass_is_kept(name: str, first: float, second: float) -> None:
    # Mass without water, of a piece that is 1 m3 when green, at two moistures.
    species = find_species(name)
    total = volumetric_shrinkage_pct(species)

    def wood(moisture: float) -> float:
        shrunk = shrinkage_from_green_pct(total, moisture, species.fibre_saturation_pct or 30.0)
        return density_kg_m3(species, moisture) * (1 - shrunk / 100) / (1 + moisture / 100)

    assert math.isclose(wood(first), wood(second), rel_tol=1e-9)


@pytest.mark.parametrize("name", SOLID)
def test_specific_gravity_at_12_is_the_printed_one(name: str) -> None:
    species = find_species(name)
    printed = species.specific_gravity_12
    assert printed is not None
    assert math.isclose(specific_gravity(species, 12.0), printed, rel_tol=1e-12)


@pytest.mark.parametrize("name", SOLID)
def test_drier_wood_is_lighter_but_less_than_its_water(name: str) -> None:
    # It shrinks too, so its density falls by less than the water that leaves.
    species = find_species(name)
    wet, dry = density_kg_m3(species, 12.0), density_kg_m3(species, 6.0)
    assert wet * 1.06 / 1.12 < dry < wet


def test_sheet_is_denser_by_its_water_only() -> None:
    ply = find_species("birch plywood 18 mm")
    assert density_kg_m3(ply, 12.0) == pytest.approx(685.0)
    assert density_kg_m3(ply, 0.0) == pytest.approx(685.0 / 1.12)


def test_estimated_shrinkage_comes_near_the_printed_one() -> None:
    # Eq. 4-12 is a fit over all woods: within a few points of the row of a middling wood.
    from dataclasses import replace

    walnut = find_species("black walnut")
    worked = replace(walnut, shrink_volumetric_pct=None)
    assert volumetric_shrinkage_pct(worked) == pytest.approx(12.871, abs=0.001)  # of 5.5 and 7.8
    guessed = volumetric_shrinkage_pct(replace(worked, shrink_radial_pct=None))
    assert guessed == pytest.approx(12.8, abs=1.5)


@pytest.mark.parametrize("moisture", [-1.0, 101.0, math.nan, math.inf])
def test_impossible_moisture_is_refused(moisture: float) -> None:
    with pytest.raises(ValueError, match="moisture"):
        density_kg_m3(find_species("black cherry"), moisture)


def test_default_moisture_is_within_what_makers_aim_for() -> None:
    # Wood Handbook ch. 13: furniture stock is dried to 6 to 8 %.
    assert 6.0 <= DEFAULT_MOISTURE_PCT <= 8.0
