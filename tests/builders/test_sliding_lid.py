"""A lid that slides: worked by hand, proved, and refused where it could not."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    OUTER_TOP,
    TOP_FRONT,
    TOP_RIGHT,
    BottomFixing,
    Cleats,
    DrawnTo,
    EdgeProfile,
    FingerHold,
    LidFixing,
    Load,
    MitredBox,
    SlidingLid,
    Spline,
    inches,
)
from furniture.blanks import common_blanks, runs_round_corners
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.seasons import LOOSE_GAP
from furniture.checks.rows.structure import LOOSE_PARTS
from furniture.parts.cuts import Groove, Notch
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import a_stand, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, problems_left, stated


def sliding(**changes: Any) -> MitredBox:
    """A box of round figures whose lid slides."""
    given: dict[str, Any] = {
        "rails": oak("12 mm"), "lid": oak("6 mm"), "bottom": oak("6 mm"), "width": "240 mm",
        "depth": "150 mm", "height": "80 mm", "rabbet_width": "6 mm", "bottom_gap": "1 mm",
        "bottom_fixing": BottomFixing.PINNED, "lid_fixing": LidFixing.SLIDING,
        "lid_gap_across": "0.8 mm", "lid_gap_along": "0.5 mm",
        "sliding_lid": SlidingLid(reach="4 mm", lip="6 mm"),
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


BY_HAND = {
    # (240 x 12 - 144) x 80, less the rabbet 6 x 6 and the groove 4.8 x 6.23 up to the mitres
    "front rail": 218_880 - 6 * (216 * 6 + 36) - 6.23 * (216 * 4.8 + 4.8**2),
    # the same of 150, its groove as deep: where 0.3 less play is left the lid goes in 0.3 further
    "left side rail": 132_480 - 6 * (126 * 6 + 36) - 6.23 * (126 * 4.8 + 4.8**2),
    # the notch is 12.23 deep and 135.6 long, up to the mitres in its inner 4.8
    "right side rail": 132_480 - 6 * (126 * 6 + 36) - 12.23 * (126 * 4.8 + 4.8**2 + 135.6 * 7.2),
    # 240 - 7.7 by 150 - 16 by 6, less a recess of 25 x 8 with round ends, 2 deep
    "lid": 232.3 * 134 * 6 - (17 * 8 + math.pi * 16) * 2,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_parts_of_a_box_with_a_sliding_lid(instance: str) -> None:
    """By hand; the fit is easy: 0.2 + 0.005 x 6 = 0.23 mm of play in the grooves."""
    piece = sliding().build()
    volume = float(solid_of(part(piece, instance)).Volume())
    assert volume == pytest.approx(BY_HAND[instance], rel=1e-9)


@pytest.mark.parametrize("side", DrawnTo)
def test_it_slides_out_on_its_side_and_no_other(side: DrawnTo) -> None:
    """It goes in last, along its grain, and is told to come out that way."""
    piece = sliding(sliding_lid=SlidingLid(drawn_to=side)).build()
    plan = proved(piece)
    assert plan.steps[-1].moving == ("lid",)
    into = {DrawnTo.RIGHT: -1.0, DrawnTo.LEFT: 1.0}[side]
    assert plan.steps[-1].direction == (into, 0.0, 0.0)
    (told,) = [each for each in findings_of(piece, weigh(piece)) if each.check == LOOSE_PARTS]
    assert told.subject == "lid"
    assert f"comes out to the {side.value} when" in told.basis
    notched = [p.instance for p in piece.placed if any(isinstance(c, Notch) for c in p.part.cuts)]
    assert notched == [f"{side.value} side rail"]


def test_the_lid_ends_flush_with_its_notched_rail() -> None:
    """Its top lies a lip and the play below the rails' tops."""
    low, high = box_round(sliding().build(), "lid")
    assert (low[0], high[0]) == pytest.approx((7.7, 240))
    assert high[2] == pytest.approx(80 - 6 - 0.23)
    low, high = box_round(sliding(sliding_lid=SlidingLid(drawn_to="left")).build(), "lid")
    assert low[0] == pytest.approx(0)


def test_left_to_itself_it_has_room_for_the_seasons_and_grips() -> None:
    """The gaps that its wood needs; what it goes in holds more than it may shrink by."""
    piece = sliding(lid_gap_across=None, sliding_lid=None, rails=oak("16 mm")).build()
    assert not [
        each
        for each in findings_of(piece, weigh(piece))
        if each.check == LOOSE_GAP and each.is_amiss
    ]
    groove = next(cut for cut in part(piece, "front rail").cuts if isinstance(cut, Groove))
    low, _ = box_round(piece, "lid")
    reach = 16 - low[1]
    assert reach >= (groove.depth_mm - reach) + 2


@pytest.mark.parametrize(("along", "across"), [("0.5 mm", "0.8 mm"), ("0.9 mm", "0.6 mm")])
def test_one_depth_serves_all_grooves_and_each_gap_is_as_it_was_given(along, across) -> None:
    """The bottoms of the grooves are as far from the lid as the gaps say, whichever is larger."""
    piece = sliding(lid_gap_along=along, lid_gap_across=across).build()
    rails = ("front rail", "back rail", "left side rail")
    cuts = [cut for rail in rails for cut in part(piece, rail).cuts if isinstance(cut, Groove)]
    (deep,) = {round(cut.depth_mm, 6) for cut in cuts}
    low, high = box_round(piece, "lid")
    behind = 12 - deep
    assert low[0] - behind == pytest.approx(float(along.split()[0]))
    assert low[1] - behind == pytest.approx(float(across.split()[0]))
    assert 150 - behind - high[1] == pytest.approx(float(across.split()[0]))
    assert deep - float(max(along, across).split()[0]) == pytest.approx(4)


@pytest.mark.parametrize("side", DrawnTo)
def test_its_rails_are_one_length_until_they_are_mitred(side: DrawnTo) -> None:
    """The notch takes all wood of the fourth that the groove run along all of them would."""
    piece = sliding(sliding_lid=SlidingLid(drawn_to=side)).build()
    (blank,) = common_blanks(piece, runs_round_corners(piece), kerf_mm=3.0)
    assert len(blank.instances) == 4
    notched = f"{side.value} side rail"
    groove = next(c for c in part(piece, "front rail").cuts if isinstance(c, Groove))
    fourth = part(piece, notched)
    run = replace(fourth, cuts=(*fourth.cuts, groove))
    volumes = [float(solid_of(each).Volume()) for each in (fourth, run)]
    assert volumes[0] == pytest.approx(volumes[1], abs=1e-6)


def test_a_groove_that_a_notch_does_not_take_whole_parts_the_length() -> None:
    """A notch that ends short of the groove's floor leaves wood that the pass would take."""
    piece = sliding().build()
    short = {
        each.instance: replace(
            each.part,
            cuts=tuple(
                replace(cut, start_mm=cut.start_mm + 0.5) if isinstance(cut, Notch) else cut
                for cut in each.part.cuts
            ),
        )
        for each in piece.placed
    }
    placed = tuple(replace(each, part=short[each.instance]) for each in piece.placed)
    found = common_blanks(replace(piece, placed=placed), runs_round_corners(piece), kerf_mm=3.0)
    assert [each.instances for each in found] == [("left side rail", "front rail")]


def test_things_stand_on_it_and_in_inches_too() -> None:
    """As on any lid."""
    jar = Load(on="lid", mass="1 kg", footprint=("90 mm", "90 mm"), centre_height="60 mm")
    proved(sliding(loads=[jar], shown=inches(64), finger_hold=FingerHold.BORE).build())


def test_its_outer_end_may_be_shaped() -> None:
    """The one arris of it that runs in no groove."""
    shaped = EdgeProfile(on="lid", edges=[TOP_RIGHT], radius="1.5 mm")
    proved(sliding(profiles=[shaped]).build())


THICK_RAILS = "rails thickness"
REFUSED: list[tuple[Any, str]] = [
    (sliding(sliding_lid=SlidingLid(reach="2 mm")), "sliding_lid.reach"),
    (sliding(sliding_lid=SlidingLid(reach="6 mm")), "sliding_lid.reach"),
    (sliding(sliding_lid=SlidingLid(lip="2 mm")), "sliding_lid.lip"),
    (sliding(sliding_lid=SlidingLid(lip="90 mm")), "sliding_lid.lip"),
    (sliding(sliding_lid=SlidingLid(drawn_to="front")), "sliding_lid.drawn_to"),
    (sliding(sliding_lid=SlidingLid(fit="easy")), "sliding_lid.fit"),
    (sliding(sliding_lid="right"), "sliding_lid"),
    (sliding(height="24 mm", sliding_lid=None), "height"),
    (sliding(rails=oak("7.5 mm"), rabbet_width=None, bottom_gap="0.3 mm", lid_gap_across="1.5 mm",
             sliding_lid=None), THICK_RAILS),
    (sliding(lid_gap_across="0 mm"), "lid_gap_across"),
    (sliding(lid_gap_along="0 mm"), "lid_gap_along"),
    (sliding(flush_allowance="1 mm"), "flush_allowance"),
    (sliding(finger_hold=FingerHold.NOTCH), "finger_hold"),
    (sliding(finger_size="90 mm"), "finger_size"),
    (sliding(cleats=Cleats()), "cleats"),
    (sliding(lid=None), "lid"),
    (sliding(lid_fixing=LidFixing.LOOSE), "sliding_lid"),
    (sliding(sliding_lid=None, lid_fixing=LidFixing.LOOSE, finger_hold=FingerHold.RECESS),
     "finger_hold"),
    (sliding(profiles=[EdgeProfile(on="lid", edges=[TOP_FRONT])]), "profile 1"),
    (sliding(profiles=[EdgeProfile(on="right side rail", edges=[OUTER_TOP])]),
     "profile 1"),
    (a_stand(lid_fixing=LidFixing.SLIDING), "lid_fixing"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_slide_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter = given
    problems = problems_of(design)
    plain = [problem.parameter.split(" (")[0] for problem in problems]
    assert any(parameter.split()[0] in name for name in plain), plain
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and "thickness" not in problem.parameter:
            assert problem.parameter not in problems_left(changed(design, problem.parameter, text))


def test_thick_enough_rails_are_what_the_refusal_says() -> None:
    """Rails as thick as the remedy states build."""
    thin = sliding(
        rails=oak("7 mm"), bottom=None, bottom_gap=None, rabbet_width=None,
        bottom_fixing=BottomFixing.LOOSE, lid_gap_across="1.5 mm", sliding_lid=None,
    )  # fmt: skip
    (problem,) = problems_of(thin)
    assert problem.remedy.startswith("use rails 10 mm thick")
    values = {n: getattr(thin, n) for n in type(thin).__dataclass_fields__}
    proved(MitredBox(**{**values, "rails": oak("10 mm")}).build())


def test_a_spline_below_the_groove_goes_in() -> None:
    """Corners are strengthened as those of any box, clear of lid and bottom."""
    spline = Spline(
        stock=oak("3 mm"), between=("front rail", "right side rail"), into_each="4 mm",
        from_long_point="8 mm", width="40 mm", start="12 mm",
    )  # fmt: skip
    proved(sliding(corner_parts=[spline]).build())
