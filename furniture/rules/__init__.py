"""The limits that a shop sets itself, as one table of values that a maker may read and change."""

from furniture.rules.rule import OWN_RULE, PRACTICE, USUAL_RULES, KeptBy, Rule, Rules
from furniture.rules.shop import ShopRules, read_rules, rules_record
from furniture.rules.table import ALL_RULES, BY_SUBJECT

__all__ = [
    "ALL_RULES",
    "BY_SUBJECT",
    "OWN_RULE",
    "PRACTICE",
    "USUAL_RULES",
    "KeptBy",
    "Rule",
    "Rules",
    "ShopRules",
    "read_rules",
    "rules_record",
]
