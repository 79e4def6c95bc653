"""From parts to boards: which cuts free every part from the wood that is really there."""

from __future__ import annotations

from furniture.shop.cutting.planner import plan_cutting
from furniture.shop.cutting.watch import Progress

__all__ = ["Progress", "plan_cutting"]
