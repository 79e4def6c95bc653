"""What may be put under a tier: advised only where it is taken, and enough when it is written."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    Bracket,
    FootedStand,
    Load,
    Opening,
    PostStrips,
    SteppedStand,
    Stock,
    Tier,
    TierCleat,
    TierRule,
    Uprights,
)
from furniture.checks.advice import Change, Remedy
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.bent import bends_of
from furniture.checks.of_piece.joints import joint_findings_of
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.rows.joints import HAND_LEVER, LEVER
from furniture.checks.rows.shelves import BENDING, SAG
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from furniture.structure.frame import masses_weighed
from tests.builders.bench import (
    THICK,
    THIN,
    a_stand,
    bending_of,
    by_uprights,
    oak,
    problems_of,
)

HEAVY = Load(on="tier 1", mass="120 kg", footprint=("90 mm", "60 mm"), centre_height="50 mm")
POT = replace(HEAVY, mass="3 kg")
ONE_TIER = TierRule(count=1, depth="160 mm", rise="120 mm")
SHALLOW: dict[str, Any] = {"base_width": "600 mm", "tiers": ONE_TIER, "dado_depth": "3 mm"}


def pressed(piece: Piece, check: Any = LEVER) -> Finding:
    """How hard the dado of a tier is pressed."""
    told = joint_findings_of(
        piece, supported_of(piece, weigh(piece)), Setting(), is_table_top=False
    )
    (found,) = [each for each in told if each.check == check and "tier 1" in each.subject]
    return found


def of(found: Finding, change: Change) -> list[Remedy]:
    """Those of its remedies."""
    return [each for each in found.remedies if each.change is change]


def sagging(piece: Piece) -> Finding | None:
    """How far its worst tier sags; None where no span of it is long enough to be told."""
    return next(iter(bending_of(piece, SAG)), None)


def written(stand: Any, remedy: Remedy) -> Any:
    """A stand with a remedy put into its script."""
    amount = f"{remedy.amount} mm"
    if remedy.change is Change.CLEAT:
        return replace(stand, tier_cleats=[TierCleat(on="tier 1", stock=oak(amount))])
    assert remedy.change is Change.BRACKET
    count = 2 if "two brackets" in remedy.words else 1
    return replace(stand, brackets=[Bracket(on="tier 1", count=count, reach=amount)])


BETWEEN: list[tuple[str, Any]] = [
    ("over a box", by_uprights(**SHALLOW, loads=[HEAVY])),
    ("on a foot board", FootedStand(
        thick=THICK, thin=THIN, base_width="620 mm", base_depth="220 mm", dado_depth="3 mm",
        uprights=Uprights(depth="120 mm"), tiers=ONE_TIER, loads=[HEAVY],
    )),
    ("before thin uprights", by_uprights(
        **SHALLOW, loads=[HEAVY],
        own_stock=dict.fromkeys(("left upright", "right upright"), oak("14 mm")),
    )),
]  # fmt: skip


@pytest.mark.parametrize("given", BETWEEN, ids=lambda each: str(each[0]))
def test_a_tier_that_crushes_its_dados_is_borne_by_what_is_advised(given: tuple[str, Any]) -> None:
    """A bracket and cleats are both named, and either written as it is said is enough."""
    _, stand = given
    bare = pressed(stand.build())
    assert bare.is_amiss
    for change, parameter in ((Change.BRACKET, "brackets"), (Change.CLEAT, "tier_cleats")):
        (asked,) = of(bare, change)
        assert asked.parameters == (parameter,)
        cured = pressed(written(stand, asked).build())
        assert cured.value is not None
        assert not cured.is_amiss


def test_what_a_tier_lies_on_bears_with_its_dados() -> None:
    """By hand: dados 120 by 3 bear 4 F / (b d); with brackets of 10 by 100 the end lifts off them.

    The zone that bears ends at e, where 120 x 9 x (1 + e / 2) = 10 e^3 / 6: e = 18.9 of the 100.
    Its moments are 360 + 189, 1246 and 23583: the peak at the dado's back is F times
    (23583 + 3 x 1246) / (549 x 23583 - 1246^2).
    """
    bare = pressed(by_uprights(**SHALLOW, loads=[HEAVY]).build())
    assert bare.value is not None
    force = bare.value * 120.0 * 3.0 / 4.0
    borne = pressed(
        by_uprights(**SHALLOW, loads=[HEAVY], brackets=[Bracket(reach="100 mm")]).build()
    )
    own = (23583.0 + 3.0 * 1246.0) / (549.0 * 23583.0 - 1246.0**2)
    assert force == pytest.approx(120.0 * 9.81, rel=0.03)
    assert borne.value == pytest.approx(force * own, rel=0.01)
    assert "with the tier 1 left bracket under it" in borne.basis


def test_over_cleats_no_bracket_is_advised_which_would_be_refused() -> None:
    """Cleats of 5 mm bear pine too little; a deeper dado or less load as it is said is enough."""
    cleats = [TierCleat(on="tier 1", stock=oak("5 mm"))]
    pine = Stock(name="pine", species="eastern white pine", thickness="10 mm", moisture="8 %")
    heavy = replace(HEAVY, mass="250 kg")
    stand = by_uprights(**SHALLOW, thin=pine, loads=[heavy], tier_cleats=cleats)
    found = pressed(stand.build())
    assert found.is_amiss
    assert "bracket" not in found.advice
    assert problems_of(replace(stand, brackets=[Bracket(on="tier 1")]))
    (deeper,) = of(found, Change.DADO)
    cured = pressed(replace(stand, dado_depth=f"{3.0 + deeper.amount} mm").build())
    assert not cured.is_amiss
    (less,) = of(found, Change.LOAD)
    lighter = replace(stand, loads=[replace(heavy, mass=f"{less.amount} kg")])
    assert not pressed(lighter.build()).is_amiss


def _before_a_post(rise: str = "150 mm", **changes: Any) -> SteppedStand:
    return a_stand(loads=[POT], tiers=[Tier(width="200 mm", depth="100 mm", rise=rise)], **changes)


def test_before_two_strips_a_pair_is_advised_as_none_stands_in_the_middle() -> None:
    stand = _before_a_post(post_strips=PostStrips(count=2))
    (asked,) = of(pressed(stand.build(), HAND_LEVER), Change.BRACKET)
    assert asked.words.startswith("put two brackets side by side under it that reach")
    assert not pressed(written(stand, asked).build(), HAND_LEVER).is_amiss


def test_where_no_bracket_finds_room_none_is_advised() -> None:
    """33 less the tier's 10 and the 5 that stay free are 18: too low. 45 are high enough."""

    found = pressed(_before_a_post("33 mm").build(), HAND_LEVER)
    assert found.is_amiss
    assert not of(found, Change.BRACKET)
    assert problems_of(replace(_before_a_post("33 mm"), brackets=[Bracket(on="tier 1")]))
    assert of(pressed(_before_a_post("45 mm").build(), HAND_LEVER), Change.BRACKET)


def _between(dice: random.Random) -> SteppedStand:
    """One wide tier between uprights, with more on it than it bears level."""
    wide, deep = dice.uniform(480, 680), dice.uniform(120, 240)
    load = Load(
        on="tier 1", mass=f"{dice.uniform(5, 30):.1f} kg", centre_height="50 mm",
        footprint=(f"{dice.uniform(60, 250):.1f} mm", f"{dice.uniform(40, 90):.1f} mm"),
    )  # fmt: skip
    return by_uprights(
        thin=oak(f"{dice.uniform(9, 14):.1f} mm"), base_width=f"{wide:.1f} mm", loads=[load],
        base_depth=f"{deep + 60:.1f} mm", uprights=Uprights(depth=f"{deep * 0.85:.1f} mm"),
        tiers=TierRule(count=1, depth=f"{deep:.1f} mm", rise="160 mm"),
    )  # fmt: skip


def _far_out(dice: random.Random) -> SteppedStand:
    """One deep tier before a post, with more on it than it bears level."""
    deep = dice.uniform(180, 300)
    tier = Tier(width=f"{dice.uniform(200, 290):.1f} mm", depth=f"{deep:.1f} mm", rise="200 mm")
    heavy = replace(POT, mass=f"{dice.uniform(5, 20):.1f} kg")
    return a_stand(
        thin=oak(f"{dice.uniform(9, 12):.1f} mm"), base_width="320 mm", loads=[heavy],
        base_depth=f"{deep + 60:.1f} mm", tiers=[tier],
        post_width=f"{dice.uniform(70, 130):.1f} mm",
    )  # fmt: skip


def _cured(stand: Any) -> tuple[Remedy, ...]:
    """Its brackets or cleats against sag, each tried on the piece that has them.

    What is left of the tier may be too short to be told: then its fall alone is measured.
    """
    bare = sagging(stand.build())
    if bare is None or bare.limit is None:  # nothing sags that is long enough to be told
        return ()
    asked = [each for each in bare.remedies if each.change in (Change.BRACKET, Change.CLEAT)]
    for each in asked:
        made = written(stand, each).build()
        found, bends = sagging(made), bends_of(made, masses_weighed(made, weigh(made)))
        assert found is None or not found.is_amiss
        assert bends is not None
        falls = [level for level in bends.levels() if level.placed.instance == "tier 1"]
        assert max(2.0 * each.worst.fall_mm for each in falls) <= bare.limit
    return tuple(asked)


@pytest.mark.seeds(few=1, full=25)
@pytest.mark.parametrize("drawn", [_between, _far_out])
def test_a_tier_that_sags_is_level_on_what_is_advised(drawn: Any, seed: int) -> None:
    _cured(drawn(random.Random(seed)))


def test_a_tier_between_uprights_is_level_on_brackets_of_the_advised_reach() -> None:
    stand = by_uprights(
        base_width="500 mm", loads=[replace(POT, mass="20 kg")],
        tiers=TierRule(count=1, depth="160 mm", rise="160 mm"),
    )  # fmt: skip
    (asked,) = _cured(stand)
    assert (asked.change, asked.parameters) == (Change.BRACKET, ("brackets",))


def test_a_tier_too_low_for_brackets_lies_on_cleats() -> None:
    """35 less the tier's 12 and the 5 that stay free: 18 hold cleats of 16, no brackets of 25."""
    stand = by_uprights(
        base_width="470 mm", loads=[replace(POT, mass="32 kg")], thin=oak("12 mm"),
        tiers=TierRule(count=1, depth="160 mm", rise="35 mm"),
    )  # fmt: skip
    (asked,) = _cured(stand)
    assert (asked.change, asked.parameters) == (Change.CLEAT, ("tier_cleats",))


DEEP: dict[str, Any] = {
    "base_depth": "320 mm", "loads": [replace(POT, mass="2 kg")], "thin": oak("14 mm"),
    "tiers": [Tier(width="180 mm", depth="230 mm", rise="200 mm")],
}  # fmt: skip


def test_before_a_post_a_deep_tier_is_level_on_a_bracket() -> None:
    (asked,) = _cured(a_stand(**DEEP))
    assert asked.change is Change.BRACKET
    assert "a bracket under tier 1" in asked.words


def test_where_an_opening_is_in_its_way_another_is_advised() -> None:
    """The middle of the tier, right before the post, has a hole: one bracket there is refused."""
    hole = Opening(on="tier 1", size="20 mm", from_left="90 mm", from_edge="210 mm")
    holed = a_stand(**DEEP, openings=[hole])
    assert problems_of(replace(holed, brackets=[Bracket(on="tier 1")]))
    (asked,) = _cured(holed)
    assert "two brackets under tier 1" in asked.words


def test_a_dado_is_told_no_bracket_that_an_opening_refuses() -> None:
    """The hole is 15 before the post, in the middle: two beside it are taken, and are enough."""
    hole = Opening(on="tier 1", size="12 mm", from_left="100 mm", from_edge="85 mm")
    stand = _before_a_post(openings=[hole])
    (asked,) = of(pressed(stand.build(), HAND_LEVER), Change.BRACKET)
    assert problems_of(replace(stand, brackets=[Bracket(on="tier 1", reach=f"{asked.amount} mm")]))
    assert "two brackets side by side" in asked.words
    assert not pressed(written(stand, asked).build(), HAND_LEVER).is_amiss
    beside = [replace(hole, from_left=f"{x} mm") for x in (75, 125)]
    assert not of(
        pressed(replace(stand, openings=[hole, *beside]).build(), HAND_LEVER), Change.BRACKET
    )


def _stressed(stand: Any) -> Finding:
    (found,) = bending_of(stand.build(), BENDING)
    return found


def test_a_tier_whose_wood_is_stressed_too_much_is_borne_by_what_is_advised() -> None:
    stand = a_stand(**{**DEEP, "loads": [replace(POT, mass="6 kg")]})
    found = _stressed(stand)
    assert found.is_amiss
    (asked,) = of(found, Change.BRACKET)
    assert asked.parameters == ("brackets",)
    assert not _stressed(written(stand, asked)).is_amiss


def test_brackets_that_are_too_short_are_to_reach_farther() -> None:
    """They stand under both tiers by one entry; the one that is told is written by itself."""
    low = Tier(width="180 mm", depth="230 mm", rise="200 mm")
    stand = a_stand(
        **{**DEEP, "loads": [replace(POT, mass="10 kg")],
           "tiers": [low, Tier(width="160 mm", depth="180 mm", rise="200 mm")],
           "brackets": [Bracket(reach="80 mm")]},
    )  # fmt: skip
    found = _stressed(stand)
    (asked,) = of(found, Change.BRACKET)
    assert asked.words.startswith("let the tier 1 bracket reach ")
    longer = [Bracket(on="tier 1", reach=f"{asked.amount} mm"), Bracket(on="tier 2", reach="80 mm")]
    assert not _stressed(replace(stand, brackets=longer)).is_amiss
    hole = Opening(on="tier 1", size="14 mm", from_left="90 mm", from_edge="100 mm")
    assert problems_of(replace(stand, brackets=longer, openings=[hole]))
    assert not of(_stressed(replace(stand, openings=[hole])), Change.BRACKET)
