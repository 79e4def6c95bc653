"""Can a saw make it? Judged from rectangles alone, without any of the solver's geometry."""

from __future__ import annotations

from collections import Counter
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


def faults_of_boards(
    length: int,
    width: int,
    sizes: Sequence[tuple[int, int]],
    wanted: Sequence[int | None],
    boards: Sequence[Sequence[tuple[int, int, int]]],
    bad: Sequence[Box] = (),
    *,
    all_wanted: bool = False,
) -> list[str]:
    """What is wrong with layouts given as (item, x, y) on equal boards; empty when nothing is."""
    faults: list[str] = []
    used: Counter[int] = Counter()
    for number, board in enumerate(boards):
        boxes: list[Box] = []
        for item, x, y in board:
            used[item] += 1
            far = (x + sizes[item][0], y + sizes[item][1])
            box = (float(x), float(y), float(far[0]), float(far[1]))
            if x < 0 or y < 0 or far[0] > length or far[1] > width:
                faults.append(f"board {number}: item {item} at {x}, {y} is off the board")
            for other in bad:
                if meets(box, other):
                    faults.append(f"board {number}: item {item} at {x}, {y} is on a fault")
            boxes.append(box)
        for index, box in enumerate(boxes):
            for other in boxes[:index]:
                if meets(box, other):
                    faults.append(f"board {number}: two items overlap at {box[:2]}")
        if not is_guillotine(boxes):
            faults.append(f"board {number}: no saw can part the items")
    for item, limit in enumerate(wanted):
        if limit is not None and used[item] > limit:
            faults.append(f"item {item}: {used[item]} cut, {limit} wanted")
        if all_wanted and used[item] != limit:
            faults.append(f"item {item}: {used[item]} cut of {limit}")
    return faults


def meets(first: Box, second: Box) -> bool:
    """Whether the insides of two boxes share anything."""
    return (
        first[0] < second[2] - 1e-9
        and second[0] < first[2] - 1e-9
        and first[1] < second[3] - 1e-9
        and second[1] < first[3] - 1e-9
    )
