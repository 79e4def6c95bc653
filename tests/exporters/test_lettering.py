"""Lettering: where a paragraph may be broken into lines."""

from __future__ import annotations

import pytest

from exporters.sheets.lettering import wrapped


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("2 notches, each 4 1/64 + (4.020) long x 1/4 deep, from both ends", "4 1/64 +"),
        ("tier 1: mark from this shoulder, 9 31/32", "9 31/32"),
        ("they stand 0.5 mm proud", "0.5 mm"),
        ("rail tops stand 1/64 in proud of the lid", "1/64 in"),
    ],
)
def test_a_figure_is_never_broken_over_two_lines(text: str, kept: str) -> None:
    for width in range(6, 90):
        lines = wrapped(text, 2.5, float(width))
        assert " ".join(lines) == text
        assert any(kept in line for line in lines), width


def test_lines_are_no_longer_than_their_width_where_words_allow() -> None:
    assert wrapped("a bc def", 2.5, 1000.0) == ("a bc def",)
    assert wrapped("a bc def", 2.5, 0.1) == ("a", "bc", "def")
    assert wrapped("  ", 2.5, 10.0) == ()
