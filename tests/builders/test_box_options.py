"""The options of a box alone: each as on a stand, proved, and refused where it makes no sense.

Figures follow by hand from the round numbers of `bench.a_box`: 300 x 200 x 80, rails 20, lid 10.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from furniture import (
    Ballast,
    BottomFixing,
    Cleats,
    Dowels,
    Feet,
    FingerHold,
    Hardware,
    Key,
    LidFixing,
    Opening,
    OpeningFor,
    Spline,
    Stock,
    Vent,
    VentKind,
    inches,
)
from furniture.assembly.ways_out import ways_out_of
from furniture.joints import Role
from furniture.parts.cuts import Bore, FingerNotch, Slot
from furniture.pieces import bought_parts
from furniture.solids.make import volume_of
from furniture.units import figure_with_unit
from tests.builders.bench import (
    THIN,
    a_box,
    a_stand,
    box_round,
    oak,
    overlapping,
    parameters_named,
    part,
    problems_of,
    proved,
)

KEYS = [
    Key(name=f"key {n}", stock=oak("4 mm"), between=between, depth="14 mm", start="30 mm")
    for n, between in enumerate(
        (rail, side)
        for rail in ("front rail", "back rail")
        for side in ("left side rail", "right side rail")
    )
]


@pytest.mark.parametrize(
    "options",
    [
        {"feet": Feet(stock=THIN)},
        {"feet": Feet(stock=THIN), "bottom": THIN, "bottom_fixing": BottomFixing.PINNED},
        {"lid_fixing": LidFixing.GLUED},
        {"lid_fixing": LidFixing.CLEATS, "cleats": Cleats(width="25 mm"), "bottom": THIN},
        {"bottom": THIN, "ballast": Ballast(mass="1 kg"), "bottom_fixing": BottomFixing.GLUED},
        {"openings": [Opening(on="back rail", size="20 mm", from_edge="30 mm")]},
        {"vents": [Vent(on="front rail", count=6, size="8 mm", from_edge="35 mm")]},
        {"corner_parts": KEYS, "feet": Feet(stock=THIN)},
        {
            "corner_parts": [
                Spline(
                    stock=oak("4 mm"), between=("front rail", "left side rail"), into_each="6 mm",
                    from_long_point="16 mm", width="30 mm", start="12 mm",
                )
            ]
        },
    ],
)  # fmt: skip
def test_every_proof_holds(options: dict[str, Any]) -> None:
    """Nothing overlaps, contacts are true, no cuts fight, and it goes together."""
    proved(a_box(**options).build())


def test_pads_lift_the_box() -> None:
    """Four pads of 10, their outer corners 4 in from the box's; the lid's top goes up by 10."""
    plain, piece = a_box().build(), a_box(feet=Feet(stock=THIN)).build()
    feet = [each.instance for each in piece.placed if each.instance.endswith("foot")]
    assert len(feet) == 4
    assert {box_round(piece, foot)[0][2] for foot in feet} == {0.0}
    assert box_round(piece, "front left foot")[0] == pytest.approx((4, 4, 0))
    assert box_round(piece, "lid")[1][2] == pytest.approx(box_round(plain, "lid")[1][2] + 10)
    assert piece.surfaces[0].top_mm == pytest.approx(plain.surfaces[0].top_mm + 10)
    assert {each.incoming for each in piece.joinings if each.incoming in feet} == set(feet)


def test_vents_and_openings_take_their_wood() -> None:
    """Six bores of 8 through 20 in the front, one of 25 through the lid's 10."""
    piece = a_box(
        vents=[Vent(on="front rail", count=6, size="8 mm", from_edge="35 mm")],
        openings=[Opening(on="lid", size="25 mm")],
    ).build()
    plain = a_box().build()
    front = volume_of(part(plain, "front rail")) - volume_of(part(piece, "front rail"))
    lid = volume_of(part(plain, "lid")) - volume_of(part(piece, "lid"))
    assert front == pytest.approx(6 * math.pi * 16 * 20, rel=1e-6)
    assert lid == pytest.approx(math.pi * 12.5**2 * 10, rel=1e-6)


def test_a_drain_in_the_bottom_and_slots_in_a_side() -> None:
    piece = a_box(
        bottom=THIN,
        openings=[Opening(on="bottom", size="12 mm", purpose=OpeningFor.DRAIN)],
        vents=[Vent(on="left side rail", kind=VentKind.SLOTS, count=3, size="6 mm", length="24 mm",
                    from_edge="38 mm")],
    ).build()  # fmt: skip
    assert [c.kind for c in part(piece, "bottom").cuts] == ["bore"]
    assert sum(isinstance(c, Slot) for c in part(piece, "left side rail").cuts) == 3
    assert any("drain" in note.text for note in piece.notes)
    assert not overlapping(piece)


def test_a_fixed_lid_has_no_finger_hold() -> None:
    """It is left out by itself; asked for, it is refused, and a loose lid keeps its notch."""
    glued = a_box(lid_fixing=LidFixing.GLUED, finger_size=None).build()
    assert part(glued, "lid").cuts == ()
    assert ways_out_of(glued) == ()
    asked = a_box(lid_fixing=LidFixing.GLUED, finger_hold=FingerHold.BORE)
    assert parameters_named(asked) == ["finger_hold"]
    assert isinstance(part(a_box().build(), "lid").cuts[0], FingerNotch)


def test_a_lid_on_cleats_is_screwed_from_below() -> None:
    piece = a_box(lid_fixing=LidFixing.CLEATS).build()
    assert box_round(piece, "left cleat")[0] == pytest.approx((20, 21, 59.5))
    assert box_round(piece, "left cleat")[1] == pytest.approx((40, 179, 69.5))
    assert [(b.name, b.quantity) for b in bought_parts(piece)] == [("round-head wood screw", 4)]


def test_a_pinned_bottom_does_not_drop_out() -> None:
    """10 and 8 of bite: 20 is the next that is sold; by the inch 18 mm is 0.709, so 3/4."""
    for shown, length in ((None, 20.0), (inches(64), 19.05)):
        more = {} if shown is None else {"shown": shown}
        piece = a_box(bottom=THIN, bottom_fixing=BottomFixing.PINNED, **more).build()
        (pins,) = bought_parts(piece)
        assert (pins.name, pins.quantity) == ("panel pin", 2)
        assert pins.length_mm == pytest.approx(length)
        assert [each.moving for each in ways_out_of(piece)] == [("lid",)]
        assert any("pin the bottom" in note.text for note in piece.notes)


def test_only_of_solid_wood_a_sheet_is_advised_for_a_glued_bottom() -> None:
    """What is plywood already asks for none."""
    ply = Stock(name="ply", species="birch plywood 6 mm", thickness="6 mm")
    for stock, is_told in ((THIN, True), (ply, False)):
        piece = a_box(bottom=stock, bottom_fixing=BottomFixing.GLUED).build()
        (told,) = [each.text for each in piece.notes if "bottom is glued" in each.text]
        assert ("use sheet stock" in told) is is_told


def test_feet_as_wide_as_the_rail_allows_stand_on_what_the_bottoms_rabbet_leaves() -> None:
    """Rails 20 with a rabbet for the bottom: a pad meets the rail's foot on the wood outside it."""
    feet = Feet(stock=THIN, inset="0 mm", length="40 mm", width="40 mm")
    piece = a_box(bottom=THIN, bottom_fixing=BottomFixing.PINNED, feet=feet).build()
    proved(piece)
    rabbets = [each for each in piece.joinings if each.incoming == "bottom"]
    reach = min(face.deep_mm for each in rabbets for face in each.faces)
    for joining in piece.joinings:
        if "foot" in joining.incoming:
            (face,) = joining.faces
            assert face.deep_mm < 20.0 - reach
            assert (face.run_mm, joining.role) == (pytest.approx(40.0), Role.SEAT)
    pins = [pin for each in rabbets for pin in each.fasteners]
    assert len(pins) == 2
    assert {round(pin.at[1], 6) for pin in pins} == {100.0}


def test_ballast_counts_and_is_bought() -> None:
    lead = Ballast(mass="1 kg", size=("100 mm", "50 mm", "20 mm"))
    piece = a_box(
        bottom=THIN, ballast=lead, feet=Feet(stock=THIN), bottom_fixing=BottomFixing.GLUED
    ).build()
    (body,) = piece.fixed
    assert body.centre_mm == pytest.approx((150, 180 - 25, 10 + 10 + 10))
    assert [thing.name for thing in bought_parts(piece)] == ["ballast"]


REFUSED: list[tuple[dict[str, Any], str]] = [
    ({"ballast": Ballast(mass="1 kg")}, "bottom"),
    ({"bottom_fixing": BottomFixing.PINNED}, "bottom_fixing"),
    ({"bottom": THIN, "bottom_fixing": "nailed"}, "bottom_fixing"),
    ({"bottom": oak("34 mm"), "bottom_fixing": BottomFixing.PINNED}, "bottom_fixing"),
    ({"cleats": Cleats()}, "cleats"),
    ({"lid_fixing": LidFixing.CLEATS, "cleats": Cleats(width="90 mm")}, "cleats.width"),
    ({"feet": Feet(stock=THIN, length="90 mm")}, "feet.length"),
    ({"feet": Feet()}, "feet.stock"),
    ({"openings": [Opening(on="post")]}, "opening 1 on"),
    ({"openings": [Opening(on="front rail", size="20 mm", from_edge="66 mm")]}, "opening 1"),
    ({"vents": [Vent(on="lid", size="8 mm", count=3, from_edge="8 mm")]}, "vent 1"),
    ({"hardware": [Hardware(name="pad", on="legs")]}, "hardware 1 (pad) on"),
    (
        {"corner_parts": [Key(stock=THIN, between=("front rail", "lid"), depth="9 mm")]},
        "corner part 1 (key) between",
    ),
]


@pytest.mark.parametrize(("options", "named"), REFUSED)
def test_what_makes_no_sense_is_refused_by_its_name(options: dict[str, Any], named: str) -> None:
    problems = problems_of(a_box(**options))
    assert named in [problem.parameter for problem in problems]
    assert all(p.given and p.allowed and p.why and p.remedy for p in problems)


class TestOpeningsKeepClear:
    """Of what is bored or notched in the part already, told when the design is read."""

    def test_of_a_lid_s_finger_notch(self) -> None:
        """The notch of 24 takes the edge at 139.5 +- 12; a bore beside it needs 5 mm of wood."""
        middle = part(a_box().build(), "lid").cuts[0].centre_mm  # type: ignore[attr-defined]
        near, far = (
            Opening(on="lid", size="20 mm", from_left=f"{middle + away} mm", from_edge="24 mm")
            for away in (10.0, 14.0)
        )
        # 10 aside and 24 up are 26 apart: 12 + 10 and 4 of wood; 14 and 24 are 27.8: 5.8.
        assert parameters_named(a_box(openings=[near])) == ["opening 1"]
        assert a_box(openings=[far]).build().placed

    @pytest.mark.parametrize("on", ["left stub", "post"])
    def test_of_dowels(self, on: str) -> None:
        """The dowels across the stub and the post lie 20 and 57.5 high; a bore there meets them."""
        stand: dict[str, Any] = {"dowels": Dowels(count=2, diameter="6 mm")}
        piece = a_stand(**stand).build()
        (height, *_) = sorted(d.at[2] for j in piece.joinings for d in j.fasteners)
        meets = Opening(
            on=on,
            size="8 mm",
            from_left="16 mm",
            from_edge=figure_with_unit(height, piece.shown),
        )
        (problem,) = problems_of(a_stand(openings=[meets], **stand))
        assert problem.parameter == "opening 1"
        assert "dowel" in problem.given
        assert a_stand(openings=[meets]).build().placed  # without dowels there is room

    def test_a_bore_between_the_dowels_is_let_be(self) -> None:
        opening = Opening(on="left stub", size="6 mm", from_left="16 mm", from_edge="36 mm")
        piece = a_stand(openings=[opening], dowels=Dowels(count=2, diameter="6 mm")).build()
        assert sum(isinstance(c, Bore) for c in part(piece, "left stub").cuts) == 3
