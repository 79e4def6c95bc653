"""A length has one name: what a run tells, what the job file takes, what a refusal complains of."""

from __future__ import annotations

import math
import runpy
from dataclasses import replace
from typing import Any

import pytest

from furniture import DesignError, Stock, Tier, TierRule
from furniture.job.levers import levers_of, with_lever
from tests.builders.bench import a_stand
from tests.models import ROOT

SCRIPTS = sorted((ROOT / "models").glob("*.py"))


def _design(script: Any) -> Any:
    made = runpy.run_path(str(script)).values()
    return next(each for each in made if hasattr(each, "build") and not isinstance(each, type))


def _each_stated(design: Any) -> Any:
    """The design with tiers of a rule stated one by one, so that each has figures of its own."""
    tiers = getattr(design, "tiers", None)
    several = tiers.one_by_one() if isinstance(tiers, TierRule) else ()
    return replace(design, tiers=list(several)) if several else design


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.stem)
def test_a_length_goes_by_the_name_that_a_refusal_has_for_it(script: Any) -> None:
    """All are made unreadable, then those that nothing was said of, since others hid them."""
    design = _each_stated(_design(script))
    left = {each.name: each for each in levers_of(design)}
    assert len(left) == len(levers_of(design))
    while left:
        spoilt = design
        for lever in left.values():
            spoilt = with_lever(spoilt, lever, math.nan)
        with pytest.raises(DesignError) as error:
            spoilt.build()
        told = {each.parameter for each in error.value.problems} & left.keys()
        assert told, f"refused by other names: {list(left)}"
        left = {name: each for name, each in left.items() if name not in told}


def test_what_is_of_several_is_counted_from_one() -> None:
    thick = Stock(name="ash, wide", species="white ash", thickness="19 mm")
    stand = a_stand(tiers=[Tier(width="200 mm", depth="150 mm", rise="150 mm")] * 2,
                    own_stock={"lid": thick})  # fmt: skip
    names = {each.name: each.in_script for each in levers_of(stand)}
    assert names["tier 2 depth"] == "tiers[1].depth"
    assert names["own_stock['lid'] (ash, wide) thickness"] == "own_stock['lid'].thickness"
    lone = a_stand(tiers=Tier(width="200 mm", depth="150 mm", rise="150 mm"))
    assert "tier 1 depth" in {each.name for each in levers_of(lone)}


def test_a_rail_that_cannot_be_read_is_refused_under_a_sliding_lid_too() -> None:
    box = _design(ROOT / "models" / "button_box.py")
    with pytest.raises(DesignError, match="thickness"):
        replace(box, rails=replace(box.rails, thickness="thick")).build()
