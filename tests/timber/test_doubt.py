"""Where sources differ, whoever leans on the value is told."""

from __future__ import annotations

import pytest

from furniture.rules import USUAL_RULES
from furniture.timber.doubt import doubt_told, doubts_of, movement_doubt_told
from furniture.timber.species import find_species


def test_a_value_that_sources_differ_on_is_told() -> None:
    # CIRAD prints 12.8 GPa, The Wood Database 9.38: 27 % less.
    told = doubt_told(find_species("iroko"), USUAL_RULES, "moe_gpa")
    assert told == "; sources differ on the stiffness of iroko: another has 27 % less"
    assert doubt_told(find_species("iroko"), USUAL_RULES, "mor_mpa") == ""


def test_the_widest_difference_is_told() -> None:
    # Wenge's tangential movement: 0.00435 worked from CIRAD's sheet, 0.0038 and 0.00201 elsewhere.
    assert movement_doubt_told(find_species("wenge"), USUAL_RULES).endswith(
        "wenge: another has 54 % less"
    )


def test_shrinkage_is_no_doubt_on_a_movement_that_was_measured() -> None:
    # Pear's shrinkage is doubtful, its coefficients are a test's own.
    assert {each.quantity for each in doubts_of(find_species("pear"))} == {
        "shrink_radial_pct", "shrink_tangential_pct"
    }  # fmt: skip
    assert movement_doubt_told(find_species("pear"), USUAL_RULES) == ""
    assert "another has 30 % less" in movement_doubt_told(find_species("iroko"), USUAL_RULES)


@pytest.mark.parametrize("name", ["white oak", "black cherry", "European beech", "sapele"])
def test_where_sources_agree_nothing_is_told(name: str) -> None:
    species = find_species(name)
    assert doubts_of(species) == ()
    assert movement_doubt_told(species, USUAL_RULES) == ""
