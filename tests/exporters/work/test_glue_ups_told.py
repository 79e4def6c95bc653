"""A glue-up is told so that it can be done: nothing twice, nothing with what is not there yet."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from exporters.sheets.glue_shown import GlueUpShown, glue_ups_shown
from exporters.work import Work, work_of
from exporters.work.move_words import moves_in_words
from furniture import (
    BackRail,
    BottomFixing,
    Bracket,
    FootedStand,
    Hardware,
    LidFixing,
    Lip,
    PostStrips,
    SteppedStand,
    Stock,
    Tier,
    TierCleat,
    TierRule,
)
from furniture.assembly import Step, assembly_of
from furniture.making.glue_ups import GlueUps
from furniture.pieces.piece import Piece
from tests.builders.test_tier_cleats import by_uprights

THICK = Stock(name="beech, thick", species="European beech", thickness="20.6 mm", moisture="9 %")
THIN = Stock(name="beech, thin", species="European beech", thickness="14.9 mm", moisture="9 %")


@cache
def railed() -> tuple[Piece, Work]:
    """A stand before a full back rail, its lid loose, a strap on its post."""
    stand = SteppedStand(
        name="Spool terrace", thick=THICK, thin=THIN, bottom=THIN,
        bottom_fixing=BottomFixing.PINNED, base_width="347 mm", base_depth="233 mm",
        base_height="77 mm", post_width="128 mm", post_proud="20 mm", back_rail=BackRail(),
        tiers=[Tier(width="281 mm", depth="133 mm", rise="142 mm"),
               Tier(width="236 mm", depth="117 mm", rise="97 mm")],
        lid_fixing=LidFixing.CLEATS,
        lips=[Lip(on="tier 1", height="14 mm"), Lip(on="tier 2", height="9 mm")],
        hardware=[Hardware(name="strap to the wall", on="post")],
    ).build()  # fmt: skip
    return stand, work_of(stand, order=assembly_of(stand))


def told(of: tuple[Piece, Work]) -> tuple[GlueUpShown, ...]:
    """What is told of all glue-ups, the last things too."""
    return glue_ups_shown(*of)


def test_a_face_that_two_neighbours_meet_is_planed_once() -> None:
    _, work = railed()
    assert isinstance(work.found, GlueUps)
    planed = Counter(
        (each.instance, each.face) for stage in work.found.stages for each in stage.levelled
    )
    assert planed.total() >= 4
    assert set(planed.values()) == {1}


def test_what_is_planed_level_with_a_lid_that_is_not_in_has_it_tried_there() -> None:
    said = [line for each in told(railed()) for line in each.sentences if "plane 0.5 off" in line]
    rim = [each for each in said if "level with lid" in each]
    assert rim
    assert all(each.endswith("level with lid tried in its place") for each in rim)
    assert any(each.endswith("level with rabbet filler") for each in said), "that one is in"


def test_hardware_goes_on_last_of_all_and_is_told_once() -> None:
    straps = [
        (each.title, line) for each in told(railed()) for line in each.sentences if "strap" in line
    ]
    assert straps == [("when all is dry", "Put 1 strap to the wall on post")]


def test_no_sentence_stands_twice_in_a_glue_up() -> None:
    for each in told(railed()):
        assert max(Counter(each.sentences).values()) == 1


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        (
            FootedStand(
                name="Mug ladder", thick=THICK, thin=THIN, base_width="340 mm",
                base_depth="250 mm", post_width="118 mm", post_proud="22 mm",
                tiers=TierRule(count=2, width="250 mm", depth="120 mm", rise="150 mm"),
                brackets=[Bracket(on="tier 2", count=2, reach="64 mm")],
            ),
            "Drive 4 countersunk wood screws through post into both brackets, "
            "in pilot holes dia 2.5",
        ),
    ],
)  # fmt: skip
def test_screws_say_through_what_and_into_what(piece: FootedStand, said: str) -> None:
    stand = piece.build()
    shown = told((stand, work_of(stand, order=assembly_of(stand))))
    assert said in [line for each in shown for line in each.sentences]


def test_cleats_are_screwed_to_the_lid() -> None:
    said = [line for each in told(railed()) for line in each.sentences]
    into = "through each of both cleats into lid, in pilot holes dia 2.5"
    assert f"Drive 2 round-head wood screws {into}" in said


def test_what_moves_as_one_is_named_by_its_largest_part() -> None:
    """It said `what is together up`, of two bodies that were each together."""
    piece, _ = railed()
    names = ("tier 1", "tier 2", "post", "tier 1 front lip")
    step = Step(moving=names, onto=("front rail",), direction=(0.0, 0.0, -1.0), joints=())
    (said,) = moves_in_words(piece, [step])
    assert said.startswith("post, with all that is joined to it, down")


def test_what_slides_in_several_housings_is_set_out_once() -> None:
    """Its place stood three times, from each of three strips that it lies in."""
    stand = SteppedStand(
        name="Spool terrace", thick=THICK, thin=THIN, base_width="347 mm", base_depth="233 mm",
        base_height="77 mm", post_width="128 mm", post_proud="20 mm", post_strips=PostStrips(),
        tiers=TierRule(count=2, width="280 mm", depth="120 mm", rise="120 mm"),
    ).build()  # fmt: skip
    said = [
        line
        for each in told((stand, work_of(stand, order=assembly_of(stand))))
        for line in each.sentences
        if " past " in line
    ]
    assert said == ["Tiers 1 and 2: middle on the middle of post strip 2, 118.7 past it each way"]


def test_cleats_that_go_on_dry_say_where() -> None:
    """Screws alone hold them, and no cut shows where: the glue-up named no place."""
    stand = by_uprights(tier_cleats=[TierCleat(on="tier 1")]).build()
    (where,) = [
        line
        for each in told((stand, work_of(stand, order=assembly_of(stand))))
        for line in each.sentences
        if line.startswith("Both cleats: ")
    ]
    assert " from the " in where
    assert where.endswith((" from the bottom", " from the top"))
