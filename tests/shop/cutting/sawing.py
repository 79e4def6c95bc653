"""Can a saw make it? Judged from rectangles alone, without any of the solver's geometry."""

from __future__ import annotations

from collections.abc import Sequence

Box = tuple[float, float, float, float]
"""x, y, far x, far y."""


def is_guillotine(boxes: Sequence[Box], kerf: float = 0.0) -> bool:
    """Whether edge-to-edge cuts, each `kerf` wide, can part all the boxes from each other."""
    pending = [list(boxes)]
    while pending:
        group = pending.pop()
        if len(group) <= 1:
            continue
        parted = _parted(group, 0, kerf) or _parted(group, 1, kerf)
        if parted is None:
            return False
        pending += parted
    return True


def _parted(group: list[Box], axis: int, kerf: float) -> list[list[Box]] | None:
    ordered = sorted(group, key=lambda box: box[axis])
    parts: list[list[Box]] = [[ordered[0]]]
    reach = ordered[0][axis + 2]
    for box in ordered[1:]:
        if box[axis] >= reach + kerf - 1e-6:
            parts.append([box])
        else:
            parts[-1].append(box)
        reach = max(reach, box[axis + 2])
    return parts if len(parts) > 1 else None


def meets(first: Box, second: Box) -> bool:
    """Whether the insides of two boxes share anything."""
    return (
        first[0] < second[2] - 1e-9
        and second[0] < first[2] - 1e-9
        and first[1] < second[3] - 1e-9
        and second[1] < first[3] - 1e-9
    )
