"""Strips are glued up where a part's wood is told of: in copies of a batch, in bare packets."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache

import pytest

from exporters import Batch, Copies
from exporters.batch import BuiltBatch, built
from exporters.batch_packet import found_of
from exporters.cutting import cutting_record
from exporters.settings import Output, PacketSettings
from exporters.summary import summary_of
from furniture import MitredBox
from furniture.job.worked import of_copy, worked_in
from furniture.making.begun import Begun
from furniture.making.making import Making, making_of
from furniture.making.operations import Kind
from furniture.making.strips_in_hand import laid_in_strips
from furniture.shop.boards import job_of_lots
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from tests.making.glued_up import THIN, of_strips, outcome_of_strips, wide_box
from tests.making.made import amiss
from tests.making.targets import SAME_MM3
from tests.shop.boards.bench import THICK, board, thin_board

BOX = MitredBox(name="Wide box", rails=THICK, lid=THIN, bottom=THIN, width="420 mm",
                depth="260 mm", height="80 mm")  # fmt: skip
COPIES = ("Wide box 1", "Wide box 2")
GLUED = {"lid", "bottom"}


@cache
def two() -> tuple[BuiltBatch, CuttingOutcome]:
    """Two boxes whose lids and bottoms are wider than any board."""
    batch = built(Batch(name="pair", of=Copies(of=BOX, count=2, matches=[])), None, None)
    boards = [
        board(name="R", length="2400 mm"), board(name="S", length="2400 mm"),
        *(thin_board(name=name, length="1300 mm", widths="100 mm", thickness="18 mm")
          for name in "TUVW"),
    ]  # fmt: skip
    return batch, outcome_of(job_of_lots(batch.lots, boards))


def _glued_in(making: Making) -> set[str]:
    return {each.gives[0] for each in making.operations if each.kind is Kind.EDGE_GLUE}


def test_the_work_of_a_piece_that_is_made_twice_glues_up_its_strips() -> None:
    batch, outcome = two()
    settings = PacketSettings(outputs=frozenset({Output.WORK}), dated=date(2026, 1, 1))
    (found,) = found_of(batch, settings, outcome, (), is_strict=False)
    assert found.facts.work is not None
    assert _glued_in(found.facts.work.making) == GLUED
    (bare,) = found_of(batch, settings, None, (), is_strict=False)
    assert bare.facts.work is not None
    assert _glued_in(bare.facts.work.making) == set()


def test_parts_come_out_of_strips_that_are_told_without_their_boards() -> None:
    made, laid = of_strips(), tuple(laid_in_strips(outcome_of_strips()))
    commons = outcome_of_strips().job.common_blanks
    making = making_of(made.piece, commons, made.shop, begun=Begun(in_strips=laid))
    found = amiss(replace(made, making=making))
    assert max(found.parts.values(), default=0.0) < SAME_MM3
    assert sorted(map(str, found.faults)) == []


@pytest.mark.parametrize("mark", COPIES)
def test_each_copy_knows_its_own_strips_from_the_plan_of_all(mark: str) -> None:
    _, outcome = two()
    plan = worked_in({"cutting_plan": cutting_record(outcome)})
    assert len(plan.in_strips) == 2 * len(GLUED)
    own = of_copy(worked_in({}), plan, mark)
    assert {name for each in own.in_strips for name in each.instances} == GLUED


def test_a_packet_without_work_tells_the_same_strips_as_one_with_it() -> None:
    piece = wide_box()
    bare = summary_of(piece, None, (), (), cutting=cutting_record(outcome_of_strips()))
    assert "work" not in bare or bare["work"] is None
    from_plan = worked_in(bare).in_strips
    assert {name for each in from_plan for name in each.instances} == GLUED
    making = making_of(piece, outcome_of_strips().job.common_blanks, of_strips().shop,
                       begun=Begun(in_strips=from_plan))  # fmt: skip
    assert _glued_in(making) == GLUED
