"""A stand in the middle of its making, and what can be asked of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from furniture.job.done import Done, whole
from furniture.job.figures import Figure, measurables_of
from furniture.job.standing import Stands, stands
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named


def figure(piece: Piece, key: str) -> tuple[Figure, ...]:
    """What a key of the job file means."""
    return next(each.figures for each in measurables_of(piece) if each.key == key)


def done(piece: Piece, names: Sequence[str]) -> Done:
    """These parts, done."""
    return {name: whole(placed_named(piece, name).part) for name in names}


def measured(
    design: Any,
    given: Mapping[str, float | tuple[float, float]],
    parts: Sequence[str] = (),
    free: Mapping[str, str] | None = None,
) -> Stands:
    """The design as what is measured, by the job file's keys, and what is done leaves it."""
    piece = design.build()
    figures = {}
    for key, value in given.items():
        values = value if isinstance(value, tuple) else (value,)
        figures |= dict(zip(figure(piece, key), values, strict=True))
    return stands(design, figures, done(piece, parts), free)


def size(piece: Piece, instance: str) -> tuple[float, float, float]:
    """Length, width and thickness of an instance [mm]."""
    length, width, thickness = placed_named(piece, instance).part.blank.size
    return length, width, thickness
