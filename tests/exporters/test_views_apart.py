"""Pieces drawn apart along their plan: every part shows, and trails lead from part to part."""

from __future__ import annotations

import math
import random
from functools import lru_cache
from itertools import combinations, pairwise

import pytest

from exporters.views.apart import Apart, drawn_apart
from exporters.views.explode import exploded, trails
from exporters.views.frames import StandardView, standard_frame
from exporters.views.values import ViewFrame
from furniture.assembly import AssemblyPlan, Step, assembly_of
from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, cross, dot, length, subtract
from furniture.pieces.piece import Piece
from furniture.solids.make import placed_solid
from tests.exporters.seen import seen_shares
from tests.exporters.test_views import placed_at
from tests.exporters.test_views_explode import joining
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

LEAST_SHARE = 0.4
"""Of each part's edges that shall be seen. Own rule: its back edges are hidden by itself."""
FRAMES = [StandardView.ISOMETRIC_RIGHT, StandardView.ISOMETRIC_LEFT]


@lru_cache(maxsize=8)
def planned(model: str) -> tuple[Piece, AssemblyPlan]:
    piece = piece_of(model)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    return piece, plan


def shares(placed: list[Placed], apart: Apart, frame: ViewFrame) -> dict[str, float]:
    moved = exploded(placed, apart.shifts)
    solids = [placed_solid(each.part, each.placement).wrapped for each in moved]
    seen = seen_shares(solids, frame)
    return dict(zip((each.instance for each in placed), seen, strict=True))


def alone(placed: Placed, frame: ViewFrame) -> float:
    """What share of a part's edges is seen when nothing else is there."""
    solid = placed_solid(placed.part, placed.placement).wrapped
    return seen_shares([solid], frame)[0]


def holds(box: Box, point: Vector, slack: float) -> bool:
    return all(box[0][axis] - slack <= point[axis] <= box[1][axis] + slack for axis in range(3))


@pytest.mark.parametrize("model", NAMES)
def test_every_part_of_every_model_shows(model: str) -> None:
    piece, plan = planned(model)
    found = []
    for which in FRAMES:
        frame = standard_frame(which)
        apart = drawn_apart(piece.placed, piece.joinings, plan, frame)
        seen = shares(list(piece.placed), apart, frame)
        bare = {each.instance: alone(each, frame) for each in piece.placed}
        found.append((apart.cost, min((seen[name] / bare[name], name) for name in seen)))
    _, (share, name) = min(found)
    assert share > LEAST_SHARE, name


@pytest.mark.parametrize("model", NAMES)
@pytest.mark.parametrize("which", FRAMES)
def test_trails_run_the_way_of_the_plan_from_part_to_part(model: str, which: StandardView) -> None:
    piece, plan = planned(model)
    frame = standard_frame(which)
    apart = drawn_apart(piece.placed, piece.joinings, plan, frame)
    boxes = {
        each.instance: box_of(each.part.blank, each.placement)
        for each in exploded(piece.placed, apart.shifts)
    }
    for step in plan.steps:
        assert any(leg.moving in step.moving and leg.still in step.onto for leg in apart.legs)
    for leg in apart.legs:
        assert holds(boxes[leg.moving], leg.points[0], 0.5), leg
        assert holds(boxes[leg.still], leg.points[-1], 0.5), leg
        step = next(
            step for step in plan.steps if leg.moving in step.moving and leg.still in step.onto
        )
        ways = [step.direction] if step.before is None else [step.before.way, step.direction]
        parts = list(pairwise(leg.points))
        assert len(parts) == len(ways)
        for (start, end), way in zip(parts, ways, strict=True):
            along = subtract(end, start)
            assert dot(along, way) > 0.0
            assert length(cross(along, way)) < 1e-6 * length(along)
        if step.before is not None:
            assert length(subtract(*parts[1])) == pytest.approx(step.before.left_mm)
    lines = [part for leg in apart.legs for part in pairwise(leg.points)]
    assert trails(piece.placed, apart.shifts, frame, lines)


def random_stack(seed: int) -> tuple[list[Placed], list[Joining], AssemblyPlan]:
    """A block with others pushed onto it from five sides, in random sizes and order."""
    draw = random.Random(seed)
    size = tuple(draw.uniform(100.0, 400.0) for _ in range(3))
    placed = [placed_at("block", (size[0], size[1], size[2]), (0.0, 0.0, 0.0))]
    joined, steps = [], []
    sides = [(0, -1), (0, 1), (1, -1), (1, 1), (2, 1)]
    draw.shuffle(sides)
    for number, (axis, side) in enumerate(sides[: draw.randint(1, 5)]):
        own = [draw.uniform(30.0, 200.0) for _ in range(3)]
        at = [(size[k] - own[k]) * draw.random() for k in range(3)]
        at[axis] = size[axis] if side > 0 else -own[axis]
        name = f"part {number}"
        way = [0.0, 0.0, 0.0]
        way[axis] = float(-side)
        middle = [a + b / 2 for a, b in zip(at, own, strict=True)]
        middle[axis] = size[axis] if side > 0 else 0.0
        for k in range(3):  # where the two meet, however far one reaches past the other
            if k != axis:
                low, high = max(at[k], 0.0), min(at[k] + own[k], size[k])
                middle[k] = (low + high) / 2
        direction = (way[0], way[1], way[2])
        point = (middle[0], middle[1], middle[2])
        onto = tuple(each.instance for each in placed)
        placed.append(placed_at(name, (own[0], own[1], own[2]), (at[0], at[1], at[2])))
        joined.append(joining("block", name, point, direction))
        steps.append(
            Step(moving=(name,), onto=onto, direction=direction, joints=(("block", name),))
        )
    return placed, joined, AssemblyPlan(steps=tuple(steps))


@pytest.mark.seeds(few=3, full=100)
def test_every_part_of_a_random_stack_shows_clear_of_the_others(seed: int) -> None:
    placed, joined, plan = random_stack(seed)
    frames = [standard_frame(which) for which in FRAMES]
    found = [(drawn_apart(placed, joined, plan, frame), frame) for frame in frames]
    apart, frame = min(found, key=lambda pair: pair[0].cost)
    moved = exploded(placed, apart.shifts)
    boxes = [box_of(each.part.blank, each.placement) for each in moved]
    for (low, high), (other_low, other_high) in combinations(boxes, 2):
        assert any(
            high[axis] <= other_low[axis] + 1e-6 or other_high[axis] <= low[axis] + 1e-6
            for axis in range(3)
        )
    seen = shares(placed, apart, frame)
    for each in placed:
        assert seen[each.instance] > LEAST_SHARE * alone(each, frame), each.instance
    assert len(apart.legs) == len(plan.steps)


def test_what_joins_a_part_moved_aside_goes_along_and_parts_straight() -> None:
    """A stub leaves its post to the side; the rail on the stub leaves the stub to the front."""
    placed = [
        placed_at("post", (100.0, 20.0, 300.0), (0.0, 100.0, 0.0)),
        placed_at("stub", (80.0, 20.0, 60.0), (100.0, 100.0, 0.0)),
        placed_at("rail", (20.0, 120.0, 60.0), (160.0, -20.0, 0.0)),
    ]
    joined = [
        joining("post", "stub", (100, 110, 30), (-1, 0, 0)),
        joining("stub", "rail", (170, 100, 30), (0, 1, 0)),
    ]
    plan = AssemblyPlan(
        steps=(
            Step(
                moving=("stub",), onto=("post",), direction=(-1.0, 0.0, 0.0),
                joints=(("post", "stub"),),
            ),
            Step(
                moving=("rail",), onto=("post", "stub"), direction=(0.0, 1.0, 0.0),
                joints=(("stub", "rail"),),
            ),
        )
    )  # fmt: skip
    apart = drawn_apart(placed, joined, plan, standard_frame(FRAMES[0]))
    stub, rail = apart.shifts["stub"], apart.shifts["rail"]
    assert apart.shifts["post"] == (0.0, 0.0, 0.0)
    assert stub[0] > 0.0
    assert stub[1:] == (0.0, 0.0)
    assert rail[0] == pytest.approx(stub[0])
    assert rail[1] < 0.0
    assert len(apart.legs) == 2


def test_a_sub_assembly_travels_as_one_and_is_drawn_apart_itself() -> None:
    placed = [
        placed_at("wall", (200.0, 20.0, 200.0), (0.0, 100.0, 0.0)),
        placed_at("shelf", (200.0, 80.0, 20.0), (0.0, 20.0, 100.0)),
        placed_at("lip", (200.0, 20.0, 40.0), (0.0, 0.0, 100.0)),
    ]
    joined = [
        joining("wall", "shelf", (100, 100, 110), (0, 1, 0)),
        joining("shelf", "lip", (100, 20, 110), (0, 1, 0)),
    ]
    back = (0.0, 1.0, 0.0)
    plan = AssemblyPlan(
        steps=(
            Step(moving=("lip",), onto=("shelf",), direction=back, joints=(("shelf", "lip"),)),
            Step(
                moving=("shelf", "lip"), onto=("wall",), direction=back,
                joints=(("wall", "shelf"),),
            ),
        )
    )  # fmt: skip
    apart = drawn_apart(placed, joined, plan, standard_frame(FRAMES[0]))
    shelf, lip = apart.shifts["shelf"], apart.shifts["lip"]
    assert lip[1] < shelf[1] < 0.0
    for leg in apart.legs:
        start, end = leg.points
        place = subtract(start, apart.shifts[leg.moving])
        assert add(place, apart.shifts[leg.still]) == pytest.approx(end)
        assert math.dist(start, end) > 0.0
