"""Sections, the joints that they show drawn large, and where parts are glued on: on few sheets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import detail_of_joint
from exporters.sheets.packing import PackedPage, pages_packed
from exporters.sheets.paper import Orientation, Scale, scales_for
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pages:
    """What stands where, and the scale of the sections."""

    blocks: Sequence[Block]
    pages: Sequence[PackedPage]
    scale: Scale
    to_scale: int


def inside_sheets(task: WholeTask, sections: Sectioned, groups: Sequence[GluedOn]) -> list[Sheet]:
    """The sheets, as few as hold everything, with the sections near the largest scale that fits.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        sections: where the piece is cut, and its joints.
        groups: parts that no cut locates; without any nothing is said of places.

    Raises:
        NoRoomError: a section or a joint fits on no sheet at any standard scale.
    """
    shown, style = task.piece.shown, task.style
    joints = [
        detail_of_joint(detail, shown, style, hatches_of(task.piece, detail.section.view.frame))
        for _, detail in sections.details
    ]
    rounded = any(_is_rounded(item) for block in joints for item in block.items)
    notes = [NOTE] if groups else []
    notes += [_BRACKETS] if joints else []
    notes += [rounded_note(shown)] if rounded else []
    task = replace(task, notes=tuple(notes))
    most = 0.0
    best: _Pages | None = None
    for found in _tries(task, sections, groups, joints):
        most = most or _COSTS * found.scale.reduction
        if found.scale.reduction > most:
            break
        if best is None or len(found.pages) < len(best.pages):
            best = found
    if best is None:
        raise NoRoomError(f"sections and joints do not fit on {task.paper.title}")
    return [_sheet(task, best, page, number) for number, page in enumerate(best.pages, start=1)]


def _tries(
    task: WholeTask, sections: Sectioned, groups: Sequence[GluedOn], joints: Sequence[Block]
) -> Iterator[_Pages]:
    """The pages at each scale of the sections at which all fits, from the largest."""
    rooms = {way: framed(task, way, None, True).region.grown(-_MARGIN_MM) for way in Orientation}
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
        blocks = [*seen, *joints]
        pages = pages_packed([(b.box.width, b.box.height) for b in blocks], rooms, _GAP_MM)
        if pages is not None:
            yield _Pages(blocks=blocks, pages=pages, scale=scale, to_scale=len(seen))


def _sheet(task: WholeTask, found: _Pages, page: PackedPage, number: int) -> Sheet:
    is_scaled = any(index < found.to_scale for index in page.places)
    scale = found.scale if is_scaled else None
    begun = framed(task, page.orientation, scale, True, scale_told="as shown")
    items: list[Item] = list(begun.items)
    for index, (x, y) in sorted(page.places.items()):
        block = found.blocks[index]
        items += block.moved(x - block.box.left, y - block.box.bottom).items
    return sheet_of(task, page.orientation, scale or Scale(1.0), items, number)


def _is_rounded(item: Item) -> bool:
    return isinstance(item, (Figure, Lettering)) and is_rounded(item.text)
