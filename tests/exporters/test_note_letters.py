"""Letters of notes stand at what they mean, and their notes are read in the order of letters."""

from __future__ import annotations

import random
import re
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.paper import Box2
from exporters.sheets.part_callouts import as_read
from exporters.sheets.sheets import sheets_of_parts
from furniture.parts.cuts import Dado
from furniture.parts.faces import Face
from furniture.pieces.piece import Piece, distinct_parts
from furniture.units import Shown, inches, millimetres
from tests.exporters.documents import documents_of, write_documents
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_samples import MIXED_POST, part, piece_of, random_part
from tests.exporters.sheet_values import text_of
from tests.models import piece_of as model_of


def _box(left: float, bottom: float) -> Box2:
    return Box2(left=left, bottom=bottom, right=left + 30.0, top=bottom + 10.0)


def test_notes_are_read_from_the_top_and_beside_one_another_from_the_left() -> None:
    notes = {"a": _box(0, 0), "b": _box(90, 52), "c": _box(10, 50), "d": _box(50, 90)}
    assert as_read(notes) == ["d", "c", "b", "a"]


def _notes_read(piece: Piece) -> int:
    """How many lettered notes stand on the sheets; it holds their order and their letters."""
    count = 0
    documents = documents_of(sheets_of_parts(piece, SheetSettings(), distinct_parts(piece), 1))
    for named in documents:
        texts = [text_of(each) for each in named.document.modelspace().query("TEXT")]
        notes = [text for text in texts if re.match("[a-z]: ", text.words)]
        for note in notes:
            letter = note.words[0]
            assert any(t.words == letter and t.halign == 1 for t in texts), letter
        if len(distinct_parts(piece)) == 1:
            for one, other in pairwise(notes):
                first, second = sorted((one, other), key=lambda text: text.words)
                is_beside = abs(first.y - second.y) < first.height
                assert first.x < second.x if is_beside else first.y > second.y
        count += len(notes)
    return count


@pytest.mark.parametrize("shown", [millimetres(0.1), inches(64)], ids=["mm", "in"])
def test_notes_of_a_part_are_lettered_as_they_are_read(shown: Shown) -> None:
    dados = [
        Dado(face=Face.FACE_SIDE, lower_shoulder_mm=at, width_mm=wide, depth_mm=6.5)
        for at, wide in ((78.3, 10.9), (212.5, 10.4), (346.0, 10.4), (590.0, 10.9))
    ]
    assert _notes_read(piece_of(part("post", (700.0, 90.0, 19.7), *dados), shown=shown)) == 2
    assert _notes_read(piece_of(MIXED_POST, shown=shown)) == 1


@pytest.mark.seeds(few=4, full=80)
def test_notes_of_random_parts_are_lettered_as_they_are_read(seed: int) -> None:
    _notes_read(piece_of(random_part(random.Random(seed).randrange(10**6))))


def test_letters_still_stand_for_their_own_cuts() -> None:
    """Uprights with dados and bores in one face: what is lettered is read back from the sheet."""
    piece = model_of("yarn_steps")
    uprights = [each for each in distinct_parts(piece) if "upright" in each.part.name]
    with TemporaryDirectory() as folder:
        documents = documents_of(sheets_of_parts(piece, SheetSettings(), uprights, 5))
        (sheet,) = read_parts(write_documents(documents, Path(folder)))[5]
    counts = {each.words.split(",")[0]: len(each.targets) for each in sheet.callouts}
    assert counts["5 dados"] == 5
