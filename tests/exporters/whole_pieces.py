"""Whole random pieces for the tests of the sheets: stands on a post, on uprights, and boxes."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from hypothesis import strategies as st

from furniture import DesignError
from furniture.pieces.piece import Piece
from furniture.units import inches
from tests.builders.test_random_designs import boxes, stands, upright_stands
from tests.fresh import drawn_by

_DRAWN = 12
"""Pieces drawn for one that is kept: the first that are drawn are the simplest."""
_KINDS = (stands, upright_stands, boxes)


def random_piece(seed: int) -> Piece:
    """A valid piece, always the same for a seed: a stand, one on uprights or a box by its
    remainder by three; about every fourth is in inches."""
    found: list[Piece] = []
    cases = st.tuples(_KINDS[seed % len(_KINDS)](), st.integers(0, 3))
    for design, is_inch in drawn_by(seed, cases, _DRAWN):
        shown = replace(design, shown=inches(64)) if is_inch == 0 else design
        with suppress(DesignError):
            found.append(shown.build())
    return found[-1]
