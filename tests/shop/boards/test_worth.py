"""Loose parts cut only if it pays: from a maker's wish to terminal, table, record and sheets."""

from __future__ import annotations

from functools import cache

import pytest

from exporters.cutting import boards_answer, cutting_record
from exporters.cutting.findings import place_groups
from exporters.cutting.sheets import cutting_sheets
from exporters.cutting.tables import CUTTING_HEADER, cutting_rows
from exporters.sheets.dxf import document_of
from exporters.sheets.values import SheetSettings
from furniture import CuttingWishes, DesignError, MeasuredBoard, PartWish, SawSetUp
from furniture.checks.finding import Verdict
from furniture.parts.blank import Blank
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import BACK, RIGHT
from furniture.pieces import Piece, compose
from furniture.shop.boards.job import cutting_job, job_of_lots
from furniture.shop.boards.lots import Lot
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.timber.stock import read_stock
from furniture.units import Reader
from tests.exporters.collisions import collisions_in
from tests.shop.boards.bench import THICK, board, box, thin_board

SAW = SawSetUp(shortest_rip="150 mm", shortest_crosscut="80 mm")


@cache
def _with_coasters() -> Piece:
    """A tray board and six loose coasters of one stock; no joint holds any of them."""
    timber = read_stock(Reader(), "stock", THICK)

    def laid(name: str, number: int, length: float, width: float) -> Placed:
        blank = Blank(length_mm=length, width_mm=width, thickness_mm=timber.thickness_mm)
        return Placed(
            instance=f"{name} {number}" if number else name,
            part=Part(name=name, blank=blank, timber=timber),
            placement=Placement(origin=(0.0, 200.0 * number, 0.0), x_axis=RIGHT, y_axis=BACK),
        )

    placed = [laid("tray", 0, 500.0, 150.0)]
    placed += [laid("coaster", number, 95.0, 95.0) for number in range(1, 7)]
    return compose(name="Tray", placed=placed, joints=[])


def _outcome(worth: str, *boards: MeasuredBoard) -> CuttingOutcome:
    wishes = CuttingWishes(parts=PartWish(on="coasters", worth=worth), seconds=60.0)  # type: ignore[arg-type]
    return outcome_of(cutting_job(_with_coasters(), list(boards), wishes, SAW))


@cache
def _cheap() -> CuttingOutcome:
    """Coasters at 1 EUR: as many as the tray's own board has room for."""
    return _outcome(
        "1 EUR",
        board(name="A", length="850 mm", widths="160 mm", price="20 EUR"),
        board(name="B", length="850 mm", widths="160 mm", price="20 EUR"),
    )


def test_extras_share_the_board_that_is_begun_and_begin_none() -> None:
    plan = _cheap().plan
    assert plan is not None
    assert plan.unplaced == ()
    assert [each.board for each in plan.boards] == ["A"]
    assert 1 <= sum(each.copies for each in plan.left_out) < 6
    assert plan.proof.is_proven


def test_extras_that_are_worth_a_board_get_one() -> None:
    outcome = _outcome(
        "15 EUR",
        board(name="A", length="850 mm", widths="160 mm", price="20 EUR"),
        board(name="B", length="850 mm", widths="160 mm", price="20 EUR"),
    )
    assert outcome.plan is not None
    assert outcome.plan.left_out == ()


def test_it_is_told_everywhere_and_fails_nothing() -> None:
    outcome = _cheap()
    assert outcome.plan is not None
    (left,) = outcome.plan.left_out
    said = "left out: not worth a board, worth 1 EUR each"
    assert any(said in line for line in boards_answer(outcome))
    rows = [dict(zip(CUTTING_HEADER, row, strict=True)) for row in cutting_rows(outcome)]
    (row,) = [row for row in rows if row["what"] == "LEFT OUT"]
    assert said in row["note"]
    record = cutting_record(outcome)
    assert record["status"] == "planned"
    assert record["unplaced"] == []
    assert [each["copies"] for each in record["left_out"]] == [left.copies]
    assert record["costs"]["left_out"] == left.copies
    told = str([boards_answer(outcome), rows, record])
    assert "NO PLACE" not in told
    verdicts = {f.verdict for group in place_groups(outcome) for f in group.findings}
    assert verdicts == {Verdict.OK}
    assert outcome.to_buy == ()


def test_the_sheets_list_it_and_nothing_collides() -> None:
    sheets = cutting_sheets(_with_coasters(), _cheap(), SheetSettings(), 1)
    texts = [str(item) for sheet in sheets for item in sheet.items]
    assert any("not worth a board" in text for text in texts)
    assert not any("NO PLACE" in text for text in texts)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == ()


def test_without_boards_extras_are_not_bought() -> None:
    alone = PartWish(on="coasters", worth="4 EUR")
    asked = CuttingWishes(parts=alone)  # type: ignore[arg-type]
    every = outcome_of(cutting_job(_with_coasters(), saw=SAW))
    musts = outcome_of(cutting_job(_with_coasters(), (), asked, SAW))
    assert sum(p.board_feet for p in musts.to_buy) < sum(p.board_feet for p in every.to_buy)


def test_a_part_that_a_joint_holds_has_to_have_a_place() -> None:
    wishes = CuttingWishes(parts=[PartWish(on="all", worth="4 EUR")])
    with pytest.raises(DesignError, match="cannot be put together without it"):
        cutting_job(box(), [board(), thin_board()], wishes)


def test_a_worth_that_is_no_price_is_refused() -> None:
    with pytest.raises(DesignError, match="worth"):
        _outcome("much", board())


def test_as_many_copies_of_a_loose_piece_are_made_as_pay() -> None:
    """Five lots of one part each: the pile has room for some of them on the board that is free."""
    coaster = compose(name="Coaster", placed=_with_coasters().placed[1:2], joints=[])
    worth = PartWish(on="all", worth="4 EUR")
    lots = [
        Lot(piece=coaster, parts=worth, mark=f"coaster {n}")  # type: ignore[arg-type]
        for n in range(1, 6)
    ]
    boards = [
        board(name="A", length="400 mm", widths="120 mm", price="5 EUR"),
        board(name="B", length="400 mm", widths="120 mm", price="30 EUR"),
    ]
    job = job_of_lots(lots, boards, CuttingWishes(seconds=60.0), saw=SAW)
    plan = outcome_of(job).plan
    assert plan is not None
    assert (plan.unplaced, [each.board for each in plan.boards]) == ((), ["A"])
    assert sum(each.copies for each in plan.left_out) + len(plan.boards[0].placements) == 5
