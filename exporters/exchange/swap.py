"""A made folder put in the place of the one that stands; a kill at any moment can be mended.

The workshop of a run is a folder beside the target (or in it). In it stand, as the run goes on:

    making/   being written: worth nothing to the next run
    ready/    whole, with the maker's own files linked in; after the exchange, the packet of before
    old/      the packet of before, or its files, while the new ones go in
    moves     names the files that go in one by one (first as a draft): while it stands, what
              moved goes back
    rubbish/  may go

Which of them stand, and whether the target does, tells all that `mend` has to know.
"""

from __future__ import annotations

import errno
import json
import os
import shutil
import stat
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path, PurePosixPath

from exporters.exchange.rename import exchange_names
from exporters.exchange.standing import (
    WORKSHOP,
    NotOurs,
    Standing,
    digest_of,
    free_name,
    in_the_way,
    record_in,
    standing_in,
)

MAKING, READY, OLD, RUBBISH = "making", "ready", "old", "rubbish"
MOVES, DRAFT = "moves", "moves.draft"
_CANNOT = {errno.EXDEV, errno.EBUSY, errno.EPERM, errno.EACCES, errno.EINVAL}
"""Why a whole folder may not be renamed where its files may: a mount point, a shared folder."""


class InTheWay(Exception):  # noqa: N818 - an answer
    """A file that is not of the packet stands where one of its files would go."""


def exchange(target: Path, workshop: Path, files: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """What was made in the workshop stands in the target; `mend` then clears or puts back.

    Args:
        target: the folder, with every link in its path followed.
        workshop: of this run, with the whole packet in `making`.
        files: of the packet, as relative paths.

    Returns:
        Files that the maker had changed, and the names that they have been kept under.

    Raises:
        InTheWay: before anything was moved.
        OSError: it cannot be moved.
    """
    record = record_in(target)
    standing = standing_in(target, record)
    amiss = in_the_way(standing, files)
    if amiss is not None:
        raise InTheWay(amiss)
    making = workshop / MAKING
    kept = _keep_changed(target, making, standing, files)
    _flush(making)
    if not target.exists():
        os.rename(making, workshop / READY)
        os.rename(workshop / READY, target)
        return kept
    names = [*files, *(name for _, name in kept)]
    carried = _carry(target, making, standing) if _may_be_renamed(target, workshop) else None
    os.rename(making, workshop / READY)
    if carried is not None:
        try:
            _swap(workshop / READY, target, workshop / OLD)
        except OSError as error:
            if error.errno not in _CANNOT or not target.exists():
                raise
        else:
            return kept
    _move_one_by_one(target, workshop, [*standing.ours, *standing.changed], names)
    return kept


def mend(target: Path, workshop: Path) -> bool:
    """What a run left in its workshop finished or undone; whether the packet was put back.

    Safe to be cut short and called again.

    Raises:
        OSError: it cannot be done now; nothing of the maker's has gone.
    """
    is_put_back = False
    if (workshop / MOVES).exists():
        _move_back(target, workshop)
        is_put_back = True
    if (workshop / OLD).exists() and not target.exists():
        os.rename(workshop / OLD, target)
        is_put_back = True
    for name in (OLD, READY):
        if (workshop / name).exists():
            _save_strays(workshop / name, target)
            _remove(workshop / name, workshop)
    (workshop / DRAFT).unlink(missing_ok=True)
    for name in (MAKING, RUBBISH):
        if (workshop / name).exists():
            shutil.rmtree(workshop / name)
    return is_put_back


def is_out_of_place(target: Path, workshop: Path) -> bool:
    """Whether files of the packet of before are in the workshop and not where they stood."""
    return (workshop / MOVES).exists() or ((workshop / OLD).exists() and not target.exists())


def _keep_changed(
    target: Path, making: Path, standing: Standing, files: Sequence[str]
) -> tuple[tuple[str, str], ...]:
    """Files of ours that the maker changed, under names of their own in the new packet."""
    taken = {*files, *standing.ours, *standing.changed, *standing.foreign, *standing.folders}
    kept = []
    for name in standing.changed:
        free = free_name(name, taken)
        taken.add(free)
        (making / free).parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(target / name, making / free, follow_symlinks=False)
        except OSError as error:
            if error.errno == errno.ENOSPC:
                raise
            shutil.copy2(target / name, making / free, follow_symlinks=False)
        kept.append((name, free))
    return tuple(kept)


def _may_be_renamed(target: Path, workshop: Path) -> bool:
    """Whether the folder may be renamed without taking it from under anyone that we know of."""
    if workshop.parent == target or os.path.ismount(target):
        return False
    try:
        here = Path.cwd().resolve()
    except OSError:  # the folder that the run was started in is gone
        return True
    return target != here and target not in here.parents


def _carry(target: Path, making: Path, standing: Standing) -> tuple[str, ...] | None:
    """Foreign files linked into the new folder, which gets the old one's rights.

    A link is the same file: whoever writes to it meanwhile writes to both names. None where links
    or rights are not to be had: then nothing is carried, and the files are moved one by one.
    """
    device = target.stat().st_dev
    made: list[Path] = []
    try:
        for name in standing.folders:
            if name.endswith(WORKSHOP) or (target / name).stat().st_dev != device:
                raise OSError(errno.EXDEV, "another disk, or another run at work in it")
            if not (making / name).exists():
                (making / name).mkdir()
                made.append(making / name)
        for name in standing.foreign:
            os.link(target / name, making / name, follow_symlinks=False)
            made.append(making / name)
        for name in (*reversed(standing.folders), "."):
            _give_rights(target / name, making / name)
        os.utime(making)
    except OSError as error:
        for path in reversed(made):
            path.rmdir() if path.is_dir() and not path.is_symlink() else path.unlink()
        if error.errno == errno.ENOSPC:
            raise
        return None
    return standing.foreign


def _give_rights(like: Path, folder: Path) -> None:
    """Owner, mode, attributes and times of one folder given to another."""
    theirs, ours = like.stat(), folder.stat()
    if hasattr(os, "chown") and (theirs.st_uid, theirs.st_gid) != (ours.st_uid, ours.st_gid):
        os.chown(folder, theirs.st_uid, theirs.st_gid)
    shutil.copystat(like, folder)


def _swap(ready: Path, target: Path, old: Path) -> None:
    """One step where the system can exchange two names, else two, of which a half is mended."""
    if exchange_names(ready, target):
        return
    os.rename(target, old)
    os.rename(ready, target)


def _move_one_by_one(
    target: Path, workshop: Path, old: Sequence[str], names: Sequence[str]
) -> None:
    ready, backup, moves = workshop / READY, workshop / OLD, workshop / MOVES
    draft = workshop / DRAFT
    draft.write_text(json.dumps(list(names)), encoding="utf-8")
    backup.mkdir()
    _flush(workshop, [draft])
    os.rename(draft, moves)
    for name in old:
        _move(target / name, backup / name)
    _drop_empty(target, old)
    for name in names:
        _move(ready / name, target / name)
    moves.unlink()  # from here on the new packet is the one that stands


def _move_back(target: Path, workshop: Path) -> None:
    ready, backup, moves = workshop / READY, workshop / OLD, workshop / MOVES
    names = json.loads(moves.read_text(encoding="utf-8"))
    for name in names:
        if not os.path.lexists(ready / name) and os.path.lexists(target / name):
            _move(target / name, ready / name)
    _drop_empty(target, names)
    for name in standing_in(backup, None).foreign:
        _move(backup / name, target / name)
    moves.unlink()


def _move(source: Path, destination: Path) -> None:
    destination.parent.mkdir(parents=True, exist_ok=True)
    os.rename(source, destination)


def _drop_empty(target: Path, names: Iterable[str]) -> None:
    folders = {above for name in names for above in PurePosixPath(name).parents if above.parts}
    for folder in sorted(folders, key=lambda each: -len(each.parts)):
        with suppress(OSError):
            (target / folder).rmdir()


def _save_strays(folder: Path, target: Path) -> None:
    """What of a folder that is to go is not ours and does not stand in the target is moved there.

    Such is a file that someone made or wrote anew while the folders were exchanged.
    """
    try:
        record = record_in(folder)
    except NotOurs:
        record = None
    standing = standing_in(folder, record)
    loose = [*standing.foreign, *standing.changed]
    if not loose:
        return
    there = standing_in(target, None).foreign
    for name in _not_in(target, there, folder, loose):
        taken = os.path.lexists(target / name)
        _move(folder / name, target / (free_name(name, there) if taken else name))


def _not_in(
    target: Path, there: Sequence[str], folder: Path, names: Sequence[str]
) -> Iterator[str]:
    """Those that stand under no name in the target, as the same file or as a copy of it."""
    told = [(target / name).lstat() for name in there]
    same = {(each.st_dev, each.st_ino) for each in told}
    for name in names:
        own = (folder / name).lstat()
        if (own.st_dev, own.st_ino) in same:
            continue
        alike = [
            target / other
            for other, each in zip(there, told, strict=True)
            if stat.S_ISREG(own.st_mode & each.st_mode) and each.st_size == own.st_size
        ]
        if not alike or digest_of(folder / name) not in map(digest_of, alike):
            yield name


def _remove(folder: Path, workshop: Path) -> None:
    """Renamed first, so that a half removed packet is never taken for a whole one."""
    rubbish = workshop / RUBBISH
    if rubbish.exists():
        shutil.rmtree(rubbish)
    os.rename(folder, rubbish)
    shutil.rmtree(rubbish)


def _flush(folder: Path, files: Iterable[Path] | None = None) -> None:
    """Onto the disk before anything is exchanged, so that a power cut finds whole files."""
    for path in folder.rglob("*") if files is None else files:
        if path.is_file() and not path.is_symlink():
            with path.open("rb") as file:
                os.fsync(file.fileno())
