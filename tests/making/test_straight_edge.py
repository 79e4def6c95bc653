"""The edge that a router's base runs along lies where the channel then comes out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.work import WorkWords
from furniture.making.operations import Operation
from furniture.making.settings import Guide, Machine, StraightEdge, Trench
from furniture.parts.faces import WIDE_FACES, Face
from tests.everywhere.designs import drawn
from tests.making.made import Made, made, model
from tests.making.replay import replay
from tests.making.targets import unlike


def along_an_edge(whole: Made) -> list[Operation]:
    """Channels between walls that a router cuts along a straight edge."""
    return [
        each
        for each in whole.making.operations
        if each.rig is not None
        and (each.rig.machine, each.rig.guide) == (Machine.ROUTER, Guide.LINE)
        and isinstance(each.setting, Trench)
        and each.setting.near_mm > 0.0
        and each.setting.face in WIDE_FACES
    ]


def test_a_shim_moves_the_cutter_away_from_the_edge() -> None:
    """A base of 150 and a bit of 12: the edge lies 69 beside the wall, on either side of it."""
    here = StraightEdge(off=Face.NAMED_END, towards=Face.NAMED_END, at_mm=131.0, margin_mm=69.0)
    assert here.near_mm(12.0, (0.0, 1.5)) == (200.0, 201.5)
    there = replace(here, towards=Face.FAR_END, at_mm=282.5)
    assert there.near_mm(12.0, (0.0, 1.5)) == (201.5, 200.0)


@pytest.mark.seeds(few=3, full=100)
def test_each_routed_dado_has_its_edge_where_its_walls_ask_for_it(seed: int) -> None:
    whole = made(drawn(seed).piece)
    for each in along_an_edge(whole):
        edge, setting, rig = each.straight_edge, each.setting, each.rig
        assert edge is not None
        assert isinstance(setting, Trench)
        assert rig is not None
        assert whole.shop.bits is not None
        assert rig.cutter.size_mm is not None
        assert edge.margin_mm == (whole.shop.bits.base_mm - rig.cutter.size_mm) / 2.0
        shims = [mm - min(each.near_mm) for mm in each.near_mm] or [0.0]
        passes = edge.near_mm(rig.cutter.size_mm, shims)
        assert min(passes) == pytest.approx(setting.near_mm, abs=1e-9)
        assert edge.off is setting.off
        assert edge.towards.axis == setting.off.axis
        lies_before = edge.at_mm < setting.near_mm
        assert lies_before == (edge.towards is edge.off)


@pytest.mark.parametrize("shifted", [{"at_mm": 1.0}, {"margin_mm": -1.0}])
def test_an_edge_that_lies_elsewhere_gives_another_part(shifted: dict[str, float]) -> None:
    whole = model("yarn_steps")
    routed = along_an_edge(whole)
    assert len(routed) == 10

    def moved(each: Operation) -> Operation:
        edge = each.straight_edge
        if each is not routed[0] or edge is None:
            return each
        more = {name: getattr(edge, name) + by for name, by in shifted.items()}
        return replace(each, straight_edge=replace(edge, **more))

    operations = tuple(moved(each) for each in whole.making.operations)
    done = replay(
        replace(whole.making, operations=operations), whole.target.tool, whole.target.segments,
        standing=whole.placed.matrices,
    )  # fmt: skip
    assert set(unlike(done, whole.target)) == {routed[0].takes[0]}


def test_the_work_says_on_which_side_it_lies_and_what_stops_the_base() -> None:
    whole = model("yarn_steps")
    words = WorkWords(whole.piece, whole.making)
    for each in along_an_edge(whole):
        said = words.line_of(each)
        assert "straight edge clamped 2 3/4 beside the near wall, towards the foot end" in said
        assert "stopped 1/2 short of the front edge, a block 2 1/4 beyond it stops the base" in said
