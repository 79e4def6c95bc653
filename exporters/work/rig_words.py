"""A machine made ready and a set-up on it, in words."""

from __future__ import annotations

from typing import assert_never

from furniture.making.operations import Operation
from furniture.making.set_ups import Dial, Figures, SetUp
from furniture.making.settings import CutterKind, Guide, Machine, Parallel, Rig, Slice
from furniture.units import Shown, dialled, figure

_UNSIZED = frozenset({CutterKind.KNIVES, CutterKind.BLADE})
"""Cutters that go without saying at their machine."""


def rig_in_words(rig: Rig, shown: Shown) -> str:
    """The machine, its cutter and what guides the wood, such as `table saw, dado head 13.5, sled`.

    Args:
        rig: made ready.
        shown: how lengths are shown.
    """
    words = [] if rig.machine is Machine.BENCH else [rig.machine.value]
    if rig.machine is Machine.BENCH or rig.cutter.kind not in _UNSIZED:
        words.append(_cutter(rig, shown))
    if rig.tilt_deg:
        words.append(f"blade tilted {rig.tilt_deg:g}°")
    if rig.turned_deg:
        words.append(f"sled's fence turned {rig.turned_deg:g}°")
    words.append(_guide(rig))
    return ", ".join(word for word in words if word)


def _guide(rig: Rig) -> str:
    if rig.machine is Machine.TABLE_SAW and rig.guide is Guide.FENCE:
        return "false fence" if rig.cutter.kind is CutterKind.DADO_HEAD else "fence"
    if rig.machine is Machine.ROUTER and rig.guide is Guide.LINE:
        return "along a straight edge"
    return "sled" if rig.guide is Guide.SLED else ""


def _cutter(rig: Rig, shown: Shown) -> str:
    size, stack, kind = rig.cutter.size_mm, rig.cutter.stack, rig.cutter.kind.value
    if size is None:
        return kind
    if stack is None:
        return f"{kind} {dialled(size, shown)}"
    thick = [str(dialled(each, shown)) for each in (*stack.chippers_mm, *stack.shims_mm)]
    return f"{kind} {dialled(size, shown)}: {' + '.join(('outer cutters', *thick))}"


def set_in_words(set_up: SetUp, first: Operation, shown: Shown) -> str:
    """What is set to what, such as `height 7, stop 70.1, then on by a 150 spacer 4 times`.

    Args:
        set_up: of the machine.
        first: its first operation.
        shown: how lengths are shown.
    """
    return figures_in_words(set_up.figures, first, shown, set_up.times)


def figures_in_words(figures: Figures, first: Operation, shown: Shown, times: int = 0) -> str:
    """What is set to what; a fence and a stop for a size are set by a rule, all else on a dial.

    Args:
        figures: in the order in which they are set.
        first: an operation that is done so.
        shown: how lengths are shown.
        times: how often the spacer is put in.
    """
    by_rule = isinstance(first.setting, Slice | Parallel)
    return ", ".join(
        _dial(dial, figure(mm, shown) if by_rule else str(dialled(mm, shown)), first, times)
        for dial, mm in figures
    )


def _dial(dial: Dial, text: str, first: Operation, times: int) -> str:
    machine = None if first.rig is None else first.rig.machine
    match dial:
        case Dial.FENCE if machine is Machine.DOWEL_JIG:
            return f"middle {text} from the jig's face"
        case Dial.FENCE if machine is Machine.DRILL_PRESS:
            return f"fence {text} off the middle"
        case Dial.HEIGHT if machine is Machine.PLANER:
            return f"thickness {text}"
        case Dial.HEIGHT if machine is Machine.ROUTER:
            return f"depth {text}"
        case Dial.STOP | Dial.FENCE if machine is Machine.ROUTER:
            return f"near wall {text} off"
        case Dial.FENCE | Dial.STOP | Dial.HEIGHT | Dial.DEPTH:
            return f"{dial.value} {text}"
        case Dial.EXPOSED:
            return f"{text} of the cutter shows"
        case Dial.SPACER:
            return f"then {times} times on by a {text} spacer"
        case Dial.WHOLE:
            return f"stopped to leave {text}"
        case _:
            assert_never(dial)
