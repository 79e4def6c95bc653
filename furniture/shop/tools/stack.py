"""Which cutters and shims of a dado head come nearest to a width, by trying all of them."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import PASS_OVERLAP, SHIMS_IN_A_GAP
from furniture.shop.tools.values import Head

_SAME_MM = 1e-6
"""Sums of the same cutters differ by less, whatever their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """What stands on the arbor for a width: two outer cutters, chippers, shims, thickest first.

    cuts_mm: the width that it saws; error_mm: that less the width asked for [mm].
    """

    outer_mm: float
    chippers_mm: tuple[float, ...]
    shims_mm: tuple[float, ...]
    cuts_mm: float
    error_mm: float


def nearest_stack(head: Head, width_mm: float, rules: Rules = USUAL_RULES) -> Stack:
    """The stack that saws nearest to a width: the least error, then the fewest shims and chippers.

    Of two that are as good in all of that, the narrower: a tight dado is eased, a wide one is not.
    What lies beyond the head is answered with its narrowest or widest stack, and the error says so.

    Args:
        head: what there is; both outer cutters are always on.
        width_mm: to be sawn [mm].
        rules: how many shims may lie in one gap.

    **Source:** own derivation: every sum of chippers with every sum of shims is compared.
    """
    bare = head.narrowest_cut_mm
    best: Stack | None = None
    shims = _sums_by_count(head.shims_mm)
    for chippers in _subsets(head.chippers_mm):
        room = head.widest_mm - 2.0 * head.outer_mm - math.fsum(chippers) + _SAME_MM
        if room < 0.0:
            continue
        most = int(rules[SHIMS_IN_A_GAP]) * (len(chippers) + 1)
        wanted = width_mm - bare - math.fsum(chippers)
        for chosen in _nearest(shims, wanted, most, room):
            cuts = bare + math.fsum(chippers) + math.fsum(chosen)
            stack = Stack(
                outer_mm=head.outer_mm, chippers_mm=chippers, shims_mm=chosen, cuts_mm=cuts,
                error_mm=cuts - width_mm,
            )  # fmt: skip
            if best is None or _rank(stack) < _rank(best):
                best = stack
    assert best is not None, "two outer cutters alone fit the arbor"
    return best


def _rank(stack: Stack) -> tuple[float, int, int, float]:
    """The order of stacks: steps of a nanometre, so that dust in a sum decides nothing."""
    steps = round(stack.error_mm / _SAME_MM)
    return (abs(steps), len(stack.shims_mm), len(stack.chippers_mm), steps)


def _subsets(thicknesses: Sequence[float]) -> Iterator[tuple[float, ...]]:
    """Every choice of these, equal ones counted and not told apart, thickest first."""
    counts: dict[float, int] = defaultdict(int)
    for each in sorted(thicknesses, reverse=True):
        counts[each] += 1
    chosen: list[tuple[float, ...]] = [()]
    for each, count in counts.items():
        chosen = [(*some, *(each,) * n) for some in chosen for n in range(count + 1)]
    yield from chosen


@dataclass(frozen=True, slots=True)
class _Sums:
    """Sums of one number of shims, rising, each with one choice that makes it [mm]."""

    sums: tuple[float, ...]
    choices: tuple[tuple[float, ...], ...]


def _sums_by_count(shims: Sequence[float]) -> Mapping[int, _Sums]:
    """The sums that so many shims can make."""
    found: dict[int, dict[int, tuple[float, ...]]] = defaultdict(dict)
    for some in _subsets(shims):
        found[len(some)].setdefault(round(math.fsum(some) / _SAME_MM), some)
    return {
        count: _Sums(
            sums=tuple(math.fsum(choices[key]) for key in sorted(choices)),
            choices=tuple(choices[key] for key in sorted(choices)),
        )
        for count, choices in found.items()
    }


def _nearest(
    shims: Mapping[int, _Sums], wanted: float, most: int, room: float
) -> Iterable[tuple[float, ...]]:
    """For each number of shims the choices next below and above what is wanted, within the room."""
    for count, sums in shims.items():
        if count > most:
            continue
        end = bisect_left(sums.sums, room)
        at = min(bisect_left(sums.sums, wanted), end)
        yield from sums.choices[max(at - 1, 0) : min(at + 1, end)]


def passes_across(
    width_mm: float, cutter_mm: float, rules: Rules = USUAL_RULES
) -> tuple[float, ...]:
    """Where the near side of a cutter stands, from the near wall of a channel [mm], pass by pass.

    The first pass cuts one wall and the last the other, those between evenly; one pass where the
    cutter is as wide as the channel.

    Args:
        width_mm: of the channel [mm].
        cutter_mm: of the cutter, no wider than the channel [mm].
        rules: by how much passes overlap.

    Raises:
        ValueError: the cutter is wider than the channel, or no wider than the overlap.

    **Source:** own derivation.
    """
    left = width_mm - cutter_mm
    if left < -_SAME_MM:
        raise ValueError(f"a cutter of {cutter_mm} mm is wider than {width_mm} mm")
    if left <= _SAME_MM:
        return (0.0,)
    step = cutter_mm - rules[PASS_OVERLAP]
    if step <= 0.0:
        raise ValueError(f"a cutter of {cutter_mm} mm is no wider than the overlap of two passes")
    steps = math.ceil(left / step - _SAME_MM)
    return tuple(left * each / steps for each in range(steps + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class RabbetPasses:
    """A rabbet's passes: how far the head shows beyond the fence in each [mm], widest last."""

    width_mm: float
    shows_mm: tuple[float, ...]


def rabbet_passes(
    widths_mm: Sequence[float], head_mm: float, rules: Rules = USUAL_RULES
) -> tuple[RabbetPasses, ...]:
    """The passes of rabbets that one head saws, part of it buried in a sacrificial fence.

    A head that is narrower than a rabbet takes it in several passes, and where it can one of them
    stands as for a narrower rabbet: fewer fence positions. 6.4 and 13.9 mm by a head of 13.5 are
    two positions and three passes. In the order of `widths_mm`.

    Args:
        widths_mm: of the rabbets, each above 0 [mm].
        head_mm: the width of the head [mm].
        rules: by how much passes overlap.

    Raises:
        ValueError: a rabbet wider than the head where the head is no wider than the overlap.

    **Source:** own derivation.
    """
    step = head_mm - rules[PASS_OVERLAP]
    known: set[float] = set(widths_mm)
    found: dict[float, tuple[float, ...]] = {}
    for width in sorted(known):
        shows = [width]
        while shows[-1] > head_mm + _SAME_MM:
            if step <= 0.0:
                raise ValueError(f"a head of {head_mm} mm is no wider than the overlap")
            reach = shows[-1] - step  # a pass from here on leaves no fin below the last one
            at_hand = [each for each in known if reach - _SAME_MM <= each < shows[-1] - _SAME_MM]
            shows.append(min(at_hand, default=reach))
        known.update(shows)
        found[width] = tuple(reversed(shows))
    return tuple(RabbetPasses(width_mm=each, shows_mm=found[each]) for each in widths_mm)
