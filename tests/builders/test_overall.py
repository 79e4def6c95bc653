"""Overall height and depth as inputs: what is left out follows, what contradicts is told."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture import BackRail, DesignError, Feet, SteppedStand, Tier, TierRule, Uprights, inches
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from tests.builders.bench import (
    a_stand,
    box_round,
    by_uprights,
    oak,
    parameters_named,
    problems_of,
)
from tests.fresh import law


def size_of(piece: Piece) -> tuple[float, float, float]:
    """The piece's extents [mm], off its solids."""
    low, high = weigh(piece).extents
    return (high[0] - low[0], high[1] - low[1], high[2] - low[2])


def test_tiers_share_the_rise() -> None:
    """By hand: 500 - lid 79.5 - proud 30 = 390.5, shared by three is 130 1/6."""
    three = [Tier(width="200 mm", depth="90 mm")] * 3
    piece = a_stand(overall_height="500 mm", tiers=three).build()
    assert size_of(piece)[2] == pytest.approx(500)
    tops = [box_round(piece, f"tier {n}")[1][2] for n in (1, 2, 3)]
    assert tops == pytest.approx([79.5 + 390.5 / 3 * n for n in (1, 2, 3)])


def test_a_tier_takes_what_the_others_leave() -> None:
    """By hand: with feet of 8, 500 - 8 - 79.5 - 30 - 150 = 232.5 is the first tier's rise."""
    two = [
        Tier(width="200 mm", depth="90 mm"),
        Tier(width="160 mm", depth="80 mm", rise="150 mm"),
    ]
    feet = Feet(stock=oak("8 mm"), length="20 mm", width="18 mm", inset="2 mm")
    piece = a_stand(overall_height="500 mm", tiers=two, feet=feet).build()
    assert size_of(piece)[2] == pytest.approx(500)
    assert box_round(piece, "tier 1")[1][2] == pytest.approx(8 + 79.5 + 232.5)


def test_a_rule_closes_up_and_still_ends_on_the_height() -> None:
    """By hand: 390.5 = 3 r - 10 - 20, so r = 140 1/6."""
    rule = TierRule(count=3, width="200 mm", depth="90 mm", rise_change="-10 mm")
    piece = a_stand(overall_height="500 mm", tiers=rule).build()
    assert size_of(piece)[2] == pytest.approx(500)
    assert box_round(piece, "tier 1")[1][2] == pytest.approx(79.5 + 420.5 / 3)


def test_the_deepest_tier_reaches_the_overall_depth() -> None:
    """By hand: 260 - post 20 is 240 for the lowest, in front of a base 200 deep."""
    rule = TierRule(count=2, width="200 mm", rise="120 mm", step_back_depth="40 mm")
    piece = a_stand(overall_depth="260 mm", tiers=rule).build()
    assert size_of(piece)[1] == pytest.approx(260)
    assert box_round(piece, "tier 1")[0][1] == pytest.approx(200 - 20 - 240)
    assert box_round(piece, "tier 2")[0][1] == pytest.approx(200 - 20 - 200)


def test_the_deepest_tier_may_be_the_top_one() -> None:
    """A rule that steps forward: the top tier ends on the overall depth."""
    rule = TierRule(count=2, width="200 mm", rise="120 mm", step_back_depth="-30 mm")
    piece = a_stand(overall_depth="260 mm", tiers=rule).build()
    assert size_of(piece)[1] == pytest.approx(260)


def test_a_base_without_a_depth_is_as_deep_as_the_stand() -> None:
    """The base's front and the tier's front lie on one line, behind a back rail too."""
    rule = TierRule(count=1, width="200 mm", rise="120 mm")
    for more in ({}, {"back_rail": BackRail(let_in="4 mm")}):
        piece = a_stand(base_depth=None, overall_depth="230 mm", tiers=rule, **more).build()
        assert size_of(piece)[1] == pytest.approx(230)
        assert box_round(piece, "tier 1")[0][1] == pytest.approx(0)


def test_between_uprights_too() -> None:
    """There a tier's depth is measured from the back, and so is the whole."""
    rule = TierRule(count=2)
    piece = by_uprights(overall_depth="215 mm", overall_height="420 mm", tiers=rule).build()
    assert size_of(piece)[1:] == pytest.approx((215, 420))


CONTRADICTING: list[tuple[SteppedStand, str, str, str]] = [
    # 79.5 + 150 + 120 + 30 = 379.5
    (a_stand(overall_height="400 mm"), "overall_height", "20.5 mm less", "379.5 mm"),
    (
        a_stand(overall_height="370 mm", tiers=TierRule(
            count=2, width="200 mm", depth="90 mm", rise="135 mm")),
        "overall_height", "9.5 mm more", "379.5 mm",
    ),
    # the base is the deeper one: 200, against 20 + 100
    (a_stand(overall_depth="190 mm"), "overall_depth", "10 mm more", "200 mm"),
    (
        a_stand(overall_depth="12 in", shown=inches(64), tiers=[
            Tier(width="200 mm", depth="300 mm", rise="120 mm")]),
        "overall_depth", "19/32 in more", "12 19/32 in",
    ),
]  # fmt: skip


@pytest.mark.parametrize("given", CONTRADICTING)
def test_figures_that_contradict_are_refused_with_the_difference(
    given: tuple[SteppedStand, str, str, str],
) -> None:
    """And the size that they come to is taken when it is written."""
    stand, parameter, by, comes_to = given
    (problem,) = problems_of(stand)
    assert problem.parameter == parameter
    assert by in problem.why
    assert problem.remedy.startswith(f"make it {comes_to}")
    values: dict[str, Any] = {n: getattr(stand, n) for n in type(stand).__dataclass_fields__}
    SteppedStand(**{**values, parameter: comes_to}).build()


def test_a_height_that_has_no_room_is_named_itself() -> None:
    """Not the rises, which nobody wrote; and what is proposed just serves."""
    rule = TierRule(count=4, width="200 mm", depth="90 mm")
    (problem,) = problems_of(a_stand(overall_height="150 mm", tiers=rule))
    assert problem.parameter == "overall_height"
    figure = problem.remedy.removeprefix("make it ")
    a_stand(overall_height=figure, tiers=rule).build()
    least = float(figure.removesuffix(" mm"))
    assert parameters_named(
        a_stand(overall_height=f"{least - 0.11:.2f} mm", tiers=rule)
    ) == ["overall_height"]  # fmt: skip


def test_a_depth_that_has_no_room_is_named_itself() -> None:
    """The base's own least depth and the tiers' are one size then."""
    rule = TierRule(count=2, width="200 mm", rise="120 mm", step_back_depth="30 mm")
    (problem,) = problems_of(a_stand(base_depth=None, overall_depth="60 mm", tiers=rule))
    assert problem.parameter == "overall_depth"


def test_nothing_is_shared_without_an_overall_size() -> None:
    """Then rise and depth must be given, as ever."""
    stand = a_stand(base_depth=None, tiers=[Tier(width="200 mm")])
    assert parameters_named(stand) == ["base_depth", "tier 1 depth", "tier 1 rise"]


@law(few=8, full=100)
@given(
    st.integers(1, 6), st.floats(300, 1400), st.floats(180, 420), st.floats(-6, 6),
    st.booleans(), st.sampled_from(["0 mm", "22 mm"]),
)  # fmt: skip
def test_every_stand_is_as_high_and_deep_as_asked(
    count: int, height: float, depth: float, change: float, on_uprights: bool, proud: str
) -> None:
    """Or is refused by that size or by the step from tier to tier."""
    more: dict[str, Any] = {"width": "200 mm"}
    if on_uprights:
        more = {}
    stand = a_stand(
        base_depth=None,
        overall_height=f"{height} mm",
        overall_depth=f"{depth} mm",
        post_width=None if on_uprights else "100 mm",
        uprights=Uprights(depth="100 mm") if on_uprights else None,
        post_proud=proud,
        tiers=TierRule(count=count, rise_change=f"{change} mm", **more),
    )
    try:
        piece = stand.build()
    except DesignError as error:
        named = {problem.parameter for problem in error.problems}
        assert named <= {"overall_height", "overall_depth", "tiers.rise_change"}
        return
    boxes = [box_round(piece, each.instance) for each in piece.placed]
    size = [max(box[1][a] for box in boxes) - min(box[0][a] for box in boxes) for a in (1, 2)]
    assert size == pytest.approx((depth, height), abs=1e-5)
