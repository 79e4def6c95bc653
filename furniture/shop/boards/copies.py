"""What a copy of a planner's part becomes: one instance, or all that come off a common blank."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from furniture.blanks import CommonBlank
from furniture.shop.boards.lots import Lot
from furniture.shop.cutting.plan import Placement, Rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """An instance on the wood that it comes off.

    Args:
        instance: its name among all copies.
        name: its name in its own piece.
        part: id of its part in its piece.
        at_mm: where its named end lies from that of the finished blank [mm].
        length_mm: of the finished part [mm].
    """

    instance: str
    name: str
    part: str
    at_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One copy of a planner's part.

    Args:
        name: what drawings and lists call it; of a lone instance its own name.
        stretches: the instances that it becomes, in their order along it.
        common: the blank that they share; None where an instance is cut by itself.
    """

    name: str
    stretches: tuple[Stretch, ...]
    common: CommonBlank | None = None

    @property
    def instances(self) -> tuple[str, ...]:
        """The instances that it becomes, in their order along it."""
        return tuple(each.instance for each in self.stretches)

    @property
    def is_common(self) -> bool:
        """Whether several instances come off it."""
        return len(self.stretches) > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class LotBlank:
    """A common blank of one copy of a piece."""

    lot: Lot
    common: CommonBlank

    @property
    def instances(self) -> tuple[str, ...]:
        """Its instances by their names among all copies, in their order along it."""
        return tuple(self.lot.called(name) for name in self.common.instances)


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A placement of a plan, and what it becomes.

    Args:
        placement: its board, rectangle, strip, whether it is turned or flipped.
        copy: the instances that it becomes.
    """

    placement: Placement
    copy: Copy

    @property
    def common(self) -> CommonBlank | None:
        """The blank that several instances share; None where one is cut by itself."""
        return self.copy.common

    @property
    def instances(self) -> tuple[str, ...]:
        """The instances that come off it, from its named end, the left one on the board."""
        return self.copy.instances

    @property
    def places(self) -> tuple[tuple[Stretch, Rectangle], ...]:
        """Where on the board each instance of a common blank will lie, at its finished length."""
        stretches, place = self.copy.stretches, self.placement.place
        if not self.copy.is_common:
            return ((stretches[0], place),)
        finished = stretches[-1].at_mm + stretches[-1].length_mm
        held = 0.0 if self.common is None else self.common.held_mm
        start = place.x_mm + (place.length_mm - held - finished) / 2
        return tuple(
            (each, replace(place, x_mm=start + each.at_mm, length_mm=each.length_mm))
            for each in stretches
        )

    @property
    def marks_mm(self) -> tuple[float, ...]:
        """Where along the board a common blank will be sawn apart, from the left [mm].

        The last mark parts what is only there to be held, where there is such a piece.
        """
        places = [place for _, place in self.places]
        marks = [(before.x_end_mm + after.x_mm) / 2 for before, after in pairwise(places)]
        is_held = self.common is not None and self.common.held_mm > 0.0
        return (*marks, *([places[-1].x_end_mm] if is_held else []))
