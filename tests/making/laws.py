"""What holds of any making, read off its workpieces and operations alone."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from furniture.making.operations import Axis, CutOf, SizeOf
from furniture.making.workpieces import Wood
from furniture.pieces import Piece
from tests.making.replay import Making

_FIGURE = re.compile(r"\d+[.,/]\d+|\d+ ?(mm|in|cm|\")")
"""A length as it is written: an ordinal and a name's own number are none."""


def broken_laws(making: Making, piece: Piece) -> list[str]:
    """Every law that is broken, in words."""
    return [*_realised(making, piece), *_keys(making), *_ids(making)]


def _realised(making: Making, piece: Piece) -> Iterator[str]:
    """Every cut and size of every instance is finished once, and begun before it is finished."""
    wanted: set[CutOf | SizeOf] = set()
    for placed in piece.placed:
        wanted |= {CutOf(placed.instance, index) for index in range(len(placed.part.cuts))}
        wanted |= {SizeOf(placed.instance, axis) for axis in Axis}
    done: Counter[CutOf | SizeOf] = Counter()
    begun: set[CutOf | SizeOf] = set()
    for each in making.operations:
        for cut in each.cuts:
            begun.discard(cut)
        for made in (*each.cuts, *each.sizes):
            done[made] += 1
        for cut in each.begins:
            if done[cut]:
                yield f"{each.key} begins {cut}, which is finished"
            begun.add(cut)
    for made in wanted - set(done):
        yield f"nothing makes {made}"
    for made, times in done.items():
        if made not in wanted:
            yield f"{made} is made, and no part has it"
        elif times > 1:
            yield f"{made} is made {times} times"
    for cut in begun:
        yield f"{cut} is begun and never finished"


def _keys(making: Making) -> Iterator[str]:
    """A key is an operation's own, holds no figure, and what is waited for stands before."""
    seen: set[str] = set()
    for each in making.operations:
        if each.key in seen:
            yield f"two operations are called {each.key}"
        if _FIGURE.search(each.key):
            yield f"a figure stands in {each.key}"
        for after in each.after:
            if after.key not in seen:
                yield f"{each.key} waits for {after.key}, which does not stand before it"
        seen.add(each.key)


def _ids(making: Making) -> Iterator[str]:
    """Workpieces have one id each, come from one another, and each part is one instance."""
    known = {each.id: each for each in making.workpieces}
    if len(known) != len(making.workpieces):
        yield "two workpieces have one id"
    given = {name for each in making.operations for name in each.gives}
    taken = {name for each in making.operations for name in each.takes}
    for name in (given | taken) - set(known):
        yield f"nothing is known of {name}"
    for each in making.workpieces:
        if each.source is not None and each.source not in known:
            yield f"{each.id} comes from {each.source}, of which nothing is known"
        if each.source is not None and each.id not in given:
            yield f"{each.id} is never given"
        if each.what is Wood.PART and len(each.instances) != 1:
            yield f"{each.id} is a part and {len(each.instances)} instances"
