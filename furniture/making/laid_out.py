"""How rows of like cuts are laid out in the making, and the error that each way gathers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable
from dataclasses import dataclass

from furniture.making.bench.laying_out import (
    Gathered,
    LayOut,
    Matters,
    gathered,
    ways_to_lay_out,
)
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation
from furniture.making.set_ups import Dial, SetUp, standing_of
from furniture.making.settings import Bored, Trench
from furniture.parts.faces import WIDE_FACES, Face
from furniture.rules import USUAL_RULES, Rules

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """A row of like cuts in one piece of wood.

    Args:
        operations: by their keys, in order.
        off: the face that their places are measured from.
        matters: what of the row must be right.
        expected: the way to lay it out, and what is to be expected of it.
    """

    operations: tuple[str, ...]
    off: Face
    matters: Matters
    expected: Gathered


def laid_out(making: Making, rules: Rules = USUAL_RULES) -> tuple[LaidOut, ...]:
    """Every row of two places or more, in the order in which its first one is cut.

    A set-up with spacers, or with a stop for each place, is a way to lay out already; what is cut
    to a mark is laid out in the way that gathers the least.

    Args:
        making: of a piece.
        rules: what a mark, a block and its seat are off.
    """
    spaced = {key: each for each in making.set_ups if each.times for key in each.operations}
    rows: dict[Hashable, list[tuple[Operation, float]]] = defaultdict(list)
    for each in making.operations:
        placed = placed_at(each)
        if placed is not None:
            off, at_mm = placed
            row = (each.takes, each.kind, _sunk_from(each), off, spaced.get(each.key))
            rows[row].append((each, at_mm))
    return tuple(
        _laid_out(row, spaced.get(row[0][0].key), rules)
        for row in rows.values()
        if _places(row)[-1] - _places(row)[0] > _SAME_MM
    )


def _laid_out(row: list[tuple[Operation, float]], spaced: SetUp | None, rules: Rules) -> LaidOut:
    first = row[0][0]
    places, matters = _places(row), _matters(first)
    if spaced is not None:
        expected = gathered(LayOut.SPACER_FROM_FIRST, len(places), rules)
    elif _has_a_stop(first):
        expected = gathered(LayOut.ONE_END, len(places), rules)
    else:
        expected = ways_to_lay_out(places, matters, rules)[0]
    placed = placed_at(first)
    assert placed is not None, "a row is of what has a place"
    return LaidOut(
        operations=tuple(each.key for each, _ in row),
        off=placed[0],
        matters=matters,
        expected=expected,
    )


def _places(row: list[tuple[Operation, float]]) -> list[float]:
    """Its places from the face that they are measured from [mm], each once, rising."""
    found: list[float] = []
    for at_mm in sorted(at_mm for _, at_mm in row):
        if not found or at_mm - found[-1] > _SAME_MM:
            found.append(at_mm)
    return found


def placed_at(operation: Operation) -> tuple[Face, float] | None:
    """The face that a cut of a row is measured from, and how far from it [mm]."""
    setting = operation.setting
    match setting:
        case Trench() if setting.near_mm > 0.0 and operation.kind is not Kind.CHOP:
            return setting.off, setting.near_mm
        case Bored():
            along = int(setting.face not in WIDE_FACES and setting.off[0] in WIDE_FACES)
            return setting.off[along], setting.at_mm[along]
        case _:
            return None


def _sunk_from(operation: Operation) -> Face | None:
    setting = operation.setting
    return setting.face if isinstance(setting, Trench | Bored) else None


def _matters(operation: Operation) -> Matters:
    """Where something is glued in, its other end meets another part; else the eye sees rises."""
    setting = operation.setting
    is_right_through = isinstance(setting, Bored) and setting.depth_mm is None
    return Matters.RISES if is_right_through else Matters.PLACES


def _has_a_stop(operation: Operation) -> bool:
    standing = standing_of(operation)
    dials = () if standing is None else standing.figures
    return any(dial in (Dial.STOP, Dial.FENCE) for dial, _ in dials) and not isinstance(
        operation.setting, Bored
    )
