"""What fasteners bear and where they stand, against figures worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture.joints import ButtJoint, Driven, HoldBy, RabbetJoint
from furniture.joints.holding import bearing_mpa, pin_pull_n, screw_pull_n, side_n
from furniture.parts.cuts import Along
from furniture.structure.links import sideways_of
from furniture.timber.species import find_species
from tests.joints.pairs import X, Y, Z
from tests.joints.proofs import board, pair

PIN = Driven(by=HoldBy.PIN, name="panel pin", diameter_mm=1.4, incoming_mm=6.0, into_mm=14.0)


def test_a_pin_in_oak() -> None:
    """G 0.68: 54.12 x 0.68^2.5 x 1.4 x 14 / 6 = 54.12 x 0.38130 x 19.6 / 6 = 67.41 N; half of it
    in end grain."""
    assert pin_pull_n(0.68, 1.4, 14.0, end_grain=False) == pytest.approx(67.41, abs=0.01)
    assert pin_pull_n(0.68, 1.4, 14.0, end_grain=True) == pytest.approx(33.71, abs=0.01)


def test_a_screw_in_oak_holds_in_side_grain_only() -> None:
    """108.25 x 0.68^2 x 4 x 10 / 5 = 108.25 x 0.4624 x 8 = 400.4 N."""
    assert screw_pull_n(0.68, 4.0, 10.0, end_grain=False) == pytest.approx(400.4, abs=0.1)
    assert screw_pull_n(0.68, 4.0, 10.0, end_grain=True) == pytest.approx(100.1, abs=0.1)


def test_across_it_the_end_that_gives_first_counts() -> None:
    """A dowel of 8 in oak: 0.082 x 0.92 x 680 = 51.30 MPa; on 8 x 15 mm, over 2.5 and 2.7: 912 N.
    In a lighter wood at the other end, deeper: 0.082 x 0.92 x 400 x 8 x 20 / 6.75 = 715 N."""
    assert bearing_mpa(0.68, 8.0, is_bored=True) == pytest.approx(51.30, abs=0.01)
    both = side_n((0.68, 0.68), (20.0, 15.0), 8.0, HoldBy.DOWEL)
    assert both == pytest.approx(51.2992 * 8 * 15 / 6.75)
    light = side_n((0.68, 0.40), (20.0, 20.0), 8.0, HoldBy.DOWEL)
    assert light == pytest.approx(715.3, abs=0.1)


def test_pins_stand_in_the_middle_of_what_they_go_through() -> None:
    """A bottom 100 x 80 x 6 in a rabbet 5 wide at the rail's foot: up through the floor at 2.5 from
    the bottom's end, in the middle of the rail's grain, 14 into it."""
    rail = board("rail", (200.0, 60.0, 18.0), (-50.0, 18.0, 0.0), X, Z)
    bottom = board("bottom", (100.0, 80.0, 6.0), (0.0, 13.0, 0.0), X, Y)
    joint = RabbetJoint(into="rail", incoming="bottom", gap_mm=0.5, driven=(PIN,))
    (joining,) = pair(joint, rail, bottom).joinings
    (pin,) = joining.fasteners
    assert pin.at == pytest.approx((50.0, 15.5, 6.0))
    assert pin.axis == pytest.approx((0.0, 0.0, 1.0))
    assert (pin.by, pin.length_mm, pin.name) == (HoldBy.PIN, 20.0, "panel pin")
    assert pin.pull_n == pytest.approx(67.41, abs=0.01)
    assert pin.side_n is not None
    assert "Wood Handbook" in pin.source


def test_a_screw_in_a_slot_holds_along_its_axis_and_across_the_slot() -> None:
    above = board("above", (300.0, 200.0, 15.0), (0.0, 0.0, 20.0), X, Y)
    strip = board("strip", (200.0, 20.0, 20.0), (50.0, 90.0, 0.0), X, Y)
    screw = Driven(by=HoldBy.SCREW, name="screw", diameter_mm=4.0, incoming_mm=20.0, into_mm=10.0,
                   slides=Along.GRAIN, off_middle_mm=60.0)  # fmt: skip
    joint = ButtJoint(into="above", incoming="strip", is_glued=False, driven=(screw,))
    (joining,) = pair(joint, above, strip).joinings
    (held,) = joining.fasteners
    assert (held.side_n, joining.glue_area_mm2) == (0.0, 0.0)
    assert held.slot is not None
    plain = replace(joint, driven=(replace(screw, slides=None),))
    (fast,) = pair(plain, above, strip).joinings[0].fasteners
    assert (held.slot.along, held.slot.across_n) == (X, fast.side_n)
    assert sideways_of(held) == ((X, 0.0), (Y, fast.side_n))
    assert held.pull_n == pytest.approx(400.4, abs=0.1)
    assert math.dist(held.at, (150.0, 100.0, 20.0)) == pytest.approx(60.0)


def test_a_sheet_holds_pins_as_a_light_wood_and_half_of_it_between_its_layers() -> None:
    """Plywood as wood of 0.40: 54.12 x 0.40^2.5 x 1.4 x 14 / 6 = 17.89 N in its face."""
    ply = find_species("birch plywood 18 mm")
    assert ply.holding_gravity == 0.4
    sheet = board("sheet", (300.0, 200.0, 18.0), (0.0, 0.0, 0.0), X, Y)
    sheet = replace(sheet, part=replace(sheet.part, timber=replace(sheet.part.timber, species=ply)))
    above = board("above", (200.0, 20.0, 6.0), (50.0, 90.0, 18.0), X, Y)
    beside = board("beside", (300.0, 18.0, 6.0), (0.0, 0.0, 0.0), X, Z)
    for other, share in ((above, 1.0), (beside, 0.5)):
        joint = ButtJoint(into="sheet", incoming=other.instance, is_glued=False, driven=(PIN,))
        (joining,) = pair(joint, sheet, other).joinings
        (pin,) = joining.fasteners
        assert pin.pull_n == pytest.approx(17.89 * share, abs=0.01), other.instance
