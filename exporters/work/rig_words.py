"""A machine made ready and a set-up on it, in words."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import assert_never

from exporters.work.clamp_words import block_size_in_words
from furniture.making.bench.laying_out import LayOut, Matters
from furniture.making.laid_out import LaidOut
from furniture.making.operations import (
    CaulShape,
    Kind,
    Operation,
    Refused,
    SawnCauls,
    SawnSpacers,
    Scrap,
)
from furniture.making.set_ups import Dial, Figures, SetUp
from furniture.making.settings import CutterKind, Guide, Machine, Parallel, Rig, Slice, Trench
from furniture.shop.tools.on_hand import NoTool
from furniture.shop.tools.values import TooMuch
from furniture.units import Shown, decimal_figure, dialled, figure_among_words, listed, plural

_UNSIZED = frozenset({CutterKind.KNIVES, CutterKind.BLADE})
"""Cutters that go without saying at their machine."""


TO_LONG_POINT = "to the long point"
"""What the stop of a leaning blade is measured to."""


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
    if rig.guide is Guide.EDGE_GUIDE:
        return "edge guide"
    if rig.guide is Guide.CRADLE:
        return "cradle"
    if rig.guide is Guide.CARRIER:
        return "on a straight carrier at the fence"
    return "sled" if rig.guide is Guide.SLED else ""


def _cutter(rig: Rig, shown: Shown) -> str:
    size, stack, kind = rig.cutter.size_mm, rig.cutter.stack, rig.cutter.kind.value
    if size is None:
        return kind
    if stack is None:
        return f"{kind} {dialled(size, shown)}"
    thick = [str(dialled(each, shown)) for each in stack.chippers_mm]
    thick += [decimal_figure(each, shown) for each in stack.shims_mm]  # no fraction is so thin
    return f"{kind} {dialled(size, shown)}: {' + '.join(('outer cutters', *thick))}"


def set_in_words(
    set_up: SetUp, first: Operation, shown: Shown, drawn: Collection[Dial] = ()
) -> str:
    """What is set to what, such as `height 7, stop 670.1, 4 spacers of 150 before it`.

    Args:
        set_up: of the machine.
        first: its first operation.
        shown: how lengths are shown.
        drawn: what a picture tells.
    """
    figures = tuple(each for each in set_up.figures if each[0] not in drawn)
    return figures_in_words(figures, first, shown, set_up.times)


def figures_in_words(figures: Figures, first: Operation, shown: Shown, times: int = 0) -> str:
    """What is set to what; a fence and a stop for a size are set by a rule, all else on a dial.

    What a router takes in several depths has them named.

    Args:
        figures: in the order in which they are set.
        first: an operation that is done so.
        shown: how lengths are shown.
        times: how often the spacer is put in.
    """
    told = (_figures_in_words(figures, first, shown, times), depths_in_words(first, shown))
    return ", ".join(filter(None, told))


def depths_in_words(operation: Operation, shown: Shown) -> str:
    """The depths that a bit is set to one after another; empty where one pass does it.

    Args:
        operation: of a making.
        shown: how lengths are shown.
    """
    if not operation.depths_mm:
        return ""
    depths = [str(dialled(each, shown)) for each in operation.depths_mm]
    return f"bit set to {', '.join(depths[:-1])}, then {depths[-1]}"


def _figures_in_words(figures: Figures, first: Operation, shown: Shown, times: int) -> str:
    by_rule = isinstance(first.setting, Slice | Parallel)

    def told(mm: float) -> str:
        return figure_among_words(mm, shown) if by_rule else str(dialled(mm, shown))

    if isinstance(first.setting, Trench):  # its line says how far off which end it stops
        figures = tuple(each for each in figures if each[0] is not Dial.WHOLE)
    known = dict(figures)
    if times:
        last = known[Dial.STOP] + times * known[Dial.SPACER]
        before = [_dial(dial, told(mm), first) for dial, mm in figures if dial not in _SPACED]
        spacers = f"{times} spacers of {told(known[Dial.SPACER])} before it, one less each time"
        return ", ".join((*before, f"stop {told(last)}", spacers))
    size = None if first.rig is None else first.rig.cutter.size_mm
    shows = known.get(Dial.EXPOSED)
    if shows is not None and first.rig is not None and first.rig.machine is Machine.ROUTER:
        before = [_dial(dial, told(mm), first) for dial, mm in figures if dial is not Dial.EXPOSED]
        return ", ".join((*before, f"far side of the bit {told(shows)} inwards"))
    if size is not None and shows is not None and shows > size:
        before = [_dial(dial, told(mm), first) for dial, mm in figures if dial is not Dial.EXPOSED]
        return ", ".join((*before, f"far side of the cutter {told(shows)} off the fence"))
    return ", ".join(dict.fromkeys(_dial(dial, told(mm), first) for dial, mm in figures))


_SPACED = (Dial.STOP, Dial.SPACER)


def _dial(dial: Dial, text: str, first: Operation) -> str:
    machine = None if first.rig is None else first.rig.machine
    match dial:
        case Dial.FENCE if machine is Machine.DOWEL_JIG:
            return f"middle {text} off its face"
        case Dial.FENCE if machine is Machine.DRILL_PRESS:
            return f"fence {text} off the middle"
        case Dial.HEIGHT if machine is Machine.PLANER:
            return f"thickness {text}"
        case Dial.HEIGHT if machine is Machine.ROUTER:
            return f"depth {text}"
        case Dial.FENCE if first.rig is not None and first.rig.guide is Guide.EDGE_GUIDE:
            return f"guide {text} from the bit"
        case Dial.STOP | Dial.FENCE if machine is Machine.ROUTER:
            return f"near wall {text} off"
        case Dial.BATTEN:
            return f"batten {text} from the blade"
        case Dial.STOP if first.rig is not None and first.rig.tilt_deg:
            return f"stop {text} {TO_LONG_POINT}"
        case Dial.FENCE | Dial.STOP | Dial.HEIGHT | Dial.DEPTH:
            return f"{dial.value} {text}"
        case Dial.EXPOSED:
            return f"cutter shows {text}"
        case Dial.SPACER:
            return f"spacer {text}"
        case Dial.WHOLE:
            return f"stopped to leave {text}"
        case _:
            assert_never(dial)


def tested_in_words(test: Operation, operations: Iterable[Operation]) -> str:
    """What is sawn in scrap before a cutter goes to work, and how long.

    Args:
        test: the test cut.
        operations: all of the making.
    """
    kinds = {each.kind for each in operations if each.rig == test.rig} - {Kind.TEST_CUT}
    # nothing slides into an opening or onto a ledge, and no tenon is there before its mortise
    if kinds <= {Kind.SLOT, Kind.RABBET, Kind.MORTISE}:
        return "test cut: as wide and as deep as it is set"
    if test.rig is not None and test.rig.is_square:
        return "test cuts until what goes in slides home by hand"
    return "test cuts until two close square"


def scrap_in_words(scrap: Scrap, woods: str, shown: Shown) -> str:
    """What is sawn from scrap, how many and what for.

    Args:
        scrap: spacers or cauls.
        woods: what the wood is called that they are for.
        shown: how lengths are shown.
    """
    if isinstance(scrap, SawnSpacers):
        what, each = "spacer" if scrap.count == 1 else "spacers", dialled(scrap.each_mm, shown)
        alike = " alike" if scrap.count > 1 else ""
        return f"saw {scrap.count} {what} of {each}{alike}, for {_in_row(scrap.kind)} in {woods}"
    ups = "glue-up" if len(scrap.glue_ups) == 1 else "glue-ups"
    numbers = listed([str(each) for each in scrap.glue_ups])
    use = f"for {ups} {numbers}; wax or tape {'it' if scrap.count == 1 else 'them'}"
    return f"saw {scrap.count} {_caul_in_words(scrap, shown)}, {use} against glue"


def _in_row(kind: Kind) -> str:
    """What several cuts of a kind are called."""
    return "slots" if kind is Kind.SLOT else plural(kind.value)


def _caul_in_words(scrap: SawnCauls, shown: Shown) -> str:
    lean, cauls = scrap.lean_deg, "caul" if scrap.count == 1 else "cauls"
    match scrap.shape:
        case CaulShape.CORNER:
            shaped = "" if lean is None else f" of {180.0 - 2.0 * lean:g}°"
            return f"{cauls} with a V{shaped} to lie over a corner"
        case CaulShape.WEDGE:
            slope = "as sloped as what it lies on" if lean is None else f"at {lean:g}°"
            return f"{cauls} with a face {slope}"
        case CaulShape.SQUARE:
            return f"square {cauls}, flat, larger than a clamp's head"
        case CaulShape.BLOCK:
            assert scrap.block is not None
            blocks = "block" if scrap.count == 1 else "blocks"
            return f"{blocks} {block_size_in_words(scrap.block, shown)}"
        case CaulShape.ACROSS:
            assert scrap.long_mm is not None
            long = figure_among_words(scrap.long_mm, shown)
            return f"stiff {cauls} to lie across, at least {long} long"
        case _:
            assert_never(scrap.shape)


def laid_out_in_words(row: LaidOut, shown: Shown) -> str:
    """How a row of like cuts is laid out, and what is to be expected of it.

    Args:
        row: of a making.
        shown: how lengths are shown.
    """
    place, rise = (
        decimal_figure(row.expected.off_mm(each), shown) for each in (Matters.PLACES, Matters.RISES)
    )
    return f"{_LAID[row.expected.way]}: ±{place}, ±{rise} between two"


_LAID = {
    LayOut.ONE_END: "every place from one end",
    LayOut.LAST_SHOULDER: "each place from the one before",
    LayOut.SPACER: "from the end by spacers, sawn alike from scrap",
    LayOut.SPACER_FROM_FIRST: "one place measured, the others by spacers, sawn alike from scrap",
}


def refused_in_words(refused: Refused) -> str:
    """Why a pass is not done on the machine that would do it best.

    Args:
        refused: that machine, and why.
    """
    machine = refused.machine
    if not refused.why:
        return f"no {machine.value} on hand"
    if machine is Machine.DRILL_PRESS and TooMuch.DEEP in refused.why:
        return "deeper than the drill press comes down: go on by hand in the same hole"
    whole = [each for each in (TooMuch.STANDS_OUT, TooMuch.NO_WOOD) if each in refused.why]
    if whole:
        return whole[0].value
    return f"too {listed([_TOO[each] for each in refused.why])} for the {machine.value}"


_TOO = {
    TooMuch.WIDE: "wide",
    TooMuch.SHORT: "short",
    TooMuch.THIN: "thin",
    TooMuch.NARROW: "narrow",
    TooMuch.FAR_IN: "far in",
    TooMuch.TALL: "tall",
    TooMuch.DEEP: "deep",
}


def wanting_in_words(wanting: NoTool, shown: Shown) -> str:
    """What would make a cut, that it is not on hand, and what makes it by hand.

    Args:
        wanting: that no tool on hand makes it.
        shown: how lengths are shown.
    """
    near = wanting.nearest_mm
    nearest = "" if near is None else f", the nearest is {dialled(near, shown)}"
    by_hand = f"; by hand: {wanting.by_hand.value}" if wanting.by_hand else ""
    size = dialled(wanting.size_mm, shown)
    return f"{wanting.would.value} {size} would make it, none on hand{nearest}{by_hand}"
