"""Nothing is guessed from a text that the program itself has put together.

Whoever knows a thing says it as a value. So text is taken apart only where it comes from outside,
or where it is about the letters themselves; each such place stands here with its reason.
"""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
APART = {
    "startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition", "rsplit",
    "split",
}  # fmt: skip
"""What takes a text apart."""

WRITTEN = "what a maker has written"
OUTSIDE = "what another program, a library or the system has written"
RECORD = "the records' own field names, which carry their units"
LETTERS = "about letters alone: wrapping, plurals, marks of rounding, what a row of names shares"
SHEETS = "a sheet's place in the set, in front of its name"
BATCH = "names in a batch, which `in_batch` puts together, beside it"

HONEST = {
    "exporters/compare/given.py": (4, WRITTEN),
    "exporters/compare/page.py": (1, OUTSIDE),
    "exporters/cutting/picture.py": (2, LETTERS),
    "exporters/cutting/words.py": (1, LETTERS),
    "exporters/exchange/swap.py": (1, OUTSIDE),
    "exporters/page/page.py": (1, OUTSIDE),
    "exporters/patterns/pages.py": (1, LETTERS),
    "exporters/pdf/lettering.py": (5, OUTSIDE),
    "exporters/revision/marks.py": (1, SHEETS),
    "exporters/sheets/callouts.py": (1, "an array of numbers, in lots"),
    "exporters/sheets/lettering.py": (2, LETTERS),
    "exporters/sheets/numbering.py": (1, SHEETS),
    "exporters/sheets/part_notes.py": (1, LETTERS),
    "exporters/sheets/title_block.py": (1, LETTERS),
    "exporters/step_order.py": (1, OUTSIDE),
    "exporters/watch/server.py": (3, OUTSIDE),
    "exporters/work/lines.py": (2, LETTERS),
    "furniture/checks/of_piece/reading.py": (4, LETTERS),
    "furniture/job/batch_file.py": (2, WRITTEN),
    "furniture/job/contradictions.py": (1, RECORD),
    "furniture/job/job_lines.py": (4, WRITTEN),
    "furniture/job/levers.py": (1, LETTERS),
    "furniture/job/packet.py": (2, "the heading of an error's own text"),
    "furniture/job/records.py": (1, WRITTEN),
    "furniture/job/ticked.py": (2, WRITTEN),
    "furniture/job/worked.py": (2, BATCH),
    "furniture/making/strips_in_hand.py": (2, BATCH),
    "furniture/parts/cuts/cut.py": (3, RECORD),
    "furniture/parts/part.py": (1, WRITTEN),
    "furniture/parts/turning.py": (1, LETTERS),
    "furniture/pieces/naming.py": (2, LETTERS),
    "furniture/reference.py": (3, "docstrings and field names, for the reference"),
    "furniture/shop/boards/csv_file.py": (3, WRITTEN),
    "furniture/shop/boards/csv_text.py": (5, WRITTEN),
    "furniture/shop/boards/names.py": (1, WRITTEN),
    "furniture/shop/boards/prices.py": (1, WRITTEN),
    "furniture/timber/species.py": (2, WRITTEN),
    "furniture/timber/table.py": (1, "the table of woods"),
    "furniture/units/grammar.py": (5, WRITTEN),
    "furniture/units/name_reader.py": (2, WRITTEN),
    "furniture/units/showing.py": (3, LETTERS),
    "furniture/units/texts.py": (1, LETTERS),
    "furniture/units/unit_names.py": (3, "the table of units"),
    "furniture/units/words.py": (2, LETTERS),
    "furniture/units/written.py": (5, RECORD),
}
"""How often a text is taken apart in a file, and what it is."""


def test_a_text_is_taken_apart_only_where_it_comes_from_outside() -> None:
    found: Counter[str] = Counter()
    for package in ("furniture", "exporters"):
        for path in sorted((ROOT / package).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                called = node.func if isinstance(node, ast.Call) else None
                if isinstance(called, ast.Attribute) and called.attr in APART:
                    found[path.relative_to(ROOT).as_posix()] += 1
    assert dict(found) == {path: count for path, (count, _) in HONEST.items()}
