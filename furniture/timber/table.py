"""The timber data as printed: species, their values, and the sources of both.

Each row of a `values_...csv` is one species in one source, with every value that was taken from it.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from furniture.timber.wood import QUANTITIES, Citation, How, Kind, Second, Species, species_of

VALUE_FILES = (
    "values_north_american.csv",
    "values_european.csv",
    "values_tropical.csv",
    "values_sheets.csv",
)


@cache
def all_species() -> dict[str, Species]:
    """Every species and sheet good by its own name, in the order of species.csv."""
    cited = _citations(_seconds())
    return {
        row["name"]: species_of(
            row["name"],
            Kind(row["kind"]),
            tuple(cited[row["name"]]),
            also_called=tuple(other for other in row["also_called"].split("; ") if other),
            botanical=row["botanical"],
        )
        for row in _rows("species.csv")
    }


def _citations(seconds: dict[tuple[str, str], list[Second]]) -> dict[str, list[Citation]]:
    """Every value of every species with its source."""
    sources = _sources()
    cited: dict[str, list[Citation]] = {}
    for file_name in VALUE_FILES:
        for row in _rows(file_name):
            printed_in, found = sources[row["source"]]
            name = row["species"]
            cited.setdefault(name, []).extend(
                Citation(
                    quantity=quantity,
                    value=float(row[quantity]),
                    unit=unit,
                    source=printed_in,
                    found=found,
                    how=How(row["how"]),
                    note=row["note"],
                    seconds=tuple(seconds.get((name, quantity), ())),
                )
                for quantity, unit in QUANTITIES.items()
                if row.get(quantity)
            )
    return cited


def _seconds() -> dict[tuple[str, str], list[Second]]:
    """What other sources have, by species and quantity."""
    sources = _sources()
    found: dict[tuple[str, str], list[Second]] = {}
    for row in _rows("second_values.csv"):
        found.setdefault((row["species"], row["quantity"]), []).append(
            Second(value=float(row["value"]), source=sources[row["source"]][0], how=How(row["how"]))
        )
    return found


def _sources() -> dict[str, tuple[str, str]]:
    """What a value is printed in and where that was read, by the key of sources.csv."""
    return {row["source"]: (row["printed_in"], row["read_at"]) for row in _rows("sources.csv")}


def _rows(file_name: str) -> list[dict[str, str]]:
    text = files("furniture.timber").joinpath(file_name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))
