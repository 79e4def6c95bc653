"""Boards with their figures read, problems kept with the reader."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.staying import THINNER
from furniture.shop.boards.csv_file import sources_in_file
from furniture.shop.boards.given import BoardZone
from furniture.shop.boards.prices import Purse
from furniture.shop.boards.sources import BoardSource, sources_in_script
from furniture.shop.cutting import values as cutting
from furniture.timber.own import OwnSheet, OwnWood
from furniture.timber.species import UnknownSpecies, find_species
from furniture.timber.stock import Stock, Timber
from furniture.units import Reader, counted, figure_with_unit, said

LEAST_ZONE_MM = 0.1
"""The smallest fault that is measured [mm]. Own rule."""
LONGEST_MM, WIDEST_MM, THICKEST_MM = 6000.0, 1000.0, 120.0
"""What a board measures at most [mm]: beyond it the unit is mistaken. Own rule."""


_CORNERS = "('0 mm', '40 mm'), ('120 mm', '55 mm'), ('0 mm', '70 mm')"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRead:
    """A board with its figures read [mm], what it is kept for, and where it was written.

    Args:
        board: for the planner, its species a plain species name still.
        stock: the name of the piece's stock that it is kept for; none for any of its species.
        where: what messages call it, by what the planner calls it.
        thinner_mm: than its stock, which still counts as none.
    """

    board: cutting.Board
    stock: str | None
    where: dict[str, str]
    thinner_mm: float = USUAL_RULES[THINNER]


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """All boards that could be read, and whether that was all of them."""

    measured: tuple[BoardRead, ...]
    is_whole: bool


def read_boards(
    reader: Reader, boards: object, timbers: Sequence[Timber] | None, purse: Purse
) -> Boards:
    """The boards that could be read; problems are noted with the reader.

    Args:
        boards: several `MeasuredBoard`, or the path of a CSV file.
        timbers: the piece's stocks; a board names one of them or a species; none when they
            are not known, and any stock is taken.
    """
    before = len(reader.problems)
    if isinstance(boards, (str, Path)):
        sources = sources_in_file(reader, Path(boards))
    else:
        sources = sources_in_script(reader, boards)
    found = [read_board(reader, source, timbers, purse) for source in sources]
    return Boards(
        measured=tuple(each for each in found if each is not None),
        is_whole=len(reader.problems) == before,
    )


def by_rules(boards: Boards, rules: Rules) -> Boards:
    """The boards as a shop of these rules judges them."""
    thinner = rules[THINNER]
    return replace(
        boards, measured=tuple(replace(each, thinner_mm=thinner) for each in boards.measured)
    )


def read_board(
    reader: Reader, source: BoardSource, timbers: Sequence[Timber] | None, purse: Purse
) -> BoardRead | None:
    """One board, or nothing where it could not be read; problems are noted with the reader.

    Args:
        source: the board, and what messages call its figures.
        timbers: the piece's stocks; none when they are not known, and any stock is taken.
    """
    board, where = source.board, source.where
    before = reader.noted
    reader.names(f"{where} ", board)
    is_name = board.name is None or reader.is_name(source.place_of("name"), board.name)
    name = board.name if isinstance(board.name, str) else ""
    if is_name and not name.strip():
        reader.refuse(
            source.place_of("name"), said(board.name), "text", "the plan calls a board by its name",
            "chalk a letter on the board and write it here",
        )  # fmt: skip
    stock, species = None, ""
    if timbers is not None:
        stock, species = _stock(reader, source.place_of("stock"), board.stock, timbers)
    length = _measured(
        reader, source.place_of("length"), board.length, LONGEST_MM, "a board's length", 1200.0
    )
    thickness = _measured(
        reader, source.place_of("thickness"), board.thickness, THICKEST_MM,
        "a board's thickness, measured at its thinnest", _usual_thickness(stock, timbers),
    )  # fmt: skip
    price = purse.price(source.place_of("price"), board.price)
    stations = _stations(reader, source, length)
    zones = _zones(reader, source, purse)
    if reader.noted > before or math.isnan(length):
        return None
    called = {f"board {name!r}": where}
    for station, at in zip(stations, source.widths_where, strict=False):
        told = figure_with_unit(station.at_mm, reader.shown)
        called[f"board {name!r} width at {told}"] = f"{at} x"
    for zone, at in zip(zones, source.zones_where, strict=True):
        called[f"board {name!r} zone {zone.name!r}"] = f"{at} ({zone.name} on board {name!r})"
    return BoardRead(
        board=cutting.Board(
            name=name,
            length_mm=length,
            stations=stations,
            thickness_mm=thickness,
            species=species,
            price=price,
            zones=zones,
            description=reader.text(
                source.place_of("description"), board.description, longest=None
            ),
            sawn_ends=frozenset(
                reader.choice(
                    source.place_of("sawn_ends"), end, cutting.BoardEnd, cutting.BoardEnd.START
                )
                for end in board.sawn_ends
            ),
        ),
        stock=stock,
        where=called,
    )


def _measured(
    reader: Reader, parameter: str, given: object, at_most: float, why: str, example: float
) -> float:
    """A length [mm] that stands in a table; an empty cell is answered with a likely figure."""
    if isinstance(given, str) and not given.strip():
        reader.refuse(
            parameter, "nothing", "a length with its unit", f"it must be given: {why}",
            f"measure it and write it, such as '{figure_with_unit(example, reader.shown)}'",
        )  # fmt: skip
        return math.nan
    return reader.length(parameter, given, at_least=1.0, at_most=at_most, why=why)


def _usual_thickness(stock: str | None, timbers: Sequence[Timber] | None) -> float:
    """The thickness that a board of the stock would have [mm]."""
    for timber in timbers or ():
        if stock in (None, timber.name):
            return timber.thickness_mm
    return 20.0


def _stock(
    reader: Reader, parameter: str, given: object, timbers: Sequence[Timber]
) -> tuple[str | None, str]:
    """The stock's name, if it names one of the piece's, and the species."""
    name = given.name if isinstance(given, Stock) else given
    for timber in timbers:
        if timber.name == name:
            return timber.name, timber.species.name
    species = given.species if isinstance(given, Stock) else given
    if isinstance(species, (OwnWood, OwnSheet)):
        species = species.name
    if isinstance(species, str) and species in {timber.species.name for timber in timbers}:
        return None, species
    try:
        return None, find_species(str(species or "")).name
    except UnknownSpecies:
        listed = ", ".join(said(timber.name) for timber in timbers)
        reader.refuse(
            parameter, "nothing" if given in (None, "") else said(name),
            f"{listed or 'a stock of the piece'}, or a species",
            "parts come off boards of their own stock",
            f"write {timbers[0].name!r}" if timbers else "name a species",
        )  # fmt: skip
        return None, ""


def _stations(reader: Reader, source: BoardSource, length: float) -> tuple[cutting.Station, ...]:
    given, where = source.board.widths, source.place_of("widths")
    if not isinstance(given, (list, tuple)):
        width = _measured(reader, where, given, WIDEST_MM, "a board's width", 150.0)
        end = 1.0 if math.isnan(length) else length
        return (
            cutting.Station(at_mm=0.0, width_mm=width),
            cutting.Station(at_mm=end, width_mm=width),
        )
    stations = []
    for number, (pair, at) in enumerate(zip(given, source.widths_where, strict=True)):
        if not isinstance(pair, (list, tuple)) or len(pair) != 2:
            share = number / max(1, len(given) - 1)
            there = figure_with_unit(
                share * (900.0 if math.isnan(length) else length), reader.shown
            )
            wide = said(pair) if isinstance(pair, str) else "'176 mm'"
            reader.refuse(
                at, said(pair), "a distance and a width", "a board tapers from place to place",
                f"write ('{there}', {wide})",
            )  # fmt: skip
            continue
        stations.append(
            cutting.Station(
                at_mm=reader.length(
                    f"{at} distance", pair[0], at_most=LONGEST_MM, why="on the board"
                ),
                width_mm=reader.length(
                    f"{at} width", pair[1], at_least=1.0, at_most=WIDEST_MM, why="a board's width"
                ),
            )
        )
    if not given:
        reader.refuse(
            where, "none", "one width or several with their places",
            "without a width nothing can be laid on it", "measure one width",
        )  # fmt: skip
    return tuple(stations)


def _zones(reader: Reader, source: BoardSource, purse: Purse) -> tuple[cutting.Zone, ...]:
    given = source.board.zones
    listed = given if isinstance(given, (list, tuple)) else (given,)
    found: list[cutting.Zone] = []
    counts: Counter[str] = Counter()
    for zone, where in zip(listed, source.zones_where, strict=True):
        if not isinstance(zone, BoardZone):
            reader.refuse(
                where, said(zone), "a BoardZone", "it says where the wood is different",
                f"write {reader.example('BoardZone')}",
            )  # fmt: skip
            continue
        reader.names(f"{where} ", zone)
        kind = reader.choice(f"{where} kind", zone.kind, cutting.ZoneKind, cutting.ZoneKind.KNOT)
        counts[kind.value] += 1
        found.append(
            cutting.Zone(
                name=reader.text(f"{where} name", zone.name)
                or f"{kind.value} {counts[kind.value]}",
                kind=kind,
                outline=_outline(reader, where, zone),
                shows=reader.choice(
                    f"{where} shows", zone.shows, cutting.ZoneShows, cutting.ZoneShows.BOTH
                ),
                description=reader.text(f"{where} description", zone.description, longest=None),
                worth=purse.price(f"{where} worth", zone.worth),
            )
        )
    return tuple(found)


def _outline(reader: Reader, where: str, zone: BoardZone) -> tuple[tuple[float, float], ...]:
    sides = (zone.x, zone.y, zone.length, zone.width)
    if not isinstance(zone.corners, (list, tuple)) or zone.corners:
        if any(side is not None for side in sides):
            reader.refuse(
                where, "corners and a rectangle", "one of the two",
                "it cannot be told which is meant", "leave one of them out",
            )  # fmt: skip
        corners = []
        given = reader.several(f"{where} corners", zone.corners, tuple, _CORNERS)
        for index, corner in enumerate(given):
            if not isinstance(corner, (list, tuple)) or len(corner) != 2:
                reader.refuse(
                    f"{where} {counted('corner', index)}", said(corner), "x and y",
                    "a corner has two figures", "write ('120 mm', '40 mm')",
                )  # fmt: skip
                continue
            x, y = (
                reader.length(f"{where} {counted('corner', index)}", figure) for figure in corner
            )
            corners.append((x, y))
        return tuple(corners)
    x, y = (reader.length(f"{where} {name}", getattr(zone, name)) for name in ("x", "y"))
    length, width = (
        reader.length(
            f"{where} {name}", getattr(zone, name), at_least=LEAST_ZONE_MM, at_most=most,
            why="a zone has a size, from its near end and its near edge on",
        )
        for name, most in (("length", LONGEST_MM), ("width", WIDEST_MM))
    )  # fmt: skip
    return ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
