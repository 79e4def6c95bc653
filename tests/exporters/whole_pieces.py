"""Whole random pieces for the tests of the sheets: stands on a post, on uprights, and boxes."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from furniture import DesignError, MitredBox, SteppedStand
from furniture.pieces.piece import Piece
from furniture.units import inches
from tests.builders.test_random_designs import boxes, stands, upright_stands

_DRAWN, _STRIDE = 40, 5  # neighbours in a pool are alike
_KINDS = (stands, upright_stands, boxes)


def random_piece(number: int) -> Piece:
    """A valid piece: a stand, one on uprights, a box, and so on; every fourth is in inches."""
    pieces = _pool(number % len(_KINDS))
    return pieces[number // len(_KINDS) * _STRIDE % len(pieces)]


@cache
def _pool(kind: int) -> tuple[Piece, ...]:
    """Pieces drawn from one of the builders' own strategies, always the same."""
    found: list[Piece] = []

    @settings(
        max_examples=_DRAWN,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(design=_KINDS[kind](), is_inch=st.integers(0, 3))
    def draw(design: SteppedStand | MitredBox, is_inch: int) -> None:
        shown = replace(design, shown=inches(64)) if is_inch == 0 else design
        try:
            found.append(shown.build())
        except DesignError:
            return

    draw()
    # the first that are drawn are the simplest: the last are the most varied
    return tuple(reversed(found))
