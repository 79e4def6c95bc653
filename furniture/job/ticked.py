"""What is ticked on the work sheets of an earlier packet: its steps, or single operations."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from furniture.job.job_lines import Lines
from furniture.job.worked import UNREAD, Worked, in_batch
from furniture.units import said

OPERATIONS, STEPS, WORK = "operations", "steps", "work"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """What is numbered where.

    Args:
        key: of the job file.
        of: the operations' keys by that number.
        where: it stands.
    """

    key: str
    of: Mapping[int, tuple[str, ...]]
    where: str


def ticked(
    lines: Lines, record: Mapping[str, Any], done: Mapping[str, Any], worked: Worked, mark: str = ""
) -> Iterator[str]:
    """The keys of the operations that a job file says are done; what is wrong with it is noted.

    Args:
        lines: keeps the problems.
        record: the whole file.
        done: its table of that name.
        worked: the packet that has the numbers.
        mark: of the copy in a batch, which stands before a number.
    """
    kinds = (
        _Kind(key=STEPS, of=worked.steps, where="the work sheets"),
        _Kind(
            key=OPERATIONS,
            of={number: (key,) for number, key in worked.operations.items()},
            where="work.csv",
        ),
    )
    refuse_other_work(lines, done, worked, mark)
    for kind in kinds:
        given = lines.list_in(done, "done", kind.key)
        if given and not kind.of:
            _refuse_unnumbered(lines, record, given, kind, worked)
            continue
        for item in given:
            for number in _numbers(item, mark) or (None,):
                keys = None if number is None else kind.of.get(number)
                if keys is not None:
                    yield from keys
                    continue
                lines.refuse(
                    "done", kind.key, said(item), f"1 to {max(kind.of)}",
                    f"{kind.where} of that packet have no such number"
                    if kind.key == STEPS else f"{kind.where} of that packet has no such number",
                    "write the number that stands before it there",
                )  # fmt: skip
                break


def unmarked(done: Mapping[str, Any], boards: Mapping[str, Any], worked: Worked) -> bool:
    """Whether numbers are given, and nobody says of which work they are.

    Args:
        done: the table of what is done.
        boards: the table of boards, where the cuts of their sheets are told by number.
        worked: the packet that has the numbers.
    """
    sawn = any(isinstance(each, dict) and each.get("cuts") for each in boards.values())
    numbered = done.get(STEPS) or done.get(OPERATIONS) or sawn
    return bool(worked.mark and numbered and not done.get(WORK))


def refuse_other_work(lines: Lines, done: Mapping[str, Any], worked: Worked, mark: str) -> None:
    """Note numbers that are of another work than that of the packet: it was written anew since.

    Args:
        lines: keeps the problems.
        done: the table of what is done, or a copy's share of it.
        worked: the packet that has the numbers.
        mark: of the copy in a batch; none for the boards of all, or a lone piece.
    """
    given = done.get(WORK, [])
    before = in_batch(mark, "")
    for each in [given] if isinstance(given, str) else lines.list_in(done, "done", WORK):
        if worked is UNREAD or each == f"{before}{worked.mark}":
            continue
        now = f"{before}{worked.mark}" if worked.mark else "none with a mark"
        lines.refuse(
            "done", WORK, said(each), repr(now),
            "the packet that the file names was written anew since, and its numbers mean other work"
            if worked.mark else "the packet that the file names has no work with such a mark",
            "name the folder whose work sheets carry that mark, or write numbers and mark as the "
            "new sheets have them",
        )  # fmt: skip


def _numbers(item: object, mark: str) -> tuple[int, ...]:
    """The numbers that an item means: one, or `3 to 14`; none where it means none."""
    if type(item) is int:
        return () if mark else (item,)
    before = in_batch(mark, "")
    if not isinstance(item, str) or not item.startswith(before):
        return ()
    told = re.fullmatch(r"(\d+)(?:\s*to\s*(\d+))?", item.removeprefix(before).strip())
    if told is None or (told[2] is None and not mark):
        return ()
    first, last = int(told[1]), int(told[2] or told[1])
    return tuple(range(first, min(last, first + _MOST) + 1))


_MOST = 10_000
"""More numbers than any work has: a slip of the pen must not fill the memory."""


def _refuse_unnumbered(
    lines: Lines, record: Mapping[str, Any], given: list[Any], kind: _Kind, worked: Worked
) -> None:
    if worked is UNREAD:
        return  # the packet itself is refused
    if "packet" in record:
        lines.refuse("done", kind.key, said(given), f"numbers of {kind.where} in the packet",
                     "the packet that the file names has no work with such numbers in it",
                     "name one that was written with --only work")  # fmt: skip
    else:
        lines.refuse(
            "done", kind.key, said(given), "numbers of a packet that the file names",
            "the work is numbered anew in every run",
            "write packet = 'out/NAME' at the top, the folder whose work sheets you work by",
        )  # fmt: skip
