"""Density, movement and strength of wood: our data and what is worked from it."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.density import density_kg_m3, shrinkage_from_green_pct, specific_gravity
from furniture.timber.movement import Across, Sawn, coefficient
from furniture.timber.species import find_species
from tests.published.case import Case, How, Says, Source, from_source, table
from tests.published.handbook import GTR_190, GTR_282

# Table 12.3.3A: ovendry mass over ovendry volume; groups of one species, or nearly.
_OVENDRY = {
    "white oak": 0.73, "red oak": 0.67, "soft maple": 0.58, "yellow-poplar": 0.43,
    "white pine": 0.36, "Douglas-fir": 0.50,
}  # fmt: skip

# Table 13-5, radial and tangential, typed here from the page and not from our data file. Rows for
# trade groups (the oaks) do not follow from one species' shrinkage.
_TABLE_13_5 = {
    "alder": (0.00151, 0.00256), "ash": (0.00169, 0.00274), "beech": (0.00190, 0.00431),
    "birch": (0.00256, 0.00338), "cherry": (0.00126, 0.00248), "hard maple": (0.00165, 0.00353),
    "walnut": (0.00190, 0.00274),
}  # fmt: skip

_QUANTITIES = (
    ("specific_gravity_12", 1.0), ("mor_mpa", 1e-3), ("moe_gpa", 1e-3),
    ("compression_perp_mpa", 1e-3), ("shear_mpa", 1e-3), ("side_hardness_n", 1.0),
)  # fmt: skip
# Table 5-3a, lines at 12 %: specific gravity, rupture [kPa], stiffness [MPa], compression across
# the grain [kPa], shear [kPa], side hardness [N].
_TABLE_5_3A: dict[str, tuple[float, ...]] = {
    "alder": (0.41, 68_000, 9_500, 3_000, 7_400, 2_600),
    "ash": (0.60, 103_000, 12_000, 8_000, 13_200, 5_900),
    "beech": (0.64, 103_000, 11_900, 7_000, 13_900, 5_800),
    "birch": (0.62, 114_000, 13_900, 6_700, 13_000, 5_600),
    "cherry": (0.50, 85_000, 10_300, 4_800, 11_700, 4_200),
    "hard maple": (0.63, 109_000, 12_600, 10_100, 16_100, 6_400),
    "soft maple": (0.54, 92_000, 11_300, 6_900, 12_800, 4_200),
    "red oak": (0.63, 99_000, 12_500, 7_000, 12_300, 5_700),
    "white oak": (0.68, 105_000, 12_300, 7_400, 13_800, 6_000),
    "walnut": (0.55, 101_000, 11_600, 7_000, 9_400, 4_500),
    "yellow-poplar": (0.42, 70_000, 10_900, 3_400, 8_200, 2_400),
}
_PSI, _LBF = 0.00689476, 4.44822


def _value(name: str, quantity: str) -> float:
    value = getattr(find_species(name), quantity)
    assert value is not None
    return float(value)


def _share(name: str, quantity: str, printed: float) -> float:
    """Our value as a share of what is printed."""
    return _value(name, quantity) / printed


def _moves(name: str, sawn: Sawn) -> float:
    return coefficient(find_species(name), sawn, Across.WIDTH)


def _from_shrinkage(name: str, quantity: str) -> float:
    """The coefficient that follows from our data's shrinkage: referred to the size at 10 %."""
    slope = _value(name, quantity) / _value(name, "fibre_saturation_pct")
    return slope / (100.0 - slope * (_value(name, "fibre_saturation_pct") - 10.0))


CASES = (
    *from_source(
        GTR_282,
        Case(
            id="density-ash",
            quantity="density of white ash (specific gravity 0.60) at 12 % moisture",
            place="Table 4-6a, Eq. 4-14 (p. 4-12)",
            how=How.REPRINT,
            expected=672.0,
            unit="kg/m3",
            tolerance=0.5,
            reason="printed to 1",
            compute=lambda: density_kg_m3(find_species("ash"), 12.0),
        ),
    ),
    *from_source(
        Source(
            title="American Wood Council, National Design Specification for Wood Construction "
            "(2018)",
            found="awc.org; the table read in a stored cross-check of that PDF, p. 87",
        ),
        table(
            id="ovendry-gravity",
            quantity="specific gravity on ovendry volume, worked from that at 12 %",
            place="Table 12.3.3A (p. 87)",
            how=How.REPRINT,
            unit="-",
            tolerance=0.015,
            reason="both printed to 0.01; the table's groups hold near relations too",
            cells=[
                (printed, partial(specific_gravity, find_species(name), 0.0))
                for name, printed in _OVENDRY.items()
            ],
        ),
    ),
    *from_source(
        Source(
            title="Green, Moisture Content and the Shrinkage of Lumber, FPL-RP-489 (1989)",
            found="scribd.com/document/393303591",
        ),
        table(
            id="shrinkage-to-15",
            quantity="shrinkage of lumber in width and thickness from green to 15 % moisture",
            place="highlights: 2.80 and 2.35 %, on lines that begin at 6.031 and 5.062 %",
            how=How.READ,
            unit="%",
            tolerance=0.01,
            reason="printed to 0.05, the lines' constants to 0.001",
            cells=[
                (printed, partial(shrinkage_from_green_pct, total, 15.0, 28.0))
                for total, printed in ((6.031, 2.80), (5.062, 2.35))
            ],
        ),
    ),
    *from_source(
        GTR_190,
        table(
            id="movement",
            says=Says.COPIED,
            quantity="movement of seven species in our data, radial and tangential",
            place="Table 13-5",
            how=How.READ,
            unit="1/% MC",
            tolerance=0.0,
            reason="the same figures, typed twice",
            cells=[
                (printed, partial(_moves, name, sawn))
                for name, row in _TABLE_13_5.items()
                for sawn, printed in zip((Sawn.QUARTER, Sawn.FLAT), row, strict=True)
            ],
        ),
        table(
            id="movement-from-shrinkage",
            says=Says.COPIED,
            quantity="the same movement, worked from the shrinkage in our data (Table 4-3)",
            place="Table 13-5",
            how=How.READ,
            unit="1/% MC",
            tolerance=0.00001,
            reason="printed to 0.00001, shrinkage to 0.1 %",
            cells=[
                (printed, partial(_from_shrinkage, name, f"shrink_{direction}_pct"))
                for name, row in _TABLE_13_5.items()
                for direction, printed in zip(("radial", "tangential"), row, strict=True)
            ],
        ),
    ),
    *from_source(
        Source(
            title="Dimensional change, a flooring trade's page after the Wood Handbook of 1987",
            found="flooringartists.com/dimensional-change",
        ),
        table(
            id="movement-flooring",
            says=Says.COPIED,
            quantity="tangential movement of teak, Douglas-fir and birch",
            place="table of coefficients",
            how=How.REPRINT,
            unit="1/% MC",
            tolerance=0.00001,
            reason="two such pages differ by 0.00001",
            cells=[
                (printed, partial(_moves, name, Sawn.FLAT))
                for name, printed in (
                    ("teak", 0.00186), ("Douglas-fir", 0.00267), ("birch", 0.00338)
                )
            ],
        ),
    ),
    *from_source(
        Source(
            title="Kretschmann, Mechanical Properties of Wood, Wood Handbook, FPL-GTR-190 (2010), "
            "chapter 5",
            found="precisebits.com/PDF/USFS_mechanical_properties_of_wood.pdf, read in a stored "
            "extract of its lines at 12 %",
        ),
        table(
            id="strength",
            says=Says.COPIED,
            quantity="gravity, rupture, stiffness, compression across, shear and hardness of "
            "eleven species in our data, as a share of what is printed",
            place="Table 5-3a",
            how=How.REPRINT,
            unit="-",
            tolerance=1e-9,
            reason="the same figures, typed twice",
            cells=[
                (1.0, partial(_share, name, quantity, printed * per))
                for name, row in _TABLE_5_3A.items()
                for (quantity, per), printed in zip(_QUANTITIES, row, strict=True)
            ],
        ),
    ),
    *from_source(
        Source(
            title="Wood Handbook, FPL-GTR-113 (1999), Table 4-5b, as quoted by the Structural "
            "Engineers Association International list, April 2004",
            found="seaintarchive.org, 2004d, msg00003",
        ),
        table(
            id="strength-mahogany",
            says=Says.COPIED,
            quantity="rupture, stiffness, shear and hardness of mahogany in our data, as a share",
            place="Table 4-5b, in psi and lbf",
            how=How.REPRINT,
            unit="-",
            tolerance=0.02,
            reason="half a step of the printed figures in both systems",
            cells=[
                (1.0, partial(_share, "true mahogany", quantity, printed * per))
                for quantity, printed, per in (
                    ("mor_mpa", 11_500, _PSI), ("moe_gpa", 1_500, _PSI),
                    ("shear_mpa", 1_230, _PSI), ("side_hardness_n", 800, _LBF),
                )
            ],
        ),
    ),
)  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
