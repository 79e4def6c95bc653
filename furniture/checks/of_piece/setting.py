"""Where a piece stands: the place's seasons, floor or table, friction, and a cable if there is one.

Nothing of this is in the piece itself; a maker states it beside the design.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from furniture.checks.tall import StandsOn
from furniture.errors import DesignError
from furniture.timber.climates import USUAL_CLIMATE, Climate, find_climate
from furniture.units import Given, Reader

USUAL_FRICTION = 0.4
"""Wood on a dry floor [-]: an assumption; tables of friction print 0.25 to 0.5 (from memory)."""
CABLE_PULL_N = 20.0
"""A pull on a cable [N]. Own rule: a foot caught in it draws with about two kilograms."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the piece stands.

    `cable_at_mm` is the height above the floor at which a cable leaves the piece [mm]; None where
    it has none.
    """

    climate: Climate = field(default_factory=lambda: find_climate(USUAL_CLIMATE))
    stands_on: StandsOn = StandsOn.FLOOR
    friction: float = USUAL_FRICTION
    cable_at_mm: float | None = None


def read_setting(
    place: str = USUAL_CLIMATE,
    stands_on: StandsOn = StandsOn.FLOOR,
    friction: float = USUAL_FRICTION,
    cable_at: Given | None = None,
) -> Setting:
    """The setting that a maker wrote beside the design.

    Args:
        place: a name of the climate table
        stands_on: floor or table
        friction: coefficient of friction on what it stands on [-], 0.05 to 1.5
        cable_at: height of a cable's opening above the floor, such as `60 mm` [length]

    Raises:
        DesignError: with every problem.

    **Source:** own rule: the range of friction is what floors and tables have.
    """
    reader = Reader()
    climate = None
    try:
        climate = find_climate(str(place))
    except DesignError as error:
        for each in error.problems:
            reader.refuse("place", each.given, each.allowed, each.why, each.remedy)
    surface = reader.choice("stands_on", stands_on, StandsOn, StandsOn.FLOOR)
    if not _is_friction(friction):
        reader.refuse(
            "friction", repr(friction), "0.05 to 1.5", "a coefficient of friction has no unit",
            f"write {USUAL_FRICTION}",
        )  # fmt: skip
    cable = None
    if cable_at is not None:
        cable = reader.length(
            "cable_at", cable_at, at_least=1.0, at_most=3000.0,
            why="a pull at the floor tips nothing",
        )  # fmt: skip
    reader.raise_if_any()
    assert climate is not None, "an unknown place was refused"
    return Setting(climate=climate, stands_on=surface, friction=float(friction), cable_at_mm=cable)


def _is_friction(value: float) -> bool:
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return is_number and 0.05 <= value <= 1.5
