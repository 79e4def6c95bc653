"""The table: every design, what is asked of the tool and what it tells.

python -m tests.hazards [ids or words of names ...]
"""

from __future__ import annotations

import sys
import traceback
from collections.abc import Iterable
from statistics import median

from furniture.checks.check import Verdict
from tests.hazards.dangers import DANGERS
from tests.hazards.rows import Danger, Sound
from tests.hazards.sound import SOUND
from tests.hazards.telling import Told, danger_is_told, sound_is_told, told_of_row


def _asked(row: Danger | Sound) -> str:
    if isinstance(row, Sound):
        return f"{row.fair.value} is fair; no fail, at most {row.cautions} cautions"
    names = ", ".join(each.name for each in row.subjects)
    refusal = f", or a refusal over its {row.refused_over}" if row.refused_over else ""
    return f"{row.least.value} or graver of: {names}{refusal}"


def _said(told: Told) -> Iterable[str]:
    for each in told.refused:
        yield f"refused: {each.parameter}: {each.why}"
    for verdict in (Verdict.FAIL, Verdict.CAUTION, Verdict.NOTE):
        for found in told.of_the_design(verdict):
            figure = "" if found.value is None else f" {found.value:.3g} {found.unit}"
            limit = "" if found.limit is None else f" (limit {found.limit:.3g})"
            yield f"{verdict.value}: {found.check.name}: {found.subject}{figure}{limit}"


def _line(row: Danger | Sound) -> tuple[bool, int]:
    """Print one row; whether it is met and its cautions of the design."""
    try:
        told = told_of_row(row)
    except Exception:  # a crash is a result like any other here
        print(f"CRASH {row.id} {row.name}\n    {traceback.format_exc(limit=-3)}", flush=True)
        return False, 0
    met = danger_is_told(row, told) if isinstance(row, Danger) else sound_is_told(row, told)
    print(f"{'ok   ' if met else 'MISS '} {row.id} {row.name}  [{told.seconds:.2f} s]")
    print(f"    asked: {_asked(row)}")
    for each in _said(told):
        print(f"    {each}")
    sys.stdout.flush()
    return met, len(told.of_the_design(Verdict.CAUTION))


def _table(rows: Iterable[Danger | Sound], what: str) -> None:
    found = [(row, *_line(row)) for row in rows]
    if not found:
        return
    missed = [row.id for row, met, _ in found if not met]
    cautions = median(count for _, _, count in found)
    print(
        f"== {what}: {len(found) - len(missed)} of {len(found)} as asked; "
        f"median of cautions {cautions:g}; not: {', '.join(missed) or 'none'}\n"
    )


def main(words: list[str]) -> None:
    """Print the table of all rows, or of those that are named."""

    def wanted(row: Danger | Sound) -> bool:
        return not words or any(
            word == row.id or word.lower() in row.name.lower() for word in words
        )

    _table([row for row in DANGERS if wanted(row)], "dangers")
    _table([row for row in SOUND if wanted(row)], "sound")


if __name__ == "__main__":
    main(sys.argv[1:])
