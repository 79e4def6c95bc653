"""Parts drawn apart along the plan of assembly, each as far as lets every part be seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import shapely
from numpy.typing import NDArray

from exporters.views.explode import place_of
from exporters.views.opening import Shifts
from exporters.views.values import ViewFrame
from furniture.assembly.values import AssemblyPlan, Step
from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, cross, length, scaled, subtract

_STILL: Vector = (0.0, 0.0, 0.0)
_STEPS = 40
_FARTHEST = 1.6
_GAP = 0.05
"""Own rules, as shares of the piece's largest size: tried travels go this far, in so many steps,
and a joint stands open by at least the gap."""
_MUCH_HIDDEN = 0.4
_COST_OF_MUCH, _COST_OF_PARTNER, _COST_OF_TRAVEL, _COST_OF_PAPER = 8.0, 6.0, 0.3, 1.5
"""What hiding a share of a part costs beside travelling the piece's size, or a sheet that much
larger. Own rule."""
_UNEVEN = 1.0
"""So much better parts must show before like parts travel unlike ways. Own rule."""
_SHEET = 0.7
"""The short side of a sheet by its long side, nearly."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """The way from a part drawn apart to the part it is pushed home to, in space [mm].

    `points` are its ends, and the knee between them when the move has two legs.
    """

    moving: str
    still: str
    points: tuple[Vector, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """How far each part is moved, the legs along which they go home, and how good it looks.

    `cost` falls as less is hidden and less travelled; it is none for a piece drawn whole.
    """

    shifts: Shifts
    legs: tuple[Leg, ...]
    cost: float


def drawn_apart(
    placed: Sequence[Placed], joinings: Sequence[Joining], plan: AssemblyPlan, frame: ViewFrame
) -> Apart:
    """Every step of the plan undone by a straight travel, sub-assemblies drawn apart too.

    Steps that push one part each onto the same part, the same way, travel alike. Each travel is
    the one that costs least: hidden outlines against length. A box round a blank stands for it.

    Args:
        placed: the parts in their places.
        joinings: the piece's joints.
        plan: the order of assembly, which names every part of `placed`.
        frame: how they are looked at, in the piece frame.
    """
    bench = _Bench(placed, frame)
    names = bench.names
    shifts: Shifts = dict.fromkeys(names, _STILL)
    legs: list[Leg] = []
    cost = 0.0
    for run in _runs(plan.steps):
        for step in run:
            base = add(_base(step, shifts), _knee(step))
            shifts |= {name: add(shifts[name], base) for name in step.moving}
        together = _undone(bench, [run], shifts)
        singly = _undone(bench, [[step] for step in run], shifts) if len(run) > 1 else together
        shifts, worst = singly if singly[1] < together[1] - _UNEVEN else together
        for step in run:
            legs += _legs(step, joinings, shifts)
        cost += worst
    return Apart(shifts=shifts, legs=tuple(_with_ends(legs, shifts)), cost=cost)


class _Bench:
    """Outlines on paper and boxes of the parts in their places, in the order of their names."""

    def __init__(self, placed: Sequence[Placed], frame: ViewFrame) -> None:
        self.frame = frame
        self.names = [each.instance for each in placed]
        self.number = {name: index for index, name in enumerate(self.names)}
        self.boxes = [box_of(each.part.blank, each.placement) for each in placed]
        self.outlines = np.array([_outline(each, frame) for each in placed], dtype=object)
        self._bounds = shapely.bounds(self.outlines)
        low = np.min([box[0] for box in self.boxes], axis=0)
        high = np.max([box[1] for box in self.boxes], axis=0)
        self.size = float(np.max(high - low))

    def hidden(self, rows: Sequence[int], others: Sequence[int], shifts: Shifts) -> _Hidden:
        """What parts in `rows` hide of `others`, and the other way round, as they are shifted."""
        ahead, beside = self._on_paper(rows, shifts), self._on_paper(others, shifts)
        first_boxes = self._bounds[list(rows)] + np.tile(ahead, 2)
        other_boxes = self._bounds[list(others)] + np.tile(beside, 2)
        found: dict[tuple[int, int], float] = {}
        seen: set[tuple[int, int]] = set()
        for i, j in np.argwhere(_meet(first_boxes, other_boxes)):
            first, second = rows[i], others[j]
            pair = (min(first, second), max(first, second))
            if first == second or pair in seen:
                continue
            seen.add(pair)
            flat = {
                first: _shifted(self.outlines[first], ahead[i]),
                second: _shifted(self.outlines[second], beside[j]),
            }
            shared = float(shapely.area(shapely.intersection(flat[first], flat[second])))
            if shared <= 0.0:
                continue
            moved = {index: _moved(self.boxes[index], shifts[self.names[index]]) for index in pair}
            for behind in _behind(pair, moved, self.frame.towards_eye):
                front = pair[0] if behind == pair[1] else pair[1]
                found[(front, behind)] = shared / float(flat[behind].area)
        return found

    def sheet(self, rows: Sequence[int], shifts: Shifts) -> float:
        """The long side of the smallest sheet that would hold the parts as shifted [mm]."""
        corners = self._bounds[list(rows)] + np.tile(self._on_paper(rows, shifts), 2)
        wide, high = corners[:, 2:].max(axis=0) - corners[:, :2].min(axis=0)
        return float(min(max(wide / _SHEET, high), max(wide, high / _SHEET)))

    def _on_paper(self, rows: Sequence[int], shifts: Shifts) -> NDArray[np.float64]:
        """Each part's shift as it shows on paper, a row of x and y for each [mm]."""
        moved = np.array([shifts[self.names[index]] for index in rows], dtype=np.float64)
        axes = np.array([self.frame.right, self.frame.up], dtype=np.float64)
        return np.asarray(moved.reshape(-1, 3) @ axes.T)


def _shifted(outline: shapely.Geometry, at: NDArray[np.float64]) -> shapely.Geometry:
    return shapely.transform(outline, lambda points: points + at)


_Hidden = dict[tuple[int, int], float]
"""By the part in front and the one behind: what share of the latter's outline is hidden."""


def _outline(placed: Placed, frame: ViewFrame) -> shapely.Geometry:
    size = placed.part.blank.size
    corners = [
        frame.to_paper(placed.placement.to_piece((x * size[0], y * size[1], z * size[2])))
        for x, y, z in product((0.0, 1.0), repeat=3)
    ]
    return shapely.convex_hull(shapely.multipoints(corners))


def _meet(first: NDArray[np.float64], second: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which rows of boxes (left, low, right, high) overlap which, as a table."""
    one, other = first[:, None], second[None]
    table = (one[..., 2:] > other[..., :2]) & (other[..., 2:] > one[..., :2])
    return np.asarray(table.all(axis=-1))


def _behind(pair: tuple[int, int], boxes: Mapping[int, Box], eye: Vector) -> tuple[int, ...]:
    """Which of two boxes whose outlines overlap is hidden; both when they stand in each other."""
    first, second = (boxes[index] for index in pair)
    for axis in range(3):
        if abs(eye[axis]) < 1e-6:
            continue
        if first[0][axis] >= second[1][axis] - 1e-6:
            return (pair[1],) if eye[axis] > 0 else (pair[0],)
        if second[0][axis] >= first[1][axis] - 1e-6:
            return (pair[0],) if eye[axis] > 0 else (pair[1],)
    return pair


def _moved(box: Box, shift: Vector) -> Box:
    return (add(box[0], shift), add(box[1], shift))


def _runs(steps: Sequence[Step]) -> list[list[Step]]:
    """Steps in order; neighbours that push one part each the same way onto one part together."""
    runs: list[list[Step]] = []
    for step in steps:
        if runs and _is_alike(runs[-1][-1], step):
            runs[-1].append(step)
        else:
            runs.append([step])
    return runs


def _is_alike(before: Step, step: Step) -> bool:
    partners = [
        {name for pair in each.joints for name in pair if name not in each.moving}
        for each in (before, step)
    ]
    return (
        len(before.moving) == len(step.moving) == 1
        and before.direction == step.direction
        and len(partners[0]) == 1
        and partners[0] == partners[1]
    )


def _pairs(step: Step) -> list[tuple[str, str]]:
    """The joints that close, each as (moving, still)."""
    moving = set(step.moving)
    return [(a, b) if a in moving else (b, a) for a, b in step.joints]


def _base(step: Step, shifts: Shifts) -> Vector:
    """How far what moves goes along with what it joins, so that most joints part straight.

    Among those that serve as many, the one nearest to the middle of all.
    """
    offers = [subtract(shifts[b], shifts[a]) for a, b in _pairs(step)]
    if not offers:
        return _STILL
    middle = scaled(
        (sum(x for x, _, _ in offers), sum(y for _, y, _ in offers), sum(z for *_, z in offers)),
        1.0 / len(offers),
    )

    def rank(offer: Vector) -> tuple[int, float]:
        straight = sum(_is_along(subtract(offer, other), step.direction) for other in offers)
        return (-straight, length(subtract(offer, middle)))

    return min(offers, key=rank)


def _is_along(vector: Vector, direction: Vector) -> bool:
    return length(cross(vector, direction)) < 1e-6 * max(1.0, length(vector))


def _undone(bench: _Bench, runs: Sequence[Sequence[Step]], shifts: Shifts) -> tuple[Shifts, float]:
    """The shifts after the runs are undone one after the other, and what the last state costs."""
    cost = 0.0
    for run in runs:
        shifts, cost = _run_undone(bench, run, shifts)
    return shifts, cost


def _run_undone(bench: _Bench, run: Sequence[Step], shifts: Shifts) -> tuple[Shifts, float]:
    """The shifts after the steps of a run are undone by the travel that costs least."""
    moving = [bench.number[name] for step in run for name in step.moving]
    still = [bench.number[name] for name in run[0].onto if bench.number[name] not in set(moving)]
    partners = {
        (min(pair), max(pair))
        for step in run
        for pair in ((bench.number[a], bench.number[b]) for a, b in _pairs(step))
    }
    before = bench.hidden(still, still, shifts)
    best: tuple[Shifts, float] | None = None
    least = max(_clearing(bench, step, shifts) for step in run) + _GAP * bench.size
    for index in range(_STEPS):
        travel = least + _FARTHEST * bench.size * index / _STEPS
        tried = shifts | {
            name: add(shifts[name], scaled(_far_way(step), -travel))
            for step in run
            for name in step.moving
        }
        hidden = before | bench.hidden(moving, [*moving, *still], tried)
        cost = (
            _cost(hidden, partners)
            + _COST_OF_TRAVEL * travel / bench.size
            + _COST_OF_PAPER * bench.sheet([*moving, *still], tried) / bench.size
        )
        if best is None or cost < best[1] - 1e-9:
            best = (tried, cost)
    assert best is not None
    return best


def _clearing(bench: _Bench, step: Step, shifts: Shifts) -> float:
    """How far a step is undone before its partners' boxes are clear along the way [mm]."""
    far = 0.0
    for a, b in _pairs(step):
        mine = _moved(bench.boxes[bench.number[a]], shifts[a])
        other = _moved(bench.boxes[bench.number[b]], shifts[b])
        reach = []
        for axis, way in enumerate(_far_way(step)):
            if abs(way) > 1e-6:
                gap = mine[1][axis] - other[0][axis] if way > 0 else other[1][axis] - mine[0][axis]
                reach.append(max(0.0, gap) / abs(way))
        far = max(far, min(reach, default=0.0))
    return far


def _cost(hidden: _Hidden, partners: set[tuple[int, int]]) -> float:
    total = 0.0
    of_part: dict[int, float] = {}
    for (front, behind), share in hidden.items():
        of_part[behind] = of_part.get(behind, 0.0) + share
        is_partner = (min(front, behind), max(front, behind)) in partners
        total += share * (_COST_OF_PARTNER if is_partner else 1.0)
    return total + sum(
        _COST_OF_MUCH * (share - _MUCH_HIDDEN) for share in of_part.values() if share > _MUCH_HIDDEN
    )


def _legs(step: Step, joinings: Sequence[Joining], shifts: Shifts) -> list[Leg]:
    """The joints of a step that part straight, from their place on the one part to the other."""
    found = []
    for joining in joinings:
        if (joining.into, joining.incoming) not in step.joints or not joining.faces:
            continue
        moving, still = joining.incoming, joining.into
        if moving not in step.moving:
            moving, still = still, moving
        apart = subtract(subtract(shifts[moving], shifts[still]), _knee(step))
        if _is_along(apart, _far_way(step)) and length(apart) > 0.0:
            at = place_of(joining)
            knees = (add(at, _knee(step)),) if step.before is not None else ()
            found.append(Leg(moving=moving, still=still, points=(at, *knees, at)))
    return found


def _far_way(step: Step) -> Vector:
    """The way of the long leg of a step, which is drawn as long as the picture needs."""
    return step.direction if step.before is None else step.before.way


def _knee(step: Step) -> Vector:
    """How far a part stands from home before the last leg of its move [mm]."""
    if step.before is None:
        return _STILL
    return scaled(step.direction, -step.before.left_mm)


def _with_ends(legs: Sequence[Leg], shifts: Shifts) -> list[Leg]:
    """The same legs where the parts stand in the end: what is built on moves along."""
    return [
        Leg(
            moving=leg.moving,
            still=leg.still,
            points=(
                add(leg.points[0], shifts[leg.moving]),
                *(add(point, shifts[leg.still]) for point in leg.points[1:]),
            ),
        )
        for leg in legs
    ]
