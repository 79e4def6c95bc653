"""What comes off one length of wood still, where some that was laid there is given up."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from furniture.blanks import CommonBlank, common_blanks, runs_round_corners
from furniture.pieces import Piece


def lengths_left(piece: Piece, laid: Collection[frozenset[str]]) -> frozenset[frozenset[str]]:
    """The lengths that are in hand, by the instances that come off each.

    One from whose middle a part is given up is two. Of parts too small to be held, only those
    beside the wood that is left on to hold them by go on as a length.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        laid: what was laid on one length, by instances.
    """
    there = piece.done | piece.in_hand
    blanks = _blanks(piece)
    return frozenset(
        run for names in laid for run in _runs(names, there, blanks) if len(run) > 1
    )  # fmt: skip


def beside(piece: Piece, laid: Collection[frozenset[str]]) -> Mapping[str, tuple[str, ...]]:
    """What lay next to each part on its length, and is in hand: nobody where it lay by itself.

    Args:
        piece: that knows which parts are done, and whose wood is in hand.
        laid: what was laid on one length, by instances.
    """
    there = piece.done | piece.in_hand
    found: dict[str, tuple[str, ...]] = {}
    for blank in _blanks(piece):
        for names in laid:
            row = [each for each in blank.instances if each in names]
            for at, name in enumerate(row):
                near = (*row[max(0, at - 1) : at], *row[at + 1 : at + 2])
                found[name] = tuple(each for each in near if each in there)
    return found


def _blanks(piece: Piece) -> tuple[CommonBlank, ...]:
    return common_blanks(piece, runs_round_corners(piece), kerf_mm=0.0)  # only their order is read


def _runs(
    names: frozenset[str], there: frozenset[str], blanks: Sequence[CommonBlank]
) -> Iterator[frozenset[str]]:
    """What hangs together of a length."""
    if names <= there:
        yield names
        return
    for blank in blanks:
        if not names.issubset(blank.instances):
            continue
        run: list[str] = []
        row = [each for each in blank.instances if each in names]
        for name in row:
            if name in there:
                run.append(name)
                continue
            if not blank.held_mm:
                yield frozenset(run)
            run = []
        yield frozenset(run)
