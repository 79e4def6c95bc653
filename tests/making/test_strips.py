"""A part that only the cutting plan glues up: from strips to a true blank, from settings alone."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from functools import cache

import pytest

from exporters.work.record import work_record
from furniture import Feet, MitredBox, Stock
from furniture.job.worked import worked_in
from furniture.making.begun import Begun
from furniture.making.left_to_do import left_to_do
from furniture.making.making import Making, making_of
from furniture.making.operations import Kind, Operation, Stage
from furniture.making.settings import Machine, Parallel, Surface
from furniture.making.strips_in_hand import StripsInHand
from furniture.making.workpieces import Wood
from furniture.parts.faces import Face
from furniture.pieces import Piece, placed_named
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.making.exact import ExactKernel
from tests.making.glued_up import of_strips, outcome_of_strips, wide_box
from tests.making.hand_made import HandMade
from tests.making.laws import broken_laws
from tests.making.made import Amiss, amiss, is_found
from tests.making.replay import CannotBeMade, replay
from tests.making.strip_order import strip_faults
from tests.making.test_from_boards import left_but_planned, made_from
from tests.shop.boards.bench import THICK, board, thin_board


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


def test_by_hand_two_edges_that_meet_are_planed_once_all_strips_are_flat() -> None:
    """The second strip was planed thin when its edge had been in the vice with the first's."""
    thin = Stock(name="thin", species="white oak", thickness="14 mm", moisture="9 %")
    box = MitredBox(
        name="Short box", rails=THICK, lid=thin, width="290 mm", depth="210 mm", height="70 mm",
        feet=Feet(stock=thin),
    ).build()  # fmt: skip
    boards = [
        board(length="2400 mm"),
        thin_board(name="T", length="1100 mm", widths="112 mm", thickness="16 mm"),
    ]
    making = made_from(box, outcome_of(cutting_job(box, boards))).making
    edges = [each for each in making.operations
             if each.kind is Kind.JOINT_EDGE and each.stage is Stage.STRIPS]  # fmt: skip
    flat = {each.key for each in making.operations
            if each.kind is Kind.PLANE and each.stage is Stage.STRIPS}  # fmt: skip
    assert (len(edges), len(flat)) == (2, 2)
    for each in edges:
        assert each.rig is not None
        assert each.rig.machine is Machine.BENCH
        assert flat <= {after.key for after in each.after}
    assert sorted(map(str, strip_faults(making))) == []


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


def _in_hand() -> tuple[StripsInHand, ...]:
    """The strips as the record of the packet tells of them."""
    made = of_strips()
    record = json.loads(json.dumps({"work": work_record(made.piece, made.making)}))
    return worked_in(record).in_strips


def _going_on(piece: Piece) -> Making:
    """What a plan in the middle asks of wood that is off its boards in strips."""
    return making_of(piece, (), of_strips().shop, begun=Begun(in_strips=_in_hand()))


def test_strips_off_their_boards_are_glued_up_as_they_were_to_be() -> None:
    """Every operation on the lid and its strips is as in the first packet, the boards' apart."""

    def told(making: Making) -> dict[str, str]:
        asked = [
            replace(each, after=tuple(a for a in each.after if not a.key.startswith("board ")))
            for each in making.operations
            if each.stage is Stage.STRIPS
            or (each.stage is Stage.MILL and each.takes in (("lid",), ("bottom",)))
        ]
        # A record is rounded, so figures are told to a millionth of a millimetre.
        return {
            each.key: re.sub(r"\d+\.\d+", lambda mm: f"{float(mm[0]):.6f}", repr(each))
            for each in asked
        }

    was = told(of_strips().making)
    assert sum("glue up its strips" in key for key in was) == 2
    assert told(_going_on(of_strips().piece)) == was


@pytest.mark.parametrize("by_mm", [-7.0, 3.0])
def test_a_part_that_changes_before_its_strips_are_glued_lies_in_their_wood(by_mm: float) -> None:
    """3 mm more than the strips have beside their joints come off the first one's rough edge."""
    box = wide_box()
    lid = placed_named(box, "lid")
    blank = replace(lid.part.blank, width_mm=lid.part.blank.width_mm + by_mm)
    other = replace(lid, part=replace(lid.part, blank=blank, cuts=()))
    changed = replace(box, placed=tuple(other if e is lid else e for e in box.placed), joinings=())
    pieces = {each.id: each for each in _going_on(changed).workpieces}
    was = {each.id: each for each in of_strips().making.workpieces}
    ids = [each.id for each in pieces["lid"].glued_of]
    assert ids == [each.id for each in was["lid"].glued_of]
    for name in ids:
        assert [b - a for a, b in zip(pieces[name].low, pieces[name].high, strict=True)] == (
            pytest.approx([b - a for a, b in zip(was[name].low, was[name].high, strict=True)])
        )
    assert pieces["lid"].low[1] <= 0.0
    assert pieces["lid"].high[1] >= blank.width_mm - 1e-9
    total = [each["lid"].high[1] - each["lid"].low[1] for each in (pieces, was)]
    assert total[0] == pytest.approx(total[1])


def test_what_is_glued_up_already_is_not_asked_again() -> None:
    """Its edge is jointed after the glue: who says that it is, says all of the strips too."""
    whole = _going_on(of_strips().piece)
    milled = next(e for e in whole.operations if e.stage is Stage.MILL and e.takes == ("lid",))
    ticked = {milled.key: frozenset({"lid"})}
    left = left_to_do(whole, Begun(in_hand=("lid", "bottom"), ticked=ticked))
    asked = {each.key for each in left.operations if each.stage is Stage.STRIPS}
    assert asked == {
        each.key
        for each in whole.operations
        if each.stage is Stage.STRIPS and any("bottom" in wood for wood in each.takes)
    }
