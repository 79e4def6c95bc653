"""How large the scrap is below clamps: blocks that lift heads over a rise, cauls right across."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from furniture.making.glue_ups.values import Block, Caul, ClampLine, Stage

_CLEAR_MM = 2.0
"""A block is so much higher than what it clears. Own rule."""
_HEAD_MM = 30.0
"""No block need be wider than the head of a clamp. Own rule."""
_STEP_MM = 0.1
"""Blocks that differ by less are sawn alike. Own rule."""
_LONG_STEP_MM = 5.0
"""What lies across is sawn to such a step, for it is only long enough. Own rule."""


def across_mm(lines: Iterable[ClampLine]) -> float:
    """How long a caul is that lies right across, a clamp's head beyond the wood at either end [mm].

    Args:
        lines: of force that it serves, one or more.
    """
    long = max(line.across_mm for line in lines) + 2.0 * _HEAD_MM
    return math.ceil(round(long / _LONG_STEP_MM, 6)) * _LONG_STEP_MM


def blocks_of(stage: Stage) -> Mapping[str, Block]:
    """The block that every head on a part stands on, by the part; none where no head needs one.

    One size serves all heads on a part: as high as the highest asks, as narrow as the narrowest.
    Sizes go to the side that is enough.

    Args:
        stage: a glue-up.
    """
    pads: dict[str, tuple[float, float]] = {}
    for pad in (pad for line in stage.clamps for pad in line.pads):
        if pad.caul is Caul.BLOCK:
            high, wide = pads.get(pad.instance, (0.0, _HEAD_MM))
            pads[pad.instance] = (max(high, pad.rise_mm), min(wide, pad.free_mm))
    return {
        name: Block(
            high_mm=math.ceil(round((high + _CLEAR_MM) / _STEP_MM, 6)) * _STEP_MM,
            wide_mm=math.floor(round(wide / _STEP_MM, 6)) * _STEP_MM,
        )
        for name, (high, wide) in pads.items()
    }
