"""Ballast in a box: where it may lie, what it may be, and how much of it goes in."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.checks.support import Point
from furniture.rules import USUAL_RULES
from furniture.rules.checking import BALLAST_HEIGHT_SHARE

STUFFS: tuple[tuple[str, float], ...] = (("dry sand", 1500.0), ("steel plates", 7850.0 * 0.8))
"""What ballast is made of and its density [kg/m3], lightest first: dry sand 1500 to 1700 (from
memory), steel 7850 with a fifth of air between the plates (own rule)."""
PLACES = (0.25, 0.375, 0.5, 0.625, 0.75)
"""Where the middle of the ballast may lie, as a share of the box's depth from the front [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The free inside of a box, from its front left low corner to its back right high one [mm].

    Heights are above the floor. `is_open_below` is a box that still wants a bottom, and one whose
    bottom nothing holds has `bottom_is_loose`. Ballast fills at most `fill_share` of its height.
    """

    low_mm: tuple[float, float, float]
    high_mm: tuple[float, float, float]
    is_open_below: bool = True
    bottom_is_loose: bool = False
    fill_share: float = USUAL_RULES[BALLAST_HEIGHT_SHARE]

    @property
    def bears(self) -> bool:
        """Whether something that is held lies under what is put in."""
        return not (self.is_open_below or self.bottom_is_loose)

    def places(self) -> tuple[Point, ...]:
        """Where its middle may lie in plan (x, y) [mm]: between left and right, front to back."""
        x = (self.low_mm[0] + self.high_mm[0]) / 2.0
        depth = self.high_mm[1] - self.low_mm[1]
        return tuple((x, self.low_mm[1] + share * depth) for share in PLACES)

    def centre(self, at: Point) -> tuple[float, float, float]:
        """The centre of ballast at a place in plan [mm].

        Args:
            at: where its middle lies (x, y) [mm]

        **Source:** own rule: a quarter of the height up, as it fills half of it at most.
        """
        height = self.high_mm[2] - self.low_mm[2]
        return (*at, self.low_mm[2] + self.fill_share / 2.0 * height)

    def volume_mm3(self, at: Point) -> float:
        """What goes in about a place in plan [mm3], as far as the nearer of front and back.

        Args:
            at: where its middle lies (x, y) [mm]
        """
        width, height = (self.high_mm[axis] - self.low_mm[axis] for axis in (0, 2))
        depth = 2.0 * min(at[1] - self.low_mm[1], self.high_mm[1] - at[1])
        return width * depth * height * self.fill_share

    def most_kg(self, at: Point) -> float:
        """The most that goes in about a place in plan [kg], of the heaviest stuff.

        Args:
            at: where its middle lies (x, y) [mm]
        """
        return self.volume_mm3(at) * 1e-9 * max(density for _, density in STUFFS)

    def stuff_for(self, mass_kg: float, at: Point) -> str | None:
        """The lightest stuff of which so much goes in; None where not even the heaviest does.

        Args:
            mass_kg: how much [kg]
            at: where its middle lies (x, y) [mm]
        """
        volume = self.volume_mm3(at) * 1e-9
        return next((name for name, density in STUFFS if volume * density >= mass_kg), None)
