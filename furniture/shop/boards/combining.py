"""Which parts of a job are cut as common blanks, and the job with them."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from furniture.blanks import CommonBlank, common_blanks, parted, runs_round_corners
from furniture.shop.boards.copies import Copy, LotBlank
from furniture.shop.boards.cut_parts import PartDemands, common_part, cut_parts
from furniture.shop.boards.cutting_job import Commons, CuttingJob
from furniture.shop.boards.lots import Lot, off_their_boards, placed_by_name
from furniture.shop.boards.reading_matches import Matched
from furniture.shop.boards.reading_wishes import Wish
from furniture.shop.cutting import values as cutting
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.cover import fits_alone


def with_common_blanks(
    job: CuttingJob, demands: PartDemands, matches: Sequence[Matched]
) -> CuttingJob:
    """The job with parts that share their work as one blank, as far as some board takes it."""
    blanks = _sound(_blanks_of_lots(job, demands, matches), matches)
    commons = Commons(blanks=blanks, apart=job, demands=demands, matches=tuple(matches))
    return with_blanks(commons, blanks)


def with_blanks(commons: Commons, blanks: Sequence[LotBlank]) -> CuttingJob:
    """The job with these common blanks instead; without any, that of every part by itself.

    Args:
        blanks: of which no two share an instance.
    """
    apart = commons.apart
    if not blanks:
        return apart
    job = combined(apart, commons.demands, commons.matches, blanks)
    return replace(job, commons=replace(commons, blanks=tuple(blanks)))


def with_parted(commons: Commons, too_large: Collection[tuple[str, ...]]) -> tuple[LotBlank, ...]:
    """The common blanks, some of them parted in two.

    Args:
        too_large: those that are parted, by their instances.
    """
    kerf = commons.apart.request.saw.kerf_mm
    found: list[LotBlank] = []
    for each in commons.blanks:
        shares = _halves(each.common, kerf) if each.instances in too_large else (each.common,)
        found += [LotBlank(lot=each.lot, common=share) for share in shares]
    return _sound(found, commons.matches)


def _halves(blank: CommonBlank, kerf: float) -> tuple[CommonBlank, ...]:
    return parted(blank, kerf, lambda share: len(share.members) < len(blank.members))


def combined(
    job: CuttingJob,
    demands: PartDemands,
    matches: Sequence[Matched],
    blanks: Sequence[LotBlank] = (),
) -> CuttingJob:
    """The job with its parts, their copies and its matches for these common blanks.

    Args:
        job: of which boards, saw and lots count.
        blanks: common blanks; every other instance is cut by itself.
    """
    held = [set(blank.instances) for blank in blanks]
    kept = [m for m in matches if any(whole.issuperset(m.instances) for whole in held)]
    left = [m for m in matches if m not in kept]
    matched = frozenset(name for m in left for name in m.instances if name in demands.matched)
    parts, copies = cut_parts(job.lots, replace(demands, matched=matched), blanks)
    of_part = {copy.instances: part for part, several in copies.items() for copy in several}
    copy_of = {n: copy for several in copies.values() for copy in several for n in copy.instances}

    def members(match: Matched) -> tuple[Copy, ...]:
        return tuple({copy_of[n].instances: copy_of[n] for n in match.instances}.values())

    def group(match: Matched) -> cutting.MatchGroup:
        names = tuple(of_part[copy.instances] for copy in members(match))
        return replace(match.group, members=names)

    placed = placed_by_name(job.lots)
    request = job.request
    return replace(
        job,
        request=replace(
            request,
            parts=parts,
            matches=tuple(group(each) for each in left),
        ),
        copies=copies,
        sequences={
            each.group.name: members(each)
            for each in left
            if each.group.rule is cutting.MatchRule.IN_SEQUENCE
        },
        stocks={
            name: placed[several[0].instances[0]].part.timber.name
            for name, several in copies.items()
        },
        kept=tuple(group(each) for each in kept),
    )


def _blanks_of_lots(
    job: CuttingJob, demands: PartDemands, matches: Sequence[Matched]
) -> list[LotBlank]:
    """The common blanks of every copy, each parted until some board takes it."""
    alone = {*_by_themselves(job.lots, demands, matches), *off_their_boards(job.lots)}
    does_fit = _judge(job.request)
    known: dict[tuple[object, ...], tuple[CommonBlank, ...]] = {}
    found = []
    for lot in job.lots:
        own = {lot.called(each.instance): each.instance for each in lot.piece.placed}
        apart = frozenset(name for called, name in own.items() if called in alone)
        told = [
            tuple(own[name] for name in each.instances)
            for each in matches
            if each.group.rule is cutting.MatchRule.IN_SEQUENCE and own.keys() >= {*each.instances}
        ]
        runs = _runs(told, runs_round_corners(lot.piece), apart)
        wishes = tuple(demands.wish_of.get(called) for called in own)
        key = (id(lot.piece), tuple(runs), apart, wishes)
        if key not in known:
            known[key] = _of_lot(lot, runs, apart, job.request.saw.kerf_mm, demands, does_fit)
        found += [LotBlank(lot=lot, common=each) for each in known[key]]
    return found


def _of_lot(
    lot: Lot,
    runs: Sequence[Sequence[str]],
    apart: frozenset[str],
    kerf: float,
    demands: PartDemands,
    does_fit: Callable[[cutting.CutPart], bool],
) -> tuple[CommonBlank, ...]:
    whole = common_blanks(lot.piece, runs, kerf, alone=apart)
    return tuple(
        share
        for each in whole
        for share in parted(
            each,
            kerf,
            lambda blank: does_fit(common_part(LotBlank(lot=lot, common=blank), demands)),
        )
    )


def _judge(request: cutting.CuttingRequest) -> Callable[[cutting.CutPart], bool]:
    """Whether a board takes a part; where none are given, whether one that is sold would."""

    def is_sold(part: cutting.CutPart) -> bool:
        longest = request.longest_sold_mm - 2 * request.saw.end_trim_mm
        return part.rough_length_mm <= longest

    def is_there(part: cutting.CutPart) -> bool:
        alone = replace(request, parts=(part,), matches=())
        return any(fits_alone(alone, blanks_of(alone, frozenset())))

    return is_there if request.boards else is_sold


def _by_themselves(
    lots: Sequence[Lot], demands: PartDemands, matches: Sequence[Matched]
) -> Collection[str]:
    """Instances that share no blank, since what is wished of them is wished of each alone."""
    found = {
        name
        for name, wish in demands.wish_of.items()
        if (wish.grain, wish.wants, wish.worth) != (Wish().grain, None, None)
    }
    lot_of = {lot.called(each.instance): lot.mark for lot in lots for each in lot.piece.placed}
    for each in matches:
        rule, odd = each.group.rule, each.group.odd_one
        is_across = len({lot_of[name] for name in each.instances}) > 1
        is_sequence = rule is cutting.MatchRule.IN_SEQUENCE
        has_odd = odd is not cutting.OddOne.NONE
        if not rule.is_one_board or has_odd or (is_sequence and is_across):
            found.update(each.instances)
    return found


def _runs(
    told: Sequence[tuple[str, ...]],
    round_corners: Sequence[tuple[str, ...]],
    apart: Collection[str],
) -> list[tuple[str, ...]]:
    """The maker's sequences, then those round corners of what is left, broken at what is apart."""
    named = {name for run in told for name in run}
    return [
        *(share for run in told for share in _broken(run, apart)),
        *(share for run in round_corners for share in _broken(run, named.union(apart))),
    ]


def _broken(run: Sequence[str], out: Collection[str]) -> list[tuple[str, ...]]:
    """The stretches of a run between those that are out of it."""
    groups = itertools.groupby(run, out.__contains__)
    return [tuple(names) for is_out, names in groups if not is_out]


def _sound(blanks: Sequence[LotBlank], matches: Sequence[Matched]) -> tuple[LotBlank, ...]:
    """The blanks but those that would tear a sequence apart: small equals not next to another."""
    in_order = [m.instances for m in matches if m.group.rule is cutting.MatchRule.IN_SEQUENCE]
    return tuple(
        each for each in blanks if all(_is_run(each.instances, order) for order in in_order)
    )


def _is_run(names: tuple[str, ...], order: tuple[str, ...]) -> bool:
    """Whether the names stand one after another in the order, or none of them in it."""
    if not set(names) & set(order):
        return True
    start = order.index(names[0]) if names[0] in order else 0
    return order[start : start + len(names)] == names
