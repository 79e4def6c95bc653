"""Parts go up by their number through the sheets, where that takes no further sheet."""

from __future__ import annotations

import random
import re
from itertools import chain, pairwise
from typing import Any, cast

import pytest

from exporters.sheets.part_sheet import _Page, _Rows
from exporters.sheets.values import Lettering
from tests.exporters.documents import model_sheets
from tests.models import NAMES


class _OfSizes(_Rows):
    """Parts that take so much of a sheet each; a page is the parts that stand on it."""

    def __init__(self, sizes: list[float]) -> None:
        self._cells = cast(Any, sizes)
        self._sizes = sizes

    def page(self, which: tuple[int, ...]) -> _Page | None:
        """These parts, where a sheet holds them."""
        total = sum(self._sizes[at] for at in which)
        return cast(Any, which) if total <= 1.0 or len(which) == 1 else None


@pytest.mark.seeds(few=40, full=400)
def test_parts_keep_their_order_where_that_takes_no_further_sheet(seed: int) -> None:
    """Else the sheets are fewer, each still in order, and the first parts of sheets too."""
    dice = random.Random(seed)
    rows = _OfSizes([dice.uniform(0.1, 0.9) for _ in range(dice.randint(2, 7))])
    any_order = cast(list[tuple[int, ...]], rows.in_any_order())
    in_order = cast(list[tuple[int, ...]], rows.in_their_order())
    assert sorted(chain(*any_order)) == list(range(len(rows._sizes)))
    assert all(a < b for page in any_order for a, b in pairwise(page))
    assert all(a[0] < b[0] for a, b in pairwise(any_order))
    if len(any_order) == len(in_order):
        assert list(chain(*any_order)) == sorted(chain(*any_order))
    else:
        assert len(any_order) < len(in_order)


def _numbers(texts: list[str]) -> list[list[int]]:
    """The numbers that head the cells of a sheet."""
    headed = [re.match(r"([\d, ]+) [a-z].* \(\d+:\d+\)", text) for text in texts]
    return [[int(each) for each in found[1].split(",")] for found in headed if found]


@pytest.mark.some_models
@pytest.mark.parametrize("name", NAMES)
def test_headings_on_a_models_sheets_go_up(name: str) -> None:
    """On each sheet, within each heading, and from the first of a sheet to that of the next."""
    firsts = []
    for sheet in model_sheets(name):
        if sheet.parts:
            told = _numbers([item.text for item in sheet.items if isinstance(item, Lettering)])
            assert told, sheet.name
            assert all(a < b for each in told for a, b in pairwise(each))
            heads = [each[0] for each in told]
            assert heads == sorted(heads), sheet.name
            firsts.append(heads[0])
    assert firsts == sorted(firsts)


def test_headings_that_go_down_are_seen() -> None:
    assert _numbers(["12, 11 foot, bottom (1:5)", "Made in steps 1 (1)"]) == [[12, 11]]
