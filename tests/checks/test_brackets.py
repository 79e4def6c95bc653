"""A maker's own shelf on brackets: they count where they bear it, and parts are called by name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import (
    Against,
    At,
    Bracket,
    ButtJoint,
    CentredOn,
    Composition,
    GrooveJoint,
    Load,
    PlacedPart,
    ShopRules,
    Stance,
    Stock,
    Tier,
    Way,
    join,
)
from furniture.checks.finding import Verdict
from furniture.checks.housing_findings import droop_finding
from furniture.checks.of_piece import read_setting
from furniture.checks.of_piece.bent import bends_of
from furniture.checks.of_piece.joints import housing_of
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.rows.joints import DROOP
from furniture.rules import USUAL_RULES
from furniture.solids.measure import weigh
from furniture.structure.frame import masses_weighed
from tests.builders.bench import a_stand
from tests.checks.of_piece_cases import found, named

OAK = Stock(name="oak", species="white oak", thickness="18 mm", moisture="9 %")
BACK = PlacedPart(name="back", stock=OAK, length="500 mm", width="120 mm")
SHELF = PlacedPart(
    name="shelf", stock=OAK, length="460 mm", width="140 mm", face_side=Way.UP,
    places=[CentredOn(), Against(side=Way.FRONT, let_in="6 mm"), At(distance="20 mm", side=Way.UP)],
)  # fmt: skip
HAND = "levering in the dado"


def _arm(side: Way, reach: str) -> PlacedPart:
    return PlacedPart(
        name=f"{side.value} arm", stock=OAK, length="75 mm", width=reach, face_side=side,
        grain=Way.DOWN,
        places=[
            At(distance="60 mm", side=side), Against(side=Way.FRONT),
            Against(of="shelf", side=Way.DOWN),
        ],
    )  # fmt: skip


def _shelf(*reaches: str, into: tuple[str, ...] = ("back", "shelf")) -> Composition:
    arms = [_arm(side, reach) for side, reach in zip((Way.LEFT, Way.RIGHT), reaches, strict=False)]
    return Composition(
        name="Wall shelf", stance=Stance.WALL, parts=[BACK, SHELF, *arms],
        joints=[
            join(GrooveJoint, "shelf", into="back", is_glued=True),
            *(join(ButtJoint, arm.name, into=each) for arm in arms for each in into),
        ],
        loads=[Load(on="shelf", name="books", mass="6 kg", footprint=("300 mm", "130 mm"),
                    centre_height="110 mm")],
    )  # fmt: skip


def _brackets(design: Composition) -> tuple[list[str], float]:
    piece = design.build()
    (supported,) = supported_of(piece, weigh(piece))
    return sorted(each.instance for each in supported.brackets), supported.bracket_reach_mm(
        USUAL_RULES
    )


def test_parts_under_a_shelf_and_fixed_to_what_holds_it_are_its_brackets() -> None:
    assert _brackets(_shelf()) == ([], 0.0)
    names, reach = _brackets(_shelf("100 mm", "80 mm"))
    assert len(names) == 2
    assert reach == pytest.approx(80.0)  # the shorter one counts
    assert _brackets(_shelf("100 mm", "80 mm", into=("shelf",)))[0] == []  # they hang on the shelf


STRICT = read_setting(None, ShopRules(lever_fails=1.0))
"""A shop that lets a hand press no harder than the estimate."""


def test_long_brackets_bear_a_hand_and_short_ones_are_told_by_name() -> None:
    bare = named(found(_shelf().build(), STRICT), HAND)
    assert bare.verdict is Verdict.CAUTION
    assert "the post" not in bare.advice + bare.basis
    assert "from the back" in bare.advice
    assert named(found(_shelf("100 mm", "100 mm").build(), STRICT), HAND).verdict is Verdict.OK
    short = named(found(_shelf("20 mm", "20 mm").build(), STRICT), HAND)
    assert short.verdict is Verdict.CAUTION
    assert "put a bracket" not in short.advice
    assert "left arm" in short.advice
    assert "right arm" in short.advice


def test_brackets_hold_a_dry_shelf_level() -> None:
    """Of a glued one nothing is said, as a clamp closes its joint."""
    verdicts = []
    for design in (_shelf(), _shelf("100 mm", "100 mm")):
        piece = design.build()
        assert not [each for each in found(piece) if each.check == DROOP]
        (supported,) = supported_of(piece, weigh(piece))
        dry = replace(housing_of(supported), side_grain_mm2=0.0, end_grain_mm2=0.0)
        verdicts.append(droop_finding(dry, shown_by(piece)).verdict)
    assert verdicts == [Verdict.CAUTION, Verdict.OK]


def test_without_glue_a_load_that_tilts_a_tier_off_its_bracket_is_no_sag() -> None:
    """A load in the middle holds the top tier down; at a corner it fell by 11 km on no spring."""
    jar = Load(
        on="tier 1", mass="10 kg", footprint=("62 mm", "83 mm"), centre_height="50 mm", name="jar"
    )
    piece = a_stand(
        tiers=[Tier(width="186 mm", depth="104 mm", rise="91 mm")], post_proud="0 mm", loads=[jar],
        brackets=[Bracket(on="tier 1", reach="69 mm")],
    ).build()  # fmt: skip
    bends = bends_of(piece, masses_weighed(piece, weigh(piece)))
    assert bends is not None
    levels = [each for each in bends.levels() if each.placed.instance == "tier 1"]
    assert [each.dry is not None for each in levels] == [True, True, True, False, False]
    assert all(each.worst.fall_mm < 5 for each in levels)
