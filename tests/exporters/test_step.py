"""STEP read back by an independent reader: gmsh, from the package registry."""

from __future__ import annotations

import re

import gmsh
import pytest

from exporters.step import write_step
from furniture import SteppedStand, Stock, TierRule
from furniture.errors import SolidError
from furniture.pieces import distinct_parts
from furniture.solids.make import placed_solid
from tests.models import NAMES, piece_of
from tests.shop.boards.bench import THICK, THIN

pytestmark = pytest.mark.some_models


@pytest.fixture(scope="module", params=NAMES)
def written(request, tmp_path_factory):
    piece = piece_of(request.param)
    path = tmp_path_factory.mktemp("step") / "piece.step"
    write_step(piece, path, "2026-01-02T03:04:05")
    return piece, path


def _read(path):
    """Volume and box of every solid [mm]."""
    gmsh.initialize(interruptible=False)
    try:
        gmsh.option.setNumber("General.Terminal", 0)
        gmsh.option.setString("Geometry.OCCTargetUnit", "MM")
        gmsh.model.occ.importShapes(str(path))
        gmsh.model.occ.synchronize()
        return [
            (
                gmsh.model.occ.getMass(3, tag),
                gmsh.model.occ.getCenterOfMass(3, tag),
                gmsh.model.occ.getBoundingBox(3, tag),
            )
            for _, tag in gmsh.model.getEntities(3)
        ]
    finally:
        gmsh.finalize()


def test_every_solid_comes_back_with_its_volume_and_box(written):
    piece, path = written
    read = _read(path)
    assert len(read) == len(piece.placed)
    for each in piece.placed:
        solid = placed_solid(each.part, each.placement)
        centre = solid.Center().toTuple()
        volume, found, box = min(read, key=lambda row: _distance(row[1], centre))
        assert volume == pytest.approx(solid.Volume(), rel=1e-6)
        assert found == pytest.approx(centre, abs=1e-3)
        ours = solid.BoundingBox(1e-6)
        assert box[:3] == pytest.approx((ours.xmin, ours.ymin, ours.zmin), abs=1e-3)
        assert box[3:] == pytest.approx((ours.xmax, ours.ymax, ours.zmax), abs=1e-3)


def _distance(a, b):
    return sum((x - y) ** 2 for x, y in zip(a, b, strict=True))


def test_one_named_product_per_distinct_part_and_one_for_the_piece(written):
    piece, path = written
    products = re.findall(r"PRODUCT\('([^']*)'", path.read_text())
    assert sorted(products) == sorted(
        [piece.name, *(distinct.part.name for distinct in distinct_parts(piece))]
    )


def test_the_file_is_ap242_in_millimetres_with_colours(written):
    _, path = written
    text = re.sub(r"\s+", "", path.read_text())
    assert "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING" in text
    assert "SI_UNIT(.MILLI.,.METRE.)" in text
    assert "COLOUR_RGB" in text


def test_equal_pieces_give_equal_files_but_for_the_writers_running_counter(written, tmp_path):
    piece, path = written
    again = write_step(piece, tmp_path / "piece.step", "2026-01-02T03:04:05")
    assert _without_counter(path) == _without_counter(again)


def _without_counter(path):
    text = re.sub(r"\s+", "", path.read_text())
    return re.sub(r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('\d+'", "", text)


def test_a_path_that_cannot_be_written_is_an_error(written, tmp_path):
    piece, _ = written
    with pytest.raises(SolidError):
        write_step(piece, tmp_path / "absent" / "piece.step", "2026-01-02T03:04:05")


def test_parts_of_one_shape_and_two_stocks_are_two_products(tmp_path):
    lighter = Stock(name="lighter", species="white oak", thickness="10.2 mm", moisture="6 %")
    design = SteppedStand(
        name="Small stand", thick=THICK, thin=THIN, base_width="260 mm", base_depth="180 mm",
        base_height="70 mm", post_width="80 mm", post_proud="24 mm", own_stock={"tier 2": lighter},
        tiers=TierRule(count=2, width="220 mm", depth="110 mm", rise="120 mm"),
    )  # fmt: skip
    path = write_step(design.build(), tmp_path / "stand.step", "2026-03-14T00:00:00")
    products = re.findall(r"PRODUCT\(\s*'([^']*)'", path.read_text(encoding="utf-8"))
    assert {"tier 1", "tier 2"} <= set(products)
