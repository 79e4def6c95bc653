"""Movement across the grain."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.timber.movement import (
    Across,
    NoCoefficient,
    Sawn,
    change_by_shrinkage_mm,
    change_mm,
    coefficient,
)
from furniture.timber.species import Kind, find_species, species_names

SOLID = [name for name in species_names() if find_species(name).kind is not Kind.SHEET]


@pytest.mark.parametrize("name", SOLID)
def test_flat_sawn_moves_more_in_width_than_quarter_sawn(name: str) -> None:
    species = find_species(name)
    flat = coefficient(species, Sawn.FLAT, Across.WIDTH)
    quarter = coefficient(species, Sawn.QUARTER, Across.WIDTH)
    assert flat > quarter > 0.0
    assert coefficient(species, Sawn.FLAT, Across.THICKNESS) == quarter
    assert coefficient(species, Sawn.UNKNOWN, Across.WIDTH) == flat
    assert coefficient(species, Sawn.UNKNOWN, Across.THICKNESS) == flat


@pytest.mark.parametrize("name", SOLID)
def test_length_stays(name: str) -> None:
    species = find_species(name)
    assert change_mm(species, 900.0, 6.0, 14.0, Sawn.FLAT, Across.LENGTH) == 0.0


@given(
    name=st.sampled_from(
        [n for n in SOLID if n not in ("white oak", "red oak", "mahogany", "teak")]
    ),
    size=st.floats(10.0, 600.0),
    start=st.floats(6.0, 14.0),
    end=st.floats(6.0, 14.0),
)
def test_the_handbooks_two_methods_agree(name: str, size: float, start: float, end: float) -> None:
    # Eq. 13-2 beside Eq. 13-3: within the twentieth that the page itself allows.
    species = find_species(name)
    assert species.shrink_tangential_pct is not None
    assert species.fibre_saturation_pct is not None
    short = change_mm(species, size, start, end, Sawn.FLAT, Across.WIDTH)
    whole = change_by_shrinkage_mm(
        size, species.shrink_tangential_pct, start, end, species.fibre_saturation_pct
    )
    assert short == pytest.approx(whole, rel=0.05, abs=1e-9)


@given(size=st.floats(10.0, 600.0), start=st.floats(0.0, 29.0), end=st.floats(0.0, 29.0))
def test_there_and_back_again(size: float, start: float, end: float) -> None:
    there = size + change_by_shrinkage_mm(size, 8.0, start, end)
    back = there + change_by_shrinkage_mm(there, 8.0, end, start)
    assert back == pytest.approx(size, rel=1e-9)


def test_green_to_ovendry_is_the_whole_shrinkage() -> None:
    assert change_by_shrinkage_mm(100.0, 8.0, 30.0, 0.0) == pytest.approx(-8.0)
    assert change_by_shrinkage_mm(100.0, 8.0, 80.0, 30.0) == 0.0


def test_plywood_hardly_moves_and_alike_both_ways() -> None:
    ply = find_species("birch plywood 18 mm")
    oak = find_species("white oak")
    along = change_mm(ply, 300.0, 6.0, 12.0, Sawn.UNKNOWN, Across.LENGTH)
    assert along == change_mm(ply, 300.0, 6.0, 12.0, Sawn.UNKNOWN, Across.WIDTH)
    assert 0.0 < along < change_mm(oak, 300.0, 6.0, 12.0, Sawn.QUARTER, Across.WIDTH) / 5


def test_a_missing_coefficient_is_said() -> None:
    from dataclasses import replace

    bare = replace(find_species("ash"), coefficient_radial=None, coefficient_tangential=None)
    with pytest.raises(NoCoefficient, match="ash"):
        coefficient(bare, Sawn.FLAT, Across.WIDTH)
