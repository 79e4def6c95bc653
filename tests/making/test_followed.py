"""Figures set from what was measured name the measurement, the right one, and come after it."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from furniture.making.operations import FitTo, Follows, Kind, Operation
from tests.everywhere.designs import drawn
from tests.making.bench import Bench
from tests.making.followed import unfollowed, without
from tests.making.made import Made, made, model
from tests.making.plant import Planted
from tests.models import NAMES

pytestmark = pytest.mark.some_models


def faults(whole: Made, operations: tuple[Operation, ...] | None = None) -> list[str]:
    """What is amiss in a making, or in its operations as they were changed."""
    own = whole.making.operations if operations is None else operations
    making = Planted(whole.making.workpieces, own, "")
    bench = Bench(making=making, moments=(), piece=whole.piece, placed=whole.placed)
    return [str(each) for each in unfollowed(bench)]


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_of_a_model_names_what_it_follows(name: str) -> None:
    assert faults(model(name)) == []


@pytest.mark.seeds(few=6, full=100)
def test_every_figure_of_any_design_names_what_it_follows(seed: int) -> None:
    assert faults(made(drawn(seed).piece)) == []


def changed(whole: Made, key: str, fit_to: tuple[FitTo, ...]) -> tuple[Operation, ...]:
    """The operations with one that names something else."""
    return tuple(
        replace(each, fit_to=fit_to) if each.key == key else each
        for each in whole.making.operations
    )


def followers(whole: Made) -> list[tuple[Operation, FitTo]]:
    """All that names a measurement."""
    return [(each, fit) for each in whole.making.operations for fit in each.fit_to]


@pytest.mark.parametrize("name", ["herb_stand", "yarn_steps", "button_box"])
def test_one_that_names_no_measurement_is_found(name: str) -> None:
    whole = model(name)
    assert {fit.figure for _, fit in followers(whole)} >= {Follows.SIZE, Follows.WIDTH}
    for each, fit in followers(whole):
        told = faults(whole, changed(whole, each.key, without(each, fit.figure)))
        assert any(line.startswith(f"{each.key}: its {fit.figure.value} names") for line in told)


@pytest.mark.parametrize("name", ["herb_stand", "yarn_steps", "button_box"])
def test_one_that_names_another_measurement_is_found(name: str) -> None:
    whole = model(name)
    looks = [e.key for e in whole.making.operations if e.kind in (Kind.MEASURE, Kind.DRY_FIT)]
    for each, fit in followers(whole):
        for key in {key for key in looks if key not in {fit.key for fit in each.fit_to}}:
            wrong = (*(one for one in each.fit_to if one != fit), FitTo(fit.figure, key))
            assert faults(whole, changed(whole, each.key, wrong)), (each.key, key)


@pytest.mark.parametrize("name", ["herb_stand", "yarn_steps", "button_box"])
def test_one_that_is_done_before_its_measurement_is_found(name: str) -> None:
    whole, dice = model(name), random.Random(name)
    for each, fit in followers(whole):
        order = [one for one in whole.making.operations if one.key != each.key]
        first = next(at for at, one in enumerate(order) if one.key == fit.key)
        order.insert(dice.randint(0, first), each)
        told = faults(whole, tuple(order))
        assert f"{each.key}: {fit.key} is not done by then" in told


def test_what_is_only_laid_on_and_screwed_follows_no_opening() -> None:
    """A hazard's sound neighbour: the key rack is cut to its drawing but for its dados."""
    assert {fit.figure for _, fit in followers(model("key_rack"))} <= {Follows.WIDTH}
