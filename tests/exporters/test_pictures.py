"""Pictures: the renderer and the lines that stand in for it, and how a useless picture is told."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from exporters.pictures import write_lines, write_pictures
from exporters.pictures.render import Shot, rendered, shows_something
from exporters.views.project import StandardView, project_placed, standard_frame
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece
from tests.exporters.test_views import placed_at

NO_INTERPRETER = {"PYTHONHOME": "nowhere"}
"""With this, the renderer's process cannot start."""


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


def dots_of(path: Path) -> np.ndarray:
    """The picture as red, green and blue."""
    with Image.open(path) as image:
        return np.asarray(image.convert("RGB")).astype(int)


def test_a_piece_is_rendered_in_colour_on_white(piece: Piece, tmp_path: Path) -> None:
    paths = write_pictures(piece, tmp_path)
    assert [path.name for path in paths] == ["isometric.png", "front.png"]
    for path in paths:
        assert max(dots_of(path).shape) == 1600
        assert shows_something(path)
    front = dots_of(paths[1])
    # 200 wide and 200 high: a quarter down, the middle is the board
    red, _, blue = front[front.shape[0] // 4, front.shape[1] // 2]
    assert red > blue + 30
    # beside the board and above the block there is nothing
    assert front[front.shape[0] // 4, front.shape[1] // 10].min() == 255


def test_the_isometric_tells_top_front_and_side_apart(piece: Piece, tmp_path: Path) -> None:
    shot = Shot(path=tmp_path / "i.png", frame=standard_frame(StandardView.ISOMETRIC_RIGHT))
    assert rendered(piece.placed, [shot])
    dots = dots_of(shot.path)
    view = project_placed(piece.placed, shot.frame)
    tones = []
    for point in ((20.0, 30.0, 40.0), (30.0, 0.0, 20.0), (200.0, 50.0, 20.0)):  # top, front, side
        u, v = shot.frame.to_paper(point)
        scale = 1600 / (1.06 * max(view.high[0] - view.low[0], view.high[1] - view.low[1]))
        middle = [(view.low[axis] + view.high[axis]) / 2 for axis in (0, 1)]
        column = dots.shape[1] / 2 + (u - middle[0]) * scale
        row = dots.shape[0] / 2 - (v - middle[1]) * scale
        tones.append(int(dots[round(row), round(column)].sum()))
    assert tones[0] > tones[1] + 30 > tones[2] + 45


def test_without_a_renderer_the_lines_stand_in(piece: Piece, tmp_path: Path) -> None:
    shot = Shot(path=tmp_path / "r.png", frame=standard_frame(StandardView.FRONT))
    assert not rendered(piece.placed, [shot], NO_INTERPRETER)
    assert not shot.path.exists()
    for path in write_pictures(piece, tmp_path, NO_INTERPRETER):
        dots = dots_of(path)
        assert 1000 < np.count_nonzero(dots[..., 0] < 128) < dots[..., 0].size / 20
        assert abs(max(dots.shape) - 1600) <= 1
        assert (dots[..., 0] == dots[..., 2]).all()  # black and white: it is the drawing


def test_a_drawn_line_lies_where_the_view_has_it(
    placed: tuple[Placed, ...], tmp_path: Path
) -> None:
    view = project_placed(placed, standard_frame(StandardView.FRONT))
    dots = dots_of(write_lines(view, tmp_path / "l.png", 1600))[..., 0]
    rows, columns = np.nonzero(dots < 128)
    # 200 x 200 mm with 3 per cent of margin all round: closed form
    per_mm = 1600 / (200 * 1.06)
    assert columns.min() == pytest.approx(6 * per_mm, abs=2)
    assert columns.max() == pytest.approx(206 * per_mm, abs=2)
    assert rows.min() == pytest.approx(6 * per_mm, abs=2)
    assert rows.max() == pytest.approx(206 * per_mm, abs=2)


@pytest.mark.parametrize("tone", [0, 128, 255])
def test_a_picture_of_one_tone_shows_nothing(tone: int, tmp_path: Path) -> None:
    path = tmp_path / "p.png"
    Image.new("RGB", (200, 100), (tone, tone, tone)).save(path)
    assert not shows_something(path)


@pytest.mark.parametrize(
    ("ground", "thing", "is_useful"),
    [
        ((255, 255, 255), (160, 120, 80), True),
        ((0, 0, 0), (160, 120, 80), False),
        ((255, 255, 255), (0, 0, 0), False),  # a card that draws, but without light
        ((255, 255, 255), (254, 253, 251), False),
    ],
)
def test_only_wood_on_a_white_ground_is_a_useful_picture(
    ground: tuple[int, int, int], thing: tuple[int, int, int], is_useful: bool, tmp_path: Path
) -> None:
    dots = np.full((100, 200, 3), ground, dtype=np.uint8)
    dots[3:97, 6:194] = thing
    path = tmp_path / "p.png"
    Image.fromarray(dots).save(path)
    assert shows_something(path) is is_useful


def test_a_plain_board_square_on_is_rendered_too(tmp_path: Path) -> None:
    board = placed_at("board", (300.0, 100.0, 20.0), (0.0, 0.0, 0.0))
    shot = Shot(path=tmp_path / "b.png", frame=standard_frame(StandardView.TOP))
    assert rendered([board], [shot])


def test_a_piece_without_parts_has_no_picture(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no parts"):
        write_pictures(Piece(name="nothing"), tmp_path)
    assert not list(tmp_path.iterdir())
