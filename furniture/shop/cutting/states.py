"""A half-made packing as a value: what lies where, what is left, and where the packer stands."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.preferences import Home


@dataclass(frozen=True, slots=True)
class Laid:
    """A blank that lies somewhere: its members' rectangles on a board."""

    blank: int
    board: int
    places: tuple[Rectangle, ...]
    turned: bool
    flipped: bool


@dataclass(frozen=True, slots=True)
class Trail:
    """What was laid, newest first."""

    before: Trail | None
    laid: Laid


@dataclass(frozen=True, slots=True)
class State:
    """A half-made packing: what is left to lay, the open bed, strip, section and column [mm].

    price: of what is laid, and the worth of all that may be left out and is not laid yet [money].
    ceiling: no later section of the strip reaches beyond it across the bed [mm].
    """

    left: tuple[int, ...]
    beds_opened: int
    boards_touched: int
    ground: int
    strip_start: float
    strip_height: float
    section_start: float
    section_length: float
    column_front: float
    shortest_section: float
    ceiling: float
    price: float
    closed_area: float
    laid_area: float
    homes: tuple[Home | None, ...]
    odds: int
    trail: Trail | None

    @property
    def is_complete(self) -> bool:
        """Whether nothing is left to lay."""
        return not any(self.left)


def laid_in_order(state: State) -> tuple[Laid, ...]:
    """Everything laid, oldest first."""
    order: list[Laid] = []
    trail = state.trail
    while trail is not None:
        order.append(trail.laid)
        trail = trail.before
    return tuple(reversed(order))
