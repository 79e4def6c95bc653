"""Counts what runs into what on the sheets of random parts.

Run as `python -m tests.exporters.sheet_census`: prints a line for each paper and ends with 1 when
anything collides or does not fit.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter

from exporters.sheets import Paper, SheetSettings, sheets_of
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.collisions import collisions_in
from exporters.sheets.dxf import document_of
from furniture.units import inches, millimetres
from tests.exporters.sheet_samples import piece_of, random_part


def main() -> int:
    """The exit code, after the counts are printed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pieces", type=int, default=200)
    parser.add_argument("--first", type=int, default=0, help="seed of the first piece")
    options = parser.parse_args()
    total = 0
    for paper in Paper:
        counts: Counter[str] = Counter()
        for seed in range(options.first, options.first + options.pieces):
            shown = inches(64) if seed % 3 == 0 else millimetres(0.1)
            piece = piece_of(random_part(seed), shown=shown)
            try:
                sheets = sheets_of(piece, SheetSettings(paper=paper))
            except NoRoomError as error:
                counts["does not fit"] += 1
                print(f"  {seed}: {error}")
                continue
            for sheet in sheets:
                counts["sheets"] += 1
                for collision in collisions_in(document_of(sheet)):
                    counts["collisions"] += 1
                    print(f"  {seed}, {sheet.name}: {collision}")
        print(
            f"{paper.title}: {counts['sheets']} sheets, {counts['collisions']} collisions, "
            f"{counts['does not fit']} that do not fit"
        )
        total += counts["collisions"] + counts["does not fit"]
    return 1 if total else 0


if __name__ == "__main__":
    sys.exit(main())
