"""How much wood swells and shrinks across the grain as its moisture changes."""

from __future__ import annotations

from enum import Enum

from furniture.timber.species import Kind, Species

COEFFICIENT_FROM_PCT = 6.0
COEFFICIENT_TO_PCT = 14.0
_REFERRED_TO_PCT = 10.0


class Sawn(Enum):
    """How the growth rings lie in the board's end."""

    FLAT = "flat sawn"
    QUARTER = "quarter sawn"
    RIFT = "rift sawn"
    UNKNOWN = "unknown"


class Across(Enum):
    """Which size of a board is meant: all but its length move."""

    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"


class NoCoefficient(ValueError):  # noqa: N818 - says what is missing
    """A species without the coefficient that a question needs."""


def coefficient(species: Species, sawn: Sawn, across: Across) -> float:
    """The change of size per per cent of moisture, as a share of the size [1/% MC].

    A flat sawn board's width is tangential and its thickness radial; a quarter sawn board's the
    other way; a rift sawn board's rings lie at about 45 degrees and it moves by the mean of the two
    both ways; where it is unknown the tangential is taken, the larger in every wood. Length is
    taken as still, and so is a sheet's thickness, for which nothing is printed.

    Args:
        species: a row of the timber data
        sawn: how the rings lie
        across: width or thickness

    Raises:
        NoCoefficient: where the data has no value.

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 13-5; length: 0.1 to 0.2 % from green to
    ovendry (American Wood Council answers), here nothing; rift sawn: own rule, the turn of a
    strain, R cos2 + T sin2 at 45 degrees.
    """
    if across is Across.LENGTH and species.kind is not Kind.SHEET:
        return 0.0
    if species.kind is Kind.SHEET:
        value = 0.0 if across is Across.THICKNESS else species.in_plane_coefficient
    else:
        radial, tangential = species.coefficient_radial, species.coefficient_tangential
        if sawn is Sawn.UNKNOWN:
            value = tangential
        elif sawn is Sawn.RIFT:
            both = [each for each in (radial, tangential) if each is not None]
            value = sum(both) / 2.0 if len(both) == 2 else None
        else:
            is_tangential = (sawn is Sawn.FLAT) == (across is Across.WIDTH)
            value = tangential if is_tangential else radial
    if value is None:
        raise NoCoefficient(f"{species.name} has no movement coefficient for its {across.value}")
    return value


def is_movement_known(species: Species, sawn: Sawn) -> bool:
    """Whether the data say how a board or a sheet moves across its width.

    Args:
        species: a row of the timber data
        sawn: how the rings lie
    """
    try:
        coefficient(species, sawn, Across.WIDTH)
    except NoCoefficient:
        return False
    return True


def coefficient_from_shrinkage(shrinkage_pct: float, fibre_saturation_pct: float = 30.0) -> float:
    """The change of size per per cent of moisture [1/% MC], worked from the whole shrinkage.

    Referred to the size at 10 % moisture, in the middle of what a room gives.

    Args:
        shrinkage_pct: from green to ovendry, radial or tangential [%]
        fibre_saturation_pct: moisture content below which the wood shrinks [% MC]

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 13-5, footnote (from memory); it gives the
    table's own coefficients from Table 4-3 to the last figure printed.
    """
    slope = shrinkage_pct / fibre_saturation_pct
    return slope / (100.0 - slope * (fibre_saturation_pct - _REFERRED_TO_PCT))


def change_mm(
    species: Species, size_mm: float, from_pct: float, to_pct: float, sawn: Sawn, across: Across
) -> float:
    """How much a size grows [mm] between two moisture contents; negative where it shrinks.

    Args:
        species: a row of the timber data
        size_mm: the size at the first moisture content [mm]
        from_pct: moisture content at which the size was measured [%]
        to_pct: moisture content asked for [%]; good within 6 to 14 %, an estimate beyond
        sawn: how the rings lie
        across: width or thickness

    Raises:
        NoCoefficient: where the data has no value.

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15).
    """
    return change_by_coefficient_mm(size_mm, coefficient(species, sawn, across), to_pct - from_pct)


def change_by_coefficient_mm(size_mm: float, coefficient_per_pct: float, points: float) -> float:
    """How much a size grows [mm] over so many points of moisture.

    Args:
        size_mm: the size before [mm]
        coefficient_per_pct: change per per cent of moisture [1/% MC]
        points: rise of the moisture content [% MC], within 6 to 14 %

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2 (p. 13-15).
    """
    return size_mm * coefficient_per_pct * points
