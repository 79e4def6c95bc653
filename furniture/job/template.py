"""A job file to fill in: every key that this piece has, each with its designed figure."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence

from furniture.job.figures import ALONG, Figure, Measurable, Of, measurables_of
from furniture.job.worked import in_batch
from furniture.pieces import Piece
from furniture.shop.boards.given import MeasuredBoard
from furniture.units import dialled

_HEAD = """\
# The job: {name}. Take the # off a line and fill it in; --job FILE goes on from there.
# The folder of the packet that you work by; steps and cuts have their numbers from it.
# packet = {packet}

[done]
# Parts that are cut and fitted, each by its name:
# parts = [{parts}]
# Parts that split, or were cut wrong, and have to be made again, whatever was done to them:
# spoilt = [{spoilt}]
# Steps that are ticked on the work sheets of that packet, by their numbers there:
# steps = [{steps}]
# The mark of that work, as its first work sheet says it, or without one the sheets of the boards;
# should the packet be written anew, then its numbers, cuts of boards among them, are not taken for
# these:
# work = [{works}]
# Or single operations, by their number n in its work.csv:
# operations = [{numbers}]

# What you measured, in place of the designed figure that stands here:
[measured]
"""
_FREE = """
# Which length of the script gives for a figure that was measured or is done, if not the one that
# changes the least; a run names those that could, to be written here as it names them:
[free]
# {figure} = "..."

"""
_BOARD = """\
# [boards.{name}]
# cuts = 3                     # of its sheet are made
# length = "..."               # or measured anew, as it is now
# width = "..."
# zones = [{{ what = "check", x = "...", y = "...", length = "...", width = "..." }}]
"""


def no_words(piece: Piece, figure: Figure) -> str:
    """Nothing more than the key of a gap, where nobody names faces."""
    return ""


def job_template(
    name: str,
    pieces: Mapping[str, Piece],
    packet: str,
    boards: Sequence[MeasuredBoard] = (),
    between: Callable[[Piece, Figure], str] = no_words,
) -> str:
    """The text of a job file in which nothing is done yet.

    Args:
        name: of the whole.
        pieces: as they are designed, each by the mark of its copy in a batch; one alone by none.
        packet: that the job is worked by, from where the job file stands.
        boards: as the script lists them.
        between: what tells between which faces a gap is measured.
    """
    parts, lines, steps, works, numbers = [], [], [], [], []
    for mark, piece in pieces.items():
        parts += [_quoted(in_batch(mark, each.instance)) for each in piece.placed]
        lines += [_line(mark, each, piece, between) for each in measurables_of(piece)]
        steps += [_quoted(in_batch(mark, "1 to 3"))]
        works += [_quoted(in_batch(mark, "..."))]
        numbers += [_quoted(in_batch(mark, "1")) if mark else "1, 2, 3"]
    if boards and "" not in pieces:
        works.insert(0, _quoted("..."))
    told = [_BOARD.format(name=_quoted(each.name)) for each in boards]
    head = _HEAD.format(name=name, packet=json.dumps(packet), parts=", ".join(parts),
                        spoilt=parts[0], steps=", ".join(steps), works=", ".join(works),
                        numbers=", ".join(numbers))  # fmt: skip
    mark, piece = next(iter(pieces.items()))
    size = Figure(instance=piece.placed[0].instance, axis=ALONG)
    free = _FREE.format(figure=_quoted(in_batch(mark, size.key)))
    return head + "\n".join(lines) + "\n" + free + "\n".join(told)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _line(
    mark: str, each: Measurable, piece: Piece, between: Callable[[Piece, Figure], str]
) -> str:
    shown = piece.shown
    figures = [  # a fraction that is not exact cannot be read back: its decimal can
        json.dumps(f"{dialled(value, shown).figures[-1]} {shown.unit.symbol}")
        for value in each.designed_mm
    ]
    value = figures[0] if len(figures) == 1 else f"[{', '.join(figures)}]"
    told = [between(piece, figure) for figure in each.figures if figure.of is Of.GAP]
    where = "".join(f"  # {each}" for each in told if each)
    return f"# {_quoted(in_batch(mark, each.key))} = {value}{where}"
