"""A figure that is nonsense is refused, wherever it stands; it never breaks the run."""

from __future__ import annotations

import pytest

from furniture import DesignError, Problem
from tests.everywhere.designs import drawn
from tests.everywhere.nonsense import made_nonsense


@pytest.mark.seeds(few=3, full=100)
def test_a_figure_that_is_nonsense_is_refused_or_built(seed: int) -> None:
    """A tenon in a board, and a flap in a lid, of no thickness broke it once."""
    design = drawn(seed)
    told: dict[str, tuple[Problem, ...]] = {}
    for where, figures in made_nonsense(design.figures):
        try:
            design.make(**figures).build()
        except DesignError as error:
            told[where] = error.problems
    assert told
    assert [
        where for where, found in told.items() if not all(p.given and p.why for p in found)
    ] == []
