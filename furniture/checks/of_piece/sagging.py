"""How far a level part sags in time, beside what the eye takes for level."""

from __future__ import annotations

from furniture.checks.of_piece.bent import Level
from furniture.rules import Rules
from furniture.rules.wood import PLAIN_SAG, SAG_JUDGED_FROM, VISIBLE_SAG
from furniture.structure.bending import Sag

CREEP = 2.0
"""How much more a load that stays sags a shelf in time than at first [-].

**Source:** NDS 3.5.2 (American Wood Council's answers, read): 2.0 for unseasoned lumber or moisture
that comes and goes; seasoned 1.5 in the mean, single boards 1 to 3."""


def judged_span_mm(sag: Sag) -> float:
    """The length that a sag is judged by [mm]: a projection counts twice, as the eye sees it."""
    return sag.span_mm * (2.0 if sag.is_beyond else 1.0)


def time_fall_mm(level: Level) -> float:
    """How far a part falls in time [mm]: what stays creeps, the rest adds its first sag.

    Args:
        level: the part under a load

    **Source:** as `in_time_mm`.
    """
    lasting = level if level.lasting is None else level.lasting
    return in_time_mm(level.worst, lasting.worst)


def in_time_mm(sag: Sag, lasting: Sag) -> float:
    """The fall in time [mm]: what stays creeps, what comes and goes adds its first sag.

    Args:
        sag: under all of it
        lasting: under what stays

    **Source:** NDS 3.5.2, equation 3.5-1 (from memory): total = creep x lasting + passing.
    """
    return max(0.0, sag.fall_mm) + (CREEP - 1.0) * max(0.0, lasting.fall_mm)


def most_sag_mm(span_mm: float, rules: Rules) -> float:
    """The sag that calls for a change [mm].

    Args:
        span_mm: by which it is judged [mm]
        rules: the maker's

    **Source:** own rule: the shares of a span that an eye sees.
    """
    return span_mm * rules[VISIBLE_SAG if span_mm >= rules[SAG_JUDGED_FROM] else PLAIN_SAG]
