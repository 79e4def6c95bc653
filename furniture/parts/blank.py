"""The piece of wood before it is cut: length along the grain, width across it, thickness."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.faces import Face
from furniture.parts.vectors import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A squared blank at its finished size [mm]."""

    length_mm: float
    width_mm: float
    thickness_mm: float

    @property
    def size(self) -> Vector:
        """Length, width and thickness [mm]: the extent along part x, y and z."""
        return (self.length_mm, self.width_mm, self.thickness_mm)

    @property
    def volume_mm3(self) -> float:
        """The volume before any cut [mm3]."""
        return self.length_mm * self.width_mm * self.thickness_mm

    def across(self, face: Face) -> float:
        """The extent of the blank at right angles to `face` [mm]."""
        return self.size[face.axis]
