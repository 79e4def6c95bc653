"""Splines and keys on all corners by one word: they follow from the wood, and hold as printed."""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture import (
    BottomFixing,
    DesignError,
    Keys,
    LidFixing,
    MitredBox,
    Spline,
    Splines,
    Stock,
    inches,
)
from furniture.pieces import Piece, extents_of
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts
from tests.builders.bench import a_box, a_stand, oak, part, problems_of, proved
from tests.builders.test_sliding_lid import sliding
from tests.fresh import law

ALL = [Splines(stock=oak("3 mm")), Keys(stock=oak("3 mm")), Keys(stock=oak("3 mm"), count=1)]


def names(piece: Piece, noun: str) -> list[str]:
    """The instances called so."""
    return [each.instance for each in piece.placed if each.instance.startswith(noun)]


@pytest.mark.some(few=4)
@pytest.mark.parametrize("wanted", ALL, ids=["splines", "keys", "one key"])
@pytest.mark.parametrize(
    "box",
    [
        lambda **more: a_box(**more),
        lambda **more: a_box(bottom=oak("8 mm"), **more),
        lambda **more: a_box(lid_fixing=LidFixing.GLUED, shown=inches(64), **more),
        lambda **more: sliding(**more),
    ],
    ids=["lid", "bottom", "inches", "sliding"],
)
def test_every_corner_has_them_and_they_clear_lid_and_bottom(box: Any, wanted: Any) -> None:
    """Four corners, each part crossed by two joints, and nothing of them overlaps."""
    piece = box(corner_parts=wanted).build()
    count = getattr(wanted, "count", 1)
    assert len(names(piece, "spline") + names(piece, "key")) == 4 * count
    ends = Counter(each.incoming for each in piece.joinings if each.incoming in names(piece, "key"))
    assert set(ends.values()) <= {2}
    proved(piece)


def test_keys_by_hand() -> None:
    """Rails of 20 with a lid of 10 in its rabbet: 69.5 of 80 are free below it.

    Two keys of 3 leave (69.5 - 6) / 3 = 21.2 between; 0.65 of a mitre of 20 x 1.4142 is 18.4.
    """
    piece = a_box(corner_parts=Keys(stock=oak("3 mm"))).build()
    slots = [cut for cut in part(piece, "front rail").cuts if cut.kind == "key slot"]
    starts = sorted({getattr(cut, "start_mm") for cut in slots})  # noqa: B009
    assert starts == pytest.approx([21.2, 45.3], abs=1.0)
    (depth,) = {getattr(cut, "depth_mm") for cut in slots}  # noqa: B009
    assert depth == pytest.approx(18.4, abs=1.0)
    assert depth / math.sqrt(2) < 20


def proposals(box: MitredBox) -> dict[str, str]:
    """The figure that each problem of the first corner part says to write."""
    found = {}
    for problem in problems_of(box):
        stated = re.match(r"write '([^']+)'", problem.remedy)
        assert stated, problem
        found[problem.parameter.rpartition(" ")[2]] = stated[1]
    return found


@pytest.mark.parametrize("shown", [inches(64), inches(32)])
def test_a_lone_spline_is_proposed_figures_that_go_together(shown: Any) -> None:
    """Half-inch rails with a bottom: all that is proposed at once builds, clear of the bottom."""
    thin = {"species": "white oak", "moisture": "8 %"}
    box: dict[str, Any] = {
        "rails": Stock(name="rails", thickness="1/2 in", **thin),
        "lid": Stock(name="lid", thickness="1/4 in", **thin),
        "bottom": Stock(name="bottom", thickness="1/4 in", **thin),
        "bottom_gap": "1/16 in",
        "width": "9 1/2 in", "depth": "6 1/4 in", "height": "4 in", "shown": shown,
        "lid_gap_across": "1/16 in",
    }  # fmt: skip
    spline = {
        "stock": Stock(name="spline", thickness="1/8 in", **thin),
        "between": ("front rail", "left side rail"),
    }
    figures = proposals(MitredBox(**box, corner_parts=[Spline(**spline)]))
    assert set(figures) == {"into_each", "from_long_point", "width"}
    piece = MitredBox(**box, corner_parts=[Spline(**spline, **figures)]).build()
    assert part(piece, "spline").blank.length_mm / 2 < 12.7
    for proof in (interferences, untrue_contacts, wasted_cuts, clashing_joints):
        assert proof(piece) == ()


REFUSED: list[tuple[Any, str, str]] = [
    (Keys(stock=oak("4 mm"), count=8), "count", "make it 7"),
    (Keys(stock=oak("3 mm"), count=0), "count", "make it 1"),
    (Keys(stock=oak("3 mm"), count="two"), "count", "make it 2"),
    (Keys(stock=oak("70 mm")), "stock thickness", "make it 59.5 mm"),
    (Splines(stock=oak("8 mm")), "stock thickness", "make it 6.6 mm"),
    (Splines(), "stock", "write"),
    (Splines(stock=oak("3 mm"), fit="loose"), "fit", "write"),
]


@pytest.mark.parametrize("given", REFUSED)
def test_what_has_no_room_is_refused_once_for_all_corners(given: tuple[Any, str, str]) -> None:
    """Not four times, and with what would do."""
    wanted, parameter, remedy = given
    (problem,) = problems_of(a_box(corner_parts=wanted))
    assert problem.parameter.replace("corner part 1 ", "").startswith(parameter)
    assert problem.remedy.startswith(remedy)


def test_a_low_box_has_no_room_for_splines_but_for_a_key() -> None:
    """By hand: 24 less a lid of 10 and 0.5 leaves 13.5, less 5.5 at either end 2.5 for a spline."""
    (problem,) = problems_of(a_box(height="24 mm", corner_parts=Splines(stock=oak("3 mm"))))
    assert problem.remedy.startswith("write Keys(stock=...)")
    proved(a_box(height="24 mm", corner_parts=Keys(stock=oak("3 mm"), count=1)).build())


def test_a_piece_without_mitres_has_no_corners() -> None:
    """A stand takes none, by the name of the parameter."""
    assert "corner_parts" in [p.parameter for p in problems_of(a_stand(corner_parts=ALL))]


@law(few=6, full=120)
@given(
    st.integers(80, 240), st.integers(45, 150), st.integers(40, 120), st.booleans(),
    st.one_of(st.just(0), st.integers(1, 4)), st.integers(20, 45),
)  # fmt: skip
def test_whatever_the_box_they_hold_or_are_refused(
    rail: int, height: int, lid: int, has_bottom: bool, count: int, key: int
) -> None:
    """Figures in tenths of a millimetre; 0 keys is a spline."""
    stock = oak(f"{key / 10} mm")
    box = a_box(
        rails=oak(f"{rail / 10 + 4} mm"), rabbet_width=None, lid=oak(f"{lid / 10} mm"),
        bottom=oak("6 mm") if has_bottom else None, height=f"{height} mm",
        bottom_gap="0.8 mm", bottom_fixing=BottomFixing.LOOSE, lid_gap_across="0.8 mm",
        corner_parts=Keys(stock=stock, count=count) if count else Splines(stock=stock),
    )  # fmt: skip
    try:
        piece = box.build()
    except DesignError:
        problems = problems_of(box)
        assert all(each.given and each.allowed and each.remedy for each in problems)
        return
    for proof in (interferences, untrue_contacts, wasted_cuts, clashing_joints):
        assert proof(piece) == ()


def test_keys_do_not_stand_out_of_the_box() -> None:
    """The overall size is that of the rails: 300 x 200 x 80."""
    low, high = extents_of(a_box(corner_parts=Keys(stock=oak("3 mm"))).build())
    assert [high[axis] - low[axis] for axis in range(3)] == pytest.approx([300, 200, 80])


@pytest.mark.parametrize(
    ("from_long_point", "start", "width", "told"),
    [
        ("17 mm", "0 mm", "40 mm", ("start", "6.5 mm")),
        ("20 mm", "4 mm", "40 mm", ("start", "6.5 mm")),
        ("17 mm", "8 mm", "66 mm", ("width", "61 mm")),
        ("17 mm", "79 mm", "3 mm", ("start", "66 mm")),
        ("8 mm", "0 mm", "40 mm", None),
    ],
)
def test_a_spline_stays_out_of_the_rabbets_and_is_told_by_how_much(
    from_long_point: str, start: str, width: str, told: tuple[str, str] | None
) -> None:
    """Bottom 6 mm and lid 10.2 mm lie in rabbets; nearer to the outer face nothing is taken."""
    spline = Spline(
        stock=oak("3 mm"), between=("front rail", "left side rail"), into_each="4 mm",
        from_long_point=from_long_point, start=start, width=width,
    )  # fmt: skip
    box = a_box(bottom=oak("6 mm"), corner_parts=[spline])
    if told is None:
        assert interferences(box.build()) == ()
        return
    (problem,) = problems_of(box)
    assert problem.parameter == f"corner part 1 (spline) {told[0]}"
    assert problem.remedy == f"make it {told[1]}"
    mended = a_box(bottom=oak("6 mm"), corner_parts=[replace(spline, **{told[0]: told[1]})])
    assert interferences(mended.build()) == ()
