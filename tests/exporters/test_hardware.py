"""What is no part, as shapes: where it lies in the piece and drawn apart, and its numbers."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from cadquery import Shape

from exporters.hardware import Square, Stuff, Thing, Turned, things_of
from exporters.sheets.joint_hinges import hinged as hinge_seen
from exporters.sheets.joint_values import SpanKind
from exporters.sheets.lists_sheet import bought_numbers
from exporters.views.things import solid_of_thing
from furniture import Ballast
from furniture.joints.joint import Role
from furniture.parts.vectors import Vector, length, subtract
from furniture.pieces import Piece, bought_parts, distinct_parts
from furniture.pieces.piece import placed_named
from furniture.solids.make import placed_solid
from tests.builders.test_hinged_lid import hinged, on
from tests.builders.test_hung import tray
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


@pytest.fixture(scope="module")
def box() -> Piece:
    """A box with a hinged lid, and a weight in it."""
    return hinged(ballast=Ballast(mass="0.4 kg", size=("60 mm", "40 mm", "20 mm"))).build()


def solid(thing: Thing) -> Shape:
    return Shape.cast(solid_of_thing(thing.form, thing.axes, thing.origin))


@pytest.mark.parametrize("name", NAMES)
def test_all_that_is_bought_and_has_a_place_is_drawn_as_often_as_it_is_bought(name: str) -> None:
    piece = piece_of(name)
    rows = {each.name: each.quantity for each in bought_parts(piece)}
    drawn = Counter(each.bought.name for each in things_of(piece) if each.bought is not None)
    assert bool(drawn) is bool(rows)
    assert all(rows[each] == count for each, count in drawn.items())


def test_numbers_of_what_is_bought_go_on_from_those_of_the_parts(box: Piece) -> None:
    numbers = list(bought_numbers(box).values())
    first = len(distinct_parts(box)) + 1
    assert numbers == list(range(first, first + len(bought_parts(box))))
    drawn = {each.bought for each in things_of(box)}
    assert drawn <= set(bought_numbers(box)), "each has its row"


def test_a_hinge_lies_in_its_gains_and_in_no_wood(box: Piece) -> None:
    """Barrel and leaves by the kernel: they touch the wood and share none of it."""
    metal = [each for each in things_of(box) if each.stands_out]
    assert len(metal) == 2 * 3
    for thing in metal:
        for name in ("lid", "back rail"):
            wood = placed_solid(placed_named(box, name).part, placed_named(box, name).placement)
            assert wood.intersect(solid(thing)).Volume() == pytest.approx(0.0, abs=1e-6)
    leaves = [each for each in metal if isinstance(each.form, Square)]
    for leaf in leaves:
        name = "lid" if leaf.origin[2] > 90.25 else "back rail"
        wood = placed_solid(placed_named(box, name).part, placed_named(box, name).placement)
        assert wood.distance(solid(leaf)) == pytest.approx(0.0, abs=1e-6)


def test_the_closed_chain_hangs_inside_and_apart_at_its_length(box: Piece) -> None:
    (chain,) = (each for each in things_of(box) if each.bought and each.bought.name == "lid chain")
    assert chain.long_mm == pytest.approx(15.5)
    apart = chain.apart({"lid": (0.0, 0.0, 200.0)})
    assert apart is not None
    assert apart.bought is not None
    assert apart.long_mm == apart.bought.length_mm
    assert apart.origin[2] == pytest.approx(chain.origin[2] + 200)


def test_what_lies_between_two_parts_is_drawn_half_way_and_what_stays_in_them_is_not() -> None:
    """A dowel where they part by more than its length; a hinge always."""
    piece = piece_of("herb_stand")
    dowel = next(each for each in things_of(piece) if each.stuff is Stuff.PEG)
    far: Vector = (dowel.axes[2][0] * 100, dowel.axes[2][1] * 100, dowel.axes[2][2] * 100)
    incoming = dowel.between[0]
    half = dowel.apart({incoming: far})
    assert half is not None
    assert length(subtract(half.origin, dowel.origin)) == pytest.approx(50)
    near: Vector = (far[0] / 50, far[1] / 50, far[2] / 50)
    assert dowel.apart({incoming: near}) is None


def test_a_driven_thing_stands_out_of_its_hole_and_a_weight_over_its_place(box: Piece) -> None:
    pin = next(each for each in things_of(box) if each.bought and "pin" in each.bought.name)
    assert isinstance(pin.form, Turned)
    apart = pin.apart({})
    assert apart is not None
    assert length(subtract(apart.origin, pin.origin)) > pin.long_mm
    weight = next(each for each in things_of(box) if each.stuff is Stuff.WEIGHT)
    assert solid(weight).Volume() == pytest.approx(60 * 40 * 20)


@pytest.mark.parametrize("which", ["over a rail", "beside a strip"])
def test_a_hinge_cut_across_says_what_its_gains_are(which: str) -> None:
    """Worked by hand: 9 of the leaf, (4 - 0.5) / 2 deep in both, and the gap between them."""
    piece = hinged(hinged_lid=on()).build() if which == "over a rail" else tray().build()
    joining = next(each for each in piece.joinings if each.role is Role.HINGE)
    found = hinge_seen(
        joining, placed_named(piece, joining.into), placed_named(piece, joining.incoming)
    )
    assert found is not None
    told = Counter((each.kind, round(each.value_mm, 6)) for each in found.spans)
    thick = 12.0 if which == "over a rail" else 14.0
    assert told == {
        (SpanKind.DEPTH, 1.75): 2, (SpanKind.WIDTH, 9.0): 1, (SpanKind.WALL, thick): 1,
    }  # fmt: skip
    assert all(
        math.dist(each.start, each.end) == pytest.approx(each.value_mm) for each in found.spans
    )
    (gap,) = found.clearances
    assert gap.value_mm == pytest.approx(0.5)
    assert found.axis == 0
    assert found.run[1] - found.run[0] == pytest.approx(30)
    assert len(found.metal) == 3, "of the first hinge alone"
