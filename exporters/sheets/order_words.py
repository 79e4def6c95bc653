"""The order of assembly in a maker's words, read off the plan, the joints and the glue-ups.

What is to be done after a step is read off the model too: ends that are trimmed last, and faces
that stand proud of the part beside them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from exporters.sheets.letters import letter_of
from furniture.assembly.values import AssemblyPlan, Step
from furniture.joints.joint import Joining
from furniture.making.glue_ups.flush import LeftLong, left_long_of, proud_of
from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Vector, dot
from furniture.parts.ways import way_in_words
from furniture.pieces.piece import Piece
from furniture.units import figure_with_unit

_SQUARE = 0.999
_SIDES: dict[Vector, str] = {
    LEFT: "left side", RIGHT: "right side", FRONT: "front", BACK: "back", DOWN: "underside",
    UP: "top",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """Joints of one kind that a step closes: with what, how, and whether glue is brushed on."""

    onto: tuple[str, ...]
    joint: str
    is_glued: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One step: what moves, which way, what it closes, and what comes after it."""

    number: int
    moving: str
    way: str
    closings: tuple[Closing, ...]
    after: tuple[str, ...]


def works_of(piece: Piece, plan: AssemblyPlan) -> tuple[Work, ...]:
    """The plan's steps in words, in their order.

    Args:
        piece: what goes together.
        plan: its order.
    """
    letters = _letters(plan)
    after = _after(piece, plan, letters)
    return tuple(
        Work(
            number=index + 1,
            moving=_moving(step, letters),
            way=_way(step),
            closings=tuple(_closings(step, piece.joinings)),
            after=tuple(after.get(index, ())),
        )
        for index, step in enumerate(plan.steps)
    )


def _letters(plan: AssemblyPlan) -> dict[frozenset[str], str]:
    """A letter for each sub-assembly, in the order in which they are put in."""
    groups = (frozenset(step.moving) for step in plan.steps if len(step.moving) > 1)
    return {group: letter_of(index) for index, group in enumerate(dict.fromkeys(groups))}


def _moving(step: Step, letters: dict[frozenset[str], str]) -> str:
    if len(step.moving) == 1:
        return step.moving[0]
    return f"sub-assembly {letters[frozenset(step.moving)]} ({', '.join(step.moving)})"


def _way(step: Step) -> str:
    last = way_in_words(step.direction)
    return last if step.before is None else f"{way_in_words(step.before.way)}, then {last}"


def _closings(step: Step, joinings: tuple[Joining, ...]) -> Iterator[Closing]:
    """The joints of the step, like ones together; what meets without a joint is named too."""
    groups: dict[tuple[str, bool], list[str]] = {}
    for joining in joinings:
        if (joining.into, joining.incoming) not in step.joints:
            continue
        still = joining.incoming if joining.into in step.moving else joining.into
        key = (_joint_in_words(joining), joining.glue_area_mm2 > 0.0)
        groups.setdefault(key, []).append(still)
    for (joint, is_glued), onto in groups.items():
        yield Closing(onto=tuple(dict.fromkeys(onto)), joint=joint, is_glued=is_glued)
    if not groups:
        yield Closing(onto=step.onto, joint="no joint", is_glued=False)


def _joint_in_words(joining: Joining) -> str:
    count = sum(each.is_glued for each in joining.fasteners)
    return f"{joining.kind}, {count} dowels" if count > 1 else joining.kind


def _after(
    piece: Piece, plan: AssemblyPlan, letters: dict[frozenset[str], str]
) -> dict[int, list[str]]:
    """By step, what is done once it is home."""
    found: dict[int, list[str]] = {}
    for index, step in enumerate(plan.steps):
        letter = letters.get(frozenset((*step.moving, *step.onto)))
        if letter is not None:
            found.setdefault(index, []).append(f"this is sub-assembly {letter}")
    said = (*_to_fix(piece, plan), *_to_plane(piece, plan), *_to_trim(piece, plan))
    for index, words in said:
        found.setdefault(index, []).append(words)
    return found


def _to_fix(piece: Piece, plan: AssemblyPlan) -> Iterator[tuple[int, str]]:
    """Pins and screws that hold a joint once it is home, and weights that go in with a part."""
    yield from _to_drive(piece, plan)
    weights = {body.name for body in piece.fixed}
    for thing in piece.fixings:
        named = set(thing.where)
        if len(named) > 1:
            holds = [
                index
                for index, step in enumerate(plan.steps)
                if any(named.issuperset(pair) for pair in step.joints)
            ]
            if holds:
                plural = "s" if thing.quantity > 1 else ""
                yield max(holds), f"fix it with {thing.quantity} {thing.name}{plural}"
        elif thing.name in weights:
            carries = (
                index for index, step in enumerate(plan.steps) if named & {*step.moving, *step.onto}
            )
            yield next(carries, 0), f"in with it: {thing.name}"


def _to_drive(piece: Piece, plan: AssemblyPlan) -> Iterator[tuple[int, str]]:
    """What is driven through joints that a step closes, like things of one part together."""
    driven: dict[tuple[str, str], list[int]] = {}
    for joining in piece.joinings:
        pair = (joining.into, joining.incoming)
        at = next((index for index, step in enumerate(plan.steps) if pair in step.joints), None)
        for fastener in joining.fasteners:
            if at is not None and not fastener.is_glued:
                driven.setdefault((joining.incoming, fastener.name), []).append(at)
    for (_, name), places in driven.items():
        count = len(places)
        yield (
            max(places),
            f"fix it with {count} {name}{'s' if count > 1 else ''}",
        )


def _to_plane(piece: Piece, plan: AssemblyPlan) -> Iterator[tuple[int, str]]:
    """Faces that stand a little proud of a joined part, told when the last of them is in."""
    proud: dict[tuple[str, Vector, float], list[tuple[int, str]]] = {}
    for each in proud_of(piece):
        at = max(
            index
            for index, step in enumerate(plan.steps)
            if any({each.high, each.low} == set(pair) for pair in step.joints)
        )
        proud.setdefault((each.low, each.side, round(each.by_mm, 3)), []).append((at, each.high))
    for (low, side, by), places in proud.items():
        names = list(dict.fromkeys(name for _, name in places))
        stands = "it stands" if len(names) == 1 else "they stand"
        yield (
            max(index for index, _ in places),
            f"plane the {_SIDES[side]} of {', '.join(names)} flush with {low}: {stands} "
            f"{figure_with_unit(by, piece.shown)} proud",
        )


def _to_trim(piece: Piece, plan: AssemblyPlan) -> Iterator[tuple[int, str]]:
    """Ends that stay long until what they wait for is home, like ones together."""
    groups: dict[str, list[LeftLong]] = {}
    for each in left_long_of(piece):
        groups.setdefault(_end_in_words(each), []).append(each)
    for words, ends in groups.items():
        steps = [
            index
            for index, step in enumerate(plan.steps)
            if any(each.waits_for & set(step.joints) for each in ends)
        ]
        if steps:
            yield max(steps), f"trim {words} of {' and '.join(each.instance for each in ends)}"


def _end_in_words(left: LeftLong) -> str:
    return "the top" if dot(left.way, UP) > _SQUARE else f"the {left.end.value}"
