"""Glue: the time that a stage may take, how much to have ready, and when end grain is sized."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import GLUE_SPARE, GLUE_TIME_SHARE
from furniture.shop.tools.glues import GlueFacts

SQUARE_MM_IN_A_SQUARE_M = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueTime:
    """What a glue-up uses of its glue's time.

    share: of open and closed time together, 1 is all of it; None where only the label knows it.
    allowed: the most that a shop lets it be.
    """

    share: float | None
    allowed: float

    @property
    def is_enough(self) -> bool | None:
        """Whether the glue waits so long; None where only the label knows."""
        return None if self.share is None else self.share <= self.allowed + 1e-9


def glue_time(
    glue: GlueFacts, open_minutes: float, closed_minutes: float, rules: Rules = USUAL_RULES
) -> GlueTime:
    """What a glue-up uses of its glue's time: open and closed time are shares of one allowance.

    Args:
        glue: its times.
        open_minutes: from the first spread until the faces meet [min].
        closed_minutes: from there until the clamps are tight [min].
        rules: how much of it may be used.

    **Source:** a manual of light-aircraft construction (rev. 4, p. D-7, manualshive 1245632): of
    glue that stands open for a third of its open time two thirds of the closed time are left; used
    here for every glue: own rule.
    """
    used = None
    if glue.open_minutes is not None and glue.assembly_minutes is not None:
        used = open_minutes / glue.open_minutes + closed_minutes / glue.assembly_minutes
    elif glue.open_minutes is not None:
        used = (open_minutes + closed_minutes) / glue.open_minutes
    return GlueTime(share=used, allowed=rules[GLUE_TIME_SHARE])


def closed_minutes_left(
    glue: GlueFacts, open_minutes: float, rules: Rules = USUAL_RULES
) -> float | None:
    """How long the joint may then stand closed before the clamps are tight [min]; None: unknown.

    Args:
        glue: its times.
        open_minutes: from the first spread until the faces meet [min].
        rules: how much of the time may be used.

    **Source:** as `glue_time`.
    """
    if glue.open_minutes is None or glue.assembly_minutes is None:
        return None
    share = rules[GLUE_TIME_SHARE] - open_minutes / glue.open_minutes
    return max(share, 0.0) * glue.assembly_minutes


def glue_grams(glue: GlueFacts, spread_mm2: float, rules: Rules = USUAL_RULES) -> float:
    """Glue to have ready for so much spread area [g].

    Args:
        glue: how thick it is spread.
        spread_mm2: all faces that get glue, both of a joint where both get it [mm2].
        rules: what is lost in pot and brush.

    **Source:** area times spread; the spare is an own rule.
    """
    return spread_mm2 / SQUARE_MM_IN_A_SQUARE_M * glue.spread_g_m2 * rules[GLUE_SPARE]
