"""The making of every model and of random pieces: replayed, counted up, and asked for its order."""

from __future__ import annotations

import pytest

from tests.everywhere.designs import drawn
from tests.making.laws import broken_laws
from tests.making.made import amiss, amiss_in, made, model
from tests.making.set_twice import set_twice
from tests.models import NAMES

pytestmark = pytest.mark.some_models


@pytest.mark.parametrize("name", NAMES)
def test_parts_come_out_of_the_settings_of_a_model(name: str) -> None:
    """From rough blanks with few facets; from boards, and round where it is round: test_exact."""
    assert amiss_in(name).parts == {}
    assert amiss_in(name).done.by_hand == ()


@pytest.mark.parametrize("name", NAMES)
def test_workpieces_are_as_large_as_they_say(name: str) -> None:
    assert amiss_in(name).done.untrue == ()


@pytest.mark.parametrize("name", NAMES)
def test_every_cut_and_size_is_realised_once(name: str) -> None:
    assert broken_laws(model(name).making, model(name).piece) == []


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_a_model_serves(name: str) -> None:
    assert sorted(map(str, amiss_in(name).faults)) == []


@pytest.mark.seeds(few=3, full=100)
def test_random_pieces_come_out_of_their_settings(seed: int) -> None:
    whole = made(drawn(seed).piece)
    assert broken_laws(whole.making, whole.piece) == []
    assert set_twice(whole.making) == []
    found = amiss(whole)
    assert found.parts == {}
    assert sorted(map(str, found.faults)) == []


@pytest.mark.parametrize(
    "seed",
    [335817, 611796, 34850, 229310, 756114, 181073, 11776, 1000, 233140, 792115],
    ids=["a trimmed end", "a bored stub", "gains in mitred rails", "runs that close on each other",
         "keys and splines", "a bit just near enough", "a panel that is screwed on",
         "gains of a flap and its lid", "a post of strips between stubs", "holes that overlap"],
)  # fmt: skip
def test_pieces_that_once_came_in_a_wrong_order(seed: int) -> None:
    """A rabbet at an end that is trimmed, in wood just too short; a bore beside a mitre.

    A rail was measured before its length; a hinge's gains run between marks, and a hung lid has no
    opening to be measured. A key was fitted like a spline, before its slot; a bit of 12 mm is near
    enough to 12.05. A panel that is screwed on lies in no opening. Gains of one hinge were set for
    in its lid, and again in its flap. A post of strips stood between what was measured, uncounted.
    Of two holes that overlap the second began in the air.
    """
    whole = made(drawn(seed).piece)
    assert broken_laws(whole.making, whole.piece) == []
    assert set_twice(whole.making) == []
    assert sorted(map(str, amiss(whole).faults)) == []


def test_a_bit_as_near_to_a_width_as_the_shop_allows_leaves_that_width() -> None:
    """A dado of 9.5 mm, routed along a straight edge by a bit of 9.525 mm."""
    assert amiss(made(drawn(43369).piece)).parts == {}
