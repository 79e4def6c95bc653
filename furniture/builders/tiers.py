"""The tiers of a stepped stand: each one stated, or a rule for all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.overall import Allowed, Overall
from furniture.builders.rules import DesignReader, at_least_known, at_most_known
from furniture.builders.tier_rules import (
    MOST_TIERS,
    Tier,
    TierLine,
    TierRule,
    counted_in,
    listed_in,
    said_of,
)
from furniture.rules import Rules
from furniture.rules.building import BETWEEN_DADOS, GREATEST_RISE, GREATEST_TIER, LEAST_TIER
from furniture.units import counted, is_given, said

_SLACK_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class TierFigures:
    """One tier's figures [mm]: `top` and `bottom` are heights above the base's underside.

    `width` is not-a-number between uprights, where the support knows it.
    """

    number: int
    width: float
    depth: float
    rise: float
    top: float
    bottom: float

    @property
    def name(self) -> str:
        """Of its instance."""
        return f"tier {self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TierRoom:
    """What the tiers must fit: no width is given where the support sets it.

    `lid_top` is the height from which they rise; `below` is the housing under the lowest [mm].
    `height` and `reach` are the overall sizes that they fill, where those were asked for. The base
    is `base_width` wide, and `face` is how far back from its front tiers begin.
    """

    width: Allowed | None
    depth: Allowed
    lid_top: float
    below: float
    base_width: float
    face: float
    height: Overall | None = None
    reach: Overall | None = None


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
                "the rise holds the tier's thickness and leaves "
                f"{reader.least(reader.rules[BETWEEN_DADOS])} of wood between two dados"
            ),
        )
        for own, below in zip(thickness, over, strict=False)
    ]
    some = rises[: 1 if counted_in(tiers) is None else None]
    if isinstance(tiers, TierRule):
        sizes = _by_rule(reader, tiers, room, some)
    elif isinstance(tiers, TierLine):
        sizes = _by_line(reader, tiers, room, some)
    else:
        sizes = _one_by_one(reader, tiers, room, rises)
    top, found = room.lid_top, []
    for index, ((width, depth, rise), own) in enumerate(zip(sizes, thickness, strict=False)):
        top += rise
        found.append(
            TierFigures(
                number=index + 1,
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
            "tiers", "nothing" if tiers is None else said(tiers),
            "a TierRule, a TierLine, or a list of Tier", "a stand has tiers",
            f"write {reader.example('TierRule')}",
        )  # fmt: skip
        return []
    tiers = listed_in(tiers)
    if not 1 <= len(tiers) <= MOST_TIERS:
        reader.refuse(
            "tiers", f"{len(tiers)} of them", f"1 to {MOST_TIERS}", _COUNT_WHY,
            f"leave {len(tiers) - MOST_TIERS} out"
            if tiers
            else f"write [{reader.example('Tier')}]",
        )  # fmt: skip
    listed = [each if isinstance(each, Tier) else None for each in tiers[:MOST_TIERS]]
    for index, each in enumerate(listed):
        if each is not None:
            where = counted("tier", index)
            reader.names(f"{where} ", each, said_of(where))
    depths = _depths(reader, listed, room)
    heights = _rises(reader, listed, room, rises)
    sizes = []
    for index, tier in enumerate(tiers[:MOST_TIERS]):
        where = f"{counted('tier', index)} "
        if not isinstance(tier, Tier):
            reader.refuse(
                where[:-1],
                said(tier),
                "a Tier",
                "it states a tier",
                f"write {reader.example('Tier')}",
            )
            sizes.append((math.nan, math.nan, math.nan))
            continue
        sizes.append(
            (
                _read_width(reader, where, tier.width, room.width),
                depths[index],
                heights[index],
            )
        )
    return sizes


def _depths(reader: DesignReader, tiers: Sequence[Tier | None], room: TierRoom) -> list[float]:
    """Each tier's depth [mm], those left out as deep as the overall depth lets them be."""
    found = [
        math.nan
        if tier is None or (tier.depth is None and room.reach is not None)
        else _within(reader, f"{counted('tier', index)} depth", tier.depth, room.depth)
        for index, tier in enumerate(tiers)
    ]
    left = [i for i, tier in enumerate(tiers) if tier is not None and tier.depth is None]
    if room.reach is not None and left:
        shared = room.reach.shared_depth(reader, room.depth)
        found = [shared if index in left else each for index, each in enumerate(found)]
    return found


def _rises(
    reader: DesignReader, tiers: Sequence[Tier | None], room: TierRoom, allowed: Sequence[Allowed]
) -> list[float]:
    """Each tier's rise [mm], those left out sharing what the overall height leaves."""
    found = [
        math.nan
        if tier is None or (tier.rise is None and room.height is not None)
        else _within(reader, f"{counted('tier', index)} rise", tier.rise, allowed[index])
        for index, tier in enumerate(tiers)
    ]
    left = [i for i, tier in enumerate(tiers) if tier is not None and tier.rise is None]
    if room.height is None:
        return found
    others = math.fsum(each for index, each in enumerate(found) if index not in left)
    if not left:
        remedy = "leave out the rise of a tier, which then takes what is left"
        room.height.agrees(reader, room.height.rest + others, remedy)
        return found
    shared = room.height.shared_rise(reader, [allowed[index] for index in left], others)
    return [shared if index in left else each for index, each in enumerate(found)]


def _by_rule(
    reader: DesignReader, rule: TierRule, room: TierRoom, rises: Sequence[Allowed]
) -> Sizes:
    """The same by rule: the lowest tier is judged by itself, the others by the rule's step."""
    where = "tiers."
    reader.names(where, rule, said_of("tiers"))
    _read_count(reader, rule)
    count = len(rises)
    width, back = math.nan, 0.0
    if room.width is None:
        _read_width(reader, where, rule.width, None)
        reader.length(f"{where}step_back_width", rule.step_back_width)
    else:
        width, back = _stepped(reader, rule, "width", "step_back_width", -1.0, [room.width] * count)
    depth, inward = _depth_by_rule(reader, rule, room, count)
    rise, change = _rise_by_rule(reader, rule, room, rises)
    return [
        (width - index * back, depth - index * inward, rise + index * change)
        for index in range(len(rises))
    ]


def _by_line(
    reader: DesignReader, rule: TierLine, room: TierRoom, rises: Sequence[Allowed]
) -> Sizes:
    """The same on straight lines from the base's front and sides to the top tier."""
    reader.names("tiers.", rule, said_of("tiers"))
    _read_count(reader, rule)
    rise, change = _rise_by_rule(reader, rule, room, rises)
    each = [rise + index * change for index in range(len(rises))]
    total = math.fsum(each)
    shares = [math.fsum(each[: index + 1]) / total for index in range(len(each))]
    width = math.nan
    if room.width is not None:
        width = _within(reader, "tiers.top_width", rule.top_width, room.width)
    elif rule.top_width is not None:
        _read_width(reader, "tiers.top_", rule.top_width, None)
    depth = _top_depth(reader, rule, room, shares)
    return [
        (
            room.base_width + (width - room.base_width) * share,
            room.face + (depth - room.face) * share,
            one,
        )
        for share, one in zip(shares, each, strict=True)
    ]


def _top_depth(
    reader: DesignReader, rule: TierLine, room: TierRoom, shares: Sequence[float]
) -> float:
    """The top tier's depth [mm], such that every tier on the line keeps within what is allowed."""
    least, most = room.depth.least, min(room.depth.most, at_most_known(room.face))
    for share in shares:
        if not math.isnan(share * room.face):
            least = max(least, (room.depth.least - room.face * (1.0 - share)) / share)
            most = min(most, (room.depth.most - room.face * (1.0 - share)) / share)
    if least > most:
        reader.refuse(
            "tiers.top_depth", said(rule.top_depth), "no figure",
            f"on a line from the base's front a tier would be out of range: {room.depth.why}",
            "write a TierRule, or a list of Tier",
        )  # fmt: skip
        return math.nan
    return reader.length(
        "tiers.top_depth", rule.top_depth, at_least=least, at_most=most,
        why=f"on a line from the base's front every tier keeps in range: {room.depth.why}",
    )  # fmt: skip


def _read_count(reader: DesignReader, rule: TierRule | TierLine) -> None:
    """How many tiers a rule states; what is no count is noted."""
    reader.whole("tiers.count", rule.count, 1, MOST_TIERS, 3, _COUNT_WHY)


def _depth_by_rule(
    reader: DesignReader, rule: TierRule, room: TierRoom, count: int
) -> tuple[float, float]:
    """The lowest tier's depth and how much shallower each one above it is [mm]."""
    allowed = [room.depth] * count
    if room.reach is None or rule.depth is not None:
        return _stepped(reader, rule, "depth", "step_back_depth", -1.0, allowed)
    deepest, steps = room.reach.shared_depth(reader, room.depth), count - 1
    most = (deepest - room.depth.least) / steps if steps else math.inf
    inward = reader.length(
        "tiers.step_back_depth", rule.step_back_depth, at_least=-at_most_known(most),
        at_most=at_most_known(most), why=f"the shallowest is out of range: {room.depth.why}",
    )  # fmt: skip
    return deepest + min(0.0, steps * inward), inward


def _rise_by_rule(
    reader: DesignReader, rule: TierRule | TierLine, room: TierRoom, allowed: Sequence[Allowed]
) -> tuple[float, float]:
    """The lowest tier's rise and how much more each one above it rises [mm]."""
    if room.height is None or rule.rise is not None:
        first, change = _stepped(reader, rule, "rise", "rise_change", 1.0, allowed)
        if room.height is not None:
            total = math.fsum(first + index * change for index in range(len(allowed)))
            remedy = "leave out tiers.rise, which then follows"
            room.height.agrees(reader, room.height.rest + total, remedy)
        return first, change
    # Tiers that close up or open out do so about the middle one, so that the sum stays.
    mean, middle = room.height.shared_rise(reader, allowed, 0.0), (len(allowed) - 1) / 2
    low, high = -math.inf, math.inf
    for index, each in enumerate(allowed):
        if index != middle and not math.isnan(mean):
            bounds = sorted((limit - mean) / (index - middle) for limit in (each.least, each.most))
            low, high = max(low, bounds[0]), min(high, bounds[1])
    change = reader.length(
        "tiers.rise_change", rule.rise_change, at_least=low, at_most=high,
        why=f"a tier would be out of range: {allowed[0].why}",
    )  # fmt: skip
    return mean - middle * change, change


def _stepped(
    reader: DesignReader,
    rule: TierRule | TierLine,
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


_COUNT_WHY = f"a stand of this kind has 1 to {MOST_TIERS} tiers"
