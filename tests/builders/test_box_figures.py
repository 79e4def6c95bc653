"""The mitred box's sizes, places and volumes against figures worked by hand."""

from __future__ import annotations

import math

import pytest

from furniture import FingerHold
from furniture.pieces import distinct_parts
from furniture.solids.make import volume_of
from furniture.units import Shown, inches, millimetres
from tests.builders.bench import THIN, a_box, box_round, oak, overlapping, part


def test_box_with_a_bottom() -> None:
    """300 x 200 x 80, rails 20, lid and bottom 10; every figure by hand."""
    piece = a_box(bottom=THIN, bottom_gap="1.5 mm", finger_hold=FingerHold.NONE).build()
    for instance, low, high in (
        ("back rail", (0, 180, 0), (300, 200, 80)),
        ("lid", (10.5, 11, 69.5), (289.5, 189, 79.5)),
        ("bottom", (11.5, 11.5, 0), (288.5, 188.5, 10)),
    ):
        assert box_round(piece, instance)[0] == pytest.approx(low)
        assert box_round(piece, instance)[1] == pytest.approx(high)
    # As in the stand, with a second rabbet 10 high: 10 x (260 x 10 + 10^2) = 27 000.
    assert volume_of(part(piece, "front rail")) == pytest.approx(448_000 - 28_350 - 27_000)
    assert volume_of(part(piece, "left side rail")) == pytest.approx(288_000 - 17_850 - 17_000)
    assert volume_of(part(piece, "lid")) == pytest.approx(279 * 178 * 10)
    assert volume_of(part(piece, "bottom")) == pytest.approx(277 * 177 * 10)
    assert not overlapping(piece)


@pytest.mark.parametrize(
    ("shown", "given", "left"),
    [
        (millimetres(), {}, (15.0, 4.0)),
        (inches(64), {}, (5 / 8 * 25.4, 3 / 16 * 25.4)),
        (inches(64), {"rough_length": "20 mm"}, (20.0, 3 / 16 * 25.4)),
    ],
)
def test_blanks_are_left_over_by_round_figures_of_either_unit(
    shown: Shown, given: dict[str, str], left: tuple[float, float]
) -> None:
    rough = part(a_box(shown=shown, **given).build(), "front rail").rough
    assert (rough.length_mm, rough.width_mm) == pytest.approx(left)


def test_front_and_back_rails_are_one_part() -> None:
    """Equal after turning: one part, quantity 2, and so are the sides."""
    quantities = {each.instances: each.quantity for each in distinct_parts(a_box().build())}
    assert quantities[("front rail", "back rail")] == 2
    assert quantities[("left side rail", "right side rail")] == 2


@pytest.mark.parametrize(
    ("hold", "taken"),
    [
        (FingerHold.NOTCH, math.pi * 12**2 / 2 * 10),  # half a round of 24 across, 10 thick
        (FingerHold.BORE, math.pi * 12**2 * 10),
        (FingerHold.NONE, 0.0),
    ],
)
def test_finger_hold(hold: FingerHold, taken: float) -> None:
    """What the finger hold takes from the lid."""
    piece = a_box(finger_hold=hold).build()
    assert volume_of(part(piece, "lid")) == pytest.approx(279 * 178 * 10 - taken)
    assert not overlapping(piece)


def test_bottom_gap_left_out_follows_the_lid() -> None:
    """The bottom moves like the lid, so it gets the same room."""
    piece = a_box(bottom=THIN, lid_gap_across="1.2 mm").build()
    assert box_round(piece, "bottom")[0][:2] == pytest.approx((11.2, 11.2))


def test_rabbet_width_left_out_is_half_the_rail() -> None:
    """20 mm rails: 10 in and 10 left."""
    piece = a_box(rabbet_width=None).build()
    assert box_round(piece, "lid")[0][0] == pytest.approx(10 + 0.5)


def test_rails_of_nearly_one_thickness_still_close() -> None:
    """Rails 20.0 and 19.7 make a box without overlaps, outsides flush at all corners."""
    piece = a_box(own_stock={"left side rail": oak("19.7 mm")}).build()
    assert box_round(piece, "left side rail")[0][0] == pytest.approx(0.0)
    assert not overlapping(piece)
