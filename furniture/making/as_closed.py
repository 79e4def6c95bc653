"""What goes into a glue-up as it is by then: cuts that come later are not there yet."""

from __future__ import annotations

from dataclasses import replace

from furniture.making.glue_ups.values import Stage
from furniture.making.making import Making
from furniture.making.operations import CLOSES
from furniture.parts.part import Placed
from furniture.pieces.piece import Piece, placed_named


def placed_as_closed(piece: Piece, making: Making, stage: Stage) -> tuple[Placed, ...]:
    """All that is together after a stage, each part with the cuts that it has when this closes.

    A corner is whole until the slots of its keys are sawn through it, a key square until its ends
    are made flush. Work that a job has done already is not in the making, and its cuts are there.

    Args:
        piece: that goes together.
        making: of it.
        stage: one of its glue-ups.
    """
    at = next(
        (
            index
            for index, each in enumerate(making.operations)
            if each.kind in CLOSES and each.glue_up == stage
        ),
        -1,
    )
    later = {(cut.instance, cut.index) for each in making.operations[at + 1 :] for cut in each.cuts}
    found = []
    for body in stage.bodies:
        for name in body:
            placed = placed_named(piece, name)
            cuts = placed.part.cuts
            kept = tuple(cut for index, cut in enumerate(cuts) if (name, index) not in later)
            is_whole = len(kept) == len(cuts)
            part = placed.part if is_whole else replace(placed.part, cuts=kept)
            found.append(replace(placed, part=part))
    return tuple(found)
