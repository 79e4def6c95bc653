"""What of the work is left when some of it is done."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from furniture.making.making import Making
from furniture.making.operations import CutOf, Operation, SizeOf, Stage
from furniture.making.set_ups import set_ups_of

_ON_PARTS = frozenset({Stage.BREAK_OUT, Stage.MILL, Stage.JOIN, Stage.PART, Stage.SHAPE, Stage.FIT})
"""The stages that make parts; what follows is done to the piece that they become."""


def left_to_do(
    making: Making,
    done: Collection[str],
    sizes: Collection[SizeOf],
    cuts: Collection[CutOf],
    in_hand: Collection[str] = (),
) -> Making:
    """The making without what is done.

    What was done to one blank was done to all that come off it, so a done part tells of the others.
    What brings nothing to size and cuts nothing, such as an edge jointed, is done with the wood
    that has a size already.

    Args:
        making: of the whole piece.
        done: instances on which nothing is left to be cut.
        sizes: that are reached.
        cuts: that are made.
        in_hand: instances whose wood is off its board.
    """
    instances = {each.id: each.instances for each in making.workpieces}
    sized = {each.instance for each in sizes}

    def is_done(each: Operation) -> bool:
        named = {name for wood in each.takes for name in instances.get(wood, (wood,))}
        if not named:
            return False
        if each.stage is Stage.BREAK_OUT:
            return named <= {*done, *in_hand}
        if each.stage in _ON_PARTS and named <= set(done):
            return True
        whose = {size.instance for size in each.sizes} | {cut.instance for cut in each.cuts}
        if each.stage in _ON_PARTS and len(each.takes) == 1 and whose & {*done}:
            return True
        reached = [*(size in sizes for size in each.sizes), *(cut in cuts for cut in each.cuts)]
        if reached:
            return all(reached)
        return each.stage is Stage.MILL and named <= sized

    left = [each for each in making.operations if not is_done(each)]
    there = {each.key for each in left}
    operations = tuple(
        replace(each, after=tuple(after for after in each.after if after.key in there))
        for each in left
    )
    return replace(making, operations=operations, set_ups=set_ups_of(operations))
