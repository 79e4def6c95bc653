"""What of a piece is done, and whether another design of it would still have it so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Cut, NoTurnedForm, record_of, shapes_of
from furniture.parts.part import Part, Placed, turned
from furniture.pieces import Piece

SAME_MM = 1e-5
"""Figures that are one: below it there is only the noise of reckoning [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneOf:
    """What of an instance is done: the sizes that it has for good, and its cuts by their place.

    Args:
        axes: of finished sizes; 0 length, 1 width, 2 thickness.
        cuts: in its part's list.
        is_whole: whether nothing is left to be cut on it.
        is_told: whether the maker names it as made from first to last; what shows on no figure,
            such as a fit that was tried, is done with it then.
    """

    axes: frozenset[int]
    cuts: frozenset[int]
    is_whole: bool = True
    is_told: bool = False


Done = Mapping[str, DoneOf]
"""What is done, by instance; one that is not begun stands not in it."""


def whole(part: Part) -> DoneOf:
    """A part that is told to be made from first to last."""
    return DoneOf(axes=frozenset(range(3)), cuts=frozenset(range(len(part.cuts))), is_told=True)


def begun_cuts(done: Done) -> frozenset[tuple[str, int]]:
    """The cuts that are made, by instance and place in its part's list."""
    return frozenset((name, index) for name, of in done.items() for index in of.cuts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A done size that a design would have otherwise [mm]."""

    instance: str
    axis: int
    was_mm: float
    now_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutMoved:
    """A done cut that a design would have otherwise: its figures that differ, was and now [mm].

    `deeper_mm` is how much deeper than the design would have it a channel is sunk.
    """

    instance: str
    kind: str
    figures: tuple[tuple[str, float, float], ...] = ()
    deeper_mm: float = 0.0


Disturbed = Moved | CutMoved


def disturbed(
    done: Done, was: Piece, now: Piece, measured: Mapping[tuple[str, int], float]
) -> tuple[Disturbed, ...]:
    """What of the done work the design `now` would have otherwise than it was made by `was`.

    Args:
        done: what is done.
        was: the piece that it was made by.
        now: another design.
        measured: sizes that came out otherwise [mm], by instance and part axis: those are as they
            are, and what was struck from the face beyond may have moved with it.
    """
    parts = {each.instance: each.part for each in now.placed}
    found: list[Disturbed] = []
    for each in was.placed:
        if each.instance not in done or each.instance not in parts:
            continue
        of, name = done[each.instance], each.instance
        free = {axis for axis in range(3) if (name, axis) in measured}
        shifts = [measured[name, axis] - each.part.blank.size[axis] for axis in sorted(free)]
        sizes = zip(each.part.blank.size, parts[name].blank.size, strict=True)
        found += [
            Moved(instance=name, axis=axis, was_mm=before, now_mm=after)
            for axis, (before, after) in enumerate(sizes)
            if axis in of.axes - free and abs(after - before) > SAME_MM
        ]
        cuts = [each.part.cuts[index] for index in sorted(of.cuts)]
        lost: list[Disturbed] = min(_lost(each, cuts, parts[name], shifts), key=len)
        found += lost
    return tuple(found)


def _lost(
    was: Placed, cuts: Sequence[Cut], part: Part, shifts: Sequence[float]
) -> list[list[Disturbed]]:
    """The cuts that a part has not, as it lies and after each half turn that it can be told in."""
    found: list[list[Disturbed]] = []
    for axis in (None, 0, 1, 2):
        try:
            there = part.cuts if axis is None else turned(part, axis).cuts
        except NoTurnedForm:
            continue
        left = list(there)
        lost: list[Cut] = []
        for cut in cuts:
            twin = next((each for each in left if not _apart(cut, each, shifts)), None)
            if twin is not None:
                left.remove(twin)
            else:
                lost.append(cut)
        found.append([_told(was, cut, left, shifts) for cut in lost])
    return found


def is_other_cut(one: Cut, two: Cut) -> bool:
    """Whether two cuts differ in any of their figures."""
    return bool(_apart(one, two, ()))


def _apart(one: Cut, two: Cut, shifts: Sequence[float]) -> dict[str, tuple[object, object]]:
    """The figures in which two cuts differ; one that moved with a measured face is the same."""
    first, second = record_of(one), record_of(two)
    keys = first.keys() | second.keys()
    return {
        key: (first.get(key), second.get(key))
        for key in sorted(keys)
        if not _is_same(first.get(key), second.get(key), shifts)
    }


def _is_same(one: object, two: object, shifts: Sequence[float]) -> bool:
    if isinstance(one, (int, float)) and isinstance(two, (int, float)):
        return any(abs(two - one - shift) <= SAME_MM for shift in (0.0, *shifts))
    return one == two


def _told(was: Placed, cut: Cut, left: Sequence[Cut], shifts: Sequence[float]) -> CutMoved:
    """The cut that is lost, with the figures that the likest one left has otherwise."""
    alike = [(_apart(cut, each, shifts), each) for each in left]
    known = [each for each in alike if "kind" not in each[0]]
    apart, likest = min(known, key=lambda each: _how_far(each[0]), default=({}, cut))
    figures = tuple(
        (figure, before, after)
        for figure, (before, after) in apart.items()
        if isinstance(before, float) and isinstance(after, float)
    )
    deeper = _sunk_mm(cut, was.part.blank) - _sunk_mm(likest, was.part.blank)
    return CutMoved(instance=was.instance, kind=cut.kind, figures=figures, deeper_mm=deeper)


def _sunk_mm(cut: Cut, blank: Blank) -> float:
    """How deep a channel is; 0 of what is none [mm]."""
    return sum(each.depth_mm(blank) for each in shapes_of([cut], blank, Channel))


def _how_far(apart: Mapping[str, tuple[object, object]]) -> tuple[int, float]:
    """In how many figures two cuts differ, and by how much in all."""
    pairs = [pair for pair in apart.values() if all(isinstance(each, float) for each in pair)]
    return len(apart), sum(abs(now - was) for was, now in pairs)  # type: ignore[operator]
