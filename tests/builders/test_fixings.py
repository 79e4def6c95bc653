"""Screws, pegs, bushings, ballast and other hardware: what is counted, and what does not fit."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    Along,
    Ballast,
    Bore,
    Cleats,
    Composition,
    Face,
    Hardware,
    LidFixing,
    Opening,
    Peg,
    PlacedPart,
    Screw,
    Slot,
    cut,
    inches,
    row_of,
)
from furniture.parts.cuts import Bore as BoreCut
from furniture.pieces import Bought, Piece, SoldBy, bought_parts, placed_named
from tests.builders.bench import THIN, a_stand, oak, parameters_named, problems_of

SCREW = Screw(diameter="4 mm", length="40 mm")
SUNK = {"face": Face.FACE_SIDE, "y": "20 mm", "diameter": "4.5 mm", "countersink_diameter": "9 mm"}


def strip(*cuts: Any, **given: Any) -> Composition:
    """A strip 300 x 40 x 12 with these cuts."""
    one = PlacedPart(name="strip", stock=oak("12 mm"), length="300 mm", width="40 mm", cuts=cuts)
    return Composition(name="strip", parts=[one], **given)


def bores(piece: Piece) -> list[BoreCut]:
    return [c for c in placed_named(piece, "strip").part.cuts if isinstance(c, BoreCut)]


def test_a_screw_is_named_by_its_bore() -> None:
    """A countersunk bore takes a countersunk screw, a plain one a round head; equal ones add."""
    plain = {key: value for key, value in SUNK.items() if key != "countersink_diameter"}
    piece = strip(
        cut(Bore, x="40 mm", holds=SCREW, **SUNK),
        cut(Bore, x="260 mm", holds=SCREW, **SUNK),
        cut(Bore, x="150 mm", holds=SCREW, **plain),
    ).build()
    sunk, plain_one = bought_parts(piece)
    assert sunk == Bought(
        name="countersunk wood screw", quantity=2, diameter_mm=4.0, length_mm=40.0,
        where=("strip",), sold_by=SoldBy.GAUGE,
    )  # fmt: skip
    assert (plain_one.name, plain_one.quantity) == ("round-head wood screw", 1)


def test_a_row_steps_along_the_middle_of_the_part() -> None:
    """Five at 60 on 300: centred, the first at 30; on 40 wide they stand at 20."""
    peg = Peg(diameter="10 mm", length="60 mm", name="oak peg")
    row = row_of(
        cut(Bore, face=Face.FACE_SIDE, diameter="10 mm", holds=peg), count=5, spacing="60 mm"
    )
    piece = strip(row).build()
    assert [(each.x_mm, each.y_mm) for each in bores(piece)] == [
        (pytest.approx(30.0 + 60.0 * n), 20.0) for n in range(5)
    ]
    assert [(b.name, b.quantity, b.length_mm) for b in bought_parts(piece)] == [("oak peg", 5, 60)]


def test_a_row_across_the_grain_from_a_stated_start() -> None:
    one = cut(Slot, face=Face.FACE_SIDE, x="100 mm", length="20 mm", width="4 mm")
    row = row_of(one, count=3, spacing="10 mm", first="8 mm", along=Along.ACROSS)
    part = placed_named(strip(row).build(), "strip").part
    places = [(each.x_mm, each.y_mm) for each in part.cuts if isinstance(each, Slot)]
    assert places == [(100.0, pytest.approx(8.0 + 10.0 * n)) for n in range(3)]


def test_a_row_on_an_edge_is_in_the_middle_of_the_thickness() -> None:
    row = row_of(
        cut(Bore, face=Face.FACE_EDGE, diameter="4 mm", depth="20 mm"), count=2, spacing="100 mm"
    )
    assert [(b.x_mm, b.y_mm, b.z_mm) for b in bores(strip(row).build())] == [
        (100.0, None, 6.0),
        (200.0, None, 6.0),
    ]


BORE = cut(Bore, face=Face.FACE_SIDE, diameter="10 mm")


@pytest.mark.parametrize(
    ("entry", "named"),
    [
        (cut(Bore, x="40 mm", holds=Screw(diameter="5 mm", length="40 mm"), **SUNK), "holds diam"),
        (cut(Bore, x="40 mm", holds=Screw(diameter="2 mm", length="40 mm"), **SUNK), "holds diam"),
        (cut(Bore, x="40 mm", holds=Screw(diameter="4 mm", length="15 mm"), **SUNK), "holds len"),
        (cut(Bore, x="40 mm", holds=Screw(diameter="4 mm"), **SUNK), "holds length"),
        (
            cut(Bore, x="40 mm", holds=SCREW, **{**SUNK, "countersink_diameter": "7 mm"}),
            "holds diameter",
        ),
        (
            cut(
                Bore,
                x="40 mm",
                holds=SCREW,
                **{**SUNK, "diameter": "9 mm", "countersink_diameter": "9.2 mm"},
            ),
            "cut 1 (bore) countersink_diameter",
        ),
        (
            cut(Bore, x="40 mm", depth="9 mm", holds=Screw(diameter="4 mm", length="8 mm"), **SUNK),
            "holds length",
        ),
        (cut(Bore, x="40 mm", holds=Peg(diameter="6 mm", length="40 mm"), **SUNK), "holds diam"),
        (cut(Bore, x="40 mm", holds=Peg(diameter="4.5 mm", length="9 mm"), **SUNK), "holds length"),
        (cut(Bore, x="40 mm", holds=Peg(diametre="4.5 mm", length="40 mm"), **SUNK), "diametre"),
        (cut(Bore, x="40 mm", holds="a screw", **SUNK), "holds"),
        (row_of(BORE, count=0, spacing="60 mm"), "count"),
        (row_of(BORE, count=6, spacing="61 mm"), "spacing"),
        (row_of(BORE, count=5, spacing="60 mm", first="61 mm"), "first"),
        (row_of(BORE, count=2, spacing="10 mm", along="up"), "along"),
        (row_of(cut(Bore, face=Face.FAR_END, diameter="4 mm"), count=2, spacing="9 mm"), "cut 1"),
        (row_of("bores", count=2, spacing="9 mm"), "cut 1"),
    ],
)
def test_what_does_not_fit_is_refused_by_its_name(entry: Any, named: str) -> None:
    problems = problems_of(strip(entry))
    assert any(named in problem.parameter for problem in problems)
    assert all(p.given and p.allowed and p.why and p.remedy for p in problems)


@pytest.mark.parametrize("size", ["2 mm", "5 mm"])
def test_the_screw_that_a_refusal_proposes_fits(size: str) -> None:
    (problem,) = problems_of(
        strip(cut(Bore, x="40 mm", holds=Screw(diameter=size, length="40 mm"), **SUNK))
    )
    proposed = problem.remedy.removeprefix("make it ")
    better = Screw(diameter=proposed, length="40 mm")
    assert strip(cut(Bore, x="40 mm", holds=better, **SUNK)).build().fixings


class TestStand:
    """What a stand buys."""

    def test_a_lid_on_cleats_is_screwed(self) -> None:
        """Four slots; 10 + 10 - 3 = 17 mm at most, and 16 is the longest sold."""
        piece = a_stand(lid_fixing=LidFixing.CLEATS).build()
        (screws,) = bought_parts(piece)
        assert (screws.quantity, screws.diameter_mm, screws.length_mm) == (4, 4.0, 16.0)
        assert set(screws.where) == {"left cleat", "right cleat", "lid"}
        assert "washer" in screws.note

    def test_by_the_inch_a_number_8(self) -> None:
        """17 mm is 0.669 in: 5/8 in is sold."""
        piece = a_stand(lid_fixing=LidFixing.CLEATS, shown=inches(64)).build()
        (screws,) = bought_parts(piece)
        assert screws.diameter_mm == pytest.approx(0.164 * 25.4, abs=0.01)
        assert screws.length_mm == pytest.approx(0.625 * 25.4)

    def test_a_maker_s_own_screw(self) -> None:
        own = Cleats(screw=Screw(diameter="3.5 mm", length="17 mm", name="brass screw"))
        (screws,) = bought_parts(a_stand(lid_fixing=LidFixing.CLEATS, cleats=own).build())
        assert (screws.name, screws.length_mm) == ("brass screw", 17.0)
        too_long = Cleats(screw=Screw(diameter="3.5 mm", length="18 mm"))
        stand = a_stand(lid_fixing=LidFixing.CLEATS, cleats=too_long)
        assert parameters_named(stand) == ["cleats.screw.length"]

    def test_no_sold_length_fits_between(self) -> None:
        """Cleat 10 and lid 5: 12 mm at most, so 12; cleat 26, lid 5: 28 at most, 25 too short.

        A screw of 30 mm wants 28 mm of cleat: 3 mm of skin stay over its point.
        """
        thin = a_stand(thin=oak("5 mm"), lid_fixing=LidFixing.CLEATS, cleats=Cleats(stock=THIN))
        assert bought_parts(thin.build())[0].length_mm == 12.0
        thick = a_stand(
            thin=oak("5 mm"), lid_fixing=LidFixing.CLEATS, cleats=Cleats(stock=oak("26 mm"))
        )
        (problem,) = problems_of(thick)
        assert problem.parameter == "cleats.stock"
        assert problem.remedy == "use cleats 28 mm thick, which take a screw 30 mm long"
        better = a_stand(
            thin=oak("5 mm"), lid_fixing=LidFixing.CLEATS, cleats=Cleats(stock=oak("28 mm"))
        )
        assert bought_parts(better.build())[0].length_mm == 30.0

    def test_a_bushing_for_each_opening_with_a_rim(self) -> None:
        piece = a_stand(
            openings=[
                Opening(on="post", size="20 mm", flange="26 mm", from_edge="130 mm"),
                Opening(on="lid", size="25 mm", flange="30 mm", from_edge="60 mm"),
                Opening(on="tiers", size="12 mm", from_edge="40 mm"),
            ]
        ).build()
        assert [(b.name, b.quantity, b.diameter_mm, b.where) for b in bought_parts(piece)] == [
            ("bushing", 1, 20.0, ("post",)),
            ("bushing", 1, 25.0, ("lid",)),
        ]

    def test_ballast_and_hardware(self) -> None:
        pads = Hardware(name="felt pad", quantity=4, on="rails", diameter="15 mm")
        steel = Ballast(mass="1.5 kg", size=("100 mm", "80 mm", "25 mm"))
        piece = a_stand(bottom=THIN, ballast=steel, hardware=[pads]).build()
        pin, weight, felt = bought_parts(piece)
        assert (pin.name, pin.quantity) == ("panel pin", 2)
        assert weight.note == "1.5 kg, no larger than 100 x 80 x 25 mm"
        assert (felt.quantity, felt.diameter_mm, felt.length_mm) == (4, 15.0, None)
        assert len(felt.where) == 5

    @pytest.mark.parametrize(
        ("hardware", "named"),
        [
            (Hardware(on="post"), "hardware 1 name"),
            (Hardware(name="pad", on="attic"), "hardware 1 on"),
            (Hardware(name="pad", on="post", quantity=0), "hardware 1 quantity"),
            (Hardware(name="pad", on="post", length="0 mm"), "hardware 1 length"),
            ("pads", "hardware"),
        ],
    )
    def test_refusals(self, hardware: Any, named: str) -> None:
        given = hardware if isinstance(hardware, str) else [hardware]
        assert parameters_named(a_stand(hardware=given)) == [named]


def test_more_ballast_would_lie_on_the_ballast_that_is_there() -> None:
    """On a bottom 10 thick, a block 30 high ends at 40: there the free inside begins."""
    block = Ballast(mass="1 kg", size=("100 mm", "50 mm", "30 mm"))
    for ballast, floor in ((None, 10.0), (block, 40.0)):
        inside = a_stand(bottom=oak("10 mm"), ballast=ballast).build().intent.inside
        assert inside is not None
        assert inside.low[2] == pytest.approx(floor)
