"""What the builders' tests share: round-numbered designs, their problems, and common volumes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations
from typing import Any

import pytest

from furniture import (
    DesignError,
    Hinge,
    MitredBox,
    Problem,
    Screw,
    SteppedStand,
    Stock,
    Tier,
    TierRule,
    Uprights,
)
from furniture.assembly import AssemblyPlan, assembly_of
from furniture.checks.check import Check
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.bending import bending_findings_of
from furniture.checks.of_piece.seasons import season_findings_of
from furniture.checks.of_piece.supported import supported_of
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Box, box_of
from furniture.pieces import Piece, placed_named
from furniture.solids.make import placed_solid
from furniture.solids.measure import weigh
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts, wasted_cuts

THICK = Stock(name="oak, thick", species="white oak", thickness="20 mm", moisture="8 %")
THIN = Stock(name="oak, thin", species="white oak", thickness="10 mm", moisture="8 %")


def oak(thickness: str) -> Stock:
    """White oak of a measured thickness."""
    return Stock(name=f"oak {thickness}", species="white oak", thickness=thickness, moisture="8 %")


def a_stand(**changes: Any) -> SteppedStand:
    """A stand of round figures, worked by hand in the tests, with some of them changed."""
    given: dict[str, Any] = {
        "thick": THICK,
        "thin": THIN,
        "base_width": "300 mm",
        "base_depth": "200 mm",
        "base_height": "80 mm",
        "post_width": "100 mm",
        "post_proud": "30 mm",
        "tiers": (
            Tier(width="200 mm", depth="100 mm", rise="150 mm"),
            Tier(width="160 mm", depth="80 mm", rise="120 mm"),
        ),
        "dado_depth": "6 mm",
        "fit_clearance": "0.1 mm",
        "flush_allowance": "0.5 mm",
        "rabbet_width": "10 mm",
        "lid_gap_along": "0.5 mm",
        "lid_gap_across": "1 mm",
    }
    return SteppedStand(**{**given, **changes})


def a_box(**changes: Any) -> MitredBox:
    """A box of round figures, worked by hand in the tests, with some of them changed."""
    given: dict[str, Any] = {
        "rails": THICK,
        "lid": THIN,
        "width": "300 mm",
        "depth": "200 mm",
        "height": "80 mm",
        "flush_allowance": "0.5 mm",
        "rabbet_width": "10 mm",
        "lid_gap_along": "0.5 mm",
        "lid_gap_across": "1 mm",
        "finger_size": "24 mm",
    }
    return MitredBox(**{**given, **changes})


def a_hinge(**changes: Any) -> Hinge:
    """A small butt hinge of round figures, with some of them changed."""
    given: dict[str, Any] = {
        "leaf_length": "30 mm", "leaf_width": "9 mm", "leaf_thickness": "1.2 mm",
        "barrel": "4 mm", "screw": Screw(diameter="2 mm", length="8 mm"),
    }  # fmt: skip
    return Hinge(**{**given, **changes})


def problems_of(design: Any) -> tuple[Problem, ...]:
    """Every problem of a design that must be refused."""
    with pytest.raises(DesignError) as caught:
        design.build()
    return caught.value.problems


def parameters_named(design: Any) -> list[str]:
    """The parameters that the refusal of a design names, without names that a maker gave."""
    return [_COUNTED.sub(r"\1", problem.parameter) for problem in problems_of(design)]


_COUNTED = re.compile(r"^([a-z ]+ \d+) \([^)]*\)(?= (?!.*\())")
"""One of several with its own name in brackets, as `load 2 (fern) mass`."""


def part(piece: Piece, instance: str) -> Part:
    """The finished part of an instance."""
    return placed_named(piece, instance).part


def box_round(piece: Piece, instance: str) -> Box:
    """The upright box round an instance's blank [mm]."""
    each = placed_named(piece, instance)
    return box_of(each.part.blank, each.placement)


def near_pairs(piece: Piece) -> Iterator[tuple[Placed, Placed]]:
    """The pairs whose blanks' boxes meet or touch."""
    boxes = {each.instance: box_of(each.part.blank, each.placement) for each in piece.placed}
    for one, other in combinations(piece.placed, 2):
        (low, high), (other_low, other_high) = boxes[one.instance], boxes[other.instance]
        if all(low[a] <= other_high[a] + 1e-6 and other_low[a] <= high[a] + 1e-6 for a in range(3)):
            yield one, other


def common_volumes(piece: Piece) -> dict[tuple[str, str], float]:
    """The wood that two parts claim at once [mm3], for every pair that comes near."""
    solids = {each.instance: placed_solid(each.part, each.placement) for each in piece.placed}
    return {
        (one.instance, other.instance): float(
            solids[one.instance].intersect(solids[other.instance]).Volume()
        )
        for one, other in near_pairs(piece)
    }


def overlapping(piece: Piece) -> dict[tuple[str, str], float]:
    """The pairs that share more than 0.01 mm3 of wood; none in a piece that can be made."""
    return {pair: volume for pair, volume in common_volumes(piece).items() if volume > 0.01}


def by_uprights(**changes: Any) -> SteppedStand:
    """The round-numbered stand on two uprights 120 deep, three tiers stepping back by 30."""
    tiers = TierRule(count=3, depth="160 mm", rise="120 mm", step_back_depth="30 mm")
    given: dict[str, Any] = {
        "uprights": Uprights(depth="120 mm"), "post_width": None, "tiers": tiers,
    }  # fmt: skip
    return a_stand(**{**given, **changes})


def proved(piece: Piece) -> AssemblyPlan:
    """The plan of a piece that passes every proof."""
    assert interferences(piece) == ()
    assert untrue_contacts(piece) == ()
    assert wasted_cuts(piece) == ()
    assert clashing_joints(piece) == ()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    return plan


def bending_of(piece: Piece, *checks: Check) -> list[Finding]:
    """What the bending of its level parts says alone, without all other checks."""
    weighed = weigh(piece)
    told = bending_findings_of(piece, weighed, supported_of(piece, weighed), piece.rules)
    return [each for each in told if each.check in checks]


def seasons_of(piece: Piece, *checks: Check) -> list[Finding]:
    """What its seasons say alone."""
    return [each for each in season_findings_of(piece, Setting()) if each.check in checks]


def is_wood(piece: Piece, instance: str, x: float, y: float, z: float) -> bool:
    """Whether there is wood of that instance at a point of the piece."""
    each = placed_named(piece, instance)
    return bool(placed_solid(each.part, each.placement).isInside((x, y, z), 1e-6))
