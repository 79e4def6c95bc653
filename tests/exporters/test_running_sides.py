"""Running figures across a part stand at the end where their lines run through nothing else."""

from __future__ import annotations

import random
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from exporters.sheets import PartsOn, SheetSettings
from exporters.sheets.sheets import sheets_of_parts
from furniture.parts.cuts import Bore, Dado
from furniture.parts.faces import Face
from furniture.pieces.piece import distinct_parts
from furniture.units import inches, millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import documents_of, write_documents
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_samples import part, piece_of


@pytest.mark.seeds(few=3, full=60)
def test_no_figure_of_a_bore_runs_through_dados(seed: int) -> None:
    """Bores stand before all dados of an upright, or beyond them."""
    dice = random.Random(seed)
    length, width = dice.uniform(400.0, 900.0), dice.uniform(80.0, 200.0)
    is_far = dice.random() < 0.5
    at, across = dice.uniform(8.0, 40.0), width * dice.uniform(0.1, 0.4)
    stop = dice.uniform(0.05, 0.2) * width
    pitch = (length - 160.0) / 4
    upright = part(
        "upright",
        (length, width, 19.0),
        Bore(face=Face.FACE_SIDE, x_mm=length - at if is_far else at, y_mm=across,
             diameter_mm=6.0, depth_mm=12.0),
        *(Dado(face=Face.FACE_SIDE, lower_shoulder_mm=90.0 + index * pitch, width_mm=13.0,
               depth_mm=6.0, stop_from_back_edge_mm=stop) for index in range(4)),
    )  # fmt: skip
    shown = inches(64) if seed % 3 == 0 else millimetres(0.1)
    piece = piece_of(upright, shown=shown)
    alone = SheetSettings(parts_on=PartsOn.THEIR_OWN)
    documents = documents_of(sheets_of_parts(piece, alone, distinct_parts(piece), 1))
    with TemporaryDirectory() as folder:
        (sheet,) = read_parts(write_documents(documents, Path(folder)))[1]
    view = sheet.views["face side"]
    left, _, right, _ = view.box
    ((x, _, _),) = set(view.circles)
    told = {round(figure.said_mm): figure for figure in view.running(False)}
    bore = min(told.items(), key=lambda each: abs(each[0] - across))[1]
    stopped = min(told.items(), key=lambda each: abs(each[0] - (width - stop)))[1]
    assert bore is not stopped
    at_left = abs(bore.start[0] - left) < abs(bore.start[0] - right)
    assert at_left == (abs(x - left) < abs(x - right)), "the bore's stands at its own end"
    assert collisions_in(documents[0].document) == ()
