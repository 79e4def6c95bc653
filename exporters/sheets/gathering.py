"""Blocks of the whole piece gathered on few sheets: those that stand apart say where the other is.

A section and its details stand on one sheet where that takes no further one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.packing import PackedPage, page_spread, pages_together
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.pens import SheetStyle
from exporters.sheets.section_planes import Sectioned
from exporters.sheets.values import Anchor, InSet, Item, Lettering, Sheet, Shows
from exporters.sheets.whole_task import WholeTask, framed, sheet_of

GAP_MM = 6.0
_MARGIN_MM = 3.0
_UNDER_MM = 1.2
_NUMBER = "00"
"""Holds the room of a sheet's number until it is known."""

TaskOf = Callable[[frozenset[Shows]], WholeTask]
"""What a sheet says that shows this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placeable:
    """A block that looks for a sheet.

    Args:
        block: itself.
        shows: what a sheet shows by it; none for words that any sheet may have.
        is_to_scale: whether it is drawn to the scale of the sheets.
        letter: of the section or the detail, if it is one.
        marked_on: the letter of the section that its letter stands on.
        near: the index of what it should share a sheet with.
    """

    block: Block
    shows: Shows | None
    is_to_scale: bool = False
    letter: str = ""
    marked_on: str = ""
    near: int | None = None


@dataclass(frozen=True, kw_only=True)
class OnPages:
    """Where blocks stand, and how they are drawn: with words that say where others are."""

    placed: Sequence[Placeable]
    pages: Sequence[PackedPage]
    drawn: Sequence[Block]

    @cached_property
    def page_of(self) -> Mapping[int, int]:
        """The page of each block, from 0."""
        return {index: number for number, page in enumerate(self.pages) for index in page.places}

    @property
    def parted(self) -> int:
        """So many pairs do not stand on one sheet."""
        return sum(self.page_of[a] != self.page_of[b] for a, b in _pairs(self.placed))


def rooms_of(tasks: Iterable[WholeTask]) -> dict[Orientation, Box2]:
    """What each sheet has for blocks, whichever of these it is.

    Args:
        tasks: what the sheets may say.
    """
    every = list(tasks)
    return {
        way: min((framed(each, way, None, True).region for each in every), key=_high)
        .grown(-_MARGIN_MM)
        for way in Orientation
    }  # fmt: skip


def _high(room: Box2) -> float:
    return room.height


def gathered(
    placed: Sequence[Placeable],
    rooms: Mapping[Orientation, Box2],
    style: SheetStyle,
    most: int | None = None,
) -> OnPages | None:
    """The fewest pages found that hold all, what belongs together on one where they do.

    Args:
        placed: in the order in which they look for a place.
        rooms: what a page has for them, by how it lies.
        style: of what they say of one another.
        most: so many pages are of use; left out, any number.
    """
    bare = [each.block for each in placed]
    for pages in pages_together(_sizes(bare), rooms, GAP_MM, _pairs(placed), most):
        found = _with_words(OnPages(placed=placed, pages=pages, drawn=bare), rooms, style)
        if found is not None:
            return found
    return None


def _sizes(blocks: Sequence[Block]) -> list[tuple[float, float]]:
    return [(each.box.width, each.box.height) for each in blocks]


def _pairs(placed: Sequence[Placeable]) -> list[tuple[int, int]]:
    lettered = {each.letter: index for index, each in enumerate(placed) if each.letter}
    pairs = [
        (lettered[each.marked_on], index) for index, each in enumerate(placed) if each.marked_on
    ]
    return pairs + [
        (each.near, index) for index, each in enumerate(placed) if each.near is not None
    ]


def _with_words(
    found: OnPages, rooms: Mapping[Orientation, Box2], style: SheetStyle
) -> OnPages | None:
    """The same with what they say of one another; none where a page has no room for that."""
    drawn = [
        _saying(block, list(_words(found, index)), style) for index, block in enumerate(found.drawn)
    ]
    pages: list[PackedPage] = []
    # those with words first: the others have room, and only have to be spread
    for page in sorted(found.pages, key=lambda page: not _differ(drawn, found.drawn, page)):
        wider = page_spread(_sizes(drawn), page, rooms[page.orientation], GAP_MM)
        if wider is None and _differ(drawn, found.drawn, page):
            return None
        pages.append(wider or page)
    pages.sort(key=lambda page: found.page_of[next(iter(page.places))])
    return replace(found, drawn=drawn, pages=pages)


def _differ(drawn: Sequence[Block], before: Sequence[Block], page: PackedPage) -> bool:
    """Whether anything on this page says more than before."""
    return any(drawn[index] is not before[index] for index in page.places)


def _words(found: OnPages, index: int) -> Iterator[tuple[str, str]]:
    """Of what stands on other sheets: words that end in the sheet, and a letter that is there."""
    own, on = found.placed[index], found.page_of
    if own.marked_on:
        (parent,) = (n for n, each in enumerate(found.placed) if each.letter == own.marked_on)
        if on[parent] != on[index]:
            yield f"marked on {own.marked_on}-{own.marked_on}, sheet", own.marked_on
    away: dict[int, list[str]] = {}
    for other, each in enumerate(found.placed):
        if own.letter and each.marked_on == own.letter and on[other] != on[index]:
            away.setdefault(on[other], []).append(each.letter)
    for letters in away.values():
        yield f"{', '.join(letters)} on sheet", letters[0]


def _saying(block: Block, words: Sequence[tuple[str, str]], style: SheetStyle) -> Block:
    """The block with these lines under it, and room for a sheet's number at the end of each."""
    height, middle = style.text_height_mm, (block.box.left + block.box.right) / 2
    y = block.box.bottom - _UNDER_MM
    bare: list[Item] = []
    held: list[Item] = []
    for text, letter in words:
        y -= height * LINE_SHARE
        line = Lettering(
            text=text,
            at=(middle, y),
            height=height,
            anchor=Anchor.CENTRE,
            in_set=InSet.VIEW_SHEET,
            of=letter,
        )
        bare.append(line)
        held.append(replace(line, text=f"{text} {_NUMBER}"))
    return replace(block.with_items(held), items=(*block.items, *bare)) if words else block


def lettered(
    sections: Sequence[Block], joints: Sequence[Block], of: Sectioned, scale: Scale
) -> list[Placeable]:
    """Sections and details with their letters.

    Args:
        sections: those that are drawn whole, in order.
        joints: all details, in order.
        of: their planes.
        scale: of their sheets.
    """
    whole = [plane for plane in of.planes if plane.is_whole]
    marked = {
        plane.letter: next((each.letter for each in whole if each.marks(plane)), "")
        for plane in of.planes
    }
    return [
        *(
            Placeable(
                block=block, shows=Shows.INSIDE, is_to_scale=block.factor == scale.factor,
                letter=plane.letter, marked_on=marked[plane.letter],
            )
            for block, plane in zip(sections, whole, strict=True)
        ),
        *(
            Placeable(
                block=block, shows=Shows.INSIDE, letter=detail.letter or detail.plane,
                marked_on=plane.letter if plane.is_whole else marked[plane.letter],
            )
            for block, (plane, detail) in zip(joints, of.details, strict=True)
        ),
    ]  # fmt: skip


def sheets_gathered(found: OnPages, task_of: TaskOf, scale: Scale) -> list[Sheet]:
    """The sheets, in the order of what looks for a place first.

    Args:
        found: what stands on them.
        task_of: what each of them says.
        scale: of what is to scale.
    """
    sheets = []
    for page in sorted(found.pages, key=lambda page: min(page.places)):
        shown = [found.placed[index] for index in sorted(page.places)]
        shows = frozenset(each.shows for each in shown if each.shows is not None)
        task = task_of(shows or frozenset({Shows.WHOLE}))
        own = scale if any(each.is_to_scale for each in shown) else None
        begun = framed(task, page.orientation, own, True, scale_told="as shown")
        items: list[Item] = list(begun.items)
        for index, (x, y) in sorted(page.places.items()):
            block = found.drawn[index]
            items += block.moved(x - block.box.left, y - block.box.bottom).items
        made = sheet_of(task, page.orientation, own or Scale(1.0), items)
        letters = tuple(each.letter for each in shown if each.letter)
        sheets.append(replace(made, letters=letters))
    return sheets
