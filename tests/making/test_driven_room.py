"""Pins, screws and dowels keep in the wood, clear of one another, of bores, splines and feet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from manifold3d import Manifold

from furniture.joints.joint import Fastener
from furniture.pieces import Piece
from tests.everywhere.designs import drawn
from tests.making.driven_room import DrivenRoom
from tests.models import NAMES, piece_of

CLEATED, PINNED, BRACKETED = 2004, 2006, 2020
"""Designs: tiers on screwed cleats, a bottom that a pin holds, a bracket in inches."""


def faults(piece: Piece, **more: Manifold) -> list[str]:
    """What is in the way of what is driven in a piece, and of what is planted in it."""
    return list(DrivenRoom(piece, more).faults())


@pytest.mark.some_models
@pytest.mark.parametrize("name", NAMES)
def test_what_is_driven_in_a_model_has_its_way(name: str) -> None:
    """The back of the key rack hangs before its wall cleat's screws, once these are in."""
    assert faults(piece_of(name)) == []


@pytest.mark.seeds(few=5, full=200)
def test_what_is_driven_in_any_design_has_its_way(seed: int) -> None:
    assert faults(drawn(seed).piece) == []


@pytest.mark.some(few=2)
@pytest.mark.parametrize("seed", [CLEATED, PINNED, BRACKETED, 2017, 2032, 564080])
def test_what_is_driven_through_cleats_brackets_and_panels_has_its_way(seed: int) -> None:
    """The last has a back panel that covers the heads of a bracket's screws, and goes on later."""
    assert faults(drawn(seed).piece) == []


def fasteners(piece: Piece) -> list[tuple[int, int, Fastener]]:
    """Each with the places of its joint and of itself."""
    return [
        (at, number, each)
        for at, joining in enumerate(piece.joinings)
        for number, each in enumerate(joining.fasteners)
        if each.slot is None and not each.bears_too
    ]


def changed(piece: Piece, at: int, number: int, fastener: Fastener) -> Piece:
    """The piece with one fastener that stands otherwise."""
    joining = piece.joinings[at]
    own = (*joining.fasteners[:number], fastener, *joining.fasteners[number + 1 :])
    joinings = list(piece.joinings)
    joinings[at] = replace(joining, fasteners=own)
    return replace(piece, joinings=tuple(joinings))


def shifted(each: Fastener, by: Sequence[float]) -> Fastener:
    x, y, z = (a + b for a, b in zip(each.at, by, strict=True))
    return replace(each, at=(x, y, z))


@pytest.mark.parametrize("seed", [CLEATED, PINNED, BRACKETED])
def test_a_foot_below_a_head_is_found(seed: int) -> None:
    """Planted: a block stands where the driver would, by each head in turn; beside it, it may."""
    piece = drawn(seed).piece
    for _, _, each in fasteners(piece):
        axis = np.array(each.axis)
        beside = np.roll(np.abs(axis).round(), 1) * 40.0
        middle = np.array(each.at) - axis * (each.incoming_mm + 15.0)
        foot = Manifold.cube((20.0, 20.0, 20.0), True).translate(middle)
        if each.head_holds:
            told = faults(piece, foot=foot)
            assert any(line.startswith("foot stands behind the head") for line in told), told
        assert not any("foot" in line for line in faults(piece, foot=foot.translate(beside)))


@pytest.mark.parametrize("seed", [CLEATED, PINNED, BRACKETED])
def test_a_spline_in_the_way_is_found(seed: int) -> None:
    """Planted: a slip of 3 mm lies across each, half-way into what it is driven into."""
    piece = drawn(seed).piece
    for _, _, each in fasteners(piece):
        middle = np.array(each.at) + np.array(each.axis) * each.into_mm / 2
        spline = Manifold.cube((3.0, 3.0, 3.0), True).translate(middle)
        assert any("runs through spline" in line for line in faults(piece, spline=spline))


@pytest.mark.parametrize("seed", [CLEATED, PINNED, BRACKETED, "herb_stand"])
def test_one_that_stands_out_of_the_wood_is_found(seed: int | str) -> None:
    """Planted: each is driven 160 mm deeper than it goes, and each is moved far aside."""
    piece = piece_of(seed) if isinstance(seed, str) else drawn(seed).piece
    for at, number, each in fasteners(piece):
        way = np.roll(np.abs(np.array(each.axis)).round(), 1) * 500.0
        for wrong in (replace(each, into_mm=each.into_mm + 160.0), shifted(each, way)):
            told = faults(changed(piece, at, number, wrong))
            assert any("stands out of its wood" in line for line in told), each


def test_two_that_meet_in_the_wood_are_found() -> None:
    """Planted: each dowel of a stand's stub is moved onto the next, and half into its bore."""
    piece = piece_of("herb_stand")
    dowels = [each for each in fasteners(piece) if len(piece.joinings[each[0]].fasteners) > 1]
    assert dowels
    for at, number, each in dowels:
        other = piece.joinings[at].fasteners[1 - number]
        between = np.array(other.at) - np.array(each.at)
        onto = between * (1.0 - 1.0 / np.linalg.norm(between))
        told = faults(changed(piece, at, number, shifted(each, onto)))
        assert any(" meets dowel" in line for line in told), told


def test_one_in_another_bore_is_found() -> None:
    """Planted: each dowel of a stand's stub is moved to the edge of the next one's bore."""
    piece = piece_of("herb_stand")
    for at, number, each in fasteners(piece):
        others = [one for one in piece.joinings[at].fasteners if one is not each]
        for other in others:
            between = np.array(other.at) - np.array(each.at)
            beside = between * (1.0 - 0.55 * other.diameter_mm / np.linalg.norm(between))
            told = faults(changed(piece, at, number, shifted(each, beside)))
            assert any("meets another bore" in line for line in told), told
