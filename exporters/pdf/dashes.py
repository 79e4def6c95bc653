"""Where a dash pattern starts on a line, so that the line ends as it begins and in a dash."""

from __future__ import annotations

from itertools import accumulate


def phase_for(length_mm: float, dashes_mm: tuple[float, ...]) -> float:
    """How far into its pattern a straight line starts [mm], so that both its ends look alike.

    The middle of the line is made the middle of the longest dash, so that centre lines cross in
    dashes; where the ends would then lie in a gap, the middle of a gap.

    **Source:** ISO 128-2: lines cross and meet in dashes (from memory); the choice of the two: own
    rule.

    Args:
        length_mm: of the line on paper [mm].
        dashes_mm: dash, gap, dash ... on paper [mm].
    """
    total = sum(dashes_mm)
    if total <= 0.0:
        return 0.0
    starts = [0.0, *accumulate(dashes_mm)][: len(dashes_mm)]
    middles = [start + size / 2 for start, size in zip(starts, dashes_mm, strict=True)]
    order = sorted(
        (index for index in range(len(dashes_mm)) if _is_mirrored_at(index, dashes_mm)),
        key=lambda index: (index % 2, -dashes_mm[index]),
    )
    if not order:
        return 0.0
    least = min(0.5, min(dashes_mm[0::2]) / 2)
    for index in order:
        phase = (middles[index] - length_mm / 2) % total
        if dash_left(phase, dashes_mm) >= least:
            return phase
    return (middles[order[0]] - length_mm / 2) % total


def _is_mirrored_at(index: int, dashes_mm: tuple[float, ...]) -> bool:
    count = len(dashes_mm)
    return all(
        abs(dashes_mm[(index + step) % count] - dashes_mm[index - step]) < 1e-9
        for step in range(1, count)
    )


def dash_left(phase_mm: float, dashes_mm: tuple[float, ...]) -> float:
    """How much dash follows a place in a pattern [mm]; 0 in a gap.

    Args:
        phase_mm: the place, from the pattern's start [mm].
        dashes_mm: dash, gap, dash ... [mm].
    """
    at = phase_mm
    for index, size in enumerate(dashes_mm):
        if at < size:
            return size - at if index % 2 == 0 else 0.0
        at -= size
    return 0.0
