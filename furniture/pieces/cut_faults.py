"""What is wrong with the cuts of a part as a whole, each of which fits its blank alone."""

from __future__ import annotations

from collections.abc import Sequence, Set

from furniture.errors import Problem
from furniture.parts.cuts import Bite, Cut, Eased, shapes_of
from furniture.parts.faces import Arris
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.wood import cut_through
from furniture.rules.staying import LEAST_WOOD
from furniture.units import Shown
from furniture.units.limits import at_least_text

_INSIDE_MM = 1e-3


def eased_arris(cut: Cut, placed: Placed) -> Arris | None:
    """The arris that the cut takes off along its whole run; None where it does something else."""
    return next((each.arris for each in shapes_of((cut,), placed.part.blank, Eased)), None)


def profile_problems(placed: Placed, hidden: Set[Arris]) -> list[Problem]:
    """Every profile on an edge that a joint hides.

    Args:
        placed: the part with all its cuts.
        hidden: its arrises that lie inside joints.
    """
    return [
        Problem(
            parameter=f"{placed.instance}: {cut.name} on {arris.name}",
            given="an edge inside a joint",
            allowed="edges that stay in the open",
            why="a profile there would spoil the joint's fit",
            remedy="take this edge out of the profile",
        )
        for cut in placed.part.cuts
        for arris in [eased_arris(cut, placed)]
        if arris is not None and arris in hidden
    ]


def taken_edge_problems(placed: Placed) -> list[Problem]:
    """Every profile on an edge that notches have taken whole: there is no line to shape.

    Args:
        placed: the part with all its cuts.
    """
    blank, cuts = placed.part.blank, placed.part.cuts
    bites = [each.corners(blank) for each in shapes_of(cuts, blank, Bite)]
    return [
        Problem(
            parameter=f"{placed.instance}: {cut.name} on {arris.name}",
            given="an edge that a notch takes away",
            allowed="edges of which some is left",
            why="there is no wood to shape",
            remedy="take this edge out of the profile",
        )
        for cut in cuts
        for arris in [eased_arris(cut, placed)]
        if arris is not None and _is_taken(arris, placed, bites)
    ]


def _is_taken(arris: Arris, placed: Placed, bites: Sequence[Box]) -> bool:
    """Whether one notch holds the whole of an arris, just inside the wood."""
    blank, run = placed.part.blank, arris.run_axis
    low, high = [0.0, 0.0, 0.0], list(blank.size)
    for face in (arris.first, arris.second):
        at = blank.across(face) - _INSIDE_MM if face.is_far else _INSIDE_MM
        low[face.axis] = high[face.axis] = at
    low[run], high[run] = _INSIDE_MM, blank.size[run] - _INSIDE_MM
    return any(
        all(first[axis] <= low[axis] and high[axis] <= last[axis] for axis in range(3))
        for first, last in bites
    )


def cut_through_problems(placed: Placed, shown: Shown) -> list[Problem]:
    """Every two cuts that meet from opposite sides, so that they cut the part through.

    Args:
        placed: the part with all its cuts, each of which fits its blank.
        shown: the piece's unit.
    """
    blank, cuts = placed.part.blank, placed.part.cuts
    return [
        Problem(
            parameter=f"{placed.instance}: {' and '.join(cut_in_words(cuts, at) for at in pair)}",
            given="two cuts that meet inside the part",
            allowed=f"{at_least_text(LEAST_WOOD.value, shown)} of wood between them, or more",
            why="together they cut it through: no wood is left",
            remedy=f"make one of them {at_least_text(LEAST_WOOD.value - met.wood_mm, shown)} "
            "shallower, or move it clear of the other",
        )
        for met in cut_through(blank, cuts)
        for pair in [sorted({met.cut, met.other or 0})]
    ]


def cut_in_words(cuts: Sequence[Cut], index: int) -> str:
    """A cut by its name, and by its number where the part has more of them.

    Args:
        cuts: all cuts of the part, in order.
        index: which of them, from 0.
    """
    name = cuts[index].name
    alike = [at for at, cut in enumerate(cuts) if cut.name == name]
    return name if len(alike) == 1 else f"{name} {alike.index(index) + 1}"
