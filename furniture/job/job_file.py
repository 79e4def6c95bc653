"""The job file: what is done, what was measured, boards as they are now; every fault at once."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from furniture.job.done import Done, whole
from furniture.job.figures import Figure, Measurable, measurables_of
from furniture.job.job import Job
from furniture.job.job_boards import boards_told, cuts_told
from furniture.job.job_lines import JobError, Lines, flat, text_and_tables
from furniture.job.levers import levers_of
from furniture.job.packet import SUMMARY
from furniture.job.worked import Worked, done_by, worked_in
from furniture.pieces import Piece
from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Reader, said, word_remedy

TABLES = ("packet", "done", "measured", "free", "boards")
_DONE = ("parts", "operations")


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
    job = _JobReading(lines).job(record, design, piece, boards)
    if lines.reader.problems:
        raise JobError(lines.reader.problems)
    return job


@dataclass(frozen=True, slots=True)
class _JobReading:
    lines: Lines

    def job(
        self,
        record: Mapping[str, Any],
        design: object,
        piece: Piece,
        boards: Sequence[MeasuredBoard],
    ) -> Job:
        self.lines.known("", list(record), TABLES)
        packet, worked = self._packet(record)
        done, keys = self._done(record, piece, worked)
        measured, diagonals = self._measured(record, piece)
        job = Job(
            done=done,
            operations=keys,
            measured=measured,
            diagonals=diagonals,
            free=self._free(record, design, piece),
            boards=boards_told(self.lines, record, boards),
            sawn=cuts_told(self.lines, record, worked, keys),
            packet=packet,
            worked=worked,
        )
        self._refuse_without_board(job, piece, boards)
        return job

    def _packet(self, record: Mapping[str, Any]) -> tuple[Path | None, Worked]:
        given = record.get("packet")
        if given is None:
            return None, Worked()
        if not isinstance(given, str) or not given.strip():
            self.lines.refuse("packet", "", said(given), "the folder of an earlier run",
                        "its work sheet numbers the operations",
                        "write packet = 'out/NAME'")  # fmt: skip
            return None, Worked()
        folder = self.lines.path.parent / given
        try:
            found = json.loads((folder / SUMMARY).read_text(encoding="utf-8"))
            return folder, worked_in(found)
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            self.lines.refuse("packet", "", said(given),
                        f"a folder with the {SUMMARY} of this piece",
                        "there is none there that can be read",
                        "name the folder that the run before the first cut wrote")  # fmt: skip
            return None, Worked()

    def _done(
        self, record: Mapping[str, Any], piece: Piece, worked: Worked
    ) -> tuple[Done, frozenset[str]]:
        table = self.lines.table(record, "done")
        self.lines.known("done", list(table), _DONE)
        instances = {each.instance: each.part for each in piece.placed}
        names = []
        for name in self._list(table, "parts"):
            if not isinstance(name, str) or name not in instances:
                self.lines.refuse("done", str(name), said(name), ", ".join(instances),
                            "no part is called so", word_remedy(name, list(instances)))  # fmt: skip
            elif name in names:
                self.lines.refuse("done", name, f"{name!r} twice", "each part once",
                            "it is done once", "leave one out")  # fmt: skip
            else:
                names.append(name)
        numbers = self._list(table, "operations")
        if numbers and not worked.operations:
            self.lines.refuse(
                "done", "operations", said(numbers), "numbers of a packet that the file names",
                "operations are numbered anew in every run",
                "write packet = 'out/NAME' at the top, the folder whose work sheet you work by",
            )  # fmt: skip
            return {name: whole(instances[name]) for name in names}, frozenset()
        keys = []
        for number in numbers:
            key = worked.operations.get(number) if isinstance(number, int) else None
            if key is None:
                self.lines.refuse("done", "operations", said(number),
                            f"1 to {len(worked.operations)}",
                            "the work sheet of that packet has no such operation",
                            "write the number that stands before it there")  # fmt: skip
            else:
                keys.append(key)
        done = done_by(keys, worked, instances)
        return {**done, **{name: whole(instances[name]) for name in names}}, frozenset(keys)

    def _list(self, table: Mapping[str, Any], key: str) -> list[Any]:
        value = table.get(key, [])
        if isinstance(value, list):
            return value
        self.lines.refuse("done", key, said(value), "a list", "several may be done",
                    f"write {key} = [{json.dumps(value, default=str)}]")  # fmt: skip
        return []

    def _measured(
        self, record: Mapping[str, Any], piece: Piece
    ) -> tuple[dict[Figure, float], dict[str, tuple[float, float]]]:
        """Figures [mm], and the diagonals of openings by what goes in."""
        known = {each.key: each for each in measurables_of(piece)}
        found: dict[Figure, float] = {}
        diagonals: dict[str, tuple[float, float]] = {}
        told: set[str] = set()
        for key, value in flat(self.lines.table(record, "measured")):
            each = known.get(key)
            if each is None:
                self.lines.refuse("measured", key, said(value), "a part with .length, .width or "
                            ".thickness, or an opening", "nothing of this piece is called so",
                            word_remedy(key, list(known)))  # fmt: skip
                continue
            if key in told:
                self.lines.refuse("measured", key, f"{key!r} twice", "each figure once",
                            "only one of them can be true", "leave one out")  # fmt: skip
            told.add(key)
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
        figures = [each.key for each in measurables_of(piece) if each.figures]
        levers = [each.name for each in levers_of(design)]
        found = {}
        for key, value in flat(self.lines.table(record, "free")):
            if key not in figures:
                self.lines.refuse("free", key, said(value), "a figure as in [measured]",
                            "nothing of this piece is called so",
                            word_remedy(key, figures))  # fmt: skip
            elif value not in levers:
                self.lines.refuse("free", key, said(value), ", ".join(levers),
                            "no length in the script is called so",
                            word_remedy(value, levers))  # fmt: skip
            else:
                found[key] = value
        return found

    def _refuse_without_board(
        self, job: Job, piece: Piece, boards: Sequence[MeasuredBoard]
    ) -> None:
        """Note done parts of which nobody says what they were cut from."""
        if not boards or job.boards:
            return
        lost = sorted(job.done_parts - job.worked.cut_from.keys())
        if lost:
            self.lines.refuse(
                "done", "parts", ", ".join(map(repr, lost)), "parts whose boards are told",
                "without what is left of its board the plan would cut from wood that is gone",
                "write packet = 'out/NAME', the folder with the plan it was cut by, or each board "
                "as it is now: [boards.A] length = ...",
            )  # fmt: skip
