"""Everyday loads."""

from __future__ import annotations

import pytest

from furniture.checks.loads import UnknownLoad, find_load, load_names
from tests.checks.cases import TOP


@pytest.mark.parametrize("name", load_names())
def test_everyday_things_are_no_denser_than_they_can_be(name: str) -> None:
    # Twice the centre height taken as the height: between cork and a little over stone.
    thing = find_load(name)
    width, depth = thing.footprint_mm
    density = thing.mass_kg / (width * depth * 2 * thing.centre_height_mm * 1e-9)
    assert 50.0 < density < 3000.0
    assert thing.source
    assert thing.how in ("read", "memory", "assumed")


def test_a_thing_stands_on_a_tier() -> None:
    load = find_load("herb pot 12 cm").on(TOP)
    assert load.on is TOP
    assert load.mass_kg == find_load("herb pot 12 cm").mass_kg


def test_an_unknown_thing_names_the_nearest() -> None:
    with pytest.raises(UnknownLoad, match="herb pot"):
        find_load("herb pott")
