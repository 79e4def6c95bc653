"""Which parts still come out of the wood that was laid out or begun for them, and which outgrow it.

Half of what was left on a size may go to a part that grows; the other half trues its ends and its
edges, as the work says how much comes off there at most.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from furniture.job.done import SAME_MM, Done
from furniture.job.figures import ACROSS, ALONG, THROUGH
from furniture.job.job import Job
from furniture.job.measured_old import with_measured
from furniture.job.old import Old, OldPart
from furniture.job.values import Say, TooSmall, Verdict
from furniture.parts.blank import Blank
from furniture.parts.cuts import Slope
from furniture.parts.faces import ENDS
from furniture.parts.part import Part
from furniture.pieces import Piece

_FREE_SHARE = 0.5


def wood_in_hand(names: Collection[str], job: Job, old: Old, piece: Piece) -> frozenset[str]:
    """What comes out of the wood where it was laid.

    Args:
        names: instances whose wood is off its board, or keeps its place there.
        job: what is done and measured.
        old: the packet that was worked by.
        piece: as it is designed now.
    """
    laid = _laid(job, old, piece)
    return frozenset(
        name for name in names
        if name in laid.was and name in laid.parts and not laid.wanting(name)
    )  # fmt: skip


def outgrown(names: Collection[str], job: Job, old: Old, piece: Piece) -> Iterator[Verdict]:
    """Parts that are begun, and larger now than their wood.

    Args:
        names: instances whose wood does not serve.
        job: what is done and measured.
        old: the packet that was worked by.
        piece: as it is designed now.
    """
    laid = _laid(job, old, piece)
    for name in laid.parts:
        if name in names and name in laid.was and (why := laid.wanting(name)):
            yield Verdict(instance=name, say=Say.MAKE_NEW, why=why)


@dataclass(frozen=True, slots=True)
class _Laid:
    """Parts as they are now, in the wood that was laid for them as they were.

    `was` has their blanks as drawn or measured, `to_length` those of which an end is sawn.
    """

    was: Mapping[str, Blank]
    parts: Mapping[str, Part]
    done: Done
    together: Mapping[str, frozenset[str]]
    to_length: frozenset[str]

    def wanting(self, name: str) -> tuple[TooSmall, ...]:
        """By how much the wood of a part is too small for it, along each axis where it is."""
        part = self.parts[name]
        done = self.done[name].axes if name in self.done else frozenset()
        free_mm = (
            0.0,  # what is left along the grain is shared by all that come off one length
            0.0 if ACROSS in done else _FREE_SHARE * part.rough.width_mm,
            0.0,
        )
        return tuple(
            TooSmall(axis=axis, by_mm=more)
            for axis in (ALONG, ACROSS, THROUGH)
            if (more := self._grown_mm(name, axis) - free_mm[axis]) > SAME_MM
            and not (axis == ALONG and self._has_room_along(name))
        )

    def _has_room_along(self, name: str) -> bool:
        """Whether the length that a part comes off, and is not sawn yet, takes what has grown."""
        mates = self.together.get(name, frozenset({name})) & self.was.keys()
        grown = sum(self._grown_mm(each, ALONG) for each in mates)
        free = _FREE_SHARE * self.parts[name].rough.length_mm
        return not mates & self.to_length and grown <= free + SAME_MM

    def _grown_mm(self, name: str, axis: int) -> float:
        now = self.parts[name].blank.size[axis] if name in self.parts else 0.0
        return now - self.was[name].size[axis]


def _laid(job: Job, old: Old, piece: Piece) -> _Laid:
    there = {
        each: mm
        for each, mm in job.measured.items()
        if each.instance in job.done and each.axis in job.done[each.instance].axes
    }
    as_made = with_measured(old, there).parts
    return _Laid(
        was={each.name: each.blank for each in as_made},
        parts={each.instance: each.part for each in piece.placed},
        done=job.done,
        together=job.worked.together,
        to_length=frozenset(each.name for each in as_made if _is_sawn_off(each, job.done)),
    )


def _is_sawn_off(part: OldPart, done: Done) -> bool:
    """Whether it has its length, or an end that is mitred."""
    if part.name not in done:
        return False
    of = done[part.name]
    shapes = (cut.shape(part.blank) for at, cut in enumerate(part.cuts) if at in of.cuts)
    return ALONG in of.axes or any(
        isinstance(shape, Slope) and shape.face in ENDS for shape in shapes
    )
