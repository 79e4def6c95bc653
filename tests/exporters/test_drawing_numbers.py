"""What a set of sheets says of itself: its drawing numbers, and the changed rules it follows."""

from __future__ import annotations

import dataclasses
import re

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Lettering, Sheet
from furniture.rules import ShopRules, read_rules
from furniture.units import Reader
from tests import models
from tests.exporters.documents import model_sheets


@pytest.mark.some(few=1)
@pytest.mark.parametrize("model", ["herb_stand", "yarn_steps"])
def test_every_sheet_has_a_drawing_number_of_its_own(model: str) -> None:
    """Joints in section, and a part shared out over several sheets, take more than one."""
    piece = models.piece_of(model)
    sheets = model_sheets(model)
    seen = set()
    for number, sheet in enumerate(sheets, start=1):
        texts = [item.text for item in sheet.items if isinstance(item, Lettering)]
        (own,) = [text for text in texts if re.fullmatch(rf"{piece.slug}-[A-Z]\d*(\.\d+)?", text)]
        assert own not in seen, sheet.name
        seen.add(own)
        assert f"{number} of {len(sheets)}" in texts
        assert sheet.name.startswith(f"{number:02d}-")


def test_the_first_sheet_says_by_which_changed_rules_the_piece_is_made() -> None:
    piece = models.piece_of("tea_box")
    rules = read_rules(Reader(), ShopRules(tilt_asked="12 deg"))
    told = "Made and judged by changed rules: tilt_asked 12° (usually 10°)."

    def words(first: Sheet) -> str:
        return " ".join(item.text for item in first.items if isinstance(item, Lettering))

    assert told in words(sheets_of(dataclasses.replace(piece, rules=rules), SheetSettings())[0])
    assert "changed rules" not in words(model_sheets("tea_box")[0])
