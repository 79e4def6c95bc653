"""Figures put together at random: read as a finite number, or refused as our own error, at once."""

from __future__ import annotations

import contextlib
import random
import time

import pytest

from furniture.units import ReadingError
from tests.units.test_odd_figures import READERS

_SHARDS = [
    "0", "1", "5", "12", "260", "3.5", ".5", "1/2", "3/64", "10 1/4", "10-1/4", "1e3", "1e9999",
    "-", "+", "/", "⁄", "½", "⅟", "²", "①", ".", ",", " ", "\u00a0", "\u200b", "\0", "\n", "\t",
    "(", ")", "[", "#", "?", "%", "°", "'", '"', "″", "mm", "cm", "m", "in", "ft", "inches", "kg",
    "g", "lb", "oz", "deg", "rad", "pc", "Mm", "ly", "e", "E", "j", "inf", "nan", "*", "**", "^",
    "_", "=", "٥", "\ud800", "🙂", "e400", "to", "or", "9" * 30,
]  # fmt: skip


@pytest.mark.seeds(few=1, full=18)
@pytest.mark.parametrize("reader", READERS)
def test_no_text_ever_ends_in_a_foreign_error_or_takes_long(reader, seed):
    """Figures put together of shards: read as a finite number, or refused as our own error."""
    draw = random.Random(seed)
    for _ in range(1_500):
        text = "".join(draw.choice(_SHARDS) for _ in range(draw.randint(1, 7)))
        begun = time.perf_counter()
        with contextlib.suppress(ReadingError):
            assert abs(READERS[reader](text)) < float("inf")
        assert time.perf_counter() - begun < 5.0, ascii(text)
