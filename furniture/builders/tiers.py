"""The tiers of a stepped stand: each one stated, or a rule for all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.units import Given, Reader, parameters

MOST_TIERS = 20
LEAST_DEPTH_MM, GREATEST_DEPTH_MM = 20.0, 500.0
"""How far a tier may stand out from its post [mm]. Common practice, no source."""
GREATEST_RISE_MM = 600.0
LEAST_WOOD_BETWEEN_MM = 15.0
"""Post left whole between two dados [mm]. Own rule: less is short grain that shears off."""


@parameters
class Tier:
    """One tier, counted above the lid.

    Args:
        width: left to right.
        depth: how far it stands out from the post's front face.
        rise: from the top below it (the lid's for the first) to its own top.
    """

    width: Given | None = None
    depth: Given | None = None
    rise: Given | None = None


@parameters
class TierRule:
    """Tiers by rule: the lowest one stated, each one above it stepped back.

    Args:
        count: how many, 1 to 20.
        width: of the lowest tier.
        depth: of the lowest tier.
        rise: of the lowest tier.
        step_back_width: how much narrower each tier is than the one below.
        step_back_depth: how much less each stands out than the one below.
        rise_change: how much more each rises than the one below; negative closes up.
    """

    count: int = 3
    width: Given | None = None
    depth: Given | None = None
    rise: Given | None = None
    step_back_width: Given = "0 mm"
    step_back_depth: Given = "0 mm"
    rise_change: Given = "0 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class TierFigures:
    """One tier's figures [mm]: `top` and `bottom` are heights above the floor."""

    name: str
    width: float
    depth: float
    rise: float
    top: float
    bottom: float


def tier_names(tiers: object) -> tuple[str, ...]:
    """The instance names that these tiers will have, as far as they can be counted."""
    if isinstance(tiers, TierRule):
        count = tiers.count if isinstance(tiers.count, int) else 0
    else:
        count = len(tiers) if isinstance(tiers, Sequence) else 0
    return tuple(f"tier {index + 1}" for index in range(max(0, min(count, MOST_TIERS))))


@dataclass(frozen=True, slots=True, kw_only=True)
class TierRoom:
    """What the tiers must fit [mm]: the post's width, the base's width, and the lid's top."""

    post_width: float
    base_width: float
    lid_top: float


def read_tiers(
    reader: Reader,
    tiers: object,
    room: TierRoom,
    thickness: Sequence[float],
    clearance: Sequence[float],
) -> tuple[TierFigures, ...]:
    """The tiers' figures from the lid up; what cannot be built is noted with the reader.

    Args:
        reader: keeps the problems.
        tiers: a `TierRule` or a sequence of `Tier`.
        room: what they must fit.
        thickness: measured thickness of each tier [mm].
        clearance: of each tier's housing [mm].
    """
    sizes = _sizes(reader, tiers)
    top, found = room.lid_top, []
    for index, (where, width, depth, rise) in enumerate(sizes[: len(thickness)]):
        reader.limit(
            f"{where}width",
            width,
            at_least=_unless_nan(room.post_width, -math.inf),
            at_most=_unless_nan(room.base_width, math.inf),
            why=(
                "a tier narrower than the post would show its dado, and one wider than the base "
                "is no step (own rule)"
            ),
        )
        reader.limit(
            f"{where}depth",
            depth,
            at_least=LEAST_DEPTH_MM,
            at_most=GREATEST_DEPTH_MM,
            why="a tier stands out enough to carry something, and no more than its dado bears",
        )
        over = clearance[index - 1] if index else 0.0
        reader.limit(
            f"{where}rise",
            rise,
            at_least=_unless_nan(thickness[index] + over + LEAST_WOOD_BETWEEN_MM, -math.inf),
            at_most=GREATEST_RISE_MM,
            why=(
                "tiers must not collide: the rise holds the tier's thickness and leaves "
                f"{LEAST_WOOD_BETWEEN_MM:g} mm of post between two dados"
            ),
        )
        top += rise
        found.append(
            TierFigures(
                name=f"tier {index + 1}",
                width=width,
                depth=depth,
                rise=rise,
                top=top,
                bottom=top - thickness[index],
            )
        )
    return tuple(found)


def _unless_nan(limit: float, otherwise: float) -> float:
    return otherwise if math.isnan(limit) else limit


def _sizes(reader: Reader, tiers: object) -> list[tuple[str, float, float, float]]:
    """Each tier's parameter prefix, width, depth and rise [mm]."""
    if isinstance(tiers, TierRule):
        return _by_rule(reader, tiers)
    if not isinstance(tiers, Sequence) or isinstance(tiers, str):
        reader.refuse(
            "tiers", repr(tiers), "a TierRule, or a Tier for each", "a stand has tiers",
            "write TierRule(...) or (Tier(...), Tier(...))",
        )  # fmt: skip
        return []
    _count(reader, "tiers", len(tiers))
    sizes = []
    for index, tier in enumerate(tiers[:MOST_TIERS]):
        where = f"tiers[{index}]."
        if not isinstance(tier, Tier):
            reader.refuse(where[:-1], repr(tier), "a Tier", "it states a tier", "write Tier(...)")
            sizes.append((where, math.nan, math.nan, math.nan))
            continue
        reader.names(where, tier)
        sizes.append(
            (
                where,
                reader.length(f"{where}width", tier.width),
                reader.length(f"{where}depth", tier.depth),
                reader.length(f"{where}rise", tier.rise),
            )
        )
    return sizes


def _by_rule(reader: Reader, rule: TierRule) -> list[tuple[str, float, float, float]]:
    where = "tiers."
    reader.names(where, rule)
    count = rule.count if isinstance(rule.count, int) and not isinstance(rule.count, bool) else -1
    _count(reader, f"{where}count", rule.count)
    width = reader.length(f"{where}width", rule.width)
    depth = reader.length(f"{where}depth", rule.depth)
    rise = reader.length(f"{where}rise", rule.rise)
    back = reader.length(f"{where}step_back_width", rule.step_back_width)
    inward = reader.length(f"{where}step_back_depth", rule.step_back_depth)
    change = reader.length(f"{where}rise_change", rule.rise_change)
    return [
        (
            f"tier {index + 1}, from {where}",
            width - index * back,
            depth - index * inward,
            rise + index * change,
        )
        for index in range(max(0, min(count, MOST_TIERS)))
    ]


def _count(reader: Reader, parameter: str, count: object) -> None:
    is_whole = isinstance(count, int) and not isinstance(count, bool)
    if not is_whole or not 1 <= int(str(count)) <= MOST_TIERS:
        nearest = min(max(int(str(count)), 1), MOST_TIERS) if is_whole else 3
        reader.refuse(
            parameter, repr(count), f"a whole number from 1 to {MOST_TIERS}",
            "a stand of this kind has 1 to 20 tiers", f"make it {nearest}",
        )  # fmt: skip
