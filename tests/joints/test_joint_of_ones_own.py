"""A joint added in one file is understood by every reader, without a line changed elsewhere."""

from __future__ import annotations

import pytest

from exporters.sheets.annotate import annotations_of
from furniture import At, CentredOn, Composition, FlushWith, PlacedPart, Stock, Way, join
from furniture.parts.cuts import Notch
from furniture.pieces import Piece, placed_named
from furniture.units import millimetres
from tests.joints.edge_lap import EdgeLapJoint
from tests.joints.proofs import prove, volume_of

OAK = Stock(name="oak", species="white oak", thickness="10 mm", moisture="9 %")


def tray() -> Piece:
    """Two dividers of a tray, 200 and 120 long and 60 high, crossing in the middle."""
    long = PlacedPart(
        name="long divider", stock=OAK, length="200 mm", width="60 mm", face_side=Way.FRONT
    )
    short = PlacedPart(
        name="short divider",
        stock=OAK,
        length="120 mm",
        width="60 mm",
        face_side=Way.RIGHT,
        grain=Way.BACK,
        places=[
            FlushWith(of="long divider", side=Way.DOWN),
            CentredOn(of="long divider", along=Way.BACK),
            At(distance="95 mm", of="long divider", side=Way.LEFT),
        ],
    )
    lap = join(EdgeLapJoint, "short divider", into="long divider", fit="0.2 mm")
    return Composition(name="Tray", parts=[long, short], joints=[lap]).build()


def test_it_fits_and_goes_together() -> None:
    """Each loses 30 x (10 + 0.2) x 10 = 3 060 mm3."""
    piece = tray()
    prove(piece)
    assert volume_of(piece, "long divider") == pytest.approx(200 * 60 * 10 - 3060)
    assert volume_of(piece, "short divider") == pytest.approx(120 * 60 * 10 - 3060)


def test_its_cuts_are_drawn() -> None:
    part = placed_named(tray(), "long divider").part
    (said,) = annotations_of(part, millimetres())
    assert said.spec == "10.2 long x 30 deep"


def test_its_notch_lies_where_the_board_was_placed() -> None:
    notch = placed_named(tray(), "long divider").part.cuts[0]
    assert isinstance(notch, Notch)
    assert notch.start_mm == pytest.approx(95.0)
