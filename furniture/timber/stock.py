"""Stock as the maker has it: species, measured thickness, moisture and price."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from furniture.timber.density import DEFAULT_MOISTURE_PCT, density_kg_m3
from furniture.timber.movement import Sawn
from furniture.timber.own import OwnSheet, OwnWood, read_own
from furniture.timber.species import Species, UnknownSpecies, find_species
from furniture.units import Given, Reader, fitted_with_unit, parameters, said

THINNEST_MM, THICKEST_MM = 3.0, 80.0
"""Thickness that this kind of work is made of [mm]. Common practice, no source."""
_BELOW_0 = re.compile(r"\s*[-−]\s*[\d.]")


@parameters
class Stock:
    """One stock of wood, measured at the bench.

    Args:
        name: what you call it, such as `oak, thick`.
        species: a name of the species table, or an `OwnWood` or `OwnSheet` with its figures.
        thickness: measured, never nominal.
        moisture: measured moisture content such as `9 %` (default: a printed figure is assumed).
        price: free text for the parts table, such as `62 per board`.
        sawn: how the rings lie in the end, `Sawn.FLAT`, `Sawn.QUARTER` or `Sawn.RIFT`; where it is
            not known, the checks assume the cut that moves more, and say so.
    """

    name: str = ""
    species: str | OwnWood | OwnSheet = ""
    thickness: Given | None = None
    moisture: str | None = None
    price: str | None = None
    sawn: Sawn = Sawn.UNKNOWN

    @property
    def called(self) -> str:
        """What messages call it besides the parameter that holds it, if that can be read."""
        is_named = isinstance(self.name, str) and self.name.isprintable()
        return self.name if is_named else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """Stock with its figures read: what a part is made of."""

    name: str
    species: Species
    thickness_mm: float
    moisture_pct: float
    moisture_is_assumed: bool
    price: str | None = None
    sawn: Sawn = Sawn.UNKNOWN

    @property
    def density_kg_m3(self) -> float:
        """Density at its moisture content [kg/m3]."""
        return density_kg_m3(self.species, self.moisture_pct)


def read_stock(reader: Reader, parameter: str, stock: object, instead: str = "") -> Timber | None:
    """The stock with its figures read, or nothing with its problems noted.

    Args:
        reader: keeps the problems.
        parameter: the parameter that holds the stock.
        stock: a `Stock`.
        instead: what else may be written where none is given.
    """
    if not isinstance(stock, Stock):
        given = "nothing" if stock is None else said(stock)
        reader.refuse(
            parameter,
            given,
            "a Stock",
            "a part is cut from stock that was measured",
            ", or ".join(filter(None, (f"write {reader.example('Stock')}", instead))),
        )
        return None
    where = f"{parameter} ({stock.called}) " if stock.called else f"{parameter} "
    reader.names(where, stock)
    name = stock.name if reader.is_name(f"{where}name", stock.name) else ""
    price = _price(reader, f"{where}price", stock.price)
    species = _species(reader, f"{where}species", stock.species)
    thickness = _measured(reader, f"{where}thickness", stock.thickness)
    moisture = DEFAULT_MOISTURE_PCT
    if stock.moisture is not None:
        moisture = reader.percent(
            f"{where}moisture", stock.moisture, 2.0, 28.0, "wood for joinery is seasoned"
        )
    sawn = reader.choice(f"{where}sawn", stock.sawn, Sawn, Sawn.UNKNOWN)
    if species is None or math.isnan(thickness) or math.isnan(moisture):
        return None
    timber = Timber(
        name=name or f"{species.name} {stock.thickness}",
        species=species,
        thickness_mm=thickness,
        moisture_pct=moisture,
        moisture_is_assumed=stock.moisture is None,
        price=price,
        sawn=sawn,
    )
    if name:
        _refuse_namesake(reader, parameter, timber)
    return timber


_QUARTERS = re.compile(r"\s*\d{1,2}/4\s*")


def _measured(reader: Reader, parameter: str, given: Given | None) -> float:
    """The thickness [mm], or not-a-number; what yards call a rough board by is told apart."""
    if isinstance(given, str) and _QUARTERS.fullmatch(given):
        example = "'13/16 in'" if reader.shown.is_inch else "'20.6 mm'"
        reader.refuse(
            parameter, said(given), "a thickness that was measured",
            "quarters are what yards call rough boards by",
            f"measure the board and write that, such as {example}",
        )  # fmt: skip
        return math.nan
    return reader.length(
        parameter, given, at_least=THINNEST_MM, at_most=THICKEST_MM,
        why="stock is measured, never nominal; this is its range for such pieces (common practice)",
    )  # fmt: skip


def _species(reader: Reader, parameter: str, given: object) -> Species | None:
    """The species by its name or as the maker's own, or nothing with its problems noted."""
    if isinstance(given, (OwnWood, OwnSheet)):
        species = read_own(reader, f"{parameter}.", given)
        if species is not None:
            _refuse_other_of_that_name(reader, parameter, species)
        return species
    try:
        return find_species(given if isinstance(given, str) else "")
    except UnknownSpecies as error:
        for each in error.problems:
            shown = each.given if isinstance(given, str) and given else said(given or None)
            reader.refuse(parameter, shown, each.allowed, each.why, each.remedy)
        return None


def _refuse_other_of_that_name(reader: Reader, parameter: str, species: Species) -> None:
    """Note a wood of the maker's own that is called like another one of this design."""
    other = reader.earlier(f"wood {species.name}", species, parameter)
    if other is not None:
        reader.refuse(
            f"{parameter}.name", repr(species.name), "one name for one wood",
            f"{other[0]} is called so too and has other figures", "write it once, and use it twice",
        )  # fmt: skip


def _price(reader: Reader, parameter: str, given: object) -> str | None:
    """A price for the parts table: text, or a plain amount; a negative one is noted."""
    if given is None:
        return None
    is_amount = isinstance(given, (int, float)) and not isinstance(given, bool)
    text = said(given) if is_amount else reader.text(parameter, given)
    if _BELOW_0.match(text):
        plain = text.strip().lstrip("-−").strip()
        why = "wood is not given away with money on top"
        reader.refuse(parameter, said(given), "an amount of 0 or more", why, f"write '{plain}'")
        return None
    return text


def _refuse_namesake(reader: Reader, parameter: str, timber: Timber) -> None:
    """Note a stock that is called like another one of this design and is not the same."""
    other = reader.earlier(f"stock {timber.name}", timber, parameter)
    if other is None or not isinstance(other[1], Timber):
        return
    own, first = (_told(reader, each) for each in (timber, other[1]))
    apart = next((one for one, two in zip(own, first, strict=True) if one != two), "the other one")
    reader.refuse(
        f"{parameter} ({timber.name}) name", f"{timber.name!r} for {' '.join(own)}",
        "one name for one stock",
        f"{other[0]} is called {timber.name!r} too and is {' '.join(first)}; "
        "boards, tables and the cutting plan tell stocks apart by name",
        f"call it '{timber.name}, {apart}'",
    )  # fmt: skip


def _told(reader: Reader, timber: Timber) -> tuple[str, str, str]:
    """What a stock is: species, thickness and moisture as text."""
    thickness = fitted_with_unit(timber.thickness_mm, reader.shown)
    return timber.species.name, thickness, f"at {timber.moisture_pct:g} %"
