"""What is wrong with the cuts of a part as a whole, each of which fits its blank alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from furniture.errors import Problem
from furniture.joints.hidden import hidden_by, is_taken
from furniture.joints.joint import Worked
from furniture.parts.cuts import Cut, Eased, shapes_of
from furniture.parts.edge_names import edge_names, written
from furniture.parts.faces import Arris
from furniture.parts.part import Placed
from furniture.parts.wood import cut_through
from furniture.rules import USUAL_RULES, Rules
from furniture.rules.staying import LEAST_WOOD
from furniture.units import Shown
from furniture.units.limits import at_least_text


def eased_arris(cut: Cut, placed: Placed) -> Arris | None:
    """The arris that the cut takes off along its whole run; None where it does something else."""
    return next((each.arris for each in shapes_of((cut,), placed.part.blank, Eased)), None)


def profile_problems(standing: Mapping[str, Placed], worked: Sequence[Worked]) -> list[Problem]:
    """Every profile on an edge that a joint hides.

    Args:
        standing: the parts with all their cuts, by instance.
        worked: all joints of theirs that can be made.
    """
    shaped = {
        name: [
            (cut, arris) for cut in each.part.cuts for arris in [eased_arris(cut, each)] if arris
        ]
        for name, each in standing.items()
    }
    problems = []
    for joint in worked:
        names = (joint.joining.into, joint.joining.incoming)
        if not any(shaped[name] for name in names):
            continue
        into, incoming = (_unshaped(standing[name]) for name in names)
        for name, hidden in zip(names, hidden_by(joint, into, incoming), strict=True):
            problems += [
                Problem(
                    parameter=f"{name}: {cut.name} on {_as_written(arris, standing[name])}",
                    given="an edge inside a joint",
                    allowed="edges that stay in the open",
                    why="a profile there would spoil the joint's fit",
                    remedy="take this edge out of the profile",
                )
                for cut, arris in shaped[name]
                if arris in hidden
            ]
    return problems


def _as_written(arris: Arris, placed: Placed) -> str:
    return written(arris, edge_names(placed.placement))


def _unshaped(placed: Placed) -> Placed:
    """The part with all its cuts but profiles."""
    cuts = tuple(cut for cut in placed.part.cuts if eased_arris(cut, placed) is None)
    return replace(placed, part=replace(placed.part, cuts=cuts))


def taken_edge_problems(placed: Placed) -> list[Problem]:
    """Every profile on an edge that other cuts have taken whole: there is no line to shape.

    Args:
        placed: the part with all its cuts.
    """
    blank, cuts = placed.part.blank, placed.part.cuts
    others = [cut for cut in cuts if eased_arris(cut, placed) is None]
    return [
        Problem(
            parameter=f"{placed.instance}: {cut.name} on {_as_written(arris, placed)}",
            given="an edge that other cuts take away",
            allowed="edges of which some is left",
            why="there is no wood to shape",
            remedy="take this edge out of the profile",
        )
        for cut in cuts
        for arris in [eased_arris(cut, placed)]
        if arris is not None and is_taken(arris, blank, others)
    ]


def cut_through_problems(placed: Placed, shown: Shown, rules: Rules = USUAL_RULES) -> list[Problem]:
    """Every two cuts that meet from opposite sides, so that they cut the part through.

    Args:
        placed: the part with all its cuts, each of which fits its blank.
        shown: the piece's unit.
        rules: the maker's.
    """
    blank, cuts = placed.part.blank, placed.part.cuts
    return [
        Problem(
            parameter=f"{placed.instance}: {' and '.join(cut_in_words(cuts, at) for at in pair)}",
            given="two cuts that meet inside the part",
            allowed=f"{at_least_text(rules[LEAST_WOOD], shown)} of wood between them, or more",
            why="together they cut it through: no wood is left",
            remedy=f"make one of them {at_least_text(rules[LEAST_WOOD] - met.wood_mm, shown)} "
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
