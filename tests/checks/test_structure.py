"""What holds a piece and what its joints bear: whole designs, each hazard beside its cure."""

from __future__ import annotations

import pytest

from furniture import (
    Against,
    Ballast,
    BottomFixing,
    ButtJoint,
    CentredOn,
    Composition,
    DadoJoint,
    DowelledButtJoint,
    Feet,
    FlushWith,
    Load,
    MitredBox,
    PlacedPart,
    SteppedStand,
    Stock,
    TierRule,
    Way,
    join,
)
from furniture.checks.advice import Change
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import findings_of
from furniture.solids.measure import weigh

OAK = Stock(name="oak", species="white oak", thickness="12 mm", moisture="8 %")
THIN = Stock(name="oak, thin", species="white oak", thickness="5 mm", moisture="8 %")
BOARD = Stock(name="oak, 20", species="white oak", thickness="20 mm", moisture="8 %")


DOWELS = {"diameter": "8 mm", "into_depth": "14 mm", "count": 4}


def a_box(**changes):
    """A box of 500 x 300 x 100 with 20 kg of steel on a bottom 5 mm thick, unless changed."""
    given = {
        "rails": OAK, "lid": THIN, "bottom": THIN, "width": "500 mm", "depth": "300 mm",
        "height": "100 mm", "ballast": Ballast(mass="20 kg", size=("300 mm", "150 mm", "60 mm")),
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


def told(design, check):
    """The finding of that name."""
    piece = design.build()
    weighed = weigh(piece)
    return next(each for each in findings_of(piece, weighed) if each.check.name == check)


def test_a_loose_bottom_falls_out_whatever_lies_on_it():
    for more in ({}, {"ballast": None}):
        held = told(a_box(bottom_fixing=BottomFixing.LOOSE, **more), "what holds each part")
        assert held.verdict is Verdict.FAIL
        assert held.subject == "bottom"
        assert "down" in held.basis
        assert "lifted" in held.basis
        assert "pin" in held.advice


def test_a_bottom_that_nothing_is_said_of_is_held():
    for design in (a_box(ballast=None), a_stand(None, None)):
        assert told(design, "what holds each part").verdict is Verdict.OK


def test_a_sheet_bottom_has_room_along_its_length_too_by_its_own_default():
    """An MDF board swells alike both ways, and this one is half as long again as it is wide."""
    sheet = Stock(name="mdf", species="MDF 9 mm", thickness="9 mm")
    wide = a_box(bottom=sheet, ballast=None, width="900 mm", depth="400 mm")
    assert told(wide, "gap of a loose part").verdict is Verdict.OK


def test_twenty_kilograms_are_too_much_for_two_pins_and_four_are_not():
    pinned = a_box(bottom_fixing=BottomFixing.PINNED)
    heavy = told(pinned, "what its joints bear")
    assert heavy.verdict is Verdict.CAUTION
    assert heavy.value == pytest.approx(0.34, abs=0.02)  # by moments 140 N a pin, of 48
    assert heavy.subject == "bottom"
    light = Ballast(mass="2 kg", size=("100 mm", "100 mm", "30 mm"), from_front="150 mm")
    easy = told(a_box(bottom_fixing=BottomFixing.PINNED, ballast=light), "what its joints bear")
    assert easy.verdict is Verdict.OK


def bench(kind, span="1000 mm", load="80 kg", thickness=BOARD, **joint):
    """A seat between two sides 400 high, joined that way, under a load."""
    let_in = {"let_in": "8 mm"} if kind is DadoJoint else {}
    sides = [
        PlacedPart(
            name=f"{way.value} side", stock=BOARD, length="400 mm", width="300 mm",
            face_side=Way.RIGHT if way is Way.LEFT else Way.LEFT, grain=Way.UP,
            places=[
                Against(of="seat", side=way, **let_in), CentredOn(of="seat", along=Way.FRONT),
                FlushWith(of="seat", side=Way.UP),
            ],
        )
        for way in (Way.LEFT, Way.RIGHT)
    ]  # fmt: skip
    return Composition(
        name="Bench",
        parts=[PlacedPart(name="seat", stock=thickness, length=span, width="300 mm"), *sides],
        joints=[join(kind, "seat", into=each.name, **joint) for each in sides],
        loads=[Load(on="seat", name="boxes", mass=load, footprint=("300 mm", "250 mm"),
                    centre_height="150 mm")],
    )  # fmt: skip


def test_a_long_thin_bench_on_dowels_is_a_beam_between_them():
    """2 m under 150 kg, by hand 150 g / 2 x 925 mm over 300 x 20^2 / 6: 34 MPa, and its own 3."""
    long = bench(DowelledButtJoint, "2000 mm", "150 kg", **DOWELS)
    bending = told(long, "bending stress of a shelf")
    assert bending.subject == "seat"
    assert bending.value == pytest.approx(37.0, rel=0.06)
    assert bending.verdict is Verdict.CAUTION
    sag = told(long, "sag that shows")
    assert sag.verdict is Verdict.CAUTION
    assert sag.value > 100.0


def test_a_long_thin_bench_on_butts_tears_its_glue():
    stretched = told(bench(ButtJoint, "2000 mm", "150 kg"), "glue of the joints under load")
    assert stretched.verdict is Verdict.FAIL
    assert stretched.subject.startswith("seat")


def test_only_end_grain_glue_is_told_and_dowels_cure_it():
    check = "held by end-grain glue alone"
    bare = told(bench(ButtJoint), check)
    assert bare.verdict is Verdict.CAUTION
    assert "seat" in bare.subject
    dowelled = bench(DowelledButtJoint, **DOWELS)
    with pytest.raises(StopIteration):
        told(dowelled, check)


def test_a_thicker_seat_as_advised_no_longer_shows_its_sag():
    slack = bench(DowelledButtJoint, "1100 mm", "30 kg", **DOWELS)
    sag = told(slack, "sag that shows")
    assert sag.verdict is Verdict.CAUTION
    thicker = next(each for each in sag.remedies if each.change is Change.THICKNESS)
    stock = Stock(
        name="thicker",
        species="white oak",
        thickness=f"{20.0 + thicker.amount:.2f} mm",
        moisture="8 %",
    )
    cured = bench(DowelledButtJoint, "1100 mm", "30 kg", thickness=stock, **DOWELS)
    assert told(cured, "sag that shows").verdict is not Verdict.CAUTION


def a_stand(fixing, feet):
    """A stand of two tiers, with 300 kg on one of them, on a box whose bottom is held so."""
    return SteppedStand(
        thick=BOARD, thin=BOARD, bottom=THIN, bottom_fixing=fixing, feet=feet,
        base_width="320 mm", base_depth="210 mm", base_height="84 mm", post_width="110 mm",
        tiers=TierRule(count=2, width="300 mm", depth="150 mm", rise="150 mm"),
        loads=[Load(on="tier 1", name="anvil", mass="300 kg", footprint=("100 mm", "100 mm"),
                    centre_height="70 mm")],
    )  # fmt: skip


@pytest.mark.parametrize("feet", [None, Feet(stock=BOARD, length="40 mm", width="30 mm")])
def test_what_drops_out_neither_hides_what_else_is_amiss_nor_makes_more_of_it(feet):
    """Of a stand whose bottom drops out, all else is told as of one whose bottom is pinned."""
    pinned, loose = (
        {
            (each.check.name, *sorted(each.subject.split())): each.verdict
            for piece in [a_stand(fixing, feet).build()]
            for each in findings_of(piece, weigh(piece))
            if each.verdict in (Verdict.FAIL, Verdict.CAUTION)
        }
        for fixing in (BottomFixing.PINNED, BottomFixing.LOOSE)
    )
    dropped = {("what holds each part", "bottom"): Verdict.FAIL,
               ("loose parts", "bottom"): Verdict.CAUTION}  # fmt: skip
    assert loose == pinned | dropped
    assert ("bending stress of a shelf", Verdict.FAIL) in {
        (key[0], verdict) for key, verdict in pinned.items()
    }
