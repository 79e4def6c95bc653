"""What is there, with the sizes that were measured on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from furniture.job.done import SAME_MM, is_other_cut
from furniture.job.figures import Figure
from furniture.job.old import Old, OldPart, as_measured, old_of
from furniture.job.standing import Stands
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut


def with_measured(old: Old, measured: Mapping[Figure, float]) -> Old:
    """The same, every part of it as large as it was measured; a room is no part.

    Args:
        old: what is there.
        measured: figures of its parts [mm].
    """
    there = {each.name for each in old.parts}
    for figure, value in measured.items():
        if figure.instance in there and not figure.is_room:
            old = as_measured(old, figure.instance, figure.axis, value)
    return old


def as_they_stand(old: Old, found: Stands) -> Old:
    """The same, what stands a little off its drawing as it is drawn: it is not cut again for that.

    Only a part that was made by the design as it is in the script is told so.

    Args:
        old: what is there.
        found: the design as what is measured leaves it.
    """
    names = {name for name, _ in found.as_they_stand}
    designed = {each.name: each for each in old_of(found.designed).parts}
    drawn = {each.name: each for each in old_of(found.piece).parts}
    stand = {
        each.name
        for each in old.parts
        if each.name in names
        and is_drawn_so(each, designed[each.name].blank, designed[each.name].cuts)
    }
    parts = tuple(drawn[each.name] if each.name in stand else each for each in old.parts)
    return replace(old, parts=parts)


def is_drawn_so(was: OldPart, blank: Blank, cuts: Sequence[Cut]) -> bool:
    """Whether what is there has these sizes and cuts.

    Args:
        was: what is there.
        blank: as it is drawn.
        cuts: as they are drawn.
    """
    sizes = zip(was.blank.size, blank.size, strict=True)
    return (
        all(abs(before - now) <= SAME_MM for before, now in sizes)
        and len(was.cuts) == len(cuts)
        and not any(is_other_cut(one, two) for one, two in zip(was.cuts, cuts, strict=True))
    )
