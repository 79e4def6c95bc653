"""Parameter sets keep what was given, name by name, and go into plain data as typed."""

from __future__ import annotations

import json

from furniture import SLIP, TOP_FRONT, EdgeProfile, Load, Tier, inches
from furniture.units import REQUIRED, as_given, parameters
from furniture.units.parameters import misspelt_in


@parameters
class Bench:
    height: str = REQUIRED
    vice: str = "front"


def test_what_was_given_is_kept_and_defaults_fill_the_rest():
    bench = Bench(height="900 mm")
    assert (bench.height, bench.vice) == ("900 mm", "front")
    assert misspelt_in(bench) == ()


def test_unknown_names_are_remembered_and_missing_ones_do_not_raise():
    bench = Bench(hieght="900 mm")
    assert misspelt_in(bench) == ("hieght",)
    assert bench.height is None


def test_given_figures_go_into_plain_data_as_typed():
    profile = EdgeProfile(on="tiers", edges=(TOP_FRONT,), radius="1/8 in")
    data = as_given([profile, SLIP, inches(32), Load(on="lid", footprint=("3 in", "3 in"))])
    assert data[0] == {
        "on": "tiers",
        "edges": ["face side / face edge"],
        "kind": "round-over",
        "radius": "1/8 in",
    }
    assert data[1] == "slip"
    assert data[2]["unit"] == "in"
    assert data[3]["footprint"] == ["3 in", "3 in"]
    json.dumps(data, allow_nan=False)


def test_not_a_number_never_reaches_plain_data():
    data = as_given(Tier(width=float("nan"), depth=float("inf")))
    assert data["width"] == "nan"
    assert data["depth"] == "inf"
    json.dumps(data, allow_nan=False)
