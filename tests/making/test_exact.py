"""The models from their boards in the exact kernel: every part, and what is left over."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from furniture.making.settings import Trench
from furniture.solids.make import solid_of
from tests.making.exact import ExactKernel
from tests.making.hand_made import HandMade
from tests.making.replay import Replayed, replay
from tests.making.targets import SAME_MM3
from tests.making.test_from_boards import from_boards, left_but_planned
from tests.models import NAMES

pytestmark = pytest.mark.some_models


@cache
def done(name: str) -> Replayed:
    """A model's work in the exact kernel."""
    made, _ = from_boards(name)
    return replay(made.making, kernel=ExactKernel(), standing=made.placed.matrices)


def unlike(name: str, done: Replayed) -> list[str]:
    """Instances whose volume or whose wood differs from the solid that the packet draws."""
    found = []
    for placed in from_boards(name)[0].piece.placed:
        made, asked = done.parts[placed.instance].shape, solid_of(placed.part)
        apart = sum(
            solid.Volume()
            for one, other in ((made, asked), (asked, made))
            for solid in one.cut(other).Solids()
        )
        if apart > SAME_MM3 or abs(made.Volume() - asked.Volume()) > SAME_MM3:
            found.append(placed.instance)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_every_part_is_the_same_solid(name: str) -> None:
    assert unlike(name, done(name)) == []


def test_a_rabbet_that_is_a_tenth_too_deep_is_found_in_all_rails() -> None:
    making = from_boards("tea_box")[0].making
    rabbet = next(each for each in making.operations if isinstance(each.setting, Trench))
    assert isinstance(rabbet.setting, Trench)
    setting = replace(rabbet.setting, depth_mm=rabbet.setting.depth_mm + 0.1)
    wrong = HandMade(
        making.workpieces,
        tuple(
            replace(each, setting=setting) if each is rabbet else each for each in making.operations
        ),
    )
    cut = {each.instance for each in rabbet.cuts}
    assert set(unlike("tea_box", replay(wrong, kernel=ExactKernel()))) == cut


@pytest.mark.parametrize("name", NAMES)
def test_what_is_left_over_is_as_planned(name: str) -> None:
    made, outcome = from_boards(name)
    assert left_but_planned(made, outcome, done(name)) == []
