"""A half-made packing as a value: what lies where, what is left, and where the packer stands."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.preferences import Home


@dataclass(frozen=True, slots=True)
class LaidBlank:
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
    laid: LaidBlank


@dataclass(frozen=True, slots=True)
class State:
    """A half-made packing: what is left to lay, the open bed, strip, section and column [mm].

    price: of what is laid, and the worth of all that may be left out and is not laid yet [money].
    ceiling_mm: no later section of the strip reaches beyond it across the bed [mm].
    """

    left: tuple[int, ...]
    price: float
    homes: tuple[Home | None, ...]
    beds_opened: int = 0
    boards_touched: int = 0
    ground: int = -1
    strip_start_mm: float = 0.0
    strip_height_mm: float = 0.0
    section_start_mm: float = 0.0
    section_length_mm: float = 0.0
    column_front_mm: float = 0.0
    shortest_section_mm: float = 0.0
    ceiling_mm: float = math.inf
    closed_area_mm2: float = 0.0
    laid_area_mm2: float = 0.0
    odds: int = 0
    trail: Trail | None = None


def laid_in_order(state: State) -> tuple[LaidBlank, ...]:
    """Everything laid, oldest first."""
    order: list[LaidBlank] = []
    trail = state.trail
    while trail is not None:
        order.append(trail.laid)
        trail = trail.before
    return tuple(reversed(order))
