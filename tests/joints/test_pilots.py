"""The hole bored for a screw, worked by hand from the share of its shank and the drills sold."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.joints.pilots import pilot_for
from furniture.rules import Rules
from furniture.timber.species import find_species
from furniture.units import inches, millimetres
from tests.exporters.sheet_samples import OAK


@pytest.mark.parametrize(
    ("species", "screw_mm", "bore_mm"),
    [
        ("white oak", 4.0, 2.5),  # 0.63 x 4.0 = 2.52
        ("white oak", 5.0, 3.0),  # 3.15
        ("eastern white pine", 4.0, 2.0),  # 0.5 x 4.0
        ("eastern white pine", 1.5, 1.0),  # 0.75, and no thinner drill
    ],
)
def test_hard_wood_is_bored_wider(species: str, screw_mm: float, bore_mm: float) -> None:
    timber = replace(OAK, species=find_species(species))
    assert pilot_for(screw_mm, timber, Rules(), millimetres()) == pytest.approx(bore_mm)


def test_an_inch_shop_drills_by_sixty_fourths() -> None:
    """A number 8 screw, 0.164 in: 0.63 of it is 6.6 sixty-fourths."""
    bore = pilot_for(0.164 * 25.4, OAK, Rules(), inches(64))
    assert bore == pytest.approx(7 / 64 * 25.4)
