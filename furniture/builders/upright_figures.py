"""The figures of two uprights, read: how deep they are, how their dados end, what lies in them."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.builders.common import StockOf
from furniture.builders.overall import Allowed
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.uprights import DadoEnds, Uprights
from furniture.rules import Rules
from furniture.rules.building import LEAST_UPRIGHT, LEAST_UPRIGHT_STOP, MOST_UPRIGHT_STOP
from furniture.units import Amounts, Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightFigures:
    """The figures of the parameter set [mm]."""

    depth: float
    stop: float
    bit_radius: float


def read_uprights(
    reader: DesignReader, given: Uprights, thinnest_tier: float, deepest: tuple[float, str]
) -> UprightFigures:
    """The uprights' figures; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: the parameters.
        thinnest_tier: measured [mm].
        deepest: how deep an upright may be [mm], and why.
    """
    reader.names("uprights.", given)
    ends = reader.choice("uprights.dado_ends", given.dado_ends, DadoEnds, DadoEnds.STOPPED)
    depth = reader.length(
        "uprights.depth",
        given.depth,
        at_least=reader.rules[LEAST_UPRIGHT],
        at_most=at_most_known(deepest[0]),
        why=deepest[1],
    )
    if ends is DadoEnds.THROUGH:
        return UprightFigures(depth=depth, stop=0.0, bit_radius=0.0)
    stop = reader.length(
        "uprights.stop",
        given.stop,
        at_least=reader.rules[LEAST_UPRIGHT_STOP],
        at_most=at_most_known(depth * reader.rules[MOST_UPRIGHT_STOP]),
        why="the stop hides the joint and leaves most of the upright to the tier (own rule)",
    )
    radius = reader.length(
        "uprights.bit_radius",
        given.bit_radius,
        at_least=0.0,
        at_most=at_most_known(min(thinnest_tier / 2, depth / 10)),
        why="the bit goes into the dado, which is as wide as the tier",
    )
    return UprightFigures(depth=depth, stop=stop, bit_radius=radius)


def tier_depths(uprights: UprightFigures, shown: Shown, rules: Rules) -> Allowed:
    """How deep a tier may be between such uprights."""
    depth = uprights.depth
    if uprights.stop == 0.0:
        return Allowed(
            least=at_least_known(depth, rules[LEAST_UPRIGHT]),
            most=at_most_known(2 * depth),
            why=(
                "a through dado shows unless its tier is as deep as the upright, "
                f"{Amounts(shown=shown)(depth) if depth > 0 else 'here not known'}; a tier "
                "stands out no further than it lies between them (own rule)"
            ),
        )
    return Allowed(
        least=at_least_known(depth / 2, rules[LEAST_UPRIGHT] / 2),
        most=at_most_known(2 * depth),
        why=(
            "a tier lies in half its upright's depth at least, and stands out no further than it "
            "lies between them (own rule)"
        ),
    )


def one_thickness(
    reader: DesignReader, stock: StockOf, names: tuple[str, ...], where: str
) -> float:
    """The thickness that all of these share [mm]; others are noted."""
    usual = next((name for name in names if not stock.is_own(name)), names[0])
    first = stock.thickness(usual)
    for name in names:
        reader.limit(
            f"{stock.parameter(name)} thickness",
            stock.thickness(name),
            at_least=at_least_known(first),
            at_most=at_most_known(first),
            why=f"the {where} have one thickness, as one set-up cuts all their dados",
        )
    return first
