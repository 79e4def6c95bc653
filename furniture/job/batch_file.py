"""The job file of a batch: a part goes by its copy's name before its own, `Tea box 2: lid`."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from furniture.job.copies_in import BATCH_SUMMARY, copies_in
from furniture.job.job import Job
from furniture.job.job_boards import boards_told, cuts_told
from furniture.job.job_file import DONE, PARTS, SPOILT, TABLES, JobReading
from furniture.job.job_lines import JobError, Lines, flat, text_and_tables
from furniture.job.packet import SUMMARY
from furniture.job.ticked import WORK, refuse_other_work, unmarked
from furniture.job.worked import Worked, in_batch, of_copy, worked_in
from furniture.pieces import Piece, timbers_of
from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Reader, Shown, nearest_word, said, word_remedy

_BOARDS = ""
"""What stands before the mark of the boards of all: no copy's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One copy of a batch.

    Args:
        mark: what it is called among all, such as `Tea box 2`.
        design: whose lengths may give.
        piece: built from it.
    """

    mark: str
    design: Any
    piece: Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchJob:
    """What a job file tells of a batch.

    Args:
        of_copies: what is done and measured of each copy, in their order.
        of_boards: what is off the boards of all and what became of them, parts by their names among
            all.
    """

    of_copies: tuple[Job, ...]
    of_boards: Job


def read_batch_job(
    path: Path, copies: Sequence[Copy], boards: Sequence[MeasuredBoard], shown: Shown
) -> BatchJob:
    """The jobs that the file of a batch tells of.

    Args:
        path: of the file.
        copies: of all pieces.
        boards: as the script lists them.
        shown: how the lengths of the boards are shown.

    Raises:
        JobError: with every problem of the file.
    """
    text, record = text_and_tables(path)
    lines = Lines(path, text, Reader(shown))
    lines.known("", list(record), TABLES)
    folder, plan = JobReading(lines).packet(record, BATCH_SUMMARY)
    packets = None if folder is None else copies_in(folder)
    shares = _shares(lines, record, [each.mark for each in copies])
    jobs = []
    for each in copies:
        own = None if packets is None else packets.packet_of(each.mark, each.piece.slug)
        worked = plan if own is None else of_copy(_worked(own), plan, each.mark)
        reading = JobReading(lines, each.mark)
        jobs.append(reading.job(shares[each.mark], each.design, each.piece, (), own, worked))
    timbers = list(dict.fromkeys(one for each in copies for one in timbers_of(each.piece)))
    ticked_by = shares[_BOARDS]["done"]
    refuse_other_work(lines, ticked_by, plan, _BOARDS)
    told = boards_told(lines, record, boards, timbers)
    whole = Job(
        done={
            in_batch(copy.mark, name): of
            for copy, job in zip(copies, jobs, strict=True)
            for name, of in job.done.items()
        },
        spoilt=frozenset(
            in_batch(copy.mark, name)
            for copy, job in zip(copies, jobs, strict=True)
            for name in job.spoilt
        ),
        boards=told,
        sawn=cuts_told(lines, record, told, plan, ()),
        packet=folder,
        worked=plan,
        is_unmarked=unmarked(ticked_by, lines.table(record, "boards"), plan),
    )
    JobReading(lines).refuse_without_board(whole, boards)
    if lines.reader.problems:
        raise JobError(lines.reader.problems)
    begun = {on for name in whole.begun for on, _ in plan.cut_from.get(name, ())}
    sawn = {**dict.fromkeys(begun, frozenset[int]()), **whole.sawn}
    of_copies = tuple(replace(each, boards=whole.boards, sawn=sawn) for each in jobs)
    return BatchJob(of_copies=of_copies, of_boards=whole)


def _worked(folder: Path | None) -> Worked:
    """The work of one piece of the batch; none where it was not written."""
    if folder is None:
        return Worked()
    try:
        return worked_in(json.loads((folder / SUMMARY).read_text(encoding="utf-8")))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return Worked()


def _shares(
    lines: Lines, record: Mapping[str, Any], marks: Sequence[str]
) -> dict[str, dict[str, Any]]:
    """Of every copy what the file says of it, and of the boards of all of which plan their cuts
    are."""
    found: dict[str, dict[str, Any]] = {
        mark: {"done": {key: [] for key in DONE}, "measured": {}, "free": {}}
        for mark in (*marks, _BOARDS)
    }
    if "packet" in record:
        for share in found.values():
            share["packet"] = record["packet"]
    done = lines.table(record, "done")
    lines.known("done", list(done), DONE)
    for key in DONE:
        lone = done.get(key)
        for item in [lone] if isinstance(lone, str) else lines.list_in(done, "done", key):
            mark = _copy_meant(item, marks)
            if key == WORK and isinstance(item, str) and ":" not in item:
                mark = _BOARDS
            if mark is None:
                _refuse(lines, "done", str(item) if key in (PARTS, SPOILT) else key, item, marks)
            else:
                found[mark]["done"][key].append(item)
    for table in ("measured", "free"):
        for key, value in flat(lines.table(record, table)):
            mark = _copy_meant(key, marks)
            if mark is None:
                _refuse(lines, table, key, key, marks)
            else:
                found[mark][table][key] = value
    return found


def _copy_meant(text: object, marks: Sequence[str]) -> str | None:
    """The copy that a name is of: the longest mark that it begins with."""
    begins = [m for m in marks if isinstance(text, str) and text.startswith(in_batch(m, ""))]
    return max(begins, key=len, default=None)


def _refuse(lines: Lines, table: str, key: str, given: object, marks: Sequence[str]) -> None:
    before, _, rest = str(given).rpartition(": ")
    meant = nearest_word(before, marks) if before else None
    near = word_remedy(before, marks)
    if isinstance(given, int):
        near = f"write {in_batch(marks[0], str(given))!r}, with the copy that is meant"
    elif meant is not None:
        near = f"write {in_batch(meant, rest)!r}"
    elif not before:
        near = f"write {in_batch(marks[0], str(given))!r}, or with the copy that is meant"
    lines.refuse(table, key, said(given), f"names that begin with {', '.join(marks)} and a colon",
                 "copies of a design have parts of the same names", near)  # fmt: skip
