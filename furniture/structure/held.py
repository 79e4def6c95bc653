"""Held or not: one answer for all parts, by the faces and fasteners that their joints state.

First without strengths: what no face, glue or fastener opposes comes out. What only play opposes
is captured: it rattles and stays. Then with strengths: by which factor, and what gives. Then with
the glue gone, on end grain alone and everywhere, since glue is what a maker cannot see.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.parts.vectors import length
from furniture.pieces import Piece
from furniture.structure.capacity import Carries
from furniture.structure.cases import Case, pushes_of
from furniture.structure.frame import Frame
from furniture.structure.links import Link
from furniture.structure.rigid import MOST, Motion, motion_of, strength_of


class State(Enum):
    """Which glue is counted on."""

    AS_GLUED = "as glued"
    NO_END_GRAIN = "without glue on end grain"
    NO_END_HOLD = "without glue, screws and nails in end grain"
    HINGED = "with hinges for what loosens"
    """Without end-grain glue and without the pull of nails and screws that no glue helps: what a
    frame has left once it has been rocked (makers count such joints as hinges)."""
    DRY = "without glue"


_LEFT_OUT = {
    State.AS_GLUED: frozenset[Carries](),
    State.NO_END_GRAIN: frozenset({Carries.END_GLUE}),
    State.NO_END_HOLD: frozenset({Carries.END_GLUE, Carries.END_PULL}),
    State.HINGED: frozenset({Carries.END_GLUE, Carries.END_PULL, Carries.PULL}),
    State.DRY: frozenset(
        {Carries.SIDE_GLUE, Carries.END_GLUE, Carries.MITRE_GLUE, Carries.GLUED_PULL}
    ),
}


LEAST = 1e-3
"""A thousandth of the loads or less is not held [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What the statics say of one case in one state.

    `motion` is how it comes apart, None where it is held; `is_captured` says that only play lets
    it go so far. `factor` is the greatest multiple of the loads that holds, 0 where nothing does,
    and `gives` the places of the joints that give there.
    """

    case: Case
    state: State
    motion: Motion | None
    is_captured: bool
    factor: float
    gives: tuple[int, ...]
    forces: tuple[float, ...] | None
    links: tuple[Link, ...]

    @property
    def is_held(self) -> bool:
        """Whether it stays together, be it with play."""
        return self.motion is None or self.is_captured


def held_in(frame: Frame, case: Case, state: State = State.AS_GLUED) -> Held:
    """Whether the piece stays together in a case, by which factor, and what gives first.

    Args:
        frame: of the piece
        case: what bears it and what pulls at it
        state: which glue counts
    """
    acting = [each for each in frame.links if each.carries not in _LEFT_OUT[state]]
    tight = [each for each in acting if each.play_mm == 0.0]
    found = _strong(frame, case, state, tight, None)
    if found is not None:
        return found
    motion = motion_of(frame, (*tight, *case.ground), (*case.dead, *case.pushes))
    if motion is not None:
        found = _strong(frame, case, state, acting, motion)
        if found is not None:
            return found
    return Held(
        case=case, state=state, motion=motion, is_captured=False, factor=0.0, gives=(),
        forces=None, links=(),
    )  # fmt: skip


def _strong(
    frame: Frame, case: Case, state: State, acting: Sequence[Link], motion: Motion | None
) -> Held | None:
    """What the links bear, or None where they bear nothing: a factor above none says that it holds.

    It is asked before any motion is looked for, since nearly every case of a sound piece is held.
    """
    links = (*acting, *case.ground)
    strength = strength_of(frame, links, case.pushes, case.dead)
    if strength.factor <= LEAST:
        return None
    return Held(
        case=case, state=state, motion=motion, is_captured=motion is not None,
        factor=min(strength.factor, MOST), gives=strength.gives, forces=strength.forces,
        links=links,
    )  # fmt: skip


def pushed_n(frame: Frame, case: Case, state: State = State.AS_GLUED) -> float:
    """The push [N] at which a piece gives way in a case that pushes it.

    Args:
        frame: of the piece
        case: one that has one push
        state: which glue counts
    """
    return held_in(frame, case, state).factor * sum(length(each.force_n) for each in case.pushes)


def without_hung(frame: Frame, case: Case, state: State) -> tuple[Frame, Case]:
    """The frame and the case without what bears nothing and hangs by what a state leaves out.

    A cleat drops off its loosened screws, and what it bore may rest on the rest: that it falls is
    no fold. What stands on the ground, is pushed, or bears more than itself stays.

    Args:
        frame: of the piece
        case: one whose `dead` loads stay
        state: which glue counts
    """
    bodies = range(len(frame.names))
    carried = {each: {link.carries for link in frame.links if each in (link.first, link.second)}
               for each in bodies}  # fmt: skip
    loads = [each.body for each in case.dead]
    needed = {each.body for each in case.pushes} | {
        body for link in case.ground for body in (link.first, link.second)
    }
    hung = {
        each
        for each in bodies
        if each not in needed
        and loads.count(each) <= 1
        and carried[each] & _LEFT_OUT[state]
        and not carried[each] & _LEFT_OUT[State.DRY] - _LEFT_OUT[state]
    }
    links = tuple(each for each in frame.links if not hung & {each.first, each.second})
    dead = tuple(each for each in case.dead if each.body not in hung)
    return replace(frame, links=links), replace(case, dead=dead)


def rests_on(frame: Frame, state: State) -> bool:
    """Whether anything of a frame is left out in a state.

    Args:
        frame: of the piece
        state: which glue counts
    """
    return any(each.carries in _LEFT_OUT[state] for each in frame.links)


def stands_in(frame: Frame, case: Case, state: State) -> bool:
    """Whether a piece bears what stays of a case, with nobody pushing.

    Args:
        frame: of the piece
        case: one whose `dead` loads stay
        state: which glue counts
    """
    return held_in(frame, replace(case, pushes=case.dead, dead=()), state).is_held


def push_as_one_n(frame: Frame, case: Case) -> float:
    """The push [N] that tips the piece as one rigid body, in a case that pushes it.

    A piece that gives way at less folds, slides apart or breaks before it tips.

    Args:
        frame: of the piece
        case: one whose `dead` loads stay and that has one push
    """
    ground = tuple(replace(link, first=0) for link in case.ground)
    total = sum(mass.mass_kg for mass in frame.masses)
    whole = replace(
        frame,
        names=frame.names[:1],
        masses=(replace(frame.masses[0], mass_kg=total),),
        links=(),
    )
    dead = tuple(replace(each, body=0) for each in case.dead)
    pushes = tuple(replace(each, body=0) for each in case.pushes)
    strength = strength_of(whole, ground, pushes, dead)
    return strength.factor * sum(length(each.force_n) for each in case.pushes)


def highest_fixed(piece: Piece, frame: Frame, state: State = State.AS_GLUED) -> int | None:
    """The highest part that a push sideways does not simply take off, as it does a loose lid.

    None for what hangs on a wall.

    Args:
        piece: with what lies fixed in it
        frame: of the piece
        state: which glue counts
    """
    order = sorted(range(len(frame.names)), key=lambda each: -frame.masses[each].centre_mm[2])
    for body in order:
        pushed = [held_in(frame, case, state) for case in pushes_of(piece, frame, body)]
        if not pushed:
            return None
        if not any(each.motion and each.motion.moving == (body,) for each in pushed):
            return body
    return None
