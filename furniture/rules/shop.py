"""The rules that a maker changes in the script, read at the door."""

from __future__ import annotations

import math

from furniture.rules.rule import Rule, Rules
from furniture.rules.table import ALL_RULES
from furniture.units import Given, Reader, word_remedy

FOOT_MM = 304.8
"""A foot. **Source:** the international foot of 1959, exactly."""


class ShopRules:
    """A shop's own limits, each by its name, such as `ShopRules(tilt_asked="12 deg")`.

    Lengths, masses, angles and forces are text with a unit; shares and multiples are plain numbers.
    All names, figures and sources stand in piece.json and rules.csv.
    """

    def __init__(self, **given: Given | float) -> None:
        self.given = dict(given)


def read_rules(reader: Reader, rules: object) -> Rules:
    """Every rule with its figure; problems are noted with the reader.

    Args:
        reader: keeps the problems
        rules: a `ShopRules`, or None for the usual ones
    """
    if rules is None:
        return Rules()
    if not isinstance(rules, ShopRules):
        reader.refuse(
            "rules", repr(rules), "ShopRules(...)", "it says which of the shop's limits differ",
            "write ShopRules(tilt_asked='12 deg')",
        )  # fmt: skip
        return Rules()
    by_name = {rule.name: rule for rule in ALL_RULES}
    changed = []
    for name, given in rules.given.items():
        rule = by_name.get(name)
        if rule is None:
            reader.refuse(
                f"rules.{name}", repr(given), ", ".join(by_name), "there is no rule of this name",
                word_remedy(name, list(by_name)),
            )  # fmt: skip
            continue
        value = _read(reader, rule, given)
        if not math.isnan(value):
            changed.append((rule, value))
    return Rules(changed=tuple(changed))


def _read(reader: Reader, rule: Rule, given: object) -> float:
    where = f"rules.{rule.name}"
    if rule.fixed:
        reader.refuse(where, repr(given), "its usual figure", rule.fixed, "leave it out")
        return math.nan
    if rule.unit == "":
        return _share(reader, where, rule, given)
    read = {
        "mm": lambda: reader.length(
            where, given, at_least=0.0, at_most=10_000.0, why="a limit is no less than nothing"
        ),
        "ft": lambda: (
            reader.length(
                where,
                given,
                at_least=FOOT_MM,
                at_most=40.0 * FOOT_MM,
                why="boards are sold so long",
            )
            / FOOT_MM
        ),
        "mm2": lambda: reader.area(where, given),
        "kg": lambda: reader.mass(where, given),
        "deg": lambda: reader.angle(where, given),
        "N": lambda: reader.force(where, given),
    }
    return read[rule.unit]()


def _share(reader: Reader, where: str, rule: Rule, given: object) -> float:
    is_number = isinstance(given, (int, float)) and not isinstance(given, bool)
    if not is_number or not 0.0 < float(given) < math.inf:  # type: ignore[arg-type]
        reader.refuse(
            where, repr(given), "a number above 0", "a share or a multiple has no unit",
            f"write {rule.value:.3g}",
        )  # fmt: skip
        return math.nan
    return float(given)  # type: ignore[arg-type]


def rules_record(rules: Rules) -> list[dict[str, object]]:
    """Every rule as plain data, for piece.json.

    Args:
        rules: the maker's
    """
    return [
        {
            "name": rule.name,
            "value": rules[rule],
            "usual": rule.value,
            "unit": rule.unit,
            "what": rule.what,
            "source": rule.source,
            "kept_by": rule.kept_by.value,
            "fixed": rule.fixed,
        }
        for rule in ALL_RULES
    ]
