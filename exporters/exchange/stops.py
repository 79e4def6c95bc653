"""Ctrl-C, and a polite end by the system, at moments where they can be told truly."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import FrameType

_NAMES = ("SIGINT", "SIGTERM", "SIGHUP")
_ENDS = ("SIGTERM", "SIGHUP")


class Ended(KeyboardInterrupt):
    """The system or another program asked this run to end."""


@dataclass(slots=True)
class Held:
    """Whether a stop came while stops were held, and which."""

    came: int | None = None

    def let_go(self) -> None:
        """The stop that came, if any, comes now."""
        if self.came is not None:
            signal.raise_signal(self.came)


@contextmanager
def ends_raised() -> Iterator[None]:
    """SIGTERM and SIGHUP come as `Ended`, so that what is half made is cleared away."""

    def end(number: int, _: FrameType | None) -> None:
        raise Ended(signal.Signals(number).name)

    with _handled(_ENDS, end):
        yield


@contextmanager
def held() -> Iterator[Held]:
    """Stops that come meanwhile only leave their mark; the caller goes on to its end."""
    mark = Held()

    def note(number: int, _: FrameType | None) -> None:
        mark.came = number

    with _handled(_NAMES, note):
        yield mark


@contextmanager
def _handled(names: tuple[str, ...], handler: signal._HANDLER) -> Iterator[None]:
    """These signals so handled; one that is ignored (as `nohup` does) stays ignored."""
    before: dict[signal.Signals, signal._HANDLER] = {}
    if threading.current_thread() is threading.main_thread():
        for name in names:
            number = getattr(signal, name, None)  # not every system has every signal
            if number is not None and signal.getsignal(number) not in (signal.SIG_IGN, None):
                before[number] = signal.signal(number, handler)
    try:
        yield
    finally:
        for number, old in before.items():
            signal.signal(number, old)
