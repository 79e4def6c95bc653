"""The list of parts and of what is bought, on paper."""

from __future__ import annotations

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.dxf import document_of
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import InSet, Lettering
from furniture.assembly import AssemblyPlan
from furniture.pieces.bought import Bought, bought_parts, size_in_words
from furniture.pieces.piece import Piece
from furniture.units import millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import model_sheets
from tests.exporters.sheet_samples import SAMPLES
from tests.exporters.sheet_samples import piece_of as piece_with
from tests.exporters.work.sheet_words import words_on
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

NOTHING_TO_DO = AssemblyPlan(steps=())


@pytest.mark.parametrize("name", NAMES)
def test_all_that_is_bought_stands_under_the_parts(name: str) -> None:
    """On the general arrangement, each part with the sheets that draw it."""
    piece = piece_of(name)
    sheets = model_sheets(name)
    (lists,) = [sheet for sheet in sheets if "to buy" in words_on([sheet])] or [sheets[0]]
    told = {
        item.of: item.text
        for item in lists.items
        if isinstance(item, Lettering) and item.in_set is InSet.PART_SHEETS
    }
    drawn: dict[str, list[str]] = {}
    for number, sheet in enumerate(sheets, start=1):
        for part in sheet.parts:
            drawn.setdefault(part, []).append(str(number))
    assert set(told) == {each.part.id for each in piece.placed}
    assert {part: text.split(", ")[0] for part, text in told.items()} == {
        part: numbers[0] if len(numbers) < 2 else f"{numbers[0]} to {numbers[-1]}"
        for part, numbers in drawn.items()
    }
    said = words_on([lists]).split()
    for each in bought_parts(piece):
        words = f"{each.name} {size_in_words(each, piece.shown)} {each.quantity} {each.note}"
        assert set(words.split()) <= set(said)
    assert all(part.part.name.split()[0] in words_on(list(sheets)) for part in piece.placed)


def test_a_long_list_runs_over_and_nothing_is_lost_or_touches() -> None:
    things = tuple(
        Bought(
            name=f"hinge {number}", quantity=number, diameter_mm=4.0 + number, length_mm=30.0,
            where=("lid", "back rail", "left side rail", "right side rail"),
            note="with screws of its own, to be set flush on both parts and filed square",
        )
        for number in range(1, 40)
    )  # fmt: skip
    bare = piece_with(SAMPLES[0])
    piece = Piece(name="x", placed=bare.placed, fixings=things, shown=millimetres())
    sheets = sheets_of(piece, SheetSettings(), order=NOTHING_TO_DO)
    lists = [sheet for sheet in sheets if "parts-list" in sheet.name]
    assert len(lists) > 1
    said = words_on(lists)
    for thing in things:
        assert f"{thing.name} " in said
    for sheet in lists:
        assert collisions_in(document_of(sheet)) == (), sheet.name
