"""What may hurt in a piece of work, in the words of a piece."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping

from furniture.making.bench.cautions import (
    SANDING,
    Hazard,
    caution,
    finish_hazards,
    glue_hazards,
    rig_hazards,
)
from furniture.making.making import Making
from furniture.making.operations import Kind, Operation, Stage
from furniture.making.settings import Machine
from furniture.pieces.piece import Piece
from furniture.units import figure_with_unit

OF_A_CUT = {Hazard.PARTED_AT_STOP: "clamp what comes off between stop and blade"}
"""What a cut asks for, whatever the machine: it is told with each such cut, on whichever sheet, so
briefly once it was told in full."""
_QUARTER_MM = 25.4 / 4


def hazards_of(operations: Iterable[Operation], making: Making) -> tuple[Hazard, ...]:
    """What may hurt in some operations: at their machines, and from dust, glue and finish.

    Args:
        operations: of the making.
        making: knows glue and finish.
    """
    return tuple(dict.fromkeys(each for one in operations for each in _hazards(one, making)))


def _hazards(operation: Operation, making: Making) -> Iterator[Hazard]:
    if operation.rig is not None:
        yield from rig_hazards(operation.rig)
    is_sawn = operation.rig is not None and operation.rig.machine is Machine.TABLE_SAW
    if is_sawn and operation.stage is Stage.PART and len(operation.gives) > 1:
        yield Hazard.PARTED_AT_STOP
    match operation.kind:
        case Kind.SAND:
            yield from SANDING
        case Kind.COAT if making.finishing is not None:
            yield from finish_hazards(making.finishing.facts.family)
        case Kind.GLUE if making.gluing:
            yield from glue_hazards(making.gluing[0].glue.family)
        case Kind.EDGE_GLUE:
            yield from glue_hazards(making.edge_gluing[0].glue.family)
        case _:
            pass


def cautions_of_cuts(
    operations: Iterable[Operation], making: Making, piece: Piece, told_in: Mapping[Hazard, int]
) -> dict[Hazard, str]:
    """What the cuts of a step ask for; briefly, with the step that has it in full, where one has.

    Args:
        operations: of the step.
        making: that they are of.
        piece: that is made.
        told_in: the step in which a hazard was told in full.
    """
    asked = [each for each in hazards_of(operations, making) if each in OF_A_CUT]
    return {
        each: f"{OF_A_CUT[each]}, as in {told_in[each]}"
        if each in told_in
        else cautions_for([each], piece)[0]
        for each in asked
    }


def cautions_for(
    hazards: Iterable[Hazard], piece: Piece, told: Collection[Hazard] = ()
) -> tuple[str, ...]:
    """The cautions of hazards, each once, as sentences without their full stops.

    Args:
        hazards: of some work.
        piece: that is made: its unit, and how far hands stay from a cutter.
        told: what has been said already.
    """

    def show(mm: float) -> str:
        if piece.shown.is_inch:  # a hand keeps off by whole quarters of an inch, and rather more
            mm = math.ceil(mm / _QUARTER_MM - 1e-9) * _QUARTER_MM
        return figure_with_unit(mm, piece.shown)

    return tuple(
        caution(each, show, piece.rules) for each in dict.fromkeys(hazards) if each not in told
    )
