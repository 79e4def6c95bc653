"""The job file: what is done, what was measured, boards as they are now; every fault at once."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from furniture.job.done import Done, DoneOf, whole
from furniture.job.figures import THROUGH, Figure, Measurable, measurables_of
from furniture.job.job import Job
from furniture.job.job_boards import boards_told, cuts_told
from furniture.job.job_lines import JobError, Lines, flat, text_and_tables
from furniture.job.levers import levers_of
from furniture.job.packet import SUMMARY
from furniture.job.ticked import OPERATIONS, STEPS, WORK, ticked, unmarked
from furniture.job.worked import UNREAD, Worked, done_by, in_batch, worked_in
from furniture.pieces import Piece, timbers_of
from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Reader, nearest_word, said, word_remedy

TABLES = ("packet", "done", "measured", "free", "boards")
PARTS, SPOILT = "parts", "spoilt"
DONE = (PARTS, SPOILT, STEPS, OPERATIONS, WORK)
"""What the table of what is done may hold."""


def read_job(path: Path, design: object, piece: Piece, boards: Sequence[MeasuredBoard] = ()) -> Job:
    """The job that a file tells of.

    Args:
        path: of the file.
        design: as the script has it, whose lengths may give.
        piece: built from it.
        boards: as the script lists them.

    Raises:
        JobError: with every problem of the file.
    """
    text, record = text_and_tables(path)
    lines = Lines(path, text, Reader(piece.shown))
    lines.known("", list(record), TABLES)
    reading = JobReading(lines)
    job = reading.job(record, design, piece, boards, *reading.packet(record))
    if lines.reader.problems:
        raise JobError(lines.reader.problems)
    return job


@dataclass(frozen=True, slots=True)
class JobReading:
    """A job file as it is read; what is wrong with it is kept with its lines.

    In a batch every name has the `mark` of its copy before it.
    """

    lines: Lines
    mark: str = ""

    def job(
        self,
        record: Mapping[str, Any],
        design: object,
        piece: Piece,
        boards: Sequence[MeasuredBoard],
        packet: Path | None,
        worked: Worked,
    ) -> Job:
        """The job of one piece.

        Args:
            record: the file, or one copy's share of it.
            design: whose lengths may give.
            piece: built from it.
            boards: as the script lists them.
            packet: the folder that was worked by.
            worked: what it tells of the work.
        """
        boards = worked.before.boards_of(boards)
        spoilt = self._spoilt(record, piece)
        done, keys = self._done(record, piece, worked)
        measured, diagonals = self._measured(record, piece, spoilt)
        known = {one.name: one for each in measurables_of(piece) for one in each.figures}
        before = worked.before.measured
        measured = {known[name]: before[name] for name in before if name in known} | measured
        gone = {each for each in measured if each.instance in spoilt and not each.is_room}
        measured = {each: mm for each, mm in measured.items() if each not in gone}
        done = {name: of for name, of in done.items() if name not in spoilt}
        told = boards_told(self.lines, record, boards, timbers_of(piece))
        job = Job(
            done=_with_thicknesses(done, measured, worked),
            spoilt=spoilt,
            operations=keys,
            measured=measured,
            diagonals=diagonals,
            free=self._free(record, design, piece),
            boards=told,
            sawn=cuts_told(self.lines, record, told, worked, keys),
            packet=packet,
            worked=worked,
            is_unmarked=unmarked(
                self.lines.table(record, "done"), self.lines.table(record, "boards"), worked
            ),
        )
        self.refuse_without_board(job, boards)
        return job

    def packet(
        self, record: Mapping[str, Any], summary: str = SUMMARY
    ) -> tuple[Path | None, Worked]:
        """The folder that the file names, and what its record tells of the work."""
        given = record.get("packet")
        if given is None:
            return None, Worked()
        if not isinstance(given, str) or not given.strip():
            self.lines.refuse("packet", "", said(given), "the folder of an earlier run",
                        "its work sheet numbers the operations",
                        "write packet = 'out/NAME'")  # fmt: skip
            return None, UNREAD
        folder = self.lines.path.parent / given
        try:
            found = json.loads((folder / summary).read_text(encoding="utf-8"))
            return folder, worked_in(found)
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            self.lines.refuse("packet", "", said(given),
                        f"a folder with the {summary} of what is made",
                        "there is none there that can be read",
                        "name the folder that the run before the first cut wrote")  # fmt: skip
            return None, UNREAD

    def _done(
        self, record: Mapping[str, Any], piece: Piece, worked: Worked
    ) -> tuple[Done, frozenset[str]]:
        table = self.lines.table(record, "done")
        self.lines.known("done", list(table), DONE)
        instances = {each.instance: each.part for each in piece.placed}
        names = self._names(table, PARTS, piece, "it is done once")
        keys = (
            *ticked(self.lines, record, table, worked, self.mark),
            *worked.made_for(names),
        )
        done = done_by(keys, worked, instances)
        told = {name: whole(instances[name]) for name in names}
        return {**done, **told}, worked.done_before.union(keys)

    def _spoilt(self, record: Mapping[str, Any], piece: Piece) -> frozenset[str]:
        """Parts that have to be made again, whatever was done to them."""
        table = self.lines.table(record, "done")
        spoilt = self._names(table, SPOILT, piece, "it is made again once")
        made = table.get(PARTS, [])
        for name in (in_batch(self.mark, each) for each in spoilt):
            if isinstance(made, list) and name in made:
                self.lines.refuse(
                    "done", name, f"{name!r} as done and as spoilt", "one of them",
                    "a part that is spoilt is made again",
                    f"leave it out of {PARTS}, or of {SPOILT} once it is made again",
                )  # fmt: skip
        return frozenset(spoilt)

    def _names(self, table: Mapping[str, Any], key: str, piece: Piece, once: str) -> list[str]:
        """The instances that a list of the file names; it says why each stands there `once`."""
        called = {in_batch(self.mark, each.instance): each.instance for each in piece.placed}
        names: list[str] = []
        for name in self.lines.list_in(table, "done", key):
            if not isinstance(name, str) or name not in called:
                self.lines.refuse("done", str(name), said(name), ", ".join(called),
                            "no part is called so", word_remedy(name, list(called)))  # fmt: skip
            elif called[name] in names:
                self.lines.refuse("done", name, f"{name!r} twice", "each part once",
                            once, "leave one out")  # fmt: skip
            else:
                names.append(called[name])
        return names

    def _measured(
        self, record: Mapping[str, Any], piece: Piece, spoilt: Collection[str]
    ) -> tuple[dict[Figure, float], dict[str, tuple[float, float]]]:
        """Figures [mm], none of what is spoilt, and the diagonals of openings by what goes in."""
        known = {in_batch(self.mark, each.key): each for each in measurables_of(piece)}
        found: dict[Figure, float] = {}
        diagonals: dict[str, tuple[float, float]] = {}
        told: set[str] = set()
        for key, value in flat(self.lines.table(record, "measured")):
            each = known.get(key)
            if each is None:
                self.lines.refuse("measured", key, said(value), "a part with .length, .width or "
                            ".thickness, an opening or a gap", "nothing of this piece is called so",
                            word_remedy(key, list(known)))  # fmt: skip
                continue
            if key in told:
                self.lines.refuse("measured", key, f"{key!r} twice", "each figure once",
                            "only one of them can be true", "leave one out")  # fmt: skip
            told.add(key)
            if any(one.instance in spoilt and not one.is_room for one in each.figures):
                self.lines.refuse("measured", key, said(value), "sizes of wood that is kept",
                            "the part is spoilt, and is made again as it is designed",
                            f"leave it out, or the part out of {SPOILT}")  # fmt: skip
                continue
            lengths = self._lengths(key, value, each)
            if each.figures:
                found |= dict(zip(each.figures, lengths, strict=False))
            elif len(lengths) == 2:
                diagonals[each.of] = (lengths[0], lengths[1])
        return found, diagonals

    def _lengths(self, key: str, value: object, each: Measurable) -> list[float]:
        """As many lengths as the key takes [mm], near the designed ones; none, noted."""
        texts = value if isinstance(value, list) else [value]
        if len(texts) != len(each.designed_mm):
            two = len(each.designed_mm) == 2
            self.lines.refuse("measured", key, said(value), each.takes, "it has two figures"
                        if two else "it is one size",
                        f'write {json.dumps(key)} = ["...", "..."]' if two
                        else "leave the others out")  # fmt: skip
            return []
        return [
            self.lines.reader.length(
                self.lines.at("measured", key),
                text,
                at_least=0.5 * designed,
                at_most=2.0 * designed,
                why="a measured size is near the designed one",
            )
            for text, designed in zip(texts, each.designed_mm, strict=True)
        ]  # fmt: skip

    def _free(self, record: Mapping[str, Any], design: object, piece: Piece) -> dict[str, str]:
        figures = {
            in_batch(self.mark, each.key): each.key
            for each in measurables_of(piece)
            if each.figures
        }
        levers = levers_of(design)
        called = {each.in_script: each.name for each in levers}
        called |= {each.name: each.name for each in levers}
        found = {}
        for key, value in flat(self.lines.table(record, "free")):
            if key not in figures:
                self.lines.refuse("free", key, said(value), "a figure as in [measured]",
                            "nothing of this piece is called so",
                            word_remedy(key, list(figures)))  # fmt: skip
            elif not isinstance(value, str) or value not in called:
                near = called.get(nearest_word(value, list(called)) or "")
                self.lines.refuse("free", key, said(value), "a length of the script, as a run "
                            "names it", "no length in the script is called so",
                            f"write {near!r}" if near else "leave it out, and a run that meets "
                            "the figure names what can give")  # fmt: skip
            else:
                found[figures[key]] = called[value]
        return found

    def refuse_without_board(self, job: Job, boards: Sequence[MeasuredBoard]) -> None:
        """Note done parts of which nobody says what they were cut from."""
        if not boards or job.boards or job.worked is UNREAD:
            return
        before = job.worked.before
        told = job.worked.cut_from.keys() | before.done.keys() | before.in_hand
        lost = sorted((job.done_parts | job.spoilt) - told)
        if lost:
            self.lines.refuse(
                "done", SPOILT if job.spoilt.issuperset(lost) else PARTS,
                ", ".join(map(repr, lost)), "parts whose boards are told",
                "without what is left of its board the plan would cut from wood that is gone",
                "write packet = 'out/NAME', the folder with the plan it was cut by, or each board "
                "as it is now: [boards.A] length = ...",
            )  # fmt: skip


def _with_thicknesses(done: Done, measured: Mapping[Figure, float], worked: Worked) -> Done:
    """What is done with what must have been planed, since its thickness was measured.

    A length or a width may be one that the part is still to be cut to.
    """
    planed = {
        each.instance: DoneOf(axes=frozenset([THROUGH]), cuts=frozenset(), is_whole=False)
        for each in measured
        if each.axis == THROUGH and each.instance in worked.cut_from
    }
    return {**planed, **done}
