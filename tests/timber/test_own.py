"""Woods of a maker's own: what is given is taken, what is not stays unknown."""

from __future__ import annotations

import pytest

from furniture import DesignError, MitredBox, OwnSheet, OwnWood, Stock, quantity
from furniture.timber.movement import Across, NoCoefficient, Sawn, coefficient
from furniture.timber.species import find_species
from furniture.timber.stock import Timber, read_stock
from furniture.timber.wood import QUANTITIES, How, Kind
from furniture.units import Reader


def _read(species: object) -> tuple[Timber | None, Reader]:
    reader = Reader()
    stock = Stock(name="own", species=species, thickness="18 mm", moisture="12 %")
    return read_stock(reader, "rails", stock), reader


def _timber(species: object) -> Timber:
    timber, reader = _read(species)
    reader.raise_if_any()
    assert timber is not None
    return timber


def test_a_wood_is_as_heavy_at_12_per_cent_as_was_written() -> None:
    timber = _timber(OwnWood(name="mango", density="650 kg/m3"))
    assert timber.density_kg_m3 == pytest.approx(650.0)
    assert timber.species.kind is Kind.OWN


@pytest.mark.parametrize(
    ("density", "stiffness", "strength"),
    [
        ("650 kg/m³", "11 GPa", "90 MPa"),
        ("0.65 g/cm3", "11000 N/mm2", "90 N/mm²"),
        ("40.578 lb/ft3", "1595415 psi", "13053.4 psi"),
        (quantity(650, "kg/m**3"), quantity(11, "GPa"), quantity(90, "MPa")),
    ],
)
def test_units_are_read_alike(density: object, stiffness: object, strength: object) -> None:
    # 1 lb/ft3 = 16.018463 kg/m3 and 1 psi = 6894.757 Pa (NIST SP 811, from memory).
    own = OwnWood(name="x", density=density, stiffness=stiffness, bending_strength=strength)
    timber = _timber(own)
    assert timber.density_kg_m3 == pytest.approx(650.0, rel=1e-5)
    assert timber.species.moe_gpa == pytest.approx(11.0, rel=1e-5)
    assert timber.species.mor_mpa == pytest.approx(90.0, rel=1e-5)


def test_what_is_not_given_is_not_known() -> None:
    species = _timber(OwnWood(name="mango", density="650 kg/m3")).species
    known = [each for each in QUANTITIES if getattr(species, each) is not None]
    assert known == ["specific_gravity_12"]
    with pytest.raises(NoCoefficient, match="mango"):
        coefficient(species, Sawn.UNKNOWN, Across.WIDTH)


def test_a_wood_of_printed_shrinkage_moves_as_the_handbook_has_it() -> None:
    # Basswood: 6.6 and 9.3 % (Table 4-3) beside 0.00230 and 0.00330 (Table 13-5).
    own = OwnWood(
        name="x", density="414 kg/m3", radial_shrinkage="6.6 %", tangential_shrinkage="9.3 %"
    )
    species = _timber(own).species
    assert coefficient(species, Sawn.QUARTER, Across.WIDTH) == pytest.approx(0.00230, abs=5e-6)
    assert coefficient(species, Sawn.FLAT, Across.WIDTH) == pytest.approx(0.00330, abs=5e-6)
    cited = species.citation("coefficient_radial")
    assert cited is not None
    assert cited.how is How.DERIVED


def test_a_sheet_keeps_what_was_given_of_it() -> None:
    own = OwnSheet(
        name="poplar plywood 5 mm", density="480 kg/m3",
        stiffness="6 GPa", stiffness_across="3 GPa", bending_strength="40 MPa",
        movement="0.02 %", source="the yard's sheet",
    )  # fmt: skip
    species = _timber(own).species
    assert species.kind is Kind.SHEET
    assert species.stiffness_across_ratio == pytest.approx(0.5)
    assert coefficient(species, Sawn.UNKNOWN, Across.LENGTH) == pytest.approx(0.0002)
    assert species.source == "the yard's sheet"


@pytest.mark.parametrize(
    ("own", "parameter", "remedy"),
    [
        (OwnWood(name="x", density="650"), "density", "write '650 kg/m3' if you mean it"),
        (OwnWood(name="x"), "density", "weigh a piece"),
        (OwnWood(density="650 kg/m3"), "name", "name"),
        (OwnWood(name="x", density="6500 kg/m3"), "density", "unit"),
        (OwnWood(name="x", density="650 kg"), "density", "write it like '650 kg/m3'"),
        (OwnWood(name="x", density="650 kg/m3", stiffness="11 MPa"), "stiffness", "unit"),
        (OwnWood(name="x", density="650 kg/m3", radial_movement="3"), "radial_movement", "%"),
        (
            OwnWood(
                name="x", density="650 kg/m3", radial_shrinkage="8 %", tangential_shrinkage="4 %"
            ),
            "radial_shrinkage",
            "change the two over",
        ),
        (OwnWood(name="x", density="650 kg/m3", stifness="11 GPa"), "stifness", "write stiffness"),
    ],
)
def test_a_slip_is_told_with_its_remedy(own: object, parameter: str, remedy: str) -> None:
    timber, reader = _read(own)
    assert timber is None
    (problem,) = reader.problems
    assert problem.parameter == f"rails (own) species.{parameter}"
    assert remedy in problem.remedy


def test_two_woods_of_one_name_are_refused() -> None:
    reader = Reader()
    for index, density in enumerate(("650 kg/m3", "700 kg/m3")):
        own = OwnWood(name="mango", density=density)
        read_stock(reader, f"s{index}", Stock(name=f"s{index}", species=own, thickness="18 mm"))
    (problem,) = reader.problems
    assert "mango" in problem.given


def test_a_lid_whose_movement_is_not_known_needs_its_gap_written() -> None:
    """No gap is guessed; the remedies, taken at their word, do."""
    mango = OwnWood(name="mango", density="650 kg/m3")
    stock = {
        "rails": Stock(name="rails", species=mango, thickness="15 mm"),
        "lid": Stock(name="lid", species=mango, thickness="9 mm"),
    }
    given = {"name": "box", "width": "240 mm", "depth": "160 mm", "height": "80 mm"}
    with pytest.raises(DesignError) as caught:
        MitredBox(**given, **stock).build()
    assert [each.parameter for each in caught.value.problems] == ["lid_gap_across"]
    MitredBox(**given, **stock, lid_gap_across="2 mm").build()


def test_an_own_wood_with_a_species_figures_is_that_species() -> None:
    cherry = find_species("black cherry")
    own = OwnWood(
        name="mine", density="560 kg/m3", stiffness="10.3 GPa", bending_strength="85 MPa",
        shear_strength="11.7 MPa", crushing_strength="4.8 MPa", splitting_strength="3.9 MPa",
        radial_shrinkage="3.7 %", tangential_shrinkage="7.1 %",
    )  # fmt: skip
    species = _timber(own).species
    for each in QUANTITIES:
        value = getattr(species, each)
        if value is not None:
            assert value == pytest.approx(getattr(cherry, each), rel=5e-3), each
