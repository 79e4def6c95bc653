"""Copies of a batch whose wood comes otherwise are worked by a packet of their own."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache
from pathlib import Path

from exporters import Batch, Copies
from exporters.batch import BuiltBatch, built
from exporters.batch_copies import parted_by_wood
from exporters.batch_packet import found_of
from exporters.command import DONE, run
from exporters.settings import Output, PacketSettings
from exporters.work.checklist import key_to_strips
from furniture import CuttingWishes, GrainRule, Match, MeasuredBoard, PartWish
from furniture.job.copies_in import copies_in
from furniture.making.making import Making
from furniture.making.workpieces import Wood
from furniture.shop.boards import job_of_lots
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.boards.shares import shares_of
from tests.exporters.test_batch import BOX, ROUND
from tests.shop.boards.bench import board, thin_board

APART = CuttingWishes(parts=[PartWish(on="Tea box 2: back rail", grain=GrainRule.EITHER)])


def _planned(
    boards: Sequence[MeasuredBoard],
    wishes: CuttingWishes | None = None,
    matches: Sequence[Match] = (),
) -> tuple[BuiltBatch, CuttingOutcome]:
    batch = built(Batch(name="pair", of=Copies(of=BOX, count=2, matches=matches)), None, None)
    job = job_of_lots(batch.lots, [*boards, thin_board()], wishes)
    return parted_by_wood(batch, outcome_of(job))


@cache
def unlike() -> tuple[BuiltBatch, CuttingOutcome]:
    """Two boxes, of one of which a rail may lie otherwise, so it is cut by itself."""
    return _planned([board(name="L", length="2400 mm", widths="110 mm")], APART)


def _makings(batch: BuiltBatch, cutting: CuttingOutcome) -> dict[str, Making]:
    settings = PacketSettings(outputs=frozenset({Output.WORK}), dated=date(2026, 1, 1))
    found = found_of(batch, settings, cutting, (), is_strict=False)
    assert all(each.facts.work is not None for each in found)
    return {each.member.piece.name: each.facts.work.making for each in found if each.facts.work}


def _lengths(making: Making) -> list[Sequence[str]]:
    return sorted(each.instances for each in making.workpieces if each.what is Wood.COMMON_BLANK)


def test_each_copy_is_worked_from_the_lengths_that_the_plan_lays_for_it() -> None:
    batch, cutting = unlike()
    makings = _makings(batch, cutting)
    assert sorted(makings) == ["Tea box 1", "Tea box 2"]
    assert {each.copies for each in makings.values()} == {1}
    for lot in batch.lots:
        laid = sorted(
            tuple(stretch.name for stretch in each.copy.stretches)
            for each in cutting.blanks
            if each.copy.is_common and cutting.job.lot_of[each.instances[0]].mark == lot.mark
        )
        assert _lengths(makings[lot.mark]) == laid
    assert [len(each) for name in sorted(makings) for each in _lengths(makings[name])] == [4, 3]


def test_rails_that_are_parted_for_want_of_a_board_are_told_so_in_a_batch_too() -> None:
    """Before, the work told of four rails on one length, which the boards did not have."""
    boards = [board(name=name, length="560 mm", widths="110 mm") for name in "LMNO"]
    batch, cutting = _planned(boards, matches=[ROUND])
    (making,) = _makings(batch, cutting).values()
    assert making.copies == 2
    assert [len(each) for each in _lengths(making)] == [2, 2]
    assert len(key_to_strips(making)) == 2


def test_copies_that_are_parted_keep_their_marks_and_their_share_of_the_wood() -> None:
    batch, cutting = unlike()
    assert [(each.mark, each.piece.name, each.design) for each in batch.lots] == [
        ("Tea box 1", "Tea box 1", "Tea box"),
        ("Tea box 2", "Tea box 2", "Tea box"),
    ]
    assert [each.count for each in batch.members] == [1, 1]
    assert [each.piece.name for each in shares_of(cutting)] == ["Tea box 1", "Tea box 2"]
    assert cutting.job.lots == batch.lots


def test_the_packet_of_a_copy_is_found_again_by_its_mark(tmp_path: Path) -> None:
    batch = Batch(name="pair", of=Copies(of=BOX, count=2, matches=[]))
    boards = [board(name="L", length="2400 mm", widths="110 mm"), thin_board()]
    asked = ["--out", str(tmp_path), "--only", "parts", "--only", "cutting"]
    assert run(batch, asked, boards=boards, wishes=APART) == DONE
    packets = copies_in(tmp_path)
    for mark, slug in (("Tea box 1", "tea-box-1"), ("Tea box 2", "tea-box-2")):
        assert packets.packet_of(mark, "tea-box") == tmp_path / slug
        assert (tmp_path / slug / "piece.json").is_file()
    assert run(batch, [*asked, "--against", str(tmp_path)], boards=boards, wishes=APART) == DONE
    assert copies_in(tmp_path / "none").packet_of("Tea box 1", "tea-box").name == "tea-box"


def test_copies_whose_wood_comes_alike_share_one_packet() -> None:
    batch, cutting = _planned([board(name="L", length="2400 mm", widths="110 mm")])
    assert [(each.piece.name, each.count) for each in batch.members] == [("Tea box", 2)]
    assert list(_makings(batch, cutting)) == ["Tea box"]
