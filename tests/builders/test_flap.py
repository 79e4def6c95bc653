"""A flap in a stand's lid: by hand, proved, clear of the tiers, and refused where it is not."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest

from furniture import (
    BackRail,
    BottomFixing,
    Flap,
    LidFixing,
    Load,
    OwnWood,
    PanelGrain,
    Stay,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
    inches,
    millimetres,
)
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.swing import swing_findings
from furniture.checks.rows.open_lid import OPEN_TILT, SHY_LID, SWING
from furniture.making.glue_ups import proud_of
from furniture.parts.cuts import Bore
from furniture.pieces import Piece, bought_parts
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from furniture.units import Shown
from tests.builders.bench import a_hinge, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, problems_left, stated


def flapped(tiers: dict[str, Any] | None = None, flap: Any = None, **changes: Any) -> SteppedStand:
    """A stand of round figures whose lid opens in front; `tiers` changes the usual ones."""
    usual: dict[str, Any] = {
        "count": 2, "width": "260 mm", "depth": "90 mm", "rise": "140 mm",
        "step_back_depth": "20 mm",
    }  # fmt: skip
    given: dict[str, Any] = {
        "thick": oak("20 mm"), "thin": oak("14 mm"), "bottom": oak("6 mm"), "base_width": "320 mm",
        "base_depth": "240 mm", "base_height": "90 mm", "post_width": "120 mm",
        "rabbet_width": "10 mm", "bottom_gap": "1 mm", "bottom_fixing": BottomFixing.PINNED,
        "lid_gap_along": "0.5 mm", "lid_fixing": LidFixing.GLUED,
        "flap": Flap(hinge=a_hinge()) if flap is None else flap,
        "tiers": TierRule(**{**usual, **(tiers or {})}),
    }  # fmt: skip
    return SteppedStand(**{**given, **changes})


@pytest.mark.parametrize(
    ("shown", "depth", "bore"),
    [(millimetres(), None, 22.0), (inches(32), None, 22.225),
     (millimetres(), "60 mm", 20.0), (inches(32), "60 mm", 19.05)],
)  # fmt: skip
def test_it_is_lifted_by_a_hole_that_a_bit_of_its_maker_bores(
    shown: Shown, depth: str | None, bore: float
) -> None:
    """22 mm or 7/8 in; a flap of 60, of which 9 lie on the rail, has room for 51 / 2.5 = 20.4."""
    flap = Flap(hinge=a_hinge(), depth=depth)
    piece = flapped(flap=flap, shown=shown).build()
    (hole,) = [each for each in part(piece, "flap").cuts
               if isinstance(each, Bore) and each.diameter_mm > 10]  # fmt: skip
    assert hole.diameter_mm == pytest.approx(bore)


def swing_of(piece: Piece) -> Finding:
    """The one look at how far it is free to open, without all other checks."""
    (turns,) = piece.intent.opens
    (found,) = swing_findings(piece, turns, shown_by(piece))
    return found


@pytest.fixture(scope="module")
def low() -> Piece:
    """The same under a low tier."""
    return flapped({"rise": "80 mm"}).build()


@pytest.fixture(scope="module")
def piece() -> Piece:
    """The stand of round figures."""
    return flapped().build()


def test_it_is_as_deep_as_passes_below_a_high_tier(piece: Piece) -> None:
    """The first tier's underside is 140 - 14 above the lid and 2 less above the pin; 5 are kept."""
    (x0, front, low), (x1, back, high) = box_round(piece, "flap")
    assert back - front == math.floor(140 - 14 - 2 - 5 - 0.5)
    assert (x0, x1) == pytest.approx((10.5, 309.5))
    assert (low, high) == pytest.approx((75.5, 89.5))
    assert box_round(piece, "lid")[0][1] == pytest.approx(back + 0.5)
    turns_forward = math.hypot(118, 14 + 2) - 118
    assert front - 10 >= turns_forward + 0.3 - 1e-9, "its lower edge clears the rim"


def test_below_a_low_tier_it_ends_where_it_clears_it_leaning_back(low: Piece) -> None:
    """Open by 100 degrees it leans back 10: over 80 - 2 that is 13.8, and 2 / cos 10 at the pin."""
    (_, front, _), (_, back, _) = box_round(low, "flap")
    face = box_round(low, "tier 1")[0][1]
    lean = math.radians(10)
    line = face - 78 * math.tan(lean) - 2 / math.cos(lean) - 5
    assert back - front == math.floor(line - 0.5 - front)
    assert swing_of(low).verdict is Verdict.OK


GAIN, PILOT = 30 * 9 * (4 - 0.5) / 2, math.pi / 4 * 1.5**2 * (8 - 1.2)
STAY, BORE = math.pi / 4 * 2**2 * 10, math.pi / 4 * 22**2 * 14


def test_the_wood_of_lid_and_flap(piece: Piece) -> None:
    """The lid ends at the post's dado and at the stubs, 118 and 0.5 shorter in front."""
    flap = float(solid_of(part(piece, "flap")).Volume())
    assert flap == pytest.approx(299 * 118 * 14 - 2 * GAIN - 4 * PILOT - STAY - BORE, rel=1e-9)
    (_, front, _), (_, back, _) = box_round(piece, "lid")
    notch = next(each for each in part(piece, "lid").cuts if each.kind == "notch")
    gone = notch.removed_alone_mm3(part(piece, "lid").blank)
    lid = float(solid_of(part(piece, "lid")).Volume())
    assert lid == pytest.approx(299 * (back - front) * 14 - gone - 2 * GAIN - 4 * PILOT, rel=1e-9)


def test_the_rim_is_planed_once_and_to_the_lid(piece: Piece) -> None:
    """The flap is hung when all tools are done: no plane can meet it."""
    rim = ["front rail", "left side rail", "left stub", "right side rail", "right stub"]
    assert sorted((each.high, each.low) for each in proud_of(piece)) == [
        (each, "lid") for each in rim
    ]


def test_it_is_proved_hung_last_bought_and_looked_at(piece: Piece) -> None:
    assert proved(piece).steps[-1].moving == ("flap",)
    things = {each.name: each.quantity for each in bought_parts(piece)}
    assert (things["butt hinge"], things["lid chain"]) == (2, 1)
    found = {each.check: each for each in findings_of(piece, weigh(piece))}
    assert OPEN_TILT in found
    assert SHY_LID not in found, "it lies within the rim"
    assert found[SWING].verdict is Verdict.OK


@pytest.mark.parametrize(
    "design",
    [
        flapped(post_width=None, uprights=Uprights(depth="110 mm"),
                tiers={"width": None, "depth": "80 mm"}, base_depth="260 mm"),
        flapped(back_rail=BackRail(), tiers={"rise": "110 mm"}),
        flapped(flap=Flap(hinge=a_hinge(), depth="75 mm", count=3, gap="0.8 mm",
                          stay=Stay(opens_to="108 deg", count=2)),
                shown=inches(64), base_width="420 mm", tiers={"rise": "95 mm"},
                loads=[Load(on="flap", mass="1 kg", footprint=("60 mm", "60 mm"),
                            centre_height="40 mm")]),
    ],
    ids=["uprights", "back rail", "inches"],
)  # fmt: skip
def test_lopsided_stands_are_proved_and_free_to_open(design: SteppedStand) -> None:
    piece = design.build()
    assert proved(piece).steps[-1].moving == ("flap",)
    assert swing_of(piece).verdict is Verdict.OK


def test_the_low_tier_is_what_it_would_strike_if_it_opened_further(low: Piece) -> None:
    swing = swing_of(low)
    assert swing.value is not None
    assert 100 < swing.value < 180
    assert "tier 1" in swing.basis


BAD: list[tuple[SteppedStand, str]] = [
    (flapped(flap="hinged"), "flap"),
    (flapped(lid_fixing=LidFixing.LOOSE), "flap"),
    (flapped(flap=Flap(hinge="brass")), "flap.hinge"),
    (flapped(flap=Flap(hinge=a_hinge(leaf_width="12 mm"))), "flap.hinge.leaf_width"),
    (flapped(flap=Flap(hinge=a_hinge(), gap="0 mm")), "flap.gap"),
    (flapped(flap=Flap(hinge=a_hinge(), depth="150 mm")), "flap.depth"),
    (flapped(flap=Flap(hinge=a_hinge(), depth="40 mm")), "flap.depth"),
    (flapped(flap=Flap(hinge=a_hinge(), finger_size="70 mm")), "flap.finger_size"),
    (flapped(flap=Flap(hinge=a_hinge(), stay="chain")), "flap.stay"),
    (flapped(flap=Flap(hinge=a_hinge(), stay=Stay(opens_to="80 deg"))), "flap.stay.opens_to"),
    (flapped(flap=Flap(hinge=a_hinge(), inset="5 mm")), "flap.inset"),
    (flapped(flap=Flap(hinge=a_hinge(), count=4)), "flap.count"),
    (flapped(own_grain={"lid": PanelGrain.ACROSS}), "own_grain['lid']"),
    (flapped(base_depth="150 mm", tiers={"rise": "80 mm", "step_back_depth": "0 mm"}), "flap"),
]  # fmt: skip


@pytest.mark.parametrize("given", BAD)
def test_what_cannot_open_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter = given
    problems = problems_of(design)
    assert parameter in [each.parameter for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None:
            assert problem.parameter not in problems_left(changed(design, problem.parameter, text))


def test_a_wood_with_density_alone_has_the_gap_that_its_maker_leaves() -> None:
    """Nobody can say what it needs; what is offered for it, in inches too, is taken."""
    mango = Stock(species=OwnWood(name="mango", density="650 kg/m3"), thickness="14 mm")
    given: dict[str, Any] = {"thin": mango, "shown": inches(32)}
    (problem,) = problems_of(flapped(**given))
    assert problem.parameter == "lid_gap_across"
    (gap,) = re.findall("lid_gap_across='([^']+)'", problem.remedy)
    (_, front, _), _ = box_round(flapped(**given, lid_gap_across=gap).build(), "flap")
    assert front - 10 == pytest.approx(2.4, abs=0.1)


def test_its_hinges_and_its_stay_are_told_with_all_else() -> None:
    """What hangs on where the lid lies is not kept for a second run."""
    attic = Load(on="attic", mass="1 kg", footprint=("1 cm", "1 cm"), centre_height="1 mm")
    flap = Flap(hinge=a_hinge(), inset="5 mm", stay=Stay(reach="300 mm"))
    named = [each.parameter for each in problems_of(flapped(flap=flap, loads=[attic]))]
    assert named == ["flap.inset", "flap.stay.reach", "load 1 on"]


def test_a_base_that_is_made_as_much_deeper_takes_a_flap() -> None:
    short = {"base_depth": "150 mm", "tiers": {"rise": "80 mm", "step_back_depth": "0 mm"}}
    problem = next(each for each in problems_of(flapped(**short)) if each.parameter == "flap")
    words = problem.remedy.split(" ")
    deeper = float(words[words.index("mm") - 1])
    assert problems_left(flapped(**{**short, "base_depth": f"{150 + deeper} mm"})) == []


@pytest.mark.parametrize("stock", ["thick", "thin"])
def test_beside_a_stock_of_no_thickness_nothing_is_said_of_the_flap(stock: str) -> None:
    """Its room is not known then, which broke the run."""
    named = [each.parameter for each in problems_of(flapped(**{stock: oak("-16.3 mm")}))]
    assert named == [f"{stock} (oak -16.3 mm) thickness"]
