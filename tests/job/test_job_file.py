"""The job file: what is read, and every fault of a wrong one at once, with its line."""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest

from furniture import MeasuredBoard, ZoneKind, inches
from furniture.job.boards_now import boards_now
from furniture.job.figures import Figure, Of, designed_mm, plays_of, sizes_of
from furniture.job.job import Job
from furniture.job.job_file import read_job
from furniture.job.job_lines import JobError
from furniture.job.template import job_template
from furniture.units.showing import MM_PER_INCH
from tests.builders.bench import a_stand

STAND = a_stand()
PIECE = STAND.build()
BOARDS = (MeasuredBoard(name="A"), MeasuredBoard(name="B"))


def _read(folder: Path, text: str, boards: tuple[MeasuredBoard, ...] = ()) -> Job:
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return read_job(path, STAND, PIECE, boards)


def _faults(folder: Path, text: str, boards: tuple[MeasuredBoard, ...] = ()) -> list[str]:
    with pytest.raises(JobError) as error:
        _read(folder, text, boards)
    assert str(error.value).startswith("the job file has ")
    return [f"{each}" for each in error.value.problems]


def test_all_of_a_job_is_read(tmp_path: Path) -> None:
    job = _read(
        tmp_path,
        """
        [done]
        parts = ["left stub", "right stub"]
        [measured]
        "post.width" = "101.2 mm"
        "lid opening" = ["279.5 mm", '6 1/2 in']
        "lid opening diagonals" = ["325 mm", "324 mm"]
        [free]
        "left stub.length" = "base_width"
        [boards.A]
        length = "722 mm"
        zones = [{ what = "check", x = "512 mm", y = "30 mm", length = "60 mm", width = "4 mm" }]
        [boards."offcut 1"]
        stock = "oak, thick"
        length = "300 mm"
        width = "90 mm"
        thickness = "20 mm"
        """,
        BOARDS,
    )
    assert job.done_parts == {"left stub", "right stub"}
    assert job.measured == {
        Figure(instance="post", axis=1): 101.2,
        Figure(instance="lid", axis=0, of=Of.OPENING): 279.5,
        Figure(instance="lid", axis=1, of=Of.OPENING): pytest.approx(165.1),
    }
    assert job.diagonals == {"lid": (325.0, 324.0)}
    assert job.free == {"left stub.length": "base_width"}
    assert job.boards["A"].changed == {"length": "722 mm"}
    assert [zone.kind for zone in job.boards["A"].zones] == [ZoneKind.CHECK]
    assert job.boards["offcut 1"].changed["widths"] == "90 mm"


def test_a_key_without_quotes_is_the_same_key(tmp_path: Path) -> None:
    job = _read(tmp_path, '[measured]\npost.width = "101.2 mm"\n')
    assert job.measured == {Figure(instance="post", axis=1): 101.2}


WRONG = [
    ('[done]\nparts = ["left stubb"]', "line 2", "no part is called so", "write 'left stub'"),
    ('[done]\nparts = ["post", "post"]', "line 2", "twice", "leave one out"),
    ('[done]\nspoilt = ["left stubb"]', "line 2", "no part is called so", "write 'left stub'"),
    ('[done]\nspoilt = ["post", "post"]', "line 2", "made again once", "leave one out"),
    ('[done]\nparts = ["post"]\nspoilt = ["post"]', "line 2", "as spoilt", "leave it out of parts"),
    (
        '[done]\nspoilt = ["post"]\n[measured]\n"post.width" = "100 mm"',
        "line 4",
        "kept",
        "leave it",
    ),
    ('[done]\nparts = "post"', "line 2", "a list", 'write parts = ["post"]'),
    ("[done]\noperations = [1]", "line 2", "numbers of a packet", "write packet = "),
    ('[done]\nsteps = ["1 to 3"]', "line 2", "numbers of a packet", "write packet = "),
    ('packet = " "', "line 1", "the folder of an earlier run", "write packet = "),
    ('[measured]\n\n"post.width" = "101.2"', "line 3", "bare number", "write '101.2 mm'"),
    ('[measured]\n"post.width" = 101.2', "line 2", "101.2", "'101.2 mm'"),
    ('[measured]\n"post.width" = "1 m"', "line 2", "near the designed one", "make it 200 mm"),
    ('[measured]\n"pst.width" = "100 mm"', "line 2", "called so", "write 'post.width'"),
    ('[measured]\n"lid opening" = "100 mm"', "line 2", "two lengths", "write"),
    ('[measured]\n"post.width" = ["1 mm", "2 mm"]', "line 2", "one length", "leave"),
    ('[measured]\n"post.width" = "100 mm"\npost.width = "99 mm"', "'post.width' twice", "one out"),
    ('[measured]\n"post.width" = "1 in"\n"post.width" = "2 in"', "twice", "leave one"),
    ("measured = 3", "line 1", "a table", "[measured]"),
    ("[measurd]", "line 1", "no such key", "write 'measured'"),
    ('[free]\n"post.width" = "post_wide"', "line 2", "called so", "write 'post_width'"),
    ('packet = "nowhere"', "line 1", "piece.json", "name the folder"),
    ('[boards.Z]\nlength = "3 m"', "line 1", "stock and thickness", "or give its stock"),
    ('[boards.A]\nlenght = "3 m"', "line 2", "no such key", "write 'length'"),
    ('[boards.A]\nzones = [{ what = "chek" }]', "line 2", "'chek'", "write 'check'"),
    ("[boards.A]\ncuts = 3", "line 2", "names no packet", "write packet ="),
    ("boards = 3", "line 1", "a table", "[boards]"),
    ("[done\n", "line 1", "TOML", "quotes"),
    ('[boards.A]\nlength = "7 kg"', "line 2", "not a length", "write it like '260 mm'"),
    ('[boards.A]\nlength = "7"', "line 2", "bare number", "write '7 mm'"),
    ('[boards.A]\nwidth = "9999 mm"', "line 2", "a board's width", "make it 1000 mm"),
    ('[boards.A]\n\nwidths = [["0 mm", "3 kg"]]', "line 3", "not a length", "write"),
    ('[boards.A]\nthickness = "-3 mm"', "line 2", "at its thinnest", "make it 1 mm"),
    ('[boards.A]\nstock = "okk"', "line 2", "their own stock", "write 'oak, thick'"),
    ('[boards.A]\ngone = "yes"', "line 2", "gone = true", "write gone = true"),
    ("[boards.A]\nnote = 3", "line 2", "3", "write note = "),
]

ZONES = """[boards.A]
zones = [
  { what = "check", x = "1 mm", y = "2 mm", length = "3 mm", width = "4 mm" },
  { what = "knot", x = "1 foo", y = "2 mm", length = "3 mm", width = "4 mm" },
]
"""


def test_a_zone_that_cannot_be_is_named_by_its_line(tmp_path: Path) -> None:
    (told,) = _faults(tmp_path, ZONES, BOARDS)
    assert "line 4, boards.A, zone 2, x" in told
    assert "'foo' is not a unit" in told


def test_of_a_board_that_is_not_there_no_cuts_are_refused_besides(tmp_path: Path) -> None:
    (told,) = _faults(tmp_path, "[boards.Z]\ncuts = 3", BOARDS)
    assert "no board of the script is called so" in told


def test_a_board_of_a_long_name_is_told_of_too(tmp_path: Path) -> None:
    name = "the long plank that stood behind the door of the old shop"
    long = [replace(BOARDS[0], name=name), *BOARDS[1:]]
    (told,) = _faults(tmp_path, f'["boards"."{name}"]\nlength = "7 kg"', long)
    assert "line 2" in told
    assert "not a length" in told


def test_a_name_is_found_on_its_own_line(tmp_path: Path) -> None:
    text = '[done]\noperations = [7]\nparts = [\n  "left stub",\n  "stub",\n  "a",\n]'
    faults = _faults(tmp_path, text)
    lines = {fault.split(",")[1].split("'")[1]: fault.split(",")[0] for fault in faults}
    assert lines == {
        "stub": "job.toml line 5", "a": "job.toml line 6", "operations": "job.toml line 2",
    }  # fmt: skip


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: wrong[0].replace("\n", " ")[:50])
def test_a_wrong_line_is_named_with_what_would_do(tmp_path: Path, wrong: tuple[str, ...]) -> None:
    (told,) = _faults(tmp_path, wrong[0], BOARDS if "boards" in wrong[0] else ())
    for each in wrong[1:]:
        assert each in told


def test_all_faults_are_told_at_once(tmp_path: Path) -> None:
    text = """packet = "nowhere"
[done]
parts = ["left stubb", "post"]
[measured]
"post.width" = "101.2"
[boards.Z]
length = "3 m"
"""
    faults = _faults(tmp_path, text, BOARDS)
    lines = [int(fault.split(",")[0].removeprefix("job.toml line ")) for fault in faults]
    assert lines == [1, 3, 5, 6]


def test_what_hangs_on_a_packet_that_is_not_there_is_not_refused_besides(tmp_path: Path) -> None:
    text = 'packet = "nowhere"\n[done]\nparts = ["post"]\noperations = [1, 2]'
    (told,) = _faults(tmp_path, text, BOARDS)
    assert "line 1, packet" in told


def test_a_length_is_named_as_a_run_names_it(tmp_path: Path) -> None:
    """Counted from one; as Python would reach it too, and the nearest of both is proposed."""
    for written in ("tier 2 depth", "tiers[1].depth"):
        job = _read(tmp_path, f'[free]\n"tier 2.width" = "{written}"')
        assert job.free == {"tier 2.width": "tier 2 depth"}
    (told,) = _faults(tmp_path, '[free]\n"tier 2.width" = "tiers[1].deth"')
    assert "write 'tier 2 depth'" in told


def test_done_without_its_board_is_refused(tmp_path: Path) -> None:
    (told,) = _faults(tmp_path, '[done]\nparts = ["post"]', BOARDS)
    assert "'post'" in told
    assert "[boards.A]" in told
    assert _read(tmp_path, '[done]\nparts = ["post"]').done_parts == {"post"}, "no board, no plan"


def test_a_file_that_is_not_there_or_no_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="--job-template"):
        read_job(tmp_path / "none.toml", STAND, PIECE)
    (tmp_path / "odd.toml").write_bytes(b"\xff\xfe\xe9")
    with pytest.raises(JobError, match="UTF-8"):
        read_job(tmp_path / "odd.toml", STAND, PIECE)


def test_the_file_to_fill_in_says_nothing_until_it_is_filled_in(tmp_path: Path) -> None:
    text = job_template("stand", {"": PIECE}, "out/stand", BOARDS)
    job = _read(tmp_path, text, BOARDS)
    assert (job.done, dict(job.measured), dict(job.boards), job.packet) == ({}, {}, {}, None)
    measured, free = text.split("[free]")
    assert '# "front rail.length" = "..."' in free
    filled = "\n".join(
        line.removeprefix("# ") if line.startswith('# "') and " = " in line else line
        for line in measured.splitlines()
    )
    taken = _read(tmp_path, filled, BOARDS)
    sizes = {f"{each.instance}.{axis}" for each in PIECE.placed for axis in ("length", "width")}
    assert sizes <= {each.key for each in taken.measured}
    assert set(taken.diagonals) == {"lid"}


def test_what_the_file_to_fill_in_says_in_inches_is_read_back(tmp_path: Path) -> None:
    """`20 3/8 + in` is no length that a file can say: its decimal is."""
    piece = replace(PIECE, shown=inches(16))
    text = job_template("stand", {"": piece}, "out/stand")
    filled = "\n".join(
        line.removeprefix("# ") if line.startswith('# "') and " in" in line else line
        for line in text.split("[free]")[0].splitlines()
    )
    (tmp_path / "job.toml").write_text(filled, encoding="utf-8")
    taken = read_job(tmp_path / "job.toml", STAND, piece).measured
    assert len(taken) >= 2 * len(piece.placed)
    for each, mm in taken.items():
        assert mm == pytest.approx(
            designed_mm(each, sizes_of(piece), plays_of(piece)), abs=MM_PER_INCH / 1000
        ), each.key


ODD = (
    "3", "true", "nan", "-3", '""', '"x"', '"100 mm"', "[]", "{}", "[3]", "[[1]]", "{ a = 1 }",
    '["post"]', '[["a"]]', '["100 mm", "100 mm"]', '[["0 mm", "100 mm"]]', "1979-05-27",
    "[{ what = [1] }]", '[{ what = "check", corners = 3 }]', '[{ what = "check", x = 3 }]',
    '[{ what = "check", corners = [3] }]', '[{ what = "check", corners = [["1 mm"]] }]',
)  # fmt: skip
KEYS = (
    "packet", "done", "measured", "free", "boards", "done.parts", "done.operations",
    'measured."post.width"', 'measured."lid opening"', 'measured."lid opening diagonals"',
    "measured.post", 'free."post.width"', "boards.A", "boards.A.length", "boards.A.width",
    "boards.A.widths", "boards.A.thickness", "boards.A.stock", "boards.A.zones", "boards.A.note",
    "boards.A.cuts", "boards.A.gone",
)  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
def test_anything_written_is_read_or_refused(tmp_path: Path, key: str) -> None:
    whole = MeasuredBoard(name="A", stock="oak", length="2 m", widths="200 mm", thickness="22 mm")
    for value in ODD:
        with suppress(JobError):
            boards_now((whole,), _read(tmp_path, f"{key} = {value}", (whole,)), {"": PIECE})


def _packet(folder: Path, mark: str, *keys: str) -> None:
    """A packet whose work has these operations, one to a step."""
    rows = [
        {"n": n, "step": n, "key": key, "cuts": [], "sizes": [], "takes": ["post"], "setup": None}
        for n, key in enumerate(keys, start=1)
    ]
    folder.mkdir(exist_ok=True)
    record = {"work": {"mark": mark, "operations": rows}}
    (folder / "piece.json").write_text(json.dumps(record), encoding="utf-8")


MARKED = 'packet = "once"\n[done]\nsteps = ["1 to 2"]\nwork = "{}"'


def test_numbers_are_not_taken_for_those_of_a_packet_that_was_written_anew(tmp_path: Path) -> None:
    """A script changed and run again into the same folder numbers other operations so."""
    _packet(tmp_path / "once", "1a2b", "post: width", "post: dado", "post: bore")
    job = _read(tmp_path, MARKED.format("1a2b"))
    assert (job.operations, job.is_unmarked) == ({"post: width", "post: dado"}, False)
    _packet(tmp_path / "once", "77ff", "post: bore", "post: width", "post: dado")
    (told,) = _faults(tmp_path, MARKED.format("1a2b"))
    assert "line 4" in told
    assert "'77ff'" in told
    assert "written anew since" in told
    bare = MARKED.format("1a2b").rpartition("\n")[0]
    assert _read(tmp_path, bare).is_unmarked, "the run says of which work they are taken"
    assert not _read(tmp_path, 'packet = "once"\n[done]\nparts = ["post"]').is_unmarked


def test_nor_are_the_cuts_of_its_boards(tmp_path: Path) -> None:
    """A script run again may saw the boards otherwise, and cut 1 is another then."""
    _packet(tmp_path / "once", "1a2b", "post: width")
    path = tmp_path / "once" / "piece.json"
    record = json.loads(path.read_text(encoding="utf-8"))
    hand = {"x_mm": 0.0, "y_mm": 0.0, "length_mm": 900.0, "width_mm": 150.0}
    cut = {"number": 1, "kind": "rip", "at_mm": 80.0, "kerf_mm": 3.0, "workpiece": hand}
    record["cutting_plan"] = {"boards": [{"name": "A", "placements": [], "cuts": [cut]}]}
    path.write_text(json.dumps(record), encoding="utf-8")
    sawn = "\n[boards.A]\ncuts = 1"
    job = _read(tmp_path, 'packet = "once"' + sawn, BOARDS)
    assert (job.sawn, job.is_unmarked) == ({"A": {1}}, True)
    marked = 'packet = "once"\n[done]\nwork = "{}"' + sawn
    assert not _read(tmp_path, marked.format("1a2b"), BOARDS).is_unmarked
    (told,) = _faults(tmp_path, marked.format("77ff"), BOARDS)
    assert "written anew since" in told
