"""Blade and head have room in every work, and where they are robbed of it, it is found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from furniture import SteppedStand, Stock, Tier
from furniture.making.operations import Operation, StopBlock
from furniture.making.settings import Guide, Hold, Machine, Slice, Trench
from furniture.parts.faces import ENDS, WIDE_FACES, Face
from furniture.shop.tools.reading import usual_or
from tests.making.hand_made import HandMade
from tests.making.history import moments_of
from tests.making.made import Made, made, model
from tests.making.replay import replay
from tests.making.room import room_faults
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

LEVEL_WITH_THE_POST = SteppedStand(
    name="shelf",
    thick=Stock(name="thick", species="cherry", thickness="21.5 mm", moisture="9 %"),
    thin=Stock(name="thin", species="walnut", thickness="7.4 mm", moisture="9 %"),
    base_width="390 mm",
    base_depth="222 mm",
    base_height="130 mm",
    post_width="92 mm",
    post_proud="0 mm",
    tiers=(Tier(width="186 mm", depth="104 mm", rise="91 mm"),),
)
"""Its tier lies in a rabbet across the post's end, which is sawn on the sled."""


def told(whole: Made, *changed: Operation) -> list[str]:
    """What has no room in a making; `changed` stand for the operations of their keys."""
    given = {each.key: each for each in changed}
    operations = tuple(given.get(each.key, each) for each in whole.making.operations)
    making = HandMade(whole.making.workpieces, operations)
    done = replay(making, whole.target.tool, whole.target.segments, standing=whole.placed.matrices)
    return [str(each) for each in room_faults(moments_of(making, done), whole.shop)]


def _sawn(whole: Made, fits: Callable[[Operation], bool]) -> Operation:
    """The first pass at the saw of some kind."""
    return next(each for each in _at_saw(whole) if fits(each))


def _at_saw(whole: Made) -> Iterator[Operation]:
    for each in whole.making.operations:
        if each.rig is not None and each.rig.machine is Machine.TABLE_SAW and not each.is_rough:
            yield each


@pytest.mark.parametrize("name", NAMES)
def test_blade_and_head_have_room_in_a_model(name: str) -> None:
    assert told(model(name)) == []


def _is_crosscut(each: Operation) -> bool:
    return isinstance(each.setting, Slice) and each.setting.off in ENDS and not _leans(each)


def _leans(each: Operation) -> bool:
    setting = each.setting
    return isinstance(setting, Slice) and bool(setting.lean_deg) and setting.long_face in WIDE_FACES


def _is_rip(each: Operation) -> bool:
    return (
        each.rig is not None and each.rig.guide is Guide.FENCE and isinstance(each.setting, Slice)
    )


def _turned(hold: Hold, name: str) -> Hold:
    face: Face = getattr(hold, name)
    return replace(hold, **{name: face.opposite})


def test_a_stop_at_what_falls_off_traps_it() -> None:
    herb = model("herb_stand")
    each = _sawn(herb, lambda each: _is_crosscut(each) and len(each.gives) == 1)
    found = told(herb, replace(each, hold=_turned(each.hold, "stop")))
    assert f"{each.key}: what falls off is trapped between blade and stop" in found


def _alone(whole: Made, each: Operation, changed: Operation) -> list[str]:
    """What has no room when all until an operation is done, and then that one otherwise."""
    order = whole.making.operations
    making = HandMade(whole.making.workpieces, (*order[: order.index(each)], changed))
    done = replay(making, whole.target.tool, whole.target.segments, standing=whole.placed.matrices)
    return [str(one) for one in room_faults(moments_of(making, done), whole.shop)]


def test_a_strip_between_fence_and_blade_is_trapped() -> None:
    herb = model("herb_stand")
    each = _sawn(herb, _is_rip)
    assert isinstance(each.setting, Slice)
    narrow = replace(each.setting, at_mm=each.setting.at_mm - 20.0)
    found = _alone(herb, each, replace(each, setting=narrow, hold=_turned(each.hold, "against")))
    assert f"{each.key}: what falls off is trapped between blade and fence" in found


def test_a_mitre_at_the_stop_lies_over_the_lean_never_under_it() -> None:
    herb = model("herb_stand")
    each = _sawn(herb, _leans)
    found = told(herb, replace(each, hold=_turned(each.hold, "down")))
    assert f"{each.key}: what is at the stop is trapped under the blade" in found


def test_a_stop_touches_the_point_that_is_measured_from() -> None:
    """Two mitred ends that look one way: the long point of one face is not that of the other."""
    herb = model("herb_stand")
    found = []
    for each in _at_saw(herb):
        if _leans(each):
            assert isinstance(each.setting, Slice)
            assert each.setting.long_face is not None
            other = replace(each.setting, long_face=each.setting.long_face.opposite)
            found += told(herb, replace(each, setting=other))
    assert any("bears on another point than the cut is measured from" in each for each in found)


def test_a_fence_or_a_stop_in_the_blades_way_is_found() -> None:
    herb = model("herb_stand")
    rip, cut = _sawn(herb, _is_rip), _sawn(herb, _is_crosscut)
    for each, what in ((rip, "fence"), (cut, "stop")):
        assert isinstance(each.setting, Slice)
        near = replace(each.setting, at_mm=0.5)
        found = _alone(herb, each, replace(each, setting=near))
        assert f"{each.key}: the blade runs into the {what}" in found


def test_a_head_that_saws_into_its_stop_is_told_to() -> None:
    piece = made(LEVEL_WITH_THE_POST.build())
    assert told(piece) == []
    step = _sawn(piece, lambda each: each.stop_block is StopBlock.SCRAP)
    assert isinstance(step.setting, Trench)
    beside = replace(step, setting=replace(step.setting, near_mm=1e-3))
    assert f"{step.key}: the head runs into the stop" in told(piece, beside)


def test_a_head_that_runs_on_beyond_its_mark_is_found() -> None:
    steps = piece_of("yarn_steps")
    whole = made(steps, shop=replace(usual_or(None, steps.shown), bits=None))
    assert told(whole) == []
    each = _sawn(whole, lambda each: bool(each.begins))
    assert isinstance(each.setting, Trench)
    short = replace(each, setting=replace(each.setting, run_out_mm=1.0))
    assert f"{each.key}: the head saws on beyond its mark" in told(whole, short)


def test_wood_that_hangs_over_or_is_too_thick_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    herb = model("herb_stand")
    monkeypatch.setattr("tests.making.room.SLED_MM", 60.0)
    assert any("hangs over the sled" in each for each in told(herb))
    monkeypatch.setattr("tests.making.room.SAWS_MM", 10.0)
    assert any("thicker than the blade" in each for each in told(herb))
