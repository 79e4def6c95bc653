"""Builders and joints go by the shop's own limits, which a maker hands to the whole run."""

from __future__ import annotations

from typing import Any

import pytest

from exporters.designs import piece_of
from furniture import (
    Against,
    CentredOn,
    Composition,
    DadoJoint,
    DesignError,
    Feet,
    FlushWith,
    MitredBox,
    PlacedPart,
    ShopRules,
    Way,
    join,
)
from furniture.rules.building import LEAST_PAD
from tests.builders.bench import THIN, oak

WOOD = oak("20 mm")


def _box(**changes: Any) -> MitredBox:
    given: dict[str, Any] = {
        "rails": WOOD, "lid": THIN, "width": "300 mm", "depth": "200 mm", "height": "90 mm",
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


def _shelf(**given: object) -> Composition:
    """A shelf let 12 mm into a side 20 mm thick: more than the half that is usual."""
    side = PlacedPart(
        name="side", stock=WOOD, length="400 mm", width="120 mm", face_side=Way.RIGHT,
        grain=Way.UP,
    )  # fmt: skip
    shelf = PlacedPart(
        name="shelf", stock=WOOD, length="300 mm", width="120 mm",
        places=[
            Against(of="side", side=Way.RIGHT, let_in="12 mm"),
            FlushWith(of="side", side=Way.FRONT),
            CentredOn(of="side", along=Way.DOWN),
        ],
    )  # fmt: skip
    return Composition(parts=[side, shelf], joints=[join(DadoJoint, "shelf", into="side", **given)])


def test_a_builder_goes_by_the_makers_rules() -> None:
    """A pad that is refused by the usual least is made by a smaller one, and the piece says so."""
    box = _box(feet=Feet(stock=THIN, length="14 mm", width="14 mm"))
    with pytest.raises(DesignError, match=r"feet\.length"):
        box.build()
    assert box.build(ShopRules(least_pad="14 mm")).rules[LEAST_PAD] == 14.0


def test_a_joint_goes_by_the_makers_rules_and_takes_none_of_its_own() -> None:
    """What a rule of joints forbids is made by another one; a written joint has no rules."""
    with pytest.raises(DesignError, match="reach into the dado"):
        _shelf().build()
    assert _shelf().build(ShopRules(dado_share=0.65)).joinings
    with pytest.raises(DesignError, match="there is no parameter of this name"):
        _shelf(rules=None).build()


def test_rules_that_cannot_be_read_are_told_with_what_is_wrong_with_the_design() -> None:
    with pytest.raises(DesignError) as error:
        _box(height="2 mm").build(ShopRules(leest_pad="14 mm", glue_line="0.2 mm"))
    told = str(error.value)
    assert all(word in told for word in ("height", "rules.leest_pad", "rules.glue_line"))


def test_a_composed_piece_cannot_be_made_by_other_rules_afterwards() -> None:
    """Nothing would go by them any more; what the checks alone go by may still change."""
    piece = _box().build()
    assert piece_of(piece, ShopRules(tilt_asked="12 deg")) is piece
    with pytest.raises(DesignError, match=r"rules\.least_pad"):
        piece_of(piece, ShopRules(least_pad="14 mm"))
    by_it = _box().build(ShopRules(least_pad="14 mm"))
    assert piece_of(by_it, ShopRules(least_pad="14 mm")) is by_it
