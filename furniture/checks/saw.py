"""Pieces too narrow or too short to hold safely at a saw, as cautions."""

from __future__ import annotations

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.rows.bench import NARROW_RIP, SHORT_CROSSCUT, SHORT_RIP
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.bench import HAND_ZONE, RIP_LENGTH, RIP_WIDTH
from furniture.rules.checking import PUSH_STICK

_DEFERENCE = "the machine's manual and local rules govern; common practice, no source"


def rip_finding(
    part: str, length_mm: float, width_mm: float, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """Whether a part is long enough to rip at the saw with its guard and fence.

    Args:
        part: name of the part
        length_mm: its length along the fence [mm]
        width_mm: its ripped width [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** common practice, no source: not under 300 mm long; push sticks for small pieces
    are asked for by 29 CFR 1910.213(s)(9).
    """
    limits = SHORT_RIP.limits(cautions=rules[RIP_LENGTH])
    verdict = SHORT_RIP.verdict(length_mm, limits)
    return Finding(
        check=SHORT_RIP,
        subject=part,
        value=length_mm,
        limits=limits,
        basis=f"{show(width_mm)} wide; {_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"rip it from a piece at least {show(show.up(rules[RIP_LENGTH]))} long and crosscut "
        "it after",
    )


def narrow_rip_finding(
    part: str, length_mm: float, width_mm: float, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """Whether a part is wide enough for a hand to stay clear of the blade while it is ripped.

    Args:
        part: name of the part
        length_mm: its length along the fence [mm]
        width_mm: its ripped width [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** common practice, no source: not under 50 mm wide by hand; push stick at least
    300 mm (a safety page of the trade).
    """
    limits = NARROW_RIP.limits(cautions=rules[RIP_WIDTH])
    verdict = NARROW_RIP.verdict(width_mm, limits)
    return Finding(
        check=NARROW_RIP,
        subject=part,
        value=width_mm,
        limits=limits,
        basis=f"{show(length_mm)} long; hands stay {show(rules[HAND_ZONE])} from the blade; "
        f"{_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"use push sticks of {show(show.up(rules[PUSH_STICK]))} or more and a hold-down, or "
        f"rip it {show(show.up(rules[RIP_WIDTH] - width_mm))} wider and plane it down",
    )


def crosscut_finding(
    part: str, length_mm: float, show: Show, rules: Rules = USUAL_RULES
) -> Finding:
    """Whether a part is long enough to hold while it is cut to length.

    Args:
        part: name of the part
        length_mm: its finished length [mm]
        show: puts a length into the piece's unit
        rules: the maker's

    **Source:** common practice, no source: hands stay 150 mm from the blade.
    """
    limits = SHORT_CROSSCUT.limits(cautions=rules[HAND_ZONE])
    verdict = SHORT_CROSSCUT.verdict(length_mm, limits)
    carrier = show.up(rules[RIP_LENGTH])
    return Finding(
        check=SHORT_CROSSCUT,
        subject=part,
        value=length_mm,
        limits=limits,
        basis=f"hands stay {show(rules[HAND_ZONE])} from the blade; never the fence as a length "
        f"stop; {_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"cut it off a piece at least {show(carrier)} long, or clamp it in a sled on a "
        "carrier of that length, with a stop block that the piece leaves before the cut",
    )
