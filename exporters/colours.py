"""The colour that a timber is shown in, in solids and pictures."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from furniture.timber.stock import Timber

Colour = tuple[float, float, float]
"""Red, green and blue, each 0 to 1 (sRGB)."""

_OTHER: Colour = (0.82, 0.72, 0.56)
_THIN_MM, _LIGHTER = 14.0, 0.12


def colour_of(timber: Timber) -> Colour:
    """The colour of a timber's species; thin stock a little lighter, so that parts tell apart."""
    red, green, blue = colour_of_species(timber.species.name)
    share = _LIGHTER if timber.thickness_mm < _THIN_MM else 0.0
    return (
        red + (1.0 - red) * share,
        green + (1.0 - green) * share,
        blue + (1.0 - blue) * share,
    )


def colour_of_species(name: str) -> Colour:
    """The colour that a species is shown in."""
    return _table().get(name, _OTHER)


@cache
def _table() -> dict[str, Colour]:
    text = files("exporters").joinpath("wood_colours.csv").read_text(encoding="utf-8")
    return {
        row["species"]: (float(row["red"]), float(row["green"]), float(row["blue"]))
        for row in csv.DictReader(text.splitlines())
    }
