"""Rectangular sections and the stresses in them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangular section: its width and its thickness in the direction of bending [mm]."""

    width_mm: float
    thickness_mm: float

    def __post_init__(self) -> None:
        if self.width_mm <= 0.0 or self.thickness_mm <= 0.0:
            raise ValueError(f"no wood left: {self.width_mm} by {self.thickness_mm} mm")

    @property
    def area_mm2(self) -> float:
        """Its area [mm2]."""
        return self.width_mm * self.thickness_mm

    @property
    def second_moment_mm4(self) -> float:
        """Its second moment of area [mm4]; Wood Handbook, FPL-GTR-282 (2021), Eq. 9-3."""
        return self.width_mm * self.thickness_mm**3 / 12.0

    @property
    def modulus_mm3(self) -> float:
        """Its section modulus [mm3]; Wood Handbook, FPL-GTR-282 (2021), p. 9-7."""
        return self.width_mm * self.thickness_mm**2 / 6.0

    @property
    def shear_area_mm2(self) -> float:
        """Its modified shear area [mm2]; Wood Handbook, FPL-GTR-282 (2021), Eq. 9-4."""
        return 5.0 / 6.0 * self.area_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a part with one section [mm]; a place in no stretch has the whole section."""

    from_mm: float
    to_mm: float
    section: Rectangle


def bending_stress_mpa(moment_nmm: float, section: Rectangle) -> float:
    """The bending stress [MPa] at the face of a section.

    Args:
        moment_nmm: bending moment there [N mm]
        section: the wood that is left there

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-13 (p. 9-7).
    """
    return abs(moment_nmm) / section.modulus_mm3


def axial_stress_mpa(force_n: float, section: Rectangle) -> float:
    """The even stress [MPa] of a force along a member.

    Args:
        force_n: force through the middle of the section [N]
        section: the wood that is left there

    **Source:** Wood Handbook, FPL-GTR-282 (2021), Eq. 9-12 (p. 9-6).
    """
    return abs(force_n) / section.area_mm2
