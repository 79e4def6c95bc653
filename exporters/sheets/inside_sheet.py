"""Sections, the joints that they show drawn large, and where parts are glued on: on few sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import Large, detail_of_joint
from exporters.sheets.packing import PackedPage, pages_packed
from exporters.sheets.paper import Box2, Orientation, Scale, scales_for
from exporters.sheets.part_notes import rounded_note
from exporters.sheets.position_blocks import NOTE, position_blocks
from exporters.sheets.positions import GluedOn
from exporters.sheets.section_blocks import section_blocks
from exporters.sheets.section_planes import Sectioned
from exporters.sheets.values import Figure, Item, Lettering, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from furniture.units.showing import is_rounded

_GAP_MM = 6.0
_MARGIN_MM = 3.0
_COSTS = 2.6
"""Sections are drawn one step of scale smaller where that saves a sheet. Own rule."""
_BRACKETS = "Figures in brackets are defined on the parts' own sheets; clearances are given here."


_EXPLODED_MM = (150.0, 135.0, 120.0, 105.0, 92.0, 80.0)
"""How high the exploded view is drawn where a sheet has room for it. Own rule: the largest."""

Exploded = Callable[[float], Block]
"""Draws the exploded view so high [mm].

Raises:
    NoRoomError: it is too small for its numbers.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pages:
    """What stands where, and the scale of the sections, which are the first blocks; the exploded
    view is the last, where it is on these pages."""

    blocks: Sequence[Block]
    pages: Sequence[PackedPage]
    scale: Scale
    to_scale: int
    exploded: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanting:
    """The exploded view where it looks for a sheet, and what one says that has sections too."""

    drawn: Exploded
    with_sections: WholeTask


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The sheets of sections and joints, and whether the exploded view is on one of them."""

    sheets: list[Sheet]
    has_exploded: bool


def inside_sheets(
    task: WholeTask,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    exploded: Wanting | None = None,
) -> Inside:
    """The sheets, as few as hold everything, with the sections near the largest scale that fits.

    The exploded view goes on one of them where that takes no further sheet.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        sections: where the piece is cut, and its joints.
        groups: parts that no cut locates; without any nothing is said of places.
        exploded: the exploded view, where it looks for a sheet.

    Raises:
        NoRoomError: a section or a joint fits on no sheet at any standard scale.
    """
    shown, style = task.piece.shown, task.style
    hatches = [hatches_of(task.piece, each.section.view.frame) for _, each in sections.details]
    joints = [
        [
            detail_of_joint(detail, shown, style, hatch, large)
            for (_, detail), hatch in zip(sections.details, hatches, strict=True)
        ]
        for large in Large
    ]
    rounded = any(_is_rounded(item) for block in joints[0] for item in block.items)
    notes = [NOTE] if groups else []
    notes += [_BRACKETS] if sections.details else []
    notes += [rounded_note(shown)] if rounded else []
    task = replace(task, notes=tuple(notes))
    most = 0.0
    tried: list[_Pages] = []
    for found in _tries(task, sections, groups, joints):
        most = most or _COSTS * found.scale.reduction
        if found.scale.reduction > most:
            break
        tried.append(found)
    if not tried:
        raise NoRoomError(f"sections and joints do not fit on {task.paper.title}")
    best = min(tried, key=lambda each: len(each.pages))
    if exploded is not None:
        best = _with_exploded(task, tried, best, exploded.drawn) or best
    both = task if exploded is None else exploded.with_sections
    pages = [
        _sheet(task, both, best, page, number) for number, page in enumerate(best.pages, start=1)
    ]
    return Inside(sheets=pages, has_exploded=best.exploded is not None)


def _with_exploded(
    task: WholeTask, tried: Sequence[_Pages], best: _Pages, exploded: Exploded
) -> _Pages | None:
    """The same number of pages with the exploded view on them; none where it finds no room."""
    rooms = _rooms(task)
    for high in _EXPLODED_MM:
        try:
            view = exploded(high)
        except NoRoomError:
            continue
        for found in tried:
            blocks = [*found.blocks, view]
            pages = pages_packed([(b.box.width, b.box.height) for b in blocks], rooms, _GAP_MM)
            if pages is not None and len(pages) == len(best.pages):
                return replace(found, blocks=blocks, pages=pages, exploded=len(blocks) - 1)
    return None


def _rooms(task: WholeTask) -> dict[Orientation, Box2]:
    return {way: framed(task, way, None, True).region.grown(-_MARGIN_MM) for way in Orientation}


def _tries(
    task: WholeTask,
    sections: Sectioned,
    groups: Sequence[GluedOn],
    joints: Sequence[Sequence[Block]],
) -> Iterator[_Pages]:
    """The pages at each scale of the sections at which all fits, from the largest, and with the
    joints in each size."""
    rooms = _rooms(task)
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction < 1:
            continue
        try:
            seen = [
                *section_blocks(task.piece, sections, scale, task.style),
                *position_blocks(task.piece, groups, scale, task.style),
            ]
        except NoRoomError:
            continue
        for drawn in joints:
            blocks = [*seen, *drawn]
            pages = pages_packed([(b.box.width, b.box.height) for b in blocks], rooms, _GAP_MM)
            if pages is not None:
                yield _Pages(blocks=blocks, pages=pages, scale=scale, to_scale=len(seen))


def _sheet(task: WholeTask, both: WholeTask, found: _Pages, page: PackedPage, number: int) -> Sheet:
    is_scaled = any(index < found.to_scale for index in page.places)
    scale = found.scale if is_scaled else None
    if found.exploded in page.places:
        task = replace(both, notes=task.notes)
    begun = framed(task, page.orientation, scale, True, scale_told="as shown")
    items: list[Item] = list(begun.items)
    for index, (x, y) in sorted(page.places.items()):
        block = found.blocks[index]
        items += block.moved(x - block.box.left, y - block.box.bottom).items
    return sheet_of(task, page.orientation, scale or Scale(1.0), items, number)


def _is_rounded(item: Item) -> bool:
    return isinstance(item, (Figure, Lettering)) and is_rounded(item.text)
