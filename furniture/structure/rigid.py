"""Is it held, and how strongly: two small linear programs over the forces in a frame's links.

Both ask for forces within the links' bounds that keep every body at rest. Where there are none,
the dual of the first program is the motion in which the piece comes apart; where there are, the
second finds the greatest multiple of the loads that the links still bear, and what gives first.
Friction is left out on purpose: soft friction "held" what would have folded, when it was tried.

**Source:** statics; the theorems of limit analysis (lower and upper bound, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array, eye_array, hstack

from furniture.parts.vectors import Vector, cross, subtract
from furniture.structure.frame import Frame
from furniture.structure.links import GROUND, Link
from furniture.structure.programs import INFEASIBLE, solved

MOST = 50.0
"""The greatest multiple of a load that is looked for [-]: beyond it nothing is worth knowing."""
AT_REST = 1e-5
"""A force left over of less than this share of all loads counts as none [-].

In the dual this is a small price on every motion, so that what no load drives stays still."""
ARM_MM = 200.0
"""Moments are divided by this arm [mm], so that they weigh like forces in the programs."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """A force on a body at a point, piece frame [mm, N]."""

    body: int
    at: Vector
    force_n: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """How a piece that is not held comes apart: what moves and which way its middle goes.

    `moving` are the bodies that go, those that go farthest first; `way` is the unit vector of the
    first one's middle, all zeros where it only turns.
    """

    moving: tuple[int, ...]
    way: Vector
    ways: Mapping[int, Vector]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """The greatest multiple of the loads that is held, and what gives there.

    `gives` are the places of the joints whose limits are reached, the most telling first; `forces`
    are the forces in the links at the loads themselves [N], None where these are not held.
    """

    factor: float
    gives: tuple[int, ...]
    motion: Motion | None
    forces: tuple[float, ...] | None


def motion_of(frame: Frame, links: Sequence[Link], pushes: Sequence[Push]) -> Motion | None:
    """The motion in which the piece comes apart under these loads, or None where it is held.

    Strengths are left out: what can pull at all pulls without limit.

    Args:
        frame: the bodies
        links: those that act, the ground's among them
        pushes: the loads
    """
    balance, loads = _balance(frame, links), _loads(frame, pushes)
    total = float(np.abs(loads).sum())
    if total == 0.0:
        return None
    rows = loads.size
    slack = eye_array(rows, format="csr")
    bounds = [
        *(_unlimited(link) for link in links),
        *[(0.0, None)] * (2 * rows),
        *[(-AT_REST, AT_REST)] * rows,
    ]
    answer = solved(
        np.concatenate([np.zeros(len(links)), np.ones(2 * rows), np.zeros(rows)]),
        A_eq=hstack([balance, slack, -slack, slack], format="csr"),
        b_eq=-loads / total,
        bounds=bounds,
    )
    if answer.fun <= AT_REST:
        return None
    return _motion(frame, -np.asarray(answer.eqlin.marginals))


def strength_of(
    frame: Frame, links: Sequence[Link], pushes: Sequence[Push], dead: Sequence[Push] = ()
) -> Strength:
    """The greatest multiple of the loads that the links bear.

    Args:
        frame: the bodies
        links: those that act, the ground's among them
        pushes: the loads that are multiplied
        dead: those that stay as they are
    """
    balance, loads = _balance(frame, links), _loads(frame, pushes)
    standing = _loads(frame, dead)
    scale = float(np.abs(loads).sum() + np.abs(standing).sum()) or 1.0
    column = csr_array(loads[:, None] / scale)
    bounds = [
        (
            None if math.isinf(link.least_n) else link.least_n / scale,
            None if math.isinf(link.most_n) else link.most_n / scale,
        )
        for link in links
    ]
    answer = solved(
        np.concatenate([np.zeros(len(links)), [-1.0]]),
        A_eq=hstack([balance, column], format="csr"),
        b_eq=-standing / scale,
        bounds=[*bounds, (0.0, MOST)],
    )
    if answer.status == INFEASIBLE:  # not even the loads that stay are held
        return Strength(factor=0.0, gives=(), motion=None, forces=None)
    factor = float(answer.x[-1])
    return Strength(
        factor=factor,
        gives=_giving(links, answer),
        motion=_motion(frame, -np.asarray(answer.eqlin.marginals)) if factor < MOST else None,
        forces=tuple(float(each) * scale for each in answer.x[:-1]) if factor > 0.0 else None,
    )


def _unlimited(link: Link) -> tuple[float | None, float | None]:
    return (0.0 if link.least_n >= 0.0 else None, 0.0 if link.most_n <= 0.0 else None)


def _balance(frame: Frame, links: Sequence[Link]) -> csr_array:
    """Rows: three forces and three moments about each body's centre; columns: the links."""
    bodies = np.array([(link.first, link.second) for link in links], dtype=int).reshape(-1, 2)
    ways = np.array([link.direction for link in links]).reshape(-1, 3)
    at = np.array([link.at for link in links]).reshape(-1, 3)
    centres = np.array([mass.centre_mm for mass in frame.masses]).reshape(-1, 3)
    blocks = []
    for body, sign in ((bodies[:, 0], 1.0), (bodies[:, 1], -1.0)):
        columns = np.flatnonzero(body != GROUND)
        held, way = body[columns], ways[columns]
        turning = np.cross(at[columns] - centres[held], way) / ARM_MM
        blocks.append(
            (
                sign * np.hstack([way, turning]).ravel(),
                (6 * held[:, None] + np.arange(6)).ravel(),
                np.repeat(columns, 6),
            )
        )
    values, rows, columns = (np.concatenate(each) for each in zip(*blocks, strict=True))
    acts = values != 0.0
    shape = (6 * len(frame.names), len(links))
    return csr_array((values[acts], (rows[acts], columns[acts])), shape=shape)


def _loads(frame: Frame, pushes: Sequence[Push]) -> Floats:
    loads = np.zeros(6 * len(frame.names))
    for push in pushes:
        if push.body == GROUND:
            continue
        arm = subtract(push.at, frame.masses[push.body].centre_mm)
        loads[6 * push.body : 6 * push.body + 3] += push.force_n
        loads[6 * push.body + 3 : 6 * push.body + 6] += np.array(cross(arm, push.force_n)) / ARM_MM
    return loads


def _motion(frame: Frame, dual: Floats) -> Motion | None:
    """The bodies that move in the dual, by how far they go: it is a virtual motion."""
    speeds = dual.reshape(-1, 6)
    slid, turned = np.abs(speeds[:, :3]), np.abs(speeds[:, 3:])
    reach = np.maximum(slid.max(axis=1, initial=0.0), turned.max(axis=1, initial=0.0))
    if reach.size == 0 or reach.max() <= 1e-9:
        return None
    order = np.argsort(-reach, kind="stable")
    moving = tuple(int(i) for i in order if reach[i] > 0.5 * reach.max())
    ways = {index: _unit(speeds[index, :3]) for index in moving}
    return Motion(moving=moving, way=ways[moving[0]], ways=ways)


def _unit(speed: Floats) -> Vector:
    size = float(np.linalg.norm(speed))
    if size < 1e-6:
        return (0.0, 0.0, 0.0)
    return (float(speed[0]) / size, float(speed[1]) / size, float(speed[2]) / size)


def _giving(links: Sequence[Link], answer: object) -> tuple[int, ...]:
    """The joints whose limits decide, by how much each decides."""
    lower = np.asarray(answer.lower.marginals)  # type: ignore[attr-defined]
    upper = np.asarray(answer.upper.marginals)  # type: ignore[attr-defined]
    weight: dict[int, float] = {}
    for index, link in enumerate(links):
        if link.joining is None:
            continue
        deciding = 0.0
        if not math.isinf(link.most_n):
            deciding += abs(upper[index]) * abs(link.most_n)
        if not math.isinf(link.least_n):
            deciding += abs(lower[index]) * abs(link.least_n)
        if deciding > 1e-12:
            weight[link.joining] = weight.get(link.joining, 0.0) + deciding
    return tuple(sorted(weight, key=lambda each: -weight[each]))
