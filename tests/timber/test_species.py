"""Species: every value has its source, names are found as written, figures hang together."""

from __future__ import annotations

import pytest

from furniture.errors import KnifewallError
from furniture.timber.species import (
    QUANTITIES,
    How,
    Kind,
    UnknownSpecies,
    find_species,
    species_names,
)

SOLID = [name for name in species_names() if find_species(name).kind is not Kind.SHEET]


@pytest.mark.parametrize("name", species_names())
def test_every_value_has_one_source(name: str) -> None:
    species = find_species(name)
    cited = [citation.quantity for citation in species.citations]
    present = [quantity for quantity in QUANTITIES if getattr(species, quantity) is not None]
    assert sorted(cited) == sorted(present)
    for citation in species.citations:
        assert citation.source
        assert isinstance(citation.how, How)


@pytest.mark.parametrize("name", SOLID)
def test_wood_shrinks_more_along_the_rings_than_across_them(name: str) -> None:
    # Wood Handbook ch. 4: tangential shrinkage is above radial; both together make up the volume's.
    species = find_species(name)
    assert species.shrink_tangential_pct is not None
    assert species.shrink_radial_pct is not None
    assert species.shrink_volumetric_pct is not None
    assert species.shrink_tangential_pct > species.shrink_radial_pct
    product = 1 - (1 - species.shrink_tangential_pct / 100) * (1 - species.shrink_radial_pct / 100)
    assert species.shrink_volumetric_pct == pytest.approx(100 * product, abs=1.6)


@pytest.mark.parametrize("name", SOLID)
def test_wood_is_stronger_along_the_grain(name: str) -> None:
    species = find_species(name)
    assert species.mor_mpa is not None
    if species.strength_across_mpa is not None:
        assert species.strength_across_mpa < species.mor_mpa / 10
    if species.stiffness_across_ratio is not None:
        assert 0.03 < species.stiffness_across_ratio < 0.2


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("White  Oak", "white oak"),
        ("black walnut", "walnut"),
        ("yellow poplar", "yellow-poplar"),
        ("sugar maple", "hard maple"),
        ("DOUGLAS FIR", "Douglas-fir"),
    ],
)
def test_names_are_found_as_written(written: str, meant: str) -> None:
    assert find_species(written).name == meant


def test_unknown_species_names_the_nearest() -> None:
    with pytest.raises(UnknownSpecies) as caught:
        find_species("white oka")
    (problem,) = caught.value.problems
    assert problem.given == "'white oka'"
    assert "'white oak'" in problem.remedy
    assert "cherry" in problem.allowed


def test_unknown_species_is_a_lookup_error_of_the_family() -> None:
    with pytest.raises(KeyError):
        find_species("unobtainium")
    with pytest.raises(KnifewallError):
        find_species("unobtainium")
    with pytest.raises(ValueError, match="unobtainium"):
        find_species("unobtainium")


def test_what_the_handbook_does_not_print_is_none() -> None:
    teak = find_species("teak")
    assert teak.compression_perp_mpa is None
    assert "compression_perp_mpa" not in {each.quantity for each in teak.citations}


def test_memory_is_admitted() -> None:
    pine = {each.quantity: each.how for each in find_species("white pine").citations}
    oak = {each.quantity: each.how for each in find_species("white oak").citations}
    assert pine["shrink_radial_pct"] is How.MEMORY
    assert oak["mor_mpa"] is How.READ
