"""What may be put under a tier: advised only where it is taken, and enough when it is written."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    Bracket,
    FootedStand,
    Load,
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
from furniture.checks.of_piece.joints import joint_findings_of
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.rows.joints import HAND_LEVER, LEVER
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from tests.builders.bench import THICK, THIN, a_stand, by_uprights, oak, problems_of

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
