"""What of the work is done when it is planned again, in the middle of a job."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from furniture.making.operations import CutOf, SizeOf
from furniture.making.settings import Recorded
from furniture.making.strips_in_hand import StripsInHand


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """What is done, and the wood that is in hand.

    Args:
        done: instances on which nothing is left to be cut.
        in_hand: instances whose wood is off its board.
        anew: instances that were begun and are made again, with all that was done with them in
            hand but what shows on the others.
        told: of the done instances, those that are said to be made from first to last, so that
            nothing is left to be tried or fitted on them either.
        looked: instances whose thickness was measured.
        sizes: that are reached.
        cuts: that are made.
        again: cuts of done instances that are to be made, where the part is in hand by itself.
        ticked: keys of operations that are done, each with the instances that were in hand: with
            other wood in hand it is another operation. Cuts at the boards are told by what is off
            them, since those of what is left of a board are numbered anew.
        of_scrap: what was made of scrap, test cuts by their rigs.
        lengths: what an earlier packet laid as one length each, by instances.
        in_strips: what has its wood in strips.
        thick_mm: how thick wood is that is off its board and not planed yet, by instance.
    """

    done: Collection[str] = ()
    in_hand: Collection[str] = ()
    anew: Collection[str] = ()
    told: Collection[str] = ()
    looked: Collection[str] = ()
    sizes: Collection[SizeOf] = ()
    cuts: Collection[CutOf] = ()
    again: Collection[CutOf] = ()
    ticked: Mapping[str, frozenset[str]] = field(default_factory=dict)
    of_scrap: Collection[Recorded] = ()
    lengths: Collection[frozenset[str]] = ()
    in_strips: Collection[StripsInHand] = ()
    thick_mm: Mapping[str, float] = field(default_factory=dict)


NOTHING_BEGUN = Begun()
