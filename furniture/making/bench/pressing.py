"""How hard a joint is pressed, by which clamps, how far apart, and what a band round a box does."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import DENSE_WOOD
from furniture.shop.tools.glues import GlueFacts, Pressed
from furniture.shop.tools.values import ClampLot
from furniture.timber.wood import Kind, Species


class WoodToPress(Enum):
    """How hard a wood is pressed while its glue sets: least and most [MPa].

    **Source:** 100 to 150, 150 to 200 and 200 to 300 psi: a glue maker's guide,
    studylib.net/doc/18296895. A joint that fits well holds with the least: common practice.
    """

    SOFT = (0.689, 1.034)
    MEDIUM = (1.034, 1.379)
    DENSE = (1.379, 2.068)

    @property
    def least_mpa(self) -> float:
        """What a joint that fits well needs [MPa]: what clamps are reckoned for."""
        return float(self.value[0])

    @property
    def most_mpa(self) -> float:
        """What it gets at most [MPa]."""
        return float(self.value[1])


def wood_to_press(species: Species, rules: Rules = USUAL_RULES) -> WoodToPress:
    """How hard a wood is pressed.

    Args:
        species: the wood; one whose weight is unknown counts as medium.
        rules: which wood is dense.

    **Source:** the guide names softwood, wood of medium weight, and oak and birch: where between
    them a wood lies is an own rule.
    """
    if species.kind is Kind.SOFTWOOD:
        return WoodToPress.SOFT
    gravity = species.specific_gravity_12
    is_dense = gravity is not None and gravity >= rules[DENSE_WOOD]
    return WoodToPress.DENSE if is_dense else WoodToPress.MEDIUM


def pressure_asked_mpa(
    glue: GlueFacts, woods: Iterable[Species], rules: Rules = USUAL_RULES
) -> float | None:
    """What a joint is pressed with [MPa]: what the softer wood asks.

    None where the glue asks for no figure: it is rubbed, or the joint is closed and no harder.

    Args:
        glue: what it asks.
        woods: that meet, one or more.
        rules: which wood is dense.

    **Source:** own rule: more than the softer wood asks would crush it.
    """
    if glue.pressed is not Pressed.AS_THE_WOOD:
        return None
    return min(wood_to_press(each, rules).least_mpa for each in woods)


def clamps_needed(area_mm2: float, pressure_mpa: float, force_n: float) -> int:
    """How many clamps of one force press an area.

    Args:
        area_mm2: of the glued face, as seen along the clamps [mm2].
        pressure_mpa: on it [MPa].
        force_n: of each clamp, above 0 [N].

    Raises:
        ValueError: a clamp without force.

    **Source:** area times pressure over force, rounded up (thehandywoodworker.com).
    """
    if force_n <= 0.0:
        raise ValueError("a clamp presses")
    return math.ceil(area_mm2 * pressure_mpa / force_n - 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampsChosen:
    """So many clamps of each lot; short_n: what force is missing, 0 where they are enough [N]."""

    chosen: tuple[tuple[ClampLot, int], ...]
    short_n: float

    @property
    def count(self) -> int:
        """How many clamps."""
        return sum(count for _, count in self.chosen)


def choose_clamps(
    lots: Iterable[ClampLot],
    force_n: float,
    opening_mm: float,
    at_least: int = 1,
    throat_mm: float = 0.0,
) -> ClampsChosen:
    """The fewest clamps on hand that press so hard, open and reach so far; the strongest first.

    Args:
        lots: what is on hand.
        force_n: that is asked of all together [N].
        opening_mm: that the work with its cauls asks for [mm].
        at_least: so many, for the spacing.
        throat_mm: how far in they must reach [mm].

    **Source:** own derivation: the strongest that open far enough are the fewest.
    """
    left, wanted = force_n, at_least
    chosen: list[tuple[ClampLot, int]] = []
    fitting = [lot for lot in lots if lot.opening_mm >= opening_mm and lot.throat_mm >= throat_mm]
    for lot in sorted(fitting, key=lambda each: (-each.force_n, each.opening_mm)):
        asked = max(wanted, math.ceil(left / lot.force_n - 1e-9))
        taken = min(lot.count, max(asked, 0))
        if taken:
            chosen.append((lot, taken))
            left -= taken * lot.force_n
            wanted -= taken
    return ClampsChosen(chosen=tuple(chosen), short_n=max(left, 0.0))


def band_tension_n(area_mm2: float, pressure_mpa: float) -> float:
    """The pull that a band needs to press each mitre of a box of four square corners so hard [N].

    A band turns a square corner over a block, which pushes both rails home with the band's pull.
    Across the mitre the two add up to sqrt 2 of it, square to the slope: nothing slips. Rub between
    band and block takes some of it off at every corner: that is left out.

    Args:
        area_mm2: of one mitre, along its slope [mm2].
        pressure_mpa: on it [MPa].

    **Source:** own derivation: equilibrium of a corner. When every mitre opens by e, the way round
    grows by 4 sqrt2 e, so the work of four mitres is the band's.
    """
    return area_mm2 * pressure_mpa / math.sqrt(2.0)
