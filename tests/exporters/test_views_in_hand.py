"""The wood that small pictures show, pass by pass, held against another kernel's solids."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from exporters.views.in_hand import Held, passes_on, section_of
from furniture.making.settings import ByHand
from tests.exporters.work.sheet_words import whole_work
from tests.making.replay import LIGHT, replay

_TURNS = ((0.0, -90.0, 0.0), (90.0, 0.0, 0.0), (0.0, 0.0, 0.0))
"""Turns that lay each axis along z."""


def _area(solid: Manifold, across: int, at: float) -> float:
    turned = solid.rotate(_TURNS[across])
    low, high = solid.bounding_box()[across], solid.bounding_box()[across + 3]
    ends = turned.bounding_box()[2], turned.bounding_box()[5]
    z = ends[0] + (at - low) if abs(ends[0] - low) < 1e-6 else ends[1] - (at - low)
    assert ends[1] - ends[0] == pytest.approx(high - low)
    return float(turned.slice(z).area())


def _tool(_: object) -> Manifold:
    return Manifold()


def _looked_at(wood: Held) -> list[tuple[int, float]]:
    """Planes off the middle, where no pass stops."""
    return [(axis, wood.low[axis] + share * wood.size(axis))
            for axis in range(3) for share in (0.013, 0.517, 0.983)]  # fmt: skip


@pytest.mark.parametrize("name", ["herb_stand", "yarn_steps", "tea_box"])
def test_every_pass_leaves_the_sections_that_another_kernel_leaves(name):
    making = whole_work(name).making
    found = passes_on(making)
    steps = {each.operation.key: each for each in replay(making, _tool, LIGHT).steps}
    assert len(found) > 20
    looked = 0
    for key, one in found.items():
        if isinstance(steps[key].operation.setting, ByHand):
            continue
        for wood, solid in ((one.before, steps[key].before), (one.after, steps[key].kept)):
            for axis, at in _looked_at(wood):
                expected = _area(solid, axis, at)
                assert section_of(wood, axis, at).area == pytest.approx(
                    expected, rel=2e-3, abs=0.5
                ), f"{key}, across {axis} at {at}"
                looked += 1
    assert looked > 100
