"""A check as one row: what it asks, how grave it may become and from where on, and what it says."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.checks.advice import Sense
from furniture.rules import OWN_RULE, USUAL_RULES, Rule, Rules


class Verdict(Enum):
    """What a finding says; a note asks nothing, though its figure may miss a stricter wish."""

    OK = "ok"
    NOTE = "note"
    CAUTION = "caution"
    FAIL = "fail"


class Kind(Enum):
    """Whose a finding is: of the design as drawn, or of the work at the bench."""

    DESIGN = "design"
    BENCH = "bench"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """From where on a value is noted, cautions or fails [the check's unit]; None where never."""

    notes: float | None = None
    cautions: float | None = None
    fails: float | None = None


NO_LIMITS = Limits()


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """When a check comes to a verdict, in words, and at which figure.

    `at` is a rule or a fixed figure where one serves for all pieces; None where the figure is
    worked out for each case, or where nothing is measured.
    """

    when: str
    at: Rule | float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check: its grades, its unit, and the sentence that the report says where it speaks.

    A check without a level for a verdict never comes to it. `says` has `{subject}`, `{value}` and
    `{limit}` where they stand; without it name, subject and figures are told. `sense` is the side
    of its limits on which a value should lie. At its failure a value that meets the limit exactly
    fails; at the others it passes.
    """

    name: str
    unit: str = ""
    sense: Sense | None = None
    kind: Kind = Kind.DESIGN
    fails: Level | None = None
    cautions: Level | None = None
    notes: Level | None = None
    says: str = ""
    source: str = OWN_RULE

    def limits(
        self,
        rules: Rules = USUAL_RULES,
        *,
        notes: float | None = None,
        cautions: float | None = None,
        fails: float | None = None,
    ) -> Limits:
        """The limits of one case: the row's own figures, and those that the case works out.

        Args:
            rules: the maker's
            notes: from where on it is noted [the check's unit]; None where the row says it
            cautions: from where on it cautions [the check's unit]; None where the row says it
            fails: from where on it fails [the check's unit]; None where the row says it

        Raises:
            ValueError: a figure for a level that the row does not have, or whose figure it fixes.

        **Source:** own rule: the row decides.
        """
        return Limits(
            notes=self._figure(self.notes, notes, rules),
            cautions=self._figure(self.cautions, cautions, rules),
            fails=self._figure(self.fails, fails, rules),
        )

    def verdict(self, value: float, limits: Limits) -> Verdict:
        """What the row says of a value, the gravest first.

        Args:
            value: what was found [the check's unit]
            limits: of this case

        **Source:** own rule: a limit that is met exactly is met, to rounding of one in 1e9.
        """
        if limits.fails is not None and self._is_beyond(value, limits.fails, is_last=True):
            return Verdict.FAIL
        if limits.cautions is not None and self._is_beyond(value, limits.cautions):
            return Verdict.CAUTION
        if limits.notes is not None and self._is_beyond(value, limits.notes):
            return Verdict.NOTE
        return Verdict.OK

    def may_be(self, verdict: Verdict) -> bool:
        """Whether the row has a level for a verdict."""
        level = {
            Verdict.NOTE: self.notes,
            Verdict.CAUTION: self.cautions,
            Verdict.FAIL: self.fails,
        }
        return verdict is Verdict.OK or level[verdict] is not None

    def _figure(self, level: Level | None, given: float | None, rules: Rules) -> float | None:
        if level is None:
            if given is not None:
                raise ValueError(f"{self.name} has no such level")
            return None
        if level.at is None:
            return given
        if given is not None:
            raise ValueError(f"{self.name} has a figure of its own for {level.when!r}")
        return rules[level.at] if isinstance(level.at, Rule) else level.at

    def _is_beyond(self, value: float, limit: float, *, is_last: bool = False) -> bool:
        slack = 1e-9 * max(1.0, abs(limit)) * (-1.0 if is_last else 1.0)
        if self.sense is Sense.AT_LEAST:
            return value < limit - slack
        return self.sense is Sense.AT_MOST and value > limit + slack
