"""What may be put under tiers, or is there already: brackets and cleats that are not refused."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from furniture.builders.bracket_places import Ledge
from furniture.builders.brackets import Bracket, BracketFigures
from furniture.builders.cleat_screw import cleat_slot_mm, cleat_thicknesses_mm
from furniture.builders.common import StockOf
from furniture.builders.rules import DesignReader
from furniture.builders.support import Support
from furniture.builders.tier_cleats import TierCleatFigures, least_cleat_mm, usual_set_back_mm
from furniture.builders.tiers import TierFigures
from furniture.pieces import Bearable, Bearer, Under
from furniture.rules.building import (
    BRACKET_BESIDE,
    BRACKET_CLEAR,
    CLEAT_CLEAR,
    CLEAT_WOOD,
    LEAST_BRACKET_HEIGHT,
    MOST_BRACKET_BETWEEN,
    STEEPEST_BRACKET,
)

_HAIR_MM = 1e-6


def bearable_tiers(
    reader: DesignReader,
    support: Support,
    steps: Sequence[TierFigures],
    stock: StockOf,
    below: Mapping[str, float],
    brackets: Sequence[BracketFigures],
    cleats: Sequence[TierCleatFigures],
    measured: Mapping[str, float],
) -> tuple[Bearable, ...]:
    """Every tier with what may be put under it; cleats that are there leave room for nothing else.

    Args:
        reader: knows the rules and the unit; nothing is noted with it.
        support: what carries the tiers.
        steps: the tiers from the lowest up.
        stock: of each tier, which is that of what is put under it.
        below: how high what is under each tier reaches [mm].
        brackets: those that are there.
        cleats: those that are there.
        measured: thicknesses of instances, by name, where not their stock's [mm].
    """
    found = []
    for step in steps:
        own = [each for each in brackets if each.on == step.name]
        room = step.bottom - below[step.name] - reader.rules[BRACKET_CLEAR]
        bearers: tuple[Bearer, ...]
        if own:
            thick = min(each.timber.thickness_mm for each in own)
            count = len(own) // len({each.place.out for each in own})
            there = _bracket(reader, support, step, count, thick)
            reach = max(each.reach for each in own)
            bearers = (
                replace(
                    there, least_mm=max(there.least_mm, reach),
                    there=tuple(each.name for each in own),
                ),
            )  # fmt: skip
        elif step.name in {each.on for each in cleats}:
            bearers = ()
        else:
            thick = stock.thickness(step.name)
            ledge = support.ledge(step)
            bearers = (
                *_brackets(reader, support, step, thick, room),
                *(() if ledge is None else _cleats(reader, ledge, room, measured)),
            )
        found.append(Bearable(instance=step.name, bearers=bearers))
    return tuple(found)


def _brackets(
    reader: DesignReader, support: Support, step: TierFigures, thick: float, room: float
) -> list[Bearer]:
    """One against each of what holds a tier, or two side by side, as far as they find room."""
    if not room >= reader.rules[LEAST_BRACKET_HEIGHT] - _HAIR_MM:
        return []
    asked = thick + 2 * reader.rules[BRACKET_BESIDE]
    return [
        _bracket(reader, support, step, count, thick)
        for count in (1, 2)
        for places in [support.bracket_places(step, count)]
        if places and asked <= min(each.wide for each in places) + _HAIR_MM
    ]


def _bracket(
    reader: DesignReader, support: Support, step: TierFigures, count: int, thick: float
) -> Bearer:
    """So many brackets, with the nose that they have where nothing is said."""
    reach = support.bracket_reach(step, reader.rules)
    nose, steepest = reader.peek(Bracket().nose), reader.rules[STEEPEST_BRACKET]
    drop = reader.rules[LEAST_BRACKET_HEIGHT] - nose
    return Bearer(
        under=Under.BRACKET, parameter="brackets", count=count, wide_mm=count * thick,
        least_mm=max(reach.least, drop / math.tan(math.radians(steepest))), most_mm=reach.most,
    )  # fmt: skip


def _cleats(
    reader: DesignReader, ledge: Ledge, room: float, measured: Mapping[str, float]
) -> list[Bearer]:
    """A pair of cleats with the height, the place and the screw that they have by themselves."""
    rules = reader.rules
    slot, _ = cleat_slot_mm(reader)
    spare = ledge.deep - rules[CLEAT_CLEAR] - least_cleat_mm(reader)
    upright = min(measured.get(each, ledge.thickness) for each in ledge.names)
    thick = cleat_thicknesses_mm(reader, upright)
    if thick is None or spare < -_HAIR_MM or room < slot + 2 * rules[CLEAT_WOOD] - _HAIR_MM:
        return []
    back = min(usual_set_back_mm(reader), max(0.0, spare))
    return [
        Bearer(
            under=Under.CLEAT, parameter="tier_cleats", count=1,
            wide_mm=ledge.deep - rules[CLEAT_CLEAR] - back, least_mm=thick[0],
            most_mm=min(thick[1], rules[MOST_BRACKET_BETWEEN] * ledge.span),
        )
    ]  # fmt: skip
