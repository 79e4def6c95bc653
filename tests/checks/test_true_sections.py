"""The section that works is the one after the cuts: bores, profiles and openings taken off."""

from __future__ import annotations

import pytest

from furniture import TOP_FRONT, EdgeProfile, Opening, OpeningFor
from furniture.checks.of_piece.joints import posts_of
from furniture.checks.of_piece.sections import covered_mm, stretches_of
from furniture.checks.of_piece.supported import supported_of
from furniture.pieces import Piece, placed_named
from furniture.solids.measure import weigh
from tests.checks.of_piece_cases import found, loaded_stand, named

DRAIN = Opening(on="tiers", size="12 mm", from_edge="40 mm", purpose=OpeningFor.DRAIN)


FORWARD = (0.0, -1.0, 0.0)


def _left(piece: Piece, strip: tuple[float, float]):
    """What is left of tier 1 forward of its back edge at 186: 200 x 106 x 10, from 50 on."""
    tier = placed_named(piece, "tier 1")
    return stretches_of(tier, FORWARD, -186.0, 106.0, strip, 10.0)


def test_a_bore_is_taken_off_the_strip_that_is_counted_on():
    """The bore is 12 wide, 40 from the front edge and in the tier's middle."""
    piece = loaded_stand(openings=[DRAIN]).build()
    through = [each for each in _left(piece, (-200.0, -100.0)) if each.from_mm < 66.0 < each.to_mm]
    assert [each.section.width_mm for each in through] == [pytest.approx(100.0 - 12.0)]
    beside = [each for each in _left(piece, (-100.0, -50.0)) if each.from_mm < 66.0 < each.to_mm]
    assert beside == []


def test_a_profile_is_taken_off_the_edge_that_bears():
    """A round-over of 3 mm along the front edge leaves 7 of 10 mm at the very front."""
    rounded = EdgeProfile(on="tiers", edges=(TOP_FRONT,), radius="3 mm")
    piece = loaded_stand(profiles=[rounded]).build()
    front = _left(piece, (-250.0, -50.0))[-1]
    assert front.to_mm - front.from_mm == pytest.approx(3.0)
    assert front.section.thickness_mm == pytest.approx(7.0)


def test_an_opening_that_weakens_the_post_is_found():
    """A 60 mm bore leaves 40 of the post's 100 mm, 20 thick and undadoed there."""
    plain = loaded_stand().build()
    bored = loaded_stand(openings=[Opening(on="post", size="60 mm", from_edge="130 mm")]).build()
    before, after = (posts_of(supported_of(each, weigh(each)))[0] for each in (plain, bored))
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
