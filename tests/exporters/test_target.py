"""A packet goes into place whole or not at all, and never over a stranger's file."""

from __future__ import annotations

import json

import pytest

from exporters.summary import SCHEMA
from exporters.target import check_target, replace_packet
from furniture.errors import TargetError


def _maker(files):
    """Fills a folder with these files and a summary that lists them."""

    def make(folder):
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        names = [*files, "piece.json"]
        (folder / "piece.json").write_text(json.dumps({"schema": SCHEMA, "files": names}))
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


@pytest.mark.parametrize(
    "content", ["", "not json", "[]", '{"schema": "another"}', '{"schema": "knifewall.piece/2"}']
)
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
    listed = {"schema": SCHEMA, "files": ["../precious", "/etc/hostname", "piece.json"]}
    (target / "piece.json").write_text(json.dumps(listed))
    replace_packet(target, _maker({"a.step": "new"}))
    assert (tmp_path / "precious").read_text() == "keep"
