"""What of the work a job leaves to be done."""

from __future__ import annotations

from furniture.job.done import Done
from furniture.job.figures import THROUGH
from furniture.job.going_on import GoingOn
from furniture.making.left_to_do import left_to_do
from furniture.making.making import Making
from furniture.making.operations import Axis, CutOf, SizeOf
from furniture.pieces import Piece

_AXES = tuple(Axis)


def left_of(making: Making, piece: Piece, going: GoingOn) -> Making:
    """The making of the whole piece, less what the job has done of it.

    A part that has to be made anew is asked for from its first operation; of one that is trimmed,
    the cuts that are run again, made larger or new.

    Args:
        making: of the whole piece.
        piece: that knows which parts are done, and whose wood is in hand.
        going: the job, with sizes and cuts that are done.
    """
    done = _done_of(piece, going)
    worked, measured = going.job.worked, going.job.measured
    looked = [worked.had.get(key, frozenset()) for key in going.operations & worked.looks]
    looked += [
        frozenset([each.instance]) for each in measured if each.axis == THROUGH and not each.is_room
    ]
    had, rigs = going.job.worked.had, going.job.worked.rigs
    return left_to_do(
        making,
        piece.done,
        sizes_of(piece, going),
        made_of(piece, going),
        piece.in_hand,
        {CutOf(each.instance, made.index) for each in going.verdicts for made in each.cuts},
        {key: had[key] for key in going.operations if key in had},
        [rigs[key] for key in going.operations if key in rigs],
        {name for name, of in done.items() if of.is_told} & piece.done,
        going.anew,
        {name for names in looked for name in names},
    )


def made_of(piece: Piece, going: GoingOn) -> frozenset[CutOf]:
    """The cuts that are made in wood that is kept.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        going: the job.
    """
    done = _done_of(piece, going)
    return frozenset(CutOf(name, index) for name, of in done.items() for index in of.cuts)


def sizes_of(piece: Piece, going: GoingOn) -> frozenset[SizeOf]:
    """The sizes that are reached in wood that is kept.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        going: the job.
    """
    done = _done_of(piece, going)
    return frozenset(SizeOf(name, _AXES[axis]) for name, of in done.items() for axis in of.axes)


def _done_of(piece: Piece, going: GoingOn) -> Done:
    there = piece.done | piece.in_hand
    return {name: of for name, of in going.job.done.items() if name in there}
