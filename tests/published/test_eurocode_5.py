"""EN 1995-1-1 (Eurocode 5): creep of solid timber."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.shelf import Creep
from tests.published.case import Case, How, from_source


def _factor(creep: Creep) -> float:
    return creep.value


CASES = from_source(
    "EN 1995-1-1 (Eurocode 5) Table 3.2, deformation factors, as told by a design help page",
    *(
        Case(
            id=f"ec5-{service_class}",
            quantity=f"sag in the long run over sag at first, service class {service_class}",
            place="Table 3.2 and 2.2.3: 1 + k_def, solid timber",
            how=How.READ,
            expected=1.0 + k_def,
            unit="-",
            tolerance=1e-12,
            reason="a stated factor",
            compute=partial(_factor, creep),
        )
        for service_class, k_def, creep in ((1, 0.60, Creep.DRY_ROOM), (2, 0.80, Creep.DAMP_ROOM))
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
