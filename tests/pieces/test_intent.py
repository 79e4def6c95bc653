"""What a builder knows is a value on the piece: openings by purpose, the free inside, growth."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    Ballast,
    Bore,
    Cleats,
    Composition,
    DesignError,
    Face,
    Feet,
    LidFixing,
    Opening,
    OpeningFor,
    PlacedPart,
    PostStrips,
    Vent,
    cut,
)
from furniture.checks.of_piece.standing import cable_height_mm
from furniture.parts.placement import box_of
from furniture.pieces import Piece, PlacedOpening, placed_named
from furniture.solids.measure import weigh
from tests.builders.bench import THICK, THIN, a_box, a_stand, by_uprights, oak

CABLE = Opening(on="post", size="12 mm", from_edge="50 mm")


def cable_height(piece: Piece) -> float | None:
    return cable_height_mm(piece, weigh(piece))


def opening_in(piece: Piece, instance: str) -> PlacedOpening:
    (found,) = [each for each in piece.intent.openings if each.instance == instance]
    return found


@pytest.mark.parametrize("strips", [None, PostStrips(count=3)])
def test_a_cable_in_a_post_of_strips_is_pulled_as_in_a_whole_one(strips: PostStrips | None) -> None:
    opening = replace(CABLE, from_left="50 mm")
    given = {"openings": [opening], "post_strips": strips}
    if strips is not None:
        given["openings"] = [replace(CABLE, on="post strip 2", from_left=None)]
    assert cable_height(a_stand(**given).build()) == pytest.approx(50.0)


def test_a_row_of_vents_of_the_same_bore_is_no_cable() -> None:
    cable = Opening(on="left side rail", size="8 mm", from_edge="26 mm", from_left="40 mm")
    vents = Vent(on="left side rail", size="8 mm", from_edge="51 mm", count=3)
    assert cable_height(a_box(openings=[cable], vents=[vents]).build()) == pytest.approx(26.0)
    assert cable_height(a_box(vents=[vents]).build()) is None


def test_feet_lift_the_openings_and_the_inside() -> None:
    given: dict[str, Any] = {"openings": [CABLE], "bottom": THIN}
    plain = a_stand(**given).build()
    lifted = a_stand(**given, feet=Feet(stock=oak("15 mm"))).build()
    assert cable_height(lifted) == pytest.approx(65.0)
    assert plain.intent.inside is not None
    assert lifted.intent.inside is not None
    assert lifted.intent.inside.low[2] - plain.intent.inside.low[2] == pytest.approx(15.0)


def test_an_opening_lies_in_the_wood_that_it_goes_through() -> None:
    """A side rail of 20 mm looks left: its bore runs left to right, its middle 10 mm in."""
    piece = a_box(openings=[Opening(on="left side rail", size="8 mm", from_edge="26 mm")]).build()
    found = opening_in(piece, "left side rail")
    assert found.centre == pytest.approx((10.0, 100.0, 26.0))
    assert [abs(each) for each in found.axis] == pytest.approx([1.0, 0.0, 0.0])
    assert (found.purpose, found.size_mm) == (OpeningFor.CABLE, 8.0)


def test_the_inside_of_a_box_lies_between_its_parts() -> None:
    """Rails of 20, a bottom of 10, a lid of 10 whose top is 0.5 below rails of 80."""
    inside = a_box(bottom=THIN).build().intent.inside
    assert inside is not None
    assert inside.low == pytest.approx((20.0, 20.0, 10.0))
    assert inside.high == pytest.approx((280.0, 180.0, 69.5))
    assert not inside.is_open_below


@pytest.mark.parametrize(
    "piece",
    [
        a_box(bottom=THIN).build(),
        a_box(bottom=THIN, lid_fixing=LidFixing.CLEATS, cleats=Cleats(stock=oak("15 mm"))).build(),
        a_stand(
            bottom=THIN, ballast=Ballast(mass="0.6 kg", size=("80 mm", "50 mm", "20 mm"))
        ).build(),
        by_uprights(bottom=THIN).build(),
        a_stand(bottom=THIN, feet=Feet(stock=oak("15 mm"))).build(),
    ],
)
def test_nothing_of_the_piece_stands_in_its_inside(piece: Piece) -> None:
    inside = piece.intent.inside
    assert inside is not None
    boxes = [box_of(each.part.blank, each.placement) for each in piece.placed]
    boxes += [
        (
            tuple(c - s / 2 for c, s in zip(body.centre_mm, body.size_mm, strict=True)),
            tuple(c + s / 2 for c, s in zip(body.centre_mm, body.size_mm, strict=True)),
        )
        for body in piece.fixed
    ]
    for low, high in boxes:
        shared = [
            min(high[axis], inside.high[axis]) - max(low[axis], inside.low[axis])
            for axis in range(3)
        ]
        assert min(shared) < 1e-6


def test_an_own_part_says_what_its_bore_is_for() -> None:
    bore = cut(
        Bore, face=Face.FACE_SIDE, x="40 mm", y="20 mm", diameter="12 mm", purpose=OpeningFor.CABLE
    )
    part = PlacedPart(name="back", stock=THICK, length="200 mm", width="60 mm", cuts=[bore])
    piece = Composition(name="board", parts=[part]).build()
    found = opening_in(piece, "back")
    back = placed_named(piece, "back")
    assert back.placement.to_part(found.centre) == pytest.approx((40.0, 20.0, 10.0))
    blind = replace(bore, given={**bore.given, "depth": "5 mm"})
    with pytest.raises(DesignError, match="leave purpose out, or leave the depth out"):
        Composition(name="board", parts=[replace(part, cuts=[blind])]).build()


def test_only_what_lies_flat_is_drained() -> None:
    """A tier is named for it, a part whose name only begins so is none."""
    drain = Opening(on="front rail", purpose=OpeningFor.DRAIN)
    with pytest.raises(DesignError, match="water drains downwards"):
        a_stand(openings=[drain]).build()
    a_stand(openings=[replace(drain, on="lid", size="12 mm", from_edge="40 mm")]).build()
