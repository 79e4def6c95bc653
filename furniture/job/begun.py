"""What of the work a job has done."""

from __future__ import annotations

from collections.abc import Collection

from furniture.job.figures import THROUGH
from furniture.job.going_on import GoingOn
from furniture.job.worked import in_strips
from furniture.making.begun import Begun
from furniture.making.operations import Axis, CutOf, SizeOf
from furniture.making.strips_in_hand import StripsInHand
from furniture.pieces import Piece

_AXES = tuple(Axis)


def begun_of(piece: Piece, going: GoingOn, strips: Collection[StripsInHand] = ()) -> Begun:
    """What is done of the work on a piece.

    A part that has to be made anew is asked for from its first operation; of one that is trimmed,
    the cuts that are run again, made larger or new.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        going: the job, with sizes and cuts that are done.
        strips: of parts that the plan glues up, beside those that are glued up already.
    """
    there, worked = piece.done | piece.in_hand, going.job.worked
    done = {name: of for name, of in going.job.done.items() if name in there}
    measured = {
        each.instance for each in going.job.measured if each.axis == THROUGH and not each.is_room
    }
    return Begun(
        done=piece.done,
        in_hand=piece.in_hand,
        anew=going.anew,
        told={name for name, of in done.items() if of.is_told} & piece.done,
        looked=measured.union(
            *(worked.had.get(key, ()) for key in going.operations & worked.looks)
        ),
        sizes={SizeOf(name, _AXES[axis]) for name, of in done.items() for axis in of.axes},
        cuts={CutOf(name, index) for name, of in done.items() for index in of.cuts},
        again={CutOf(each.instance, cut.index) for each in going.verdicts for cut in each.cuts},
        ticked={key: worked.had[key] for key in going.operations if key in worked.had},
        of_scrap=[worked.of_scrap[key] for key in going.operations if key in worked.of_scrap],
        lengths=going.lengths,
        in_strips=(*strips, *in_strips(piece, worked)),
        thick_mm=going.thick_mm,
    )
