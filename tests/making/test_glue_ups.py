"""Glue-ups as stages: nothing is left out, each can be closed, and a maker would work so."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from itertools import permutations
from typing import Any

import pytest

from furniture.assembly import AssemblyPlan, NoOrder, assembly_of, scene_of
from furniture.joints.joint import GrainRelation
from furniture.making.glue_ups import (
    Band,
    Bareness,
    Caul,
    Diagonals,
    GlueBench,
    GlueUps,
    NoStages,
    Stage,
    When,
    proud_of,
    stages_of,
)
from furniture.making.glue_ups.butts import mitres_met_by_butts
from furniture.making.glue_ups.clusters import Cluster, clusters_of, is_glued
from furniture.making.glue_ups.looked import Looked
from furniture.making.glue_ups.order import Search, Wishes
from furniture.parts.faces import Face
from furniture.pieces import Piece
from tests.assembly.bench import board, hollow, piece_of, replay
from tests.everywhere.designs import drawn
from tests.making.glue_checker import faults_of
from tests.models import NAMES
from tests.models import piece_of as model

pytestmark = pytest.mark.some_models

SLOW = GlueBench(seconds_per_face=15.0, open_seconds=300.0)


@lru_cache
def glued(name: str) -> tuple[Piece, GlueUps]:
    """A model and its glue-ups."""
    piece = model(name)
    scene = scene_of(piece)
    found = stages_of(piece, assembly_of(piece, scene), bench=SLOW, scene=scene)
    assert isinstance(found, GlueUps)
    return piece, found


def in_it(stage: Stage) -> set[str]:
    """All instances that stand in a stage."""
    return {name for body in stage.bodies for name in body}


def told(stage: Stage, when: When) -> set[str]:
    """Whose faces are levelled then."""
    return {each.instance for each in stage.levelled if each.when is when}


@pytest.mark.parametrize("name", NAMES)
def test_no_fault_is_found_in_the_stages_of_a_model(name: str) -> None:
    piece, found = glued(name)
    assert faults_of(piece, found) == []


@pytest.mark.parametrize("name", NAMES)
def test_the_moves_of_a_model_are_made_with_its_solids(name: str) -> None:
    """The exact kernel replays every move of every stage, one after another."""
    piece, found = glued(name)
    steps = [step for stage in found.stages for step in stage.moves]
    assert replay(piece, AssemblyPlan(steps=(*steps, *found.laid_in)), fine_mm=4.0) == []


@pytest.mark.seeds(few=3, full=200)
def test_no_fault_is_found_in_the_stages_of_any_design(seed: int) -> None:
    is_without_fault(seed)


def is_without_fault(seed: int) -> None:
    """The glue-ups of a random design have no fault."""
    piece = drawn(seed).piece
    scene = scene_of(piece)
    found = stages_of(piece, assembly_of(piece, scene), scene=scene)
    assert isinstance(found, GlueUps), found
    assert faults_of(piece, found) == []


def test_the_herb_stand_goes_together_in_four_stages() -> None:
    _, found = glued("herb_stand")
    first, ring, tiers, last = found.stages
    assert in_it(first) == {"left stub", "post", "right stub"}
    assert len(first.dowels) == 4
    assert {each.kind for each in ring.glued} == {"mitre"}
    assert len(ring.glued) == 4
    assert ring.dry == ("lid",)
    assert in_it(tiers) - in_it(ring) == {"tier 1", "tier 2", "tier 3", "tier 4"}
    assert last.dry == ("bottom",)
    assert last.moves[0].moving == ("bottom",), "the feet would shut it out"
    assert found.laid_in == ()


def test_a_rim_is_planed_while_a_plane_has_room_and_stub_tops_before_the_post_stands() -> None:
    _, found = glued("herb_stand")
    first, ring, *_ = found.stages
    assert told(first, When.BEFORE) == {"left stub", "right stub"}
    assert {each.in_the_way for each in first.levelled} == {("post",)}
    assert told(ring, When.AFTER) == {"front rail", "left side rail", "right side rail"}
    assert all(math.isclose(each.by_mm, 0.5) for each in (*first.levelled, *ring.levelled))


def test_the_post_is_trimmed_off_the_last_tier() -> None:
    _, found = glued("herb_stand")
    (trim,) = found.stages[2].trimmed
    assert (trim.instance, trim.end, trim.when) == ("post", Face.FAR_END, When.AFTER)
    assert trim.measured_from == ("tier 4", Face.FACE_SIDE)
    assert trim.distance_mm == 24.0
    assert trim.long_by_mm == 15.0


def test_four_mitres_are_banded_at_once_and_their_diagonals_read() -> None:
    _, found = glued("herb_stand")
    ring = found.stages[1]
    (band,) = ring.bands
    assert isinstance(band, Band)
    assert band.axis == (0.0, 0.0, 1.0)
    assert len(band.pressed) == 4
    assert ring.clamps == ()
    (diagonals,) = [each for each in ring.checks if isinstance(each, Diagonals)]
    assert diagonals.lengths_mm == pytest.approx((math.hypot(320.0, 210.0),) * 2)
    (area,) = ring.areas
    assert area.grain is GrainRelation.END_TO_END
    # Four mitres of 84 x 19.7 sqrt 2, less two rabbets of each.
    assert area.area_mm2 == pytest.approx(4 * 2053.155, abs=1.0)
    assert all(each.wants_size for each in ring.spread)


def test_stubs_that_end_in_points_want_mitre_cut_cauls_and_tiers_one_on_the_round_over() -> None:
    _, found = glued("herb_stand")
    (line,) = found.stages[0].clamps
    assert [pad.caul for pad in line.pads] == [Caul.MITRE_CUT, Caul.MITRE_CUT]
    assert {pad.instance for pad in line.pads} == {"left stub", "right stub"}
    for each in found.stages[2].clamps:
        front, back = each.pads
        assert front.instance.startswith("tier")
        assert front.caul is Caul.SQUARE
        # Across a head of 30 lies the edge of 13.4, less a round-over of 3 above.
        bears = sum(h * math.sqrt(15.0**2 - h**2) + 15.0**2 * math.asin(h / 15) for h in (6.7, 3.7))
        assert front.share == pytest.approx(bears / (math.pi * 15.0**2), abs=0.02)
        assert (back.instance, back.caul) == ("post", Caul.NONE)


def test_a_foot_over_the_loose_bottom_is_glued_to_the_rails_only() -> None:
    _, found = glued("herb_stand")
    bare = [each for each in found.stages[3].bare if each.instance == "front left foot"]
    (foot,) = bare
    assert (foot.against, foot.why) == ("bottom", Bareness.MOVES)
    assert set(foot.only_on) == {"front rail", "left side rail"}


def test_the_bottom_is_pinned_in_the_stage_that_brings_it_in() -> None:
    for name in ("herb_stand", "tea_box"):
        _, found = glued(name)
        last = found.stages[-1]
        assert last.dry == ("bottom",)
        assert [each.fastener.name for each in last.driven] == ["panel pin", "panel pin"]


def test_a_long_glue_up_is_shared_and_the_other_upright_holds_it_true() -> None:
    _, found = glued("yarn_steps")
    first, second, front, last = found.stages
    assert "left upright" in in_it(first)
    assert first.held_true_by == ("right upright",)
    ends = {pad.instance for line in first.clamps for pad in line.pads}
    assert ends == {"left upright", "right upright"}, "clamps press on what is on under them"
    assert in_it(second) - in_it(first) == {"right upright"}
    assert in_it(front) == {"front rail", "left side rail", "right side rail"}
    assert told(front, When.AFTER) == in_it(front), "the uprights come in the plane's way later"
    assert told(first, When.BEFORE) == {"back rail"}
    assert len(last.glued) == 2
    assert [step.moving for step in found.laid_in] == [("lid",)]
    assert all(each.over_open_seconds == 0.0 for each in found.stages)


def test_with_glue_that_stays_open_it_is_not_shared() -> None:
    piece, _ = glued("yarn_steps")
    calm = GlueBench(open_seconds=3600.0)
    found = stages_of(piece, assembly_of(piece), bench=calm)
    assert isinstance(found, GlueUps)
    assert len(found.stages) == 3
    assert max(each.spread_seconds for each in found.stages) == 34 * 15.0


@pytest.mark.parametrize(("name", "glue_stages"), [("tea_box", 1), ("key_rack", 1)])
def test_what_closes_along_one_axis_or_in_one_ring_is_one_stage(
    name: str, glue_stages: int
) -> None:
    _, found = glued(name)
    assert sum(bool(each.glued) for each in found.stages) == glue_stages


def test_a_rack_that_hangs_on_its_wall_is_hung_last() -> None:
    _, found = glued("key_rack")
    (hung,) = found.laid_in
    assert hung.onto == ("wall cleat",)
    assert hung.before is not None
    assert found.stages[0].fixed_with[0].thing.name == "walnut peg"


def test_parts_that_lock_one_another_have_no_stages_and_are_named() -> None:
    box = board("box", (100.0, 100.0, 100.0), (0.0, 0.0, 0.0),
                cuts=(hollow((20.0, 20.0, 20.0), (80.0, 80.0, 80.0)),))  # fmt: skip
    core = board("core", (40.0, 40.0, 40.0), (30.0, 30.0, 30.0))
    piece = piece_of([box, core])
    order = NoOrder(stuck=("box", "core"), reason="one is shut up in the other")
    assert stages_of(piece, order) == NoStages(stuck=("box", "core"))


# Planted faults: the checker must find each.


def _changed(at: int, **fields: Any) -> tuple[Piece, GlueUps]:
    piece, found = glued("herb_stand")
    stages = list(found.stages)
    stages[at] = replace(stages[at], **fields)
    return piece, replace(found, stages=tuple(stages))


def test_a_joint_left_out_is_found() -> None:
    stage = glued("herb_stand")[1].stages[2]
    assert any("never glued" in each for each in faults_of(*_changed(2, glued=stage.glued[1:])))


def test_a_joint_glued_twice_is_found() -> None:
    stage = glued("herb_stand")[1].stages[0]
    planted = _changed(2, glued=(*glued("herb_stand")[1].stages[2].glued, stage.glued[0]))
    assert any("twice" in each for each in faults_of(*planted))


def test_every_other_order_of_stages_is_found() -> None:
    """The post first, then anything: only the found order of the herb stand has no fault."""
    piece, found = glued("herb_stand")
    a, b, c, d = found.stages
    for wrong in ((b, a, c, d), (a, c, b, d), (c, b, a, d), (a, b, d, c), (b, c, a, d)):
        assert faults_of(piece, replace(found, stages=wrong)), [each.number for each in wrong]


def test_a_lid_that_was_forgotten_until_the_ring_is_closed_is_found() -> None:
    ring = glued("herb_stand")[1].stages[1]
    moves = [step for step in ring.moves if step.moving != ("lid",)]
    late = replace(ring.moves[2], onto=tuple(sorted(in_it(ring) - {"lid"})))
    planted = _changed(1, moves=(*moves, late))
    assert any("meets" in each for each in faults_of(*planted))


def test_a_plane_sent_where_the_post_stands_is_found() -> None:
    first = glued("herb_stand")[1].stages[0]
    stubs = tuple(replace(each, when=When.AFTER) for each in first.levelled)
    planted = _changed(0, levelled=stubs)
    assert any("plane" in each for each in faults_of(*planted))


def test_a_side_rim_planed_after_the_tiers_stand_is_found() -> None:
    piece, found = glued("herb_stand")
    late = found.stages[1].levelled
    first = replace(found.stages[1], levelled=())
    second = replace(found.stages[2], levelled=late)
    planted = replace(found, stages=(found.stages[0], first, second, found.stages[3]))
    assert any("plane" in each for each in faults_of(piece, planted))


@pytest.mark.seeds(few=3, full=60)
def test_no_other_order_of_the_clusters_costs_less(seed: int) -> None:
    """Every order of the clusters is walked to its end, one by one, without what was kept."""
    piece = drawn(seed).piece
    scene = scene_of(piece)
    wanted = {row for each in clusters_of(piece)[:5] for row in each.joinings}
    piece = replace(
        piece,
        joinings=tuple(each for row, each in enumerate(piece.joinings)
                       if row in wanted or not is_glued(each)),
    )  # fmt: skip
    looked = Looked(scene, piece.joinings)
    clusters = clusters_of(piece)
    turn = {row: row % 3 for row in range(len(piece.joinings))}
    ways = [(looked.row_of[each.high], frozenset({looked.row_of[each.low]}))
            for each in proud_of(piece)]  # fmt: skip
    met = mitres_met_by_butts(piece)
    wishes = Wishes(bench=SLOW, in_the_way=ways, true_with=met, turn=turn)
    search = Search(looked, clusters, wishes)
    found = search.best()
    walked = [cost for order in permutations(clusters) if (cost := _walked(search, order))]
    assert (found is None) == (not walked)
    if found is not None:
        assert found[0] <= min(walked)


def _walked(search: Search, order: tuple[Cluster, ...]) -> tuple[float, ...] | None:
    state = frozenset(frozenset({row}) for row in range(len(search.looked.parts)))
    total = (0.0,) * 10
    for cluster in order:
        is_open = search.open_in(state)
        if not cluster.joinings & is_open:
            continue
        drawn_stage = search.drawn(state, cluster, is_open)
        if drawn_stage is None:
            return None
        cost = search.cost(drawn_stage, is_open)
        total = tuple(a + b for a, b in zip(total, cost, strict=True))
        state = drawn_stage.after
    return total
