"""Wood: the same at a point however it is asked, from a seed, with what was measured on it."""

from __future__ import annotations

import numpy as np
import pytest

from exporters.grain import wood_of_board, wood_of_instances, wood_of_stock
from exporters.work import work_of
from furniture.shop.cutting.values import ZoneKind, ZoneShows, straight_board
from furniture.timber.movement import Sawn
from furniture.timber.species import find_species
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model
from tests.shop.cutting.zones import rectangular_zone

OAK = find_species("white oak")
SIZE = (600.0, 150.0, 20.0)


def points_on(z: float, count: int = 4000, seed: int = 1) -> np.ndarray:
    """Points spread over a board at one height."""
    drawn = np.random.default_rng(seed)
    return np.column_stack(
        (drawn.uniform(0, SIZE[0], count), drawn.uniform(0, SIZE[1], count), np.full(count, z))
    )


def test_colour_is_a_function_of_the_point_alone() -> None:
    wood = wood_of_stock("plank", OAK, SIZE)
    points = points_on(7.0)
    whole = wood.colours(points, 0.3)
    again = wood_of_stock("plank", OAK, SIZE).colours(points[::-1][:50], 0.3)
    assert np.array_equal(whole[::-1][:50], again)
    assert ((whole >= 0.0) & (whole <= 1.0)).all()


def test_another_name_is_another_log() -> None:
    points = points_on(7.0)
    one, other = (wood_of_stock(name, OAK, SIZE).colours(points, 0.3) for name in ("a", "b"))
    assert np.abs(one - other).mean() > 0.01


def test_grain_runs_along_the_board() -> None:
    """A step along the grain changes the colour less than one across it."""
    for species in ("white oak", "black cherry", "white pine", "black walnut"):
        wood = wood_of_stock("plank", find_species(species), SIZE)
        at = points_on(10.0)
        here = wood.colours(at, 0.3)
        along = wood.colours(at + np.array((1.5, 0.0, 0.0)), 0.3)
        across = wood.colours(at + np.array((0.0, 1.5, 0.0)), 0.3)
        assert np.abs(along - here).mean() < 0.75 * np.abs(across - here).mean(), species


def test_quarter_sawn_rings_run_straighter_than_flat_sawn_ones() -> None:
    """Along the grain the rings of a flat-sawn face come and go in wide curves."""
    from exporters.grain.log import bed_of

    for seed in range(6):
        flat, quarter = (bed_of(sawn, 150.0, seed) for sawn in (Sawn.FLAT, Sawn.QUARTER))
        middle = (75.0, 10.0)
        ends = np.array([[0.0, 0.0, 20.0], [0.0, 75.0, 20.0], [0.0, 150.0, 20.0]])
        spans = []
        for bed in (flat, quarter):
            at = bed.into_log(ends, middle)
            spans.append(np.ptp(np.hypot(at[:, 1], at[:, 2])))
        assert spans[1] > 2.0 * spans[0]  # rings crossed from edge to edge


def test_measured_zones_show_where_they_were_found() -> None:
    zones = (
        rectangular_zone(name="k", kind=ZoneKind.KNOT, x=200, y=60, length=30, width=26),
        rectangular_zone(name="s", kind=ZoneKind.SAPWOOD, x=0, y=130, length=600, width=20),
        rectangular_zone(
            name="t", kind=ZoneKind.STAIN, x=400, y=30, length=80, width=60, shows=ZoneShows.LOWER
        ),
    )
    plain = straight_board(name="A", length_mm=600, width_mm=150, thickness_mm=20, species="oak")
    marked = straight_board(
        name="A", length_mm=600, width_mm=150, thickness_mm=20, species="oak", zones=zones
    )
    clear, wood = (wood_of_board(each, OAK) for each in (plain, marked))

    def brighter(x: float, y: float, z: float) -> float:
        at = np.array([[x + dx, y, z] for dx in (-3.0, 0.0, 3.0)])
        return float((wood.colours(at, 0.4) - clear.colours(at, 0.4)).mean())

    assert brighter(215.0, 73.0, 19.9) < -0.15
    assert brighter(300.0, 144.0, 10.0) > 0.05
    assert brighter(440.0, 60.0, 0.1) < -0.08
    assert brighter(440.0, 60.0, 19.9) == pytest.approx(0.0)
    assert abs(brighter(100.0, 30.0, 19.9)) < 0.02


def test_two_ends_of_a_saw_kerf_agree() -> None:
    """Rails cut in sequence off one board go on in each other's wood round the corner."""
    piece, outcome = piece_of("herb_stand"), outcome_of_model("herb_stand")
    making = work_of(piece, None, outcome).making
    woods = wood_of_instances(piece, making, outcome)
    assert set(woods) == {each.instance for each in piece.placed}
    front, right = woods["front rail"], woods["right side rail"]
    assert front.wood is right.wood
    length = next(e for e in piece.placed if e.instance == "front rail").part.blank.length_mm
    end = np.array(front.origin) + length * np.array(front.axes[0])
    start = np.array(right.origin)
    gap = float(np.dot(start - end, front.axes[0]))
    assert 0.0 < gap < 10.0  # a kerf lies between, and no more
    assert np.allclose((start - end)[1:], 0.0, atol=0.5)


def test_parts_lie_inside_their_boards() -> None:
    for model in ("herb_stand", "tea_box", "key_rack", "yarn_steps"):
        piece, outcome = piece_of(model), outcome_of_model(model)
        woods = wood_of_instances(piece, work_of(piece, None, outcome).making, outcome)
        for each in piece.placed:
            wood = woods[each.instance]
            size = np.array(wood.wood.size)
            corners = np.array(
                [[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)]
            ) * np.array(each.part.blank.size)
            at = corners @ np.array(wood.axes) + np.array(wood.origin)
            assert (at >= -0.01).all(), each.instance
            assert (at <= size + 0.01).all(), each.instance


def test_wood_of_random_species_never_leaves_the_colours() -> None:
    from furniture.timber.species import species_names

    drawn = np.random.default_rng(3)
    for name in drawn.choice(species_names(), 12, replace=False):
        wood = wood_of_stock("x", find_species(str(name)), SIZE)
        found = wood.colours(points_on(19.9, 800), 0.6)
        assert np.isfinite(found).all()
        assert ((found >= 0.0) & (found <= 1.0)).all(), name
