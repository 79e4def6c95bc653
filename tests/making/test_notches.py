"""Notches with round corners: bored while the wood is whole, then sawn down to the bores."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from exporters.work import WorkWords
from furniture import Composition, Face, PlacedPart, Stock, cut
from furniture.making.operations import Kind, Operation
from furniture.making.settings import Bored, CutterKind, Notched
from furniture.making.why import Why
from furniture.parts.cuts import Notch
from tests.making.hand_made import HandMade
from tests.making.made import Made, amiss, is_found, made

OAK = Stock(name="oak", species="white oak", thickness="13 mm", moisture="9 %")
CLOSED, HALF_ROUND, OPEN, SQUARE, SHALLOW = range(5)
NOTCHES = (
    {"edge": Face.BACK_EDGE, "start": "60 mm", "length": "40 mm", "depth": "20 mm",
     "inner_radius": "4 mm"},
    {"edge": Face.FAR_END, "start": "50 mm", "length": "12 mm", "depth": "30 mm",
     "inner_radius": "6 mm"},
    {"edge": Face.FACE_EDGE, "start": "0 mm", "length": "25 mm", "depth": "15 mm",
     "inner_radius": "5 mm"},
    {"edge": Face.FACE_EDGE, "start": "340 mm", "length": "60 mm", "depth": "15 mm"},
    {"edge": Face.FACE_EDGE, "start": "150 mm", "length": "25 mm", "depth": "12.5 mm",
     "inner_radius": "12.5 mm"},
)  # fmt: skip
"""Two corners, one for both, one in a corner of the part, none, and one that no drill can start."""


@cache
def board() -> Made:
    """A shelf with all of them."""
    cuts = [cut(Notch, **each) for each in NOTCHES]
    shelf = PlacedPart(name="shelf", stock=OAK, length="400 mm", width="120 mm", cuts=cuts)
    return made(Composition(name="Notched", parts=[shelf]).build())


def _of(number: int) -> tuple[list[Operation], Operation]:
    """The bores of a notch, and what saws it."""
    (index,) = (
        index
        for index, each in enumerate(board().piece.placed[0].part.cuts)
        if isinstance(each, Notch)
        and (each.start_mm, each.edge)
        == (float(NOTCHES[number]["start"].split()[0]), NOTCHES[number]["edge"])
    )
    every = board().making.operations
    bores = [each for each in every if index in {one.index for one in each.begins}]
    (sawn,) = (each for each in every if index in {one.index for one in each.cuts})
    return bores, sawn


def test_nothing_is_amiss() -> None:
    found = amiss(board())
    assert (found.parts, sorted(map(str, found.faults))) == ({}, [])


@pytest.mark.parametrize(
    ("number", "places", "cutter"),
    [
        (CLOSED, {(64.0, 16.0), (96.0, 16.0)}, CutterKind.SAW_AND_CHISEL),
        (HALF_ROUND, {(24.0, 56.0)}, CutterKind.SAW_AND_CHISEL),
        (OPEN, {(20.0, 10.0)}, CutterKind.HAND_SAW),
        (SQUARE, set(), CutterKind.HAND_SAW),
        (SHALLOW, set(), CutterKind.SAW_AND_FILE),
    ],
)
def test_each_corner_in_the_wood_is_bored_first_where_a_point_bears(
    number: int, places: set[tuple[float, float]], cutter: CutterKind
) -> None:
    """By hand: the middle lies its radius inside either side: 60 + 4, 100 - 4 and 20 - 4."""
    bores, sawn = _of(number)
    assert {each.setting.at_mm for each in bores if isinstance(each.setting, Bored)} == places
    assert sawn.kind is Kind.NOTCH
    assert sawn.rig is not None
    assert sawn.rig.cutter.kind is cutter
    assert {each.key for each in bores} == {
        one.key for one in sawn.after if one.why is Why.DEPTH_FIRST
    }


def test_a_radius_is_said_and_how_it_comes_about() -> None:
    words = WorkWords(board().piece, board().making)
    assert "down to its hole, which leaves R6" in words.line_of(_of(HALF_ROUND)[1])
    assert "down to its holes, which leave R4" in words.line_of(_of(CLOSED)[1])
    assert "R12.5 inside" in words.line_of(_of(SHALLOW)[1])
    assert " R" not in words.line_of(_of(SQUARE)[1])


def test_a_bore_out_of_place_or_after_its_notch_is_found() -> None:
    whole = board()
    known = amiss(whole)
    (bore,), sawn = _of(HALF_ROUND)
    assert isinstance(bore.setting, Bored)
    assert isinstance(sawn.setting, Notched)
    at = bore.setting.at_mm
    moved = replace(bore, setting=replace(bore.setting, at_mm=(at[0], at[1] + 1.0)))
    order = list(whole.making.operations)
    planted = [moved if each is bore else each for each in order]
    assert is_found(whole, HandMade(whole.making.workpieces, tuple(planted)), known)
    order.remove(bore)
    order.insert(order.index(sawn) + 1, bore)
    assert is_found(whole, HandMade(whole.making.workpieces, tuple(order)), known)
