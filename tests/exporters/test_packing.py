"""Rectangles packed onto sheets keep clear of each other and of what stands there already."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import combinations

import pytest

from exporters.sheets.packing import packed_from_the_top, packed_round
from exporters.sheets.paper import Box2, Projection
from exporters.sheets.pens import ISO_STYLE
from exporters.sheets.title_block import TITLE_WIDTH_MM, TitleFields, title_block
from exporters.sheets.values import Lettering

GAP_MM = 4.0


def _boxes(sizes: list[tuple[float, float]], places: list[tuple[float, float]]) -> list[Box2]:
    return [
        Box2(left=x, bottom=y, right=x + wide, top=y + high)
        for (wide, high), (x, y) in zip(sizes, places, strict=True)
    ]


def _sizes(seed: int, count: int) -> list[tuple[float, float]]:
    dice = random.Random(seed)
    return [(dice.uniform(5.0, 90.0), dice.uniform(5.0, 60.0)) for _ in range(count)]


@pytest.mark.parametrize("seed", range(20))
def test_what_is_packed_from_the_top_stands_apart_and_reaches_as_far_as_told(seed: int) -> None:
    sizes = _sizes(seed, 7)
    packed = packed_from_the_top(sizes, 120.0, GAP_MM)
    assert packed is not None
    places, height = packed
    boxes = _boxes(sizes, places)
    assert not any(a.grown(GAP_MM - 1e-6).overlaps(b) for a, b in combinations(boxes, 2))
    assert all(box.left >= 0.0 and box.right <= 120.0 + 1e-6 and box.top <= 1e-6 for box in boxes)
    assert min(box.bottom for box in boxes) == pytest.approx(-height)
    assert height < sum(high + GAP_MM for _, high in sizes)  # something stands beside another
    assert packed_from_the_top(sizes, 120.0, GAP_MM, height + 1e-6) == packed
    assert packed_from_the_top(sizes, 120.0, GAP_MM, height - 1e-3) is None


@pytest.mark.parametrize("seed", range(20))
def test_what_is_packed_round_others_keeps_clear_of_them(seed: int) -> None:
    room = Box2(left=10.0, bottom=20.0, right=210.0, top=170.0)
    taken = [Box2(left=10.0, bottom=100.0, right=90.0, top=170.0)]
    sizes = _sizes(seed, 4)
    places = packed_round(sizes, taken, room, GAP_MM)
    if places is None:
        assert packed_round([*sizes, (300.0, 1.0)], taken, room, GAP_MM) is None
        return
    boxes = _boxes(sizes, places)
    assert all(room.holds(box) for box in boxes)
    pairs = combinations([*boxes, *taken], 2)
    assert not any(a.grown(GAP_MM - 1e-6).overlaps(b) for a, b in pairs)


def test_a_title_block_has_no_cell_that_says_nothing_and_is_as_wide_as_ever() -> None:
    fields = TitleFields(
        title="Stand: board A", piece="Stand", drawing_number="stand-B-A", scale="1:5",
        sheet="1 of 9", date="2026-01-01", revision="-", units="mm",
        projection=Projection.FIRST_ANGLE, paper="A4", document_type="cutting plan",
    )  # fmt: skip
    items, box = title_block(fields, 287.0, 10.0, ISO_STYLE)
    texts = {item.text for item in items if isinstance(item, Lettering)}
    assert not texts & {"owner", "drawn", "approved", "items", "material", "finish"}
    assert {"date", "2026-01-01", "cutting plan", "stand-B-A", "1 of 9"} <= texts
    assert box.width == pytest.approx(TITLE_WIDTH_MM)
    fuller, high = title_block(replace(fields, finish="oil, 2 coats"), 287.0, 10.0, ISO_STYLE)
    assert {"finish", "oil, 2 coats"} <= {i.text for i in fuller if isinstance(i, Lettering)}
    assert high.height > box.height
