"""What takes a finish, from the true solids, against two boards worked by hand."""

from __future__ import annotations

import pytest

from furniture import Against, ButtJoint, CentredOn, Composition, PlacedPart, Stock, Way, join
from furniture.making.finish_area import finished_area_mm2
from furniture.solids.measure import weigh

PINE = Stock(name="pine", species="eastern white pine", thickness="20 mm")


def two_boards(*, glued):
    """A board of 200 by 100, and one of 100 by 60 that lies against its back."""
    return Composition(
        name="two boards",
        parts=[
            PlacedPart(
                name="front", stock=PINE, length="200 mm", width="100 mm", face_side=Way.FRONT
            ),
            PlacedPart(
                name="behind", stock=PINE, length="100 mm", width="60 mm", face_side=Way.FRONT,
                places=[CentredOn(), CentredOn(along=Way.DOWN), Against(side=Way.BACK)],
            ),
        ],
        joints=[join(ButtJoint, "behind", into="front")] if glued else [],
    ).build()  # fmt: skip


def area_mm2(length, width, thick):
    return 2 * (length * width + length * thick + width * thick)


@pytest.mark.parametrize("glued", [False, True])
def test_what_glue_joins_takes_no_finish_on_either_part(glued):
    piece = two_boards(glued=glued)
    whole = area_mm2(200, 100, 20) + area_mm2(100, 60, 20)
    hidden = 2 * 100 * 60 if glued else 0
    assert finished_area_mm2(piece, weigh(piece)) == pytest.approx(whole - hidden)
