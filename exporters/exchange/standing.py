"""What stands in a folder: files of ours as written, files of ours changed since, and the rest."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Any

from exporters.summary import BATCH_SCHEMA, SCHEMA

SUMMARY = "piece.json"
BATCH_SUMMARY = "batch.json"
"""What says that a folder is ours: the packet of a piece, or of a batch of several."""
_SCHEMAS = {SUMMARY: SCHEMA, BATCH_SUMMARY: BATCH_SCHEMA}
DIGESTS = "sha256"
"""The key of the summary under which each file's digest stands, so that a changed one is known."""
WORKSHOP = ".knifewall-run"
"""The folder, in a packet or with the packet's name before it beside one, where a run works."""


class NotOurs(Exception):  # noqa: N818 - an answer
    """The folder holds files and no packet of ours; the text says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What a packet's own summary says of it; `digests` is None in one that tells none."""

    slug: str
    name: str
    files: frozenset[str] = frozenset()
    digests: Mapping[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The entries of a folder, as relative paths with slashes.

    Attributes:
        ours: files that the packet lists, as they were written.
        changed: files or links in the place of listed ones, changed since.
        foreign: everything else that is not a folder.
        folders: those that are not the packet's own or hold something foreign, outer ones first.
    """

    ours: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    foreign: tuple[str, ...] = ()
    folders: tuple[str, ...] = ()


def record_in(folder: Path) -> Record | None:
    """What stands in a folder says it is; None when the folder is absent or empty.

    Raises:
        NotOurs: it is not a folder, or holds files and no packet of ours.
        OSError: it cannot be read.
    """
    if not folder.exists():
        return None
    if not folder.is_dir():
        raise NotOurs("it is not a folder")
    if not any(name != WORKSHOP for name in os.listdir(folder)):
        return None
    stands = [name for name in _SCHEMAS if _is_file(folder / name)]
    if not stands:
        raise NotOurs(f"it holds files and no {SUMMARY} of ours; choose an empty or a new folder")
    name = stands[0]
    try:
        told = json.loads((folder / name).read_text(encoding="utf-8"))
    except (ValueError, RecursionError) as error:
        raise NotOurs(_unreadable(name)) from error
    if not isinstance(told, dict) or told.get("schema") != _SCHEMAS[name]:
        raise NotOurs(_unreadable(name))
    return _record(told, name)


def _is_file(path: Path) -> bool:
    return path.is_file() and not path.is_symlink()


def standing_in(folder: Path, record: Record | None) -> Standing:
    """Every entry of a folder told apart; links are never followed.

    Args:
        folder: one that exists, or not.
        record: what its summary says; None calls every entry foreign.

    Raises:
        OSError: some of it cannot be read.
    """
    ours, changed, foreign, folders = [], [], [], []
    listed = record.files if record is not None else frozenset()
    for name, entry in _entries(folder):
        if entry.is_dir(follow_symlinks=False):
            folders.append(name)
        elif name not in listed:
            foreign.append(name)
        elif record is not None and _is_as_written(name, entry, record):
            ours.append(name)
        else:
            changed.append(name)
    emptied = _folders_above(listed) - _folders_above(foreign)
    inside = [name for name in folders if name not in emptied]
    kept = (set(inside) | _folders_above(inside)) & set(folders)
    return Standing(
        ours=tuple(ours),
        changed=tuple(changed),
        foreign=tuple(foreign),
        folders=tuple(sorted(kept, key=lambda each: each.count("/"))),
    )


def in_the_way(standing: Standing, names: Iterable[str]) -> str | None:
    """A foreign entry that stands where one of these files, or a folder of theirs, would go."""
    foreign, folders = set(standing.foreign), set(standing.folders)
    for name in names:
        above = next((each for each in _folders_above([name]) if each in foreign), None)
        if above is not None or name in foreign or name in folders:
            return above or name
    return None


def digest_of(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def free_name(name: str, taken: Iterable[str]) -> str:
    """A name beside `name` for a file of the maker's own: `parts.csv` gives `parts (yours).csv`."""
    path, taken = PurePosixPath(name), set(taken)
    number = 1
    while True:
        mark = "yours" if number == 1 else f"yours {number}"
        free = str(path.with_name(f"{path.stem} ({mark}){path.suffix}"))
        if free not in taken:
            return free
        number += 1


def _unreadable(name: str) -> str:
    return f"its {name} is not one that we wrote; choose an empty or a new folder"


def _record(told: Mapping[str, Any], name: str) -> Record:
    files = told.get("files")
    if not isinstance(files, list) or not all(isinstance(each, str) for each in files):
        raise NotOurs(_unreadable(name))
    digests = told.get(DIGESTS)
    return Record(
        slug=str(told.get("slug", "")),
        name=str(told.get("name", "")),
        # A path that leads out of the folder matches no entry of it, so it can do no harm.
        files=frozenset(str(PurePosixPath(each)) for each in files) | {name},
        digests=digests if isinstance(digests, dict) else None,
    )


def _is_as_written(name: str, entry: os.DirEntry[str], record: Record) -> bool:
    if not entry.is_file(follow_symlinks=False):
        return False
    if record.digests is None or name in _SCHEMAS:
        return True
    return record.digests.get(name) == digest_of(Path(entry.path))


def _entries(folder: Path) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Every entry below the folder with its relative path, without the workshop of a run."""
    waiting = [(folder, "")] if folder.exists() else []
    while waiting:
        place, before = waiting.pop()
        with os.scandir(place) as entries:
            for entry in sorted(entries, key=lambda each: each.name):
                if not before and entry.name == WORKSHOP:
                    continue
                yield before + entry.name, entry
                if entry.is_dir(follow_symlinks=False):
                    waiting.append((Path(entry.path), f"{before}{entry.name}/"))


def _folders_above(names: Iterable[str]) -> set[str]:
    return {
        str(above) for name in names for above in PurePosixPath(name).parents if str(above) != "."
    }
