"""Counts what runs into what on the board sheets of random jobs.

Run as `python -m tests.exporters.board_census`: prints a line for each paper and ends with 1 when
anything collides, does not fit or has no name.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter

from exporters.cutting.sheets import cutting_sheets
from exporters.sheets import Paper, SheetSettings
from exporters.sheets.dxf import document_of
from exporters.sheets.values import Lettering
from tests.exporters.board_samples import random_outcome
from tests.exporters.collisions import collisions_in
from tests.models import piece_of


def main() -> int:
    """The exit code, after the counts are printed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=60)
    parser.add_argument("--first", type=int, default=0, help="seed of the first job")
    options = parser.parse_args()
    counts: dict[Paper, Counter[str]] = {paper: Counter() for paper in Paper}
    for seed in range(options.first, options.first + options.jobs):
        outcome = random_outcome(seed)
        piece = piece_of("tea_box" if outcome.job.shown.is_inch else "herb_stand")
        for paper, count in counts.items():
            sheets = cutting_sheets(piece, outcome, SheetSettings(paper=paper), 1)
            for sheet in sheets:
                count["sheets"] += 1
                for collision in collisions_in(document_of(sheet)):
                    count["collisions"] += 1
                    print(f"  {seed}, {paper.title}, {sheet.name}: {collision}", flush=True)
            words = " ".join(
                item.text for sheet in sheets for item in sheet.items if isinstance(item, Lettering)
            )
            count["do not fit"] += words.count("No room for a drawing")
            count["crowded"] += words.count("Crowded")
            for laid in outcome.blanks:
                names = {outcome.name_of(laid.placement), *laid.instances}
                count["parts"] += len(laid.instances)
                count["without a name"] += sum(name not in words for name in names)
    for paper, count in counts.items():
        print(
            f"{paper.title}: {count['sheets']} sheets, {count['parts']} parts, "
            f"{count['crowded']} lettered by keys, "
            + ", ".join(f"{count[what]} {what}" for what in _BAD)
        )
    return 1 if any(count[what] for count in counts.values() for what in _BAD) else 0


_BAD = ("collisions", "do not fit", "without a name")

if __name__ == "__main__":
    sys.exit(main())
