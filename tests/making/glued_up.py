"""A box whose lid and bottom no board is wide enough for: three strips each, off two boards."""

from __future__ import annotations

from functools import cache

from furniture import MitredBox, Stock
from furniture.pieces import Piece
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from tests.making.made import Made
from tests.making.test_from_boards import made_from
from tests.shop.boards.bench import THICK, board, thin_board

THIN = Stock(name="thin", species="white oak", thickness="14 mm", moisture="9 %")


@cache
def wide_box() -> Piece:
    """A flat box, its lid and bottom over 200 mm wide."""
    return MitredBox(
        name="Wide box", rails=THICK, lid=THIN, bottom=THIN, width="420 mm", depth="260 mm",
        height="80 mm",
    ).build()  # fmt: skip


@cache
def outcome_of_strips() -> CuttingOutcome:
    """Its plan from boards 100 mm wide, one a little thicker than the other."""
    boards = [
        board(length="2400 mm"),
        thin_board(name="T", length="1300 mm", widths="100 mm", thickness="18 mm"),
        thin_board(name="U", length="1300 mm", widths="98 mm", thickness="17 mm"),
    ]
    return outcome_of(cutting_job(wide_box(), boards))


@cache
def of_strips() -> Made:
    """The box from its boards to the last coat."""
    return made_from(wide_box(), outcome_of_strips())
