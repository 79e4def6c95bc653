"""What the planner is asked: rough sizes, stocks and thicknesses, bands, matches, all by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import (
    MUST,
    CuttingWishes,
    GrainRule,
    Match,
    MatchRule,
    OddOne,
    PartWish,
    SawSetUp,
    ZoneKind,
    inches,
)
from furniture.blanks.round_corners import runs_round_corners
from furniture.errors import DesignError
from furniture.job.boards_now import listed_boards
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Dado, Groove
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.rules import USUAL_RULES
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.joints_off_cuts import bands_of_cuts
from furniture.shop.boards.outcome import with_sound_offcuts
from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import suits
from furniture.shop.cutting.values import (
    CutPart,
    CuttingRequest,
    Saw,
    straight_board,
)
from models import tea_box
from tests.models import piece_of
from tests.shop.boards.bench import (
    board,
    box,
    by_itself,
    job_of_model,
    outcome_of_model,
    places_of,
    stand,
    thin_board,
)
from tests.shop.boards.members import faults_of_members
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


def _part(request, name):
    return next(part for part in request.parts if part.name == name)


def test_rough_sizes_are_the_finished_and_the_allowances():
    """By hand: rail 260 x 70, stub (260 - 80) / 2 = 90; 15 mm left on lengths, 4 on widths."""
    request = by_itself(cutting_job(stand(), [board(), thin_board()]))
    sizes = {part.name: (part.rough_length_mm, part.rough_width_mm) for part in request.parts}
    assert sizes["front rail"] == pytest.approx((275.0, 74.0))
    assert sizes["side rail"] == pytest.approx((195.0, 74.0))
    assert sizes["left stub"] == pytest.approx((105.0, 74.0))
    assert sizes["tier 1"][0] == pytest.approx(235.0)
    assert _part(request, "side rail").quantity == 2


def test_every_instance_is_asked_for_once():
    piece = stand()
    job = cutting_job(piece, [board(), thin_board()])
    named = sorted(name for part in job.copies for name in job.instances(part))
    assert named == sorted(each.instance for each in piece.placed)
    for part in job.request.parts:
        assert part.quantity == len(job.copies[part.name])


def test_parts_and_boards_of_one_stock_meet_and_no_others():
    request = by_itself(cutting_job(stand(), [board(), thin_board()]))
    thick, thin = request.boards
    rail, tier = _part(request, "front rail"), _part(request, "tier 1")
    assert suits(thick, rail, request.saw)
    assert suits(thin, tier, request.saw)
    assert not suits(thick, tier, request.saw)
    assert not suits(thin, rail, request.saw)


@pytest.mark.parametrize(
    ("measured", "gives_thick", "gives_thin"),
    [
        ("10.2 mm", False, True),
        ("12.2 mm", False, True),
        ("19.7 mm", True, True),
        ("19.5 mm", False, True),
        ("20.6 mm", True, True),
    ],
)
def test_a_board_kept_for_a_species_gives_what_it_is_thick_enough_for(
    measured, gives_thick, gives_thin
):
    """By hand: from a tenth under 10.2 and 19.7 mm up, whatever has to be planed off."""
    whole = board(name="whole", stock="white oak", thickness="30 mm")
    boards = [board(stock="white oak", thickness=measured), whole]
    request = by_itself(cutting_job(stand(), boards))
    only = request.boards[0]
    assert suits(only, _part(request, "front rail"), request.saw) == gives_thick
    assert suits(only, _part(request, "tier 1"), request.saw) == gives_thin


def test_grain_runs_round_the_box_and_breaks_at_the_back():
    """By hand, seen from above and going round to the right: the ring opens at the back left."""
    assert runs_round_corners(box()) == (
        ("left side rail", "front rail", "right side rail", "back rail"),
    )
    assert runs_round_corners(stand()) == (
        ("left stub", "left side rail", "front rail", "right side rail", "right stub"),
    )


def test_what_shops_do_unasked():
    """Rails in sequence and tiers off one board, each worth half a board: (40 + 20) / 2 / 2."""
    boards = [board(price="40 EUR"), thin_board(price="20 EUR")]
    rails, tiers = by_itself(cutting_job(stand(), boards)).matches
    assert rails.rule is MatchRule.IN_SEQUENCE
    assert rails.members == ("left stub", "side rail", "front rail", "side rail", "right stub")
    assert cutting_job(stand(), boards).request.matches == (tiers,)
    assert tiers.rule is MatchRule.SAME_BOARD
    assert tiers.members == ("tier 1", "tier 2")
    assert tiers.odd_one is OddOne.SMALLEST
    assert rails.price == tiers.price == pytest.approx(15.0)
    without = cutting_job(stand(), boards, CuttingWishes(matches=[]))
    assert without.request.matches == ()


def test_wishes_reach_the_parts_they_name_and_split_like_parts():
    wishes = CuttingWishes(
        parts=[
            PartWish(on="rails", show_face=[ZoneKind.SAPWOOD]),
            PartWish(on="left side rail", hidden_face=[], grain=GrainRule.EITHER),
        ],
        matches=[Match(rule=MatchRule.SAME_BOARD, on=["tiers", "lid"], price=MUST, name="set")],
    )
    request = by_itself(cutting_job(stand(), [board(), thin_board()], wishes))
    left, right = (_part(request, f"{side} side rail") for side in ("left", "right"))
    assert left.quantity == right.quantity == 1
    assert left.show_face_tolerates == frozenset()
    assert left.hidden_face_tolerates == frozenset()
    assert left.grain is GrainRule.EITHER
    assert right.show_face_tolerates == {ZoneKind.SAPWOOD}
    assert _part(request, "front rail").show_face_tolerates == {ZoneKind.SAPWOOD}
    assert _part(request, "post").show_face_tolerates == frozenset()
    (match,) = request.matches
    assert match.price is None
    assert match.members == ("tier 1", "tier 2", "lid")


def test_glued_joints_keep_off_grooves_bores_and_stops_but_not_off_through_dados():
    """By hand, margin 6: groove at 30..36, a bore of 8 at 70, a dado that runs right through."""
    timber = stand().placed[0].part.timber
    part = Part(
        name="panel",
        blank=Blank(length_mm=400.0, width_mm=120.0, thickness_mm=19.7),
        timber=timber,
        cuts=(
            Groove(face=Face.FACE_SIDE, offset_mm=30.0, width_mm=6.0, depth_mm=5.0),
            Bore(face=Face.FACE_SIDE, x_mm=200.0, y_mm=70.0, diameter_mm=8.0, depth_mm=10.0),
            Dado(face=Face.FACE_SIDE, lower_shoulder_mm=90.0, width_mm=10.0, depth_mm=6.0),
        ),
    )
    assert bands_of_cuts(part, 6.0, USUAL_RULES) == (
        pytest.approx((24.0, 42.0)),
        pytest.approx((60.0, 80.0)),
    )


def test_a_lid_wider_than_its_boards_is_glued_up_and_the_plan_can_be_sawn():
    boards = [board(), thin_board(widths="110 mm", length="1600 mm"),
              thin_board(name="U", widths="120 mm", length="900 mm")]  # fmt: skip
    job = cutting_job(stand(), boards, saw=SawSetUp(shortest_rip="0 mm"))
    plan = plan_cutting(job.request)
    strips = [p for b in plan.boards for p in b.placements if p.part == "lid"]
    assert sorted(p.strip for p in strips) == [1, 2]
    assert faults_of_plan(job.request, plan) == []


@pytest.mark.parametrize("name", ["herb_stand", "tea_box"])
def test_the_models_boards_take_every_part_and_the_plan_can_be_sawn(name):
    outcome = outcome_of_model(name)
    plan = outcome.plan
    assert plan.unplaced == ()
    assert faults_of_plan(outcome.job.request, plan) == []
    assert faults_of_members(outcome) == []
    assert {each.group for each in plan.matches if each.is_kept} >= {"grain round the corners"}


def test_the_herb_stands_figure_comes_to_the_middle_of_its_lid():
    """The lid's middle lies within 5 mm of the fleck's: 430 + 360 / 2 and 4 + 196 / 2."""
    plan = plan_cutting(job_of_model("herb_stand").request)
    lid = next(p for b in plan.boards for p in b.placements if p.part == "lid")
    assert lid.board == "C"
    assert lid.place.x_mm + lid.place.length_mm / 2 == pytest.approx(610.0, abs=5.0)
    assert lid.place.y_mm + lid.place.width_mm / 2 == pytest.approx(102.0, abs=5.0)
    assert not lid.is_flipped


def test_the_same_boards_in_a_file_and_in_the_script_ask_the_same(tmp_path):
    path = tmp_path / "boards.csv"
    path.write_text(
        "what,board,x [mm],y [mm],length [mm],width [mm],corners [mm],thickness [mm],stock,price,"
        "shows,note\n"
        "board,A,,,1500,,,19.7,thick,30 EUR,,\n"
        "# a comment\n"
        "width,A,0,,,210,,,,,,\n"
        "width,A,1500,,,190,,,,,,\n"
        "knot,A,400,20,30,25 mm,,,,,upper face,tight\n"
        'wane,A,,,,,"0 180, 0 210, 300 206",,,,,\n'
        "board,T,,,1.2 m,8 in,,10.2,thin,,,\n",
        encoding="utf-8",
    )
    from furniture import BoardZone, ZoneShows

    script = [
        board(
            price="30 EUR",
            widths=[("0 mm", "210 mm"), ("1500 mm", "190 mm")],
            zones=[
                BoardZone(
                    kind=ZoneKind.KNOT, x="400 mm", y="20 mm", length="30 mm", width="25 mm",
                    shows=ZoneShows.UPPER, description="tight",
                ),
                BoardZone(
                    kind=ZoneKind.WANE,
                    corners=[("0 mm", "180 mm"), ("0 mm", "210 mm"), ("300 mm", "206 mm")],
                ),
            ],
        ),
        thin_board(length="1200 mm", widths="203.2 mm"),
    ]  # fmt: skip
    assert cutting_job(stand(), path).request == cutting_job(stand(), script).request


def test_names_of_the_models_instances_are_told_from_the_strip():
    """Copies of one part are told apart by their place in the sequence: left before right."""
    outcome = outcome_of_model("herb_stand")
    places = places_of(outcome)
    order = ["left stub", "left side rail", "front rail", "right side rail", "right stub"]
    along = [places[name][1].x_mm for name in order]
    assert along == sorted(along)
    assert set(places) == {each.instance for each in piece_of("herb_stand").placed}


def test_a_saw_is_taken_to_be_as_usual_in_the_unit_of_the_piece():
    """By hand: 1/8 in is 3.175 mm, 3/8 in 9.525 mm, 12 in 304.8 mm, 1/16 in 1.5875 mm."""
    metric = cutting_job(stand()).request.saw
    assert (metric.kerf_mm, metric.end_trim_mm, metric.shortest_rip_mm, metric.off_faults_mm) == (
        3.2, 10.0, 300.0, 3.0,
    )  # fmt: skip
    inch = by_itself(cutting_job(replace(stand(), shown=inches(32))))
    assert (inch.saw.kerf_mm, inch.saw.end_trim_mm) == (3.175, 9.525)
    assert (inch.saw.shortest_rip_mm, inch.saw.off_faults_mm) == (pytest.approx(304.8), 3.175)
    assert inch.parts[0].glue_up.jointing_allowance_mm == 1.5875
    own = SawSetUp(kerf="2.4 mm", off_faults="0 mm")
    mixed = cutting_job(replace(stand(), shown=inches(32)), saw=own).request.saw
    assert (mixed.kerf_mm, mixed.off_faults_mm, mixed.end_trim_mm) == (2.4, 0.0, 9.525)


@pytest.mark.parametrize(("least", "kept"), [(380.0, True), (390.0, False)])
def test_an_offcut_is_kept_for_what_is_clear_of_it_and_names_its_faults(least, kept):
    """By hand: a part from 10 to 510, a kerf of 3; to the knot at 900 less 3 mm are 384 mm clear,
    and the end is sound up to 990."""
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=900, y=20, length=30, width=60)
    whole = straight_board(
        name="b", length_mm=1000, width_mm=100, thickness_mm=20, species="oak", zones=(knot,)
    )
    rail = CutPart(
        name="rail", quantity=1, length_mm=500, width_mm=100, thickness_mm=20, species="oak"
    )
    saw = Saw(
        kerf_mm=3, end_trim_mm=10, off_faults_mm=3, usable_length_mm=least, usable_width_mm=50
    )
    request = CuttingRequest(boards=(whole,), parts=(rail,), saw=saw)
    job = replace(cutting_job(stand()), request=request, boards=request.boards)
    (plan,) = with_sound_offcuts(plan_cutting(request), job).boards
    (offcut,) = (each for each in plan.offcuts if each.holds)
    assert offcut.holds == ("k",)
    assert (offcut.place.x_mm, offcut.place.x_end_mm) == (513.0, 990.0)
    assert offcut.is_usable is kept


def test_figure_that_is_sawn_up_is_no_refusal_but_told() -> None:
    """A wish at a price, in a job whose boards are begun; before the first cut it is a slip."""
    piece = piece_of("tea_box")
    boards = [replace(each, zones=()) for each in listed_boards(tea_box.BOARDS)]
    wishes = replace(tea_box.WISHES, parts=(), matches=tea_box.WISHES.matches[1:])
    begun = cutting_job(replace(piece, in_hand=frozenset({"bottom"})), boards, wishes)
    assert not begun.request.matches
    (told,) = begun.remarks
    assert "'curl in the middle of the lid' is not asked" in told
    with pytest.raises(DesignError, match="no board has a zone of this name"):
        cutting_job(piece, boards, wishes)
