"""Fits: how much wider a housing is than the part that goes into it."""

from __future__ import annotations

from dataclasses import dataclass

GLUE_BRIDGES_MM = 0.15
"""The thickest glue line that still holds well [mm].

**Source:** glue lines of 0.05 to 0.15 mm are best (a wood technologist's column in a trade
journal, read); beyond it an own rule counts the face as not glued.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A named fit: a clearance that grows with the thickness that goes in.

    Common practice, no source: a housing 0.1 to 0.2 mm wider than the shelf takes it by hand with
    glue, one of more than about 0.3 mm reads as loose.
    """

    name: str
    base_mm: float
    per_thickness: float

    def clearance_mm(self, thickness_mm: float) -> float:
        """The clearance for a part of that thickness [mm], to 0.01 mm."""
        return round(self.base_mm + self.per_thickness * thickness_mm, 2)


PRESS = Fit(name="press", base_mm=0.0, per_thickness=0.0025)
SLIP = Fit(name="slip", base_mm=0.1, per_thickness=0.0025)
EASY = Fit(name="easy", base_mm=0.2, per_thickness=0.005)
NAMED_FITS = (PRESS, SLIP, EASY)


def own_fit(clearance_mm: float) -> Fit:
    """A fit with the maker's own clearance [mm], whatever the thickness."""
    return Fit(name="own", base_mm=clearance_mm, per_thickness=0.0)
