"""Pictures: what is seen where, in which wood, and how the edges step."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from exporters.grain import wood_of_instances
from exporters.pictures import Shown, picture_of, write_pictures
from exporters.pictures.outline import outlines_of, stepping_of, write_outlines
from exporters.render import Lighting, level, render, three_quarter
from exporters.render.ground import ground_shadow
from exporters.scene import Sort, scene_of
from exporters.work import work_of
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece, Stance, Surface
from tests.exporters.test_views import placed_at
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model

FEW = Lighting(sky=16, sun=8, map_dots=200)


@pytest.fixture(scope="module")
def placed() -> tuple[Placed, ...]:
    """A low block with a tall board on it."""
    return (
        placed_at("block", (200.0, 100.0, 40.0), (0.0, 0.0, 0.0)),
        placed_at("board", (60.0, 20.0, 160.0), (70.0, 60.0, 40.0)),
    )


@pytest.fixture(scope="module")
def piece(placed: tuple[Placed, ...]) -> Piece:
    """The two as a piece."""
    return Piece(name="Block and board", placed=placed)


def test_square_on_every_body_lies_where_its_sizes_say(piece: Piece) -> None:
    scene = scene_of(piece)
    found = render(scene, level(0.0), long_side=400, samples=1, lighting=FEW)
    per_mm = found.frame.scale
    # 200 x 200 mm over all, 6 in a hundred of margin all round: closed form
    assert per_mm == pytest.approx(400 * 0.88 / 200.0)
    rows, columns = np.nonzero(found.owners == found.names.index("block"))
    assert columns.max() - columns.min() + 1 == pytest.approx(200 * per_mm, abs=1)
    assert rows.max() - rows.min() + 1 == pytest.approx(40 * per_mm, abs=1)
    rows, columns = np.nonzero(found.owners == found.names.index("board"))
    assert columns.min() == pytest.approx(24 + 70 * per_mm, abs=1)
    assert rows.max() - rows.min() + 1 == pytest.approx(160 * per_mm, abs=1)


def test_the_nearer_body_hides_the_other(piece: Piece) -> None:
    scene = scene_of(piece)
    front = render(scene, level(0.0), long_side=300, samples=1, lighting=FEW)
    behind = render(scene, level(180.0), long_side=300, samples=1, lighting=FEW)
    # seen from behind the board covers nothing of the block, which is lower: equal areas
    for found in (front, behind):
        assert (found.owners == 0).sum() > 0
        assert (found.owners == 1).sum() > 0
    above = scene_of(
        replace(piece, placed=(*piece.placed, placed_at("roof", (300, 300, 10), (-50, -100, 300))))
    )
    top = render(above, three_quarter(), long_side=300, samples=1, lighting=FEW)
    assert top.names[int(np.bincount(top.owners[top.owners >= 0]).argmax())] == "roof"


def test_a_near_eye_and_a_far_one_agree_on_points(piece: Piece) -> None:
    """What a dot shows, taken back into space and to a dot again, is the same dot."""
    from exporters.render.frame import framed
    from exporters.render.render import _seen

    scene = scene_of(piece)
    points = np.vstack([each.points for each in scene.bodies])
    for camera in (three_quarter(), three_quarter(distance=float("inf"))):
        frame = framed(camera, points, 200)
        seen = _seen(scene.bodies, frame)
        rows, columns = np.nonzero(seen.bodies >= 0)
        again = frame.dots(seen.points[rows, columns])
        assert np.allclose(again[:, 0], columns + 0.5, atol=1e-6)
        assert np.allclose(again[:, 1], rows + 0.5, atol=1e-6)
        assert np.allclose(again[:, 2], seen.keys[rows, columns])


def test_light_falls_from_above_and_a_shadow_on_the_floor(piece: Piece) -> None:
    dots = np.asarray(picture_of(Shown(piece=piece), long_side=500, samples=1)).astype(int)
    found = render(scene_of(piece), three_quarter(), long_side=500, samples=1, margin=0.085)
    facing = {}
    for name, point in {"top": (30, 30, 40), "front": (30, 0, 20), "side": (200, 50, 20)}.items():
        column, row, _ = found.frame.dots(np.array([point], dtype=float))[0]
        facing[name] = int(dots[int(row), int(column)].sum())
    assert facing["top"] > facing["front"] + 40
    assert facing["front"] > facing["side"] + 15
    # white at the corners, and a grey floor beside the block on the side away from the light
    for corner in (dots[0, 0], dots[0, -1], dots[-1, 0], dots[-1, -1]):
        assert corner.min() >= 250
    column, row, _ = found.frame.dots(np.array([[204.0, 90.0, 0.0]]))[0]
    beside = dots[int(row), int(column)]
    assert 90 < beside.min() < 235
    assert beside.max() - beside.min() < 12


def test_the_shadow_under_a_turning_view_is_dark_below_and_fades_to_nothing(piece: Piece) -> None:
    """The eye stands in front, the sun to its left: the right of the piece lies in its shadow."""
    scene = scene_of(piece)
    found = ground_shadow(scene, level(0.0).axes[2])
    assert found is not None
    dots = found.dots.astype(float)
    solid = np.vstack([each.points for each in scene.of(Sort.PART)])
    foot = solid[solid[:, 2] < scene.ground_mm + 1.0]
    wide = found.high[0] - found.low[0]

    def at(x: float, y: float) -> float:
        column = int((x - found.low[0]) / wide * dots.shape[1])
        return float(dots[int((found.high[1] - y) / wide * dots.shape[0]), column])

    x, y = (foot.min(axis=0) + foot.max(axis=0))[:2] / 2
    assert at(x, y) > 80.0
    beside = 0.6 * np.ptp(solid[:, 0])
    assert at(x + beside, y) > at(x - beside, y) + 2.0
    rim = np.concatenate((dots[0], dots[-1], dots[:, 0], dots[:, -1]))
    assert rim.max() == 0.0
    assert ground_shadow(replace(scene, stance=Stance.WALL), level(0.0).axes[2]) is None


def test_two_pictures_are_equal_to_the_dot(piece: Piece) -> None:
    one, other = (np.asarray(picture_of(Shown(piece=piece), 200)) for _ in range(2))
    assert (one == other).all()


def test_each_part_is_shown_in_the_wood_it_is_cut_from() -> None:
    """The pale edge that the plan lays on the key rack's shelf is pale in the picture."""
    piece, outcome = piece_of("key_rack"), outcome_of_model("key_rack")
    woods = wood_of_instances(piece, work_of(piece, None, outcome).making, outcome)
    shelf = next(each for each in piece.placed if each.instance == "shelf")
    long, wide, thick = shelf.part.blank.size
    x = np.linspace(20.0, long - 20.0, 60)
    tone = {}
    for name, y in {"front": 0.5, "middle": wide / 2}.items():
        points = np.column_stack((x, np.full(60, y), np.full(60, thick / 2)))
        tone[name] = float(woods["shelf"].colours(points, 0.5).mean())
    assert tone["front"] > tone["middle"] + 0.1


def test_pegs_stand_in_their_bores_and_loads_on_their_surfaces() -> None:
    scene = scene_of(piece_of("key_rack"))
    pegs = [each for each in scene.of(Sort.HARDWARE) if "peg" in each.name]
    assert len(pegs) == 6
    rail = next(each for each in scene.bodies if each.name == "peg rail")
    for peg in pegs:
        # stuck into the rail from the front, and proud of it by what is longer than the bore
        assert peg.points[:, 1].min() < rail.points[:, 1].min() - 30
        assert peg.points[:, 1].max() > rail.points[:, 1].min() + 5
    surfaces = {each.instance: each for each in piece_of("herb_stand").surfaces}
    loads = scene_of(piece_of("herb_stand")).of(Sort.LOAD)
    assert len(loads) == 4
    heights = sorted(round(each.points[:, 2].min(), 1) for each in loads)
    tiers = sorted(surfaces[f"tier {n}"].top_mm for n in (1, 2, 3, 4))
    assert heights == pytest.approx(tiers, abs=0.2)


def test_the_outline_is_the_solids_and_tells_what_strays(piece: Piece) -> None:
    front, side = outlines_of(piece)
    assert front.shape.area == pytest.approx(200 * 40 + 60 * 160, rel=1e-4)
    assert side.shape.area == pytest.approx(100 * 40 + 20 * 160, rel=1e-4)
    # seen from the right, the front is on the left: the board stands from 60 to 80 from the front
    assert side.shape.bounds == pytest.approx((0.0, 0.0, 100.0, 200.0), abs=1e-3)
    # three levels on a slope of 10 in 100, the middle one 3 outside, the foot 5 inside of it
    ends = ((-5.0, 0.0), (10.0, 100.0), (23.0, 200.0), (30.0, 300.0))
    found = stepping_of(ends)
    assert found is not None
    assert found.astray_mm == pytest.approx(3.0)
    assert found.lowest_mm == pytest.approx(-5.0)
    assert stepping_of(((5.0, 0.0), (5.0, 100.0), (5.2, 200.0))) is None


def test_lines_that_lean_out_keep_the_two_outlines_apart(tmp_path: Path) -> None:
    """Above the ground a blank band stands between what is seen from the front and the side."""
    png, _ = write_outlines(piece_of("seedling_steps"), tmp_path / "a.png", tmp_path / "a.svg")
    with Image.open(png) as image:
        above = np.array(image.convert("L"))[: int(0.83 * image.height)]
    inked = (above < 200).any(axis=0)
    runs = np.flatnonzero(np.diff(inked.astype(int)) == 1)
    starts = [at for at in runs if not inked[max(0, at - 30) : at].any()]
    assert len(starts) == 2


@pytest.mark.parametrize("model", ["key_rack", "button_box", "tea_box"])
def test_a_piece_that_steps_nowhere_has_its_outlines(model: str, tmp_path: Path) -> None:
    """A rack or a box has no line to step in: its outlines are drawn without one."""
    png, svg = write_outlines(piece_of(model), tmp_path / "a.png", tmp_path / "a.svg")
    assert png.stat().st_size > 1_000
    assert svg.stat().st_size > 1_000


def test_levels_are_read_off_the_outline_and_not_off_the_surface() -> None:
    piece = piece_of("herb_stand")
    front, side = outlines_of(piece)
    assert len(front.left) == len(piece.surfaces)
    # the lid lies in a rim, and what steps is the base's outside
    assert front.left[0][0] == pytest.approx(0.0, abs=0.01)
    assert front.right[0][0] == pytest.approx(320.0, abs=0.01)
    assert side.left[0][0] == pytest.approx(0.0, abs=0.01)
    steps = np.diff([x for x, _ in front.left[1:]])
    assert np.allclose(steps, 15.0, atol=0.05)


def test_all_pictures_of_a_piece_are_written(piece: Piece, tmp_path: Path) -> None:
    named = replace(
        piece,
        surfaces=(Surface(instance="block", low=(0.0, 0.0), high=(200.0, 100.0), top_mm=40.0),),
    )
    paths = write_pictures(Shown(piece=named), tmp_path)
    assert [path.name for path in paths] == [
        "piece.png", "apart.png", "outlines.png", "outlines.svg",
    ]  # fmt: skip
    for path in paths[:3]:
        with Image.open(path) as image:
            assert min(image.size) > 200
    root = ElementTree.parse(paths[3]).getroot()
    assert root.tag.endswith("svg")


def test_a_piece_without_parts_has_no_picture(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no parts"):
        write_pictures(Shown(piece=Piece(name="nothing")), tmp_path)
    assert not list(tmp_path.iterdir())
