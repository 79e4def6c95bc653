"""Whole random pieces for the tests of the sheets: stands on a post, on uprights, and boxes."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded
from hypothesis import strategies as st

from furniture import DesignError, MitredBox, SteppedStand
from furniture.pieces.piece import Piece
from furniture.units import inches
from tests.builders.test_random_designs import boxes, stands, upright_stands

_DRAWN = 12
"""Pieces drawn for one that is kept: the first that are drawn are the simplest."""
_KINDS = (stands, upright_stands, boxes)


def random_piece(seed: int) -> Piece:
    """A valid piece, always the same for a seed: a stand, one on uprights or a box by its
    remainder by three; about every fourth is in inches."""
    found: list[Piece] = []

    @seeded(seed)
    @settings(
        max_examples=_DRAWN,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(design=_KINDS[seed % len(_KINDS)](), is_inch=st.integers(0, 3))
    def draw(design: SteppedStand | MitredBox, is_inch: int) -> None:
        shown = replace(design, shown=inches(64)) if is_inch == 0 else design
        try:
            found.append(shown.build())
        except DesignError:
            return

    draw()
    return found[-1]
