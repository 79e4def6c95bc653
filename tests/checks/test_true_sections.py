"""The section that works is the one after the cuts: bores, profiles and openings taken off."""

from __future__ import annotations

import pytest

from furniture import TOP_FRONT, EdgeProfile, Opening, OpeningFor
from furniture.checks.of_piece.borne import borne_of
from furniture.checks.of_piece.joints import posts_of
from furniture.checks.of_piece.sections import covered_mm
from furniture.checks.of_piece.shelves import reaches_of
from furniture.checks.spans import section_at
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from tests.checks.of_piece_cases import found, loaded_stand, named

DRAIN = Opening(on="tiers", size="12 mm", from_edge="40 mm", purpose=OpeningFor.DRAIN)


def _tier(piece: Piece):
    (tier,) = (each for each in borne_of(piece, weigh(piece)) if each.name == "tier 1")
    return tier


def test_a_bore_is_taken_off_the_strip_that_is_counted_on():
    """Tier 1: 200 x 106 x 10, 6 of it in a post 100 wide; the bore is 40 from its front."""
    tier = _tier(loaded_stand(openings=[DRAIN]).build())
    before, beside = reaches_of(tier)
    projection = before.span.length_mm
    assert section_at(before.span, projection - 40.0).width_mm == pytest.approx(100.0 - 12.0)
    assert section_at(before.span, projection - 47.0).width_mm == pytest.approx(100.0)
    # Beside the post the bore, in the tier's middle, is not in the way.
    assert all(section_at(beside.span, x).width_mm == 106.0 for x in (1.0, 25.0, 49.0))


def test_a_profile_is_taken_off_the_edge_that_bears():
    rounded = EdgeProfile(on="tiers", edges=(TOP_FRONT,), radius="3 mm")
    before, beside = reaches_of(_tier(loaded_stand(profiles=[rounded]).build()))
    # Along the front edge: off the width beside the post, off the thickness at the very front.
    assert section_at(beside.span, 20.0).width_mm == pytest.approx(106.0 - 3.0)
    end = before.span.length_mm
    assert section_at(before.span, end - 1.0).thickness_mm == pytest.approx(7.0)
    assert section_at(before.span, end - 4.0).thickness_mm == pytest.approx(10.0)


def test_an_opening_that_weakens_the_post_is_found():
    """A 60 mm bore leaves 40 of the post's 100 mm, 20 thick and undadoed there."""
    plain = loaded_stand().build()
    bored = loaded_stand(openings=[Opening(on="post", size="60 mm", from_edge="130 mm")]).build()
    before, after = (posts_of(borne_of(each, weigh(each)))[0] for each in (plain, bored))
    more = [each for each in after.waists if each.bored_mm > 0.0]
    assert not [each for each in before.waists if each.bored_mm > 50.0]
    (opening,) = (each for each in more if each.bored_mm > 50.0)
    assert opening.bored_mm == pytest.approx(60.0)
    assert opening.depth_mm == 0.0
    finding = named(found(bored), "post at its weakest opening")
    assert "60 mm of its width" in finding.basis


def test_a_cable_in_one_part_and_a_drain_of_its_size_in_another_are_told_apart():
    cable = Opening(on="left side rail", size="12 mm")
    both = loaded_stand(openings=[cable, DRAIN])
    alone = loaded_stand(openings=[cable])
    heights = [named(found(each), "pull on the cable").basis for each in (both, alone)]
    assert heights[0].split(" above")[0] == heights[1].split(" above")[0]


def test_covered_counts_overlaps_once():
    assert covered_mm([(0.0, 10.0), (5.0, 12.0), (20.0, 21.0)]) == 13.0
    assert covered_mm([]) == 0.0
