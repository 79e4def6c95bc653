"""What the README says of boards files is what the reader of those files does."""

from __future__ import annotations

import re

from furniture.shop.boards.csv_file import COLUMNS
from furniture.shop.boards.job import cutting_job, problems_of_boards
from furniture.shop.cutting.values import ZoneKind, ZoneShows
from tests.models import ROOT, piece_of

README = (ROOT / "README.md").read_text(encoding="utf-8")
SECTION = README.split("## Your boards")[1].split("\n## ")[0]


def test_every_column_kind_and_face_is_explained():
    named = re.findall(r"^\| `([a-z ]+)` \|", SECTION, re.MULTILINE)
    assert sorted(named) == sorted(COLUMNS)
    for kind in (*ZoneKind, *ZoneShows):
        assert f"`{kind.value}`" in SECTION


def test_the_example_can_be_read_as_it_stands(tmp_path):
    """By hand: the board tapers from 246 to 224, the knot begins 1128 from the end."""
    (example,) = re.findall(r"```csv\n(.*?)```", SECTION, re.DOTALL)
    path = tmp_path / "example.csv"
    path.write_text(example, encoding="utf-8")
    assert problems_of_boards(path) == ()
    rest = "".join(
        f"board,{name},,,1500,250,,{thick},{stock},9,\n"
        for name, thick, stock in (("T", "13.4", '"oak, thin"'), ("P", "6.4", '"oak, resawn"'))
    )
    path.write_text(example + rest, encoding="utf-8")
    board = cutting_job(piece_of("herb_stand"), path).boards[0]
    assert [station.width_mm for station in board.stations] == [246.0, 224.0]
    assert board.zones[0].outline[0] == (1128.0, 30.0)
    assert board.zones[1].outline == ((0, 214), (1460, 204), (1460, 224), (0, 246))
    assert (board.price, board.thickness_mm) == (41.0, 19.7)
