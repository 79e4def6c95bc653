"""What changed, on the screen before anything else: short, worst first."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.revision.against import Against
from exporters.revision.in_the_work import NOWHERE, InTheWork
from exporters.revision.words import WORST_FIRST, Told, told_of
from furniture.job import Say, Verdict
from furniture.pieces import Piece

_COUNTED = {
    Say.MAKE_NEW: "to make new",
    Say.RECUT: "to recut from other wood",
    Say.TRIM: "to trim or cut again",
    Say.NOT_NEEDED: "not needed any more",
    Say.NOT_CUT: "not cut yet, to make by new sheets",
    Say.AS_IS: "as they are",
}


def change_lines(against: Against, piece: Piece, work: InTheWork = NOWHERE) -> list[str]:
    """The count of each verdict, then every part that is not as it was, with what to do.

    Args:
        against: the earlier packet.
        piece: the new design.
        work: in whose set-ups it is trimmed.
    """
    told = told_of(against.verdicts, piece, work)
    counts = {
        say: sum(len(each.instances) for each in told if each.say is say) for say in WORST_FIRST
    }
    heading = ", ".join(f"{count} {_COUNTED[say]}" for say, count in counts.items() if count)
    lines = [f"Against {against.named}: {heading}"]
    return lines + [_line(each) for each in told if each.say is not Say.AS_IS or each.how]


def verdict_lines(
    verdicts: Sequence[Verdict], piece: Piece, work: InTheWork = NOWHERE
) -> list[str]:
    """A line for each verdict, those alike together, worst first.

    Args:
        verdicts: on some parts.
        piece: the design now.
        work: in whose set-ups it is trimmed.
    """
    return [_line(each) for each in told_of(verdicts, piece, work)]


def _line(told: Told) -> str:
    """One line of a part: what to do, and why."""
    said = f"{', '.join(told.instances)}: {told.say.value}"
    how = "; ".join(told.how)
    why = "; ".join(told.why)
    return f"  {said}" + (f": {how}" if how else "") + (f" ({why})" if why else "")
