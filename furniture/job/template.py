"""A job file to fill in: every key that this piece has, each with its designed figure."""

from __future__ import annotations

import json
from collections.abc import Sequence

from furniture.job.figures import Measurable, measurables_of
from furniture.pieces import Piece
from furniture.shop.boards.given import MeasuredBoard
from furniture.units import Shown, fitted_with_unit

_HEAD = """\
# The job: {name}. Take the # off a line and fill it in; --job FILE goes on from there.
# The folder of the packet that you work by; operations and cuts have their numbers from it.
# packet = {packet}

[done]
# Parts that are cut and fitted, each by its name:
# parts = [{parts}]
# Operations, by their number on the work sheets of that packet:
# operations = [1, 2, 3]

# What you measured, in place of the designed figure that stands here:
[measured]
"""
_FREE = """
# Which figure of the script gives for one that was measured or is done, if not the one that
# changes the least:
[free]
# "post.width" = "post_width"

"""
_BOARD = """\
# [boards.{name}]
# cuts = 3                     # of its sheet are made
# length = "..."               # or measured anew, as it is now
# width = "..."
# zones = [{{ what = "check", x = "...", y = "...", length = "...", width = "..." }}]
"""


def job_template(piece: Piece, packet: str, boards: Sequence[MeasuredBoard] = ()) -> str:
    """The text of a job file in which nothing is done yet.

    Args:
        piece: as it is designed.
        packet: that the job is worked by, from where the job file stands.
        boards: as the script lists them.
    """
    parts = ", ".join(json.dumps(each.instance, ensure_ascii=False) for each in piece.placed)
    lines = [_line(each, piece.shown) for each in measurables_of(piece)]
    told = [_BOARD.format(name=json.dumps(each.name, ensure_ascii=False)) for each in boards]
    head = _HEAD.format(name=piece.name, packet=json.dumps(packet), parts=parts)
    return head + "\n".join(lines) + "\n" + _FREE + "\n".join(told)


def _line(each: Measurable, shown: Shown) -> str:
    figures = [json.dumps(fitted_with_unit(value, shown)) for value in each.designed_mm]
    value = figures[0] if len(figures) == 1 else f"[{', '.join(figures)}]"
    return f"# {json.dumps(each.key, ensure_ascii=False)} = {value}"
