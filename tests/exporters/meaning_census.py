"""Counts what would lead a reader astray on the sheets of models, random parts and whole pieces.

Run as `python -m tests.exporters.meaning_census`: mates measured from different faces, one length
with two texts, views out of the stated projection, planes without a section and details without a
place, leaders that cross. It ends with 1 when anything is found.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from exporters.sheets import SheetSettings
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.inside_sheet import inside_sheets
from exporters.sheets.numbering import numbered
from exporters.sheets.positions import glued_on
from exporters.sheets.section_planes import sectioned
from exporters.sheets.sheets import sheets_of_parts, tasks_of
from exporters.sheets.values import Sheet
from furniture.pieces.piece import Piece, distinct_parts
from furniture.units import inches, millimetres
from tests.exporters.documents import documents_of, write_documents
from tests.exporters.sheet_meaning import (
    Astray,
    figures_unlike,
    figures_unlike_of,
    leaders_crossed,
    letters_astray,
    mates_apart,
    noughts_alone,
    views_out_of_place,
)
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_samples import piece_of, random_part
from tests.exporters.whole_pieces import random_piece
from tests.models import NAMES
from tests.models import piece_of as model_of


def astray_in(piece: Piece) -> Iterator[Astray]:
    """Everything that is counted, for one piece: its parts, its sections and its joints.

    Args:
        piece: of any kind.
    """
    settings = SheetSettings()
    parts = list(sheets_of_parts(piece, settings, distinct_parts(piece), 1))
    whole: list[Sheet] = []
    if len(piece.placed) > 1 and piece.joinings:
        task_of = tasks_of(piece, settings)
        whole = inside_sheets(task_of, sectioned(piece), glued_on(piece)).sheets
    yield from astray_on(piece, numbered(parts), numbered(whole))


def astray_on(piece: Piece, parts: Sequence[Sheet], whole: Sequence[Sheet]) -> Iterator[Astray]:
    """Everything that is counted on the sheets of parts, and on those of sections and joints.

    Args:
        piece: that they are of.
        parts: in order.
        whole: all that marks a plane or a joint.
    """
    of_parts, of_whole = documents_of(parts), documents_of(whole)
    with tempfile.TemporaryDirectory() as folder:
        read = read_parts(write_documents(of_parts, Path(folder)))
    yield from mates_apart(piece, read)
    yield from figures_unlike_of(read)
    yield from noughts_alone(read)
    yield from views_out_of_place(read)
    yield from letters_astray(of_whole)
    yield from figures_unlike(of_whole)
    for named in (*of_parts, *of_whole):
        yield from leaders_crossed(named)


def main() -> int:
    """The exit code, after the counts are printed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pieces", type=int, default=200, help="random parts, one a piece")
    parser.add_argument("--wholes", type=int, default=24, help="random stands and boxes")
    parser.add_argument("--first", type=int, default=0, help="seed of the first piece")
    options = parser.parse_args()
    seeds = range(options.first, options.first + options.pieces)
    wholes = range(options.first, options.first + options.wholes)
    total = 0
    for what, pieces in (
        ("models", ((name, model_of(name)) for name in NAMES)),
        ("random parts", ((str(seed), _of_one_part(seed)) for seed in seeds)),
        ("whole pieces", ((str(seed), random_piece(seed)) for seed in wholes)),
    ):
        counts: Counter[str] = Counter()
        for name, piece in pieces:
            counts["pieces"] += 1
            try:
                found = list(astray_in(piece))
            except NoRoomError as error:
                found = [Astray(f"does not fit: {error}", "")]
            for each in found:
                counts["astray"] += 1
                print(f"  {name}, {each.where}: {each.what}", flush=True)
        print(f"{counts['pieces']} {what}: {counts['astray']} astray", flush=True)
        total += counts["astray"]
    return 1 if total else 0


def _of_one_part(seed: int) -> Piece:
    shown = inches(64) if seed % 3 == 0 else millimetres(0.1)
    return piece_of(random_part(seed), shown=shown)


if __name__ == "__main__":
    sys.exit(main())
