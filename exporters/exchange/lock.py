"""One run at a time: a file with the operating system's own lock, which dies with its run."""

from __future__ import annotations

import errno
import os
import sys
from contextlib import suppress
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_BUSY = {errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES}


class Busy(Exception):  # noqa: N818 - an answer
    """Another run holds the lock; `run` says which process, where it can be read."""

    def __init__(self, run: str) -> None:
        super().__init__(run)
        self.run = run


def take(path: Path) -> int:
    """The open lock file, held until `release`.

    The file left by a dead run is taken over: the lock is the system's, not the file.

    Args:
        path: of the lock file, in a folder that exists.

    Raises:
        Busy: another run holds it.
        OSError: the file cannot be made.
    """
    while True:
        file = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o644)
        try:
            if not _locked(file):
                raise Busy(_written(file))
            if _is_still_at(file, path):
                with suppress(OSError):  # a full disk: the lock holds without its name
                    os.ftruncate(file, 0)
                    os.pwrite(file, str(os.getpid()).encode(), 0)
                return file
        except BaseException:
            os.close(file)
            raise
        # The run before removed its file between our opening and locking it: open the next one.
        os.close(file)


def is_held(path: Path) -> bool:
    """Whether another run holds this lock file, which may be absent."""
    try:
        file = os.open(path, os.O_RDONLY)
    except OSError:
        return False
    try:
        return not _locked(file)
    finally:
        os.close(file)


def release(file: int, path: Path) -> None:
    """The lock given back and its file removed, in this order for the next run: gone, then free."""
    with suppress(OSError):
        path.unlink()
    os.close(file)


def _locked(file: int) -> bool:
    try:
        if sys.platform == "win32":
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in _BUSY:
            return False
        return not _is_alive(_written(file))  # a file system without locks
    return True


def _is_still_at(file: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(file), path.stat())
    except FileNotFoundError:
        return False


def _written(file: int) -> str:
    with suppress(OSError):
        return os.pread(file, 20, 0).decode("ascii", "replace").strip()
    return ""


def _is_alive(run: str) -> bool:
    if not run.isdigit() or int(run) in (0, os.getpid()):
        return False
    try:
        os.kill(int(run), 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
