"""Splines and keys across mitres, tilted and flat: real parts in grooves and slots that fit."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.errors import DesignError
from furniture.joints import (
    FlatMitreJoint,
    KeyJoint,
    MitreJoint,
    SplineJoint,
    key_across,
    spline_across,
)
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import add, scaled
from furniture.pieces import Piece, compose
from tests.fresh import law
from tests.joints.pairs import LEFTWARDS, X, Y, Z, mm
from tests.joints.proofs import board, prove, timber, volume_of

Mitred = MitreJoint | FlatMitreJoint


def box_corner(turn_deg: float = 90.0) -> tuple[Mitred, Placed, Placed]:
    """Two rails 80 high and 18 thick, face sides out: 300 and 200 long."""
    a = math.radians(turn_deg)
    outward = (math.sin(a), -math.cos(a), 0.0)
    front = board("front", (300.0, 80.0, 18.0), (0.0, 18.0, 0.0), X, Z)
    origin = add((300.0, 0.0, 0.0), scaled(outward, -18.0))
    side = board("side", (200.0, 80.0, 18.0), origin, (math.cos(a), math.sin(a), 0.0), Z)
    return MitreJoint(into="front", incoming="side"), front, side


def frame_corner() -> tuple[Mitred, Placed, Placed]:
    """Two rails 40 wide and 18 thick, lying flat: 300 and 200 long."""
    bottom = board("bottom", (300.0, 40.0, 18.0), (0.0, 0.0, 0.0), X, Y)
    stile = board("stile", (200.0, 40.0, 18.0), (300.0, 0.0, 0.0), Y, LEFTWARDS)
    return FlatMitreJoint(into="bottom", incoming="stile"), bottom, stile


def mitred(corner: tuple[Mitred, Placed, Placed]) -> Placed:
    """The first rail with its mitre cut."""
    joint, first, second = corner
    cuts = joint.work(first, second).into_cuts
    return replace(first, part=replace(first.part, cuts=cuts))


def whole(
    corner: tuple[Mitred, Placed, Placed], loose: Placed, kind: type[SplineJoint] | type[KeyJoint]
) -> Piece:
    joint, first, second = corner
    names = (first.instance, second.instance)
    return compose(
        name="corner",
        placed=[first, second, loose],
        joints=[joint, *(kind(into=name, incoming=loose.instance) for name in names)],
    )


def test_a_spline_through_a_box_corner() -> None:
    """Mitred rail 432 000 - 12 960; groove 80 x (4 + 0.11) x (6 + 0.5) = 2 137.2."""
    spline = spline_across(
        mitred(box_corner()), timber(4.0), instance="spline", end=Face.FAR_END,
        into_each_mm=6.0, from_long_point_mm=14.0, start_mm=0.0, width_mm=80.0,
    )  # fmt: skip
    piece = whole(box_corner(), spline, SplineJoint)
    prove(piece)
    assert volume_of(piece, "front") == pytest.approx(432000 - 12960 - 2137.2)
    assert volume_of(piece, "side") == pytest.approx(288000 - 12960 - 2137.2)
    assert volume_of(piece, "spline") == pytest.approx(12 * 80 * 4)


def test_a_stopped_spline_in_a_frame() -> None:
    """Groove (28 + 2 x 0.5) x 4.11 x 8.5 = 1 013.115 in each rail of the frame."""
    spline = spline_across(
        mitred(frame_corner()), timber(4.0), instance="spline", end=Face.FAR_END,
        into_each_mm=8.0, from_long_point_mm=16.0, start_mm=7.0, width_mm=28.0,
    )  # fmt: skip
    piece = whole(frame_corner(), spline, SplineJoint)
    prove(piece)
    assert volume_of(piece, "bottom") == pytest.approx(216000 - 14400 - 1013.115)


def test_a_key_across_a_box_corner() -> None:
    """A slot 16 deep takes a triangle 16 x 16 / 2 from each rail, 3 + 0.11 wide: 398.08.

    The key is both triangles, 16 x 16, 3 thick: 768.
    """
    key = key_across(
        mitred(box_corner()), timber(3.0), instance="key", end=Face.FAR_END,
        depth_mm=16.0, start_mm=20.0,
    )  # fmt: skip
    piece = whole(box_corner(), key, KeyJoint)
    prove(piece)
    assert volume_of(piece, "front") == pytest.approx(432000 - 12960 - 398.08)
    assert volume_of(piece, "key") == pytest.approx(768.0)


QUICK = law(few=5, full=60)


@QUICK
@given(
    mm(3.0, 6.0), mm(3.0, 8.0), mm(0.0, 20.0), mm(20.0, 60.0), st.sampled_from([90.0, 60.0, 72.0])
)
def test_any_spline_in_a_box_corner(
    thickness: float, deep: float, start: float, width: float, turn: float
) -> None:
    """Placed as near the inner corner as its depth wants, it fits and goes in."""
    corner = box_corner(turn)
    a = math.radians(turn / 2)
    nearest = (deep + 0.5) * math.tan(a) + 2.0 / math.cos(a) + 0.1
    spline = spline_across(
        mitred(corner), timber(thickness), instance="spline", end=Face.FAR_END,
        into_each_mm=deep, from_long_point_mm=nearest, start_mm=start, width_mm=width,
    )  # fmt: skip
    prove(whole(corner, spline, SplineJoint))


@QUICK
@given(mm(3.0, 8.0), mm(8.0, 40.0), mm(1.0, 60.0), st.booleans())
def test_any_key(thickness: float, deep: float, start: float, is_frame: bool) -> None:
    """A key not deeper than nine tenths of the mitre fits, in a box or in a frame."""
    corner = frame_corner() if is_frame else box_corner()
    deep = deep if is_frame else deep / 2
    start = min(start, 8.0) if is_frame else start
    key = key_across(
        mitred(corner), timber(thickness), instance="key", end=Face.FAR_END,
        depth_mm=deep, start_mm=start,
    )  # fmt: skip
    prove(whole(corner, key, KeyJoint))


@pytest.mark.parametrize(
    ("thickness", "deep", "from_long_point", "named"),
    [
        (7.0, 5.0, 12.0, "spline thickness"),
        (4.0, 12.0, 12.0, "depth in each part"),
        (4.0, 1.0, 12.0, "depth in each part"),
    ],
)
def test_a_spline_too_thick_or_too_deep_is_told_so(
    thickness: float, deep: float, from_long_point: float, named: str
) -> None:
    """A third of 18 is 6 mm thick; 12 down a 45 degree slope there are 12 to the outer face."""
    spline = spline_across(
        mitred(box_corner()), timber(thickness), instance="spline", end=Face.FAR_END,
        into_each_mm=deep, from_long_point_mm=from_long_point, start_mm=0.0, width_mm=80.0,
    )  # fmt: skip
    with pytest.raises(DesignError) as caught:
        whole(box_corner(), spline, SplineJoint)
    assert caught.value.problems[0].parameter == f"spline of spline in front: {named}"


def test_a_key_that_would_show_inside_is_refused() -> None:
    """The mitre is 18 x root 2 = 25.46 from corner to corner; 24 leaves too little."""
    key = key_across(
        mitred(box_corner()), timber(3.0), instance="key", end=Face.FAR_END,
        depth_mm=24.0, start_mm=20.0,
    )  # fmt: skip
    with pytest.raises(DesignError) as caught:
        whole(box_corner(), key, KeyJoint)
    assert caught.value.problems[0].parameter == "key of key in front: depth"


@pytest.mark.parametrize("kind", [SplineJoint, KeyJoint])
def test_a_spline_or_key_wants_its_mitre_first(kind: type[SplineJoint] | type[KeyJoint]) -> None:
    corner = box_corner()
    spline = spline_across(
        mitred(corner), timber(4.0), instance="loose", end=Face.FAR_END,
        into_each_mm=6.0, from_long_point_mm=14.0, start_mm=0.0, width_mm=80.0,
    )  # fmt: skip
    with pytest.raises(DesignError) as caught:
        compose(
            name="corner",
            placed=[corner[1], corner[2], spline],
            joints=[kind(into="front", incoming="loose"), corner[0]],
        )
    assert "a mitre that front already has" in caught.value.problems[0].allowed


def test_a_rail_without_a_mitre_takes_no_spline() -> None:
    with pytest.raises(ValueError, match=r"no mitre at Face\.FAR_END"):
        spline_across(
            box_corner()[1], timber(4.0), instance="spline", end=Face.FAR_END,
            into_each_mm=6.0, from_long_point_mm=14.0, start_mm=0.0, width_mm=80.0,
        )  # fmt: skip
