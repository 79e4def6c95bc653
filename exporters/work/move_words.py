"""How what goes together is moved home, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from exporters.work.names import counted_woods
from furniture.assembly import Step
from furniture.parts.ways import way_in_words
from furniture.pieces.in_rows import named_in
from furniture.pieces.piece import Piece, placed_named

_NAMED = 3
"""Of more that move as one it is plainer to name the largest."""


def moves_in_words(piece: Piece, moves: Sequence[Step]) -> Iterator[str]:
    """Which way each comes home; what follows the same way is told together.

    Args:
        piece: that goes together.
        moves: one after another.
    """
    runs: list[tuple[str, list[tuple[str, ...]]]] = []
    for step in moves:
        way = way_in_words(step.direction)
        if step.before is not None:
            way = f"{way_in_words(step.before.way)}, then {way}"
        way = f"{way} onto {step.onto[0]}" if len(step.moving) > len(step.onto) == 1 else way
        if runs and runs[-1][0] == way:
            runs[-1][1].append(step.moving)
        else:
            runs.append((way, [step.moving]))
    if runs:
        yield "; ".join(f"{_in_turn(piece, moving)} {way}" for way, moving in runs)


def _in_turn(piece: Piece, moving: Sequence[tuple[str, ...]]) -> str:
    """What goes home one after another, in order."""
    turns: list[str] = []
    for is_one, group in groupby(moving, key=lambda names: len(names) == 1):
        if is_one:
            turns.append(_one_by_one(piece, [name for (name,) in group]))
        else:
            turns += [_together(piece, names) for names in group]
    return ", then ".join(turns)


def _together(piece: Piece, names: Sequence[str]) -> str:
    if len(names) <= _NAMED:
        return f"{counted_woods(piece, names)} as one"
    largest = max(names, key=lambda each: placed_named(piece, each).part.blank.volume_mm3)
    return f"{largest}, with all that is joined to it,"


def _one_by_one(piece: Piece, names: Sequence[str]) -> str:
    """Single parts one after another: like parts and rows together, others in order."""
    ids = {each.instance: each.part.name for each in piece.placed}
    rows = {each.text: each.in_row for each in named_in(piece, names)}
    turns: list[list[str]] = []
    for name in names:
        last = turns[-1][-1] if turns else ""
        before, own = rows.get(last), rows[name]
        is_next = before and own and own == (before[0], before[1] + 1)
        if turns and (is_next or ids.get(last) == ids.get(name)):
            turns[-1].append(name)
        else:
            turns.append([name])
    if len(turns) == 1 or all(each.in_row for each in named_in(piece, names)):
        return counted_woods(piece, names)
    return ", then ".join(counted_woods(piece, turn) for turn in turns)
