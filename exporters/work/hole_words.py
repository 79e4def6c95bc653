"""Bores and long holes in a maker's words: how wide and deep, into which face, where."""

from __future__ import annotations

from collections.abc import Callable

from exporters.work.lines import PlacementWords, Told
from furniture.making.settings import Bored
from furniture.parts.faces import WIDE_FACES, Face
from furniture.units import Shown, dialled, figure_among_words


def bored_in_words(
    setting: Bored,
    face: str,
    name: Callable[[Face], str],
    shown: Shown,
    placement: PlacementWords,
    by_hand: bool,
) -> Told:
    """A hole; by hand with its size, its depth and how far in it lies, which else the rig and its
    set-up say.

    Args:
        setting: of the pass.
        face: what the face is called that it goes into.
        name: what a face of the wood is called.
        shown: how lengths are shown.
        lie: how the wood lies.
        by_hand: whether no machine is set for it.
    """
    along = 1 if setting.off[0] in WIDE_FACES else 0
    if setting.face in WIDE_FACES and not by_hand:
        along = 1 - setting.beside
    off = name(setting.off[along])
    mouth = f", countersunk to {dialled(setting.mouth_mm, shown)}" if setting.mouth_mm > 0.0 else ""
    size = f" {dialled(setting.diameter_mm, shown)}" if by_hand else ""
    is_deep = by_hand and setting.depth_mm is not None
    deep = f" {dialled(setting.depth_mm or 0.0, shown)} deep" if is_deep else ""
    verb = "drill" if setting.to_mm is None else "rout"
    verb, size = ("cut a slot", f"{size} wide") if by_hand and setting.to_mm else (verb, size)
    beside = f", {_beside(setting, 1 - along, name, shown)}," if by_hand else ""
    what = f"{verb}{size}{deep} into {{on}}{mouth}{beside}"
    if setting.depth_mm is None:
        what = f"{verb}{size} through {{on}}{mouth}{beside}"
    at_mm = setting.at_mm[along]
    at = _place(setting, along, shown)
    return Told(
        what=what,
        placement=placement,
        at=at,
        at_mm=at_mm,
        at_end=f"from the {off}",
        on=f"the {face}",
    )


def _place(setting: Bored, axis: int, shown: Shown) -> str:
    """Where its centre lies, or both of a long hole that runs this way."""
    at = figure_among_words(setting.at_mm[axis], shown)
    if setting.to_mm is None or setting.to_mm[axis] == setting.at_mm[axis]:
        return at
    return f"{at} to {figure_among_words(setting.to_mm[axis], shown)}"


def _beside(setting: Bored, axis: int, name: Callable[[Face], str], shown: Shown) -> str:
    """How far off the other face it lies, for which no fence is set."""
    is_long = setting.to_mm is not None and setting.to_mm[axis] != setting.at_mm[axis]
    place = _place(setting, axis, shown)
    return f"{f'from {place}' if is_long else place} off the {name(setting.off[axis])}"
