"""A bench for the exchange of packets: small packets, and runs in a child that are cut short.

A child is forked, so that it can kill itself at any of its steps on disk; `cut_short` counts them.
"""

from __future__ import annotations

import errno
import json
import os
import signal
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from exporters.exchange import rename, swap
from exporters.exchange.standing import digest_of
from exporters.exchange.stops import ends_raised
from exporters.summary import SCHEMA
from exporters.target import Owner, claimed

STAND = Owner(slug="stand", name="Stand")
OLD = {"stand.step": "old", "sheets/01.dxf": "old 1", "sheets/02.dxf": "old 2", "parts.csv": "old"}
NEW = {"stand.step": "new", "sheets/01.dxf": "new 1", "pictures/front.png": "new", "parts.csv": "n"}
FOREIGN = {"notes.txt": "mine", "sheets/sketch.txt": "mine too", "own/deep/x": "and this"}
EDITED = "parts (yours).csv"

DONE, REFUSED, STOPPED, NOTHING_LEFT = 0, 11, 12, 13
STEPS = ("rename", "link", "mkdir", "rmdir", "unlink", "open", "fsync")


def maker(files, owner=STAND):
    """Fills a folder with these files and a summary that lists them."""

    def make(folder):
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        summary = {
            "schema": SCHEMA,
            "slug": owner.slug,
            "name": owner.name,
            "files": [*files, "piece.json"],
            "sha256": {name: digest_of(folder / name) for name in files},
        }
        (folder / "piece.json").write_text(json.dumps(summary))
        return summary["files"]

    return make


def put(target, files, owner=STAND, *, replaces_another=False, said=None):
    """One run."""
    say = (lambda _: None) if said is None else said.append
    with claimed(target, owner, replaces_another=replaces_another, say=say) as claim:
        return claim.put(maker(files, owner))


def tree(folder: Path) -> dict[str, str]:
    """Every file and link by its path, without a run's workshop; empty folders end in a slash."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if ".knifewall-run" in name:
            continue
        if path.is_symlink():
            found[name] = f"-> {os.readlink(path)}"
        elif path.is_file():
            found[name] = path.read_text() if path.name != "piece.json" else "summary"
        elif not any(path.iterdir()):
            found[f"{name}/"] = ""
    return found


def strays(folder: Path) -> list[str]:
    """Workshops of runs, beside the target or in it."""
    return [str(path) for path in folder.rglob("*.knifewall-run")]


def standing_packet(folder: Path) -> Path:
    """A target with the old packet, one file of it changed, and foreign files, links, folders."""
    target = folder / "out"
    put(target, OLD)
    (target / "parts.csv").write_text("my prices")
    for name, text in FOREIGN.items():
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        (target / name).write_text(text)
    (target / "empty").mkdir()
    (target / "link").symlink_to("nowhere")
    return target


KEPT = {**FOREIGN, "empty/": "", "link": "-> nowhere"}
WHOLE_OLD = {**KEPT, **OLD, "parts.csv": "my prices", "piece.json": "summary"}
WHOLE_NEW = {**KEPT, **NEW, EDITED: "my prices", "piece.json": "summary"}


def in_child(body: Callable[[], int]) -> int:
    """The exit code of the body run in a forked child; minus the signal that killed it."""
    child = os.fork()
    if child == 0:
        with suppress(BaseException):
            os._exit(body())
        os._exit(99)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def one_run(target: Path, files=NEW) -> int:
    """A run as the command line makes it, told as an exit code."""
    claim = None
    try:
        with ends_raised(), claimed(target, STAND, say=lambda _: None) as claim:
            claim.put(maker(files))
    except OSError:
        return REFUSED
    except KeyboardInterrupt:
        return DONE if claim is not None and claim.is_put else STOPPED
    return DONE


def at_step(number: int, act: Callable[[], None], *, lasts: bool = False) -> list[int]:
    """From now on `act` is done before the step of this number (and every later one, if it lasts).

    Patches `os` for good, so only for a child. The list holds the count of steps so far.
    """
    count = [0]

    def counted(call):
        def step(*given, **named):
            count[0] += 1
            if count[0] == number or (lasts and count[0] > number):
                act()
            return call(*given, **named)

        return step

    for name in STEPS:
        setattr(os, name, counted(getattr(os, name)))
    swap.exchange_names = counted(swap.exchange_names)
    return count


def steps_of(target: Path, prepare: Callable[[], None] = lambda: None) -> int:
    """How many steps a whole run takes, found in a child that then leaves the target changed."""
    reading, writing = os.pipe()

    def body() -> int:
        prepare()
        count = at_step(0, lambda: None)
        code = one_run(target)
        os.write(writing, str(count[0]).encode())
        return code

    assert in_child(body) == DONE
    os.close(writing)
    told = int(os.read(reading, 20))
    os.close(reading)
    return told


def killed() -> None:
    """The end without a word."""
    os.kill(os.getpid(), signal.SIGKILL)


def disk_full() -> None:
    """What the system says then."""
    raise OSError(errno.ENOSPC, "No space left on device")


def no_links(*_: object, **__: object) -> None:
    """A disk without hard links."""
    raise OSError(errno.EPERM, "Operation not permitted")


def no_exchange(*_: object) -> bool:
    """A system that cannot exchange two names in one step."""
    return False


WAYS: dict[str, Callable[[Path], None]] = {
    "at once": lambda target: None,
    "two renames": lambda target: setattr(swap, "exchange_names", no_exchange),
    "from within the folder": os.chdir,
    "no hard links": lambda target: setattr(os, "link", no_links),
    "above not writable": lambda target: _only_inside(target),
}
"""The ways in which a packet is exchanged, each brought about in a child."""


def _only_inside(target: Path) -> None:
    from exporters import target as module

    module._is_writable = lambda folder: folder != target.parent


assert rename.exchange_names is swap.exchange_names
