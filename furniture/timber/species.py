"""Species and sheet goods: handbook values, each with where it was printed and how it was read."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from difflib import get_close_matches
from enum import Enum
from functools import cache
from importlib.resources import files

from furniture.errors import DesignError, Problem


class Kind(Enum):
    """What sort of stock a species row describes."""

    HARDWOOD = "hardwood"
    SOFTWOOD = "softwood"
    SHEET = "sheet"


class How(Enum):
    """How a value came into the data file."""

    READ = "read"
    MEMORY = "memory"
    DERIVED = "derived"


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """Where one value of one species is printed, and how it was read."""

    quantity: str
    unit: str
    source: str
    how: How
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One species or sheet good; a value its handbook does not print is None.

    Strengths and stiffness are means of clear wood at 12 % moisture content, shrinkage is from
    green to ovendry in per cent, and the coefficients are change of size per cent of moisture.
    Strength across the grain is tension perpendicular to it, and the stiffness ratio is tangential
    over along. A sheet has no shrinkage as solid wood has: it has one coefficient in its plane,
    its strengths are characteristic values and its ratio is that of bending across the face grain.
    """

    name: str
    also_called: tuple[str, ...]
    botanical: str
    kind: Kind
    specific_gravity_12: float | None
    density_as_used_kg_m3: float | None
    moe_gpa: float | None
    mor_mpa: float | None
    shear_mpa: float | None
    compression_perp_mpa: float | None
    strength_across_mpa: float | None
    stiffness_across_ratio: float | None
    side_hardness_n: float | None
    shrink_radial_pct: float | None
    shrink_tangential_pct: float | None
    shrink_volumetric_pct: float | None
    coefficient_radial: float | None
    coefficient_tangential: float | None
    in_plane_coefficient: float | None
    fibre_saturation_pct: float | None
    citations: tuple[Citation, ...]

    @property
    def source(self) -> str:
        """The distinct sources of this row, in the order of the data file."""
        return "; ".join(dict.fromkeys(citation.source for citation in self.citations))

    @property
    def how(self) -> str:
        """`read`, `memory` or `derived`, or several where the values differ."""
        return ", ".join(dict.fromkeys(citation.how.value for citation in self.citations))


class UnknownSpecies(DesignError, KeyError):  # noqa: N818 - named as the maker meets it
    """A species that the data file does not hold."""

    __str__ = ValueError.__str__


QUANTITIES: tuple[str, ...] = (
    "specific_gravity_12",
    "density_as_used_kg_m3",
    "moe_gpa",
    "mor_mpa",
    "shear_mpa",
    "compression_perp_mpa",
    "strength_across_mpa",
    "stiffness_across_ratio",
    "side_hardness_n",
    "shrink_radial_pct",
    "shrink_tangential_pct",
    "shrink_volumetric_pct",
    "coefficient_radial",
    "coefficient_tangential",
    "in_plane_coefficient",
    "fibre_saturation_pct",
)


def species_names() -> tuple[str, ...]:
    """The names of all species and sheet goods in the data file, in its order."""
    return tuple(_all_species())


def find_species(name: str) -> Species:
    """The species of that name or trade name, whatever its capitals and spaces.

    Args:
        name: a name as in species.csv, or one of its other names.

    Raises:
        UnknownSpecies: with the closest names, when there is none.
    """
    found = _by_any_name().get(_key(name))
    if found is None:
        raise UnknownSpecies([_unknown(name)])
    return found


def _key(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())


def _unknown(name: str) -> Problem:
    names = sorted(_by_any_name())
    close = get_close_matches(_key(name), names, n=3, cutoff=0.5)
    near = list(dict.fromkeys(_by_any_name()[key].name for key in close))
    remedy = f"write {' or '.join(repr(each) for each in near)}" if near else "take one of these"
    return Problem(
        parameter="species",
        given=repr(name),
        allowed=", ".join(species_names()),
        why="density, strength and movement come from the species' handbook values",
        remedy=remedy + ", or add the species to the timber data with its sources",
    )


@cache
def _by_any_name() -> dict[str, Species]:
    return {
        _key(name): species
        for species in _all_species().values()
        for name in (species.name, *species.also_called)
    }


@cache
def _all_species() -> dict[str, Species]:
    values: dict[str, dict[str, float]] = {}
    citations: dict[str, list[Citation]] = {}
    for row in _rows("species_values.csv"):
        name = row["species"]
        values.setdefault(name, {})[row["quantity"]] = float(row["value"])
        citations.setdefault(name, []).append(
            Citation(
                quantity=row["quantity"],
                unit=row["unit"],
                source=row["source"],
                how=How(row["how"]),
                note=row["note"],
            )
        )
    return {
        row["name"]: Species(
            name=row["name"],
            also_called=tuple(other for other in row["also_called"].split("; ") if other),
            botanical=row["botanical"],
            kind=Kind(row["kind"]),
            citations=tuple(citations[row["name"]]),
            **{quantity: values[row["name"]].get(quantity) for quantity in QUANTITIES},
        )
        for row in _rows("species.csv")
    }


def _rows(file_name: str) -> list[dict[str, str]]:
    text = files("furniture.timber").joinpath(file_name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
