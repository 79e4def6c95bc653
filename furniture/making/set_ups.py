"""Set-ups: what stands on a machine for how many passes, and which passes share it.

A set-up is what is set on the machine and nothing of the wood: a piece turned end for end against
the same stop, or over, is no new set-up. Passes to a mark need the machine made ready and no more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from furniture.making.operations import InHand, Operation
from furniture.making.settings import (
    Bored,
    CornerSlot,
    Easing,
    Guide,
    Hold,
    Machine,
    MitreGroove,
    Parallel,
    Rig,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.parts.faces import ENDS, WIDE_FACES


class Dial(Enum):
    """What is set on a machine that is ready."""

    FENCE = "fence"
    STOP = "stop"
    BATTEN = "batten"
    HEIGHT = "height"
    EXPOSED = "exposed"
    DEPTH = "depth"
    SPACER = "spacer"
    WHOLE = "left whole"


Figures = tuple[tuple[Dial, float], ...]
"""What is set to what [mm], in the order in which it is set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """A machine set once, and the operations done so, by their keys, in order.

    `times` is how often the spacer is put in; the passes then stand that far apart.
    """

    rig: Rig
    figures: Figures
    operations: tuple[str, ...]
    times: int = 0


@dataclass(frozen=True, slots=True)
class Standing:
    """What a set-up is the same by: the rig, its figures, and which end of a pass is stopped."""

    rig: Rig
    figures: Figures
    stopped: tuple[bool, bool] = (False, False)


def standing_of(operation: Operation) -> Standing | None:
    """What must stand on the machine; None at the bench."""
    rig, setting = operation.rig, operation.setting
    if rig is None or rig.machine is Machine.BENCH or operation.is_rough:
        return None
    match setting:
        case Parallel():
            return Standing(rig, ((Dial.HEIGHT, setting.at_mm),))
        case Slice():
            return Standing(rig, ((_stopped_by(rig, setting), setting.at_mm),))
        case Trench():
            return _of_trench(rig, setting, operation.hold)
        case Bored():
            return Standing(rig, _of_bore(setting))
        case CornerSlot():
            figures = ((Dial.HEIGHT, setting.depth_mm), (Dial.STOP, setting.near_mm))
            return Standing(rig, figures)
        case MitreGroove():
            return _of_groove(rig, setting, operation.in_hand)
        case Skim() | Surface() | Easing():
            return Standing(rig, ())
        case _:
            return Standing(rig, ())


def _stopped_by(rig: Rig, setting: Slice) -> Dial:
    """The fence; on a sled a stop at the end, or a batten that an edge lies at."""
    if rig.guide is Guide.FENCE:
        return Dial.FENCE
    return Dial.STOP if setting.off in ENDS else Dial.BATTEN


def _of_trench(rig: Rig, setting: Trench, hold: Hold) -> Standing:
    whole = setting.marks_mm
    ends = tuple((Dial.WHOLE, each) for each in whole if each > 0.0)
    figures: Figures = ((Dial.HEIGHT, setting.depth_mm),)
    if setting.near_mm == 0.0:
        figures = (*figures, (Dial.EXPOSED, setting.width_mm))
    elif setting.along == 0 or hold.stop is not None:  # else to a mark
        dial = Dial.FENCE if setting.along == 0 else Dial.STOP
        figures = (*figures, (dial, setting.near_mm))
    if rig.guide in (Guide.LINE, Guide.EDGE_GUIDE):  # to a mark on the wood, at whichever end
        return Standing(rig, (*figures, *ends))
    return Standing(rig, (*figures, *ends), (whole[0] > 0.0, whole[1] > 0.0))


def _of_groove(rig: Rig, setting: MitreGroove, wood: InHand | None) -> Standing:
    """On the sled by the tilted blade; with the mitre down by its own figures."""
    if rig.machine is Machine.TABLE_SAW and wood is not None:
        stop, height = setting.on_the_sled_mm(wood.length_mm, wood.thickness_mm)
        return Standing(rig, ((Dial.HEIGHT, height), (Dial.STOP, stop)))
    whole = (setting.whole_low_mm, setting.whole_high_mm)
    return Standing(
        rig,
        (
            (Dial.HEIGHT, setting.depth_mm),
            (Dial.FENCE, setting.near_mm),
            *((Dial.WHOLE, each) for each in whole if each > 0.0),
        ),
        (whole[0] > 0.0, whole[1] > 0.0),
    )


def _of_bore(setting: Bored) -> Figures:
    """The fence; along the grain, and along an edge, a bore stands at a mark."""
    fence = setting.at_mm[setting.beside] if setting.face in WIDE_FACES else _from_side(setting)
    if setting.to_mm is not None:
        fence -= setting.diameter_mm / 2  # what is routed is set by its near wall
    depth: Figures = () if setting.depth_mm is None else ((Dial.DEPTH, setting.depth_mm),)
    return ((Dial.FENCE, fence), *depth)


def _from_side(setting: Bored) -> float:
    """How far below a wide face a bore in an edge or an end lies [mm]."""
    sides = zip(setting.off, setting.at_mm, strict=True)
    return next(at for face, at in sides if face in WIDE_FACES)


def figures_rise(operation: Operation) -> tuple[float, ...]:
    """What passes with one rig are put in order by [mm]: cuts stopped at one end stay together."""
    standing = standing_of(operation)
    if standing is None:
        return ()
    return (*map(float, standing.stopped), *(value for _, value in standing.figures))


def set_ups_of(operations: Sequence[Operation]) -> tuple[SetUp, ...]:
    """The set-ups of an order: one lasts on its machine until another is wanted there.

    Dados at equal steps are one set-up with a spacer.
    """
    last: dict[Machine, int] = {}
    found: list[tuple[Standing, list[str]]] = []
    for each in operations:
        standing = standing_of(each)
        if standing is None:
            continue
        index = last.get(standing.rig.machine)
        if index is None or not serves(found[index][0], standing):
            last[standing.rig.machine] = index = len(found)
            found.append((standing, []))
        elif not found[index][0].figures:
            found[index] = (standing, found[index][1])
        found[index][1].append(each.key)
    by_key = {each.key: each for each in operations}
    return _with_spacers(found, by_key)


def serves(stands: Standing, wanted: Standing) -> bool:
    """Whether a pass can be made with what stands.

    A pass to a mark swings the stop out of its way; where none is set yet, it only has to be set.
    """
    is_ready = stands.rig == wanted.rig and (not wanted.figures or not stands.figures)
    return stands == wanted or is_ready


def _with_spacers(
    found: Sequence[tuple[Standing, list[str]]], by_key: dict[str, Operation]
) -> tuple[SetUp, ...]:
    """Set-ups that differ by equal steps of the stop are one."""
    merged: list[SetUp] = []
    index = 0
    while index < len(found):
        standing, keys = found[index]
        steps = _equal_steps([each for each, _ in found[index:]], by_key[keys[-1]])
        names = [key for _, several in found[index : index + steps + 1] for key in several]
        figures = standing.figures
        if steps:
            step = _stop(found[index + 1][0]) - _stop(standing)
            figures = (*figures, (Dial.SPACER, round(step, 9)))
        merged.append(
            SetUp(rig=standing.rig, figures=figures, operations=tuple(names), times=steps)
        )
        index += steps + 1
    return tuple(merged)


def _equal_steps(standings: Sequence[Standing], first: Operation) -> int:
    """How many of the set-ups that follow are the first one, its stop moved by equal steps."""
    setting = first.setting
    is_across = isinstance(setting, Trench) and setting.along != 0 and setting.near_mm != 0.0
    if not is_across and not isinstance(setting, CornerSlot):
        return 0
    stops = []
    for each in standings:
        if _without_stop(each) != _without_stop(standings[0]):
            break
        stops.append(_stop(each))
    count = 0
    for before, after in pairwise(stops):
        if abs((after - before) - (stops[1] - stops[0])) > 1e-6:
            break
        count += 1
    return count if count > 1 else 0


def _stop(standing: Standing) -> float:
    return next((value for dial, value in standing.figures if dial is Dial.STOP), 0.0)


def _without_stop(standing: Standing) -> Standing:
    kept = tuple(each for each in standing.figures if each[0] is not Dial.STOP)
    return replace(standing, figures=kept)
