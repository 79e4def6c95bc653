"""Joints that no clamp presses, as cautions of the bench: each glue-up by itself."""

from __future__ import annotations

from furniture.checks.finding import Finding
from furniture.checks.rows.bench import CLAMP_ROOM
from furniture.making.glue_ups.values import GlueUps

BY_HAND = "press it by hand until the glue grabs, then tape, a wedge or a weight"


def clamp_findings(glue_ups: GlueUps) -> tuple[Finding, ...]:
    """A finding for each glue-up with a joint that no clamp presses; one in order where none has.

    Args:
        glue_ups: of the piece.

    **Source:** own rule.
    """
    found = tuple(
        _finding(
            f"glue-up {stage.number}, {', '.join(' to '.join(pair[::-1]) for pair in pairs)}",
            len(pairs),
            "a head or a block is swept against all that stands there",
            BY_HAND,
        )
        for stage in glue_ups.stages
        if (pairs := stage.unpressed)
    )
    return found or (_finding("every glue-up", 0, "each clamp has room for both heads", ""),)


def _finding(subject: str, count: int, basis: str, advice: str) -> Finding:
    return Finding(
        check=CLAMP_ROOM, subject=subject, value=float(count), limits=CLAMP_ROOM.limits(),
        basis=basis, advice=advice,
    )  # fmt: skip
