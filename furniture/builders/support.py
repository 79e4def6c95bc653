"""What carries the tiers: the questions that a stand asks of its post or of its two uprights."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.builders.at_edge import TierEdge
from furniture.builders.base_box import BoxFigures
from furniture.builders.bracket_places import BracketPlace, BracketReach, Ledge
from furniture.builders.common import StockOf
from furniture.builders.dowels import EndButts
from furniture.builders.edges import Shoulder
from furniture.builders.panels import Zone
from furniture.builders.tiers import TierFigures
from furniture.joints import Joint
from furniture.parts.faces import Arris
from furniture.parts.part import Placed
from furniture.pieces import Note, Proportion, Reference, Surface
from furniture.rules import Rules


@dataclass(frozen=True, slots=True, kw_only=True)
class Support(ABC):
    """The upright part of a stand, its figures read [mm].

    `length` is from the base's underside to the top, `thickness` is what the dados are cut in.
    """

    box: BoxFigures
    length: float
    thickness: float
    dado_depth: float

    def back_panel(self, stock: StockOf) -> list[Placed]:
        """The panel behind its tiers, if it has one."""
        return []

    def back_panel_joints(self, steps: Sequence[TierFigures]) -> list[Joint]:
        """The joints of that panel."""
        return []

    def back_panel_notes(self, steps: Sequence[TierFigures]) -> tuple[Note, ...]:
        """What the sheets say of that panel."""
        return ()

    @abstractmethod
    def place_back(self, stock: StockOf) -> list[Placed]:
        """The side rails and what stands at the back, the support itself among it."""

    @abstractmethod
    def back_joints(self, butts: EndButts) -> list[Joint]:
        """The joints of those parts with each other and with the front rail; `butts` of rails."""

    @abstractmethod
    def lid_zones(self) -> tuple[Zone, ...]:
        """How far back the lid may reach, from left to right."""

    @abstractmethod
    def bottom_zones(self, gap: float) -> tuple[Zone, ...]:
        """How far back a bottom may reach, from left to right, with `gap` [mm] round it."""

    @abstractmethod
    def lid_housings(self, is_glued: bool) -> list[Joint]:
        """The joints of the lid with the support."""

    @abstractmethod
    def plan(self, step: TierFigures) -> tuple[tuple[float, float], tuple[float, float]]:
        """The least and greatest corner of a tier's blank in plan."""

    @abstractmethod
    def tier_joints(self, step: TierFigures) -> list[Joint]:
        """The joints of a tier with the support."""

    @abstractmethod
    def surface(self, step: TierFigures) -> Surface:
        """Where a tier can carry things."""

    @abstractmethod
    def proportion(self, steps: Sequence[TierFigures], rules: Rules) -> Proportion:
        """How its tiers are seen, and how small they may be made."""

    @abstractmethod
    def bracket_places(self, step: TierFigures, count: int) -> tuple[BracketPlace, ...]:
        """Where brackets stand under a tier; none where no so many can be held."""

    @abstractmethod
    def bracket_reach(self, step: TierFigures, rules: Rules) -> BracketReach:
        """How far they may reach under it."""

    def ledge(self, step: TierFigures) -> Ledge | None:
        """Where cleats may lie under both ends of a tier; none where no uprights stand there."""
        return None

    @property
    def tier_edges(self) -> tuple[TierEdge, ...]:
        """The edges of tiers that it leaves open."""
        return tuple(TierEdge)

    @property
    def cross_rails(self) -> tuple[str, ...]:
        """The rails in front and behind that reach over the middle of the box."""
        return ("front rail", "back rail")

    @property
    def freed_by_bottom(self) -> frozenset[Arris]:
        """The arrises at its foot that a bottom's rabbet in the rails leaves in the open."""
        return frozenset()

    @abstractmethod
    def lid_surface(self) -> Surface:
        """Where the lid can carry things."""

    def bottom_surface(self, thickness: float) -> Surface:
        """Where the bottom of an open box can carry things, free of rails and support.

        Args:
            thickness: of the bottom [mm].
        """
        return Surface(
            instance="bottom",
            low=(self.box.rail, self.box.rail),
            high=(self.box.width - self.box.rail, self.free_depth),
            top_mm=thickness,
        )

    @abstractmethod
    def references(self, steps: Sequence[TierFigures]) -> list[Reference]:
        """The figures of the whole piece that a sheet shows."""

    @property
    @abstractmethod
    def free_depth(self) -> float:
        """How far back the inside of the box is free, from its front [mm]."""

    @property
    @abstractmethod
    def free_side_rail(self) -> float:
        """How far back the inner faces of the side rails are free, from the front [mm]."""

    @property
    @abstractmethod
    def free_beside(self) -> float:
        """How wide a strip along a side rail may be inside the box [mm]."""

    @abstractmethod
    def hidden(self, steps: Sequence[TierFigures]) -> Mapping[str, Mapping[Arris, str]]:
        """The arrises of tiers, lid and support where no profile may run, with the reason."""

    @abstractmethod
    def shoulders(self, steps: Sequence[TierFigures]) -> Mapping[str, Shoulder]:
        """Edges of tiers that lie beside a housing, with the wood that there is."""

    @property
    @abstractmethod
    def notes(self) -> tuple[Note, ...]:
        """What the sheets say of it in words."""


def heights(box: BoxFigures) -> list[Reference]:
    """The heights above the base's underside that every stand shows."""
    if not box.has_lid:
        top = (0.0, 0.0, box.height)
        return [Reference(what="rails' top", start=(0.0, 0.0, 0.0), end=top, from_floor=True)]
    return [
        Reference(what="rails as cut", start=(0.0, 0.0, 0.0), end=(0.0, 0.0, box.height)),
        Reference(
            what="lid top", start=(0.0, 0.0, 0.0), end=(0.0, 0.0, box.lid_top), from_floor=True
        ),
    ]
