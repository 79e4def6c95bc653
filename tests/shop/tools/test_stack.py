"""Dado stacks against every choice there is, and passes that leave no wood standing."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import PASS_OVERLAP, SHIMS_IN_A_GAP
from furniture.shop.tools.stack import nearest_stack, passes_across, rabbet_passes
from furniture.shop.tools.values import Head
from tests.fresh import law

INCH = Head(
    outer_mm=25.4 / 8,
    chippers_mm=tuple(25.4 * each for each in (1 / 8, 1 / 8, 1 / 8, 1 / 8, 3 / 32, 1 / 16)),
    shims_mm=tuple(25.4 * each for each in (0.004, 0.004, 0.008, 0.012, 0.020)),
    diameter_mm=203.2,
    widest_mm=25.4 * 13 / 16,
)


def by_hand(head: Head, width_mm: float) -> tuple[int, int, int]:
    """The least error in nanometres, then shims, then chippers, over all 2^n choices."""
    found = []
    pieces = [
        *((each, True) for each in head.chippers_mm),
        *((each, False) for each in head.shims_mm),
    ]
    for on in itertools.product((False, True), repeat=len(pieces)):
        chosen = [piece for piece, is_on in zip(pieces, on, strict=True) if is_on]
        chippers = sum(is_chipper for _, is_chipper in chosen)
        shims = len(chosen) - chippers
        wide = 2 * head.outer_mm + sum(size for size, _ in chosen)
        if wide <= head.widest_mm + 1e-6 and shims <= 2 * (chippers + 1):
            error = abs(round((wide + head.cuts_wider_mm - width_mm) * 1e6))
            found.append((error, shims, chippers))
    return min(found)


@given(
    outer=st.sampled_from([3.175, 3.2]),
    chippers=st.lists(st.sampled_from([1.6, 2.4, 3.2, 1.5875, 3.175]), max_size=5),
    shims=st.lists(st.sampled_from([0.1, 0.2, 0.3, 0.5, 0.1016, 0.254]), max_size=6),
    widest=st.floats(6.5, 25.0),
    wider=st.sampled_from([0.0, 0.04, -0.03]),
    width=st.one_of(st.floats(1.0, 30.0), st.integers(10, 300).map(lambda tenth: tenth / 10)),
)
@law(few=60, full=1000)
def test_no_other_choice_comes_nearer_or_needs_fewer(outer, chippers, shims, widest, wider, width):
    head = Head(
        outer_mm=outer, chippers_mm=tuple(chippers), shims_mm=tuple(shims), diameter_mm=200.0,
        widest_mm=widest, cuts_wider_mm=wider,
    )  # fmt: skip
    stack = nearest_stack(head, width)
    error, shim_count, chipper_count = by_hand(head, width)
    assert abs(stack.error_mm) == pytest.approx(error / 1e6, abs=2e-6)
    assert (len(stack.shims_mm), len(stack.chippers_mm)) == (shim_count, chipper_count)
    on_arbor = 2 * outer + sum(stack.chippers_mm) + sum(stack.shims_mm)
    assert stack.cuts_mm == pytest.approx(on_arbor + wider)
    assert on_arbor <= widest + 1e-5
    for chosen, there in ((stack.chippers_mm, head.chippers_mm), (stack.shims_mm, head.shims_mm)):
        assert all(chosen.count(each) <= there.count(each) for each in chosen)


def test_an_inch_set_comes_to_a_planed_tier():
    """1/4 + 2 x 1/8 + 0.020 + 0.012 in = 13.5128 mm, by hand; without shims
    1/4 + 1/8 + 3/32 + 1/16 in = 13.49375."""
    stack = nearest_stack(INCH, 13.53)
    assert stack.cuts_mm == pytest.approx(13.5128, abs=1e-6)
    assert stack.shims_mm == pytest.approx((0.508, 0.3048))
    assert nearest_stack(replace(INCH, shims_mm=()), 13.53).cuts_mm == pytest.approx(13.49375)


def test_one_shim_is_as_near_as_it_gets_to_half_an_inch_and_21_thousandths():
    stack = nearest_stack(INCH, 0.521 * 25.4)
    assert stack.cuts_mm == pytest.approx(0.520 * 25.4)
    assert len(stack.shims_mm) == 1


def test_what_lies_beyond_the_head_gets_its_narrowest_or_widest_and_the_error():
    assert nearest_stack(INCH, 5.0).cuts_mm == pytest.approx(6.35)
    assert nearest_stack(INCH, 5.0).error_mm == pytest.approx(1.35)
    # 1/4 + 4/8 + 1/16 in is the arbor's 13/16 in exactly.
    assert nearest_stack(INCH, 25.0).cuts_mm == pytest.approx(20.6375)


def test_no_gap_holds_more_shims_than_the_rule_says():
    """Two outer cutters have one gap: of three shims that would be exact, two go in."""
    head = Head(
        outer_mm=3.0, chippers_mm=(), shims_mm=(0.1, 0.1, 0.1), diameter_mm=200.0, widest_mm=20.0
    )
    assert nearest_stack(head, 6.3).shims_mm == (0.1, 0.1)
    three = Rules(changed=((SHIMS_IN_A_GAP, 3.0),))
    assert nearest_stack(head, 6.3, three).error_mm == pytest.approx(0.0, abs=1e-9)


def test_of_two_as_near_the_one_with_fewer_shims_however_many_chippers():
    head = Head(
        outer_mm=3.0, chippers_mm=(1.0, 1.0), shims_mm=(2.0,), diameter_mm=200.0, widest_mm=20.0
    )
    assert nearest_stack(head, 8.0).chippers_mm == (1.0, 1.0)


def test_of_two_as_near_the_narrower():
    head = Head(
        outer_mm=3.0, chippers_mm=(2.0, 3.0), shims_mm=(), diameter_mm=200.0, widest_mm=20.0
    )
    assert nearest_stack(head, 8.5).cuts_mm == 8.0


def _covered(near, cutter, low, high):
    """Whether passes of a cutter take all between two walls and nothing beyond."""
    spans = sorted((each, each + cutter) for each in near)
    reach = spans[0][0]
    for start, end in spans:
        if start > reach + 1e-9:
            return False
        reach = max(reach, end)
    return spans[0][0] == pytest.approx(low, abs=1e-9) and reach == pytest.approx(high, abs=1e-9)


@given(width=st.floats(3.0, 60.0), cutter=st.floats(2.0, 20.0))
@law(few=60, full=1000)
def test_passes_take_a_channel_from_wall_to_wall(width, cutter):
    if cutter > width:
        with pytest.raises(ValueError, match="wider"):
            passes_across(width, cutter)
        return
    near = passes_across(width, cutter)
    assert _covered(near, cutter, 0.0, width)
    for before, after in itertools.pairwise(near):
        assert before + cutter - after >= USUAL_RULES[PASS_OVERLAP] - 1e-9
    # One pass fewer would leave a fin, or less than the overlap.
    if len(near) > 2:
        assert (width - cutter) / (len(near) - 2) > cutter - USUAL_RULES[PASS_OVERLAP]


@given(
    widths=st.lists(st.floats(2.0, 60.0), min_size=1, max_size=4),
    head=st.floats(3.0, 20.0),
)
@law(few=60, full=1000)
def test_rabbet_passes_reach_from_the_shoulder_to_the_edge(widths, head):
    passes = rabbet_passes(widths, head)
    assert [each.width_mm for each in passes] == widths
    for each in passes:
        assert each.shows_mm[-1] == each.width_mm
        assert list(each.shows_mm) == sorted(each.shows_mm)
        assert each.shows_mm[0] <= head + 1e-5
        for lower, higher in itertools.pairwise(each.shows_mm):
            assert higher - head <= lower - USUAL_RULES[PASS_OVERLAP] + 1e-5
    alone = [_positions(rabbet_passes([each], head)) for each in widths]
    assert len(_positions(passes)) <= sum(len(each) for each in alone)


def _positions(passes):
    """Where the fence stands for these, each place once."""
    return sorted({round(each, 6) for one in passes for each in one.shows_mm})


def test_one_head_takes_two_rabbets_from_two_fence_positions():
    passes = rabbet_passes((13.9, 6.4), 13.5)
    assert [each.shows_mm for each in passes] == [(6.4, 13.9), (6.4,)]
    assert _positions(passes) == [6.4, 13.9]


def test_a_cutter_no_wider_than_the_overlap_is_refused():
    with pytest.raises(ValueError, match="overlap"):
        passes_across(5.0, 0.8)
    with pytest.raises(ValueError, match="overlap"):
        rabbet_passes((5.0,), 0.8)
