"""The gap that a loose part needs when it is made, so that it never jams."""

from __future__ import annotations

from furniture.timber.climates import Climate
from furniture.timber.movement import Across, Sawn, change_mm
from furniture.timber.species import Species


def gap_for_growth_mm(growths_mm: tuple[float, ...], least_play_mm: float) -> float:
    """The whole gap [mm] that leaves the least play when the part has grown most.

    Args:
        growths_mm: growth since it was made over that of its opening, season by season [mm]
        least_play_mm: play that stays in the tightest season [mm]

    **Source:** own rule.
    """
    return least_play_mm + max(0.0, *growths_mm)


def gap_in_still_opening_mm(
    species: Species,
    size_mm: float,
    made_at_pct: float,
    climate: Climate,
    sawn: Sawn = Sawn.UNKNOWN,
    across: Across = Across.WIDTH,
    *,
    least_play_mm: float,
) -> float:
    """The whole gap [mm] across a loose panel whose opening keeps its size.

    Args:
        species: a row of the timber data
        size_mm: the panel's width, or that of its sizes which is asked for [mm]
        made_at_pct: its moisture content when it is made [%]
        climate: the place
        sawn: how the rings lie
        across: which of its sizes; boards hardly move along their length, sheets do
        least_play_mm: play that stays in the tightest season [mm]

    Raises:
        NoCoefficient: where the data has no value.

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15); own rule for the play.
    """
    growths = tuple(
        change_mm(species, size_mm, made_at_pct, season.moisture_pct, sawn, across)
        for season in climate.seasons
    )
    return gap_for_growth_mm(growths, least_play_mm)
