"""A model script run again in this process, for what it hands to `main`."""

from __future__ import annotations

import os
import runpy
import sys
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import exporters
from exporters import command
from exporters.photo.files import photos_file
from furniture.errors import KnifewallError


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Given:
    """What a script hands to `main`, and the files that it hangs on.

    Args:
        design: what to build.
        more: boards, wishes, shop, place and rules, as far as they are given.
        files: the script, what it imports from beside it, and its boards.
    """

    design: Any
    more: dict[str, Any]
    files: frozenset[Path]


class ScriptError(KnifewallError):
    """A script that cannot be run, with the line where it stands."""


class _Handed(BaseException):
    """`main` was called: the script is at its end."""


def given_by(script: Path) -> Given:
    """What a script hands to `main` now.

    Args:
        script: run as `python script.py` would.

    Raises:
        ScriptError: it fails, or never calls `main`.
    """
    for name in _beside(script):
        del sys.modules[name]  # a changed helper is read anew
    got: dict[str, Any] = {}

    def hand(design: Any, arguments: object = None, **more: Any) -> None:
        got.update(design=design, more=more)
        raise _Handed

    with _standing_in(hand):
        try:
            runpy.run_path(str(script), run_name="__main__")
        except _Handed:
            pass
        except KeyboardInterrupt:
            raise
        except BaseException as error:
            raise ScriptError(_where(error, script)) from error
    if "design" not in got:
        raise ScriptError(f"{script.name}: it never calls main(...)")
    return Given(design=got["design"], more=got["more"], files=frozenset(_files(script, got)))


@contextmanager
def _standing_in(hand: Any) -> Iterator[None]:
    """Scripts say `from exporters import main`: that name is another's while one runs."""
    before, beside = exporters.main, sys.path[:]
    exporters.main = command.main = hand
    try:
        yield
    finally:
        exporters.main = command.main = before
        sys.path[:] = beside


def _beside(script: Path) -> list[str]:
    """The modules that were imported from the script's own folder."""
    # By their text: to resolve the links of thousands of modules would take most of a save's time.
    folders = {str(script.parent), str(script.absolute().parent), str(script.resolve().parent)}
    return [
        name
        for name, module in list(sys.modules.items())
        if name != "__main__"
        and (file := getattr(module, "__file__", None))
        and os.path.dirname(file) in folders
    ]


def _files(script: Path, got: dict[str, Any]) -> Iterator[Path]:
    yield script.resolve()
    for name in _beside(script):
        yield Path(str(sys.modules[name].__file__)).resolve()
    boards = got["more"].get("boards")
    if isinstance(boards, str | Path):
        yield Path(boards).resolve()
    photos = photos_file(boards)
    if photos is not None:
        yield photos.resolve()


def _where(error: BaseException, script: Path) -> str:
    """The mistake with the last line of the maker's own files that it went through."""
    if isinstance(error, SyntaxError):
        return f"{Path(error.filename or script).name}, line {error.lineno}: {error.msg}"
    folder = script.resolve().parent
    lines = [
        f"{Path(frame.filename).name}, line {frame.lineno}"
        for frame in traceback.extract_tb(error.__traceback__)
        if Path(frame.filename).resolve().parent == folder
    ]
    where = lines[-1] if lines else script.name
    kind = "" if isinstance(error, KnifewallError) else f"{type(error).__name__}: "
    return f"{where}: {kind}{error}"
