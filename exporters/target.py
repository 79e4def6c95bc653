"""Putting a packet in its place whole: all of it or nothing, and only over files of our own."""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path, PurePosixPath

from exporters.summary import SCHEMA
from furniture.errors import TargetError

SUMMARY = "piece.json"


def replace_packet(target: Path, make: Callable[[Path], Sequence[str]]) -> tuple[str, ...]:
    """The packet made beside the target and moved into place; the relative paths that stand there.

    Args:
        target: the folder: absent, empty, or holding a packet of ours.
        make: fills an empty folder and returns the relative paths of its files.

    Raises:
        TargetError: the target cannot take the packet; what was there is as it was.
    """
    target = Path(os.path.abspath(target))
    old = _files_of_ours(target)
    made_parents = _make_parents(target)
    try:
        workshop = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    except OSError as error:
        _remove_parents(made_parents)
        raise _cannot(target, error.strerror or str(error)) from error
    try:
        fresh = workshop / "new"
        fresh.mkdir()
        files = tuple(make(fresh))
        _swap(target, fresh, workshop / "old", files, old)
    except BaseException:
        shutil.rmtree(workshop, ignore_errors=True)
        _remove_parents(made_parents)
        raise
    shutil.rmtree(workshop, ignore_errors=True)
    return files


def check_target(target: Path) -> None:
    """Nothing when the target can take a packet.

    Raises:
        TargetError: it cannot, and why.
    """
    target = Path(os.path.abspath(target))
    _files_of_ours(target)
    existing = next(parent for parent in (target, *target.parents) if parent.exists())
    if not existing.is_dir() or not os.access(existing, os.W_OK | os.X_OK):
        raise _cannot(target, f"{existing.name or existing} cannot be written to")


def _files_of_ours(target: Path) -> tuple[str, ...]:
    """The files of the packet that stands in the target; none when it is absent or empty."""
    if not target.exists():
        if target.is_symlink():
            raise _cannot(target, "it is a link that leads nowhere")
        return ()
    if not target.is_dir():
        raise _cannot(target, "it is not a folder")
    try:
        if not any(target.iterdir()):
            return ()
        summary = json.loads((target / SUMMARY).read_text(encoding="utf-8"))
        if not isinstance(summary, dict) or summary.get("schema") != SCHEMA:
            raise ValueError("another program's file")
        return tuple(
            name for name in summary.get("files", ()) if isinstance(name, str) and _is_inside(name)
        )
    except (OSError, ValueError) as error:
        why = f"it holds files and no {SUMMARY} of ours; choose an empty or a new folder"
        raise _cannot(target, why) from error


def _is_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and bool(path.parts)


def _swap(
    target: Path, fresh: Path, backup: Path, files: Sequence[str], old: Sequence[str]
) -> None:
    """Old files out, new files in; on any failure everything goes back."""
    foreign = [name for name in files if name not in old and (target / name).exists()]
    if foreign:
        raise _cannot(target, f"{foreign[0]} stands there and is not of this packet")
    is_new = not target.exists()
    moved_out: list[str] = []
    moved_in: list[str] = []
    try:
        target.mkdir(exist_ok=True)
        for name in old:
            if (target / name).is_file():
                _move(target / name, backup / name)
                moved_out.append(name)
        for name in files:
            _move(fresh / name, target / name)
            moved_in.append(name)
    except OSError as error:
        for name in moved_in:
            with suppress(OSError):
                (target / name).unlink()
        for name in moved_out:
            with suppress(OSError):
                _move(backup / name, target / name)
        _drop_empty_folders(target, [*files, *old])
        if is_new:
            with suppress(OSError):
                target.rmdir()
        raise _cannot(target, error.strerror or str(error)) from error
    _drop_empty_folders(target, old)


def _move(source: Path, destination: Path) -> None:
    destination.parent.mkdir(parents=True, exist_ok=True)
    os.replace(source, destination)


def _drop_empty_folders(target: Path, names: Sequence[str]) -> None:
    folders = {parent for name in names for parent in (target / name).parents}
    inside = [folder for folder in folders if target in folder.parents]
    for folder in sorted(inside, key=lambda each: -len(each.parts)):
        with suppress(OSError):
            folder.rmdir()


def _make_parents(target: Path) -> list[Path]:
    missing = [parent for parent in target.parents if not parent.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        _remove_parents(missing)
        raise _cannot(target, error.strerror or str(error)) from error
    return missing


def _remove_parents(made: Sequence[Path]) -> None:
    for parent in made:  # nearest first
        with suppress(OSError):
            parent.rmdir()


def _cannot(target: Path, why: str) -> TargetError:
    return TargetError(f"the packet cannot be put in {target}: {why}")
