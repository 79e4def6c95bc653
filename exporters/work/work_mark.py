"""What tells the numbers of one work from those of another: a short mark on its sheets."""

from __future__ import annotations

import hashlib

from exporters.work.steps import steps_of
from furniture.making.making import Making
from furniture.making.settings import Slice

_LETTERS = 4
"""Two works of one piece have the same mark once in 65,000 times. Own rule."""


def work_mark(making: Making) -> str:
    """The mark of a making: another one as soon as a number means another operation or board cut.

    Args:
        making: whose steps, operations and cuts of boards are numbered.
    """
    steps = {one.key: each.number for each in steps_of(making) for one in each.operations}
    told = [
        (number, steps[each.key], each.key, _sawn_at(each.setting) if each.is_rough else "")
        for number, each in enumerate(making.operations, start=1)
    ]
    return hashlib.sha256(repr(told).encode()).hexdigest()[:_LETTERS]


def _sawn_at(setting: object) -> str:
    return f"{setting.at_mm:.1f}" if isinstance(setting, Slice) else ""
