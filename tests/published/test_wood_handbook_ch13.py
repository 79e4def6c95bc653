"""Movement: Wood Handbook, chapter 13, against the shrinkage of chapter 4."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from furniture.timber.movement import (
    Across,
    Sawn,
    change_by_coefficient_mm,
    change_by_shrinkage_mm,
    coefficient,
    coefficient_from_shrinkage,
)
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

SOURCE = "Wood Handbook, FPL-GTR-190 (2010), chapter 13"

# Table 13-5, radial and tangential, typed here from the page and not from our data file. Rows for
# trade groups (the oaks) and for mahogany and teak do not follow from one species' shrinkage.
_TABLE_13_5: dict[str, tuple[float, float, How]] = {
    "alder": (0.00151, 0.00256, How.READ),
    "ash": (0.00169, 0.00274, How.READ),
    "beech": (0.00190, 0.00431, How.READ),
    "birch": (0.00256, 0.00338, How.READ),
    "cherry": (0.00126, 0.00248, How.READ),
    "hard maple": (0.00165, 0.00353, How.READ),
    "walnut": (0.00190, 0.00274, How.READ),
    "yellow-poplar": (0.00158, 0.00289, How.MEMORY),
    "Douglas-fir": (0.00165, 0.00267, How.MEMORY),
    "white pine": (0.00071, 0.00212, How.MEMORY),
    "western redcedar": (0.00111, 0.00234, How.MEMORY),
}


def _from_shrinkage(name: str, direction: str) -> float:
    """What our data's shrinkage (chapter 4) gives, by the footnote's rule."""
    species = find_species(name)
    total = species.shrink_radial_pct if direction == "radial" else species.shrink_tangential_pct
    assert total is not None
    assert species.fibre_saturation_pct is not None
    return coefficient_from_shrinkage(total, species.fibre_saturation_pct)


def _compute(name: str, direction: str) -> Callable[[], float]:
    return lambda: _from_shrinkage(name, direction)


def _cases() -> list[Case]:
    return [
        Case(
            id=f"coefficient-{name}-{direction}",
            quantity=f"movement of {name}, {direction}, worked from its shrinkage",
            place="Table 13-5 and its footnote's rule",
            how=how,
            expected=printed,
            unit="1/% MC",
            tolerance=0.00001,
            reason="printed to 0.00001, shrinkage to 0.1 %",
            compute=_compute(name, direction),
        )
        for name, (radial, tangential, how) in _TABLE_13_5.items()
        for direction, printed in (("radial", radial), ("tangential", tangential))
    ]


CASES = from_source(
    SOURCE,
    *_cases(),
    Case(
        id="fir-coefficient",
        quantity="white fir, flat grain, 232 mm from 8 to 11 %, by coefficient",
        place="worked example of ch. 13",
        how=How.MEMORY,
        expected=1.71,
        unit="mm",
        tolerance=0.01,
        reason="printed to 0.01",
        compute=lambda: change_by_coefficient_mm(232.0, 0.00245, 3.0),
    ),
    Case(
        id="fir-shrinkage",
        quantity="white fir, flat grain, 232 mm from 8 to 11 %, by total shrinkage 7.1 %",
        place="worked example of ch. 13, Eq. 13-3",
        how=How.MEMORY,
        expected=1.74,
        unit="mm",
        tolerance=0.01,
        reason="printed to 0.01",
        compute=lambda: change_by_shrinkage_mm(232.0, 7.1, 8.0, 11.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)


@pytest.mark.parametrize("name", _TABLE_13_5)
def test_data_file_holds_the_printed_coefficients(name: str) -> None:
    species = find_species(name)
    radial, tangential, _ = _TABLE_13_5[name]
    assert coefficient(species, Sawn.QUARTER, Across.WIDTH) == radial
    assert coefficient(species, Sawn.FLAT, Across.WIDTH) == tangential
