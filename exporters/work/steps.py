"""The operations gathered into steps that a maker ticks: a set-up, or like work at the bench."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.making.making import Making
from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import Dial, SetUp, standing_of
from furniture.making.settings import Parallel, Rig, Slice, Trench

PLACED = (Dial.STOP, Dial.BATTEN, Dial.FENCE)
"""What says where a channel lies."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Operations that follow one another on one rig, saw up one board or are one glue-up.

    Args:
        number: from 1.
        stage: of the work.
        rig: the machine made ready; None where none is.
        set_ups: that they are done in, none at the bench; several where only a size differs, so
            that each piece of wood has its own figure.
        resumes: the number of the step that began the set-up, where this one goes on with it.
        operations: in order.
        board: that is sawn up to lines; None where the work is told cut by cut.
    """

    number: int
    stage: Stage
    rig: Rig | None
    set_ups: tuple[SetUp, ...]
    resumes: int | None
    operations: tuple[Operation, ...]
    board: str | None = None

    @property
    def set_up(self) -> SetUp | None:
        """What all of it is done in; None at the bench, or where there are several."""
        return self.set_ups[0] if len(self.set_ups) == 1 else None


def steps_of(making: Making) -> tuple[Step, ...]:
    """Every operation in just one step, none out of order.

    Args:
        making: of the piece.
    """
    of = {key: index for index, each in enumerate(making.set_ups) for key in each.operations}
    source = {each.id: each.source for each in making.workpieces}
    runs: list[list[Operation]] = []
    for each in making.operations:
        if runs and _shared(of, source, runs[-1][-1]) == _shared(of, source, each):
            runs[-1].append(each)
        else:
            runs.append([each])
    begun: dict[int, int] = {}
    steps = []
    for number, run in enumerate(_sizes_together(runs, of), start=1):
        index = of.get(run[0].key)
        steps.append(
            Step(
                number=number,
                stage=run[0].stage,
                rig=run[0].rig,
                set_ups=tuple(making.set_ups[each] for each in _indices(run, of)),
                resumes=None if index is None else begun.get(index),
                operations=tuple(run),
                board=_board(source, run[0]),
            )
        )
        for each in run:
            if each.key in of and is_set(each):
                begun.setdefault(of[each.key], number)
    return tuple(steps)


def is_set(operation: Operation) -> bool:
    """Whether a stop, a fence or a height is set for it.

    Args:
        operation: of a making.
    """
    standing = standing_of(operation)
    return standing is not None and bool(standing.figures)


_MADE_AT_THE_BENCH = frozenset(
    {Kind.LAY_OUT_STRIPS, Kind.EDGE_GLUE, Kind.SCRAPE, Kind.PLANE_TO_FIT}
)
"""What makes a part though nothing is set for it."""


def steps_on(making: Making) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the steps that make each instance, by itself or in a strip.

    Args:
        making: of the piece.
    """
    inside = {each.id: each.instances for each in making.workpieces}
    found: dict[str, dict[int, None]] = {}
    for step in steps_of(making):
        for each in step.operations:
            is_made = each.setting is not None or each.kind in _MADE_AT_THE_BENCH
            made = (*each.takes, *each.gives) if is_made else ()
            for name in dict.fromkeys(name for wood in made for name in inside.get(wood, ())):
                found.setdefault(name, {})[step.number] = None
    return {name: tuple(numbers) for name, numbers in found.items()}


def steps_on_boards(making: Making) -> Mapping[str, tuple[int, ...]]:
    """The numbers of the steps on each whole board, until it is sawn up, by the board's name.

    Args:
        making: of the piece.
    """
    boards = {each.id: each.board for each in making.workpieces if each.board is not None}
    found: dict[str, dict[int, None]] = {}
    for step in steps_of(making):
        for wood in (wood for each in step.operations for wood in each.takes):
            if wood in boards:
                found.setdefault(boards[wood], {})[step.number] = None
    return {name: tuple(numbers) for name, numbers in found.items()}


def _indices(run: Sequence[Operation], of: Mapping[str, int]) -> tuple[int, ...]:
    """The set-ups of a run, in order."""
    return tuple(dict.fromkeys(of[each.key] for each in run if each.key in of))


def _sizes_together(
    runs: Sequence[list[Operation]], of: Mapping[str, int]
) -> list[list[Operation]]:
    """Runs on one rig that cut to a size each are one, and those of like channels in a row."""
    found: list[list[Operation]] = []
    seen: set[int] = set()
    for run in runs:
        is_new = not seen & set(_indices(run, of))
        seen |= set(_indices(run, of))
        if found and is_new and _differs_in_a_figure(found[-1], run, of):
            first, own = found[-1][0], run[0]
            if (first.stage, first.rig) == (own.stage, own.rig):
                found[-1].extend(run)
                continue
        found.append(list(run))
    return found


def _differs_in_a_figure(
    before: Sequence[Operation], run: Sequence[Operation], of: Mapping[str, int]
) -> bool:
    """Whether a run goes on with the one before it, but for a size or the place of a channel."""
    if _cuts_to_size(before, of) and _cuts_to_size(run, of):
        return True
    places = [_but_for_its_place(each) for each in (*before, *run) if each.setting is not None]
    return (
        None not in places
        and len(set(places)) == 1
        and all(each.key in of for each in (*before, *run))
        and all(each.kind is not Kind.TEST_CUT for each in run)
    )


def _but_for_its_place(operation: Operation) -> object:
    """What a channel that is set by a stop or a fence has in common with others of its row."""
    standing, setting = standing_of(operation), operation.setting
    if standing is None or not isinstance(setting, Trench) or not setting.near_mm:
        return None
    figures = tuple(each for each in standing.figures if each[0] not in PLACED)
    if figures == standing.figures:
        return None
    passes, hold = operation.near_mm, (operation.kind, setting.off, setting.face)
    return (figures, standing.stopped, setting.width_mm, passes, hold)


def _cuts_to_size(run: Sequence[Operation], of: Mapping[str, int]) -> bool:
    """Whether all that is set for a run are the sizes that its pieces of wood are cut to."""
    figured = [each for each in run if (standing := standing_of(each)) and standing.figures]
    return (
        bool(figured)
        and all(each.key in of and each.kind is not Kind.TEST_CUT for each in run)
        and all(isinstance(each.setting, Slice | Parallel) for each in figured)
    )


def _shared(
    of: Mapping[str, int], source: Mapping[str, str | None], each: Operation
) -> tuple[object, ...]:
    """What operations of one step have in common; in a set-up the kind of work may change."""
    board = _board(source, each)
    if board is not None:
        return (each.stage, board)
    if each.glue_up is not None:
        return (each.stage, each.glue_up.number)
    index = of.get(each.key)
    return (each.stage, index, each.rig, each.kind if index is None else None)


def _board(source: Mapping[str, str | None], each: Operation) -> str | None:
    """The board that a rough cut is made in."""
    if not each.is_rough or not each.takes:
        return None
    wood: str | None = each.takes[0]
    while wood is not None and source.get(wood) is not None:
        wood = source[wood]
    return wood
