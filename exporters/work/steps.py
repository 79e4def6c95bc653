"""The operations gathered into steps that a maker ticks: a set-up, or like work at the bench."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from furniture.making.making import Making
from furniture.making.operations import Operation, Stage
from furniture.making.set_ups import SetUp
from furniture.making.settings import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Operations that follow one another in one set-up, saw up one board or are one glue-up.

    Args:
        number: from 1.
        stage: of the work.
        rig: the machine made ready; None where none is.
        set_up: that they are done in; None at the bench.
        resumes: the number of the step that began the set-up, where this one goes on with it.
        operations: in order.
        board: that is sawn up to lines; None where the work is told cut by cut.
    """

    number: int
    stage: Stage
    rig: Rig | None
    set_up: SetUp | None
    resumes: int | None
    operations: tuple[Operation, ...]
    board: str | None = None


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
    for number, run in enumerate(runs, start=1):
        index = of.get(run[0].key)
        steps.append(
            Step(
                number=number,
                stage=run[0].stage,
                rig=run[0].rig,
                set_up=None if index is None else making.set_ups[index],
                resumes=None if index is None else begun.get(index),
                operations=tuple(run),
                board=_board(source, run[0]),
            )
        )
        if index is not None:
            begun.setdefault(index, number)
    return tuple(steps)


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
