"""A part that only the cutting plan glues up: from strips to a true blank, from settings alone."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from furniture.making.operations import Kind, Operation, Stage
from furniture.making.settings import Parallel, Surface
from furniture.making.workpieces import Wood
from furniture.parts.faces import Face
from tests.making.exact import ExactKernel
from tests.making.glued_up import of_strips, outcome_of_strips
from tests.making.hand_made import HandMade
from tests.making.laws import broken_laws
from tests.making.made import Amiss, amiss, is_found
from tests.making.replay import CannotBeMade, replay
from tests.making.strip_order import strip_faults
from tests.making.test_from_boards import left_but_planned


@cache
def known() -> Amiss:
    """What is amiss in the work: nothing."""
    return amiss(of_strips())


def test_the_work_with_strips_serves_and_every_part_comes_out() -> None:
    made = of_strips()
    assert broken_laws(made.making, made.piece) == []
    assert (known().parts, known().done.untrue, sorted(map(str, known().faults))) == ({}, (), [])
    assert left_but_planned(made, outcome_of_strips(), known().done) == []


def test_the_exact_kernel_glues_up_the_same_wood() -> None:
    done = replay(of_strips().making, kernel=ExactKernel(), standing=of_strips().placed.matrices)
    blank = next(each.part.blank for each in of_strips().piece.placed if each.instance == "bottom")
    assert done.parts["bottom"].volume() == pytest.approx(blank.volume_mm3)


def test_each_strip_that_the_plan_lays_is_wood_of_the_work() -> None:
    laid = {outcome_of_strips().name_of(each.placement) for each in outcome_of_strips().blanks}
    strips = [each for each in of_strips().making.workpieces if each.what is Wood.GLUED_STRIP]
    assert {each.id for each in strips} == {name for name in laid if "strip " in name}
    assert {each.source for each in strips} == {"board T", "board U"}


def _of(kind: Kind, wood: str) -> Operation:
    return next(e for e in of_strips().making.operations if e.kind is kind and wood in e.takes)


def test_what_is_glued_is_thicker_than_the_part_and_planed_when_it_is_hard() -> None:
    """By hand: boards of 17 and 18 mm for a lid of 14 mm leave the millimetre of the rule."""
    lid = next(each for each in of_strips().making.workpieces if each.id == "lid")
    assert lid.high[2] - lid.low[2] == pytest.approx(14.0 + 1.0)
    order = of_strips().making.operations
    glue, plane = _of(Kind.EDGE_GLUE, "lid, strip 1"), _of(Kind.PLANE, "lid")
    assert order.index(glue) < order.index(plane)
    assert isinstance(plane.setting, Parallel)
    assert plane.setting.at_mm == pytest.approx(14.0)


def test_of_two_edges_that_meet_one_is_jointed_either_way_round() -> None:
    """What the fence is out of square lies then in both, and the faces are level all the same."""
    meet = [
        each
        for each in of_strips().making.operations
        if each.stage is Stage.STRIPS and each.kind is Kind.JOINT_EDGE and each.refused is None
    ]
    assert len(meet) == 8
    for each in meet:
        assert isinstance(each.setting, Surface)
        is_far = each.setting.face is Face.BACK_EDGE
        assert each.hold.against is (Face.BACK_SIDE if is_far else Face.FACE_SIDE)


def _without(*gone: Operation) -> HandMade:
    making = of_strips().making
    return HandMade(making.workpieces, tuple(e for e in making.operations if e not in gone))


def test_an_edge_that_is_not_jointed_leaves_strips_that_do_not_meet() -> None:
    edge = _of(Kind.JOINT_EDGE, "lid, strip 2")
    with pytest.raises(CannotBeMade, match="do not meet"):
        replay(_without(edge))


def test_strips_are_laid_out_dry_before_and_scraped_after_the_glue() -> None:
    dry, scrape = _of(Kind.LAY_OUT_STRIPS, "lid, strip 1"), _of(Kind.SCRAPE, "lid")
    assert [str(each) for each in strip_faults(_without(dry))] == [
        "lid: glue up its strips: its strips were not laid out dry"
    ]
    assert any("hard glue" in str(each) for each in strip_faults(_without(scrape)))


def test_a_strip_of_another_thickness_is_found() -> None:
    making = of_strips().making
    plane = next(e for e in making.operations if e.key == "board U: plane")
    assert isinstance(plane.setting, Parallel)
    thin = replace(plane, setting=replace(plane.setting, at_mm=plane.setting.at_mm - 0.1))
    other = tuple(thin if each is plane else each for each in making.operations)
    assert is_found(of_strips(), HandMade(making.workpieces, other), known())
