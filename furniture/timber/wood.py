"""A species or sheet good as a value: its figures, and where each of them comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """What sort of stock a species row describes."""

    HARDWOOD = "hardwood"
    SOFTWOOD = "softwood"
    SHEET = "sheet"
    OWN = "a maker's own solid wood"


class How(Enum):
    """How a value was come by."""

    READ = "read"
    MEMORY = "memory"
    DERIVED = "derived"
    GIVEN = "given by the maker"


@dataclass(frozen=True, slots=True, kw_only=True)
class Second:
    """The same quantity as another source prints it, in the unit of the first."""

    value: float
    source: str
    how: How


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """Where one value of one species is printed, how it was read, and what other sources have.

    `found` says where it was read; empty where it was not, or where the source says it all.
    """

    quantity: str
    value: float
    unit: str
    source: str
    found: str
    how: How
    note: str
    seconds: tuple[Second, ...] = ()

    @property
    def farthest(self) -> Second | None:
        """The other source that is farthest off; None where there is none."""
        return max(self.seconds, key=self.share_off, default=None)

    def share_off(self, second: Second) -> float:
        """By which share of this value another source's is off it, whichever way [-].

        Args:
            second: the other source's value
        """
        return abs(second.value / self.value - 1.0)

    def is_doubtful(self, share: float) -> bool:
        """Whether another source is off by more than this share of the value.

        Args:
            share: from which on it is told [-]
        """
        return self.farthest is not None and self.share_off(self.farthest) > share


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """One species or sheet good; a value that was not found is None.

    Strengths and stiffness are means of clear wood at 12 % moisture content, shrinkage is from
    green to ovendry in per cent, and the coefficients are change of size per cent of moisture.
    Strength across the grain is tension perpendicular to it, and the stiffness ratio is tangential
    over along. A sheet has no shrinkage as solid wood has: it has one coefficient in its plane,
    its strengths are characteristic or least values, its shear is that of its layers in its plane,
    and its ratio is that of bending across the face grain; its holding gravity is that of the solid
    wood which holds nails as its face does.
    """

    name: str
    also_called: tuple[str, ...]
    botanical: str
    kind: Kind
    specific_gravity_12: float | None = None
    density_as_used_kg_m3: float | None = None
    moe_gpa: float | None = None
    mor_mpa: float | None = None
    shear_mpa: float | None = None
    compression_perp_mpa: float | None = None
    strength_across_mpa: float | None = None
    stiffness_across_ratio: float | None = None
    side_hardness_n: float | None = None
    shrink_radial_pct: float | None = None
    shrink_tangential_pct: float | None = None
    shrink_volumetric_pct: float | None = None
    coefficient_radial: float | None = None
    coefficient_tangential: float | None = None
    in_plane_coefficient: float | None = None
    fibre_saturation_pct: float | None = None
    holding_gravity: float | None = None
    citations: tuple[Citation, ...]

    @property
    def has_layers(self) -> bool:
        """Whether it is a sheet of layers with a grain: it bends otherwise along than across."""
        ratio = self.stiffness_across_ratio
        return self.kind is Kind.SHEET and ratio is not None and ratio != 1.0

    @property
    def source(self) -> str:
        """The distinct sources of this row, in the order of the data file."""
        return "; ".join(dict.fromkeys(citation.source for citation in self.citations))

    @property
    def how(self) -> str:
        """`read`, `memory` or `derived`, or several where the values differ."""
        return ", ".join(dict.fromkeys(citation.how.value for citation in self.citations))

    def citation(self, quantity: str) -> Citation | None:
        """Where a value comes from; None where there is no value.

        Args:
            quantity: one of `QUANTITIES`
        """
        return next((each for each in self.citations if each.quantity == quantity), None)


QUANTITIES: dict[str, str] = {
    "specific_gravity_12": "-",
    "density_as_used_kg_m3": "kg/m3",
    "moe_gpa": "GPa",
    "mor_mpa": "MPa",
    "shear_mpa": "MPa",
    "compression_perp_mpa": "MPa",
    "strength_across_mpa": "MPa",
    "stiffness_across_ratio": "-",
    "side_hardness_n": "N",
    "shrink_radial_pct": "%",
    "shrink_tangential_pct": "%",
    "shrink_volumetric_pct": "%",
    "coefficient_radial": "1/% MC",
    "coefficient_tangential": "1/% MC",
    "in_plane_coefficient": "1/% MC",
    "fibre_saturation_pct": "% MC",
    "holding_gravity": "-",
}
"""Every quantity of a species with its unit."""


def species_of(
    name: str,
    kind: Kind,
    citations: tuple[Citation, ...],
    *,
    also_called: tuple[str, ...] = (),
    botanical: str = "",
) -> Species:
    """A species with the values that are cited, and no others.

    Args:
        name: its own name
        kind: what sort of stock it is
        citations: every value with where it comes from, no quantity twice
        also_called: other names
        botanical: its botanical name
    """
    return Species(
        name=name,
        also_called=also_called,
        botanical=botanical,
        kind=kind,
        citations=citations,
        **{each.quantity: each.value for each in citations},
    )
