"""A rule: one limit with its unit, what it is for and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

OWN_RULE = "own rule"
PRACTICE = "common practice, no source"


class KeptBy(Enum):
    """Who goes by a rule: the checks, or what makes the piece before any check reads it."""

    CHECKS = "checks"
    JOINTS = "joints"
    BUILDERS = "builders"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One limit, as its row of the table says it.

    `name` is how a maker writes it, `value` its usual figure in `unit`; a share or a multiple has
    no unit. A published figure names its document in `source`. `fixed` says why a maker cannot
    change it, and is empty where one can.
    """

    name: str
    value: float
    unit: str = ""
    what: str
    source: str = OWN_RULE
    kept_by: KeptBy = KeptBy.CHECKS
    fixed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Every rule with its figure: the usual ones, and those that a maker changed."""

    changed: tuple[tuple[Rule, float], ...] = ()

    def __getitem__(self, rule: Rule) -> float:
        """The figure of a rule, in the rule's unit."""
        return next((value for each, value in self.changed if each == rule), rule.value)


USUAL_RULES = Rules()
