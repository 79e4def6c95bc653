"""The stand's options: what each adds, where, and that nothing meets what it should not.

Figures follow by hand from the round numbers of `bench.a_stand`.
"""

from __future__ import annotations

import math
import re
from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    BackRail,
    Ballast,
    Cleats,
    DadoEnds,
    Dowels,
    EdgeProfile,
    Feet,
    LidFixing,
    Lip,
    LipEdge,
    Opening,
    OpeningFor,
    PostStrips,
    SteppedStand,
    Tier,
    TierRule,
    Uprights,
    Vent,
    VentKind,
)
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.parts.cuts import Bore, Dado, Notch, Slot
from furniture.parts.part import Placed
from furniture.pieces import Piece, distinct_parts, placed_named
from furniture.solids.make import placed_solid, solid_of, volume_of
from furniture.solids.proof import (
    clashing_joints,
    interferences,
    untrue_contacts,
    wasted_cuts,
)
from tests.builders.bench import (
    THICK,
    THIN,
    a_stand,
    box_round,
    oak,
    overlapping,
    parameters_named,
    part,
)


def by_uprights(**changes: Any) -> SteppedStand:
    """The round-numbered stand on two uprights 120 deep, three tiers stepping back by 30."""
    tiers = TierRule(count=3, depth="160 mm", rise="120 mm", step_back_depth="30 mm")
    given: dict[str, Any] = {
        "uprights": Uprights(depth="120 mm"), "post_width": None, "tiers": tiers,
    }  # fmt: skip
    return a_stand(**{**given, **changes})


def proved(piece: Piece) -> AssemblyPlan:
    """The plan of a piece that passes every proof."""
    assert interferences(piece) == ()
    assert untrue_contacts(piece) == ()
    assert wasted_cuts(piece) == ()
    assert clashing_joints(piece) == ()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    return plan


def is_wood(piece: Piece, instance: str, x: float, y: float, z: float) -> bool:
    """Whether there is wood of that instance at a point of the piece."""
    each = placed_named(piece, instance)
    return bool(placed_solid(each.part, each.placement).isInside((x, y, z), 1e-6))


class TestUprights:
    """Two uprights as the box's back corners."""

    def test_parts_and_places(self) -> None:
        """Uprights 20 x 120 at the back corners, rails between, tiers 6 into each."""
        piece = by_uprights().build()
        for instance, low, high in (
            ("left upright", (0, 80, 0), (20, 200, 469.5)),  # 79.5 + 3 x 120 + 30
            ("right upright", (280, 80, 0), (300, 200, 469.5)),
            ("left side rail", (0, 0, 0), (20, 80, 80)),
            ("back rail", (20, 180, 0), (280, 200, 80)),
            ("lid", (10.5, 11, 69.5), (289.5, 189, 79.5)),
            ("tier 1", (14, 40, 189.5), (286, 200, 199.5)),
            ("tier 3", (14, 100, 429.5), (286, 200, 439.5)),
        ):
            found_low, found_high = box_round(piece, instance)
            assert found_low == pytest.approx(low)
            assert found_high == pytest.approx(high)
        assert not overlapping(piece)

    def test_stopped_dados_do_not_show_at_the_front(self) -> None:
        """The front 12 mm of both uprights are whole wood at every tier, and open behind."""
        piece = by_uprights().build()
        for height in (194.5, 314.5):
            for upright, x in (("left upright", 17.0), ("right upright", 283.0)):
                assert is_wood(piece, upright, x, 80 + 6, height)
                assert not is_wood(piece, upright, x, 80 + 20, height)

    def test_stopped_dado_volumes(self) -> None:
        """Two dados 108 long and one as long as its tier is deep, each 10.1 x 6."""
        piece = by_uprights().build()
        left = 469.5 * 120 * 20 - 10.1 * 6 * (108 + 108 + 100)
        assert volume_of(part(piece, "left upright")) == pytest.approx(left, rel=1e-9)
        assert volume_of(part(piece, "right upright")) == pytest.approx(left, rel=1e-9)

    def test_lid_lifts_off_forward(self) -> None:
        """Its corner notches clear the uprights by the gaps, so it slides out above the rails."""
        piece = by_uprights().build()
        lid = part(piece, "lid")
        notches = [cut for cut in lid.cuts if isinstance(cut, Notch)]
        # 20 - 10.5 + 0.5 along, and 189 - (80 - 1) across, at both corners.
        assert [(n.length_mm, n.depth_mm) for n in notches] == [
            (pytest.approx(10.0), pytest.approx(110.0))
        ] * 2
        assert volume_of(lid) == pytest.approx(279 * 178 * 10 - 2 * 10 * 110 * 10)

    def test_through_dados_make_the_uprights_one_part(self) -> None:
        """Without stops the two uprights are equal after turning."""
        piece = by_uprights(uprights=Uprights(depth="90 mm", dado_ends=DadoEnds.THROUGH)).build()
        assert ("left upright", "right upright") in [d.instances for d in distinct_parts(piece)]
        assert not overlapping(piece)

    @pytest.mark.parametrize("proud", ["0 mm", "30 mm"])
    @pytest.mark.parametrize("radius", ["0 mm", "4 mm"])
    def test_round_ends_and_flush_tops(self, proud: str, radius: str) -> None:
        """A router's round ends and uprights trimmed flush still go together, bottom in."""
        piece = by_uprights(
            uprights=Uprights(depth="120 mm", bit_radius=radius), post_proud=proud, bottom=THIN
        ).build()
        assert not overlapping(piece)
        dados = [cut for cut in part(piece, "left upright").cuts if isinstance(cut, Dado)]
        assert len(dados) == (3 if proud == "30 mm" else 2)


class TestPostStrips:
    """A post glued up from strips."""

    def test_strips_are_real_parts_glued_long_to_long(self) -> None:
        """Four strips 25 wide make the post's wood, one part of quantity 4, three glue lines."""
        whole = a_stand().build()
        piece = a_stand(post_strips=PostStrips(count=4)).build()
        (strips,) = [d for d in distinct_parts(piece) if d.instances[0].startswith("post")]
        assert strips.quantity == 4
        assert 4 * volume_of(strips.part) == pytest.approx(volume_of(part(whole, "post")))
        lines = [
            j for j in piece.joinings if j.into.startswith("post") and j.incoming.startswith("post")
        ]
        assert [j.glue_area_mm2 for j in lines] == [pytest.approx(379.5 * 20)] * 3
        assert not overlapping(piece)


class TestBackRail:
    """A full back rail behind the post."""

    def test_parts_and_places(self) -> None:
        """The post's back face on the rail's inner one at 180; the strip fills the 10 mm rabbet."""
        piece = a_stand(back_rail=BackRail()).build()
        for instance, low, high in (
            ("back rail", (0, 180, 0), (300, 200, 80)),
            ("post", (100, 160, 0), (200, 180, 379.5)),
            ("rabbet filler", (100, 180, 69.5), (200, 190, 79.5)),
            ("tier 1", (50, 60, 219.5), (250, 166, 229.5)),
            ("lid", (10.5, 11, 69.5), (289.5, 189, 79.5)),
        ):
            found_low, found_high = box_round(piece, instance)
            assert found_low == pytest.approx(low)
            assert found_high == pytest.approx(high)
        assert not overlapping(piece)

    def test_four_mitred_corners_and_no_stub(self) -> None:
        piece = a_stand(back_rail=BackRail()).build()
        assert sum(each.kind == "mitre" for each in piece.joinings) == 4
        assert not any("stub" in each.instance for each in piece.placed)

    def test_the_lid_is_notched_round_the_post(self) -> None:
        """From the rabbet wall at 189 to the lid's edge in the post's dado: 160 + 6 - 1 = 165,
        so 24 deep; 100 wide and 0.5 clear on either side."""
        piece = a_stand(back_rail=BackRail()).build()
        (notch,) = [cut for cut in part(piece, "lid").cuts if isinstance(cut, Notch)]
        assert (notch.length_mm, notch.depth_mm) == (pytest.approx(101.0), pytest.approx(24.0))

    def test_a_post_let_in(self) -> None:
        """4 mm: the housing is 100 + 0.15 wide and 80 high; the strip is 6 mm wide."""
        plain = a_stand(back_rail=BackRail()).build()
        piece = a_stand(back_rail=BackRail(let_in="4 mm")).build()
        (dado,) = [cut for cut in part(piece, "back rail").cuts if isinstance(cut, Dado)]
        assert (dado.width_mm, dado.depth_mm) == (pytest.approx(100.15), pytest.approx(4.0))
        # The lid's rabbet, 10.5 high and 10 deep, has taken some of it already.
        less = volume_of(part(plain, "back rail")) - volume_of(part(piece, "back rail"))
        assert less == pytest.approx(100.15 * 4 * (80 - 10.5))
        low, high = box_round(piece, "rabbet filler")
        assert high[1] - low[1] == pytest.approx(6.0)
        assert not overlapping(piece)

    def test_let_in_by_the_rabbet_there_is_nothing_to_fill(self) -> None:
        piece = a_stand(back_rail=BackRail(let_in="10 mm")).build()
        assert "rabbet filler" not in [each.instance for each in piece.placed]
        assert is_wood(piece, "post", 150, 189.5, 75)
        assert not overlapping(piece)

    @pytest.mark.parametrize("let_in", ["0 mm", "4 mm", "10 mm"])
    @pytest.mark.parametrize(
        "options",
        [
            {},
            {"bottom": THIN},
            {"feet": Feet(stock=THIN), "bottom": THIN, "lid_fixing": LidFixing.CLEATS},
            {"post_proud": "0 mm", "lid_fixing": LidFixing.GLUED},
            {"bottom": THIN, "ballast": Ballast(mass="1 kg", size=("90 mm", "40 mm", "15 mm"))},
        ],
    )
    def test_every_proof_holds_with_every_other_option(
        self, let_in: str, options: dict[str, Any]
    ) -> None:
        """Nothing overlaps, contacts are true, no cuts fight, and it goes together."""
        piece = a_stand(back_rail=BackRail(let_in=let_in), **options).build()
        proved(piece)

    def test_glued_up_from_strips_the_strips_go_together_first(self) -> None:
        piece = a_stand(back_rail=BackRail(), post_strips=PostStrips(count=4)).build()
        plan = proved(piece)
        first = [set(step.moving) | set(step.onto) for step in plan.steps[:3]]
        assert all(name.startswith("post strip") for names in first for name in names)

    def test_a_wide_post_leaves_the_lid_its_wings(self) -> None:
        """220 of 300: 40 on either side, 20 inside; the lid still bears there, as is proved."""
        tiers = (Tier(width="240 mm", depth="100 mm", rise="150 mm"),)
        proved(a_stand(back_rail=BackRail(), post_width="220 mm", tiers=tiers).build())

    def test_cable_opening_through_the_back_rail(self) -> None:
        opening = Opening(on="back rail", size="20 mm", from_left="50 mm", from_edge="30 mm")
        piece = a_stand(back_rail=BackRail(), openings=[opening]).build()
        assert not is_wood(piece, "back rail", 250, 190, 30)
        behind = Opening(on="back rail", size="20 mm", from_edge="30 mm")
        assert parameters_named(a_stand(back_rail=BackRail(), openings=[behind])) == ["openings[0]"]


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
        piece = a_stand(lips=[lip]).build()
        assert box_round(piece, "tier 2 left lip")[0] == pytest.approx((70, 110, 349.5))
        assert box_round(piece, "tier 2 left lip")[1] == pytest.approx((80, 180, 379.5))
        assert len(piece.placed) == 9 + 6
        assert not overlapping(piece)

    def test_between_uprights_only_at_the_front(self) -> None:
        """A front lip runs between the uprights; ends are refused."""
        piece = by_uprights(lips=[Lip()]).build()
        assert box_round(piece, "tier 1 front lip")[0][0] == pytest.approx(20.25)
        assert not overlapping(piece)
        named = parameters_named(by_uprights(lips=[Lip(edges=[LipEdge.LEFT])]))
        assert named == ["lips[0].edges"]

    def test_a_profile_under_a_lip_is_refused(self) -> None:
        """The covered edge cannot be rounded."""
        profile = EdgeProfile(on="tier 1", edges=[TOP_FRONT])
        assert parameters_named(a_stand(lips=[Lip(on="tier 1")], profiles=[profile])) == [
            "profiles[0].edges"
        ]


def cylinder(diameter: float, thickness: float) -> float:
    """The wood that a bore takes [mm3]."""
    return math.pi * diameter**2 / 4 * thickness


class TestOpenings:
    """Openings and vents at stated places."""

    @pytest.mark.parametrize(
        ("on", "place", "through"),
        [
            # Seen from outside, 40 from the left and 30 up.
            ("front rail", {"from_left": "40 mm", "from_edge": "30 mm"}, (40, 5, 30)),
            ("left side rail", {"from_left": "60 mm", "from_edge": "30 mm"}, (5, 140, 30)),
            ("right side rail", {"from_left": "60 mm", "from_edge": "30 mm"}, (295, 60, 30)),
            ("left stub", {"from_left": "30 mm", "from_edge": "30 mm"}, (70, 195, 30)),
            # The post from the front: 30 from its left edge is x = 130.
            ("post", {"from_left": "30 mm", "from_edge": "120 mm"}, (130, 190, 120)),
            ("tier 1", {"from_left": "40 mm", "from_edge": "25 mm"}, (90, 105, 225)),
            ("lid", {"from_edge": "60 mm"}, (150, 71, 75)),
        ],
    )
    def test_it_goes_through_where_it_says(
        self, on: str, place: dict[str, str], through: tuple[float, float, float]
    ) -> None:
        """The stated place is a hole 12 wide: no wood 5.9 beside it, wood 6.1 beside it."""
        piece = a_stand(openings=[Opening(on=on, size="12 mm", **place)]).build()
        assert not is_wood(piece, on, *through)
        taken = volume_of(part(a_stand().build(), on)) - volume_of(part(piece, on))
        thickness = part(piece, on).blank.thickness_mm
        assert taken == pytest.approx(cylinder(12, thickness), rel=1e-6)
        each = placed_named(piece, on)
        for way in (each.placement.x_axis, each.placement.y_axis):
            near = [p + 5.9 * d for p, d in zip(through, way, strict=True)]
            far = [p + 6.1 * d for p, d in zip(through, way, strict=True)]
            assert not is_wood(piece, on, near[0], near[1], near[2])
            assert is_wood(piece, on, far[0], far[1], far[2])

    def test_uprights_are_faced_from_between(self) -> None:
        """30 from the front edge of both uprights, at the same height."""
        opening = Opening(on="uprights", size="12 mm", from_left="30 mm", from_edge="140 mm")
        piece = by_uprights(openings=[opening]).build()
        assert not is_wood(piece, "left upright", 10, 110, 140)
        assert not is_wood(piece, "right upright", 290, 110, 140)

    def test_drains_in_every_tier(self) -> None:
        """A group means each of its parts, and a drain is a note on the sheets."""
        drain = Opening(on="tiers", size="16 mm", from_edge="50 mm", purpose=OpeningFor.DRAIN)
        piece = a_stand(openings=[drain]).build()
        for tier in ("tier 1", "tier 2"):
            assert [c.kind for c in part(piece, tier).cuts] == ["bore"]
        assert any("drain" in note for note in piece.notes)
        named = parameters_named(a_stand(openings=[Opening(on="post", purpose=OpeningFor.DRAIN)]))
        assert named[0] == "openings[0].on"

    @pytest.mark.parametrize(
        "opening",
        [
            Opening(on="tier 1", size="20 mm", from_left="12 mm"),  # 2 mm to the end
            Opening(on="tier 1", size="20 mm", from_edge="90 mm"),  # runs into the post
            Opening(on="post", size="20 mm", from_edge="224 mm"),  # through tier 1's dado
            Opening(on="front rail", size="20 mm", from_left="22 mm", from_edge="30 mm"),  # mitre
            Opening(on="front rail", size="20 mm", from_edge="62 mm"),  # lid's rabbet
            Opening(on="tier 1", size="20 mm", flange="30 mm", from_left="18 mm"),
            Opening(on="tier 1", size="20 mm", from_left="900 mm"),
        ],
    )
    def test_openings_that_meet_something_are_refused(self, opening: Opening) -> None:
        """Edges, dados, mitres, rabbets: each refusal names the opening."""
        assert parameters_named(a_stand(openings=[opening])) == ["openings[0]"]

    def test_two_openings_that_meet_are_refused(self) -> None:
        """Twenty wide, twenty-four apart: 4 mm of wood is too little, 5 is enough."""
        first = Opening(on="lid", size="20 mm", from_left="100 mm", from_edge="60 mm")
        near = Opening(on="lid", size="20 mm", from_left="124 mm", from_edge="60 mm")
        clear = Opening(on="lid", size="20 mm", from_left="125 mm", from_edge="60 mm")
        assert parameters_named(a_stand(openings=[first, near])) == ["openings[1]"]
        assert a_stand(openings=[first, clear]).build().placed

    def test_a_row_of_bores_and_a_row_of_slots(self) -> None:
        """Five bores of 8, and four upright slots 6 x 30: volumes in closed form."""
        piece = a_stand(
            vents=[
                Vent(on="front rail", count=5, size="8 mm", spacing="20 mm", from_edge="35 mm"),
                Vent(
                    on="post", kind=VentKind.SLOTS, count=4, size="6 mm", length="30 mm",
                    spacing="15 mm", from_edge="140 mm",
                ),
            ]
        ).build()  # fmt: skip
        plain = a_stand().build()
        rail = volume_of(part(plain, "front rail")) - volume_of(part(piece, "front rail"))
        assert rail == pytest.approx(5 * cylinder(8, 20), rel=1e-6)
        slots = [cut for cut in part(piece, "post").cuts if isinstance(cut, Slot)]
        assert sorted(cut.y_mm for cut in slots) == pytest.approx([27.5, 42.5, 57.5, 72.5])
        post = volume_of(part(plain, "post")) - volume_of(part(piece, "post"))
        assert post == pytest.approx(4 * (24 * 6 * 20 + cylinder(6, 20)), rel=1e-6)
        assert not is_wood(piece, "post", 127.5, 190, 152)
        bores = [cut for cut in part(piece, "front rail").cuts if isinstance(cut, Bore)]
        assert sorted(cut.x_mm or 0.0 for cut in bores) == pytest.approx([110, 130, 150, 170, 190])


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
        assert all(len(j.dowels) == 2 for j in joints)
        lowest = (10 if bottom else 0) + 12
        for joint in joints:
            heights = sorted(dowel.at[2] for dowel in joint.dowels)
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
            ballast=Ballast(mass="1.5 kg", size=("100 mm", "40 mm", "20 mm")),
        ).build()  # fmt: skip
        (body,) = piece.fixed
        assert body.mass_kg == pytest.approx(1.5)
        assert body.centre_mm == pytest.approx((150, 160, 10 + 10 + 10))

    def test_refusals(self) -> None:
        """No bottom, no mass, too large."""
        ballast = Ballast(size=("100 mm", "400 mm", "20 mm"))
        named = parameters_named(a_stand(ballast=ballast))
        assert set(named) == {"bottom", "ballast.mass", "ballast.size[1]"}


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"openings": [Opening(on=None, size=5)]}, {"openings[0].size", "openings[0].on"}),
        ({"openings": [Opening(on="lid", purpose="gas")]}, {"openings[0].purpose"}),
        ({"openings": [Opening(on="lid", size="20 mm", flange="10 mm")]}, {"openings[0].flange"}),
        ({"openings": ["lid"]}, {"openings[0]"}),
        ({"openings": [Opening(on="lid", from_left=3)]}, {"openings[0].from_left"}),
        ({"vents": [Vent(on="lid", count="many")]}, {"vents[0].count"}),
        ({"vents": [Vent(on="lid", size="8 mm", spacing="9 mm")]}, {"vents[0].spacing"}),
        (
            {"vents": [Vent(on="lid", kind=VentKind.SLOTS, size="8 mm", length="6 mm")]},
            {"vents[0].length"},
        ),
        ({"vents": [Vent(on="front rail", count=20)]}, {"vents[0]"}),
        ({"lips": [Lip(on="lid")]}, {"lips[0].on"}),
        ({"lips": [Lip(edges=[])]}, {"lips[0].edges"}),
        ({"lips": [Lip(height="1 mm")]}, {"lips[0].height"}),
        ({"lips": [Lip(), Lip(on="tier 1")]}, {"lips[1].on"}),
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
        "ballast": Ballast(mass="1 kg", size=("80 mm", "20 mm", "20 mm")),
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
