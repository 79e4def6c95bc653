"""Load cases: empty, loaded as stated, one load alone at its worst place, lifted, pushed."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import combinations

from furniture.joints.joint import Role
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, dot, length, scaled
from furniture.pieces import Piece, StandingLoad, Surface, placed_named
from furniture.rules.bearing import MOST_CARRIED, MOST_SWING, STEP_TIMES
from furniture.structure.frame import Frame, held_by_hand
from furniture.structure.links import Link
from furniture.structure.rigid import Push
from furniture.units.gravity import GRAVITY_M_S2

LEVEL_WAYS: tuple[tuple[str, Vector], ...] = (
    ("to the left", (-1.0, 0.0, 0.0)),
    ("to the right", (1.0, 0.0, 0.0)),
    ("to the front", (0.0, -1.0, 0.0)),
    ("to the back", (0.0, 1.0, 0.0)),
)
SWAY_N = 5.0
"""The push whose greatest multiple is looked for [N]; fifty times it is far beyond any other."""


class Standing(Enum):
    """What bears the piece in a case."""

    ON_ITS_FEET = "standing"
    LIFTED = "lifted"
    ON_THE_WALL = "hanging"
    PUSHED = "pushed sideways"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One state of the piece: what bears it, what pulls at it, in a maker's words.

    `pushes` are the loads whose greatest multiple is looked for, `dead` those that stay.
    """

    told: str
    standing: Standing
    ground: tuple[Link, ...]
    pushes: tuple[Push, ...]
    dead: tuple[Push, ...] = ()


def cases_of(piece: Piece, frame: Frame) -> tuple[Case, ...]:
    """Every case that a piece must bear as it is stated.

    Args:
        piece: with its loads, its surfaces and what lies fixed in it
        frame: of the piece
    """
    own = _own(piece, frame)
    ground = frame.floor or frame.wall
    how = Standing.ON_ITS_FEET if frame.floor else Standing.ON_THE_WALL
    found = [Case(told=f"{how.value}, empty", standing=how, ground=ground, pushes=own)]
    stated = tuple(_on(piece, frame, load, _middle(piece, load)) for load in piece.loads)
    if stated:
        found.append(
            Case(told=f"{how.value}, loaded", standing=how, ground=ground, pushes=own + stated)
        )
    for load in piece.loads:
        for place, at in _edges(piece, load):
            push = _on(piece, frame, load, at)
            told = f"{how.value}, {load.name} alone at the {place} of {load.on}"
            found.append(Case(told=told, standing=how, ground=ground, pushes=(*own, push)))
    hands = lifted_by(piece, frame)
    if hands:
        told = f"{Standing.LIFTED.value} ({' and '.join(hands)})"
        held = held_by_hand(frame, tuple(frame.body(name) for name in hands))
        carried = own + _inside(piece, frame, stated, hands)
        if len(hands) == 1:
            carried = hung_straight(carried, placed_named(piece, hands[0]), piece.rules[MOST_SWING])
        found.append(Case(told=told, standing=Standing.LIFTED, ground=held, pushes=carried))
    return tuple(found)


def pushes_of(piece: Piece, frame: Frame, body: int) -> tuple[Case, ...]:
    """A push sideways at the middle of a part, each of the four ways; none for what hangs.

    Args:
        piece: with what lies fixed in it
        frame: of the piece
        body: the index of the part that is pushed
    """
    if not frame.floor:
        return ()
    own = _own(piece, frame)
    return tuple(_swayed(frame, own, body, way, told) for told, way in LEVEL_WAYS)


def shoves_of(piece: Piece, frame: Frame, person: StandingLoad) -> tuple[Case, ...]:
    """A push sideways where a person is, each of the four ways, with his weight there.

    None for what hangs.

    Args:
        piece: with what lies fixed in it
        frame: of the piece
        person: one of its loads
    """
    weight = _on(piece, frame, person, _middle(piece, person), times=1.0)
    return tuple(
        replace(
            case,
            told=f"{case.told}, with {person.name}",
            dead=(*case.dead, weight),
            pushes=tuple(replace(each, at=weight.at) for each in case.pushes),
        )
        for case in pushes_of(piece, frame, weight.body)
    )


def lifted_by(piece: Piece, frame: Frame) -> tuple[str, ...]:
    """What hands take: two opposite rails of a rim, or the highest part of what has none.

    A box without feet stands on its own bottom, so only a lifted one shows what holds it.
    """
    if not frame.floor:
        return ()
    rails = dict.fromkeys(each.into for each in piece.joinings if each.role is Role.RIM)
    pairs = []
    for one, other in combinations(rails, 2):
        first, second = placed_named(piece, one), placed_named(piece, other)
        if dot(first.placement.z_axis, second.placement.z_axis) < -0.9:
            here, there = (
                _middle_of(box_of(each.part.blank, each.placement)) for each in (first, second)
            )
            pairs.append((abs(here[0] - there[0]), (one, other)))
    if pairs:
        return max(pairs, key=lambda each: each[0])[1]
    joined = {name for each in piece.joinings for name in (each.into, each.incoming)}
    highest = sorted(
        (name for name in frame.names if name in joined),
        key=lambda name: -frame.masses[frame.body(name)].centre_mm[2],
    )
    return tuple(highest[:1])


def hung_straight(pushes: tuple[Push, ...], handle: Placed, most_swing: float) -> tuple[Push, ...]:
    """The weights once the piece has swung under its handle, across the handle's length.

    Args:
        pushes: weights, straight down
        handle: the part by which it hangs
        most_swing: how far aside the weight may lie, beside its drop
    """
    total = math.fsum(-each.force_n[2] for each in pushes)
    if total <= 0.0:
        return pushes
    blank = handle.part.blank
    grip = handle.placement.to_piece(
        (blank.length_mm / 2.0, blank.width_mm / 2.0, blank.thickness_mm / 2.0)
    )
    x, y, z = (
        math.fsum(-each.force_n[2] * each.at[axis] for each in pushes) / total for axis in range(3)
    )
    along = handle.placement.x_axis
    aside = (grip[0] - x, grip[1] - y, 0.0)
    swing = add(aside, scaled(along, -dot(aside, along)))
    if abs(along[2]) > 0.1 or length(swing) > most_swing * (grip[2] - z):
        return pushes
    return tuple(replace(each, at=add(each.at, swing)) for each in pushes)


def _inside(
    piece: Piece, frame: Frame, stated: tuple[Push, ...], hands: tuple[str, ...]
) -> tuple[Push, ...]:
    """Loads that are carried along: those below the hands, where the whole is light enough."""
    whole = sum(
        [each.mass_kg for each in frame.masses]
        + [each.mass_kg for each in piece.loads]
        + [each.mass_kg for each in piece.fixed]
    )
    top = max(frame.masses[frame.body(name)].centre_mm[2] for name in hands)
    if whole > piece.rules[MOST_CARRIED]:
        return ()
    return tuple(push for push in stated if push.at[2] < top)


def _middle_of(box: Box) -> Vector:
    low, high = box
    return tuple((low[axis] + high[axis]) / 2.0 for axis in range(3))  # type: ignore[return-value]


def _own(piece: Piece, frame: Frame) -> tuple[Push, ...]:
    """Own weight of every part, and of what lies fixed in the piece on the part that bears it."""
    weights = [
        Push(body=index, at=mass.centre_mm, force_n=(0.0, 0.0, -GRAVITY_M_S2 * mass.mass_kg))
        for index, mass in enumerate(frame.masses)
    ]
    for body in piece.fixed:
        weights.append(
            Push(
                body=frame.body(body.on),
                at=body.centre_mm,
                force_n=(0.0, 0.0, -GRAVITY_M_S2 * body.mass_kg),
            )
        )
    return tuple(weights)


def _on(
    piece: Piece, frame: Frame, load: StandingLoad, at: Vector, times: float | None = None
) -> Push:
    if times is None:
        times = piece.rules[STEP_TIMES] if load.kind.is_person else 1.0
    return Push(
        body=frame.body(load.on), at=at, force_n=(0.0, 0.0, -times * GRAVITY_M_S2 * load.mass_kg)
    )


def _surface(piece: Piece, load: StandingLoad) -> Surface:
    return next(each for each in piece.surfaces if each.instance == load.on)


def _middle(piece: Piece, load: StandingLoad) -> Vector:
    surface = _surface(piece, load)
    return (
        (surface.low[0] + surface.high[0]) / 2.0,
        (surface.low[1] + surface.high[1]) / 2.0,
        surface.top_mm,
    )


def _edges(piece: Piece, load: StandingLoad) -> Iterator[tuple[str, Vector]]:
    """The load's middle at the four corners that its footprint allows, and at the front."""
    surface = _surface(piece, load)
    spans = []
    for axis in range(2):
        half = load.footprint_mm[axis] / 2.0
        low, high = surface.low[axis] + half, surface.high[axis] - half
        middle = (surface.low[axis] + surface.high[axis]) / 2.0
        spans.append((min(low, middle), max(high, middle)))
    places: Sequence[tuple[str, float, float]] = (
        ("front left corner", spans[0][0], spans[1][0]),
        ("front right corner", spans[0][1], spans[1][0]),
        ("back left corner", spans[0][0], spans[1][1]),
        ("back right corner", spans[0][1], spans[1][1]),
    )
    for told, x, y in places:
        yield told, (x, y, surface.top_mm)


def _swayed(frame: Frame, own: tuple[Push, ...], body: int, way: Vector, told: str) -> Case:
    """A frame of hinges folds under such a push long before it tips."""
    push = Push(body=body, at=frame.masses[body].centre_mm, force_n=scaled(way, SWAY_N))
    return Case(
        told=f"{Standing.PUSHED.value} {told} at {frame.names[body]}",
        standing=Standing.PUSHED,
        ground=frame.floor,
        pushes=(push,),
        dead=own,
    )
