"""Board photos: a camera of our own takes them, and the marks must undo what it did."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from scipy.ndimage import map_coordinates

from exporters.grain import wood_of_stock
from exporters.photo import Mark, PhotoError, fitted, photos_beside, wood_of_photo
from exporters.photo.camera import centred
from furniture.shop.cutting.values import straight_board
from furniture.timber.species import find_species

SIZE = (600.0, 150.0, 20.0)
PHOTO = (1600, 1000)
PLACES = [(x, y) for x in (20.0, 210.0, 390.0, 580.0) for y in (18.0, 132.0)]
CORNERS = [PLACES[0], PLACES[1], PLACES[6], PLACES[7]]


def camera(places: np.ndarray, bend: float) -> np.ndarray:
    """Column and row of places on the board, for an eye that looks at it askew from above.

    Turned and moved in space, projected, then bent by the lens: nothing of the code under test.
    """
    turn, lean = np.radians(7.0), np.radians(24.0)
    x, y = places[:, 0] - 300.0, places[:, 1] - 75.0
    along = np.cos(turn) * x - np.sin(turn) * y
    across = np.sin(turn) * x + np.cos(turn) * y
    depth = 900.0 + np.sin(lean) * across
    u, v = along / depth, -np.cos(lean) * across / depth
    bent = 1.0 + bend * (u**2 + v**2) / 0.45**2
    return np.column_stack((u * bent, v * bent)) * 1900.0 + np.array(PHOTO) / 2.0


def marks_at(places: list[tuple[float, float]], bend: float, slip: float = 0.0) -> list[Mark]:
    """Marks as they are seen; the last is measured wrong by `slip` [mm]."""
    seen = camera(np.array(places), bend)
    found = [
        Mark(x_mm=x, y_mm=y, column=float(c), row=float(r))
        for (x, y), (c, r) in zip(places, seen, strict=True)
    ]
    return [*found[:-1], replace(found[-1], x_mm=found[-1].x_mm + slip)]


def error_mm(marks: list[Mark], bend: float) -> float:
    """How far places all over the board are from where the fit puts them [mm]."""
    grid = np.array([(x, y) for x in np.linspace(5, 595, 12) for y in np.linspace(5, 145, 5)])
    fit = fitted(marks, PHOTO)
    away = np.linalg.norm(fit.dots(grid) - camera(grid, bend), axis=1)
    step = np.linalg.norm(
        camera(np.array([[301.0, 75.0]]), bend) - camera(np.array([[300.0, 75.0]]), bend)
    )
    return float(away.max() / step)


@pytest.mark.parametrize("bend", [0.0, -0.02, -0.08, 0.03])
def test_eight_marks_undo_lens_and_slant(bend: float) -> None:
    assert error_mm(marks_at(PLACES, bend), bend) < 0.15


def test_four_marks_do_without_a_lens_and_say_that_nothing_is_known() -> None:
    assert error_mm(marks_at(CORNERS, 0.0), 0.0) < 1e-6
    assert error_mm(marks_at(CORNERS, -0.08), -0.08) > 0.8
    assert fitted(marks_at(CORNERS, 0.0), PHOTO).worst_mm is None
    assert "not known" in fitted(marks_at(CORNERS, 0.0), PHOTO).told


def test_a_mark_measured_wrong_shows_in_what_is_told() -> None:
    good = fitted(marks_at(PLACES, -0.03), PHOTO)
    bad = fitted(marks_at(PLACES, -0.03, slip=6.0), PHOTO)
    assert good.worst_mm is not None
    assert bad.worst_mm is not None
    assert good.worst_mm < 0.1
    assert bad.worst_mm > 0.8
    assert "mm" in bad.told


def test_too_few_marks_and_marks_in_a_line_are_refused() -> None:
    with pytest.raises(ValueError, match="3 marks"):
        fitted(marks_at(CORNERS, 0.0)[:3], PHOTO)
    line = [(20.0 + 100.0 * n, 30.0) for n in range(5)]
    with pytest.raises(ValueError, match="one line"):
        fitted(marks_at(line, 0.0), PHOTO)


@pytest.fixture(scope="module")
def photo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A photo of an oak board sawn from our own log, with eight dark discs on it."""
    wood = wood_of_stock("photographed", find_species("white oak"), SIZE)
    step = 0.5
    x = np.arange(0.0, SIZE[0], step)
    y = np.arange(0.0, SIZE[1], step)
    across, up = np.meshgrid(x, y)
    points = np.column_stack((across.ravel(), up.ravel(), np.full(across.size, 19.99)))
    face = wood.colours(points, step).reshape(len(y), len(x), 3)
    for place in PLACES:
        face[np.hypot(across - place[0], up - place[1]) < 8.0] = 0.06
    # Each dot of the photo looks for its place on the board: Newton steps on the camera.
    columns, rows = np.meshgrid(np.arange(PHOTO[0]) + 0.5, np.arange(PHOTO[1]) + 0.5)
    wanted = np.column_stack((columns.ravel(), rows.ravel()))
    at = np.tile(np.array([300.0, 75.0]), (len(wanted), 1))
    for _ in range(7):
        here = camera(at, -0.03)
        dx, dy = (camera(at + np.eye(2)[k], -0.03) - here for k in (0, 1))
        off = wanted - here
        det = dx[:, 0] * dy[:, 1] - dy[:, 0] * dx[:, 1]
        at = at + np.column_stack(
            (
                (off[:, 0] * dy[:, 1] - off[:, 1] * dy[:, 0]) / det,
                (off[:, 1] * dx[:, 0] - off[:, 0] * dx[:, 1]) / det,
            )
        )
    where = at[:, ::-1].T / step
    dots = np.stack(
        [map_coordinates(face[..., c], where, order=1, cval=0.75) for c in range(3)], axis=-1
    )
    path = tmp_path_factory.mktemp("photo") / "board.png"
    Image.fromarray((255 * dots.reshape(PHOTO[1], PHOTO[0], 3)).astype(np.uint8)).save(path)
    return path


def test_a_photographed_board_is_its_wood_again(photo: Path) -> None:
    rough = [
        replace(each, column=each.column + 7.0, row=each.row - 6.0)  # pointed at roughly
        for each in marks_at(PLACES, -0.03)
    ]
    found = wood_of_photo(photo, rough, SIZE)
    assert found.fit.worst_mm is not None
    assert found.fit.worst_mm < 0.3
    true = wood_of_stock("photographed", find_species("white oak"), SIZE)
    drawn = np.random.default_rng(2)
    points = np.column_stack(
        (drawn.uniform(40, 560, 3000), drawn.uniform(40, 110, 3000), np.full(3000, 19.99))
    )
    seen, known = found.colours(points, 1.5).mean(axis=1), true.colours(points, 1.5).mean(axis=1)
    moved = found.colours(points + np.array([0.0, 6.0, 0.0]), 1.5).mean(axis=1)
    alike = np.corrcoef(seen, known)[0, 1]
    assert alike > 0.6
    assert alike > np.corrcoef(moved, known)[0, 1] + 0.3


def test_a_dark_bench_beside_the_board_does_not_pull_a_mark() -> None:
    """A disc about (20, 24) on light wood that ends at row 34, where a dark bench begins."""
    rows, columns = np.indices((60, 60)) + 0.5
    grey = np.where(rows > 34.0, 0.25, 0.85)
    grey[np.hypot(rows - 24.0, columns - 20.0) < 7.0] = 0.07
    found = centred(grey, Mark(x_mm=0.0, y_mm=0.0, column=23.0, row=22.0))
    assert (found.column, found.row) == pytest.approx((20.0, 24.0), abs=0.15)


def test_no_disc_is_seen_on_the_wood(photo: Path) -> None:
    """The discs are 0.06 light; oak is four times that, and so is what runs on under them."""
    found = wood_of_photo(photo, marks_at(PLACES, -0.03), SIZE)
    for x, y in PLACES:
        on = np.array([(x + dx, y + dy, 19.99) for dx in (-6.0, 0.0, 6.0) for dy in (-5.0, 5.0)])
        assert found.colours(on, 0.4).mean(axis=1).min() > 0.24


def test_photos_stand_beside_the_file_of_boards(photo: Path, tmp_path: Path) -> None:
    boards = [
        straight_board(name="A", length_mm=600, width_mm=150, thickness_mm=20, species="oak"),
        straight_board(name="B", length_mm=600, width_mm=150, thickness_mm=20, species="oak"),
    ]
    csv = tmp_path / "my_boards.csv"
    assert photos_beside(csv, boards) == {}
    assert photos_beside(boards, boards) == {}
    rows = ",\n".join(
        f'{{ x = "{each.x_mm} mm", y = "{each.y_mm / 10} cm",'
        f" at = [{each.column:.0f}, {each.row:.0f}] }}"
        for each in marks_at(PLACES, -0.03)
    )
    told = tmp_path / "my_boards_photos.toml"
    told.write_text(f'[A]\nfile = "{photo}"\nmarks = [\n{rows}\n]\n', encoding="utf-8")
    found = photos_beside(csv, boards)
    assert set(found) == {"A"}
    assert found["A"].size == SIZE
    assert "true to" in found["A"].told
    told.write_text('[Z]\nfile = "x"\nmarks = []\n[B]\nfile = "none.png"\nmarks = []\n')
    with pytest.raises(PhotoError) as caught:
        photos_beside(csv, boards)
    assert "Z: there is no board" in str(caught.value)
    assert "B: " in str(caught.value)
