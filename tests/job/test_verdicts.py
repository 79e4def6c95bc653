"""Verdicts on random pieces with random changes: each is true, none is worse than it must be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from furniture.job import Old, Say, Verdict, old_of, verdicts_of
from furniture.job.values import CutWork
from furniture.pieces import Piece
from furniture.shop.cutting.values import Saw
from tests.job.carrying_out import carried_out, faults_of, holds_somewhere, solids_of
from tests.job.random_changes import changed_pair
from tests.models import NAMES, piece_of

SAW = Saw(shortest_rip=300.0, narrowest_rip=50.0, shortest_crosscut=200.0, planing_loss=2.0)
TRIES = np.array([0.0, 1.0, 0.5, 0.25, 0.75, 0.1, 0.9])


@pytest.mark.parametrize("name", NAMES)
def test_what_did_not_change_stays(name: str) -> None:
    piece = piece_of(name)
    assert {each.say for each in verdicts_of(old_of(piece), piece, SAW)} == {Say.AS_IS}


@pytest.mark.seeds(few=12, full=200)
def test_what_is_carried_out_is_the_new_piece(seed: int) -> None:
    """The old part, trimmed and cut as told and in no other way, is the new part."""
    before, after = changed_pair(seed)
    assert faults_of(verdicts_of(old_of(before), after, SAW), after) == []


@pytest.mark.seeds(few=12, full=200)
def test_no_part_is_made_new_that_an_old_one_holds(seed: int) -> None:
    """Wood that nobody takes holds none of the new parts, turned and laid as one will."""
    before, after = changed_pair(seed)
    verdicts = verdicts_of(old_of(before), after, SAW)
    assert worse_than_possible(verdicts, old_of(before), after) == []


def worse_than_possible(verdicts: tuple[Verdict, ...], old: Old, new: Piece) -> list[str]:
    """New parts that wood which is not needed would hold."""
    taken = {each.old.name for each in verdicts if each.old and each.say is not Say.NOT_NEEDED}
    spare = [part for part in old.parts if part.name not in taken]
    solids, _ = solids_of(new)
    blanks = {each.instance: each.part for each in new.placed}
    return [
        f"{each.instance} from {part.name}"
        for each in verdicts
        if each.say is Say.MAKE_NEW
        for part in spare
        if part.wood.species == blanks[each.instance].timber.species.name
        and part.blank.thickness_mm < blanks[each.instance].blank.thickness_mm + SAW.planing_loss
        and holds_somewhere(part, solids[each.instance], blanks[each.instance].blank.size, TRIES)
    ]


@pytest.mark.seeds(few=6, full=60)
def test_what_is_put_together_then_does_not_clash(seed: int) -> None:
    """The parts as they come of the verdicts overlap no more than the designed ones do."""
    before, after = changed_pair(seed)
    solids, rows = solids_of(after)
    made = dict(solids)
    for each in verdicts_of(old_of(before), after, SAW):
        if each.say in (Say.TRIM, Say.RECUT):
            made[each.instance] = carried_out(each, rows[each.instance])
    placed = {}
    for each in after.placed:
        place = each.placement
        matrix = np.column_stack([place.x_axis, place.y_axis, place.z_axis, place.origin])
        placed[each.instance] = made[each.instance].transform(matrix)
    names = list(placed)
    for index, first in enumerate(names):
        for second in names[index + 1 :]:
            assert (placed[first] ^ placed[second]).volume() < 1.5, (first, second)


def _trims() -> tuple[tuple[Verdict, ...], Piece]:
    """Verdicts with every kind of work in them."""
    for seed in range(200):
        before, after = changed_pair(seed)
        verdicts = verdicts_of(old_of(before), after, SAW)
        works = {made.work for each in verdicts for made in each.cuts}
        if works >= {CutWork.GROW} and any(each.off for each in verdicts):
            return verdicts, after
    raise AssertionError("no random change asks for a trim and a cut")


def _with(verdicts: tuple[Verdict, ...], at: int, **changes: object) -> tuple[Verdict, ...]:
    return tuple(
        replace(each, **changes) if index == at else each  # type: ignore[arg-type]
        for index, each in enumerate(verdicts)
    )


def test_planted_faults_are_found() -> None:
    verdicts, after = _trims()
    assert faults_of(verdicts, after) == []
    cut = next(index for index, each in enumerate(verdicts) if each.cuts)
    assert faults_of(_with(verdicts, cut, cuts=verdicts[cut].cuts[1:]), after), "a cut left out"
    off = next(index for index, each in enumerate(verdicts) if each.off)
    assert faults_of(_with(verdicts, off, off=()), after), "a trim left out"
    place = verdicts[off].place
    assert place is not None
    low = (place.off_low[0] + 0.5, *place.off_low[1:])
    moved = replace(place, off_low=low)
    assert faults_of(_with(verdicts, off, place=moved), after), "half a millimetre beside"
    assert faults_of(verdicts[1:], after), "a part left out"
    assert faults_of(_with(verdicts, off, say=Say.AS_IS), after), "as it is, and it is not"
    new = _with(verdicts, off, say=Say.MAKE_NEW, old=None, place=None)
    assert faults_of(new, after), "new without a reason"


def test_a_part_made_new_for_nothing_is_found() -> None:
    piece = piece_of("herb_stand")
    verdicts = verdicts_of(old_of(piece), piece, SAW)
    worse = _with(verdicts, 0, say=Say.MAKE_NEW, old=None, place=None)
    assert worse_than_possible(worse, old_of(piece), piece)
