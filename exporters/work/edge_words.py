"""Notches in edges and profiles on sharp lines in a maker's words."""

from __future__ import annotations

from collections.abc import Callable

from exporters.work.lines import OWN, PlacementWords, Told
from furniture.making.operations import Axis, InHand
from furniture.making.settings import Easing, Notched, Slice
from furniture.parts.faces import ENDS, WIDE_FACES, Face
from furniture.units import Shown, dialled, figure_among_words

_SAME_MM = 0.05
NameOf = Callable[[Face], str]
"""What a face of the wood in hand is called."""


def resawn_in_words(setting: Slice, off: str, shown: Shown) -> Told:
    """A saw right through a thickness.

    Args:
        setting: of the pass.
        off: what the face is called that it is measured from.
        shown: how lengths are shown.
    """
    left = figure_among_words(setting.at_mm, shown)
    return Told(
        what=f"resaw: a line all round {left} off the {off}, sawn along it in the vice or at a "
        "band saw; what comes off is an offcut"
    )


def notched_in_words(
    setting: Notched,
    name: NameOf,
    shown: Shown,
    placement: PlacementWords,
    bores: int,
    fitted: InHand | None = None,
    or_to: str = "",
) -> Told:
    """A bite out of an edge or an end.

    In wood that is cut to what was measured one at a corner goes round what stands there; one
    between the corners keeps its size.

    Args:
        setting: of the pass.
        name: what a face is called.
        shown: how lengths are shown.
        placement: how the wood lies.
        bores: how many of them have left its inner corners round.
        fitted: the wood in hand, where it is cut to what was measured.
        or_to: follows a figure that is another in such wood.
    """
    edge, off = name(setting.edge), name(setting.off)
    long, deep = dialled(setting.length_mm, shown), dialled(setting.depth_mm, shown)
    radius = f"R{dialled(setting.corner_mm, shown)}"
    left = f"{radius} inside"
    if bores:
        left = f"down to its hole, which leaves {radius}"
    if bores > 1:
        left = f"down to its holes, which leave {radius}"
    corners = f" {left}," if setting.corner_mm else ""
    follows = "" if setting.near_mm else or_to
    size = f"{OWN} long and {deep} deep{follows},{corners}"
    if setting.near_mm:
        at = _place_in_words(setting, off, shown, fitted, or_to)
        return Told(
            what=f"notch {{on}}, {size}",
            own=str(long),
            placement=placement,
            at=at,
            on=f"the {edge}",
        )
    ends = (2, "both ends")  # where it lies at an end, or is cut into one
    if setting.off in ENDS:
        what, on = f"notch the {edge}, {size} at {{on}}", f"the {off}"
        return Told(what=what, own=str(long), placement=placement, on=on, every=ends)
    what = f"notch {{on}}, {size} at the {off}"
    every = ends if setting.edge in ENDS else None
    return Told(what=what, own=str(long), placement=placement, on=f"the {edge}", every=every)


def _place_in_words(
    setting: Notched, off: str, shown: Shown, fitted: InHand | None, or_to: str
) -> str:
    """Where a notch between the corners lies: from the middle of fitted wood where it is there."""
    at = f"from {dialled(setting.near_mm, shown)} off the {off}"
    if fitted is None:
        return at
    is_along = setting.off in ENDS
    whole = fitted.length_mm if is_along else fitted.width_mm
    if abs(setting.near_mm + setting.length_mm / 2.0 - whole / 2.0) > _SAME_MM:
        return f"{at}{or_to}"
    return f"in the middle of its {(Axis.LENGTH if is_along else Axis.WIDTH).value} as it is"


def eased_in_words(setting: Easing, name: NameOf, shown: Shown, placement: PlacementWords) -> Told:
    """A sharp line rounded over or chamfered.

    Args:
        setting: of the pass.
        name: what a face is called.
        shown: how lengths are shown.
        lie: how the wood lies.
    """
    first, second = setting.arris.first, setting.arris.second
    size = dialled(setting.size_mm, shown)
    verb = f"round over to radius {size}" if setting.is_round else f"chamfer {size}"
    if first not in WIDE_FACES:
        return Told(
            what=verb, placement=placement, at=f"where {name(first)} and {name(second)} meet"
        )
    return Told(what=f"{verb} the {name(first)} of", placement=placement, at=name(second))
