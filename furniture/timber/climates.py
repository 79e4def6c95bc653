"""Places: the driest and the dampest season indoors, and the moisture that wood comes to there."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files

from furniture.errors import DesignError, Problem
from furniture.timber.moisture import equilibrium_moisture_pct
from furniture.units import Amounts

USUAL_CLIMATE = "heated house"


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """The air of one season indoors and the moisture [%] that wood comes to in it."""

    name: str
    temperature_c: float | None
    humidity_pct: float | None
    moisture_pct: float
    source: str
    how: str
    note: str

    def told(self, show: Amounts) -> str:
        """The season in words, such as `driest (21 °C and 30 % humidity: 6.2 % moisture)`.

        Args:
            show: puts the temperature into the piece's unit
        """
        if self.humidity_pct is None or self.temperature_c is None:
            return f"{self.name} ({self.moisture_pct:.1f} % moisture)"
        return (
            f"{self.name} ({show.temperature(self.temperature_c)} and {self.humidity_pct:g} % "
            f"humidity: {self.moisture_pct:.1f} % moisture)"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """A place with its driest and its dampest season indoors."""

    name: str
    driest: Season
    dampest: Season

    @property
    def seasons(self) -> tuple[Season, Season]:
        """Both seasons, the driest first."""
        return (self.driest, self.dampest)


class UnknownClimate(DesignError, KeyError):  # noqa: N818 - named as the maker meets it
    """A place that the data file does not hold."""

    __str__ = ValueError.__str__


def climate_names() -> tuple[str, ...]:
    """The names of all places in the data file, in its order."""
    return tuple(climate.name for climate in _all_climates().values())


def find_climate(name: str) -> Climate:
    """The place of that name, whatever its capitals.

    Args:
        name: a name as in climates.csv

    Raises:
        UnknownClimate: with the closest names, when there is none.
    """
    found = _all_climates().get(name.casefold())
    if found is None:
        near = get_close_matches(name.casefold(), list(_all_climates()), n=3, cutoff=0.4)
        raise UnknownClimate(
            [
                Problem(
                    parameter="climate",
                    given=repr(name),
                    allowed=", ".join(climate_names()),
                    why="seasonal movement is worked out between a place's driest and dampest air",
                    remedy=f"write {' or '.join(map(repr, near))}" if near else "take one of these",
                )
            ]
        )
    return found


def climate_of(
    name: str, driest: tuple[float, float], dampest: tuple[float, float], source: str = "measured"
) -> Climate:
    """A place of the maker's own, from two readings of a thermometer and hygrometer.

    Args:
        name: what to call it
        driest: temperature [deg C] and relative humidity [%] in the driest season
        dampest: temperature [deg C] and relative humidity [%] in the dampest season
        source: where the readings come from

    Raises:
        ValueError: outside the range of the moisture equation.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5 (p. 4-3).
    """
    seasons = [
        Season(
            name=season,
            temperature_c=temperature,
            humidity_pct=humidity,
            moisture_pct=equilibrium_moisture_pct(temperature, humidity),
            source=source,
            how=source,
            note="",
        )
        for season, (temperature, humidity) in (("driest", driest), ("dampest", dampest))
    ]
    return Climate(name=name, driest=seasons[0], dampest=seasons[1])


@cache
def _all_climates() -> dict[str, Climate]:
    text = files("furniture.timber").joinpath("climates.csv").read_text(encoding="utf-8")
    seasons: dict[str, dict[str, Season]] = {}
    for row in csv.DictReader(text.splitlines()):
        seasons.setdefault(row["name"], {})[row["season"]] = _season(row)
    return {
        name.casefold(): Climate(name=name, driest=pair["driest"], dampest=pair["dampest"])
        for name, pair in seasons.items()
    }


def _season(row: dict[str, str]) -> Season:
    temperature = float(row["temperature_c"]) if row["temperature_c"] else None
    humidity = float(row["humidity_pct"]) if row["humidity_pct"] else None
    if temperature is not None and humidity is not None:
        moisture = equilibrium_moisture_pct(temperature, humidity)
    else:
        moisture = float(row["moisture_pct"])
    return Season(
        name=row["season"],
        temperature_c=temperature,
        humidity_pct=humidity,
        moisture_pct=moisture,
        source=row["source"],
        how=row["how"],
        note=row["note"],
    )
