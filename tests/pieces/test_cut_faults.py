"""Cuts that each fit their part and together cut it through are refused, both by name."""

from __future__ import annotations

import re

import pytest

from furniture.errors import DesignError
from furniture.parts.cuts import Cut, Dado, Notch, Profile, ProfileKind
from furniture.parts.faces import Arris, Face
from furniture.pieces import Piece, compose
from furniture.solids.make import solid_of
from furniture.units import Shown, inches, millimetres
from tests.joints.proofs import board
from tests.parts.wood_cases import dado, notch


def _post(*cuts: Cut, shown: Shown | None = None) -> Piece:
    post = board(
        "post", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0), cuts
    )
    return compose(name="post", placed=[post], joints=[], shown=shown)


def test_dados_back_to_back_are_refused_with_what_would_do() -> None:
    """12 and 9 of 20 mm overlap by 1; 2 less of either leave 1 mm."""
    with pytest.raises(DesignError) as told:
        _post(dado(depth=12.0), dado(Face.BACK_SIDE, 105.0, depth=9.0))
    (problem,) = told.value.problems
    assert problem.parameter == "post: dado 1 and dado 2"
    assert "no wood is left" in problem.why
    assert problem.remedy == "make one of them 2 mm shallower, or move it clear of the other"
    shallower = _post(dado(depth=10.0), dado(Face.BACK_SIDE, 105.0, depth=9.0))
    assert solid_of(shallower.placed[0].part).isValid()


def test_the_remedy_is_told_in_the_units_of_the_piece() -> None:
    with pytest.raises(DesignError) as told:
        _post(dado(depth=10.0), dado(Face.BACK_SIDE, 105.0, depth=10.0), shown=inches())
    assert re.search(r"make one of them \d+/\d+ in shallower", told.value.problems[0].remedy)


def test_a_profile_on_an_edge_that_a_notch_takes_is_refused() -> None:
    """A notch from the edge at the end of the blank takes the corner's line; one beside it not."""
    corner = Arris(Face.BACK_EDGE, Face.FAR_END)
    profile = Profile(edge=corner, profile_kind=ProfileKind.ROUND_OVER, radius_mm=3.0)
    with pytest.raises(DesignError) as told:
        _post(notch(Face.BACK_EDGE, 280.0, 20.0, 10.0), profile)
    (problem,) = told.value.problems
    assert problem.given == "an edge that other cuts take away"
    assert _post(notch(Face.BACK_EDGE, 270.0, 20.0, 10.0), profile).placed


def test_notches_that_meet_are_named_once() -> None:
    with pytest.raises(DesignError) as told:
        _post(notch(Face.FACE_EDGE, 100.0, 20.0, 35.0), notch(Face.BACK_EDGE, 90.0, 40.0, 30.0))
    (problem,) = told.value.problems
    assert problem.parameter == "post: notch 1 and notch 2"


def test_a_cut_that_does_not_fit_alone_is_told_as_that_alone() -> None:
    deep = Notch(edge=Face.FACE_EDGE, start_mm=100.0, length_mm=20.0, depth_mm=60.0)
    with pytest.raises(DesignError) as told:
        _post(deep, notch(Face.BACK_EDGE, 90.0, 40.0, 30.0), shown=millimetres())
    (problem,) = told.value.problems
    assert "notch, depth" in problem.parameter


def test_dados_that_only_come_near_are_let_be() -> None:
    """Wood as thin as 0.5 mm is the checks' to fail; where they meet in a line there is none."""
    piece = _post(dado(depth=10.0), dado(Face.BACK_SIDE, 113.5, depth=10.0))
    assert [type(cut) for cut in piece.placed[0].part.cuts] == [Dado, Dado]
    with pytest.raises(DesignError) as told:
        _post(dado(depth=10.0), dado(Face.BACK_SIDE, 113.0, depth=10.0))
    assert "no wood is left" in told.value.problems[0].why
