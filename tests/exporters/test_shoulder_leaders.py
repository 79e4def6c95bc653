"""A leader to the shoulder that is marked from comes over wood that stays, not over the trench."""

from __future__ import annotations

import math
import random
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from exporters.sheets import PartsOn, SheetSettings
from exporters.sheets.sheets import sheets_of_parts
from furniture.parts.cuts import Dado
from furniture.parts.faces import WIDE_FACES
from furniture.parts.part import Part
from furniture.pieces.piece import distinct_parts
from furniture.units import Shown, inches, millimetres
from tests.exporters.documents import documents_of, write_documents
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_samples import MIXED_POST, POST, part, piece_of
from tests.exporters.sheet_values import leaders_of, text_of

ALONE = SheetSettings(parts_on=PartsOn.THEIR_OWN)


def _with_housings(seed: int) -> Part:
    """A board with a few dados in one face, some of them stopped at either edge."""
    dice = random.Random(seed)
    length, width = dice.uniform(250.0, 900.0), dice.uniform(60.0, 220.0)
    thick, count = dice.uniform(14.0, 25.0), dice.randint(1, 5)
    face, wide = dice.choice(WIDE_FACES), dice.uniform(6.0, thick)
    pitch = length / (count + 1)
    stops = [dice.choice((0.0, 0.0, width / 8)) for _ in range(2)]
    return part(
        "side",
        (length, width, thick),
        *(
            Dado(
                face=face,
                lower_shoulder_mm=pitch * (at + dice.uniform(0.4, 1.0)),
                width_mm=wide,
                depth_mm=thick / 3,
                stop_from_face_edge_mm=stops[0],
                stop_from_back_edge_mm=stops[1],
            )
            for at in range(count)
        ),
    )


def _comes_over_wood(made: Part, shown: Shown) -> None:
    piece = piece_of(made, shown=shown)
    sheets = sheets_of_parts(piece, ALONE, distinct_parts(piece), 1)
    documents = documents_of(sheets)
    told = 0
    for named in documents:
        space = named.document.modelspace()
        leaders = leaders_of(space)
        for text in (text_of(each) for each in space.query("TEXT")):
            if not text.words.startswith("mark from this"):
                continue
            told += 1
            level = text.y + text.height / 2
            landings = [
                one for one, other in pairwise(leaders)
                if other[0] == one[1] and abs(one[0][1] - level) < 0.01 * text.height
            ]  # fmt: skip
            landing = min(landings, key=lambda line: abs(line[0][0] - text.x))
            elbow, tip = next(line for line in leaders if line[0] == landing[1])
            # named end to the left: the nearer shoulder has its trench to the right of it
            assert tip[0] - elbow[0] >= 0.24 * math.dist(elbow, tip), made
    assert told
    with TemporaryDirectory() as folder:
        read = read_parts(write_documents(documents, Path(folder)))
    assert any(each.words.startswith(("dado", "2 d", "3 d", "4 d", "5 d"))
               for sheet in read[1] for each in sheet.callouts)  # fmt: skip


@pytest.mark.parametrize("made", [POST, MIXED_POST], ids=lambda made: made.id)
@pytest.mark.parametrize("shown", [millimetres(0.1), inches(64)], ids=["mm", "in"])
def test_a_posts_shoulder_is_pointed_at_from_the_datum(made: Part, shown: Shown) -> None:
    _comes_over_wood(made, shown)


@pytest.mark.seeds(few=3, full=80)
def test_random_housings_are_pointed_at_from_the_datum(seed: int) -> None:
    _comes_over_wood(_with_housings(seed), inches(64) if seed % 3 == 0 else millimetres(0.1))
