"""piece.json is enough: another kernel rebuilds the piece from it alone."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from exporters.summary import summary_of, write_summary
from furniture.solids.measure import weigh
from tests.exporters.rebuild import centre_of, load, rebuilt_parts, rebuilt_piece
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

CURVE_SHARE = 2e-5
"""How far flattening a circle into 720 sides may move a volume, as a share of it."""


@pytest.fixture(scope="module", params=NAMES)
def summary(request, tmp_path_factory):
    piece = piece_of(request.param)
    path = tmp_path_factory.mktemp("summary") / "piece.json"
    write_summary(summary_of(piece, weigh(piece), (), ("piece.json",)), path)
    return load(path)


def test_every_part_rebuilt_from_its_cuts_has_the_volume_that_is_stated(summary):
    solids = rebuilt_parts(summary)
    for part in summary["parts"]:
        assert solids[part["id"]].volume() == pytest.approx(part["volume_mm3"], rel=CURVE_SHARE)


def test_the_rebuilt_piece_has_the_stated_mass_and_centre(summary):
    placed = rebuilt_piece(summary)
    density = {stock["name"]: stock["density_kg_m3"] for stock in summary["stocks"]}
    parts = {part["id"]: part for part in summary["parts"]}
    mass, moment = 0.0, np.zeros(3)
    for row in summary["placements"]:
        solid = placed[row["instance"]]
        one = solid.volume() * 1e-9 * density[parts[row["part"]]["stock"]]
        mass += one
        moment += one * centre_of(solid)
    for body in summary["fixed"]:
        mass += body["mass_kg"]
        moment += body["mass_kg"] * np.array(body["centre_mm"])
    assert mass == pytest.approx(summary["mass_kg"], rel=1e-4)
    assert moment / mass == pytest.approx(summary["centre_of_mass_mm"], abs=0.01)


def test_the_rebuilt_parts_fill_the_stated_extents(summary):
    boxes = np.array([solid.bounding_box() for solid in rebuilt_piece(summary).values()])
    size = boxes[:, 3:].max(axis=0) - boxes[:, :3].min(axis=0)
    assert size == pytest.approx(summary["extents_mm"], abs=1e-3)


def test_no_two_rebuilt_parts_share_wood(summary):
    for (first, a), (second, b) in itertools.combinations(rebuilt_piece(summary).items(), 2):
        assert (a ^ b).volume() < 0.01, f"{first} and {second} overlap"


def test_quantities_are_the_placements(summary):
    placed = [row["part"] for row in summary["placements"]]
    for part in summary["parts"]:
        assert part["quantity"] == placed.count(part["id"])
    assert len(placed) == sum(part["quantity"] for part in summary["parts"])


def test_every_axis_triple_is_right_handed(summary):
    for row in summary["placements"]:
        # Axes of a key, at 45 degrees, are written to nine places.
        assert np.cross(row["x_axis"], row["y_axis"]) == pytest.approx(row["z_axis"], abs=2e-9)
