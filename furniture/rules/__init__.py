"""The limits that a shop sets itself, as one table of values that a maker may read and change."""

from furniture.rules.rule import OWN_RULE, PRACTICE, USUAL_RULES, KeptBy, Rule, Rules

__all__ = ["OWN_RULE", "PRACTICE", "USUAL_RULES", "KeptBy", "Rule", "Rules"]
