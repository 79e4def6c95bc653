"""Counts what runs into what on the sheets of random parts and of whole random pieces.

Run as `python -m tests.exporters.sheet_census`: prints a line for each paper and ends with 1 when
anything collides or does not fit. It tells too how much of the sheets stays empty.
"""

from __future__ import annotations

import argparse
import statistics
import sys
from collections import Counter
from collections.abc import Callable, Iterable

from exporters.sheets import Paper, SheetSettings, sheets_of
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.dxf import document_of
from furniture.pieces.piece import Piece
from furniture.units import inches, millimetres
from tests.exporters.blank import blank_share
from tests.exporters.collisions import collisions_in
from tests.exporters.sheet_samples import piece_of, random_part
from tests.exporters.whole_pieces import random_piece


def main() -> int:
    """The exit code, after the counts are printed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pieces", type=int, default=200, help="random parts, one a piece")
    parser.add_argument("--wholes", type=int, default=24, help="random stands and boxes")
    parser.add_argument("--first", type=int, default=0, help="seed of the first piece")
    options = parser.parse_args()
    total = 0
    for what, make, count in (
        ("random parts", _piece_of_one_part, options.pieces),
        ("whole pieces", random_piece, options.wholes),
    ):
        for paper in Paper:
            counts, blank = _counted(make, range(options.first, options.first + count), paper)
            print(
                f"{count} {what}, {paper.title}: {counts['sheets']} sheets, "
                f"{counts['collisions']} collisions, {counts['does not fit']} that do not fit; "
                f"empty {statistics.median(blank or [0.0]):.0%} in the median, "
                f"{max(blank, default=0.0):.0%} at most",
                flush=True,
            )
            total += counts["collisions"] + counts["does not fit"]
    return 1 if total else 0


def _piece_of_one_part(seed: int) -> Piece:
    shown = inches(64) if seed % 3 == 0 else millimetres(0.1)
    return piece_of(random_part(seed), shown=shown)


def _counted(
    make: Callable[[int], Piece], seeds: Iterable[int], paper: Paper
) -> tuple[Counter[str], list[float]]:
    counts: Counter[str] = Counter()
    blank: list[float] = []
    for seed in seeds:
        try:
            sheets = sheets_of(make(seed), SheetSettings(paper=paper))
        except NoRoomError as error:
            counts["does not fit"] += 1
            print(f"  {seed}: {error}", flush=True)
            continue
        for sheet in sheets:
            counts["sheets"] += 1
            blank.append(blank_share(sheet))
            for collision in collisions_in(document_of(sheet)):
                counts["collisions"] += 1
                print(f"  {seed}, {sheet.name}: {collision}", flush=True)
    return counts, blank


if __name__ == "__main__":
    sys.exit(main())
