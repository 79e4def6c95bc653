"""A packet goes into place whole or not at all, and never over a stranger's file."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from exporters.exchange import swap
from exporters.summary import SCHEMA
from exporters.target import Owner, claimed
from furniture.errors import TargetError

STAND = Owner(slug="stand", name="Stand")


def replace_packet(target, make):
    with claimed(target, STAND) as claim:
        return claim.put(make)


def check_target(target):
    with claimed(target, STAND):
        pass


def _maker(files):
    """Fills a folder with these files and a summary that lists them."""

    def make(folder):
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        names = [*files, "piece.json"]
        (folder / "piece.json").write_text(
            json.dumps({"schema": SCHEMA, "slug": "stand", "files": names})
        )
        return names

    return make


def _tree(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_a_new_target_is_made_with_its_parents(tmp_path):
    target = tmp_path / "a" / "b" / "out"
    replace_packet(target, _maker({"sheets/01.dxf": "one"}))
    assert _tree(target)["sheets/01.dxf"] == "one"
    assert [path.name for path in target.parent.iterdir()] == ["out"]


def test_old_files_go_and_foreign_files_stay(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"old.step": "old", "sheets/02.dxf": "two"}))
    (target / "notes.txt").write_text("mine")
    (target / "sheets" / "sketch.txt").write_text("mine too")
    replace_packet(target, _maker({"new.step": "new"}))
    assert set(_tree(target)) == {"new.step", "piece.json", "notes.txt", "sheets/sketch.txt"}


def test_empty_folders_of_the_old_packet_go(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"pictures/front.png": "old"}))
    replace_packet(target, _maker({"new.step": "new"}))
    assert not (target / "pictures").exists()


def test_a_maker_that_fails_leaves_everything_as_it_was(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "first"}))
    before = _tree(tmp_path)

    def fail(folder):
        (folder / "a.step").write_text("half")
        raise RuntimeError("kernel")

    with pytest.raises(RuntimeError, match="kernel"):
        replace_packet(target, fail)
    assert _tree(tmp_path) == before


def test_a_failed_first_run_leaves_no_folder(tmp_path):
    def fail(folder):
        raise RuntimeError("kernel")

    with pytest.raises(RuntimeError, match="kernel"):
        replace_packet(tmp_path / "a" / "out", fail)
    assert list(tmp_path.iterdir()) == []


def test_a_strangers_file_is_never_written_over(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "first"}))
    (target / "b.step").write_text("stranger")
    before = _tree(tmp_path)
    with pytest.raises(TargetError, match=r"b\.step"):
        replace_packet(target, _maker({"b.step": "ours"}))
    assert _tree(tmp_path) == before


NOT_OURS = (
    "", "not json", "[]", '{"schema": "another"}', '{"schema": "knifewall.piece/2"}', "[" * 100_000,
    *(f'{{"schema": "{SCHEMA}", "files": {files}}}' for files in ("null", "3", '"a"', "[[]]")),
)  # fmt: skip


@pytest.mark.parametrize("content", NOT_OURS, ids=range(len(NOT_OURS)))
def test_a_folder_that_is_not_ours_is_refused(tmp_path, content):
    (tmp_path / "piece.json").write_text(content)
    with pytest.raises(TargetError):
        check_target(tmp_path)
    with pytest.raises(TargetError):
        replace_packet(tmp_path, _maker({}))
    assert _tree(tmp_path) == {"piece.json": content}


def test_a_file_or_a_path_below_a_file_is_refused(tmp_path):
    (tmp_path / "plain").write_text("text")
    for target in (tmp_path / "plain", tmp_path / "plain" / "out"):
        with pytest.raises(TargetError):
            check_target(target)
    assert _tree(tmp_path) == {"plain": "text"}


def test_a_listed_path_that_leads_out_is_left_alone(tmp_path):
    target = tmp_path / "out"
    target.mkdir()
    (tmp_path / "precious").write_text("keep")
    listed = {
        "schema": SCHEMA,
        "slug": "stand",
        "files": ["../precious", "/etc/hostname", "piece.json"],
    }
    (target / "piece.json").write_text(json.dumps(listed))
    replace_packet(target, _maker({"a.step": "new"}))
    assert (tmp_path / "precious").read_text() == "keep"


@pytest.mark.parametrize("told", ["null", "7", "[1]", '{"a.step": 5}', '{"a.step": null}'])
def test_digests_of_any_kind_do_no_harm(tmp_path, told):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "old"}))
    record = json.loads((target / "piece.json").read_text())
    record["sha256"] = json.loads(told)
    (target / "piece.json").write_text(json.dumps(record))
    replace_packet(target, _maker({"a.step": "new"}))
    assert _tree(target)["a.step"] == "new"


def test_a_summary_that_is_a_link_or_a_pipe_is_not_ours(tmp_path):
    replace_packet(tmp_path / "real", _maker({"a.step": "old"}))
    for name in ("link", "pipe"):
        (tmp_path / name).mkdir()
    (tmp_path / "link" / "piece.json").symlink_to(tmp_path / "real" / "piece.json")
    os.mkfifo(tmp_path / "pipe" / "piece.json")
    for name in ("link", "pipe"):
        with pytest.raises(TargetError):
            check_target(tmp_path / name)


def test_a_link_to_the_packet_stays_a_link(tmp_path):
    real = tmp_path / "disk" / "real"
    replace_packet(real, _maker({"a.step": "old"}))
    (tmp_path / "out").symlink_to(real)
    replace_packet(tmp_path / "out", _maker({"a.step": "new"}))
    assert (tmp_path / "out").is_symlink()
    assert _tree(real)["a.step"] == "new"
    for name, leads in (("dangling", "nowhere"), ("loop", "loop")):
        (tmp_path / name).symlink_to(leads)
        with pytest.raises(TargetError):
            check_target(tmp_path / name)
    assert not (tmp_path / "nowhere").exists()


def test_what_a_linked_sub_folder_leads_to_is_left_alone(tmp_path):
    target, away = tmp_path / "out", tmp_path / "away"
    replace_packet(target, _maker({"sheets/01.dxf": "old", "a.step": "old"}))
    (target / "sheets").rename(away)
    (target / "sheets").symlink_to(away)
    replace_packet(target, _maker({"a.step": "new"}))
    assert (target / "sheets").is_symlink()
    assert _tree(away) == {"01.dxf": "old"}
    with pytest.raises(TargetError, match="sheets stands there"):
        replace_packet(target, _maker({"sheets/01.dxf": "new"}))
    assert _tree(away) == {"01.dxf": "old"}


def test_a_link_in_the_place_of_a_file_of_ours_is_kept(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"parts.csv": "old"}))
    (tmp_path / "mine.csv").write_text("mine")
    (target / "parts.csv").unlink()
    (target / "parts.csv").symlink_to(tmp_path / "mine.csv")
    replace_packet(target, _maker({"parts.csv": "new"}))
    assert (target / "parts.csv").read_text() == "new"
    assert (target / "parts (yours).csv").is_symlink()
    assert (tmp_path / "mine.csv").read_text() == "mine"


def test_the_folder_keeps_its_rights_and_foreign_files_stay_the_same_files(tmp_path):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "old"}))
    (target / "own").mkdir()
    (target / "own" / "notes.txt").write_text("mine")
    target.chmod(0o2750)
    (target / "own").chmod(0o700)
    before = (target / "own" / "notes.txt").stat()
    replace_packet(target, _maker({"a.step": "new"}))
    assert target.stat().st_mode & 0o7777 == 0o2750
    assert (target / "own").stat().st_mode & 0o7777 == 0o700
    assert os.path.samestat((target / "own" / "notes.txt").stat(), before)


def test_run_from_within_the_folder_is_still_the_same_folder(tmp_path, monkeypatch):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "old"}))
    (target / "sub").mkdir()
    monkeypatch.chdir(target / "sub")
    before = target.stat()
    replace_packet(Path(".."), _maker({"a.step": "new"}))
    assert os.path.samestat(target.stat(), before)
    assert _tree(target)["a.step"] == "new"


def test_a_second_run_is_told_of_the_first_and_a_lock_left_behind_is_none(tmp_path):
    target = tmp_path / "out"
    with (
        claimed(target, STAND),
        pytest.raises(TargetError, match=f"another run .process {os.getpid()}."),
        claimed(target, STAND),
    ):
        pass
    left = tmp_path / ".out.knifewall-run"
    left.mkdir()
    (left / "lock").write_text(str(os.getppid()))
    said = []
    with claimed(target, STAND, say=said.append) as claim:
        claim.put(_maker({"a.step": "new"}))
    assert said == []
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_file_made_in_the_folder_while_it_is_exchanged_is_not_lost(tmp_path, monkeypatch):
    target = tmp_path / "out"
    replace_packet(target, _maker({"a.step": "old"}))
    (target / "notes.txt").write_text("first")
    exchanged = swap.exchange_names

    def meanwhile(first, second):
        (target / "late.txt").write_text("late")
        (target / "notes.txt").unlink()
        (target / "notes.txt").write_text("second")
        return exchanged(first, second)

    monkeypatch.setattr(swap, "exchange_names", meanwhile)
    replace_packet(target, _maker({"a.step": "new"}))
    stands = _tree(target)
    assert stands.pop("piece.json")
    assert stands == {
        "a.step": "new", "late.txt": "late", "notes.txt": "first", "notes (yours).txt": "second",
    }  # fmt: skip
