"""Equal work is one part: which instances share one, turned round if need be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.errors import DesignError
from furniture.parts.cuts import NoTurnedForm
from furniture.parts.part import Placed, turned, turned_placement, work_key
from furniture.pieces.naming import Alike, clashes_of_parts, distinct_names


def sharing_equal_parts(placed: Sequence[Placed]) -> tuple[Placed, ...]:
    """The same instances, those of equal work sharing one part, its frame and its name.

    Args:
        placed: the instances, all their cuts made.

    Raises:
        DesignError: two distinct parts would go by one name.
    """
    leaders: dict[object, list[int]] = {}
    result: list[Placed] = []
    groups: list[list[int]] = []
    for index, each in enumerate(placed):
        found = leaders.get(work_key(each.part))
        if found is not None:
            result.append(replace(each, part=result[found[0]].part))
            found.append(index)
            continue
        for axis in (2, 1, 0):
            try:
                other_way = turned(each.part, axis)
            except NoTurnedForm:
                continue
            found = leaders.get(work_key(other_way))
            if found is not None:
                placement = turned_placement(each.placement, axis, each.part.blank)
                result.append(replace(each, part=result[found[0]].part, placement=placement))
                found.append(index)
                break
        else:
            group = [index]
            leaders[work_key(each.part)] = group
            groups.append(group)
            result.append(each)
    parts = [
        Alike(
            instances=tuple(placed[index].instance for index in group),
            called=tuple(dict.fromkeys(placed[index].part.name for index in group)),
        )
        for group in groups
    ]
    names = distinct_names(parts)
    clashes = clashes_of_parts(parts, names)
    if clashes:
        raise DesignError(clashes)
    for group, name in zip(groups, names, strict=True):
        part = replace(result[group[0]].part, name=name)
        for index in group:
            result[index] = replace(result[index], part=part)
    return tuple(result)
