"""A part that is glued up from strips shows, in each strip, the wood of its place on its board."""

from __future__ import annotations

import numpy as np
import pytest

from exporters.grain import wood_of_instances, woods_of_boards
from exporters.work.work_of import work_of
from furniture.pieces.piece import placed_named
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from tests.shop.boards.bench import board, box, thin_board

LID = "lid"


@pytest.fixture(scope="module")
def outcome() -> CuttingOutcome:
    """A box whose lid is wider than either of its narrow boards: a strip comes off each."""
    boards = [
        board(),
        thin_board(name="T", length="400 mm", widths="90 mm"),
        thin_board(name="U", length="400 mm", widths="90 mm"),
    ]
    return outcome_of(cutting_job(box(), boards))


def test_each_strip_is_of_its_own_place_on_its_board(outcome: CuttingOutcome) -> None:
    """The strip's middle is that of its rectangle; the second is read from its own board."""
    piece = box()
    lid = placed_named(piece, LID).part.blank
    laid = [each for plan in outcome.used for each in plan.placements if each.strip]
    assert sorted((each.strip, each.board) for each in laid) in (
        [(1, "T"), (2, "U")], [(1, "U"), (2, "T")],
    )  # fmt: skip
    shown = wood_of_instances(piece, work_of(piece, None, outcome).making, outcome)[LID]
    boards = woods_of_boards(piece, outcome)
    along = np.linspace(-80.0, 80.0, 33)
    for each in laid:
        assert not each.is_turned
        # a joint in the middle: both strips are half the lid, the glued edge loses 1.5 mm
        share = (0.25, 0.75)[each.strip - 1]
        across, deep = share * lid.width_mm, lid.thickness_mm / 2
        outer = (each.place.width_mm - lid.width_mm / 2) - 1.5
        off_middle = (outer - 1.5) / 2 * (1, -1)[each.strip - 1]
        points = np.array([[lid.length_mm / 2 + x, across, deep] for x in along])
        middle = each.place.y_mm + each.place.width_mm / 2
        up = -1.0 if each.is_flipped else 1.0
        there = np.array([
            [each.place.x_mm + each.place.length_mm / 2 + x, middle + up * off_middle, 10.2 / 2]
            for x in along
        ])  # fmt: skip
        expected = boards[each.board].colours(there, 0.5)
        assert shown.colours(points, 0.5) == pytest.approx(expected, abs=1e-6)
        other = next(name for name in ("T", "U") if name != each.board)
        assert not np.allclose(boards[other].colours(there, 0.5), expected, atol=0.02)
