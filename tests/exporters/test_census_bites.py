"""What the census counts is counted: a planted fault of each kind that has no other test."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.dxf import document_of
from exporters.sheets.figures import stroke
from exporters.sheets.pens import LineClass
from exporters.sheets.sheets import sheets_of_parts
from exporters.sheets.values import Lettering, Sheet
from furniture.pieces.piece import distinct_parts
from tests.exporters.blank import CELL_MM, blank_share
from tests.exporters.collisions import collisions_in
from tests.exporters.sheet_samples import RAIL, piece_of


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    """A rail's sheet, as it is drawn."""
    piece = piece_of(RAIL)
    (made,) = sheets_of_parts(piece, SheetSettings(), distinct_parts(piece), 1)
    return made


def test_an_empty_sheet_is_blank_and_a_covered_one_is_not(sheet: Sheet) -> None:
    """Lines a cell apart across the whole, half and nothing of it; rules and the frame are none."""
    frame = sheet.frame

    def ruled(share: float, line_class: LineClass) -> Sheet:
        rows = int(frame.height / CELL_MM * share)
        lines = [
            stroke((frame.left + 0.1, y), (frame.right - 0.1, y), line_class)
            for y in (frame.bottom + CELL_MM * (row + 0.5) for row in range(rows))
        ]
        return replace(sheet, items=tuple(lines))

    assert blank_share(replace(sheet, items=())) == 1.0
    assert blank_share(ruled(1.0, LineClass.VISIBLE)) < 0.01
    assert blank_share(ruled(0.5, LineClass.VISIBLE)) == pytest.approx(0.5, abs=0.04)
    assert blank_share(ruled(1.0, LineClass.PANEL)) == 1.0
    assert blank_share(ruled(1.0, LineClass.FRAME)) == 1.0


def test_what_is_drawn_fills_and_what_is_taken_away_leaves_a_blank(sheet: Sheet) -> None:
    whole = blank_share(sheet)
    texts = tuple(item for item in sheet.items if not isinstance(item, Lettering))
    assert 0.0 < whole < blank_share(replace(sheet, items=texts)) < 1.0


def test_a_leader_through_words_is_found(sheet: Sheet) -> None:
    """Through their middle, from side to side of a clear sheet."""
    assert collisions_in(document_of(sheet)) == ()
    words = next(item for item in sheet.items
                 if isinstance(item, Lettering) and item.text.startswith("mitre"))  # fmt: skip
    (x, y), high = words.at, words.height
    line = stroke((x - 3.0, y - 1.0), (x + 8.0, y + high), LineClass.LEADER)
    found = collisions_in(document_of(replace(sheet, items=(*sheet.items, line))))
    assert any(each.what == words.text and each.with_what == "line: leader" for each in found)
