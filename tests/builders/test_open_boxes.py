"""Boxes and stands without a lid: worked by hand, proved, and told what no lid needs."""

from __future__ import annotations

import math
from typing import Any

import pytest

from furniture import (
    OUTER_TOP,
    BackRail,
    BottomFixing,
    Cleats,
    Dowels,
    EdgeProfile,
    FingerHold,
    LidFixing,
    Load,
    MitredBox,
    SteppedStand,
    Tier,
    Uprights,
)
from furniture.parts.cuts import Dado, Rabbet
from furniture.pieces import Piece
from furniture.solids.make import solid_of
from tests.builders.bench import (
    THICK,
    a_stand,
    box_round,
    by_uprights,
    oak,
    parameters_named,
    part,
    problems_of,
    proved,
)

_OF_A_LID = ("flush_allowance", "lid_gap_along", "lid_gap_across")


def open_box(**changes: Any) -> MitredBox:
    """An open box of round figures."""
    given: dict[str, Any] = {
        "rails": THICK, "bottom": oak("10 mm"), "width": "300 mm", "depth": "200 mm",
        "height": "80 mm", "rabbet_width": "10 mm", "bottom_gap": "1 mm",
        "bottom_fixing": BottomFixing.PINNED, "lid_fixing": LidFixing.NONE,
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


def open_stand(make: Any = a_stand, **changes: Any) -> SteppedStand:
    """The round-numbered stand with an open box below."""
    stand = make(**{"bottom": oak("10 mm"), "bottom_gap": "1 mm", **changes})
    given = {name: getattr(stand, name) for name in type(stand).__dataclass_fields__}
    for name in (*_OF_A_LID, "_record"):
        given.pop(name)
    return SteppedStand(**{**given, "lid_fixing": LidFixing.NONE})


def wood(piece: Piece, *instances: str) -> float:
    """The volume of these instances together [mm3]."""
    return math.fsum(float(solid_of(part(piece, name)).Volume()) for name in instances)


def test_an_open_box_is_its_rails_and_its_bottom() -> None:
    """By hand: a ring of 300 x 200 less 260 x 160, 80 high, less the rabbet of the bottom.

    (60000 - 41600) x 80 - (280 x 180 - 41600) x 10 = 1384000 mm3; the bottom is 278 x 178 x 10.
    """
    piece = open_box().build()
    rails = ("front rail", "back rail", "left side rail", "right side rail")
    assert len(piece.placed) == 5
    assert wood(piece, *rails) == pytest.approx(1_384_000, rel=1e-9)
    assert wood(piece, "bottom") == pytest.approx(278 * 178 * 10, rel=1e-9)
    proved(piece)


def test_things_stand_in_an_open_box() -> None:
    """On its bottom, between its rails; and it has no lid to put them on."""
    jar = Load(on="bottom", mass="1 kg", footprint=("90 mm", "90 mm"), centre_height="60 mm")
    piece = open_box(loads=[jar]).build()
    (surface,) = piece.surfaces
    assert (surface.low, surface.high, surface.top_mm) == ((20, 20), (280, 180), 10)
    on_lid = open_box(loads=[Load(on="lid", mass="1 kg")])
    assert "load 1 on" in parameters_named(on_lid)


def test_the_upper_edges_of_an_open_box_may_be_shaped() -> None:
    """No lid's rabbet runs there, and nothing is planed flush."""
    profile = EdgeProfile(on="rails", edges=[OUTER_TOP], radius="3 mm")
    proved(open_box(profiles=[profile]).build())


@pytest.mark.parametrize("make", [a_stand, by_uprights])
def test_tiers_rise_from_the_rails_of_an_open_stand(make: Any) -> None:
    """80 and the first rise; the support has a housing for each tier and none for a lid."""
    stand = open_stand(make)
    piece = stand.build()
    rise = 150 if make is a_stand else 120
    assert box_round(piece, "tier 1")[1][2] == pytest.approx(80 + rise)
    support = part(piece, "post" if make is a_stand else "left upright")
    tiers = [each for each in piece.placed if each.instance.startswith("tier")]
    assert len([cut for cut in support.cuts if "dado" in cut.kind]) == len(tiers)
    assert "lid" not in [each.instance for each in piece.placed]
    front = part(piece, "front rail")
    assert len([cut for cut in front.cuts if isinstance(cut, Rabbet)]) == 1
    proved(piece)


def test_a_stand_on_a_plinth() -> None:
    """Neither lid nor bottom: four rails, the post between its stubs, and the tiers."""
    stand = open_stand(bottom=None, bottom_gap=None, dowels=Dowels(count=2, diameter="8 mm"))
    piece = stand.build()
    assert len(piece.placed) == 5 + 1 + 2
    assert not any(isinstance(cut, Rabbet) for each in piece.placed for cut in each.part.cuts)
    proved(piece)


def test_no_strip_fills_a_rabbet_that_is_not_there() -> None:
    """Behind a post let into a full rail; any depth serves that leaves half the rail."""
    piece = open_stand(back_rail=BackRail(let_in="7 mm")).build()
    assert "rabbet filler" not in " ".join(each.instance for each in piece.placed)
    assert len(piece.placed) == 4 + 1 + 1 + 2
    proved(piece)


def test_the_first_tier_may_lie_low_over_an_open_box() -> None:
    """No lid's dado below it: its own thickness, play and 15 of wood are enough."""
    low = [Tier(width="200 mm", depth="90 mm", rise="26 mm")]
    piece = open_stand(tiers=low).build()
    (dado,) = [cut for cut in part(piece, "post").cuts if isinstance(cut, Dado)]
    assert dado.lower_shoulder_mm == pytest.approx(80 + 26 - 10)


REFUSED: list[tuple[Any, str]] = [
    (open_box(bottom=None), "bottom"),
    (open_box(lid=oak("10 mm")), "lid"),
    (open_box(finger_hold=FingerHold.NOTCH), "finger_hold"),
    (open_box(cleats=Cleats()), "cleats"),
    (open_box(lid_gap_across="1 mm"), "lid_gap_across"),
    (open_box(flush_allowance="0.5 mm"), "flush_allowance"),
    (a_stand(lid_fixing=LidFixing.NONE, flush_allowance="0 mm"), "flush_allowance"),
    (open_stand(loads=[Load(on="lid", mass="1 kg")]), "load 1 on"),
    (open_stand(own_stock={"lid": oak("9 mm")}), "own_stock['lid']"),
    (open_stand(by_uprights, uprights=Uprights(depth="120 mm"), base_height="20 mm"),
     "base_height"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_only_a_lid_needs_is_refused(given: tuple[Any, str]) -> None:
    """By its own name, with a remedy."""
    design, parameter = given
    problems = problems_of(design)
    assert parameter in [problem.parameter for problem in problems]
    assert all(p.given and p.allowed and p.why and p.remedy for p in problems)


def test_for_want_of_a_lid_the_box_may_stay_open() -> None:
    """It was told to write a stock alone."""
    shut = open_box(lid_fixing=LidFixing.LOOSE)
    (problem,) = problems_of(shut)
    assert problem.parameter == "lid"
    assert problem.remedy.endswith("or leave the box open above (lid_fixing=LidFixing.NONE)")
    open_box(lid_fixing=LidFixing.NONE).build()
