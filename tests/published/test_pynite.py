"""A shelf that lies dry in two sides against a general frame program, PyNite."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.structure.plate import stiffness_of
from tests.published import frames
from tests.published.case import Case, How, Source, from_source
from tests.structure.bench import oak, sag_of_books, shelf_on_two_sides

G = 9.80665


def _theirs(span: float, load_kg: float) -> float:
    wood = stiffness_of(oak().species)
    assert wood is not None, "white oak has a printed stiffness"
    # Hinges stand at the middles of the bearings.
    return frames.sag_mm(span + 6.0, 200.0, 19.0, 300.0, 209.5, load_kg * G, wood.along)


def _case(span: float, load_kg: float) -> Case:
    piece = shelf_on_two_sides(span=span, load_kg=load_kg)
    return Case(
        id=f"pynite-dry-{span:g}",
        quantity=f"sag of a shelf dry in two sides, {span:g} mm under {load_kg:g} kg",
        place="five members, hinges at the shelf's ends",
        how=How.LIBRARY,
        expected=partial(_theirs, span, load_kg),
        unit="mm",
        tolerance=0.04 * _theirs(span, load_kg),
        reason="the same beam; its bearings are 6 mm long",
        compute=partial(sag_of_books, piece),
    )


CASES = from_source(
    Source(title="PyNite 3 (frame finite elements)", found="PyPI, PyNiteFEA"),
    _case(600.0, 15.0),
    _case(900.0, 25.0),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
