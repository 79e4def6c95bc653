"""How each species is figured, beside its colour: rings, pores, rays, sapwood."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from exporters.colours import Colour, colour_of_species
from furniture.timber.species import Kind, Species

_PORES = ("ring", "semi", "diffuse", "soft")


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """The figure of a species; lengths in mm, shares 0 to 1.

    Args:
        colour: of its heartwood.
        sap: colour of its sapwood.
        porosity: index of `ring`, `semi`, `diffuse` or `soft`.
        ring_mm: usual width of a ring.
        contrast: how much darker the dark of a ring is.
        pore_share: how many pores; 0 shows none.
        pore_mm: how wide they are.
        rays: how much of the wood shows rays; 0 none.
        ray_mm: how thick they are.
        wander_mm: how far the pith strays.
        figure_mm: how far rings stray from circles.
        fibre: how streaky it is.
        is_sheet: made of layers across each other, such as plywood.
    """

    colour: Colour
    sap: Colour
    porosity: int
    ring_mm: float
    contrast: float
    pore_share: float
    pore_mm: float
    rays: float
    ray_mm: float
    wander_mm: float
    figure_mm: float
    fibre: float
    is_sheet: bool = False


def look_of(species: Species) -> Look:
    """How a species is figured; one without a row of its own, as its kind usually is.

    Args:
        species: of a stock.
    """
    colour = colour_of_species(species.name)
    row = _table().get(species.name)
    if row is None and species.kind is Kind.SHEET:
        is_plain = not species.has_layers
        plain = {"contrast": 0.0, "fibre": 0.02} if is_plain else {"contrast": 0.16, "fibre": 0.04}
        return Look(
            colour=colour, sap=colour, porosity=_PORES.index("diffuse"), ring_mm=9.0,
            pore_share=0.0, pore_mm=0.1, rays=0.0, ray_mm=0.1, wander_mm=2.0, figure_mm=9.0,
            is_sheet=not is_plain, **plain,
        )  # fmt: skip
    if row is None:
        kind = "soft" if species.kind is Kind.SOFTWOOD else "diffuse"
        row = _USUAL[kind]
        sap = (
            min(1.0, colour[0] + 0.5 * (1.0 - colour[0])),
            min(1.0, colour[1] + 0.5 * (1.0 - colour[1])),
            min(1.0, colour[2] + 0.4 * (1.0 - colour[2])),
        )
    else:
        sap = (float(row["sap_red"]), float(row["sap_green"]), float(row["sap_blue"]))
    return Look(
        colour=colour,
        sap=sap,
        porosity=_PORES.index(row["pores"]),
        ring_mm=float(row["ring_mm"]),
        contrast=float(row["contrast"]),
        pore_share=float(row["pore_share"]),
        pore_mm=float(row["pore_mm"]),
        rays=float(row["rays"]),
        ray_mm=float(row["ray_mm"]),
        wander_mm=float(row["wander_mm"]),
        figure_mm=float(row["figure_mm"]),
        fibre=float(row["fibre"]),
    )


_USUAL: dict[str, dict[str, str]] = {
    "soft": {
        "pores": "soft", "ring_mm": "2.8", "contrast": "0.48", "pore_share": "0", "pore_mm": "0.1",
        "rays": "0", "ray_mm": "0.1", "wander_mm": "4", "figure_mm": "3", "fibre": "0.05",
    },
    "diffuse": {
        "pores": "diffuse", "ring_mm": "3", "contrast": "0.32", "pore_share": "0.25",
        "pore_mm": "0.15", "rays": "0", "ray_mm": "0.1", "wander_mm": "4", "figure_mm": "3.4",
        "fibre": "0.06",
    },
}  # fmt: skip
"""Of woods without a row of their own. Own choice by eye."""


@cache
def _table() -> dict[str, dict[str, str]]:
    text = files("exporters.grain").joinpath("looks.csv").read_text(encoding="utf-8")
    return {row["species"]: row for row in csv.DictReader(text.splitlines())}
