"""A packet in its place: the old one or the new one, whole, and nothing of anybody else's touched.

A run claims its target before it does anything that takes long. The claim is told apart from that
of a second run by a lock, clears away what a killed run has left, and ends with the packet
exchanged or everything as it was (`exporters/exchange`).
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from exporters.exchange import lock
from exporters.exchange.standing import WORKSHOP, NotOurs, record_in
from exporters.exchange.stops import held
from exporters.exchange.swap import MAKING, InTheWay, exchange, is_out_of_place, mend
from furniture.errors import TargetError

Say = Callable[[str], None]
_LOCK = "lock"
_TRIES = 100
"""How often a workshop that another run removes under our hands is made anew. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """The piece that a packet is of."""

    slug: str
    name: str


@dataclass(slots=True, kw_only=True)
class Claim:
    """A target that this run alone may write to.

    Attributes:
        target: the folder, with every link in its path followed.
        workshop: where it works meanwhile.
        say: tells the maker what happened on disk beside what was asked, in whole sentences.
        is_put: whether the new packet stands.
    """

    target: Path
    workshop: Path
    say: Say
    is_put: bool = False

    def put(self, make: Callable[[Path], Sequence[str]]) -> tuple[str, ...]:
        """The packet made beside the target and exchanged for what stands there.

        A stop that comes while folders are exchanged comes too late: it is said and not raised.

        Args:
            make: fills an empty folder and returns the relative paths of its files.

        Raises:
            TargetError: the target cannot take the packet; what was there is as it was.
        """
        making = self.workshop / MAKING
        try:
            making.mkdir()
        except OSError as error:
            raise _cannot(self.target, _told(error)) from error
        files = tuple(make(making))
        with held() as stop:
            self._exchange(files)
            self.is_put = True
        if stop.came is not None:
            self.say("the stop came while the packet was put in its place: the new one stands")
        return files

    def _exchange(self, files: Sequence[str]) -> None:
        try:
            for was, now in exchange(self.target, self.workshop, files):
                self.say(f"{was} was changed since it was written: yours is kept as {now}")
        except InTheWay as error:
            raise _cannot(self.target, f"{error} stands there and is not of this packet") from error
        except NotOurs as error:
            raise _cannot(self.target, str(error)) from error
        except OSError as error:
            raise _cannot(self.target, _told(error)) from error


@contextmanager
def claimed(
    target: Path, owner: Owner, *, replaces_another: bool = False, say: Say | None = None
) -> Iterator[Claim]:
    """The claim on a target, held while the body runs; afterwards nothing is left beside it.

    Args:
        target: the folder: absent, empty, or holding a packet of ours.
        owner: the piece whose packet goes there.
        replaces_another: whether the packet of another piece may go for it.
        say: is told what happened on disk beside what was asked; left out, standard error.

    Raises:
        TargetError: it cannot take the packet, and why; what was there is as it was.
    """
    say = say or _say_on_stderr
    target = _followed(target)
    if not any(each.exists() for each in _workshops(target)):
        _check(target, owner, replaces_another=replaces_another)
    with ExitStack() as stack:
        with held() as stop:
            stack.callback(_remove_parents, _make_parents(target))
        stop.let_go()
        workshop = stack.enter_context(_locked_workshops(target, say))
        # Only now has what a killed run took out been put back.
        _check(target, owner, replaces_another=replaces_another)
        yield Claim(target=target, workshop=workshop, say=say)


@contextmanager
def _locked_workshops(target: Path, say: Say) -> Iterator[Path]:
    """The workshop of this run, those of dead runs mended and removed.

    A workshop stands beside the target, so that it does not show in the packet; in it where the
    folder above cannot be written to. A run looks in both places for another one.
    """
    beside, inside = _workshops(target)
    is_beside = _is_writable(target.parent) and not os.path.ismount(target)
    own, other = (beside, inside) if is_beside else (inside, beside)
    if not is_beside and not target.is_dir():
        raise _cannot(target, f"{target.parent} cannot be written to")
    with _locked_workshop(own, target, say):
        if lock.is_held(other / _LOCK):
            raise _busy(target, "")
        if other.is_dir() and _is_writable(other):
            with _locked_workshop(other, target, say):
                pass
        yield own


def _workshops(target: Path) -> tuple[Path, Path]:
    """Where one can be: beside the target and in it."""
    return target.parent / f".{target.name}{WORKSHOP}", target / WORKSHOP


@contextmanager
def _locked_workshop(workshop: Path, target: Path, say: Say) -> Iterator[None]:
    """The workshop locked and mended; mended again and removed afterwards."""
    with ExitStack() as stack:
        with held() as stop:
            file = _opened(workshop, target)
            stack.callback(_close, file, workshop, target)
        stop.let_go()
        _mend_said(workshop, target, say)
        yield


def _close(file: int, workshop: Path, target: Path) -> None:
    with held():
        try:
            _mend_at_the_end(workshop, target)
        finally:
            lock.release(file, workshop / _LOCK)
            with suppress(OSError):  # what could not be mended now stays for the next run
                workshop.rmdir()


def _opened(workshop: Path, target: Path) -> int:
    for _ in range(_TRIES):
        try:
            workshop.mkdir(parents=True, exist_ok=True)
            return lock.take(workshop / _LOCK)
        except FileNotFoundError:
            continue  # the run before removed it between the two
        except lock.Busy as error:
            raise _busy(target, error.run) from error
        except OSError as error:
            raise _cannot(target, f"{workshop.parent}: {_told(error)}") from error
    raise _busy(target, "")


def _mend_said(workshop: Path, target: Path, say: Say) -> None:
    if not any(name != _LOCK for name in os.listdir(workshop)):
        return
    try:
        with held():
            is_put_back = mend(target, workshop)
    except (OSError, ValueError) as error:
        why = f"a run before was cut short, and what it left in {workshop} cannot be mended"
        raise _cannot(target, f"{why}: {_told(error)}") from error
    say(
        "a run before was cut short while it put its packet in place: the packet of before is back"
        if is_put_back
        else "a run before was cut short: what it left unfinished is cleared away"
    )


def _mend_at_the_end(workshop: Path, target: Path) -> None:
    """What cannot be cleared away is left to the next run; what cannot be put back is told too."""
    try:
        mend(target, workshop)
    except (OSError, ValueError) as error:
        if is_out_of_place(target, workshop):
            why = f"{_told(error)}; the files of the packet before are in {workshop}, whole"
            raise _cannot(target, f"{why}, and the next run puts them back") from error


def _check(target: Path, owner: Owner, *, replaces_another: bool) -> None:
    try:
        record = record_in(target)
    except NotOurs as error:
        raise _cannot(target, str(error)) from error
    except OSError as error:
        raise _cannot(target, _told(error)) from error
    if target.is_dir() and not _is_writable(target):
        raise _cannot(target, "it cannot be written to")
    if record is None or record.slug == owner.slug or replaces_another:
        return
    theirs = f'"{record.name}"' if record.name else "a piece without a name"
    raise _cannot(
        target,
        f'it holds the packet of {theirs}, and this is the one of "{owner.name}"; '
        "choose another folder, or write --replace to let that packet go for this one",
    )


def _followed(target: Path) -> Path:
    """Where the folder really is, so that a link to it stays and the folder itself is exchanged."""
    try:
        if os.path.islink(target) and not os.path.exists(target):
            raise _cannot(target, "it is a link that leads nowhere")
        return Path(os.path.realpath(target))
    except TargetError:
        raise
    except (OSError, ValueError) as error:
        raise _cannot(target, _told(error)) from error


def _make_parents(target: Path) -> list[Path]:
    missing = [parent for parent in target.parents if not parent.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        _remove_parents(missing)
        raise _cannot(target, _told(error)) from error
    return missing


def _remove_parents(made: Sequence[Path]) -> None:
    """Those that we made and that are empty, nearest first."""
    for parent in made:
        with suppress(OSError):
            parent.rmdir()


def _is_writable(folder: Path) -> bool:
    return os.access(folder, os.W_OK | os.X_OK)


def _say_on_stderr(sentence: str) -> None:
    print(sentence, file=sys.stderr)


def _told(error: Exception) -> str:
    return (isinstance(error, OSError) and error.strerror) or str(error)


def _busy(target: Path, run: str) -> TargetError:
    who = f" (process {run})" if run else ""
    return _cannot(
        target, f"another run{who} is writing there now; wait for it, or choose another folder"
    )


def _cannot(target: Path, why: str) -> TargetError:
    return TargetError(f"the packet cannot be put in {target}: {why}")
