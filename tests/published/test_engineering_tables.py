"""A general engineering site's table of the densities of seasoned wood."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.density import density_kg_m3
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

_PRINTED = {"white oak": 770.0, "red oak": 740.0, "Douglas-fir": 530.0, "western redcedar": 380.0}


def _density(name: str) -> float:
    return density_kg_m3(find_species(name), 12.0)


CASES = from_source(
    "Engineering web tables: densities of seasoned and dry wood",
    *(
        Case(
            id=f"seasoned-{name}",
            quantity=f"density of seasoned {name}, ours at 12 % moisture",
            place="list of wood densities",
            how=How.READ,
            expected=printed,
            unit="kg/m3",
            tolerance=0.1 * printed,
            reason="10 %: the handbook's own word on the scatter within a species",
            compute=partial(_density, name),
        )
        for name, printed in _PRINTED.items()
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
