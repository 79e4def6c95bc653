"""What happens half way through a herb stand, and what its maker has to hear of each part."""

from __future__ import annotations

import runpy
from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    TOP_LEFT,
    TOP_RIGHT,
    Dowels,
    EdgeProfile,
    SteppedStand,
    Stock,
    Tier,
)
from furniture.job import Say, Verdict, as_measured, old_of, verdicts_of
from furniture.job.alike import verdicts_as_made
from furniture.job.levers import levers_of, with_lever
from furniture.job.values import By, CutWork, GoesElsewhere, InTheWay, NothingOfIt, TooSmall
from furniture.parts.cuts import Bore, Cut
from furniture.parts.faces import Face
from furniture.pieces import Piece, placed_named
from furniture.shop.cutting.values import Saw
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts
from tests.job.carrying_out import faults_of
from tests.job.spoilt import without_part
from tests.models import ROOT

SAW = Saw(
    shortest_rip_mm=300.0, narrowest_rip_mm=50.0, shortest_crosscut_mm=200.0, planing_loss_mm=2.0
)
STAND: SteppedStand = runpy.run_path(str(ROOT / "models" / "herb_stand.py"))["stand"]


def _told(old: Any, new: Piece) -> dict[str, Verdict]:
    """Verdicts by instance, each proved by carrying it out, and the proofs of fit of the piece."""
    verdicts = verdicts_of(old, new, SAW)
    assert faults_of(verdicts, new) == []
    assert not interferences(new)
    assert not untrue_contacts(new)
    assert not clashing_joints(new)
    assert not wasted_cuts(new)
    return {each.instance: each for each in verdicts if each.say is not Say.NOT_NEEDED}


def _say(told: dict[str, Verdict]) -> dict[str, Say]:
    """What is not as it was."""
    return {name: each.say for name, each in told.items() if each.say is not Say.AS_IS}


def test_the_post_came_out_wider() -> None:
    """Each stub is shot by 0.6 at the post; lid and bottom are notched 0.6 wider at both sides."""
    old, new = old_of(STAND.build()), replace(STAND, post_width="111.2 mm").build()
    told = _told(as_measured(old, "post", 1, 111.2), new)
    trims = ("left stub", "right stub", "lid", "bottom")
    assert _say(told) == dict.fromkeys(trims, Say.TRIM)
    for name, end in (("left stub", Face.NAMED_END), ("right stub", Face.FAR_END)):
        (off,) = told[name].off
        assert (off.face, round(off.mm, 6)) == (end, 0.6)
        assert off.by is By.HAND_PLANE, "a stub is too short for the saw"
        bores = [made for made in told[name].cuts if made.work is CutWork.GROW]
        assert [[round(side.mm, 6) for side in each.grown] for each in bores] == [[0.6], [0.6]]
    for name in ("lid", "bottom"):
        (notch,) = told[name].cuts
        assert not told[name].off
        sides = [(side.face, round(side.mm, 6)) for side in notch.grown]
        assert sides == [(Face.NAMED_END, 0.6), (Face.FAR_END, 0.6)]


def test_a_post_that_was_not_measured_is_made_new() -> None:
    told = _told(old_of(STAND.build()), replace(STAND, post_width="111.2 mm").build())
    assert told["post"].say is Say.MAKE_NEW
    (why,) = told["post"].why
    assert isinstance(why, TooSmall)
    assert (why.axis, round(why.by_mm, 6)) == (1, 1.2)


def test_the_old_post_would_hold_stubs() -> None:
    """What goes is told with what it would do for."""
    new = replace(STAND, post_width="111.2 mm").build()
    gone = [each for each in verdicts_of(old_of(STAND.build()), new) if each.say is Say.NOT_NEEDED]
    assert [(each.instance, each.serves) for each in gone] == [
        ("post", ("left stub", "right stub"))
    ]


def test_the_stand_is_lowered_after_the_dados_are_cut() -> None:
    """12 mm go off the post's floor end and every dado stays; rails are ripped, rabbets grow."""
    plain = replace(STAND, dowels=None)
    told = _told(old_of(plain.build()), replace(plain, base_height="72 mm").build())
    rails = ("front rail", "left side rail", "right side rail", "left stub", "right stub")
    assert _say(told) == dict.fromkeys((*rails, "post"), Say.TRIM)
    post = told["post"]
    assert [(off.face, off.mm, off.by) for off in post.off] == [(Face.NAMED_END, 12.0, By.CROSSCUT)]
    assert post.cuts == ()
    for name in rails:
        assert [(off.face, off.mm) for off in told[name].off] == [(Face.BACK_EDGE, 12.0)]
        assert [made.work for made in told[name].cuts] == [CutWork.GROW]
    assert told["front rail"].off[0].by is By.RIP
    assert told["left side rail"].off[0].by is By.HAND_SAW, "210 mm is too short to rip"


def test_dowel_bores_that_would_move_make_the_post_new() -> None:
    """A bore leaves no wood to bore 12 mm lower in; the tool says which bores and how far."""
    told = _told(old_of(STAND.build()), replace(STAND, base_height="72 mm").build())
    assert told["post"].say is Say.MAKE_NEW
    whys = told["post"].why
    assert whys
    for why in whys:
        assert isinstance(why, InTheWay)
        assert [round(each, 6) for each in why.moved] == [12.0, 0.0, 0.0]


def test_bores_that_move_alike_in_both_mates_stay_where_they_are() -> None:
    """A thicker lid moves the upper dowels 1.6 down in stubs and post; all of them are bored."""
    lid = Stock(name="oak, lid", species="white oak", thickness="15 mm", moisture="9 %")
    old, drawn = old_of(STAND.build()), replace(STAND, own_stock={"lid": lid}).build()
    alone = {each.instance: each.say for each in verdicts_of(old, drawn, SAW)}
    assert alone["post"] is Say.MAKE_NEW
    piece, verdicts = verdicts_as_made(old, drawn, SAW)
    assert faults_of(verdicts, piece) == []
    for proof in (interferences, untrue_contacts, clashing_joints, wasted_cuts):
        assert not proof(piece)
    told = {each.instance: each for each in verdicts if each.say is not Say.NOT_NEEDED}
    assert [(made.index, made.work) for made in told["post"].cuts] == [(0, CutWork.GROW)], "lid"
    for name in ("left stub", "right stub"):
        assert told[name].say is Say.TRIM, "the lid's rabbet grows"
        (stays,) = told[name].stays
        assert [round(each, 6) for each in stays.off_mm] == [0.0, 1.6, 0.0]
        assert stays.mates == ("post",)
    assert len(told["post"].stays) == 2
    at = {round(each.at[2], 6) for joint in piece.joinings for each in joint.fasteners}
    was = {round(each.at[2], 6) for joint in STAND.build().joinings for each in joint.fasteners}
    assert at == was, "the dowels stay with their bores"


def test_a_bore_whose_mate_is_bored_elsewhere_does_not_stay() -> None:
    """The left stub's own bore stands 2 mm off the post's: neither can stay for the other."""
    lid = Stock(name="oak, lid", species="white oak", thickness="15 mm", moisture="9 %")
    old, drawn = old_of(STAND.build()), replace(STAND, own_stock={"lid": lid}).build()
    off = [
        replace(each, cuts=tuple(_bored_off(cut, 2.0) for cut in each.cuts))
        if each.name == "left stub"
        else each
        for each in old.parts
    ]
    _, verdicts = verdicts_as_made(replace(old, parts=tuple(off)), drawn, SAW)
    assert {each.instance: each.say for each in verdicts}["post"] is Say.MAKE_NEW
    stays = [mate for each in verdicts for one in each.stays for mate in one.mates]
    assert "left stub" not in stays


def _bored_off(cut: Cut, by_mm: float) -> Cut:
    """The same; a bore some way across the grain."""
    return replace(cut, y_mm=cut.y_mm + by_mm) if isinstance(cut, Bore) and cut.y_mm else cut


def test_stubs_that_are_not_made_are_bored_to_the_post() -> None:
    """The post is made when the lid turns out thicker: the stubs' bores go where the post's are."""
    lid = Stock(name="oak, lid", species="white oak", thickness="15 mm", moisture="9 %")
    old, drawn = old_of(STAND.build()), replace(STAND, own_stock={"lid": lid}).build()
    post = replace(old, parts=tuple(each for each in old.parts if each.name == "post"))
    stubs = ("left stub", "right stub")
    piece, verdicts = verdicts_as_made(post, drawn, SAW)
    told = {each.instance: each for each in verdicts}["post"]
    assert faults_of(verdicts, piece) == []
    for proof in (interferences, untrue_contacts, clashing_joints, wasted_cuts):
        assert not proof(piece)
    assert told.say is Say.TRIM
    assert not told.off, "only the lid's dado grows"
    assert {each.follow for each in told.stays} == {(name,) for name in stubs}
    assert all(not each.mates for each in told.stays)
    for name in stubs:
        bored = [
            each.y_mm for each in placed_named(piece, name).part.cuts if isinstance(each, Bore)
        ]
        was = [each.y_mm for each in placed_named(STAND.build(), name).part.cuts
               if isinstance(each, Bore)]  # fmt: skip
        assert bored == pytest.approx(was)
    begun = {(name, at) for name in stubs
             for at, _ in enumerate(placed_named(drawn, name).part.cuts)}  # fmt: skip
    assert verdicts_as_made(post, drawn, SAW, begun)[0] is drawn, "bored already: nothing follows"


def test_thicker_dowels_go_where_thinner_ones_were_bored() -> None:
    """8 mm for 6: their rule would have them 4 mm further in, and the bores are there already."""
    old, drawn = old_of(STAND.build()), replace(STAND, dowels=Dowels(diameter="8 mm")).build()
    piece, verdicts = verdicts_as_made(old, drawn, SAW)
    assert faults_of(verdicts, piece) == []
    for proof in (interferences, untrue_contacts, clashing_joints, wasted_cuts):
        assert not proof(piece)
    told = {each.instance: each for each in verdicts}
    assert _say(told) == dict.fromkeys(("left stub", "right stub", "post"), Say.TRIM)
    bores = [made for made in told["left stub"].cuts if made.work is CutWork.GROW]
    grown = [sorted(round(side.mm, 6) for side in each.grown) for each in bores]
    assert grown == [[1.0, 1.0, 1.0, 1.0, 5.0]] * 2, "round about, and in depth"


def test_what_cannot_be_saved_is_drawn_as_the_script_has_it() -> None:
    """A taller rise makes the post too short: its bores stay nowhere, for they are made anew."""
    lid = Stock(name="oak, lid", species="white oak", thickness="15 mm", moisture="9 %")
    tiers = replace(STAND.tiers, rise="152 mm")
    drawn = replace(STAND, own_stock={"lid": lid}, tiers=tiers).build()
    gone = ("left stub", "right stub")
    old = old_of(STAND.build())
    for name in gone:
        old = without_part(old, name)
    piece, verdicts = verdicts_as_made(old, drawn, SAW)
    assert {each.instance: each.say for each in verdicts}["post"] is Say.MAKE_NEW
    assert piece is drawn
    assert not any(each.stays for each in verdicts)


def test_a_smaller_round_over_has_not_moved() -> None:
    profiles = [EdgeProfile(on="tiers", edges=(TOP_FRONT, TOP_LEFT, TOP_RIGHT), radius="2 mm")]
    told = _told(old_of(STAND.build()), replace(STAND, profiles=profiles).build())
    assert told["tier 1"].say is Say.MAKE_NEW
    for why in told["tier 1"].why:
        assert isinstance(why, InTheWay)
        assert why.moved == (0.0, 0.0, 0.0)


def test_dados_that_move_alike_in_both_uprights_stay_where_they_are() -> None:
    """The second shelf is drawn 3 mm higher: it stays, and what stands on it with it."""
    steps: Any = runpy.run_path(str(ROOT / "models" / "yarn_steps.py"))["stand"]
    was = steps.build()
    levers = {each.name: each for each in levers_of(steps)}
    drawn = steps
    for name, by in (("tier 2 rise", 3.0), ("tier 3 rise", -3.0)):
        drawn = with_lever(drawn, levers[name], levers[name].value_mm + by)
    drawn = drawn.build()
    old = old_of(was)
    assert Say.MAKE_NEW in {each.say for each in verdicts_of(old, drawn, SAW)}
    piece, verdicts = verdicts_as_made(old, drawn, SAW)
    assert faults_of(verdicts, piece) == []
    assert any(each.stays for each in verdicts)
    for proof in (interferences, untrue_contacts, clashing_joints, wasted_cuts):
        assert not proof(piece)
    heights = [
        {each.instance: each.placement.origin[2] for each in one.placed} for one in (was, piece)
    ]
    assert heights[0]["tier 2"] == pytest.approx(heights[1]["tier 2"])
    told = {each.instance: each.say for each in verdicts}
    assert {told["left upright"], told["right upright"]} == {Say.AS_IS}
    tops = {each.instance: each.top_mm for each in piece.surfaces}
    assert tops["tier 2"] == pytest.approx({e.instance: e.top_mm for e in was.surfaces}["tier 2"])


def _tiers(top_mm: float) -> list[Tier]:
    depths = [150.0, 135.0, 120.0, top_mm]
    return [
        Tier(width=f"{300 - 30 * at} mm", depth=f"{depth} mm", rise="150 mm")
        for at, depth in enumerate(depths)
    ]


def test_the_top_tier_is_too_deep() -> None:
    """The back edge goes, since nothing has to be run again there."""
    deep = replace(STAND, tiers=_tiers(105.0), loads=[])
    told = _told(old_of(deep.build()), replace(deep, tiers=_tiers(67.0)).build())
    assert _say(told) == {"tier 4": Say.TRIM}
    (off,) = told["tier 4"].off
    assert (off.face, off.mm) == (Face.BACK_EDGE, 38.0)
    assert told["tier 4"].cuts == ()


def test_the_top_tier_is_trimmed_in_front_where_the_back_will_not_do() -> None:
    """With the drain struck from the back, the front edge goes and its round-over is run again."""
    deep = replace(STAND, tiers=_tiers(105.0), loads=[], openings=[])
    old = old_of(deep.build())
    shallow = placed_named(replace(deep, tiers=_tiers(67.0)).build(), "tier 4")
    bored = placed_named(replace(STAND, tiers=_tiers(105.0), loads=[]).build(), "tier 4")
    (bore,) = [cut for cut in bored.part.cuts if cut not in shallow.part.cuts][:1]
    tier = next(each for each in old.parts if each.name == "tier 4")
    near_back = replace(bore, y_mm=75.0)
    old = replace(
        old,
        parts=tuple(
            replace(each, cuts=(*each.cuts, near_back)) if each is tier else each
            for each in old.parts
        ),
    )
    piece = replace(deep, tiers=_tiers(67.0)).build()
    moved = replace(
        piece,
        placed=tuple(
            replace(each, part=replace(
                each.part, cuts=(*each.part.cuts, replace(bore, y_mm=75.0 - 38.0))))
            if each.instance == "tier 4" else each
            for each in piece.placed
        ),
    )  # fmt: skip
    told = {each.instance: each for each in verdicts_of(old, moved, SAW)}["tier 4"]
    assert told.say is Say.TRIM
    assert [(off.face, off.mm) for off in told.off] == [(Face.FACE_EDGE, 38.0)]
    assert [made.work for made in told.cuts] == [CutWork.AGAIN]


def test_the_tiers_are_fatter_than_their_dados() -> None:
    """Each dado grows by 0.3 at one shoulder, in place; the tiers stay."""
    old = old_of(STAND.build())
    names = [f"tier {number}" for number in range(1, 5)]
    for name in names:
        old = as_measured(old, name, 2, 13.7)
    fat = Stock(name="oak, fat", species="white oak", thickness="13.7 mm", moisture="9 %")
    told = _told(old, replace(STAND, own_stock=dict.fromkeys(names, fat)).build())
    assert _say(told) == {"post": Say.TRIM}
    assert told["post"].off == ()
    assert [made.work for made in told["post"].cuts] == [CutWork.GROW] * 4
    for made in told["post"].cuts:
        assert [round(side.mm, 6) for side in made.grown] == [0.3]


def test_a_stub_came_out_short() -> None:
    """2 mm are wanting, so it is new; with the base as much narrower at both sides it serves."""
    old = as_measured(old_of(STAND.build()), "left stub", 0, 103.0)
    told = _told(old, STAND.build())
    assert _say(told) == {"left stub": Say.MAKE_NEW}
    assert told["left stub"].why == (TooSmall(axis=0, by_mm=2.0),)
    narrower = _told(old, replace(STAND, base_width="316 mm", loads=[]).build())
    assert narrower["left stub"].say is Say.AS_IS
    assert narrower["right stub"].say is Say.TRIM
    assert narrower["post"].say is Say.AS_IS
    (mitre,) = narrower["front rail"].cuts
    assert mitre.work is CutWork.AGAIN, "one mitre is cut again, the other stays"


def test_a_lost_part_is_taken_from_another_that_goes() -> None:
    """One tier less: what was the second serves for the first, and no wood is cut into."""
    four, three = STAND, replace(STAND, tiers=_tiers(105.0)[1:], loads=[])
    told = _told(old_of(four.build()), three.build())
    for number in (1, 2, 3):
        tier = told[f"tier {number}"]
        assert tier.say is Say.AS_IS
        assert tier.old is not None
        assert tier.old.name == f"tier {number + 1}"


def test_what_was_never_cut_is_new() -> None:
    old = without_part(old_of(STAND.build()), "lid")
    assert _say(_told(old, STAND.build())) == {"lid": Say.MAKE_NEW}
    assert _told(old, STAND.build())["lid"].why == (NothingOfIt(),)


def test_a_spoilt_tier_is_recut_from_an_offcut_that_is_too_large() -> None:
    """An offcut is taken where no other wood is left; nothing of it is lost but what comes off."""
    old = without_part(old_of(STAND.build()), "tier 4")
    tier = next(each for each in old.parts if each.name == "tier 3")
    spare = replace(
        tier, name="offcut 1 of board B", is_offcut=True, cuts=(),
        blank=replace(tier.blank, length_mm=500.0, width_mm=200.0),
    )  # fmt: skip
    told = _told(replace(old, parts=(*old.parts, spare)), STAND.build())
    assert _say(told) == {"tier 4": Say.RECUT}
    assert told["tier 4"].old == spare
    assert {off.face.axis for off in told["tier 4"].off} == {0, 1}


def test_wood_goes_where_fewest_are_new() -> None:
    """One old board that would do for two is given where the other has wood of its own."""
    piece = STAND.build()
    old = without_part(old_of(piece), "tier 4")
    long = next(each for each in old.parts if each.name == "tier 3")
    plank = replace(long, name="tier 3", cuts=(), blank=replace(long.blank, length_mm=400.0))
    twin = replace(long, name="spare tier")
    parts = tuple(plank if each is long else each for each in old.parts)
    told = _told(replace(old, parts=(*parts, twin)), piece)
    assert told["tier 3"].say is Say.AS_IS
    assert told["tier 3"].old == twin
    assert told["tier 4"].say is Say.RECUT
    assert told["tier 4"].old == plank
    assert not any(isinstance(why, GoesElsewhere) for why in told["tier 4"].why)


@pytest.mark.parametrize("by", [0.5, 2.0])
def test_a_trim_that_leaves_no_wood_beside_a_bore_is_refused(by: float) -> None:
    """A bore may stay with little wood beside it, and is told as near; with none it may not."""
    plain = replace(STAND, tiers=_tiers(105.0), loads=[], profiles=[])
    piece = plain.build()
    (bore,) = placed_named(piece, "tier 4").part.cuts[-1:]
    radius = 6.0

    def with_bore(built: Piece, y: float) -> Piece:
        return replace(
            built,
            placed=tuple(
                replace(each, part=replace(each.part, cuts=(replace(bore, y_mm=y),)))
                if each.instance == "tier 4" else each
                for each in built.placed
            ),
        )  # fmt: skip

    shallow = replace(plain, tiers=_tiers(85.0)).build()
    wide = placed_named(shallow, "tier 4").part.blank.width_mm
    at = wide - radius - by
    told = {
        each.instance: each
        for each in verdicts_of(old_of(with_bore(piece, at)), with_bore(shallow, at), SAW)
        if each.say is not Say.NOT_NEEDED
    }["tier 4"]
    if by < 1.0:
        assert told.say is Say.MAKE_NEW
    else:
        assert told.say is Say.TRIM
        assert [(near.face, round(near.wood_mm, 6)) for near in told.near] == [(Face.BACK_EDGE, by)]
