"""The operations gathered into steps that a maker ticks: a set-up, or like work at the bench."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.making.making import Making
from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import SetUp
from furniture.making.settings import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Operations that follow one another in one set-up.

    Args:
        number: from 1.
        stage: of the work.
        rig: the machine made ready; None where none is.
        set_up: that they are done in; None at the bench.
        resumes: the number of the step that began the set-up, where this one goes on with it.
        operations: in order.
    """

    number: int
    stage: Stage
    rig: Rig | None
    set_up: SetUp | None
    resumes: int | None
    operations: tuple[Operation, ...]


def steps_of(making: Making) -> tuple[Step, ...]:
    """Every operation in just one step, none out of order.

    Args:
        making: of the piece.
    """
    of = {key: index for index, each in enumerate(making.set_ups) for key in each.operations}
    runs: list[list[Operation]] = []
    for each in making.operations:
        if runs and _shared(of, runs[-1][-1]) == _shared(of, each):
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
            )
        )
        if index is not None:
            begun.setdefault(index, number)
    return tuple(steps)


def _shared(
    of: dict[str, int], each: Operation
) -> tuple[Stage, int | None, Rig | None, Kind | None]:
    """What operations of one step have in common; in a set-up the kind of work may change."""
    index = of.get(each.key)
    return each.stage, index, each.rig, each.kind if index is None else None
