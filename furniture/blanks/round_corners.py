"""Which parts follow one another so that the grain runs on, and which belong to one set."""

from __future__ import annotations

import math
from collections import defaultdict

from furniture.joints.reading import is_tilted_mitre
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.pieces import Piece


def runs_round_corners(piece: Piece) -> tuple[tuple[str, ...], ...]:
    """Chains of instances joined by mitres, each in the order it leaves one strip.

    Along a chain the far end of each part meets the named end of the next, so their face sides show
    one run of grain. A ring is opened at its corner farthest back, the left one of two: that corner
    shows least.
    """
    placed = {each.instance: each for each in piece.placed}
    following: dict[str, str] = {}
    for joining in piece.joinings:
        pair = (placed.get(joining.into), placed.get(joining.incoming))
        if pair[0] is None or pair[1] is None or not is_tilted_mitre(joining, pair[1]):
            continue
        before, after = _ordered(pair[0], pair[1])
        if before is not None and after is not None:
            following[before] = after
    chains = []
    starts = [name for name in placed if name in following and name not in following.values()]
    left = dict(following)
    for start in starts:
        chains.append(_walk(start, left))
    while left:
        ring = _walk(next(iter(left)), dict(left))
        start = min(ring, key=lambda name: _how_hidden(placed[name]))
        chains.append(_walk(start, left))
    return tuple(chain for chain in chains if len(chain) > 1)


def _walk(start: str, left: dict[str, str]) -> tuple[str, ...]:
    """The chain from `start`, its links taken out of `left`; a ring is gone round once."""
    chain = [start]
    while chain[-1] in left:
        after = left.pop(chain[-1])
        if after == start:
            break
        chain.append(after)
    return tuple(chain)


def _ends(placed: Placed) -> tuple[Vector, Vector]:
    """The middles of the named and of the far end on the face side, piece frame [mm]."""
    length, width, thickness = placed.part.blank.size
    return (
        placed.placement.to_piece((0.0, width / 2, thickness)),
        placed.placement.to_piece((length, width / 2, thickness)),
    )


def _ordered(first: Placed, second: Placed) -> tuple[str | None, str | None]:
    """The two names, that whose far end meets the other's named end first; none when neither."""
    (named_a, far_a), (named_b, far_b) = _ends(first), _ends(second)
    forwards, backwards = math.dist(far_a, named_b), math.dist(far_b, named_a)
    crossed = min(math.dist(far_a, far_b), math.dist(named_a, named_b))
    if crossed < min(forwards, backwards):
        return None, None
    if forwards <= backwards:
        return first.instance, second.instance
    return second.instance, first.instance


def _how_hidden(placed: Placed) -> tuple[float, float]:
    """The place of the part's named end: the farther back and the more to the left, the less."""
    x, y, _ = _ends(placed)[0]
    return (-round(y, 3), round(x, 3))


def numbered_sets(piece: Piece) -> dict[str, tuple[str, ...]]:
    """Instances of each noun that go by numbers, such as the tiers, where there are several."""
    sets: dict[str, list[str]] = defaultdict(list)
    for each in piece.placed:
        if each.kin is not None and each.kin.number is not None:
            sets[each.kin.noun].append(each.instance)
    return {noun: tuple(names) for noun, names in sets.items() if len(names) > 1}
