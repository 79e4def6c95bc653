"""The demo photo: made by our own code, current, and taken for the wood of the board it shows."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from exporters.photo import photos_beside
from renders.photos import BOARD, MODEL, MODELS, Eye, board_and_wood, make, marks_of

BOARDS_FILE = MODELS / f"{MODEL}_boards.csv"
PHOTO = MODELS / f"{MODEL}_board_{BOARD.lower()}.jpg"


def test_the_eye_looks_back_to_where_it_saw() -> None:
    board, _ = board_and_wood(MODEL, BOARD)
    eye = Eye(board=board)
    places = np.array([*marks_of(board), (0.0, 0.0), (700.0, 90.0)])
    assert np.abs(eye.places(eye.dots(places)) - places).max() < 1e-3


def test_the_demo_photo_is_taken_for_the_boards_wood() -> None:
    """Eight marks undo slant and lens; the figure is that of the log, and nowhere else so alike."""
    board, wood = board_and_wood(MODEL, BOARD)
    found = photos_beside(BOARDS_FILE, [board])[BOARD]
    assert found.fit.worst_mm is not None
    assert found.fit.worst_mm < 0.5
    drawn = np.random.default_rng(5)
    points = np.column_stack(
        (drawn.uniform(60, 1400, 2000), drawn.uniform(40, 170, 2000), np.full(2000, 16.99))
    )
    seen, true, astray = (
        each.colours(points + np.array(shift), 1.5).mean(axis=1)
        for each, shift in ((found, (0, 0, 0)), (wood, (0, 0, 0)), (found, (0.0, 7.0, 0.0)))
    )
    alike = np.corrcoef(seen, true)[0, 1]
    assert alike > 0.6
    assert alike > np.corrcoef(astray, true)[0, 1] + 0.3


def test_the_demo_photo_is_todays(tmp_path: Path) -> None:
    """Made anew by `python -m renders.photos`."""
    photo, told = make(tmp_path)
    assert told.read_text() == (MODELS / told.name).read_text()
    now, then = (np.asarray(Image.open(each), dtype=float) for each in (photo, PHOTO))
    assert now.shape == then.shape
    assert np.abs(now - then).mean() < 1.0
    assert PHOTO.stat().st_size == pytest.approx(photo.stat().st_size, rel=0.05)
