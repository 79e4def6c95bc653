"""Density of wood at its moisture content."""

from __future__ import annotations

from furniture.timber.species import Species

WATER_KG_M3 = 1000.0
DEFAULT_MOISTURE_PCT = 8.0
"""Moisture taken when a stock gives none [%]: an assumption, the middle of heated indoor air."""

_HANDBOOK_MOISTURE_PCT = 12.0
_USUAL_FIBRE_SATURATION_PCT = 30.0


def density_kg_m3(species: Species, moisture_pct: float = DEFAULT_MOISTURE_PCT) -> float:
    """The density [kg/m3] of the species at a moisture content.

    The ovendry mass stays, the water is added and the volume follows the shrinkage. A sheet
    good keeps its printed volume: only its water changes, from the 12 % at which it is printed.

    Args:
        species: a row of the timber data
        moisture_pct: water over ovendry mass [%]; valid 0 to 100, no swelling past fibre saturation

    Raises:
        ValueError: a moisture content outside 0 to 100 or a row without a density.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, 4-10 and 4-14 (p. 4-10 to 4-12);
    sheets: own rule, since no shrinkage is printed for them.
    """
    _require_moisture(moisture_pct)
    wet = 1.0 + moisture_pct / 100.0
    if species.density_as_used_kg_m3 is not None:
        return species.density_as_used_kg_m3 * wet / (1.0 + _HANDBOOK_MOISTURE_PCT / 100.0)
    return WATER_KG_M3 * specific_gravity(species, moisture_pct) * wet


def specific_gravity(species: Species, moisture_pct: float) -> float:
    """The ovendry mass over the volume at that moisture, relative to water [-].

    Args:
        species: a row with a specific gravity at 12 %
        moisture_pct: moisture content [%], 0 to 100

    Raises:
        ValueError: a moisture content outside 0 to 100 or a row without a value.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 and 4-10 (p. 4-10).
    """
    _require_moisture(moisture_pct)
    at_12 = species.specific_gravity_12
    if at_12 is None:
        raise ValueError(f"{species.name} has no specific gravity at 12 % moisture")
    fibre_saturation = species.fibre_saturation_pct or _USUAL_FIBRE_SATURATION_PCT
    total = volumetric_shrinkage_pct(species)
    before = shrinkage_from_green_pct(total, _HANDBOOK_MOISTURE_PCT, fibre_saturation)
    after = shrinkage_from_green_pct(total, moisture_pct, fibre_saturation)
    return at_12 * (100.0 - before) / (100.0 - after)


def volumetric_shrinkage_pct(species: Species) -> float:
    """The volumetric shrinkage from green to ovendry [%]; estimated where none is printed.

    Args:
        species: a row with a shrinkage or a specific gravity

    Raises:
        ValueError: a row with neither.

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Table 4-3; else geometry, from the shrinkage both
    ways across the grain; else Eq. 4-12 and 4-13 (p. 4-11).
    """
    if species.shrink_volumetric_pct is not None:
        return species.shrink_volumetric_pct
    radial, tangential = species.shrink_radial_pct, species.shrink_tangential_pct
    if radial is not None and tangential is not None:
        return 100.0 - (100.0 - radial) * (100.0 - tangential) / 100.0
    at_12 = species.specific_gravity_12
    if at_12 is None:
        raise ValueError(f"{species.name} has neither shrinkage nor specific gravity")
    # Eq. 4-13 at 12 %, solved for the basic specific gravity.
    share = 0.265 * (1.0 - _HANDBOOK_MOISTURE_PCT / _USUAL_FIBRE_SATURATION_PCT)
    basic = at_12 / (1.0 + share * at_12)
    return 26.5 * basic


def shrinkage_from_green_pct(
    total_pct: float, moisture_pct: float, fibre_saturation_pct: float
) -> float:
    """The shrinkage from green to a moisture content [%]; none above fibre saturation.

    Args:
        total_pct: shrinkage from green to ovendry [%]
        moisture_pct: moisture content [%]
        fibre_saturation_pct: moisture content below which wood shrinks [%]

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9 (p. 4-10).
    """
    below = max(0.0, 1.0 - moisture_pct / fibre_saturation_pct)
    return total_pct * below


def _require_moisture(moisture_pct: float) -> None:
    if not 0.0 <= moisture_pct <= 100.0:
        raise ValueError(f"a moisture content is 0 to 100 %, given {moisture_pct}")
