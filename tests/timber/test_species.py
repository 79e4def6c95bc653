"""Species: every value has its source, names are found as written, figures hang together."""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from furniture.errors import KnifewallError
from furniture.timber.density import density_kg_m3
from furniture.timber.movement import coefficient_from_shrinkage
from furniture.timber.species import (
    QUANTITIES,
    How,
    Kind,
    UnknownSpecies,
    find_species,
    species_names,
)
from furniture.timber.table import VALUE_FILES

SOLID = [name for name in species_names() if find_species(name).kind is not Kind.SHEET]


@pytest.mark.parametrize("name", species_names())
def test_every_value_has_one_source(name: str) -> None:
    species = find_species(name)
    cited = [citation.quantity for citation in species.citations]
    present = [quantity for quantity in QUANTITIES if getattr(species, quantity) is not None]
    assert sorted(cited) == sorted(present)
    for citation in species.citations:
        assert citation.source
        assert citation.found or citation.how is not How.READ or "Handbook" in citation.source
        assert not citation.seconds or citation.quantity in QUANTITIES


def test_every_row_of_the_data_is_of_a_species_and_a_source() -> None:
    folder = files("furniture.timber")

    def rows(name: str) -> list[dict[str, str]]:
        return list(csv.DictReader(folder.joinpath(name).read_text(encoding="utf-8").splitlines()))

    sources = [row["source"] for row in rows("sources.csv")]
    assert len(sources) == len(set(sources))
    printed = [row for name in VALUE_FILES for row in rows(name)]
    assert {row["species"] for row in printed} == set(species_names())
    assert {row["source"] for row in [*printed, *rows("second_values.csv")]} == set(sources)
    for row in printed:
        assert set(row) - {"species", "source", "how", "note"} <= set(QUANTITIES)
    for row in rows("second_values.csv"):
        first = find_species(row["species"]).citation(row["quantity"])
        assert first is not None, row
        assert len([each for each in first.seconds if each.value == float(row["value"])]) == 1


def test_makers_on_four_continents_find_their_woods() -> None:
    assert len(SOLID) >= 60
    for name in ("basswood", "European beech", "sapele", "jatoba", "rubberwood", "jarrah"):
        assert density_kg_m3(find_species(name), 12.0) > 0.0


@pytest.mark.parametrize("name", SOLID)
def test_wood_is_as_heavy_and_stiff_as_woods_are(name: str) -> None:
    # Balsa to lignum vitae; stiffness over specific gravity of clear wood is 12 to 33 GPa.
    species = find_species(name)
    assert species.specific_gravity_12 is not None
    assert species.moe_gpa is not None
    assert 0.2 < species.specific_gravity_12 < 1.05
    assert 12.0 < species.moe_gpa / species.specific_gravity_12 < 33.0


@pytest.mark.parametrize("name", SOLID)
def test_wood_shrinks_more_along_the_rings_than_across_them(name: str) -> None:
    # Wood Handbook ch. 4: tangential shrinkage is above radial; both together make up the volume's.
    species = find_species(name)
    assert species.coefficient_radial is not None
    assert species.coefficient_tangential is not None
    assert species.coefficient_tangential > species.coefficient_radial
    radial, tangential = species.shrink_radial_pct, species.shrink_tangential_pct
    if radial is None or tangential is None:
        assert name in ("messmate", "alpine ash")  # hold collapse that steaming takes back
        return
    assert tangential > radial
    if species.shrink_volumetric_pct is not None:
        product = 1 - (1 - tangential / 100) * (1 - radial / 100)
        off = 3.3 if name in ("rock elm", "black ash", "sapele") else 2.0  # as printed
        assert species.shrink_volumetric_pct == pytest.approx(100 * product, abs=off)


@pytest.mark.parametrize("name", SOLID)
def test_worked_coefficients_follow_from_the_shrinkage(name: str) -> None:
    species = find_species(name)
    for way in ("radial", "tangential"):
        cited = species.citation(f"coefficient_{way}")
        shrinkage = getattr(species, f"shrink_{way}_pct")
        assert cited is not None
        if cited.how is How.DERIVED and "worked from the shrinkage" in cited.source:
            saturation = species.fibre_saturation_pct or 30.0
            assert coefficient_from_shrinkage(shrinkage, saturation) == pytest.approx(
                cited.value, abs=0.000011
            )


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
        ("walnut", "black walnut"),
        ("yellow poplar", "yellow-poplar"),
        ("sugar maple", "hard maple"),
        ("DOUGLAS FIR", "Douglas-fir"),
        ("lime", "European lime"),
        ("limewood", "European lime"),
        ("pearwood", "pear"),
        ("linden", "European lime"),
        ("American linden", "basswood"),
        ("alder", "red alder"),
        ("beech", "American beech"),
        ("cherry", "black cherry"),
        ("sapelli", "sapele"),
        ("khaya", "African mahogany"),
        ("robinia", "black locust"),
        ("chene", "European oak"),
        ("Nußbaum", "European walnut"),
        ("hêtre", "European beech"),
        ("makoré", "makore"),
        ("teak wood", "teak"),
        ("edge-glued beech panel", "American beech"),
        ("glued panel of sapele", "sapele"),
        ("birch plywood 6 mm", "birch plywood 6.5 mm"),
        ("6 mm birch plywood", "birch plywood 6.5 mm"),
        ("Baltic birch ply, 18mm", "birch plywood 18 mm"),
        ('1/4" birch plywood', "birch plywood 6.5 mm"),
        ("MDF 6 mm", "MDF 6 mm"),
        ("6mm mdf", "MDF 6 mm"),
        ("hardboard 3 mm", "hardboard"),
        ("particle board 18 mm", "chipboard 18 mm"),
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


@pytest.mark.parametrize(
    ("written", "candidates"),
    [
        ("oak", ("white oak", "red oak", "European oak")),
        ("pine", ("white pine", "Scots pine", "loblolly pine")),
        ("mahogany", ("true mahogany", "African mahogany", "sapele")),
        ("sycamore", ("American sycamore", "sycamore maple")),
        ("redwood", ("coast redwood", "Scots pine")),
        ("maple panel", ("hard maple", "soft maple", "sycamore maple")),
        ("birch plywood", ("birch plywood 4 mm", "birch plywood 18 mm")),
    ],
)
def test_a_name_of_several_woods_is_told_with_all_of_them(
    written: str, candidates: tuple[str, ...]
) -> None:
    with pytest.raises(UnknownSpecies) as caught:
        find_species(written)
    (problem,) = caught.value.problems
    for each in candidates:
        assert f"'{each}'" in problem.remedy
        assert find_species(each).name == each


@pytest.mark.parametrize(
    ("written", "near"),
    [("birch plywood 5 mm", "'birch plywood 4 mm' or 'birch plywood 6.5 mm'"),
     ("7/32 in birch ply", "'birch plywood 4 mm' or 'birch plywood 6.5 mm'"),
     ("MDF 22 mm", "'MDF 15 mm' or 'MDF 18 mm'")],
)  # fmt: skip
def test_a_sheet_of_another_thickness_is_told_those_nearest_to_it(written: str, near: str) -> None:
    """By how thick they are, not by how they are spelt: 5 mm is not like 15 mm."""
    with pytest.raises(UnknownSpecies) as told:
        find_species(written)
    (problem,) = told.value.problems
    assert problem.remedy.startswith(f"write {near}, or ")


def test_a_wood_that_is_not_there_is_no_other_wood() -> None:
    with pytest.raises(UnknownSpecies) as caught:
        find_species("mango")
    (problem,) = caught.value.problems
    assert problem.remedy.startswith("write species=OwnWood(name='mango', density=")
    with pytest.raises(UnknownSpecies, match="OwnSheet"):
        find_species("poplar plywood 5 mm")


@pytest.mark.parametrize("name", species_names())
def test_every_name_of_a_species_finds_it_or_tells_of_it(name: str) -> None:
    species = find_species(name)
    assert species.name == name
    for other in species.also_called:
        assert name in _told_of(other)


def _told_of(written: str) -> str:
    """The wood that a name finds, or the woods that it is told to be the name of."""
    try:
        return find_species(written).name
    except UnknownSpecies as error:
        return error.problems[0].remedy


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
