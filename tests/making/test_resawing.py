"""Wood far thicker than its part: no plane takes by hand what a saw takes off in one piece."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from exporters.work.words import WorkWords
from furniture import MeasuredBoard, MitredBox, Splines, Stock
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.making.settings import Parallel, Slice, Surface
from furniture.making.why import Why
from furniture.shop.boards import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.making.laws import broken_laws
from tests.making.made import Amiss, Made, amiss, is_found
from tests.making.targets import SAME_MM3
from tests.making.test_corners import OAK, THIN
from tests.making.test_from_boards import made_from

THICK_BOARD, SHARED = "a board of its own", "a board that rails come off too"


@cache
def box(wood: str) -> Made:
    """A box with splines of 3 mm that come off wood of 19 or 20 mm."""
    splines = Stock(name="splines", species="white oak", thickness="3 mm")
    piece = MitredBox(
        name="Box", rails=OAK, lid=THIN, width="320 mm", depth="240 mm", height="90 mm",
        corner_parts=Splines(stock=splines),
    ).build()  # fmt: skip
    boards = [
        MeasuredBoard(name="A", stock="oak", length="1800 mm", widths="240 mm", thickness="19 mm"),
        MeasuredBoard(name="B", stock="thin oak", length="700 mm", widths="260 mm",
                      thickness="10 mm"),
    ]  # fmt: skip
    if wood == THICK_BOARD:
        boards.append(
            MeasuredBoard(name="C", stock="splines", length="600 mm", widths="120 mm",
                          thickness="20 mm")
        )  # fmt: skip
    else:
        boards[0] = replace(boards[0], stock="white oak", thickness="19.4 mm")
    outcome = outcome_of(cutting_job(piece, boards))
    assert outcome.unplaced == ()
    return made_from(piece, outcome)


@cache
def found(wood: str) -> Amiss:
    """What is amiss in its making."""
    return amiss(box(wood))


def of_kind(making: Making, kind: Kind) -> list[Operation]:
    """The operations of a kind, in order."""
    return [each for each in making.operations if each.kind is kind]


@pytest.mark.parametrize("wood", [THICK_BOARD, SHARED])
def test_no_hand_plane_takes_what_a_saw_could(wood: str) -> None:
    """By hand: 20 less 1.5 off its face is 18.5; sawn at 3 + 2, and 2 are left to plane."""
    making = box(wood).making
    sawn = of_kind(making, Kind.RESAW)
    assert sawn
    for each in sawn:
        assert isinstance(each.setting, Slice)
        assert each.setting.at_mm == pytest.approx(5.0)
        (plane,) = [one for one in of_kind(making, Kind.PLANE) if one.takes == each.takes]
        assert isinstance(plane.setting, Parallel)
        assert plane.in_hand is not None
        assert plane.in_hand.thickness_mm - plane.setting.at_mm == pytest.approx(2.0)
        assert [one.why for one in plane.after if one.key == each.key] == [Why.RESAWN_FIRST]
    for each in of_kind(making, Kind.JOINT_FACE):
        assert isinstance(each.setting, Surface)
        assert each.setting.takes_mm <= 1.5


@pytest.mark.parametrize("wood", [THICK_BOARD, SHARED])
def test_parts_of_resawn_wood_come_out_in_order(wood: str) -> None:
    made = box(wood)
    assert broken_laws(made.making, made.piece) == []
    assert max(found(wood).parts.values(), default=0.0) < SAME_MM3
    assert sorted(map(str, found(wood).faults)) == []


def test_wood_that_gives_parts_of_two_thicknesses_is_planed_on_a_face_that_is_true() -> None:
    """The plane once came before the face that it bears on: rails of 19 mm came out 17.5 thick."""
    lid = Stock(name="lid", species="white oak", thickness="12 mm")
    piece = MitredBox(
        name="Box", rails=OAK, lid=lid, width="320 mm", depth="240 mm", height="90 mm"
    ).build()
    board = MeasuredBoard(
        name="A", stock="white oak", length="1800 mm", widths="240 mm", thickness="22 mm"
    )
    made = made_from(piece, outcome_of(cutting_job(piece, [board])))
    known = amiss(made)
    assert (known.parts, sorted(map(str, known.faults))) == ({}, [])
    for plane in of_kind(made.making, Kind.PLANE):
        assert [one.why for one in plane.after].count(Why.FLAT_FIRST) == 1


@pytest.mark.parametrize("wood", [THICK_BOARD, SHARED])
def test_a_resaw_line_below_the_finished_thickness_is_found(wood: str) -> None:
    made = box(wood)
    first = of_kind(made.making, Kind.RESAW)[0]
    assert isinstance(first.setting, Slice)
    thin = replace(first, setting=replace(first.setting, at_mm=2.9))
    faulty = replace(
        made.making,
        operations=tuple(thin if each is first else each for each in made.making.operations),
    )
    assert is_found(made, faulty, found(wood))


def test_it_is_told_with_the_line_to_saw_along() -> None:
    made = box(THICK_BOARD)
    (sawn,) = of_kind(made.making, Kind.RESAW)
    said = WorkWords(made.piece, made.making).line_of(sawn)
    assert said.startswith("board C: resaw: a line all round 5 off the lower face")
