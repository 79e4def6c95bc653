"""The words in a part's cell: names, marks and callouts, each where there is room for it."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from enum import Enum

from exporters.sheets.annotation import Callout, Look, Shoulder
from exporters.sheets.arrange import Arrangement
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError, place_callout, place_nearest
from exporters.sheets.details import Detail, circle_on_view
from exporters.sheets.face_marks import names_round, side_names
from exporters.sheets.geometry import items_box
from exporters.sheets.paper import Box2
from exporters.sheets.part_marks import detail_mark, grain_arrow, tag
from exporters.sheets.part_task import PartTask
from exporters.sheets.pens import SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Item, Lettering
from furniture.parts.cuts.left import put
from furniture.parts.vectors import add, scaled, subtract

_MARK_FROM = "mark from this shoulder"
_ALONG_SHOULDER = (0.0, 1.0, 0.5)
"""Where along a shoulder a leader may point, by its length: its ends first. Own rule."""
_ROUND_MM = 45.0
"""How far from a view words stand that are moved with it."""


class Words(Enum):
    """Where the words of a side view or a section stand."""

    ANYWHERE = "where the cell has room"
    AT_THE_VIEW = "beside the view, and moved with it"
    BY_LETTER = "where the cell has room, with a letter at what is meant"


def stand_at_the_view(callout: Callout, enlarged: Collection[str]) -> bool:
    """Whether a callout can be moved with its view: it has a leader there, and to nothing else.

    Args:
        callout: of a cut.
        enlarged: words of callouts that point into details.
    """
    is_aside = callout.look is not Look.FACE_SIDE and not callout.shoulders
    return is_aside and not callout.tag and callout.text not in enlarged


def lettered(callouts: Collection[Callout], aside: Collection[Callout]) -> tuple[Callout, ...]:
    """The callouts, some of them with a letter in place of a leader.

    Args:
        callouts: of a part, in their order.
        aside: those that get one.
    """
    count = sum(bool(each.tag) for each in callouts)
    found = []
    for each in callouts:
        if each in aside:
            tag, count = chr(ord("a") + count), count + 1
            each = replace(each, tag=tag, text=f"{tag}: {each.text}")
        found.append(each)
    return tuple(found)


def with_words(block: Block, callouts: Collection[Callout], style: SheetStyle) -> Block:
    """A view with its callouts beside it.

    Args:
        block: the view.
        callouts: of what it shows.
        style: pens and heights.

    Raises:
        NoRoomError: one finds no place there.
    """
    for callout in callouts:
        space = Space(block.box.grown(_ROUND_MM))
        space.add(list(block.items))
        targets = [block.to_paper(target) for target in callout.choices or callout.targets]
        block = block.with_items(
            place_nearest(callout.text, targets, space, style, [block.core.grown(0.5)])
        )
    return block


def words_in_cell(
    task: PartTask,
    callouts: tuple[Callout, ...],
    items: list[Item],
    rooms: tuple[Box2, Box2],
    placed: Arrangement,
    details: list[Detail],
) -> list[Item]:
    """All that is drawn in a cell: the views where they stand, with the words beside them.

    Args:
        task: what is drawn.
        callouts: of its cuts, but those that stand in their view's block already.
        items: that the cell has in it already.
        rooms: the cell, and what of it lies below its heading.
        placed: the views.
        details: what of them is shown larger, in the order of the other blocks.

    Raises:
        NoRoomError: something finds no place.
    """
    style = task.style
    cell, below_head = rooms
    space = Space(cell)
    space.add(items)
    shown = [*placed.blocks.values(), *placed.others]
    for block in shown:
        space.add(block.items)
        items += block.items
    face = placed.blocks[Look.FACE_SIDE]
    # a circle stands where its detail is; names can go elsewhere
    space.add([circle_on_view(placed.blocks[each.callout.look], each)[0] for each in details])
    items += names_round(task.part, task.faces, face, space, style)
    cores = [block.core.grown(0.5) for block in shown]
    items += grain_arrow(face, placed, space, style)
    carriers = dict(zip([detail.letter for detail in details], placed.others, strict=False))
    enlarged: dict[str, Block] = {}
    for detail in details:
        marked = placed.blocks[detail.callout.look]
        items += detail_mark(detail, marked, below_head, space, style)
        enlarged[detail.callout.text] = carriers[detail.letter]
    by_letter: dict[str, list[Lettering]] = {}
    notes: dict[str, Box2] = {}
    for callout in callouts:  # letters stand at what they mean, so they have the first choice
        if callout.tag:
            block = enlarged.get(callout.text, placed.blocks[callout.look])
            by_letter[callout.tag] = [
                tag(callout.tag, block.to_paper(target), block, space, style)
                for target in callout.targets
            ]
    for look, block in placed.blocks.items():
        if look is not Look.FACE_SIDE:
            items += side_names(task.faces, look, block, space, style)
    for callout in callouts:
        block = enlarged.get(callout.text, placed.blocks[callout.look])
        targets = [block.to_paper(target) for target in callout.targets]
        if callout.tag:
            note = place_callout(callout.text, targets[0], space, style, cores, has_leader=False)
            notes[callout.tag] = items_box(note)
            by_letter[callout.tag].append(_first_line(note))
            items += [each for each in note if each not in by_letter[callout.tag]]
        elif callout.text in enlarged:
            items += place_callout(callout.text, targets[0], space, style, cores)
        else:
            choices = [block.to_paper(target) for target in callout.choices] or targets
            items += place_nearest(callout.text, choices, space, style, cores)
        if callout.shoulders:
            marked, shoulders = block, callout.shoulders[:1]  # a detail shows the first one
            if callout.text not in enlarged:
                marked, shoulders = placed.blocks[shoulders[0].at.look], callout.shoulders
            items += _shoulder_told(task, shoulders, marked, space, cores)
    return [*items, *_in_order(by_letter, as_read(notes))]


def _first_line(note: list[Item]) -> Lettering:
    return next(each for each in note if isinstance(each, Lettering))


def as_read(notes: Mapping[str, Box2]) -> list[str]:
    """The letters of notes as the eye meets them: from the top down, and of those beside one
    another from the left.

    Args:
        notes: where each stands, by its letter [mm].
    """
    left = sorted(notes, key=lambda letter: -notes[letter].top)
    found: list[str] = []
    while left:
        row = [each for each in left if notes[each].top > notes[left[0]].bottom]
        found += sorted(row, key=lambda letter: notes[letter].left)
        left = [each for each in left if each not in row]
    return found


def _in_order(by_letter: Mapping[str, list[Lettering]], read: list[str]) -> Iterator[Lettering]:
    """Letters and the lines that begin with them, lettered anew as they are read."""
    for new, old in zip(sorted(read), read, strict=True):
        for each in by_letter[old]:
            yield replace(each, text=new + each.text[1:])


def _shoulder_told(
    task: PartTask,
    shoulders: Sequence[Shoulder],
    block: Block,
    space: Space,
    keep_out: list[Box2],
) -> list[Item]:
    """Which shoulder to mark from, told at the first where there is room along it, else at another.

    The leader comes from the datum that the shoulder is struck from, over wood that stays: over the
    trench it would seem to point at the other one.

    Raises:
        NoRoomError: there is none at any of them.
    """
    for shoulder in shoulders:
        axis, first = shoulder.at.axis, shoulder.first
        run = (
            add(first, scaled(subtract(shoulder.last, first), share)) for share in _ALONG_SHOULDER
        )
        targets = list(dict.fromkeys(block.to_paper(point) for point in run))
        away = -1.0 if task.faces.datums.on(axis).is_far else 1.0
        (x, y), (u, v) = block.to_paper(first), block.to_paper(put(first, axis, first[axis] + away))
        long = math.dist((x, y), (u, v))
        way = ((u - x) / long, (v - y) / long)
        try:
            return place_nearest(_MARK_FROM, targets, space, task.style, keep_out, way)
        except NoRoomError:
            continue
    raise NoRoomError(f"no room for: {_MARK_FROM}")
