"""Movement across the grain."""

from __future__ import annotations

import pytest

from furniture.timber.movement import (
    Across,
    NoCoefficient,
    Sawn,
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


def test_plywood_hardly_moves_and_alike_both_ways() -> None:
    ply = find_species("birch plywood 18 mm")
    oak = find_species("white oak")
    along = change_mm(ply, 300.0, 6.0, 12.0, Sawn.UNKNOWN, Across.LENGTH)
    assert along == change_mm(ply, 300.0, 6.0, 12.0, Sawn.UNKNOWN, Across.WIDTH)
    assert 0.0 < along < change_mm(oak, 300.0, 6.0, 12.0, Sawn.QUARTER, Across.WIDTH) / 5


def test_a_missing_coefficient_is_said() -> None:
    from dataclasses import replace

    bare = replace(find_species("white ash"), coefficient_radial=None, coefficient_tangential=None)
    with pytest.raises(NoCoefficient, match="ash"):
        coefficient(bare, Sawn.FLAT, Across.WIDTH)


def test_the_smaller_coefficient_alone_is_no_answer_where_the_rings_are_not_known() -> None:
    from dataclasses import replace

    radial_only = replace(find_species("white ash"), coefficient_tangential=None)
    assert coefficient(radial_only, Sawn.QUARTER, Across.WIDTH) == 0.00169
    for sawn in (Sawn.UNKNOWN, Sawn.RIFT, Sawn.FLAT):
        with pytest.raises(NoCoefficient):
            coefficient(radial_only, sawn, Across.WIDTH)
