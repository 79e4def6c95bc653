"""The tiers of a stepped stand: each one stated, or a rule for all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.rules import DesignReader, at_least_known
from furniture.rules import Rules
from furniture.rules.building import BETWEEN_DADOS, GREATEST_RISE, GREATEST_TIER, LEAST_TIER
from furniture.units import Given, is_given, parameters, said

MOST_TIERS = 20
_SLACK_MM = 1e-6


@parameters
class Tier:
    """One tier, counted above the lid.

    Args:
        width: left to right; left out between uprights, where the box gives it.
        depth: how far it stands out from the post's front face; front to back between uprights.
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
        width: of the lowest tier; left out between uprights, where the box gives it.
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
    """One tier's figures [mm]: `top` and `bottom` are heights above the base's underside.

    `width` is not-a-number between uprights, where the support knows it.
    """

    name: str
    width: float
    depth: float
    rise: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """What a figure may be [mm], and why."""

    least: float
    most: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TierRoom:
    """What the tiers must fit: no width is given where the support sets it.

    `lid_top` is the height from which they rise; `below` is the housing under the lowest [mm].
    """

    width: Allowed | None
    depth: Allowed
    lid_top: float
    below: float


def tier_names(tiers: object) -> tuple[str, ...]:
    """The instance names that these tiers will have; all there may be where none can count them.

    So what is said of tiers elsewhere is not refused as well.
    """
    count = _counted(tiers)
    count = MOST_TIERS if count is None else min(count, MOST_TIERS)
    return tuple(f"tier {index + 1}" for index in range(count))


_IN_WORDS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _counted(tiers: object) -> int | None:
    """How many tiers are meant, a count in quotes or as a word too; nothing where that cannot be
    told."""
    if not isinstance(tiers, TierRule):
        return len(_listed(tiers)) or None
    count: object = tiers.count
    if isinstance(count, str) and count.strip().isdecimal() and len(count) < _LONGEST_COUNT:
        return int(count)
    if isinstance(count, str) and count.strip().lower() in _IN_WORDS[1:]:
        return _IN_WORDS.index(count.strip().lower())
    # Below one there is no tier to speak of: the count alone is at fault, not what names a tier.
    is_whole = isinstance(count, int) and not isinstance(count, bool)
    return count if isinstance(count, int) and is_whole and count >= 1 else None


def _listed(tiers: object) -> Sequence[object]:
    """The tiers as they are listed, a lone one as one."""
    if isinstance(tiers, Tier):
        return (tiers,)
    return tiers if isinstance(tiers, (list, tuple)) else ()


def projections(rules: Rules) -> Allowed:
    """How far a tier may stand out from a post."""
    return Allowed(
        least=rules[LEAST_TIER],
        most=rules[GREATEST_TIER],
        why="a tier stands out enough to carry something, and no more than its dado bears",
    )


def read_tiers(
    reader: DesignReader,
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
    over = (room.below, *clearance)
    rises = [
        Allowed(
            least=at_least_known(
                own + below + reader.rules[BETWEEN_DADOS], reader.rules[BETWEEN_DADOS]
            ),
            most=reader.rules[GREATEST_RISE],
            why=(
                "tiers must not collide: the rise holds the tier's thickness and leaves "
                f"{reader.least(reader.rules[BETWEEN_DADOS])} of wood between two dados"
            ),
        )
        for own, below in zip(thickness, over, strict=False)
    ]
    if isinstance(tiers, TierRule):
        sizes = _by_rule(reader, tiers, room, rises[: 1 if _counted(tiers) is None else None])
    else:
        sizes = _one_by_one(reader, tiers, room, rises)
    top, found = room.lid_top, []
    for index, ((width, depth, rise), own) in enumerate(zip(sizes, thickness, strict=False)):
        top += rise
        found.append(
            TierFigures(
                name=f"tier {index + 1}",
                width=width,
                depth=depth,
                rise=rise,
                top=top,
                bottom=top - own,
            )
        )
    return tuple(found)


Sizes = list[tuple[float, float, float]]


def _one_by_one(
    reader: DesignReader, tiers: object, room: TierRoom, rises: Sequence[Allowed]
) -> Sizes:
    """Each tier's width, depth and rise [mm]."""
    if not isinstance(tiers, (list, tuple, Tier)):
        reader.refuse(
            "tiers", "nothing" if tiers is None else said(tiers), "a TierRule, or a list of Tier",
            "a stand has tiers", "write TierRule(...) or [Tier(...), Tier(...)]",
        )  # fmt: skip
        return []
    tiers = _listed(tiers)
    if not 1 <= len(tiers) <= MOST_TIERS:
        reader.refuse(
            "tiers", f"{len(tiers)} of them", f"1 to {MOST_TIERS}", _COUNT_WHY,
            "write one Tier(...)" if not tiers else f"leave {len(tiers) - MOST_TIERS} out",
        )  # fmt: skip
    sizes = []
    for index, tier in enumerate(tiers[:MOST_TIERS]):
        where = f"tiers[{index}]."
        if not isinstance(tier, Tier):
            reader.refuse(where[:-1], said(tier), "a Tier", "it states a tier", "write Tier(...)")
            sizes.append((math.nan, math.nan, math.nan))
            continue
        reader.names(where, tier)
        sizes.append(
            (
                _read_width(reader, where, tier.width, room.width),
                _within(reader, f"{where}depth", tier.depth, room.depth),
                _within(reader, f"{where}rise", tier.rise, rises[index]),
            )
        )
    return sizes


def _by_rule(
    reader: DesignReader, rule: TierRule, room: TierRoom, rises: Sequence[Allowed]
) -> Sizes:
    """The same by rule: the lowest tier is judged by itself, the others by the rule's step."""
    where = "tiers."
    reader.names(where, rule)
    is_whole = isinstance(rule.count, int) and not isinstance(rule.count, bool)
    if not is_whole or not 1 <= rule.count <= MOST_TIERS:
        meant = _counted(rule)
        usual = 1 if is_whole else 3
        nearest = usual if meant is None else min(max(meant, 1), MOST_TIERS)
        reader.refuse(
            f"{where}count", said(rule.count), f"a whole number from 1 to {MOST_TIERS}",
            _COUNT_WHY, f"make it {nearest}",
        )  # fmt: skip
    count = len(rises)
    width, back = math.nan, 0.0
    if room.width is None:
        _read_width(reader, where, rule.width, None)
        reader.length(f"{where}step_back_width", rule.step_back_width)
    else:
        width, back = _stepped(reader, rule, "width", "step_back_width", -1.0, [room.width] * count)
    depth, inward = _stepped(reader, rule, "depth", "step_back_depth", -1.0, [room.depth] * count)
    rise, change = _stepped(reader, rule, "rise", "rise_change", 1.0, rises)
    return [
        (width - index * back, depth - index * inward, rise + index * change)
        for index in range(len(rises))
    ]


def _stepped(
    reader: DesignReader,
    rule: TierRule,
    name: str,
    step_name: str,
    sign: float,
    each: Sequence[Allowed],
) -> tuple[float, float]:
    """The lowest tier's figure and the rule's step [mm].

    The lowest is judged by itself where a step was given and it is in range; else by every tier, so
    that the figure proposed for it clears them all.
    """
    given, step = getattr(rule, name), getattr(rule, step_name)
    lowest = each[0] if each else Allowed(least=-math.inf, most=math.inf, why="")
    value = reader.peek(given)
    is_in = lowest.least - _SLACK_MM <= value <= lowest.most + _SLACK_MM
    if not (is_in and is_given(rule, step_name)):
        lowest = _for_all(lowest, each, sign * reader.peek(step))
    first = _within(reader, f"tiers.{name}", given, lowest)
    return first, _step(reader, f"tiers.{step_name}", step, sign, first, each)


def _for_all(lowest: Allowed, each: Sequence[Allowed], step: float) -> Allowed:
    """What the lowest may be for every tier to keep in range; itself where no figure does that."""
    if math.isnan(step) or not each:
        return lowest
    least = max(one.least - index * step for index, one in enumerate(each))
    most = min(one.most - index * step for index, one in enumerate(each))
    if least > most + _SLACK_MM:
        return lowest
    is_narrower = least > lowest.least + _SLACK_MM or most < lowest.most - _SLACK_MM
    why = f"all {len(each)} tiers of the rule keep in range: {lowest.why}"
    return Allowed(least=least, most=most, why=why if is_narrower else lowest.why)


def _step(
    reader: DesignReader,
    parameter: str,
    given: object,
    sign: float,
    first: float,
    allowed: Sequence[Allowed],
) -> float:
    """The rule's step [mm], such that every tier above the lowest keeps within what is allowed."""
    low, high, why = -math.inf, math.inf, ""
    if not math.isnan(first):
        for index, each in enumerate(allowed[1:], start=1):
            bounds = sorted(sign * (limit - first) / index for limit in (each.least, each.most))
            if bounds[0] > low or bounds[1] < high:
                why = f"tier {index + 1} would be out of range: {each.why}"
            low, high = max(low, bounds[0]), min(high, bounds[1])
    return reader.length(parameter, given, at_least=low, at_most=high, why=why)


def _within(reader: DesignReader, parameter: str, given: object, allowed: Allowed) -> float:
    return reader.length(
        parameter, given, at_least=allowed.least, at_most=allowed.most, why=allowed.why
    )


def _read_width(reader: DesignReader, where: str, given: object, allowed: Allowed | None) -> float:
    if allowed is not None:
        return _within(reader, f"{where}width", given, allowed)
    if given is not None:
        reader.refuse(
            f"{where}width", f"'{given}'", "nothing",
            "tiers between uprights are as wide as the box lets them be", "leave it out",
        )  # fmt: skip
    return math.nan


_LONGEST_COUNT = 5
_COUNT_WHY = f"a stand of this kind has 1 to {MOST_TIERS} tiers"
