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
    """A hole; by hand with its size and depth, which else the rig and its set-up say.

    Args:
        setting: of the pass.
        face: what the face is called that it goes into.
        name: what a face of the wood is called.
        shown: how lengths are shown.
        lie: how the wood lies.
        by_hand: whether no machine is set for it.
    """
    along = 1 if setting.off[0] in WIDE_FACES else 0
    along = 1 - setting.beside if setting.face in WIDE_FACES else along
    off = name(setting.off[along])
    mouth = f", countersunk to {dialled(setting.mouth_mm, shown)}" if setting.mouth_mm > 0.0 else ""
    size = f" {dialled(setting.diameter_mm, shown)}" if by_hand else ""
    is_deep = by_hand and setting.depth_mm is not None
    deep = f" {dialled(setting.depth_mm or 0.0, shown)} deep" if is_deep else ""
    verb = "drill" if setting.to_mm is None else "rout"
    what = f"{verb}{size}{deep} into {{on}}{mouth}"
    if setting.depth_mm is None:
        what = f"{verb}{size} through {{on}}{mouth}"
    at_mm = setting.at_mm[along]
    at = figure_among_words(at_mm, shown)
    if setting.to_mm is not None:
        at = f"{at} to {figure_among_words(setting.to_mm[along], shown)}"
    return Told(
        what=what,
        placement=placement,
        at=at,
        at_mm=at_mm,
        at_end=f"from the {off}",
        on=f"the {face}",
    )
