"""What is done is asked no more, and everything else still is."""

from __future__ import annotations

import random

import pytest

from exporters.work.work_of import work_of
from furniture.assembly import assembly_of
from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.begun import NOTHING_BEGUN, Begun
from furniture.making.left_to_do import left_to_do
from furniture.making.making import making_of
from furniture.making.operations import Axis, CutOf, Kind, SizeOf, Stage
from furniture.making.settings import Slice
from furniture.parts.cuts import Slope
from furniture.shop.tools.reading import usual_or
from models.tea_box import box
from tests.everywhere.designs import drawn

ON_PARTS = (Stage.MILL, Stage.JOIN, Stage.PART, Stage.SHAPE, Stage.FIT)


@pytest.mark.seeds(few=3, full=200)
def test_done_work_is_left_out_and_nothing_else(seed: int) -> None:
    """Over random operations and parts that are done, on random designs."""
    piece, dice = drawn(seed).piece, random.Random(seed)
    shop = usual_or(None, piece.shown)
    blanks = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    making = making_of(piece, blanks, shop)
    instances = [each.instance for each in piece.placed]
    parts = set(dice.sample(instances, dice.randint(0, len(instances) // 2)))
    some = dice.sample(making.operations, dice.randint(0, len(making.operations)))
    sizes = {size for each in some for size in each.sizes}
    cuts = {cut for each in some for cut in each.cuts}
    left = left_to_do(making, Begun(done=parts, sizes=sizes, cuts=cuts, told=parts))

    asked_sizes = {size for each in left.operations for size in each.sizes}
    asked_cuts = {cut for each in left.operations for cut in each.cuts}
    all_sizes = {size for each in making.operations for size in each.sizes}
    all_cuts = {cut for each in making.operations for cut in each.cuts}
    shared = {
        one
        for each in making.operations
        if parts & {one.instance for one in (*each.sizes, *each.cuts)}
        for one in (*each.sizes, *each.cuts)
    }
    for asked, all_of, done in ((asked_sizes, all_sizes, sizes), (asked_cuts, all_cuts, cuts)):
        assert all_of - done - shared <= asked
    on_parts = [each for each in left.operations if each.stage in ON_PARTS]
    reached = {one for each in on_parts for one in (*each.sizes, *each.cuts)}
    assert not {one for one in reached if one.instance in parts}, "what glue-ups trim is theirs"
    # One pass over several parts is made while one of them still needs it.
    for each in left.operations:
        if each.stage in ON_PARTS and (each.sizes or each.cuts):
            assert not {*each.sizes, *each.cuts} <= sizes | cuts
        if each.kind is Kind.MEASURE and not each.sizes:
            waiting = [one for one in left.operations for after in one.after
                       if after.key == each.key]  # fmt: skip
            assert waiting, "what is done is measured for what is still cut to it, and no more"
            continue
        assert not (each.stage in ON_PARTS and each.takes and set(each.takes) <= parts)
    keys = {each.key for each in left.operations}
    assert all(after.key in keys for each in left.operations for after in each.after)
    assert {key for each in left.set_ups for key in each.operations} <= keys
    order = [each.key for each in making.operations]
    assert [key for key in order if key in keys] == [each.key for each in left.operations]


def test_nothing_done_leaves_all_of_it() -> None:
    piece = drawn(3).piece
    shop = usual_or(None, piece.shown)
    making = making_of(piece, (), shop)
    assert left_to_do(making, NOTHING_BEGUN) == making


def test_all_parts_done_leave_only_what_brings_them_together() -> None:
    piece = drawn(3).piece
    shop = usual_or(None, piece.shown)
    making = making_of(piece, (), shop)
    all_of = [each.instance for each in piece.placed]
    left = left_to_do(making, Begun(done=all_of, told=all_of))
    assert not {each.stage for each in left.operations if each.takes} & set(ON_PARTS)


def test_what_has_all_its_cuts_is_still_to_be_tried_dry() -> None:
    """By the work alone; what nobody says is made from first to last may not have been fitted."""
    piece = drawn(3).piece
    making = making_of(piece, (), usual_or(None, piece.shown))
    shown = [one for each in making.operations for one in (*each.sizes, *each.cuts)]
    all_of = [each.instance for each in piece.placed]
    sizes = {one for one in shown if isinstance(one, SizeOf)}
    cuts = {one for one in shown if isinstance(one, CutOf)}
    left = left_to_do(making, Begun(done=all_of, sizes=sizes, cuts=cuts))
    tries = {each.key for each in making.operations if each.kind is Kind.DRY_FIT}
    assert tries
    assert tries <= {each.key for each in left.operations}


def test_what_is_glued_was_tried_before() -> None:
    piece = drawn(3).piece
    making = work_of(piece, order=assembly_of(piece)).making
    glued = [each for each in making.operations if each.kind is Kind.GLUE]
    wood = {each.id: frozenset(each.instances) for each in making.workpieces}
    had = {
        each.key: frozenset(name for one in each.takes for name in wood.get(one, (one,)))
        for each in glued
    }
    left = left_to_do(making, Begun(ticked=had))
    in_glue = frozenset.union(*had.values())
    for each in left.operations:
        names = frozenset(name for one in each.takes for name in wood.get(one, (one,)))
        assert each.kind is not Kind.DRY_FIT or not names <= in_glue


def test_a_mitre_that_was_sawn_in_a_longer_length_is_not_sawn_again() -> None:
    """Its strip is given up; the part goes on by itself, from the end that it has."""
    piece = box.build()
    shop = usual_or(None, piece.shown)
    (rail,) = [each.part for each in piece.placed if each.instance == "front rail"]
    ends = {
        shape.face: CutOf("front rail", index)
        for index, shape in enumerate(cut.shape(rail.blank) for cut in rail.cuts)
        if isinstance(shape, Slope)
    }
    for end, made in ends.items():
        begun = Begun(cuts={made}, in_hand={"front rail"})
        left = left_to_do(making_of(piece, (), shop, begun=begun), begun)
        mitres = [each for each in left.operations
                  if each.kind is Kind.MITRE and each.takes == ("front rail",)]  # fmt: skip
        (mitre,) = mitres
        assert mitre.cuts == (ends[end.opposite],)
        assert mitre.sizes == (SizeOf("front rail", Axis.LENGTH),)
        assert isinstance(mitre.setting, Slice)
        assert mitre.setting.off is end
        assert mitre.setting.at_mm == rail.blank.length_mm
