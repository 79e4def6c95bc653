"""What carries the tiers at the back of a stand: uprights, a glued-up post, a full back rail.

Figures follow by hand from the round numbers of `bench.a_stand`.
"""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    BackRail,
    Ballast,
    DadoEnds,
    Feet,
    LidFixing,
    Opening,
    PostStrips,
    Stock,
    Tier,
    Uprights,
)
from furniture.parts.cuts import Dado, Notch
from furniture.pieces import distinct_parts
from furniture.solids.make import volume_of
from tests.builders.bench import (
    THIN,
    a_stand,
    box_round,
    by_uprights,
    is_wood,
    overlapping,
    parameters_named,
    part,
    proved,
)


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
        """Four strips 25 wide make the post's wood, one part of quantity 4, three glue lines.

        Each is 379.5 x 20 less what the three dados, 10.1 x 6, take of it right across the post.
        """
        whole = a_stand().build()
        piece = a_stand(post_strips=PostStrips(count=4)).build()
        (strips,) = [d for d in distinct_parts(piece) if d.instances[0].startswith("post")]
        assert strips.quantity == 4
        assert 4 * volume_of(strips.part) == pytest.approx(volume_of(part(whole, "post")))
        lines = [
            j for j in piece.joinings if j.into.startswith("post") and j.incoming.startswith("post")
        ]
        assert [j.glue_area_mm2 for j in lines] == [pytest.approx(379.5 * 20 - 3 * 10.1 * 6)] * 3
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
            {"bottom": THIN, "ballast": Ballast(mass="0.5 kg", size=("90 mm", "40 mm", "15 mm"))},
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

    @pytest.mark.parametrize("let_in", ["0 mm", "5 mm"])
    @pytest.mark.parametrize("thick", ["left side rail", "back rail"])
    def test_a_rail_that_is_a_little_thicker_leaves_no_gap_behind_the_post(
        self, thick: str, let_in: str
    ) -> None:
        own = {thick: Stock(name="own", species="white oak", thickness="20.4 mm")}
        piece = a_stand(back_rail=BackRail(let_in=let_in), own_stock=own).build()
        assert proved(piece)

    def test_a_wide_post_leaves_the_lid_its_wings(self) -> None:
        """220 of 300: 40 on either side, 20 inside; the lid still bears there, as is proved."""
        tiers = (Tier(width="240 mm", depth="100 mm", rise="150 mm"),)
        proved(a_stand(back_rail=BackRail(), post_width="220 mm", tiers=tiers).build())

    def test_cable_opening_through_the_back_rail(self) -> None:
        opening = Opening(on="back rail", size="20 mm", from_left="50 mm", from_edge="30 mm")
        piece = a_stand(back_rail=BackRail(), openings=[opening]).build()
        assert not is_wood(piece, "back rail", 250, 190, 30)
        behind = Opening(on="back rail", size="20 mm", from_edge="30 mm")
        assert parameters_named(a_stand(back_rail=BackRail(), openings=[behind])) == ["opening 1"]
