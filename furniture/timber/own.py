"""Woods and sheets of a maker's own: those that the table lacks, with the figures that are known.

What is left out stays unknown, and the checks that need it say that they were not made.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from furniture.timber.movement import coefficient_from_shrinkage
from furniture.timber.wood import QUANTITIES, Citation, How, Kind, Species, species_of
from furniture.units import REQUIRED, Given, Reader, ReadingError, parameters, said
from furniture.units.reading import read_density, read_percent, read_stiffness, read_stress

_FIBRE_SATURATION_PCT = 30.0
_AIR_DRY = 1.12
"""The mass of wood at 12 % moisture over its ovendry mass [-]."""


@parameters
class OwnWood:
    """A solid wood that the table lacks, for `Stock(species=OwnWood(...))`.

    Only name and density are asked for. A check that needs a figure which is left out says that it
    was not made.

    Args:
        name: what it is called on sheets and in tables, such as `mango`.
        density: air dry, at about 12 % moisture, such as `650 kg/m3` or `41 lb/ft3`.
        stiffness: modulus of elasticity in bending along the grain, such as `11.5 GPa`.
        bending_strength: modulus of rupture along the grain, a mean, such as `90 MPa`.
        shear_strength: along the grain, such as `11 MPa`.
        crushing_strength: compression across the grain at the proportional limit, such as `7 MPa`.
        splitting_strength: tension across the grain, such as `5 MPa`.
        radial_shrinkage: from green to ovendry, across the rings, such as `4.1 %`.
        tangential_shrinkage: from green to ovendry, along the rings, such as `8.2 %`.
        radial_movement: change of size per 1 % of moisture, such as `0.15 %` (default: worked from
            the shrinkage).
        tangential_movement: the same along the rings.
        source: where the figures come from, such as `the yard's data sheet`.
    """

    name: str = REQUIRED
    density: Given = REQUIRED
    stiffness: Given | None = None
    bending_strength: Given | None = None
    shear_strength: Given | None = None
    crushing_strength: Given | None = None
    splitting_strength: Given | None = None
    radial_shrinkage: str | None = None
    tangential_shrinkage: str | None = None
    radial_movement: str | None = None
    tangential_movement: str | None = None
    source: str | None = None


@parameters
class OwnSheet:
    """A sheet good that the table lacks, for `Stock(species=OwnSheet(...))`.

    Args:
        name: what it is called on sheets and in tables, such as `poplar plywood 5 mm`.
        density: as it is sold, such as `480 kg/m3`.
        stiffness: in bending along the face grain, such as `6 GPa`.
        stiffness_across: in bending across the face grain; for a board without grain the same.
        bending_strength: along the face grain, the characteristic or least value.
        bending_strength_across: across the face grain.
        shear_strength: of its layers, such as `1 MPa`.
        movement: change of size in its plane per 1 % of moisture, such as `0.02 %`.
        source: where the figures come from.
    """

    name: str = REQUIRED
    density: Given = REQUIRED
    stiffness: Given | None = None
    stiffness_across: Given | None = None
    bending_strength: Given | None = None
    bending_strength_across: Given | None = None
    shear_strength: Given | None = None
    movement: str | None = None
    source: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Range:
    """What a figure of wood may be, to catch a slip of the unit. Own rules, beyond any wood."""

    read: Callable[[object], float]
    least: float
    most: float
    told: str
    per: float = 1.0


_DENSITY = _Range(read=read_density, least=80.0, most=1450.0, told="80 to 1450 kg/m3")
_STIFFNESS = _Range(
    read=read_stiffness, least=200.0, most=35_000.0, told="0.2 to 35 GPa", per=1000.0
)
_STRENGTH = _Range(read=read_stress, least=1.0, most=320.0, told="1 to 320 MPa")
_SMALL = _Range(read=read_stress, least=0.2, most=60.0, told="0.2 to 60 MPa")
_SHRINKAGE = _Range(read=read_percent, least=0.2, most=25.0, told="0.2 % to 25 %")
_MOVEMENT = _Range(
    read=read_percent, least=0.001, most=0.8, told="0.001 % to 0.8 % of its size", per=100.0
)


def read_own(reader: Reader, where: str, given: OwnWood | OwnSheet) -> Species | None:
    """The wood or sheet as the table would hold it, or nothing with its problems noted.

    Args:
        reader: keeps the problems.
        where: names the parameter that holds it, with a space or a dot behind.
        given: as the maker wrote it.
    """
    before = reader.noted
    reader.names(where, given)
    name = given.name if reader.is_name(f"{where}name", given.name) else ""
    if reader.noted == before and not name.strip():
        reader.refuse(
            f"{where}name", "nothing", "a name", "sheets and tables call the wood by it",
            "write name='mango', or what it is called",
        )  # fmt: skip
    source = reader.text(f"{where}source", given.source) or "given by the maker"
    figures = _Figures(reader, where, source)
    if isinstance(given, OwnSheet):
        kind, cited = Kind.SHEET, _of_sheet(figures, given)
    else:
        kind, cited = Kind.OWN, _of_wood(figures, given)
    if reader.noted > before:
        return None
    return species_of(name, kind, tuple(cited))


@dataclass(frozen=True, slots=True)
class _Figures:
    """Reads figures of one wood and cites them."""

    reader: Reader
    where: str
    source: str

    def read(self, name: str, given: object, may_be: _Range) -> float:
        """The figure in the table's unit, or not-a-number: not given, or noted."""
        if given is None:
            return math.nan
        parameter = f"{self.where}{name}"
        try:
            value = may_be.read(given)
        except ReadingError as error:
            self.reader.refuse(parameter, said(given), error.allowed, error.why, error.remedy)
            return math.nan
        if not may_be.least <= value <= may_be.most:
            self.reader.refuse(
                parameter, said(given), may_be.told, "no wood is beyond that (own rule)",
                "look at its unit, or leave it out",
            )  # fmt: skip
            return math.nan
        return value / may_be.per

    def cited(self, quantity: str, value: float, note: str = "") -> list[Citation]:
        """The value with its source; nothing where it is not known."""
        if math.isnan(value):
            return []
        return [
            Citation(
                quantity=quantity,
                value=value,
                unit=QUANTITIES[quantity],
                source=self.source,
                found="",
                how=How.DERIVED if note else How.GIVEN,
                note=note,
            )
        ]

    def density(self, given: object) -> float:
        """The density [kg/m3], which must be given."""
        if given is None:
            self.reader.refuse(
                f"{self.where}density", "nothing", _DENSITY.told,
                "mass, and how a piece stands, come from it",
                "weigh a piece and measure it, and write density='650 kg/m3'",
            )  # fmt: skip
        return self.read("density", given, _DENSITY)


def _of_wood(figures: _Figures, given: OwnWood) -> list[Citation]:
    """What is known of a solid wood."""
    read, cited = figures.read, figures.cited
    gravity = figures.density(given.density) / 1000.0 / _AIR_DRY
    stiffness = read("stiffness", given.stiffness, _STIFFNESS)
    radial, tangential = (
        read(f"{way}_shrinkage", getattr(given, f"{way}_shrinkage"), _SHRINKAGE)
        for way in ("radial", "tangential")
    )
    moves = [
        read(f"{way}_movement", getattr(given, f"{way}_movement"), _MOVEMENT)
        for way in ("radial", "tangential")
    ]
    _refuse_turned(figures, "shrinkage", radial, tangential)
    _refuse_turned(figures, "movement", *moves)
    return [
        *cited("specific_gravity_12", gravity, "the air-dry density over 1.12"),
        *cited("moe_gpa", stiffness),
        *cited("mor_mpa", read("bending_strength", given.bending_strength, _STRENGTH)),
        *cited("shear_mpa", read("shear_strength", given.shear_strength, _SMALL)),
        *cited("compression_perp_mpa", read("crushing_strength", given.crushing_strength, _SMALL)),
        *cited("strength_across_mpa", read("splitting_strength", given.splitting_strength, _SMALL)),
        *cited("shrink_radial_pct", radial),
        *cited("shrink_tangential_pct", tangential),
        *_movement(figures, "coefficient_radial", moves[0], radial),
        *_movement(figures, "coefficient_tangential", moves[1], tangential),
    ]


def _movement(figures: _Figures, quantity: str, given: float, shrinkage: float) -> list[Citation]:
    """A coefficient as given, or worked from the shrinkage."""
    if not math.isnan(given) or math.isnan(shrinkage):
        return figures.cited(quantity, given)
    worked = coefficient_from_shrinkage(shrinkage, _FIBRE_SATURATION_PCT)
    return figures.cited(quantity, worked, "worked from the shrinkage")


def _refuse_turned(figures: _Figures, what: str, radial: float, tangential: float) -> None:
    """Note a wood that moves more across its rings than along them: no wood does."""
    if radial > tangential:
        figures.reader.refuse(
            f"{figures.where}radial_{what}", f"{radial:g} beside {tangential:g}",
            f"less than its tangential_{what}",
            "every wood moves more along its rings than across them (Wood Handbook ch. 4)",
            "change the two over",
        )  # fmt: skip


def _of_sheet(figures: _Figures, given: OwnSheet) -> list[Citation]:
    """What is known of a sheet good."""
    read, cited = figures.read, figures.cited
    along = read("stiffness", given.stiffness, _STIFFNESS)
    across = read("stiffness_across", given.stiffness_across, _STIFFNESS)
    strong_across = read("bending_strength_across", given.bending_strength_across, _STRENGTH)
    return [
        *cited("density_as_used_kg_m3", figures.density(given.density)),
        *cited("moe_gpa", along),
        *cited("stiffness_across_ratio", across / along, "the two stiffnesses over each other"),
        *cited("mor_mpa", read("bending_strength", given.bending_strength, _STRENGTH)),
        *cited("strength_across_mpa", strong_across),
        *cited("shear_mpa", read("shear_strength", given.shear_strength, _SMALL)),
        *cited("in_plane_coefficient", read("movement", given.movement, _MOVEMENT)),
    ]
