"""Pieces too narrow or too short to hold safely at a saw, as cautions."""

from __future__ import annotations

from furniture.checks.finding import Finding, Sense, Show, Verdict, verdict_of

LEAST_LENGTH_MM = 300.0
LEAST_WIDTH_MM = 50.0
HAND_ZONE_MM = 150.0
PUSH_STICK_MM = 300.0
_DEFERENCE = "the machine's manual and local rules govern; common practice, no source"


def rip_finding(part: str, length_mm: float, width_mm: float, show: Show) -> Finding:
    """Whether a part is long enough to rip at the saw with its guard and fence.

    Args:
        part: name of the part
        length_mm: its length along the fence [mm]
        width_mm: its ripped width [mm]
        show: puts a length into the piece's unit

    **Source:** common practice, no source: not under 300 mm long; push sticks for small pieces
    are asked for by 29 CFR 1910.213(s)(9).
    """
    verdict = verdict_of(length_mm, LEAST_LENGTH_MM, Sense.AT_LEAST, Verdict.CAUTION)
    return Finding(
        check="short rip at the saw",
        subject=part,
        value=length_mm,
        limit=LEAST_LENGTH_MM,
        sense=Sense.AT_LEAST,
        unit="mm",
        verdict=verdict,
        basis=f"{show(width_mm)} wide; {_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"rip it from a piece at least {show(show.up(LEAST_LENGTH_MM))} long and cross-cut "
        "it after",
    )


def narrow_rip_finding(part: str, length_mm: float, width_mm: float, show: Show) -> Finding:
    """Whether a part is wide enough for a hand to stay clear of the blade while it is ripped.

    Args:
        part: name of the part
        length_mm: its length along the fence [mm]
        width_mm: its ripped width [mm]
        show: puts a length into the piece's unit

    **Source:** common practice, no source: not under 50 mm wide by hand; push stick at least
    300 mm (a safety page of the trade).
    """
    verdict = verdict_of(width_mm, LEAST_WIDTH_MM, Sense.AT_LEAST, Verdict.CAUTION)
    return Finding(
        check="narrow rip at the saw",
        subject=part,
        value=width_mm,
        limit=LEAST_WIDTH_MM,
        sense=Sense.AT_LEAST,
        unit="mm",
        verdict=verdict,
        basis=f"{show(length_mm)} long; hands stay {show(HAND_ZONE_MM)} from the blade; "
        f"{_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"use push sticks of {show(show.up(PUSH_STICK_MM))} or more and a hold-down, or "
        f"rip it {show(show.up(LEAST_WIDTH_MM - width_mm))} wider and plane it down",
    )


def crosscut_finding(part: str, length_mm: float, show: Show) -> Finding:
    """Whether a part is long enough to hold while it is cut to length.

    Args:
        part: name of the part
        length_mm: its finished length [mm]
        show: puts a length into the piece's unit

    **Source:** common practice, no source: hands stay 150 mm from the blade.
    """
    verdict = verdict_of(length_mm, HAND_ZONE_MM, Sense.AT_LEAST, Verdict.CAUTION)
    carrier = show.up(LEAST_LENGTH_MM)
    return Finding(
        check="short cross-cut at the saw",
        subject=part,
        value=length_mm,
        limit=HAND_ZONE_MM,
        sense=Sense.AT_LEAST,
        unit="mm",
        verdict=verdict,
        basis=f"hands stay {show(HAND_ZONE_MM)} from the blade; never the fence as a length stop; "
        f"{_DEFERENCE}",
        advice=""
        if verdict is Verdict.OK
        else f"cut it off a piece at least {show(carrier)} long, or clamp it in a sled on a "
        "carrier of that length, with a stop block that the piece leaves before the cut",
    )
