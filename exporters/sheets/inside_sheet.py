"""Sections, the joints that they show drawn large, and where parts are glued on: on few sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.gathering import (
    OnPages,
    Placeable,
    TaskOf,
    gathered,
    lettered,
    rooms_of,
    sheets_gathered,
)
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import Large, detail_of_joint
from exporters.sheets.paper import Scale, scales_for
from exporters.sheets.part_notes import rounded_note
from exporters.sheets.position_blocks import NOTE, position_blocks
from exporters.sheets.positions import GluedOn
from exporters.sheets.section_blocks import section_blocks
from exporters.sheets.section_planes import Sectioned
from exporters.sheets.values import Figure, Item, Lettering, Sheet, Shows
from exporters.sheets.whole_task import WholeTask
from furniture.units.showing import is_rounded

COSTS = 2.6
"""Sections are drawn one step of scale smaller where that saves a sheet. Own rule."""
_BRACKETS = "Figures in brackets are defined on the parts' own sheets; clearances are given here."


EXPLODED_MM = (150.0, 135.0, 120.0, 105.0, 92.0, 80.0)
"""How high the exploded view is drawn where a sheet has room for it. Own rule: the largest."""

Exploded = Callable[[float], Block]
"""Draws the exploded view so high [mm].

Raises:
    NoRoomError: it is too small for its numbers.
"""

INSIDE = frozenset({Shows.INSIDE})
_BOTH = frozenset({Shows.INSIDE, Shows.EXPLODED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The sheets of sections and joints, and whether the exploded view is on one of them."""

    sheets: list[Sheet]
    has_exploded: bool


def inside_sheets(
    task_of: TaskOf,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    exploded: Exploded | None = None,
) -> Inside:
    """The sheets, as few as hold everything, with the sections near the largest scale that fits.

    The exploded view goes on one of them where that takes no further sheet.

    Args:
        task_of: what the sheets say.
        sections: where the piece is cut, and its joints.
        groups: parts that no cut locates; without any nothing is said of places.
        exploded: the exploded view, where it looks for a sheet.

    Raises:
        NoRoomError: a section or a joint fits on no sheet at any standard scale.
    """
    joints = joints_drawn(task_of(INSIDE), sections)
    task_of = with_notes(task_of, notes_inside(task_of(INSIDE), sections, groups, joints))
    task = task_of(INSIDE)
    most = 0.0
    tried: list[tuple[Scale, OnPages]] = []
    for scale, found in _tries(task_of, sections, groups, joints):
        most = most or COSTS * scale.reduction
        if scale.reduction > most:
            break
        tried.append((scale, found))
    if not tried:
        raise NoRoomError(f"sections and joints do not fit on {task.paper.title}")
    best = min(tried, key=lambda each: (len(each[1].pages), each[1].parted))
    with_view = None if exploded is None else _with_exploded(task_of, tried, best[1], exploded)
    scale, found = with_view or best
    return Inside(sheets=sheets_gathered(found, task_of, scale), has_exploded=with_view is not None)


def with_notes(task_of: TaskOf, notes: tuple[str, ...]) -> TaskOf:
    """What sheets say, with these notes on each that shows sections or joints, and no others.

    Args:
        task_of: what they say besides.
        notes: on sections and joints.
    """
    return lambda shows: replace(task_of(shows), notes=notes if Shows.INSIDE in shows else ())


def joints_drawn(task: WholeTask, sections: Sectioned) -> list[list[Block]]:
    """All joints, once in each size that they may have, the largest first.

    Args:
        task: of the piece.
        sections: its joints.
    """
    hatches = [hatches_of(task.piece, each.section.view.frame) for _, each in sections.details]
    return [
        [
            detail_of_joint(detail, task.piece.shown, task.style, hatch, large)
            for (_, detail), hatch in zip(sections.details, hatches, strict=True)
        ]
        for large in Large
    ]


def notes_inside(
    task: WholeTask,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    joints: Sequence[Sequence[Block]],
) -> tuple[str, ...]:
    """What must be said where sections, joints and places are drawn.

    Args:
        task: of the piece.
        sections: its joints.
        groups: parts that no cut locates.
        joints: as they are drawn.
    """
    rounded = any(_is_rounded(item) for block in joints[0] for item in block.items)
    notes = [NOTE] if groups else []
    notes += [_BRACKETS] if sections.details else []
    notes += [rounded_note(task.piece.shown)] if rounded else []
    return tuple(notes)


def inside_drawn(
    task: WholeTask,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    scale: Scale,
    joints: Sequence[Sequence[Block]],
    of_sections: Sequence[Scale] = (),
) -> list[list[Placeable]]:
    """Sections, details and the places of what is glued on, with the details in each size.

    Args:
        task: of the piece.
        sections: where it is cut.
        groups: parts that no cut locates.
        scale: of the sheets.
        joints: all details, once in each size.
        of_sections: the scales that sections may have, best first; left out, that of the sheets.

    Raises:
        NoRoomError: a section or a place is too small for its figures.
    """
    cut = section_blocks(task.piece, sections, of_sections or (scale,), task.style, scale)
    places = [
        Placeable(block=block, shows=Shows.INSIDE, is_to_scale=True)
        for block in position_blocks(task.piece, groups, scale, task.style)
    ]
    return [[*lettered(cut, drawn, sections, scale), *places] for drawn in joints]


def _with_exploded(
    task_of: TaskOf, tried: Sequence[tuple[Scale, OnPages]], best: OnPages, exploded: Exploded
) -> tuple[Scale, OnPages] | None:
    """The same number of pages with the exploded view on them; none where it finds no room."""
    rooms, style = rooms_of((task_of(INSIDE), task_of(_BOTH))), task_of(INSIDE).style
    for high in EXPLODED_MM:
        try:
            view = Placeable(block=exploded(high), shows=Shows.EXPLODED)
        except NoRoomError:
            continue
        for scale, found in tried:
            pages = gathered([*found.placed, view], rooms, style, len(best.pages))
            if pages is not None:
                return scale, pages
    return None


def _tries(
    task_of: TaskOf,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    joints: Sequence[Sequence[Block]],
) -> Iterator[tuple[Scale, OnPages]]:
    """The pages at each scale of the sections at which all fits, from the largest, and with the
    joints in each size."""
    task = task_of(INSIDE)
    rooms = rooms_of((task,))
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction < 1:
            continue
        try:
            drawn = inside_drawn(task, sections, groups, scale, joints)
        except NoRoomError:
            continue
        for placed in drawn:
            pages = gathered(placed, rooms, task.style)
            if pages is not None:
                yield scale, pages


def _is_rounded(item: Item) -> bool:
    return isinstance(item, (Figure, Lettering)) and is_rounded(item.text)
