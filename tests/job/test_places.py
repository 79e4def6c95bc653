"""Where a new part lies in an old one whose walls slope: as far as the slope leaves wood."""

from __future__ import annotations

import pytest

from furniture.job.fits import Work, lies_in
from furniture.job.old import OldPart, Wood
from furniture.parts.blank import Blank
from furniture.parts.cuts import Mitre
from furniture.parts.faces import Face

BLANK = Blank(length_mm=320.0, width_mm=84.0, thickness_mm=20.0)
RAIL = OldPart(
    name="rail",
    blank=BLANK,
    cuts=tuple(
        Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
        for end in (Face.NAMED_END, Face.FAR_END)
    ),
    wood=Wood(stock="oak", species="white oak"),
)


@pytest.mark.parametrize("thinner_mm", [0.0, 2.0, 7.5])
def test_a_thinner_square_part_reaches_into_both_mitres(thinner_mm: float) -> None:
    """At 45 degrees each end leaves as much more as the part is thinner: by hand."""
    longest = BLANK.length_mm - 2 * (BLANK.thickness_mm - thinner_mm)
    for more, serves in ((0.0, True), (-1.3, True), (0.2, False)):
        blank = Blank(
            length_mm=longest + more, width_mm=60.0, thickness_mm=BLANK.thickness_mm - thinner_mm
        )
        assert lies_in(RAIL, Work(blank=blank, cuts=())) is serves


def test_a_thinner_mitred_part_lies_where_the_slopes_fall_into_one() -> None:
    """Planed by 3 at the inside it keeps its long points; at the outside it loses 3 at each end."""
    for length, serves in ((320.0, True), (314.0, True), (320.4, False)):
        blank = Blank(length_mm=length, width_mm=84.0, thickness_mm=17.0)
        assert lies_in(RAIL, Work(blank=blank, cuts=RAIL.cuts)) is serves
