"""General arrangement, lists, exploded view, sections and joints gathered on fewer sheets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain, product

from exporters.sheets.assembly_sheet import views_together
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError, text_lines
from exporters.sheets.gathering import (
    OnPages,
    Placeable,
    TaskOf,
    gathered,
    rooms_of,
    sheets_gathered,
)
from exporters.sheets.geometry import items_box
from exporters.sheets.inside_sheet import (
    COSTS,
    EXPLODED_MM,
    INSIDE,
    Exploded,
    inside_drawn,
    joints_drawn,
    notes_inside,
    with_notes,
)
from exporters.sheets.lettering import wrapped
from exporters.sheets.lists_sheet import Listed, lists_stacked
from exporters.sheets.paper import Box2, Orientation, Scale, scales_for
from exporters.sheets.pens import SheetStyle
from exporters.sheets.positions import GluedOn
from exporters.sheets.section_planes import Sectioned
from exporters.sheets.space import leaders_cross
from exporters.sheets.values import Sheet, Shows
from exporters.sheets.whole_task import WholeTask

_UNDER_MM = 2.0
_FULL = 0.9
"""Blocks of all sizes do not fill more of their pages than this. Search effort."""
_EVERY = (frozenset({Shows.WHOLE, Shows.EXPLODED, Shows.INSIDE}),
          frozenset({Shows.LISTS, Shows.INSIDE}))  # fmt: skip
"""The sheets with the longest titles: what they leave, all leave."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathering:
    """What is to be gathered.

    Args:
        arranged: the views of the whole, and the notes on it.
        task_of: what the sheets say.
        lists: of parts and of what is bought.
        sections: where the piece is cut, and its joints.
        groups: parts that no cut locates.
        exploded: draws the exploded view so high.
        has_plan: whether the top view may be left to a level section.
    """

    arranged: WholeTask
    task_of: TaskOf
    lists: tuple[Listed, ...]
    sections: Sectioned
    groups: Sequence[GluedOn]
    exploded: Exploded
    has_plan: bool


def gathered_sheets(wanted: Gathering, largest: Scale, most: int) -> list[Sheet] | None:
    """All of it on at most so many sheets, at the largest scale at which they hold it; or none.

    The picture of the whole is left to the exploded view; the scale may come out one step smaller,
    and sections one step smaller than the views. Own rule.

    Args:
        wanted: what they show.
        largest: scale that the views have on a sheet of their own.
        most: sheets.
    """
    inside = wanted.task_of(INSIDE)
    joints = joints_drawn(inside, wanted.sections)
    notes = notes_inside(inside, wanted.sections, wanted.groups, joints)
    task_of = with_notes(wanted.task_of, notes)
    rooms = rooms_of(map(task_of, _EVERY))
    room = _Room(sheets=rooms, style=inside.style, most=most)
    pictures = _Pictures(wanted.exploded)
    known = scales_for(wanted.arranged.piece.shown.is_inch)
    for scale in _a_step(known, largest):
        try:
            together = list(views_together(wanted.arranged, scale, wanted.has_plan))
        except NoRoomError:
            continue
        views = [way for view in together for way in _ways_to_tell(view, wanted.arranged)]
        for smaller in _a_step(known, scale):
            own = [each for each in reversed(known) if smaller >= each >= scale]
            try:
                drawn = inside_drawn(inside, wanted.sections, wanted.groups, scale, joints, own)
            except NoRoomError:
                continue
            ways = product(views, _ways_to_list(wanted, rooms, views[0][0]), drawn)
            tried = (
                _with_picture([*first, *lists], seen, pictures, room) for first, lists, seen in ways
            )
            found = [each for each in tried if each is not None]
            if found:
                return sheets_gathered(min(found, key=_cost), task_of, scale)
    return None


def _a_step(known: Sequence[Scale], largest: Scale) -> Iterator[Scale]:
    """This scale and those that are one step of scale smaller at most, the largest first."""
    for scale in known:
        if largest.reduction <= scale.reduction <= COSTS * largest.reduction:
            yield scale


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """What a sheet has for blocks, and how many sheets are of use."""

    sheets: Mapping[Orientation, Box2]
    style: SheetStyle
    most: int


class _Pictures:
    """The exploded view in every size in which it can be drawn and no leaders of its numbers cross,
    each drawn once it is asked for."""

    def __init__(self, exploded: Exploded) -> None:
        self._exploded = exploded
        self._drawn: dict[float, Block | None] = {}

    def __iter__(self) -> Iterator[Block]:
        """The smallest first."""
        for high in reversed(EXPLODED_MM):
            if high not in self._drawn:
                try:
                    self._drawn[high] = self._exploded(high)
                except NoRoomError:
                    self._drawn[high] = None
            picture = self._drawn[high]
            if picture is not None and not leaders_cross(picture.items):
                yield picture


def _ways_to_tell(views: Block, task: WholeTask) -> list[list[Placeable]]:
    """The views with the notes on the whole under them, and the notes apart: the foot of each sheet
    is left to those on sections and joints."""
    lines = (wrapped(each, task.style.text_height_mm, views.box.width) for each in task.notes)
    told = tuple(chain.from_iterable(lines))
    at = (views.box.left, views.box.bottom - _UNDER_MM)
    words = text_lines(told, *at, task.style)
    under = Placeable(block=views.with_items([*words]), shows=Shows.WHOLE, is_to_scale=True)
    if not words:
        return [[under]]
    box = items_box(words)
    apart = replace(views, at=at, core=box, box=box, items=tuple(words))
    return [[under], [replace(under, block=views), Placeable(block=apart, shows=None, near=0)]]


def _ways_to_list(
    wanted: Gathering, rooms: Mapping[Orientation, Box2], like: Placeable
) -> list[list[Placeable]]:
    """The lists under one another, and each apart."""
    style = wanted.arranged.style
    width = min(room.width for room in rooms.values())
    groupings = dict.fromkeys(((wanted.lists,), tuple((each,) for each in wanted.lists)))
    stacks = [[lists_stacked(group, width, style) for group in groups] for groups in groupings]
    return [
        [
            Placeable(
                block=replace(like.block, at=(0.0, 0.0), core=box, box=box, items=tuple(items)),
                shows=Shows.LISTS,
                near=0,
            )
            for items, box in stack
        ]
        for stack in stacks
    ]


def _with_picture(
    first: Sequence[Placeable],
    others: Sequence[Placeable],
    pictures: _Pictures,
    room: _Room,
) -> OnPages | None:
    """The blocks and the largest picture that these pages hold with them and for which none must
    stand further apart; none where not even the smallest finds room."""
    best: OnPages | None = None
    most = _FULL * room.most * max(each.width * each.height for each in room.sheets.values())
    filled = sum(each.block.box.width * each.block.box.height for each in (*first, *others))
    if filled > most:
        return None
    for picture in pictures:
        if filled + picture.box.width * picture.box.height > most:
            break
        view = Placeable(block=picture, shows=Shows.EXPLODED, near=0)
        pages = gathered([*first, view, *others], room.sheets, room.style, room.most)
        if pages is None or (best is not None and _cost(pages) > _cost(best)):
            break
        best = pages
    return best


def _cost(pages: OnPages) -> tuple[int, int]:
    return len(pages.pages), pages.parted
