"""Unions and differences of intervals on one line or round one circle."""

from __future__ import annotations

from collections.abc import Iterable

Span = tuple[float, float]


def union(spans: Iterable[Span], gap: float) -> list[Span]:
    """The spans joined where they overlap or come within `gap` of each other, in order.

    Args:
        spans: in any order.
        gap: that is closed, in the unit of the spans [mm, degrees or rad].
    """
    joined: list[Span] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1] + gap:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined


def difference(spans: Iterable[Span], taken: Iterable[Span], least: float) -> list[Span]:
    """What is left of joined `spans` outside joined `taken`, remnants under `least` dropped.

    Args:
        spans: joined and in order.
        taken: joined and in order.
        least: length of a remnant that is kept, in the unit of the spans [mm, degrees or rad].
    """
    left: list[Span] = []
    holes = list(taken)
    for low, high in spans:
        at = low
        for hole_low, hole_high in holes:
            if hole_high <= at or hole_low >= high:
                continue
            if hole_low - at >= least:
                left.append((at, hole_low))
            at = max(at, hole_high)
        if high - at >= least:
            left.append((at, high))
    return left


def unrolled(span: Span, turn: float) -> list[Span]:
    """A span round a circle as one or two spans within one turn from 0.

    Args:
        span: from and to, the second no less than the first.
        turn: a whole turn, in the unit of the span [degrees or rad].
    """
    low, high = span
    if high - low >= turn * (1.0 - 1e-9):
        return [(0.0, turn)]
    start = low % turn
    end = start + (high - low)
    return [(start, end)] if end <= turn else [(start, turn), (0.0, end - turn)]


def rolled(spans: list[Span], turn: float, gap: float) -> list[Span]:
    """Spans within one turn, the first and last joined where they meet at the seam.

    Args:
        spans: joined and in order.
        turn: a whole turn, in the unit of the spans [degrees or rad].
        gap: at the seam that is closed, in the same unit [degrees or rad].
    """
    if len(spans) < 2 or spans[0][0] > gap or spans[-1][1] < turn - gap:
        return spans
    return [*spans[1:-1], (spans[-1][0], turn + spans[0][1])]
