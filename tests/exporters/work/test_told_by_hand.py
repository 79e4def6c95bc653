"""What is done by hand is told whole: no fence, stop or picture says the rest."""

from __future__ import annotations

from functools import cache

from exporters.work import WorkWords, steps_of, work_of
from exporters.work.finish_words import shut_in_words
from exporters.work.glue_words import slid_in_words
from furniture import (
    BackRail,
    BottomFixing,
    Drills,
    LidFixing,
    MitredBox,
    Opening,
    PostStrips,
    Shop,
    Splines,
    SteppedStand,
    Stock,
    TierRule,
    Vent,
    VentKind,
)
from furniture.assembly import assembly_of
from furniture.joints.joint import Role
from furniture.making.operations import Kind
from furniture.shop.tools.reading import usual_or
from tests.builders.test_footed_stands import footed

SIDES = Stock(name="cherry, sides", species="black cherry", thickness="16.3 mm", moisture="8 %")
LID = Stock(name="cherry, lid", species="black cherry", thickness="8.8 mm", moisture="8 %")
MAPLE = Stock(name="maple", species="hard maple", thickness="3.2 mm", moisture="8 %")
BARE_SHOP = Shop(dado_head=None, router=None, jointer=None, planer=None, drills=Drills(press=False))
"""A table saw and what is done at the bench."""


@cache
def lines() -> tuple[str, ...]:
    """All that is told of a box by hand: rabbets, stopped grooves for splines, a bore, slots."""
    box = MitredBox(
        name="Needle chest", rails=SIDES, lid=LID, bottom=LID, bottom_fixing=BottomFixing.PINNED,
        width="273 mm", depth="161 mm", height="92 mm", corner_parts=Splines(stock=MAPLE),
        openings=[Opening(on="back rail", size="14 mm", from_left="90 mm", from_edge="31 mm")],
        vents=[Vent(on="front rail", kind=VentKind.SLOTS, count=3, size="7 mm", length="25 mm",
                    spacing="20 mm", from_left="100 mm")],
    ).build()  # fmt: skip
    making = work_of(box, shop=usual_or(BARE_SHOP, box.shown)).making
    words = WorkWords(box, making)
    return tuple(line.text for step in steps_of(making) for line in words.lines_of(step))


def test_a_bore_says_how_far_off_both_its_faces_it_is() -> None:
    (bored,) = [each for each in lines() if "drill 14" in each]
    assert "through the outside face, 31 off the bottom edge, at 90 from the right end" in bored


def test_a_hole_that_no_drill_on_hand_bores_is_filed_out_to_its_line() -> None:
    """It named the drill that is wanting and no other way."""
    box = MitredBox(
        name="Needle chest", rails=SIDES, lid=LID, width="273 mm", depth="161 mm", height="92 mm",
        openings=[Opening(on="back rail", size="38 mm")],
    ).build()  # fmt: skip
    making = work_of(box).making
    words = WorkWords(box, making)
    (bored,) = [line.text for step in steps_of(making) for line in words.lines_of(step)
                if "drill 38" in line.text]  # fmt: skip
    assert "the nearest is 40; by hand: bore it with the next smaller drill, file it out" in bored


def test_upright_slots_say_where_each_is_along_the_rail() -> None:
    (slots,) = [each for each in lines() if "through the outside face, from" in each]
    assert "cut a slot 7 wide through the outside face, from 37 to 55 off the bottom edge" in slots
    assert "at 80, 100 and 120 from the left end" in slots
    assert not [each for each in lines() if "for rout" in each]


def test_a_rabbet_says_into_which_face() -> None:
    rabbets = [each for each in lines() if "rabbet along" in each]
    assert rabbets
    assert all("edge in the inside face, " in each for each in rabbets)


def test_a_groove_that_stops_says_where_and_is_not_sawn_with_a_backsaw() -> None:
    grooves = [each for each in lines() if "for its spline" in each]
    assert grooves
    assert len(grooves) == 2, "two rails that have it at the same ends share a line"
    for each in grooves:
        assert "its near wall 12 down the slope from the long point" in each
        assert "stopped 14 short of the bottom edge and 15 short of the top edge" in each
        assert "backsaw" not in each


def test_what_slides_says_which_side_it_stands_out_at() -> None:
    stand = SteppedStand(
        name="Spool terrace", thick=SIDES, thin=LID, base_width="347 mm", base_depth="233 mm",
        base_height="77 mm", post_width="128 mm", post_strips=PostStrips(), back_rail=BackRail(),
        tiers=TierRule(count=2, width="280 mm", depth="120 mm", rise="120 mm"),
    ).build()  # fmt: skip
    said = [
        "".join(words)
        for each in stand.joinings
        if each.role is Role.HOUSING
        for words in slid_in_words(stand, each)
    ]
    assert "76 past post strip 1 at the left" in said
    assert not [each for each in said if "at the to" in each]


def test_the_underside_of_a_glued_lid_is_finished_before_the_bottom_shuts_it_in() -> None:
    box = MitredBox(
        name="Needle chest", rails=SIDES, lid=LID, bottom=LID, bottom_fixing=BottomFixing.PINNED,
        width="273 mm", depth="161 mm", height="92 mm", lid_fixing=LidFixing.GLUED,
    ).build()  # fmt: skip
    said = shut_in_words(box, work_of(box, order=assembly_of(box)).making)
    assert said == "the inside of the 4 rails, the underside of lid, all of bottom"


def test_a_box_that_is_open_or_whose_lid_comes_off_has_no_underside_shut_in() -> None:
    for fixing in (LidFixing.NONE, LidFixing.LOOSE):
        box = MitredBox(
            name="Needle chest", rails=SIDES, lid=None if fixing is LidFixing.NONE else LID,
            bottom=LID, bottom_fixing=BottomFixing.GLUED, width="273 mm", depth="161 mm",
            height="92 mm", lid_fixing=fixing,
        ).build()  # fmt: skip
        said = shut_in_words(box, work_of(box, order=assembly_of(box)).making)
        assert "top face" not in said
        assert "underside" not in said


def test_no_tenon_is_tried_in_a_mortise_before_it_is_cut() -> None:
    """It said `until what goes in slides home by hand`, two steps before the tenon was sawn."""
    making = work_of(footed().build()).making
    words = WorkWords(footed().build(), making)
    told = [
        words.bare_line_of(each).text
        for each in making.operations
        if each.kind is Kind.TEST_CUT
        and any(e.rig == each.rig and e.kind is Kind.MORTISE for e in making.operations)
    ]
    assert told == ["scrap: test cut: as wide and as deep as it is set"]
