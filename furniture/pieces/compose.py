"""Parts in their places plus joints make a piece: every joint puts its cuts on both its parts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from furniture.errors import DesignError, Problem
from furniture.joints.faces import faces_as_cut
from furniture.joints.fit import Fit, in_this_shop
from furniture.joints.holding import driven_through
from furniture.joints.instead import joints_that_take
from furniture.joints.joint import Joining, Joint, Worked
from furniture.joints.relation import Apart, CannotMeet
from furniture.parts.cuts import Cut
from furniture.parts.part import Placed, misfits_of
from furniture.pieces.bought import Bought
from furniture.pieces.cut_faults import (
    cut_through_problems,
    eased_arris,
    profile_problems,
    taken_edge_problems,
)
from furniture.pieces.intent import Intent
from furniture.pieces.naming import own_name_problem
from furniture.pieces.piece import (
    Anchor,
    Finish,
    FixedBody,
    Note,
    Piece,
    Reference,
    Stance,
    StandingLoad,
    Surface,
)
from furniture.pieces.sharing import sharing_equal_parts
from furniture.rules import USUAL_RULES, Rules
from furniture.units import Shown, millimetres


def compose(
    *,
    name: str,
    placed: Sequence[Placed],
    joints: Sequence[Joint],
    shown: Shown | None = None,
    parameters: Mapping[str, Any] | None = None,
    loads: Sequence[StandingLoad] = (),
    fixed: Sequence[FixedBody] = (),
    surfaces: Sequence[Surface] = (),
    references: Sequence[Reference] = (),
    stance: Stance = Stance.FLOOR,
    notes: Sequence[Note] = (),
    fixings: Sequence[Bought] = (),
    finish: Finish | None = None,
    anchors: Sequence[Anchor] = (),
    intent: Intent | None = None,
    rules: Rules = USUAL_RULES,
    thicknesses: Mapping[str, float] | None = None,
) -> Piece:
    """The piece: joints worked in order, each seeing the cuts of those before it.

    Args:
        name: of the piece.
        placed: parts in their places with their own cuts; instance names are unique.
        joints: relations between instances, by name.
        shown: how lengths are shown; millimetres when left out.
        parameters: as given, for piece.json.
        loads: what stands on it.
        fixed: weights that stay where they are, such as ballast.
        surfaces: the level surfaces that carry loads.
        references: figures of the whole piece that its sheet shows.
        stance: whether it stands on the floor or hangs on a wall.
        notes: what the sheets say in words.
        fixings: what is bought besides what holds the joints.
        finish: what is put on the parts before they go together.
        anchors: what it is fixed to the wall by.
        intent: what the builder knows besides.
        rules: the shop's own limits, which every joint goes by.
        thicknesses: of instances as measured, by name, where not their stock's [mm].

    Raises:
        DesignError: with every problem of every joint and cut.
        Exception: whatever a joint raises that is not `CannotMeet`, with the joint's name noted.
    """
    shown = shown or millimetres()
    placed = [_as_thick(each, (thicknesses or {}).get(each.instance)) for each in placed]
    standing = {each.instance: each for each in placed}
    problems = list(_name_problems(placed, joints))
    if problems:
        raise DesignError(problems)
    made: list[Worked] = []
    joinings: list[Joining] = []
    for joint in joints:
        into, incoming = standing[joint.into], standing[joint.incoming]
        try:
            worked = _by_rules(joint, rules).work(into, incoming)
        except CannotMeet as error:
            problems.append(_or_instead(_cannot(joint, str(error)), into, incoming))
            continue
        except Exception as error:  # a mistake of the joint's author: theirs to see whole
            error.add_note(f"while working the {joint.kind} of {joint.incoming} in {joint.into}")
            raise
        for draft in worked.problems:
            told, is_apart = draft.told(shown), isinstance(draft, Apart)
            problems.append(_or_instead(told, into, incoming) if is_apart else told)
        driven = driven_through(joint.driven, worked.joining.faces, into, incoming)
        held = (*worked.joining.fasteners, *driven)
        joinings.append(replace(worked.joining, fasteners=held))
        if any(isinstance(draft, Apart) for draft in worked.problems):
            continue  # what it would cut is told by the parts' places alone
        standing[joint.into] = _with_cuts(into, worked.into_cuts)
        standing[joint.incoming] = _with_cuts(incoming, worked.incoming_cuts)
        if not worked.problems:
            made.append(worked)
    for each in standing.values():
        misfits = misfits_of(each.part, shown)
        problems.extend(misfits or cut_through_problems(each, shown, rules))
        problems.extend(taken_edge_problems(each))
    problems.extend(profile_problems(standing, made))
    if problems:
        raise DesignError(dict.fromkeys(problems))
    return Piece(
        name=name,
        shown=shown,
        parameters=parameters or {},
        placed=sharing_equal_parts([_profiles_last(each) for each in standing.values()]),
        joinings=tuple(_as_cut(each, standing) for each in joinings),
        loads=tuple(loads),
        fixed=tuple(fixed),
        surfaces=tuple(surfaces),
        references=tuple(references),
        stance=stance,
        notes=tuple(notes),
        fixings=tuple(fixings),
        finish=finish,
        anchors=tuple(anchors),
        intent=intent or Intent(),
        rules=rules,
    )


def _as_thick(placed: Placed, thickness_mm: float | None) -> Placed:
    """The instance as thick as it was measured: its face side is the datum and stays in place."""
    if thickness_mm is None:
        return placed
    blank, placement = placed.part.blank, placed.placement
    low = (0.0, 0.0, blank.thickness_mm - thickness_mm)
    return replace(
        placed,
        part=replace(placed.part, blank=replace(blank, thickness_mm=thickness_mm)),
        placement=replace(placement, origin=placement.to_piece(low)),
    )


def _as_cut(joining: Joining, standing: Mapping[str, Placed]) -> Joining:
    """The joining with its faces as all joints and profiles have left them."""
    faces = faces_as_cut(joining.faces, standing[joining.into], standing[joining.incoming])
    return replace(joining, faces=faces)


def _with_cuts(placed: Placed, cuts: tuple[Cut, ...]) -> Placed:
    """The instance with the cuts that it does not have yet."""
    new = tuple(cut for cut in cuts if cut not in placed.part.cuts)
    if not new:
        return placed
    return replace(placed, part=replace(placed.part, cuts=placed.part.cuts + new))


def _profiles_last(placed: Placed) -> Placed:
    """Profiles are run when all else is cut."""
    cuts = sorted(placed.part.cuts, key=lambda cut: eased_arris(cut, placed) is not None)
    return replace(placed, part=replace(placed.part, cuts=tuple(cuts)))


def _name_problems(placed: Sequence[Placed], joints: Sequence[Joint]) -> list[Problem]:
    names = [each.instance for each in placed]
    known = ", ".join(dict.fromkeys(names))
    problems = []
    for index, name in enumerate(names):
        problem = own_name_problem("placed parts", name, names[:index], "part")
        problems += [] if problem is None else [problem]
    if not names:
        problems.append(
            Problem(
                parameter="placed parts",
                given="no part",
                allowed="at least one",
                why="a piece is made of parts",
                remedy="place a part",
            )
        )
    for joint in joints:
        for end in (joint.into, joint.incoming):
            if end not in names:
                problems.append(
                    Problem(
                        parameter=f"{joint.kind} joint",
                        given=repr(end),
                        allowed=known or "none",
                        why="a joint is between two placed parts",
                        remedy="name a part that is placed",
                    )
                )
    return problems


def _or_instead(problem: Problem, into: Placed, incoming: Placed) -> Problem:
    """The problem with the joints that take the two as they stand, where there are any."""
    names = joints_that_take(into, incoming)
    if not names:
        turned = [
            f'join({name}, "{into.instance}", into="{incoming.instance}")'
            for name in joints_that_take(incoming, into)
        ]
        if not turned:
            return problem
        return replace(problem, remedy=f"{problem.remedy}: {turned[0]} takes them as they stand")
    listed = " or ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return replace(problem, remedy=f"{problem.remedy}: {listed} takes them as they stand")


def _cannot(joint: Joint, why: str) -> Problem:
    return Problem(
        parameter=f"{joint.kind} of {joint.incoming} in {joint.into}",
        given="parts as they stand",
        allowed="parts that stand as this joint needs them",
        why=why,
        remedy="turn or move one of them, or choose another joint",
    )


def _by_rules(joint: Joint, rules: Rules) -> Joint:
    """The joint by the shop's own limits, and with the play that a slip fit has there."""
    fit = getattr(joint, "fit", None)
    own: dict[str, Any] = {"fit": in_this_shop(fit, rules)} if isinstance(fit, Fit) else {}
    return replace(joint, rules=rules, **own)
