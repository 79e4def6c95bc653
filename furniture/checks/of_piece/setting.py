"""Where a piece stands: the place's seasons, floor or table, friction, and a cable if there is one.

Nothing of this is in the piece itself; a maker states it beside the design.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from furniture.checks.tall import StandsOn
from furniture.errors import DesignError
from furniture.rules import USUAL_RULES, Rules, ShopRules, read_rules
from furniture.timber.climates import USUAL_CLIMATE, Climate, find_climate
from furniture.units import Given, Reader, parameters

USUAL_FRICTION = 0.4
"""Wood on a dry floor [-]: an assumption; tables of friction print 0.25 to 0.5 (from memory)."""


class HeldBy(Enum):
    """What keeps a standing piece from tipping besides its own weight."""

    ITSELF = "nothing: it stands free"
    WALL = "fixed to the wall at its top"


class CableOf(Enum):
    """Whose a cable is that leaves the piece."""

    CHARGER = "a charger's or another light one"
    LAMP = "a lamp's or another mains cable"


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the piece stands, and whether it is fixed to the wall there.

    `cable_at_mm` is the height above the floor at which a cable leaves the piece [mm]; None where
    it has none; `cable_of` says whose it is. `rules` are the maker's limits.
    """

    climate: Climate = field(default_factory=lambda: find_climate(USUAL_CLIMATE))
    stands_on: StandsOn = StandsOn.FLOOR
    friction: float = USUAL_FRICTION
    cable_at_mm: float | None = None
    cable_of: CableOf = CableOf.CHARGER
    held: HeldBy = HeldBy.ITSELF
    rules: Rules = USUAL_RULES


@parameters
class Place:
    """Where the piece will stand, as a maker states it.

    Args:
        climate: a name of the climate table such as `heated house`, or one of `climate_of`.
        stands_on: floor or table.
        friction: coefficient on what it stands on; it has no unit.
        cable_at: height of a cable's opening above the floor (default: the highest of the design's
            own openings for cables).
        cable_of: `CableOf.LAMP` where what hangs on it must not fall: a lamp falls hot.
        held: `HeldBy.WALL` where it is fixed to the wall at its top; the checks then tell how much
            that fixing must hold.
    """

    climate: str | Climate = USUAL_CLIMATE
    stands_on: StandsOn = StandsOn.FLOOR
    friction: float = USUAL_FRICTION
    cable_at: Given | None = None
    cable_of: CableOf = CableOf.CHARGER
    held: HeldBy = HeldBy.ITSELF


def read_setting(place: Place | str | None, rules: ShopRules | None = None) -> Setting:
    """The setting of a place; the usual one when there is none.

    Args:
        place: as the maker wrote it; the name of a climate alone will do
        rules: the shop's own limits; the usual ones when there are none

    Raises:
        DesignError: with every problem.
    """
    reader = Reader()
    given = Place(climate=place) if isinstance(place, str) else place or Place()
    if not isinstance(given, Place):
        reader.refuse(
            "place", repr(given), "a Place, or the name of a climate",
            "the seasons and the floor differ from place to place",
            f"write Place(climate={USUAL_CLIMATE!r})",
        )  # fmt: skip
        given = Place()
    reader.names("place.", given)
    climate = given.climate
    if not isinstance(climate, Climate):
        try:
            climate = find_climate(str(climate))
        except DesignError as error:
            for each in error.problems:
                reader.refuse("place.climate", each.given, each.allowed, each.why, each.remedy)
    surface = reader.choice("place.stands_on", given.stands_on, StandsOn, StandsOn.FLOOR)
    held = reader.choice("place.held", given.held, HeldBy, HeldBy.ITSELF)
    whose = reader.choice("place.cable_of", given.cable_of, CableOf, CableOf.CHARGER)
    if not _is_friction(given.friction):
        reader.refuse(
            "place.friction", repr(given.friction), "0.05 to 1.5",
            "a coefficient of friction has no unit", f"write {USUAL_FRICTION}",
        )  # fmt: skip
    cable = None
    if given.cable_at is not None:
        cable = reader.length(
            "place.cable_at",
            given.cable_at,
            at_least=1.0,
            at_most=3000.0,
            why="a pull at the floor tips nothing",
        )
    kept = read_rules(reader, rules)
    reader.raise_if_any()
    assert isinstance(climate, Climate), "an unknown climate was refused"
    return Setting(
        climate=climate, stands_on=surface, friction=float(given.friction), cable_at_mm=cable,
        cable_of=whose, held=held, rules=kept,
    )  # fmt: skip


def setting_record(setting: Setting) -> dict[str, object]:
    """The setting as plain data, for piece.json.

    Args:
        setting: where the piece stands
    """
    return {
        "climate": setting.climate.name,
        "seasons": [
            {
                "season": season.name,
                "temperature_c": season.temperature_c,
                "humidity_pct": season.humidity_pct,
                "moisture_pct": round(season.moisture_pct, 3),
                "source": season.source,
            }
            for season in setting.climate.seasons
        ],
        "stands_on": setting.stands_on.value,
        "friction": setting.friction,
        "cable_at_mm": setting.cable_at_mm,
        "cable_of": setting.cable_of.value,
        "held_by": setting.held.value,
    }


def _is_friction(value: object) -> bool:
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return is_number and 0.05 <= value <= 1.5  # type: ignore[operator]
