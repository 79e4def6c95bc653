"""A lid on bought hinges: worked by hand, proved, hung last, and refused where it could not."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from furniture import (
    TOP_BACK,
    UNDER_BACK,
    UNDER_FRONT,
    Ballast,
    BottomFixing,
    Cleats,
    EdgeProfile,
    FingerHold,
    HeldBy,
    Hinge,
    HingedLid,
    LidFixing,
    Load,
    MitredBox,
    Place,
    Screw,
    Stay,
    Stock,
    inches,
    millimetres,
)
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import findings_of, read_setting
from furniture.checks.rows.open_lid import DROPPED_LID, OPEN_PULL, OPEN_TILT, SHY_LID
from furniture.joints import HoldBy
from furniture.pieces import Piece, bought_parts, size_in_words
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from furniture.units import Shown
from tests.builders.bench import a_stand, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, plain_name, problems_left, stated

SCREW = Screw(diameter="2 mm", length="8 mm")


def a_hinge(**changes: Any) -> Hinge:
    given: dict[str, Any] = {
        "leaf_length": "30 mm", "leaf_width": "9 mm", "leaf_thickness": "1.2 mm",
        "barrel": "4 mm", "screw": SCREW, "name": "brass butt hinge",
    }  # fmt: skip
    return Hinge(**{**given, **changes})


def on(**changes: Any) -> HingedLid:
    """What a lid turns on; `hinge` may be changes to the usual one."""
    return HingedLid(**{"hinge": a_hinge(), **changes})


def hinged(**changes: Any) -> MitredBox:
    """A box of round figures whose lid turns on two hinges."""
    given: dict[str, Any] = {
        "rails": oak("12 mm"), "lid": oak("13 mm"), "bottom": oak("6 mm"), "width": "260 mm",
        "depth": "170 mm", "height": "90 mm", "rabbet_width": "6 mm", "bottom_gap": "1 mm",
        "bottom_fixing": BottomFixing.PINNED, "lid_fixing": LidFixing.HINGED, "hinged_lid": on(),
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


@pytest.fixture(scope="module")
def piece() -> Piece:
    """The box of round figures."""
    return hinged().build()


def told(design: MitredBox | Piece, check: object, place: Place | None = None) -> list[Finding]:
    piece = design.build() if isinstance(design, MitredBox) else design
    setting = None if place is None else read_setting(place)
    return [each for each in findings_of(piece, weigh(piece), setting) if each.check == check]


GAIN, PILOT = 30 * 9 * (4 - 0.5) / 2, math.pi / 4 * 1.5**2 * (8 - 1.2)
"""A leaf and half of what the closed hinge is thicker than the gap; below it the screw's bite."""
STAY = math.pi / 4 * 2**2 * 8
"""The stay's screw goes 8 mm in: 10, the next that is sold, leave less than 3 of the rail's 12."""
BY_HAND = {
    # (260 x 12 - 144) x 90, less the rabbet 6 x 6 up to the mitres
    "front rail": 267_840 - 6 * (236 * 6 + 36),
    "back rail": 267_840 - 6 * (236 * 6 + 36) - 2 * GAIN - 4 * PILOT,
    "left side rail": 170_640 - 6 * (146 * 6 + 36),
    "right side rail": 170_640 - 6 * (146 * 6 + 36) - STAY,
    # 5 mm deeper than the box
    "lid": 260 * 175 * 13 - 2 * GAIN - 4 * PILOT - STAY,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_parts_of_a_box_with_a_hinged_lid(piece: Piece, instance: str) -> None:
    assert float(solid_of(part(piece, instance)).Volume()) == pytest.approx(
        BY_HAND[instance], rel=1e-9
    )


def test_it_lies_a_gap_over_the_rails_flush_behind_and_is_hung_last(piece: Piece) -> None:
    low, high = box_round(piece, "lid")
    assert (low[1], high[1]) == pytest.approx((-5, 170))
    assert low[2] == pytest.approx(90.5)
    assert proved(piece).steps[-1].moving == ("lid",)


def test_hinges_screws_and_stay_are_bought(piece: Piece) -> None:
    """The chain by hand: 0.4 x 146 + 12 from the pin; 100 degrees turn that up and back."""
    things = {each.name: each for each in bought_parts(piece)}
    assert (things["brass butt hinge"].quantity, things["brass butt hinge"].length_mm) == (2, 30)
    assert things["countersunk wood screw"].quantity == 8
    assert things["round-head wood screw"].quantity == 2
    reach = 0.4 * 146 + 12
    back = reach * (1 + math.sin(math.radians(10)))
    up = reach * math.cos(math.radians(10)) + 15.25
    whole = math.sqrt((back + 0.25 * math.cos(math.radians(10))) ** 2
                      + (up - 0.25 * math.sin(math.radians(10))) ** 2 + 8**2)  # fmt: skip
    assert things["lid chain"].length_mm == math.floor(whole)


def test_what_a_hinge_bears_is_its_screws_pried_out_by_its_leaf(piece: Piece) -> None:
    """Two screws of 108.25 G^2 D L / 5, 4.5 from the leaf's edge; the pin 11 from it."""
    hinges = [f for j in piece.joinings for f in j.fasteners if f.by is HoldBy.HINGE]
    gravity = part(piece, "lid").timber.species.specific_gravity_12
    assert gravity is not None
    each = 108.25 * gravity**2 * 2 * 6.8 / 5
    assert [h.pull_n for h in hinges] == pytest.approx([2 * each * 4.5 / 11] * 2)


def test_the_tilt_with_its_lid_open_by_hand(piece: Piece) -> None:
    """The lid's centre goes round the pin by 100 degrees; the rest stays."""
    weighed = weigh(piece)
    mass = weighed.parts[part(piece, "lid").id]
    placed = next(each for each in piece.placed if each.instance == "lid")
    _, y, z = placed.placement.to_piece(mass.centre_mm)
    back, up = y - 172, z - 90.25
    turn = math.radians(100)
    y2 = 172 + back * math.cos(turn) + up * math.sin(turn)
    z2 = 90.25 - back * math.sin(turn) + up * math.cos(turn)
    whole, share = weighed.whole, mass.mass_kg / weighed.whole.mass_kg
    centre = whole.centre_mm[1] + share * (y2 - y), whole.centre_mm[2] + share * (z2 - z)
    (found,) = told(piece, OPEN_TILT)
    assert found.value == pytest.approx(
        math.degrees(math.atan2(170 - centre[0], centre[1])), rel=1e-6
    )
    (dropped,) = told(piece, DROPPED_LID)
    reach = math.hypot(back, up)
    needed = whole.mass_kg * (math.hypot(170 - centre[0], centre[1]) - centre[1])
    assert dropped.value == pytest.approx(100 * mass.mass_kg * (reach - z2 + 90.25) / needed)


SHALLOW: dict[str, Any] = {"depth": "90 mm", "height": "60 mm", "lid": oak("40 mm"),
                           "bottom": None, "bottom_fixing": None, "bottom_gap": None}  # fmt: skip


def test_a_heavy_lid_that_opens_far_throws_a_shallow_box_and_weight_in_it_cures_that() -> None:
    far = on(stay=Stay(opens_to="120 deg"), overhang="0 mm")
    falls = hinged(**SHALLOW, hinged_lid=far)
    (found,) = told(falls, OPEN_TILT)
    assert found.verdict is Verdict.FAIL
    assert found.tipping is not None
    assert not told(falls, DROPPED_LID), "it falls before it could be dropped, which is told"
    weighty = hinged(
        **{**SHALLOW, "bottom": oak("6 mm")}, hinged_lid=on(overhang="0 mm"),
        ballast=Ballast(mass="3 kg", size=("205 mm", "60 mm", "24 mm")),
    )  # fmt: skip
    (found,) = told(weighty, OPEN_TILT)
    assert found.verdict is not Verdict.FAIL


def test_a_lid_that_would_throw_its_box_as_it_drops_is_told_what_holds_it_down() -> None:
    """As much of it as is said, laid in the box, is enough; what has no bottom holds none."""
    given = {
        **SHALLOW, "lid": oak("24 mm"), "bottom": oak("6 mm"),
        "hinged_lid": on(stay=Stay(opens_to="110 deg")),
    }  # fmt: skip
    (found,) = told(hinged(**given), DROPPED_LID)
    assert found.verdict is Verdict.CAUTION
    assert "kg in the box" in found.advice
    laid = re.search(r"lay (\S+ kg) in", found.advice)
    assert laid is not None
    weight = Ballast(mass=laid[1], size=("200 mm", "50 mm", "20 mm"))
    (held,) = told(hinged(**given, ballast=weight), DROPPED_LID)
    assert held.verdict is Verdict.OK
    (bare,) = told(hinged(**{**given, "bottom": None}), DROPPED_LID)
    assert bare.verdict is Verdict.CAUTION
    assert bare.advice == "let it open less far"


def test_a_hand_on_the_open_lid_is_held_as_far_as_the_box_stays() -> None:
    """Fixed to the wall it does not tip, and the hand is a whole one."""
    (free,) = told(hinged(), OPEN_PULL)
    assert free.verdict is Verdict.OK
    assert free.value is not None
    (held,) = told(hinged(), OPEN_PULL, Place(held=HeldBy.WALL))
    assert held.value is not None
    assert held.value > 10 * free.value
    assert held.verdict is Verdict.CAUTION


def test_a_sheet_holds_its_hinges_by_its_face() -> None:
    own = Stock(name="some wood", species="birch plywood 12 mm", thickness="13 mm")
    (found,) = told(hinged(lid=own), OPEN_PULL)
    assert found.value is not None, "a sheet's face holds screws by its layers"


def test_a_wide_solid_lid_draws_back_in_front_and_as_much_overhang_cures_it() -> None:
    """By what its wood shrinks; a sheet does not."""
    flush = on(overhang="0 mm")
    wide = hinged(depth="400 mm", hinged_lid=flush, finger_hold=FingerHold.NOTCH)
    (found,) = told(wide, SHY_LID)
    assert found.verdict is Verdict.CAUTION
    said = found.advice.split("stand out ")[1].split(" in front")[0]
    (cured,) = told(hinged(depth="400 mm", hinged_lid=on(overhang=said)), SHY_LID)
    assert cured.value == pytest.approx(0.0)


def test_three_hinges_stays_on_both_sides_inches_and_loads() -> None:
    """Proved by solids, as one may have it."""
    jar = Load(on="lid", mass="1 kg", footprint=("90 mm", "90 mm"), centre_height="60 mm")
    design = hinged(
        width="400 mm", shown=inches(64), loads=[jar],
        hinged_lid=on(count=3, inset="40 mm", side_overhang="4 mm", stay=Stay(count=2),
                      hinge=a_hinge(screws=3, screw_from_end="5 mm", screw_from_edge="4 mm",
                                    folded="3.4 mm")),
        profiles=[EdgeProfile(on="lid", edges=[TOP_BACK, UNDER_FRONT], radius="2 mm")],
    )  # fmt: skip
    piece = design.build()
    proved(piece)
    screws = next(each for each in bought_parts(piece) if each.name == "countersunk wood screw")
    assert screws.quantity == 18


@pytest.mark.parametrize("thickness", ["7/32 in", "10/32 in", "12/32 in", "16/32 in"])
def test_a_screw_too_thick_is_told_which_would_do(thickness: str) -> None:
    """In inches: what the refusal writes is taken as it stands, else the lid is made thicker."""
    thick = Screw(diameter="9/64 in", length="1/2 in")
    hinge = a_hinge(leaf_thickness="1/16 in", barrel="3/16 in", screw=thick)
    given: dict[str, Any] = {"lid": oak(thickness), "shown": inches(64)}
    (told,) = (each for each in problems_of(hinged(hinged_lid=on(hinge=hinge), **given))
               if each.parameter.startswith("hinged_lid.hinge.screw"))  # fmt: skip
    written = re.match(r"write Screw\(diameter='(.+?)', length='(.+?)'\), or", told.remedy)
    if written is not None:
        screw = Screw(diameter=written[1], length=written[2])
    else:
        more = re.fullmatch(r"make the lid (\S+) in thicker", told.remedy)
        assert more is not None
        screw = replace(thick, length=f"{1 / 16 + 2.5 * 9 / 64} in")
        given["lid"] = oak(f"{float(Fraction(thickness.split()[0]) + Fraction(more[1]))} in")
    assert problems_left(hinged(hinged_lid=on(hinge=replace(hinge, screw=screw)), **given)) == []


def test_a_measured_lid_keeps_its_gap() -> None:
    """Where it came out thinner its top comes down, and the gains stay as deep."""
    piece = hinged().build(thicknesses={"lid": 12.6})
    low, high = box_round(piece, "lid")
    assert (low[2], high[2]) == pytest.approx((90.5, 103.1))
    proved(piece)


LEAF, WIDTH = "hinged_lid.hinge.leaf_length", "hinged_lid.hinge.leaf_width"
LENGTH, BARREL = "hinged_lid.hinge.screw.length", "hinged_lid.hinge.barrel"
FOLDED = "hinged_lid.hinge.folded"


def by(**changes: Any) -> MitredBox:
    return hinged(hinged_lid=on(hinge=a_hinge(**changes)))


REFUSED: list[tuple[MitredBox, str]] = [
    (hinged(hinged_lid=None), "hinged_lid"),
    (hinged(hinged_lid="hinges"), "hinged_lid"),
    (hinged(hinged_lid=on(hinge="brass")), "hinged_lid.hinge"),
    (hinged(hinged_lid=on(gap="0 mm")), "hinged_lid.gap"),
    (hinged(hinged_lid=on(gap="3 mm")), "hinged_lid.gap"),
    (hinged(hinged_lid=on(overhang="40 mm")), "hinged_lid.overhang"),
    (hinged(hinged_lid=on(count=5)), "hinged_lid.count"),
    (hinged(hinged_lid=on(inset="5 mm")), "hinged_lid.inset"),
    (hinged(hinged_lid=on(inset="120 mm")), "hinged_lid.inset"),
    (hinged(hinged_lid=on(stay=Stay(opens_to="90 deg"))), "hinged_lid.stay.opens_to"),
    (hinged(hinged_lid=on(stay=Stay(opens_to="170 deg"))), "hinged_lid.stay.opens_to"),
    (hinged(hinged_lid=on(stay=Stay(reach="5 mm"))), "hinged_lid.stay.reach"),
    (hinged(hinged_lid=on(stay=Stay(screw=Screw(diameter="3 mm", length="16 mm")))),
     "hinged_lid.stay.screw.length"),
    (hinged(hinged_lid=on(stay="chain")), "hinged_lid.stay"),
    (by(leaf_length="200 mm"), LEAF),
    (by(leaf_width="11 mm"), WIDTH),
    (by(barrel="2 mm"), BARREL),
    (by(folded="5 mm"), FOLDED),
    (by(screw=Screw(diameter="2 mm", length="12 mm")), LENGTH),
    (by(screw=Screw(diameter="2 mm", length="4 mm")), LENGTH),
    (by(screw="small"), "hinged_lid.hinge.screw"),
    (by(screws=9), "hinged_lid.hinge.screws"),
    (hinged(flush_allowance="1 mm"), "flush_allowance"),
    (hinged(lid_gap_across="1 mm"), "lid_gap_across"),
    (hinged(height="25 mm"), "height"),
    (hinged(finger_hold=FingerHold.BORE), "finger_hold"),
    (hinged(finger_hold=FingerHold.NONE, hinged_lid=on(overhang="0 mm")), "finger_hold"),
    (hinged(finger_size="60 mm", finger_hold=FingerHold.NOTCH), "finger_size"),
    (hinged(cleats=Cleats()), "cleats"),
    (hinged(lid_fixing=LidFixing.LOOSE), "hinged_lid"),
    (hinged(profiles=[EdgeProfile(on="lid", edges=[UNDER_BACK])]), "profile 1"),
    (a_stand(lid_fixing=LidFixing.HINGED), "lid_fixing"),
    (a_stand(hinged_lid=on(), lid_fixing=LidFixing.HINGED), "hinged_lid"),
]  # fmt: skip


@pytest.mark.some(few=8)
@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_turn_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter = given
    problems = problems_of(design)
    plain = [problem.parameter.split(" (")[0] for problem in problems]
    assert any(parameter in name for name in plain), plain
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and "thickness" not in problem.parameter:
            assert problem.parameter not in problems_left(changed(design, problem.parameter, text))


@pytest.mark.parametrize("shown", [millimetres(), inches(32)])
def test_screws_as_long_as_is_said_bear_the_pull(shown: Shown) -> None:
    """6.2 mm tear out of a hinge; of the lengths that are sold the shortest that bears is told."""
    short = Screw(diameter="2 mm", length="6.2 mm")
    given: dict[str, Any] = {"lid": oak("20 mm"), "shown": shown}
    wall = Place(held=HeldBy.WALL)

    def pulled(screw: Screw) -> Finding:
        design = hinged(**given, hinged_lid=on(hinge=a_hinge(screw=screw), stay=Stay(count=2)))
        (found,) = told(design, OPEN_PULL, wall)
        return found

    (asked,) = pulled(short).remedies
    assert asked.amount in (8.0, pytest.approx(7.9375))
    assert pulled(replace(short, length=f"{asked.amount} mm")).verdict is Verdict.OK
    assert pulled(replace(short, length=f"{asked.enough - 0.1} mm")).verdict is Verdict.CAUTION


def test_a_lid_too_thin_for_longer_screws_is_told_so_and_a_second_stay_does() -> None:
    turned = on(hinge=a_hinge(screw=replace(SCREW, length="7.4 mm")))
    thin: dict[str, Any] = {"lid": oak("11 mm"), "hinged_lid": turned}
    (found,) = told(hinged(**thin), OPEN_PULL, Place(held=HeldBy.WALL))
    assert "on a stay" in found.subject
    assert not found.remedies
    assert "the lid is too thin for screws 10 mm long" in found.advice
    assert "fix a stay at either side" in found.advice
    both = replace(turned, stay=Stay(count=2))
    (cured,) = told(hinged(**{**thin, "hinged_lid": both}), OPEN_PULL, Place(held=HeldBy.WALL))
    assert "on a stay" not in cured.subject.partition(" (")[0]


@pytest.mark.parametrize("given", ["9/64 in", "1 in", "1/32 in"])
def test_screws_are_told_by_the_sizes_in_which_they_are_sold(given: str) -> None:
    """By the inch they have numbers: 0.060 in and 0.013 in more for each; 15/128 in is none."""
    hinge = a_hinge(screw=Screw(diameter=given, length="5/16 in"))
    box: dict[str, Any] = {"lid": oak("12 mm"), "shown": inches(32)}
    (told,) = (each for each in problems_of(hinged(hinged_lid=on(hinge=hinge), **box))
               if "length" not in each.parameter)  # fmt: skip
    said = told.remedy if "(number" in told.remedy else told.allowed
    written, number = re.findall(r"(0[.]\d+) in \(number (\d+)\)", said)[0]
    assert float(written) == pytest.approx(0.060 + 0.013 * int(number))
    better = Screw(diameter=f"{written} in", length="5/16 in")
    left = problems_left(hinged(hinged_lid=on(hinge=replace(hinge, screw=better)), **box))
    assert plain_name(told.parameter) not in left


def test_screws_are_bought_by_their_number_where_one_buys_by_the_inch() -> None:
    screw = Screw(diameter="0.086 in", length="5/16 in")
    things = bought_parts(hinged(hinged_lid=on(hinge=a_hinge(screw=screw))).build())
    sizes = [size_in_words(each, shown) for each in things if "wood screw" in each.name
             for shown in (inches(32), millimetres())]  # fmt: skip
    assert "No. 2 x 5/16 in" in sizes
    assert "2.2 x 7.9 mm" in sizes
    things = bought_parts(hinged(shown=inches(32)).build())
    (stay,) = [each for each in things if each.name == "round-head wood screw"]
    assert size_in_words(stay, inches(32)) == "No. 4 x 5/16 in"
