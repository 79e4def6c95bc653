"""The board sheets of the models, laid out once for all tests that read them."""

from __future__ import annotations

from datetime import date
from functools import cache

from exporters.cutting.called import Called
from exporters.cutting.sheets import cutting_sheets
from exporters.faces import FaceNames
from exporters.sheets.values import Sheet, SheetSettings
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model


@cache
def board_sheets_of(name: str) -> tuple[Sheet, ...]:
    """The sheets of a model's boards, with its faces by their names."""
    piece, settings = piece_of(name), SheetSettings(dated=date(2026, 1, 1))
    called = Called(names=FaceNames(piece=piece))
    return cutting_sheets(piece, outcome_of_model(name), settings, 1, called)
