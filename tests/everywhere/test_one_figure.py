"""One housing has one figure: on its sheet, in section, on the story stick, in the tables."""

from __future__ import annotations

import copy
from pathlib import Path

import pytest

from tests.everywhere.designs import drawn
from tests.everywhere.one_figure import SIZES, faults_of_figures
from tests.everywhere.walk import Walk

IN_INCHES = 7
"""The seed of a piece in fractions of an inch whose parts stand on a list."""


@pytest.mark.seeds(few=1, full=80)
def test_one_housing_has_one_figure_everywhere(seed: int, tmp_path: Path) -> None:
    """Every printed figure of it is the model's, rounded once, and printed figures add up."""
    piece = drawn(seed).piece
    record = Walk(piece, tmp_path).record
    assert faults_of_figures(piece, record, tmp_path) == []


def test_a_figure_that_strays_is_seen(tmp_path: Path) -> None:
    """A size off in the model alone is a fault of every output that prints it."""
    piece = drawn(IN_INCHES).piece
    record = copy.deepcopy(Walk(piece, tmp_path).record)
    for part in record["parts"]:
        part["thickness_mm"] += 2.0
        for cut in part["cuts"]:
            if cut["kind"] in SIZES:
                cut[SIZES[cut["kind"]][0]] += 0.4
    faults = faults_of_figures(piece, record, tmp_path)
    outputs = {each.partition(":")[0] for each in faults}
    assert {"parts.csv", "parts list"} < outputs
