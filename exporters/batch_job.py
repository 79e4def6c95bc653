"""A batch gone on with in the middle of its job: what is done and measured of each copy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from exporters.batch import Batch, BuiltBatch, Copies, Member
from exporters.job import GivenBoards, buildable_of, mark_lines, refuse_same
from furniture.errors import DesignError
from furniture.job.batch_file import Copy, read_batch_job
from furniture.job.boards_now import boards_now, listed_boards
from furniture.job.going_on import GoingOn, gone_on_with
from furniture.rules import ShopRules
from furniture.shop.boards.lots import Lot
from furniture.shop.tools.values import ShopRead


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchGoingOn:
    """A batch in the middle of its job.

    Args:
        batch: a copy that is begun or measured is a piece of its own in it.
        boards: what there is to cut from.
    """

    batch: BuiltBatch
    boards: GivenBoards


def batch_going_on(
    batch: Batch,
    built: BuiltBatch,
    path: Path,
    out: Path,
    boards: GivenBoards,
    rules: ShopRules | None,
    shop: ShopRead,
) -> BatchGoingOn:
    """The job of a batch gone on with.

    Args:
        batch: as the script hands it on.
        built: the same with its pieces built.
        path: of the job file.
        out: the folder that is written.
        boards: as the script lists them.
        rules: the shop's own limits.
        shop: what is on hand.

    Raises:
        DesignError: with every problem of the file, or else of the jobs of all copies.
    """
    given = batch.of if isinstance(batch.of, (list, tuple)) else (batch.of,)
    designs = [each.of if isinstance(each, Copies) else each for each in given]
    by_piece = {
        id(member.piece): (member, buildable_of(design))
        for member, design in zip(built.members, designs, strict=True)
    }
    copies = [
        Copy(mark=lot.mark, design=by_piece[id(lot.piece)][1], piece=lot.piece)
        for lot in built.lots
    ]
    there = listed_boards(boards)
    job = read_batch_job(path, copies, there, built.shown)
    packets = [each.packet for each in job.of_copies if each.packet is not None]
    refuse_same(packets[0].parent if packets else None, out)
    going, problems = [], []
    for copy, own in zip(copies, job.of_copies, strict=True):
        try:
            going.append(gone_on_with(copy.design, own, rules, shop.saw, there))
        except DesignError as error:
            problems += [
                replace(each, parameter=f"{copy.mark}: {each.parameter}") for each in error.problems
            ]
    if problems:
        raise DesignError(problems)
    pieces = {copy.mark: each.piece for copy, each in zip(copies, going, strict=True)}
    left = boards if boards and not there else boards_now(there, job.of_boards, pieces)
    members = [by_piece[id(lot.piece)][0] for lot in built.lots]
    begun = replace(_batch(built, members, going), told=tuple(mark_lines(job.of_boards)))
    return BatchGoingOn(batch=begun, boards=left)


def _batch(built: BuiltBatch, members: Sequence[Member], going: Sequence[GoingOn]) -> BuiltBatch:
    """The batch with every copy that is begun or measured as a piece of its own."""
    lots: list[Lot] = []
    own: list[Member] = []
    for lot, member, each in zip(built.lots, members, going, strict=True):
        if not _is_begun(each):
            lots.append(lot)
            continue
        piece = replace(each.piece, name=lot.mark, copy_of=lot.piece.name)
        own.append(Member(piece=piece, setting=member.setting, count=1,
                          job=replace(each, piece=piece)))  # fmt: skip
        lots.append(replace(lot, piece=piece, design=lot.piece.name))
    waiting = [
        replace(member, count=count)
        for member in built.members
        if (count := sum(lot.piece is member.piece for lot in lots))
    ]
    return replace(built, members=(*own, *waiting), lots=tuple(lots))


def _is_begun(going: GoingOn) -> bool:
    job = going.job
    return bool(job.begun or job.measured or job.diagonals or going.piece.in_hand)
