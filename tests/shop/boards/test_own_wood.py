"""Boards of a maker's own wood are kept for the stocks of it, by stock or by the wood's name."""

from __future__ import annotations

import dataclasses

import pytest

from furniture import MeasuredBoard, MitredBox, OwnWood, Stock
from furniture.shop.boards.job import cutting_job

MANGO = OwnWood(name="mango", density="650 kg/m3")
RAILS = Stock(name="mango, rails", species=MANGO, thickness="15 mm")
LID = Stock(name="mango, lid", species=MANGO, thickness="15 mm")
BOX = MitredBox(
    name="Box", rails=RAILS, lid=LID, width="240 mm", depth="160 mm", height="80 mm",
    lid_gap_across="2 mm",
)  # fmt: skip
BOARD = MeasuredBoard(name="A", length="1500 mm", widths="200 mm", thickness="15.5 mm")


@pytest.mark.parametrize("stock", ["mango", MANGO, LID, "mango, lid"])
def test_a_board_is_kept_for_the_own_wood(stock: object) -> None:
    if stock is MANGO:
        stock = Stock(species=MANGO, thickness="15 mm")
    job = cutting_job(BOX.build(), [dataclasses.replace(BOARD, stock=stock)])
    assert set(job.species.values()) == {"mango"}
