"""What of the work is left when some of it is done."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from furniture.making.begun import Begun
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import Recorded

_ON_PARTS = frozenset(
    {
        Stage.BREAK_OUT, Stage.STRIPS, Stage.MILL, Stage.JOIN, Stage.PART, Stage.SHAPE, Stage.FIT,
    }
)  # fmt: skip
"""The stages that make parts; what follows is done to the piece that they become."""


def left_to_do(making: Making, begun: Begun) -> Making:
    """The making without what is done.

    What was done to one blank was done to all that come off it, so a done part tells of the others.
    What brings nothing to size and cuts nothing, such as an edge jointed, is done where something
    is that could not be made before it on the same wood.

    Args:
        making: of the whole piece.
        begun: what of it is done.
    """
    done, told, looked = {*begun.done}, {*begun.told}, {*begun.looked}
    off_boards, again = done.union(begun.in_hand), {*begun.again}
    made_of_scrap = [*begun.of_scrap]
    sizes, cuts, ticked = {*begun.sizes}, {*begun.cuts}, begun.ticked
    wood_of = _wood_of(making)

    def is_done(each: Operation) -> bool:
        named = wood_of[each.key]
        if not named:
            return each.scrap is not None and each.of_scrap in made_of_scrap
        if each.stage is Stage.BREAK_OUT:
            return named <= off_boards
        if len(named) == 1 and each.cuts and all(cut in again for cut in each.cuts):
            return False
        if ticked.get(each.key) == named:
            return True
        if each.kind is Kind.MEASURE and each.stage is Stage.MILL and named <= looked:
            return True
        if _is_a_look(each):
            return False  # an opening is measured when all that frames it is made
        if each.stage in _ON_PARTS and named <= told:
            return True
        whose = {size.instance for size in each.sizes} | {
            cut.instance for cut in (*each.cuts, *each.begins)
        }
        if each.stage in _ON_PARTS and len(each.takes) == 1 and whose & done:
            return True
        made = (*each.cuts, *each.begins)
        reached = [*(size in sizes for size in each.sizes), *(cut in cuts for cut in made)]
        return bool(reached) and all(reached)

    there = {each.key for each in making.operations if is_done(each)}
    before = _made_before(making, there, wood_of)
    there |= {key for key in before if wood_of[key].isdisjoint(begun.anew)}
    asked = [each for each in making.operations if each.key not in there]
    left = [each for each in asked if not _is_needless(each, asked, making, made_of_scrap)]
    keys = {each.key for each in left}
    operations = tuple(
        replace(each, after=tuple(after for after in each.after if after.key in keys))
        for each in left
    )
    made = tuple(each for each in making.operations if each.key not in keys)
    return replace(making, operations=operations, set_ups=set_ups_of(operations), done=made)


def _wood_of(making: Making) -> Mapping[str, frozenset[str]]:
    """The instances that are in hand at each operation, by its key."""
    instances = {each.id: each.instances for each in making.workpieces}
    return {
        each.key: frozenset(name for wood in each.takes for name in instances.get(wood, (wood,)))
        for each in making.operations
    }


def _made_before(
    making: Making, done: Collection[str], wood_of: Mapping[str, frozenset[str]]
) -> set[str]:
    """What shows on no size and is done, since what is done with the same wood waited for it."""
    by_key = {each.key: each for each in making.operations}
    found: set[str] = set()
    for key in done:
        waits, seen = [by_key[key]], {key}
        while waits:
            before = [by_key[after.key] for after in waits.pop().after if after.key not in seen]
            seen |= {each.key for each in before}
            waits += before
            for each in before:
                shows = each.sizes or each.cuts or each.begins
                is_same = bool(wood_of[each.key]) and wood_of[each.key] <= wood_of[key]
                is_of_strips = each.stage is Stage.STRIPS  # glued up before it was ever in hand
                if is_of_strips or (is_same and not shows and each.stage is not Stage.BREAK_OUT):
                    found.add(each.key)
    return found


def _is_needless(
    test: Operation, asked: Collection[Operation], making: Making, tried: Collection[Recorded]
) -> bool:
    """Whether it is a test cut that was made, or one or a measurement that serves nothing more, or
    what was sawn from scrap for it."""
    if test.kind not in (Kind.TEST_CUT, Kind.FROM_SCRAP) and not _is_a_look(test):
        return False

    def waits(each: Operation) -> bool:
        return any(after.key == test.key for after in each.after)

    serves = any(map(waits, making.operations))
    return test.of_scrap in tried or (serves and not any(map(waits, asked)))


def _is_a_look(each: Operation) -> bool:
    """Whether something is measured for what is cut to it, and nothing is brought to size."""
    return each.kind is Kind.MEASURE and not each.sizes
