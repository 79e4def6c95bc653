"""The job file: what is read, and every fault of a wrong one at once, with its line."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from furniture import MeasuredBoard, ZoneKind
from furniture.job.boards_now import boards_now
from furniture.job.figures import Figure
from furniture.job.job import Job
from furniture.job.job_file import read_job
from furniture.job.job_lines import JobError
from furniture.job.template import job_template
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
        stock = "oak"
        length = "300 mm"
        width = "90 mm"
        thickness = "20 mm"
        """,
        BOARDS,
    )
    assert job.done_parts == {"left stub", "right stub"}
    assert job.measured == {
        Figure(instance="post", axis=1): 101.2,
        Figure(instance="lid", axis=0, is_opening=True): 279.5,
        Figure(instance="lid", axis=1, is_opening=True): pytest.approx(165.1),
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
    ('[done]\nparts = "post"', "line 2", "a list", 'write parts = ["post"]'),
    ("[done]\noperations = [1]", "line 2", "numbers of a packet", "write packet = "),
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
]


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
    assert lines == [1, 3, 5, 6, 3], "the last: a done part of which no board is told"


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
    text = job_template(PIECE, "out/stand", BOARDS)
    job = _read(tmp_path, text, BOARDS)
    assert (job.done, dict(job.measured), dict(job.boards), job.packet) == ({}, {}, {}, None)
    filled = "\n".join(
        line.removeprefix("# ") if line.startswith('# "') and " = " in line else line
        for line in text.splitlines()
    )
    taken = _read(tmp_path, filled.replace('"post.width" = "post_width"', ""), BOARDS)
    sizes = {f"{each.instance}.{axis}" for each in PIECE.placed for axis in ("length", "width")}
    assert sizes <= {each.key for each in taken.measured}
    assert set(taken.diagonals) == {"lid"}


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
            boards_now((whole,), _read(tmp_path, f"{key} = {value}", (whole,)), PIECE)
