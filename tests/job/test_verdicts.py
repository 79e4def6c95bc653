"""Verdicts on random pieces with random changes: each is true, none is worse than it must be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest
from manifold3d import Manifold

from furniture.job import Old, Say, Verdict, old_of, verdicts_of
from furniture.job.values import CutWork, Turn
from furniture.parts.part import turned
from furniture.pieces import Piece
from furniture.shop.cutting.values import Saw
from tests.job.carrying_out import carried_out, faults_of, holds_somewhere, solids_of
from tests.job.random_changes import changed_pair, partly_cut
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

SAW = Saw(
    shortest_rip_mm=300.0, narrowest_rip_mm=50.0, shortest_crosscut_mm=200.0, planing_loss_mm=2.0
)
TRIES = np.array([0.0, 1.0, 0.5, 0.8])


@pytest.mark.parametrize("name", NAMES)
def test_what_did_not_change_stays(name: str) -> None:
    piece = piece_of(name)
    assert {each.say for each in verdicts_of(old_of(piece), piece, SAW)} == {Say.AS_IS}


@pytest.mark.parametrize("turn", [Turn.OVER_ALONG, Turn.END_FOR_END_AND_OVER, Turn.END_FOR_END])
@pytest.mark.parametrize("more_mm", [0.0, 9.0])
def test_a_part_that_lies_the_other_way_round_serves(turn: Turn, more_mm: float) -> None:
    """Turned and written anew, or cut from longer wood, every part is found and proved in place."""
    piece, old = piece_of("herb_stand"), old_of(piece_of("herb_stand"))
    assert turn.axis is not None
    parts, at = [], {each.instance: each.part for each in piece.placed}
    for each in old.parts:
        part = turned(at[each.name], turn.axis)
        cuts = () if more_mm else part.cuts
        blank = replace(each.blank, length_mm=each.blank.length_mm + more_mm)
        parts.append(replace(each, blank=blank, cuts=cuts))
    verdicts = verdicts_of(replace(old, parts=tuple(parts)), piece, SAW)
    assert faults_of(verdicts, piece) == []
    assert {each.say for each in verdicts} == {Say.TRIM if more_mm else Say.AS_IS}
    if not more_mm:
        assert turn in {each.place.turn for each in verdicts if each.place is not None}


@pytest.mark.seeds(few=3, full=200)
def test_what_is_carried_out_is_the_new_piece(seed: int) -> None:
    """The old part, trimmed and cut as told and in no other way, is the new part."""
    before, after = changed_pair(seed)
    assert faults_of(verdicts_of(partly_cut(seed, before), after, SAW), after) == []


@pytest.mark.seeds(few=3, full=200)
def test_no_part_is_made_new_that_an_old_one_holds(seed: int) -> None:
    """Wood that nobody takes holds none of the new parts, turned and laid as one will."""
    before, after = changed_pair(seed)
    old = partly_cut(seed, before)
    assert worse_than_possible(verdicts_of(old, after, SAW), old, after) == []


def worse_than_possible(verdicts: tuple[Verdict, ...], old: Old, new: Piece) -> list[str]:
    """New parts that wood which is not needed would hold."""
    taken = {each.old.name for each in verdicts if each.old and each.say is not Say.NOT_NEEDED}
    spare = {(part.blank, part.cuts): part for part in old.parts if part.name not in taken}
    solids, _ = solids_of(new)
    parts = {each.instance: each.part for each in new.placed}
    wanted = {
        (parts[each.instance].blank, parts[each.instance].cuts): each.instance
        for each in verdicts
        if each.say is Say.MAKE_NEW
    }
    return [
        f"{name} from {part.name}"
        for (blank, _), name in wanted.items()
        for part in spare.values()
        if part.wood.species == parts[name].timber.species.name
        and part.blank.thickness_mm < blank.thickness_mm + SAW.planing_loss_mm
        and holds_somewhere(part, solids[name], blank.size, TRIES)
    ]


@pytest.mark.seeds(few=3, full=60)
def test_what_is_put_together_then_does_not_clash(seed: int) -> None:
    """The parts as they come of the verdicts overlap no more than the designed ones do."""
    before, after = changed_pair(seed)
    solids, rows = solids_of(after)
    made = dict(solids)
    for each in verdicts_of(old_of(before), after, SAW):
        if each.say in (Say.TRIM, Say.RECUT):
            made[each.instance] = carried_out(each, rows[each.instance])
    placed, designed = _placed(after, made), _placed(after, solids)
    names = list(placed)
    for index, first in enumerate(names):
        for second in names[index + 1 :]:
            common = (placed[first] ^ placed[second]).volume()
            if common > 1.5:  # a random change may make a piece that its own checks refuse
                common -= (designed[first] ^ designed[second]).volume()
            assert common < 1.5, (first, second)


def _placed(piece: Piece, solids: Mapping[str, Manifold]) -> dict[str, Manifold]:
    found = {}
    for each in piece.placed:
        place = each.placement
        matrix = np.column_stack([place.x_axis, place.y_axis, place.z_axis, place.origin])
        found[each.instance] = solids[each.instance].transform(matrix)
    return found


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
