"""A bought butt hinge as measured, and what its screws bear."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A butt hinge: both of its leaves are alike [mm].

    Args:
        name: as one asks for it.
        length_mm: along the barrel.
        width_mm: of the flat leaf, beside the barrel.
        thickness_mm: of the leaf.
        barrel_mm: diameter of the barrel.
        folded_mm: from the outer face of one leaf to that of the other when it is closed.
        screw_mm: diameter of its screws.
        screw_length_mm: of them, with the head.
        screws_mm: the middle of each screw's hole in a leaf: along from the middle of its length,
            and in from the barrel's side.
    """

    name: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    barrel_mm: float
    folded_mm: float
    screw_mm: float
    screw_length_mm: float
    screws_mm: tuple[tuple[float, float], ...]

    @property
    def bite_mm(self) -> float:
        """How far a screw goes into the wood below a gain's floor [mm]."""
        return self.screw_length_mm - self.thickness_mm

    @property
    def pried_share(self) -> float:
        """What bears at the pin as a share of what pulls on the screws.

        **Source:** statics: a leaf turns about its inner edge, the pin far from it and the screws
        near.
        """
        screws = min(self.width_mm - back for _, back in self.screws_mm)
        return screws / (self.width_mm + self.barrel_mm / 2)

    def gain_depth_mm(self, gap_mm: float) -> float:
        """How deep each leaf is let in for a gap between the closed parts [mm].

        Args:
            gap_mm: between the two.

        **Source:** geometry: the closed hinge fills both gains and the gap.
        """
        return (self.folded_mm - gap_mm) / 2
