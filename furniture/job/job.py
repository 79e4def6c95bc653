"""A job in the middle, as its file tells it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from furniture.job.done import Done
from furniture.job.figures import Figure
from furniture.job.worked import Worked
from furniture.shop.boards.given import BoardZone


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardNow:
    """What the job file says of a board.

    Args:
        changed: fields of `MeasuredBoard` that are otherwise now.
        zones: found later, from the end and the edge that it had at first unless it is measured
            anew.
        is_gone: nothing is left of it.
    """

    changed: Mapping[str, Any] = field(default_factory=dict)
    zones: tuple[BoardZone, ...] = ()
    is_gone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A job in the middle.

    Args:
        done: what is done, by instance; nothing of what is spoilt.
        spoilt: instances that were begun or made, and have to be made again.
        operations: keys of the operations that are done.
        measured: figures as they are [mm].
        free: which parameter gives, by the key of a figure.
        diagonals: of openings, by the instance that goes in [mm].
        boards: as they are now, by name.
        sawn: the cuts of boards that are made, by number on the sheet of each.
        packet: that was worked by; None where the file names none.
        worked: what that packet tells of its work and its boards.
        is_unmarked: whether numbers of its work are given without the mark of that work.
    """

    done: Done
    spoilt: frozenset[str] = frozenset()
    operations: frozenset[str] = frozenset()
    measured: Mapping[Figure, float] = field(default_factory=dict)
    free: Mapping[str, str] = field(default_factory=dict)
    diagonals: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    boards: Mapping[str, BoardNow] = field(default_factory=dict)
    sawn: Mapping[str, frozenset[int]] = field(default_factory=dict)
    packet: Path | None = None
    worked: Worked = field(default_factory=Worked)
    is_unmarked: bool = False

    @property
    def begun(self) -> frozenset[str]:
        """Instances whose wood is off its board, whatever became of it."""
        return self.spoilt | self.done.keys()

    @property
    def done_parts(self) -> frozenset[str]:
        """Instances on which nothing is left to be cut."""
        return frozenset(name for name, of in self.done.items() if of.is_whole)
