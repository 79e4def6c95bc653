"""Where across a part no glued joint may run, since a cut is made there."""

from __future__ import annotations

from furniture.parts.lines import bounds_of
from furniture.parts.part import Part
from furniture.rules import Rules
from furniture.rules.staying import CUT_ACROSS


def bands_of_cuts(part: Part, margin: float, rules: Rules) -> tuple[tuple[float, float], ...]:
    """Bands (from, to) across the finished width that joints keep clear of, merged [mm].

    Args:
        margin: how far a joint stays from a cut beside it [mm].
    """
    width = part.blank.width_mm
    bands: list[tuple[float, float]] = []
    for cut in part.cuts:
        for tool in cut.tools(part.blank):
            least, greatest = bounds_of(tool)
            low, high = max(least[1], 0.0), min(greatest[1], width)
            if high <= low or high - low > rules[CUT_ACROSS] * width:
                continue
            bands.append((max(low - margin, 0.0), min(high + margin, width)))
    merged: list[tuple[float, float]] = []
    for low, high in sorted(bands):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return tuple(merged)
