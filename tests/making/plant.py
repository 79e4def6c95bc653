"""Faults, planted: what must come first is made to come after, and settings are a little out."""

from __future__ import annotations

import random
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Any

from furniture.making.operations import Axis, Operation
from furniture.making.settings import (
    Bored,
    Easing,
    Flush,
    Notched,
    Parallel,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.why import Why
from furniture.making.workpieces import Workpiece
from furniture.parts.faces import Face
from tests.making.passes import passed
from tests.making.replay import LIGHT, Making, Replayed, Step
from tests.making.targets import SAME_MM3, apart_mm3

Change = dict[str, Any]

OUT_MM = 0.1
"""What a maker can see, and a checker must."""

FIGURES: dict[type, tuple[str, ...]] = {
    Surface: ("takes_mm",),
    Parallel: ("at_mm",),
    Slice: ("at_mm",),
    Skim: ("takes_mm",),
    Trench: ("near_mm", "width_mm", "depth_mm"),
    Bored: ("diameter_mm", "at_mm"),
    Notched: ("length_mm", "depth_mm"),
    Easing: ("size_mm",),
}
"""What can be set wrong, and is not free as what falls off is."""


@dataclass(frozen=True, slots=True)
class Planted:
    """Work with a fault in it, and what was done to it."""

    workpieces: Sequence[Workpiece]
    operations: Sequence[Operation]
    what: str


def pairs_of(making: Making) -> list[tuple[str, str, Why]]:
    """What comes before what, as the making says: only to plant faults, never to judge them."""
    known = {each.key: each for each in making.operations}
    return [
        (after.key, each.key, after.why)
        for each in making.operations
        for after in each.after
        if not _are_apart(known[after.key], each, after.why)
    ]


def _are_apart(first: Operation, second: Operation, why: Why) -> bool:
    """Two ends of one blank are sawn in either order: the one that is listed is a habit."""
    ends = {_end_of(first), _end_of(second)}
    return why is Why.OUTSIDE_IN and None not in ends and len(ends) == 2


def _end_of(operation: Operation) -> Face | None:
    setting = operation.setting
    if isinstance(setting, Slice):
        return setting.off
    return setting.face if isinstance(setting, Skim) else None


def too_early(making: Making, first: str, second: str, why: Why) -> Planted:
    """The work with `second` done just before `first`."""
    order = list(making.operations)
    late = next(each for each in order if each.key == second)
    order.remove(late)
    order.insert(next(at for at, each in enumerate(order) if each.key == first), late)
    return Planted(making.workpieces, order, f"{second} before {first}: {why.value}")


def a_fault_of_order(making: Making, dice: random.Random) -> Planted:
    """One of all that could be planted, every reason as often as any other."""
    pairs = pairs_of(making)
    why = dice.choice(list(dict.fromkeys(each[2] for each in pairs)))
    return too_early(making, *dice.choice([each for each in pairs if each[2] is why]))


def a_fault_of_setting(making: Making, done: Replayed, dice: random.Random) -> Planted:
    """A figure a tenth out, a reference turned, a pass left out or made twice."""
    flushed = {
        cut.instance
        for each in making.operations
        if isinstance(each.setting, Flush)
        for cut in each.cuts
    }
    steps = [
        each
        for each in done.steps
        if type(each.operation.setting) in FIGURES
        and not each.operation.begins  # a chisel goes on there, and hides what the cutter left
        and not _is_made_flush(each.operation, flushed)
    ]
    while True:
        step = dice.choice(steps)
        kind = dice.choice((_out, _out, _turned, _left_out, _doubled))
        changed = kind(step, dice)
        if changed is not None:
            break
    operations = [
        each for old in making.operations for each in (changed if old is step.operation else (old,))
    ]
    return Planted(making.workpieces, operations, f"{kind.__name__}: {step.operation.key}")


def _is_made_flush(operation: Operation, flushed: Collection[str]) -> bool:
    """Whether it gives a key a length that a plane makes flush later, and so hides."""
    return any(size.axis is Axis.LENGTH and size.instance in flushed for size in operation.sizes)


def _out(step: Step, dice: random.Random) -> tuple[Operation, ...]:
    setting: Any = step.operation.setting
    name = dice.choice(FIGURES[type(setting)])
    figure, by = getattr(setting, name), dice.choice((OUT_MM, -OUT_MM))
    if isinstance(figure, tuple):
        figure = (figure[0] + by, figure[1])
    elif isinstance(setting, Trench) and name == "near_mm" and figure == 0.0:
        name, figure = "width_mm", setting.width_mm + by
    elif isinstance(setting, Skim) and figure <= OUT_MM:
        figure += OUT_MM
    else:
        figure += by
    return (replace(step.operation, setting=replace(setting, **{name: figure})),)


def _turned(step: Step, dice: random.Random) -> tuple[Operation, ...] | None:
    """Measured from the other side; None where that makes no other wood, as in the middle."""
    setting: Any = step.operation.setting
    if isinstance(setting, Bored):
        change: Change = {"off": (setting.off[0].opposite, setting.off[1])}
    elif isinstance(setting, Surface | Skim):
        change = {"face": setting.face.opposite}
    elif isinstance(setting, Easing):
        return None
    else:
        change = {"off": setting.off.opposite}
    changed = replace(setting, **change)
    kept = passed(step.before, changed, LIGHT).kept
    if apart_mm3(kept, passed(step.before, setting, LIGHT).kept) < SAME_MM3:
        return None
    return (replace(step.operation, setting=changed),)


def _left_out(step: Step, dice: random.Random) -> tuple[Operation, ...]:
    return ()


def _doubled(step: Step, dice: random.Random) -> tuple[Operation, ...]:
    return (step.operation, step.operation)
