"""Boards files as spreadsheets make them, and slips in boards and wishes: read, or named."""

from __future__ import annotations

import random
import time
from dataclasses import replace

import pytest

from furniture import DesignError
from furniture.shop.boards import (
    MUST,
    BoardZone,
    CuttingWishes,
    Match,
    MatchRule,
    MeasuredBoard,
    PartWish,
    ZoneKind,
    problems_of_boards,
)
from furniture.shop.boards.job import cutting_job
from tests.shop.boards.bench import stand

GOOD = (
    "what,board,name,x [mm],y [mm],length [mm],width [mm],thickness [mm],stock,price [EUR],note\n"
    'board,A,,,,1500,190.5,19.7,thick,48.5,"rough, one edge"\n'
    "knot,A,,700,30,20,15.5,,,,\n"
)
PLAIN = GOOD.replace('"rough, one edge"', "rough")
SPREADSHEET = PLAIN.replace(",", ";").replace(".", ",")


def _read(tmp_path, raw):
    path = tmp_path / "b.csv"
    path.write_bytes(raw)
    return problems_of_boards(path)


@pytest.mark.parametrize(
    "raw",
    [
        SPREADSHEET.encode(),
        ("\ufeff" + SPREADSHEET).replace("\n", "\r\n").encode(),
        PLAIN.replace(",", "\t").encode(),
        GOOD.replace("15.5", '"15,5"').encode(),
        GOOD.encode("utf-16"),
        ("\ufeff" + GOOD).encode(),
    ],
)
def test_what_a_spreadsheet_saves_is_read(tmp_path, raw):
    assert _read(tmp_path, raw) == ()


def test_letters_of_another_encoding_are_read_and_it_is_said(tmp_path):
    """A western spreadsheet's 8-bit letters; a file in UTF-8 says nothing."""
    path = tmp_path / "b.csv"
    text = GOOD + "knot,A,f\u00e4ule,900,30,20,15.5,,,,gro\u00df\n"
    for encoding, said in (("cp1252", ("b.csv",)), ("utf-8", ())):
        path.write_bytes(text.encode(encoding))
        job = cutting_job(stand(), path)
        assert [each.name for each in job.boards[0].zones][-1] == "f\u00e4ule"
        assert tuple(each.split()[0] for each in job.remarks) == said
        assert all("line 4" in each for each in job.remarks)


@pytest.mark.parametrize(
    ("raw", "parameter", "words"),
    [
        (b"PK\x03\x04rest", "boards file b.csv", "a spreadsheet"),
        (PLAIN.encode().replace(b"rough", b"sch\x81n"), "b.csv line 2", "column"),
        (GOOD.replace("thick,", "th\0ick,").encode(), "b.csv line 2", "zero byte"),
        (GOOD.replace("15.5", "15,5").replace(",,,,\n", ",,,,note\n").encode(), "b.csv line 3",
         "12 cells"),
        (b"what,board\n", "b.csv line 1", "missing heading"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_named_with_its_place(tmp_path, raw, parameter, words):
    problems = _read(tmp_path, raw)
    assert [each.parameter for each in problems] == [parameter]
    assert words in problems[0].given


def test_a_heading_in_the_wrong_unit_is_suspected(tmp_path):
    problems = _read(tmp_path, GOOD.replace("length [mm]", "length [cm]").encode())
    assert problems[0].remedy.startswith("did you mean '1500 mm'? else ")


SHARDS = [
    b",",
    b";",
    b"\n",
    b'"',
    b"#",
    b"\0",
    b"\xff",
    b"1e9999",
    b"9" * 400,
    b"(",
    b"\xe2\x81\x84",
]


@pytest.mark.seeds(few=1, full=25)
def test_a_damaged_file_is_read_or_refused_and_never_a_foreign_error(tmp_path, seed):
    """Bytes dropped, doubled, exchanged and put in, in 200 files."""
    draw = random.Random(seed)
    for _ in range(200):
        raw = bytearray(draw.choice([GOOD, SPREADSHEET]).encode())
        for _ in range(draw.randint(1, 6)):
            at = draw.randrange(len(raw))
            raw[at : at + draw.randint(0, 3)] = draw.choice([b"", *SHARDS, raw[at : at + 5] * 2])
        begun = time.perf_counter()
        for problem in _read(tmp_path, bytes(raw)):
            assert problem.why
            assert problem.remedy.strip() != "make it"
        assert time.perf_counter() - begun < 5.0, bytes(raw)


FIGURE = BoardZone(
    kind=ZoneKind.FIGURE, name="ray fleck", x="100 mm", y="20 mm", length="300 mm", width="90 mm"
)
BOARD = MeasuredBoard(
    name="A", stock="thick", length="1500 mm", widths="190 mm", thickness="19.7 mm", price="48 EUR",
    zones=[FIGURE],
)  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"length": "-300 mm"}, "length"),
        ({"width": "0 mm"}, "width"),
        ({"name": ["a"]}, "name"),
        ({"name": "x" * 81}, "name"),
        ({"corners": 5, "x": None, "y": None, "length": None, "width": None}, "corners"),
    ],
)
def test_a_zone_has_a_size_and_a_name(changes, named):
    problems = problems_of_boards([replace(BOARD, zones=[replace(FIGURE, **changes)])])
    assert problems[0].parameter == f"board 1 (A) zone 1 {named}"


@pytest.mark.parametrize("price", ["1e308", 1e308, 10**400, "9" * 400, "-5 EUR", [1, 2], True])
def test_a_board_has_a_possible_price(price):
    (problem,) = problems_of_boards([replace(BOARD, price=price)])
    assert problem.parameter == "board 1 (A) price"


@pytest.mark.parametrize("price", ["25 EUR", None])
def test_a_match_in_a_zone_that_no_board_bears_is_told_the_near_word(price):
    match = Match(
        rule=MatchRule.CENTRED_ON_FIGURE, on="lid", zone="ray flek", price=price, name="fleck"
    )
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), [BOARD], CuttingWishes(matches=match))
    (problem,) = [each for each in caught.value.problems if "match" in each.parameter]
    assert problem.parameter == "wishes: match 1 (fleck) zone"
    assert problem.remedy == "write 'ray fleck'"


def test_a_must_in_a_zone_that_no_board_bears_is_told_the_near_word_and_the_price():
    match = Match(rule=MatchRule.CENTRED_ON_FIGURE, on="lid", zone="ray flek", price=MUST)
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), [BOARD], CuttingWishes(matches=match))
    (problem,) = [each for each in caught.value.problems if "match" in each.parameter]
    assert problem.remedy.startswith("write 'ray fleck', or give the match a price")


def test_a_misspelt_group_is_told_the_near_one():
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), [BOARD], CuttingWishes(parts=PartWish(on="teirs")))
    where = "wishes: part wish 1 (teirs) on"
    told = [each.remedy for each in caught.value.problems if each.parameter == where]
    assert told == ["write 'tiers'"]
