"""The stepped stand's sizes, places, volumes and centres against figures worked by hand.

All of them follow from the round numbers in `bench.a_stand`: 300 x 200 x 80 box, 20 mm rails and
post, 10 mm lid and tiers, 0.5 mm planed off, rabbets 10 wide, dados 6 deep, clearance 0.1.
So the lid's top lies at 79.5, the rabbet floor at 69.5, the post's front face at y = 180.
"""

from __future__ import annotations

import pytest

from furniture import SLIP, Tier, TierRule
from furniture.joints.joint import Joining
from furniture.parts.cuts import Dado, Notch, Rabbet
from furniture.parts.faces import Face
from furniture.pieces import Piece, distinct_parts
from furniture.solids.make import centre_of, volume_of
from tests.builders.bench import a_stand, box_round, oak, overlapping, part


@pytest.fixture(scope="module")
def stand() -> Piece:
    return a_stand().build()


def joining(piece: Piece, into: str, incoming: str) -> Joining:
    """The joint between two instances."""
    return next(j for j in piece.joinings if (j.into, j.incoming) == (into, incoming))


@pytest.mark.parametrize(
    ("instance", "size"),
    [
        ("front rail", (300.0, 80.0, 20.0)),
        ("left side rail", (200.0, 80.0, 20.0)),
        ("left stub", (100.0, 80.0, 20.0)),  # (300 - 100) / 2
        ("post", (379.5, 100.0, 20.0)),  # 79.5 + 150 + 120 + 30
        ("lid", (279.0, 178.0, 10.0)),  # 300 - 2 (10 + 0.5); 200 - 2 (10 + 1)
        ("tier 1", (200.0, 106.0, 10.0)),  # 100 out of the post and 6 in it
        ("tier 2", (160.0, 86.0, 10.0)),
    ],
)
def test_blanks_are_as_worked_by_hand(stand: Piece, instance: str, size: tuple[float, ...]) -> None:
    """Every blank's finished length, width and thickness."""
    assert part(stand, instance).blank.size == pytest.approx(size, abs=1e-9)


@pytest.mark.parametrize(
    ("instance", "low", "high"),
    [
        ("front rail", (0, 0, 0), (300, 20, 80)),
        ("left side rail", (0, 0, 0), (20, 200, 80)),
        ("right side rail", (280, 0, 0), (300, 200, 80)),
        ("left stub", (0, 180, 0), (100, 200, 80)),
        ("right stub", (200, 180, 0), (300, 200, 80)),
        ("post", (100, 180, 0), (200, 200, 379.5)),
        ("lid", (10.5, 11, 69.5), (289.5, 189, 79.5)),
        ("tier 1", (50, 80, 219.5), (250, 186, 229.5)),
        ("tier 2", (70, 100, 339.5), (230, 186, 349.5)),
    ],
)
def test_parts_stand_where_they_should(
    stand: Piece, instance: str, low: tuple[float, ...], high: tuple[float, ...]
) -> None:
    """Every blank's place in the piece."""
    found_low, found_high = box_round(stand, instance)
    assert found_low == pytest.approx(low, abs=1e-9)
    assert found_high == pytest.approx(high, abs=1e-9)


@pytest.mark.parametrize(
    ("instance", "volume"),
    [
        # Mitred rails: over the thickness z (0 inside, 20 outside) the length is L - 2 (20 - z).
        # Front: 80 x (260 x 20 + 20^2) = 448 000, rabbet 10.5 x (260 x 10 + 10^2) = 28 350.
        ("front rail", 448_000 - 28_350),
        # Side: 80 x (160 x 20 + 20^2) = 288 000, rabbet 10.5 x (160 x 10 + 10^2) = 17 850.
        ("left side rail", 288_000 - 17_850),
        # Stub, one mitre: 80 x (80 x 20 + 20^2 / 2) = 144 000, rabbet 10.5 x (800 + 50) = 8925.
        ("left stub", 144_000 - 8_925),
        ("right stub", 144_000 - 8_925),
        # Post: 379.5 x 100 x 20 less three dados of 10.1 x 6 x 100.
        ("post", 759_000 - 3 * 6_060),
        # Lid: 279 x 178 x 10 less the notch at the post: (100 + 2 x 0.5) x 4 x 10.
        ("lid", 496_620 - 4_040),
        ("tier 1", 212_000),
        ("tier 2", 137_600),
    ],
)
def test_volumes_are_as_worked_by_hand(stand: Piece, instance: str, volume: float) -> None:
    """Every part's solid has the volume of its blank less its cuts."""
    assert volume_of(part(stand, instance)) == pytest.approx(volume, rel=1e-9)


def test_centre_of_the_dadoed_post(stand: Piece) -> None:
    """Blank and three dados, each 6060 mm3, at 74.55, 224.55 and 344.55 up and 17 through."""
    volume, dado = 759_000.0, 6_060.0
    left = volume - 3 * dado
    up = (volume * 189.75 - dado * (74.55 + 224.55 + 344.55)) / left
    through = (volume * 10 - 3 * dado * 17) / left
    assert centre_of(part(stand, "post")) == pytest.approx((up, 50.0, through), abs=1e-6)


def test_centre_of_the_mitred_front_rail(stand: Piece) -> None:
    """First moments over the thickness: sum of length(z) z dz, rabbet taken off."""
    volume = 448_000.0 - 28_350.0
    whole_z = 80 * (260 * 20**2 / 2 + 2 * 20**3 / 3)
    rabbet_z = 10.5 * (260 * 10**2 / 2 + 2 * 10**3 / 3)
    expected = (
        150.0,
        (448_000 * 40 - 28_350 * (80 - 10.5 / 2)) / volume,
        (whole_z - rabbet_z) / volume,
    )
    assert centre_of(part(stand, "front rail")) == pytest.approx(expected, abs=1e-6)


def test_lowest_dado_is_level_with_the_rabbet_floor(stand: Piece) -> None:
    """The dado's lower shoulder at 69.5 is coplanar with every rabbet floor."""
    shoulders = [cut.lower_shoulder_mm for cut in part(stand, "post").cuts if isinstance(cut, Dado)]
    assert shoulders == pytest.approx([69.5, 219.5, 339.5])
    for rail in ("front rail", "left side rail", "left stub", "right stub"):
        (rabbet,) = [cut for cut in part(stand, rail).cuts if isinstance(cut, Rabbet)]
        assert 80 - rabbet.down_from_edge_mm == pytest.approx(69.5)
        assert rabbet.into_thickness_mm == pytest.approx(10.0)


def test_side_rails_are_one_part_and_stubs_are_two(stand: Piece) -> None:
    """Equal after turning is one part; mirror images are two."""
    quantities = {each.instances: each.quantity for each in distinct_parts(stand)}
    assert quantities[("left side rail", "right side rail")] == 2
    assert quantities[("left stub",)] == quantities[("right stub",)] == 1


@pytest.mark.parametrize(
    ("post", "step", "volume"),
    [
        # The dado's bottom at the post lies (depth - thickness + 6) back, the stubs' rabbet wall
        # at 190; the lid's back edge follows both, so it steps by their difference.
        ("20 mm", -4.0, 279 * 178 * 10 - 101 * 4 * 10),
        ("30 mm", -14.0, 279 * 178 * 10 - 101 * 14 * 10),
        ("16 mm", 0.0, 279 * 178 * 10),
        ("12 mm", 4.0, 279 * 182 * 10 - 2 * 90 * 4 * 10),
    ],
    ids=["notched", "post thicker than the rails", "plain", "tongued"],
)
def test_lid_is_notched_plain_or_tongued_at_the_post(post: str, step: float, volume: float) -> None:
    """The lid's back edge follows post and stubs, and the post may be thicker or thinner."""
    piece = a_stand(own_stock={"post": oak(post)}).build()
    lid = part(piece, "lid")
    assert volume_of(lid) == pytest.approx(volume, rel=1e-9)
    notches = [cut for cut in lid.cuts if isinstance(cut, Notch)]
    assert [cut.depth_mm for cut in notches] == pytest.approx([abs(step)] * len(notches))
    assert len(notches) == (1 if step < 0 else 2 if step > 0 else 0)
    assert box_round(piece, "post")[1][1] == pytest.approx(200.0)  # back flush with the box
    assert not overlapping(piece)


def test_flush_post_opens_the_top_dado_into_a_rabbet() -> None:
    """Trimmed flush, the post ends at the top tier's top and its last housing is open above."""
    piece = a_stand(post_proud="0 mm").build()
    post = part(piece, "post")
    assert post.blank.length_mm == pytest.approx(349.5)
    (rabbet,) = [cut for cut in post.cuts if isinstance(cut, Rabbet)]
    assert (rabbet.edge, rabbet.down_from_edge_mm, rabbet.into_thickness_mm) == (
        Face.FAR_END,
        pytest.approx(10.0),
        pytest.approx(6.0),
    )
    assert volume_of(post) == pytest.approx(349.5 * 2000 - 2 * 6_060 - 10 * 6 * 100, rel=1e-9)
    assert not overlapping(piece)


def test_mixed_stock_sets_every_housing_by_measured_thickness() -> None:
    """Each tier may have its own thickness; its dado is that plus the fit's clearance."""
    piece = a_stand(
        fit_clearance=None, fit=SLIP, own_stock={"tier 2": oak("12.4 mm"), "lid": oak("9 mm")}
    ).build()
    widths = [cut.width_mm for cut in part(piece, "post").cuts if isinstance(cut, Dado)]
    # Slip: 0.1 mm and a four-hundredth of the thickness, to 0.01 mm (the fit's own rule).
    assert widths == pytest.approx([9 + 0.12, 10 + 0.12, 12.4 + 0.13], abs=1e-9)
    assert box_round(piece, "tier 2")[0][2] == pytest.approx(349.5 - 12.4)
    assert not overlapping(piece)


@pytest.mark.parametrize("count", [1, 20])
def test_one_and_twenty_tiers(count: int) -> None:
    """The ends of the range build, every tier at its height, with nothing overlapping."""
    piece = a_stand(
        tiers=TierRule(
            count=count, width="250 mm", depth="120 mm", rise="60 mm",
            step_back_width="5 mm", step_back_depth="3 mm",
        )
    ).build()  # fmt: skip
    assert len(piece.placed) == 7 + count
    top = 79.5 + 60 * count
    assert box_round(piece, f"tier {count}")[1][2] == pytest.approx(top)
    assert part(piece, "post").blank.length_mm == pytest.approx(top + 30)
    assert part(piece, f"tier {count}").blank.length_mm == pytest.approx(250 - 5 * (count - 1))
    assert not overlapping(piece)


def test_graded_rises_add_up() -> None:
    """150, 140, 130: the third top lies 420 above the lid's."""
    piece = a_stand(
        tiers=TierRule(
            count=3, width="200 mm", depth="90 mm", rise="150 mm", rise_change="-10 mm"
        )
    ).build()  # fmt: skip
    assert box_round(piece, "tier 3")[1][2] == pytest.approx(79.5 + 420)


def test_no_two_parts_overlap_and_clearances_are_in_the_solids(stand: Piece) -> None:
    """Common volume below 0.01 mm3 everywhere; raising a tier by its clearance still clears."""
    assert not overlapping(stand)
    for tier in ("tier 1", "tier 2", "lid"):
        assert joining(stand, "post", tier).clearance_mm == pytest.approx(0.1)
        assert room_above(stand, tier) == pytest.approx(0.1, abs=1e-4)


def room_above(piece: Piece, incoming: str) -> float:
    """How far a tier can rise in the post before the two meet [mm], by bisection on solids."""
    from cadquery import Vector

    from furniture.pieces import placed_named
    from furniture.solids.make import placed_solid

    post, tier = (placed_named(piece, name) for name in ("post", incoming))
    post_solid = placed_solid(post.part, post.placement)
    solid = placed_solid(tier.part, tier.placement)
    low, high = 0.0, 1.0
    while high - low > 1e-5:
        middle = (low + high) / 2
        raised = solid.moved(Vector(0, 0, middle))
        if post_solid.intersect(raised).Volume() > 1e-3:
            high = middle
        else:
            low = middle
    return low


def test_lid_has_its_gaps_all_round(stand: Piece) -> None:
    """Along the grain 0.5 to each rabbet wall, across it 1.0 to the front wall and both backs."""
    low, high = box_round(stand, "lid")
    wall = 10.0
    assert (low[0] - wall, 300 - wall - high[0]) == pytest.approx((0.5, 0.5))
    assert (low[1] - wall, 200 - wall - high[1]) == pytest.approx((1.0, 1.0))
    notch = next(cut for cut in part(stand, "lid").cuts if isinstance(cut, Notch))
    assert 186 - (high[1] - notch.depth_mm) == pytest.approx(1.0)  # dado bottom at 180 + 6
    left, right = low[0] + notch.start_mm, low[0] + notch.start_mm + notch.length_mm
    assert (100 - left, right - 200) == pytest.approx((0.5, 0.5))


def test_default_gap_across_leaves_room_for_a_damp_season() -> None:
    """The default gap holds the lid's swelling from 8 % to a heated house's damp summer.

    Source: Wood Handbook (FPL-GTR-282) equation 13-2, change = width x coefficient x change in
    moisture content; the tangential coefficient of white oak is 0.00365 per cent (table 13-5).
    Table 4-2 prints 10.9 to 11.0 % for 60 % humidity at 70 to 80 deg F (from memory).
    """
    piece = a_stand(lid_gap_across=None).build()
    low, high = box_round(piece, "lid")
    swelling = (high[1] - low[1]) * 0.00365 * (11.0 - 8.0)
    assert (low[1] - 10) + (190 - high[1]) >= swelling
    assert low[1] - 10 < 2 * swelling


def test_dado_depth_left_out_is_a_third_of_the_post() -> None:
    """A third is usual (common practice, no source); half the thickness stays."""
    piece = a_stand(dado_depth=None).build()
    depths = {cut.depth_mm for cut in part(piece, "post").cuts if isinstance(cut, Dado)}
    assert list(depths) == [pytest.approx(20 / 3, abs=0.25)]


def test_stub_butts_want_dowels(stand: Piece) -> None:
    """An end-grain joint says that it holds little glue."""
    assert "dowels" in joining(stand, "post", "left stub").advice


def test_stated_tiers_and_a_rule_agree() -> None:
    """The same steps by rule and one by one are the same piece of work."""
    one_by_one = a_stand(
        tiers=[
            Tier(width="200 mm", depth="100 mm", rise="150 mm"),
            Tier(width="180 mm", depth="90 mm", rise="150 mm"),
        ]
    ).build()
    by_rule = a_stand(
        tiers=TierRule(
            count=2, width="200 mm", depth="100 mm", rise="150 mm",
            step_back_width="20 mm", step_back_depth="10 mm",
        )
    ).build()  # fmt: skip
    assert one_by_one.placed == by_rule.placed
