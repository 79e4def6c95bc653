"""What of the work a job leaves to be done."""

from __future__ import annotations

from furniture.job.job import Job
from furniture.making.left_to_do import left_to_do
from furniture.making.making import Making
from furniture.making.operations import Axis, CutOf, SizeOf
from furniture.pieces import Piece

_AXES = tuple(Axis)


def left_of(making: Making, piece: Piece, job: Job) -> Making:
    """The making of the whole piece, less what the job has done of it.

    A part that has to be made anew is asked for from its first operation.

    Args:
        making: of the whole piece.
        piece: that knows which parts are done, and whose wood is in hand.
        job: with sizes and cuts that are done.
    """
    there = piece.done | piece.in_hand
    done = {name: of for name, of in job.done.items() if name in there}
    return left_to_do(
        making,
        piece.done,
        {SizeOf(name, _AXES[axis]) for name, of in done.items() for axis in of.axes},
        {CutOf(name, index) for name, of in done.items() for index in of.cuts},
        piece.in_hand,
    )
