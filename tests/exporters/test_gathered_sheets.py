"""Views, lists, sections and joints on few sheets: each stands once, what is apart says where."""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Sequence
from itertools import combinations

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.blocks import Block
from exporters.sheets.gathering import GAP_MM, OnPages, Placeable, gathered, sheets_gathered
from exporters.sheets.numbering import numbered
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.pens import ISO_STYLE
from exporters.sheets.section_planes import sectioned
from exporters.sheets.sheets import sheets_of, tasks_of
from exporters.sheets.values import InSet, Lettering, Sheet, Shows
from exporters.views.frames import StandardView, standard_frame
from tests.exporters.documents import model_sheets
from tests.exporters.whole_pieces import random_piece
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

ROOMS = {
    Orientation.LANDSCAPE: Box2(left=0.0, bottom=0.0, right=250.0, top=150.0),
    Orientation.PORTRAIT: Box2(left=0.0, bottom=0.0, right=165.0, top=235.0),
}
WHOLE_SHEETS = {
    "button_box": 2, "herb_stand": 3, "key_rack": 1, "seedling_steps": 2, "tea_box": 2,
    "yarn_steps": 3,
}  # fmt: skip
"""So many have been seen to hold all that is shown of the whole: none may come back."""


def _block(wide: float, high: float) -> Block:
    box = Box2(left=3.0, bottom=-7.0, right=3.0 + wide, top=high - 7.0)
    frame = standard_frame(StandardView.FRONT)
    return Block(frame=frame, factor=1.0, at=(0.0, 0.0), core=box, box=box, items=())


def _section(letter: str, wide: float, high: float, on: str = "") -> Placeable:
    return Placeable(block=_block(wide, high), shows=Shows.INSIDE, letter=letter, marked_on=on)


def _lot(seed: int) -> list[Placeable]:
    """Two sections, details on both, and others, of random sizes."""
    dice = random.Random(seed)
    sections = [_section(each, dice.uniform(60, 160), dice.uniform(40, 140)) for each in "AB"]
    details = [
        _section(letter, dice.uniform(30, 90), dice.uniform(30, 90), dice.choice("AB"))
        for letter in "CDEFGH"[: dice.randint(1, 6)]
    ]
    others = [
        Placeable(block=_block(dice.uniform(20, 165), dice.uniform(10, 80)), shows=Shows.LISTS)
        for _ in range(dice.randint(0, 3))
    ]
    return [*sections, *details, *others]


def _boxes(found: OnPages) -> list[list[Box2]]:
    return [
        [
            Box2(left=x, bottom=y, right=x + found.drawn[index].box.width,
                 top=y + found.drawn[index].box.height)
            for index, (x, y) in page.places.items()
        ]
        for page in found.pages
    ]  # fmt: skip


@pytest.mark.parametrize("seed", range(12))
def test_each_stands_once_and_clear_of_the_others(seed: int) -> None:
    placed = _lot(seed)
    found = gathered(placed, ROOMS, ISO_STYLE)
    assert found is not None
    assert sorted(index for page in found.pages for index in page.places) == list(
        range(len(placed))
    )
    for page, boxes in zip(found.pages, _boxes(found), strict=True):
        assert all(ROOMS[page.orientation].holds(box) for box in boxes)
        assert not any(a.grown(GAP_MM - 1e-6).overlaps(b) for a, b in combinations(boxes, 2))
    again = gathered(_lot(seed), ROOMS, ISO_STYLE)
    assert again is not None
    assert again.pages == found.pages


@pytest.mark.parametrize("seed", range(12))
def test_shelves_of_like_heights_never_take_fewer_sheets(seed: int) -> None:
    """Rows under one another, highest first, are another way to fill a sheet, and a poorer one."""
    placed = _lot(seed)
    found = gathered(placed, ROOMS, ISO_STYLE)
    assert found is not None
    for room in ROOMS.values():
        sizes = sorted(
            ((each.block.box.width, each.block.box.height) for each in placed),
            key=lambda size: -size[1],
        )
        if all(wide <= room.width and high <= room.height for wide, high in sizes):
            assert len(found.pages) <= _in_shelves(sizes, room)


def _in_shelves(sizes: Sequence[tuple[float, float]], room: Box2) -> int:
    pages, x, down, deep = 1, 0.0, 0.0, 0.0
    for wide, high in sizes:
        if x + wide > room.width:
            x, down, deep = 0.0, down + deep + GAP_MM, 0.0
        if down + high > room.height:
            pages, x, down, deep = pages + 1, 0.0, 0.0, 0.0
        x, deep = x + wide + GAP_MM, max(deep, high)
    return pages


def _references(sheet: Sheet) -> list[tuple[str, str]]:
    return [
        (item.text, item.of)
        for item in sheet.items
        if isinstance(item, Lettering) and item.in_set is InSet.VIEW_SHEET
    ]


def test_a_detail_that_stands_apart_says_where_its_section_is_and_it_where_the_detail() -> None:
    """Two details share the sheet of their section, two fill the next one."""
    placed = [
        _section("A", 150, 100), _section("B", 70, 100, "A"),
        _section("C", 150, 140, "A"), _section("D", 60, 120, "A"),
    ]  # fmt: skip
    found = gathered(placed, {Orientation.LANDSCAPE: ROOMS[Orientation.LANDSCAPE]}, ISO_STYLE)
    assert found is not None
    piece = piece_of("tea_box")
    sheets = numbered(sheets_gathered(found, tasks_of(piece, SheetSettings()), Scale(1.0)))
    assert [each.letters for each in sheets] == [("A", "B"), ("C", "D")]
    assert _references(sheets[0]) == [("C, D on sheet 2", "C")]
    assert _references(sheets[1]) == [("marked on A-A, sheet 1", "A")] * 2
    together = gathered(placed[:2], ROOMS, ISO_STYLE)
    assert together is not None
    assert all(not block.items for block in together.drawn)


def _check_whole(sheets: Sequence[Sheet], letters: Counter[str]) -> None:
    """Of a packet: every view once, and words at what stands apart from its section, no others."""
    whole = [each for each in sheets if each.shows]
    for what in (Shows.WHOLE, Shows.EXPLODED):
        assert sum(what in each.shows for each in whole) == 1
    assert Counter(letter for each in whole for letter in each.letters) == letters
    on = {letter: n for n, each in enumerate(sheets, 1) for letter in each.letters}
    for number, sheet in enumerate(sheets, 1):
        for text, of in _references(sheet):
            told = re.fullmatch(r"(?:marked on (\w)-\1, |([\w, ]+) on )sheet (\d+)", text)
            assert told, text
            assert int(told[3]) == on[of] != number
            for letter in (told[1] or told[2]).split(", "):
                assert on[letter] == on[of]


@pytest.mark.parametrize("name", NAMES)
def test_every_view_of_a_model_stands_on_one_of_few_sheets(name: str) -> None:
    found = sectioned(piece_of(name))
    sheets = model_sheets(name)
    letters = Counter(plane.letter for plane in found.planes if plane.is_whole)
    letters.update(detail.letter or detail.plane for _, detail in found.details)
    _check_whole(sheets, letters)
    on = {letter: n for n, each in enumerate(sheets, 1) for letter in each.letters}
    apart = {
        (on[detail.letter], plane.letter)
        for plane, detail in found.details
        if plane.is_whole and on[detail.letter] != on[plane.letter]
    }
    told = {
        (number, of)
        for number, sheet in enumerate(sheets, 1)
        for text, of in _references(sheet)
        if text.startswith("marked")
    }
    assert apart <= told
    of_whole = [
        each for each in sheets if each.shows and not each.shows & {Shows.WORK, Shows.GLUE_UPS}
    ]
    assert len(of_whole) == WHOLE_SHEETS[name]


@pytest.mark.seeds(few=1, full=30)
def test_every_view_of_a_random_piece_stands_once(seed: int) -> None:
    piece = random_piece(seed)
    found = sectioned(piece)
    letters = Counter(plane.letter for plane in found.planes if plane.is_whole)
    letters.update(detail.letter or detail.plane for _, detail in found.details)
    _check_whole(sheets_of(piece, SheetSettings()), letters)
