"""Everyday things that stand on shelves, with an assumed mass and size each."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files

from furniture.checks.stability import Load, Surface
from furniture.errors import DesignError, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class EverydayLoad:
    """A thing with its mass, its footprint and the height of its centre over its foot."""

    name: str
    mass_kg: float
    footprint_mm: tuple[float, float]
    centre_height_mm: float
    source: str
    how: str

    def on(self, surface: Surface) -> Load:
        """The same thing as a load on a surface.

        Args:
            surface: where it stands
        """
        return Load(
            name=self.name,
            on=surface,
            mass_kg=self.mass_kg,
            footprint_mm=self.footprint_mm,
            centre_height_mm=self.centre_height_mm,
        )


class UnknownLoad(DesignError, KeyError):  # noqa: N818 - named as the maker meets it
    """A thing that the data file does not hold."""

    __str__ = ValueError.__str__


def load_names() -> tuple[str, ...]:
    """The names of all things in the data file, in its order."""
    return tuple(_all_loads())


def find_load(name: str) -> EverydayLoad:
    """The thing of that name.

    Args:
        name: a name as in loads.csv

    Raises:
        UnknownLoad: with the closest names, when there is none.
    """
    found = _all_loads().get(name)
    if found is None:
        near = get_close_matches(name, load_names(), n=3, cutoff=0.4)
        raise UnknownLoad(
            [
                Problem(
                    parameter="load",
                    given=repr(name),
                    allowed=", ".join(load_names()),
                    why="the checks need a mass, a footprint and the height of its centre",
                    remedy=(f"write {' or '.join(map(repr, near))}, or " if near else "")
                    + "weigh and measure it and state the three yourself",
                )
            ]
        )
    return found


@cache
def _all_loads() -> dict[str, EverydayLoad]:
    text = files("furniture.checks").joinpath("loads.csv").read_text(encoding="utf-8")
    return {
        row["name"]: EverydayLoad(
            name=row["name"],
            mass_kg=float(row["mass_kg"]),
            footprint_mm=(float(row["width_mm"]), float(row["depth_mm"])),
            centre_height_mm=float(row["centre_height_mm"]),
            source=row["source"],
            how=row["how"],
        )
        for row in csv.DictReader(text.splitlines())
    }
