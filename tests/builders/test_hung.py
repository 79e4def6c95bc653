"""Own parts on hinges: by hand, proved, swung free or not, and refused where they could not."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest

from furniture import (
    Against,
    ButtJoint,
    Composition,
    FlushWith,
    Hung,
    PlacedPart,
    RestJoint,
    Screw,
    Stay,
    Way,
    inches,
    join,
)
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.swing import swing_findings
from furniture.checks.rows.open_lid import OPEN_PULL, OPEN_TILT, SWING
from furniture.pieces import Piece, bought_parts
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import a_hinge, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, problems_left, stated

OAK = oak("14 mm")


def board(name: str, length: str, width: str, **placed: Any) -> PlacedPart:
    return PlacedPart(name=name, stock=OAK, length=length, width=width, **placed)


def flush(of: str, *sides: Way) -> list[FlushWith]:
    return [FlushWith(of=of, side=side) for side in sides]


def tray(gap: str = "0.5 mm", shelf: PlacedPart | None = None, **changes: Any) -> Composition:
    """A tray whose flap hangs on a strip over its back; a shelf may stand above."""
    left = "left side"
    parts = [
        board(left, "200 mm", "90 mm", face_side=Way.LEFT, grain=Way.FRONT),
        board("right side", "200 mm", "90 mm", face_side=Way.RIGHT, grain=Way.BACK, places=[
            Against(of="front", side=Way.RIGHT), *flush(left, Way.FRONT, Way.DOWN)]),
        board("front", "272 mm", "90 mm", face_side=Way.FRONT, grain=Way.RIGHT, places=[
            Against(of=left, side=Way.RIGHT), *flush(left, Way.FRONT, Way.DOWN)]),
        board("back", "272 mm", "90 mm", face_side=Way.BACK, grain=Way.LEFT, places=[
            Against(of=left, side=Way.RIGHT), *flush(left, Way.BACK, Way.DOWN)]),
        board("strip", "300 mm", "60 mm", face_edge=Way.FRONT, places=[
            Against(of=left, side=Way.UP), *flush(left, Way.BACK, Way.LEFT)]),
        board("flap", "300 mm", "145 mm", face_edge=Way.FRONT, places=[
            Against(of="strip", side=Way.FRONT, gap=gap), *flush("strip", Way.LEFT, Way.UP)]),
        *([] if shelf is None else [shelf]),
    ]  # fmt: skip
    joints = [
        *(join(ButtJoint, end, into=side) for end in ("front", "back")
          for side in (left, "right side")),
        join(ButtJoint, "strip", into="back"),
        join(RestJoint, "flap", into="front"),
    ]  # fmt: skip
    given: dict[str, Any] = {"hung": hung()}
    return Composition(name="tray", parts=parts, joints=joints, **{**given, **changes})


def hung(**changes: Any) -> list[Hung]:
    given: dict[str, Any] = {
        "part": "flap", "on": "strip", "hinge": a_hinge(), "stays_on": ["right side"],
    }  # fmt: skip
    return [Hung(**{**given, **changes})]


def shelf_over(high: str, deep: str) -> PlacedPart:
    """A shelf that stands so high over the strip and reaches so far forward from the back."""
    return board("shelf", "300 mm", deep, face_edge=Way.FRONT, places=[
        Against(of="strip", side=Way.UP, gap=high), *flush("strip", Way.LEFT, Way.BACK),
    ])  # fmt: skip


def swing_of(design: Composition) -> Finding:
    """The one look at how far it is free to open, without all other checks."""
    piece = design.build()
    (turns,) = piece.intent.opens
    (found,) = swing_findings(piece, turns, shown_by(piece))
    return found


@pytest.fixture(scope="module")
def piece() -> Piece:
    """The tray of round figures."""
    return tray().build()


GAIN, PILOT = 30 * 9 * (4 - 0.5) / 2, math.pi / 4 * 1.5**2 * (8 - 1.2)
STAY = math.pi / 4 * 2**2 * 10
"""As a boxed lid's: of the screws that are sold, the longest that leaves 3 of 14 mm."""
BY_HAND = {
    "strip": 300 * 60 * 14 - 2 * GAIN - 4 * PILOT,
    "flap": 300 * 145 * 14 - 2 * GAIN - 4 * PILOT - STAY,
    "right side": 200 * 90 * 14 - STAY,
    "left side": 200 * 90 * 14,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_wood_of_what_hangs_and_of_what_it_hangs_on(piece: Piece, instance: str) -> None:
    assert float(solid_of(part(piece, instance)).Volume()) == pytest.approx(
        BY_HAND[instance], rel=1e-9
    )


def test_it_is_hung_last_and_its_hinges_screws_and_stay_are_bought(piece: Piece) -> None:
    """The chain by hand: open by 100 degrees, its end has gone back and up about the pin."""
    assert proved(piece).steps[-1].moving == ("flap",)
    things = {each.name: each for each in bought_parts(piece)}
    assert (things["butt hinge"].quantity, things["butt hinge"].length_mm) == (2, 30)
    assert things["countersunk wood screw"].quantity == 8
    assert things["round-head wood screw"].quantity == 2
    near, far = 15.0, 145.25 - 5.5 - 15.0  # the sides begin 5.5 behind the flap's front
    reach = near + 0.4 * (far - near)
    turn, under = math.radians(100), -16.0  # the underside lies so far below the pin
    along = reach * math.cos(turn) - under * math.sin(turn)
    up = reach * math.sin(turn) + under * math.cos(turn)
    whole = math.sqrt((along - reach) ** 2 + (up - under + 15) ** 2 + 8**2)
    assert things["lid chain"].length_mm == math.floor(whole)


def test_it_lies_over_a_rail_as_well_as_beside_a_strip() -> None:
    """The barrels behind, as on a box; the hinges lie where they would lie there."""
    parts = [each for each in tray().parts if each.name not in ("strip", "flap")]
    lid = board("flap", "300 mm", "205 mm", face_edge=Way.FRONT, places=[
        Against(of="back", side=Way.UP, gap="0.5 mm"), *flush("left side", Way.BACK, Way.LEFT),
    ])  # fmt: skip
    joints = [each for each in tray().joints if "strip" not in each.called][:4]
    rest = join(RestJoint, "flap", into="front", gap="0.5 mm")
    design = Composition(name="tray", parts=[*parts, lid], joints=[*joints, rest],
                         hung=hung(on="back", stays_on=["left side", "right side"]))  # fmt: skip
    piece = design.build()
    assert proved(piece).steps[-1].moving == ("flap",)
    (turns,) = piece.intent.opens
    assert turns.pin[1:] == pytest.approx((207.0, 90.25))
    assert turns.over_mm == pytest.approx(5.0)
    (stay,) = (each for each in bought_parts(piece) if each.name == "lid chain")
    assert stay.quantity == 2


def test_it_is_looked_at_as_any_hinged_lid(piece: Piece) -> None:
    assert len(piece.intent.opens) == 1
    found = {each.check: each for each in findings_of(piece, weigh(piece))}
    assert found[OPEN_TILT].verdict is Verdict.OK
    assert found[SWING].verdict is Verdict.OK
    assert OPEN_PULL in found


def test_a_shelf_above_is_struck_where_geometry_says() -> None:
    """Its lower front corner lies 90 - 0.25 forward of the pin and 80 - 2 above it; the flap's top
    face passes 2 below the pin."""
    found = swing_of(tray(shelf=shelf_over("80 mm", "150 mm")))
    along, up = 150 - 60 - 0.25, 80 - 2
    by_hand = math.degrees(math.atan2(up, along) + math.asin(2 / math.hypot(along, up)))
    assert found.verdict is Verdict.FAIL
    assert found.value == pytest.approx(by_hand, abs=0.1)
    assert "shelf" in found.basis


@pytest.mark.parametrize(("high", "deep"), [("80 mm", "150 mm"), ("60 mm", "90 mm")])
def test_what_is_told_of_a_struck_shelf_cures_it(high: str, deep: str) -> None:
    found = swing_of(tray(shelf=shelf_over(high, deep)))
    back = re.search(r"bring shelf (\d+) mm back", found.advice)
    assert back is not None
    left = float(deep.split(" ")[0]) - float(back[1])
    if left > 10:
        cured = swing_of(tray(shelf=shelf_over(high, f"{left} mm")))
        assert cured.verdict is Verdict.OK
    else:  # nothing is left of it: without it the flap is free
        cured = swing_of(tray())
        assert cured.verdict is Verdict.OK


def test_a_shelf_that_ends_behind_the_open_flap_is_not_struck() -> None:
    found = swing_of(tray(shelf=shelf_over("80 mm", "25 mm")))
    assert found.verdict is Verdict.OK


def test_inches_and_three_hinges() -> None:
    piece = tray(hung=hung(count=3, inset="20 mm"), shown=inches(64)).build()
    proved(piece)
    assert box_round(piece, "flap")[1][0] == pytest.approx(300)
    (hinges,) = (each for each in bought_parts(piece) if each.name == "butt hinge")
    assert hinges.quantity == 3


REFUSED: list[tuple[Composition, str]] = [
    (tray(hung="flap"), "hung"),
    (tray(hung=["flap"]), "hung 1"),
    (tray(hung=hung(part="flip")), "hung 1 part"),
    (tray(hung=hung(on="front side")), "hung 1 on"),
    (tray(hung=hung(stays_on=[])), "hung 1 stays_on"),
    (tray(hung=hung(stays_on=["back"])), "hung 1 stays_on"),
    (tray(hung=hung(stays_on=["strip"])), "hung 1 stays_on"),
    (tray(hung=hung(on="left side")), "hung 1"),
    (tray(gap="0 mm"), "hung 1"),
    (tray(gap="3 mm"), "hung 1"),
    (tray(hung=hung(hinge="brass")), "hung 1 hinge"),
    (tray(hung=hung(hinge=a_hinge(leaf_width="12 mm"))), "hung 1 hinge.leaf_width"),
    (tray(hung=hung(hinge=a_hinge(leaf_length="160 mm"))), "hung 1 hinge.leaf_length"),
    (tray(hung=hung(inset="5 mm")), "hung 1 inset"),
    (tray(hung=hung(count=4)), "hung 1 count"),
    (tray(hung=hung(stay="chain")), "hung 1 stay"),
    (tray(hung=hung(stay=Stay(opens_to="80 deg"))), "hung 1 stay.opens_to"),
    (tray(hung=hung(stay=Stay(reach="140 mm"))), "hung 1 stay.reach"),
    (tray(hung=hung(stay=Stay(screw=Screw(diameter="3 mm", length="20 mm")))),
     "hung 1 stay.screw.length"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_hang_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter = given
    problems = problems_of(design)
    assert parameter in [each.parameter for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None:
            assert problem.parameter not in problems_left(changed(design, problem.parameter, text))


def test_a_gap_that_is_told_is_taken() -> None:
    for gap in ("0 mm", "3 mm"):
        (problem,) = problems_of(tray(gap=gap))
        said = re.fullmatch(r"place flap (\S+ mm) off", problem.remedy)
        assert said is not None
        assert problems_left(tray(gap=said[1])) == []
