"""The stand's options: what each adds, where, and that nothing meets what it should not.

Figures follow by hand from the round numbers of `bench.a_stand`.
"""

from __future__ import annotations

import re
from typing import Any

import pytest

from furniture import (
    INNER_TOP,
    OUTER_BOTTOM,
    OUTER_TOP,
    TOP_FRONT,
    Arris,
    Ballast,
    Cleats,
    Dowels,
    EdgeProfile,
    Face,
    Feet,
    LidFixing,
    Lip,
    LipEdge,
    Opening,
    OpeningFor,
    PostStrips,
    Tier,
    Vent,
    VentKind,
)
from furniture.parts.cuts import Slot
from furniture.parts.part import Placed
from furniture.pieces import distinct_parts
from furniture.solids.make import solid_of
from tests.builders.bench import (
    THICK,
    THIN,
    a_stand,
    box_round,
    by_uprights,
    oak,
    overlapping,
    parameters_named,
    part,
)


class TestFeet:
    """Pads under the base."""

    def test_pads_lift_everything_and_touch_the_floor(self) -> None:
        """10 mm pads: their lowest point is the floor, the base 10 above it, tops likewise."""
        piece = a_stand(feet=Feet(stock=oak("10 mm")), bottom=THIN).build()
        feet = [each for each in piece.placed if each.instance.endswith("foot")]
        assert len(feet) == 5
        assert {box_round(piece, foot.instance)[0][2] for foot in feet} == {0.0}
        assert box_round(piece, "front rail")[0] == pytest.approx((0, 0, 10))
        assert box_round(piece, "post")[0][2] == pytest.approx(10)
        assert box_round(piece, "front left foot")[0] == pytest.approx((4, 4, 0))
        assert box_round(piece, "back right foot")[1] == pytest.approx((296, 196, 10))
        assert {s.instance: s.top_mm for s in piece.surfaces}["tier 1"] == pytest.approx(239.5)
        assert {r.what: r.end[2] for r in piece.references}["tier 1 top"] == pytest.approx(239.5)
        assert not overlapping(piece)

    def test_every_pad_is_glued_under_rails_or_post(self) -> None:
        """Each of the pads has a joint above it, on a post and on uprights."""
        for design in (a_stand(feet=Feet(stock=THIN)), by_uprights(feet=Feet(stock=THIN))):
            piece = design.build()
            feet = {each.instance for each in piece.placed if each.instance.endswith("foot")}
            assert feet == {j.incoming for j in piece.joinings if j.incoming.endswith("foot")}

    def test_refusals(self) -> None:
        """Too small, too far in, and no stock, all at once."""
        named = parameters_named(a_stand(feet=Feet(length="5 mm", inset="15 mm")))
        assert {"feet.stock", "feet.length", "feet.inset"} == set(named)


class TestLips:
    """Lips and gallery rails."""

    def test_a_front_lip_stands_on_its_tier(self) -> None:
        """10 thick and 12 high on the front edge, as wide as the tier, long grain to long grain."""
        piece = a_stand(lips=[Lip(on="tier 1", height="12 mm")]).build()
        low, high = box_round(piece, "tier 1 front lip")
        assert low == pytest.approx((50, 80, 229.5))
        assert high == pytest.approx((250, 90, 241.5))
        (joint,) = [j for j in piece.joinings if j.incoming == "tier 1 front lip"]
        assert joint.glue_area_mm2 == pytest.approx(200 * 10)
        surface = next(s for s in piece.surfaces if s.instance == "tier 1")
        assert surface.low == pytest.approx((50, 90))
        assert not overlapping(piece)

    def test_a_gallery_on_three_sides(self) -> None:
        """End strips run from behind the front one to the post's front face."""
        lip = Lip(on="tiers", height="30 mm", edges=list(LipEdge))
        piece = a_stand(
            lips=[lip], own_stock={"tier 2": oak("12 mm"), "tier 2 left lip": oak("7 mm")},
            profiles=[EdgeProfile(on="lips", edges=[OUTER_TOP])],
        ).build()  # fmt: skip
        assert box_round(piece, "tier 2 left lip")[0] == pytest.approx((70, 112, 349.5))
        assert box_round(piece, "tier 2 left lip")[1] == pytest.approx((77, 180, 379.5))
        assert box_round(piece, "tier 2 right lip")[0] == pytest.approx((218, 112, 349.5))
        assert box_round(piece, "tier 1 right lip")[0] == pytest.approx((240, 90, 229.5))
        rounds = [each for each in part(piece, "tier 2 left lip").cuts if each.kind == "profile"]
        assert [each.edge for each in rounds] == [OUTER_TOP]
        assert len(piece.placed) == 9 + 6
        assert not overlapping(piece)

    def test_between_uprights_only_at_the_front(self) -> None:
        """A front lip runs between the uprights; ends are refused."""
        piece = by_uprights(lips=[Lip()]).build()
        assert box_round(piece, "tier 1 front lip")[0][0] == pytest.approx(20.25)
        assert not overlapping(piece)
        named = parameters_named(by_uprights(lips=[Lip(edges=[LipEdge.LEFT])]))
        assert named == ["lip 1 edges"]

    def test_a_profile_under_a_lip_is_refused(self) -> None:
        """The covered edge cannot be rounded."""
        profile = EdgeProfile(on="tier 1", edges=[TOP_FRONT])
        assert parameters_named(a_stand(lips=[Lip(on="tier 1")], profiles=[profile])) == [
            "profile 1 edges"
        ]

    def test_a_lip_is_shaped_where_nothing_is_glued_to_it(self) -> None:
        """Below on its tier, and where the end lips meet the front one."""
        lips = [Lip(on="tier 1", edges=[LipEdge.FRONT, LipEdge.LEFT])]
        for on, edge in (
            ("lips", OUTER_BOTTOM), ("tier 1 front lip", INNER_TOP),
            ("tier 1 left lip", Arris(Face.FACE_SIDE, Face.FAR_END)),
        ):  # fmt: skip
            profile = EdgeProfile(on=on, edges=[edge])
            assert parameters_named(a_stand(lips=lips, profiles=[profile])) == ["profile 1 edges"]
        too_wide = EdgeProfile(on="lips", edges=[OUTER_TOP], radius="9 mm")
        assert parameters_named(a_stand(lips=lips, profiles=[too_wide])) == ["profile 1 radius"]


class TestLidFixing:
    """Loose, glued, on cleats."""

    def test_a_glued_lid_has_glue_in_its_rabbets_and_a_loose_one_none(self) -> None:
        """The data that a check of seasons reads."""
        loose, glued = (
            sum(
                joint.glue_area_mm2
                for joint in a_stand(lid_fixing=fixing).build().joinings
                if joint.kind == "rabbet" and joint.incoming == "lid"
            )
            for fixing in (LidFixing.LOOSE, LidFixing.GLUED)
        )
        assert loose == 0.0
        assert glued > 1000.0

    @pytest.mark.parametrize("design", [a_stand, by_uprights])
    def test_cleats_lie_under_the_lid_against_the_side_rails(self, design: Any) -> None:
        """Tops at the rabbet floor, one part of quantity 2, two slots each."""
        piece = design(
            lid_fixing=LidFixing.CLEATS, cleats=Cleats(width="18 mm"), bottom=THIN
        ).build()
        low, high = box_round(piece, "left cleat")
        assert (low[0], high[0], high[2]) == pytest.approx((20, 38, 69.5))
        assert ("left cleat", "right cleat") in [d.instances for d in distinct_parts(piece)]
        assert len([c for c in part(piece, "left cleat").cuts if isinstance(c, Slot)]) == 2
        assert not overlapping(piece)

    def test_cleats_without_the_fixing_are_refused(self) -> None:
        """A maker who states cleats means them."""
        assert parameters_named(a_stand(cleats=Cleats())) == ["cleats"]


class TestDowels:
    """Dowels across the end-grain butts."""

    @pytest.mark.parametrize("bottom", [None, THIN])
    @pytest.mark.parametrize("design", [a_stand, by_uprights])
    def test_bores_line_up_below_the_rabbet(self, design: Any, bottom: Any) -> None:
        """Two 6 mm dowels in each butt, clear of the rabbets, and nothing overlaps."""
        piece = design(dowels=Dowels(), bottom=bottom).build()
        joints = [j for j in piece.joinings if j.kind == "dowelled butt"]
        assert len(joints) == (2 if design is a_stand else 4)
        assert all(len(j.fasteners) == 2 for j in joints)
        lowest = (10 if bottom else 0) + 12
        for joint in joints:
            heights = sorted(dowel.at[2] for dowel in joint.fasteners)
            assert heights == pytest.approx([lowest, 69.5 - 12])
        assert not any(j.advice for j in joints)
        assert not overlapping(piece)

    def test_refusals(self) -> None:
        """Too thick, too many."""
        assert parameters_named(a_stand(dowels=Dowels(diameter="14 mm"))) == ["dowels.diameter"]
        assert parameters_named(a_stand(dowels=Dowels(count=9))) == ["dowels.count"]


class TestBallast:
    """A weight on the bottom of the box."""

    def test_it_lies_on_the_bottom_against_the_post(self) -> None:
        """40 deep, in front of the post at 180, on a bottom of 10, 20 high, pads of 10 below."""
        piece = a_stand(
            bottom=THIN, feet=Feet(stock=THIN),
            ballast=Ballast(mass="0.5 kg", size=("100 mm", "40 mm", "20 mm")),
        ).build()  # fmt: skip
        (body,) = piece.fixed
        assert body.mass_kg == pytest.approx(0.5)
        assert body.centre_mm == pytest.approx((150, 160, 10 + 10 + 10))

    def test_refusals(self) -> None:
        """No bottom, no mass, too large."""
        ballast = Ballast(size=("100 mm", "400 mm", "20 mm"))
        named = parameters_named(a_stand(ballast=ballast))
        assert set(named) == {"bottom", "ballast.mass", "ballast.size depth"}


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"openings": [Opening(on=None, size=5)]}, {"opening 1 size", "opening 1 on"}),
        ({"openings": [Opening(on="lid", purpose="gas")]}, {"opening 1 purpose"}),
        ({"openings": [Opening(on="lid", size="20 mm", flange="10 mm")]}, {"opening 1 flange"}),
        ({"openings": ["lid"]}, {"opening 1"}),
        ({"openings": [Opening(on="lid", from_left=3)]}, {"opening 1 from_left"}),
        ({"vents": [Vent(on="lid", count="many")]}, {"vent 1 count"}),
        ({"vents": [Vent(on="lid", size="8 mm", spacing="9 mm")]}, {"vent 1 spacing"}),
        (
            {"vents": [Vent(on="lid", kind=VentKind.SLOTS, size="8 mm", length="6 mm")]},
            {"vent 1 length"},
        ),
        ({"vents": [Vent(on="front rail", count=20)]}, {"vent 1"}),
        ({"lips": [Lip(on="lid")]}, {"lip 1 on"}),
        ({"lips": [Lip(edges=[])]}, {"lip 1 edges"}),
        ({"lips": [Lip(height="1 mm")]}, {"lip 1 height"}),
        ({"lips": [Lip(), Lip(on="tier 1")]}, {"lip 2 on"}),
        ({"feet": "rubber"}, {"feet"}),
        ({"feet": Feet(stock=THIN, lenght="3 mm")}, {"feet.lenght"}),
        ({"lid_fixing": "nailed"}, {"lid_fixing"}),
        ({"lid_fixing": LidFixing.CLEATS, "cleats": 2}, {"cleats"}),
        ({"lid_fixing": LidFixing.CLEATS, "cleats": Cleats(width="5 mm")}, {"cleats.width"}),
        ({"ballast": Ballast(mass="1 kg", size="big"), "bottom": THIN}, {"ballast.size"}),
        ({"ballast": "lead", "bottom": THIN}, {"ballast"}),
        ({"post_strips": PostStrips(count="3")}, {"post_strips.count"}),
        ({"dowels": Dowels(count="two")}, {"dowels.count"}),
        ({"dowels": Dowels(length="8 mm")}, {"dowels.length"}),
        ({"dowels": "two"}, {"dowels"}),
    ],
)
def test_bad_options_are_named(changes: dict[str, Any], named: set[str]) -> None:
    """Each option's own parameter is named, and no other."""
    problems = {re.sub(r" \([^)]*\)", "", name) for name in parameters_named(a_stand(**changes))}
    assert problems == named


def test_everything_at_once_is_closed_and_clear() -> None:
    """All options together: every solid valid, nothing overlaps, on a post and on uprights."""
    options: dict[str, Any] = {
        "bottom": THIN,
        "lips": [Lip(on="tier 1", height="10 mm")],
        "feet": Feet(stock=THIN),
        "lid_fixing": LidFixing.CLEATS,
        "ballast": Ballast(mass="0.3 kg", size=("80 mm", "20 mm", "20 mm")),
        "openings": [Opening(on="tiers", size="14 mm", purpose=OpeningFor.DRAIN)],
        "vents": [Vent(on="front rail", from_edge="35 mm")],
    }
    for design in (a_stand(post_strips=PostStrips(count=3), **options), by_uprights(**options)):
        piece = design.build()
        assert all(is_closed(each) for each in piece.placed)
        assert not overlapping(piece)


def is_closed(placed: Placed) -> bool:
    """Whether an instance's solid is valid and encloses wood."""
    solid = solid_of(placed.part)
    return bool(solid.isValid()) and solid.Volume() > 0


def test_defaults_are_off() -> None:
    """A stand that names no option has box, post, lid and tiers, and nothing else."""
    piece = a_stand(
        tiers=[Tier(width="200 mm", depth="100 mm", rise="100 mm")], thick=THICK
    ).build()
    assert len(piece.placed) == 8
    assert piece.fixed == ()
