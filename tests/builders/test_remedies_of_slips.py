"""Slips of the pen: the change that is offered is the one the maker meant."""

from __future__ import annotations

import pytest

from furniture import Load, SteppedStand, Stock, TierRule, inches, millimetres
from furniture.errors import DesignError

GIVEN = {
    "name": "slips",
    "thick": Stock(name="thick", species="cherry", thickness="3/4 in"),
    "thin": Stock(name="thin", species="cherry", thickness="3/8 in"),
    "base_width": "14 in",
    "base_depth": "9 in",
    "base_height": "3 1/2 in",
    "post_width": "4 in",
    "tiers": TierRule(count=2, width="12 in", depth="5 in", rise="6 in"),
    "shown": inches(64),
}


def _problems(**changes):
    given = {key: value for key, value in {**GIVEN, **changes}.items() if value is not ...}
    with pytest.raises(DesignError) as caught:
        SteppedStand(**given).build()
    return [(each.parameter, each.remedy) for each in caught.value.problems]


@pytest.mark.parametrize("bare", [14, 14.0, "14"])
def test_a_bare_number_is_offered_the_unit_that_the_piece_is_shown_in(bare):
    assert _problems(base_width=bare) == [("base_width", f"write '{bare} in' if you mean it")]
    metric = _problems(base_width=bare, shown=millimetres())
    assert metric == [("base_width", f"write '{bare} mm' if you mean it")]


def test_a_misspelt_parameter_is_one_problem_and_not_a_missing_one_too():
    assert _problems(post_width=..., post_widht="4 in") == [("post_widht", "write post_width")]


def test_a_parameter_that_is_missing_is_still_told():
    assert [name for name, _ in _problems(post_width=...)] == ["post_width"]


@pytest.mark.parametrize(("written", "meant"), [("tire 1", "tier 1"), ("teir 2", "tier 2")])
def test_a_load_on_a_misspelt_tier_is_offered_that_tier(written, meant):
    load = Load(on=written, mass="1 lb", footprint=("3 in", "3 in"), centre_height="2 in")
    assert _problems(loads=[load]) == [("load 1 on", f"write {meant!r}")]


@pytest.mark.parametrize(
    ("count", "remedy"),
    [
        (0, "make it 1"),
        (-2, "make it 1"),
        ("four", "make it 4"),
        ("4", "make it 4"),
        (2.5, "make it 3"),
    ],
)
def test_a_count_that_cannot_be_is_one_problem_and_no_load_is_blamed_for_it(count, remedy):
    tiers = TierRule(count=count, width="12 in", depth="5 in", rise="6 in")
    load = Load(on="tier 2", mass="1 kg", footprint=("2 in", "2 in"), centre_height="1 in")
    assert _problems(tiers=tiers, loads=[load]) == [("tiers.count", remedy)]


def test_a_load_on_several_is_told_to_be_one_for_each() -> None:
    """Not to stand on the last of them, the word that is most like theirs."""
    load = Load(on="tiers", mass="1 kg", footprint=("1 cm", "1 cm"), centre_height="1 mm")
    assert _problems(loads=[load]) == [
        ("load 1 on", "write a Load for each, the first on='tier 1'")
    ]
