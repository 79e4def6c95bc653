"""A rail butted in plain glue does not set before the mitres of its ring are closed."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import pytest

from exporters.work.glue_words import GlueWords
from furniture.assembly import assembly_of, scene_of
from furniture.making.glue_ups import GlueUps, Stage, stages_of
from furniture.making.glue_ups.butts import mitres_met_by_butts
from furniture.pieces import Piece
from tests.everywhere.designs import drawn
from tests.making.glue_checker import faults_of
from tests.models import NAMES, piece_of

RINGS = (5001, 5009, 6021)
"""Designs: a front rail mitred to side rails, which are butted in plain glue to two uprights."""


@lru_cache
def glued(seed: int) -> tuple[Piece, GlueUps]:
    """A random design and its glue-ups."""
    piece = drawn(seed).piece
    scene = scene_of(piece)
    found = stages_of(piece, assembly_of(piece, scene), scene=scene)
    assert isinstance(found, GlueUps)
    return piece, found


def stage_that_closes(found: GlueUps, one: str, other: str) -> Stage:
    """The stage in which two parts are glued together."""
    return next(
        stage for stage in found.stages
        if any({each.into, each.incoming} == {one, other} for each in stage.glued)
    )  # fmt: skip


def askew(piece: Piece, found: GlueUps) -> list[str]:
    return [each for each in faults_of(piece, found) if "mitre still open" in each]


@pytest.mark.parametrize("seed", RINGS)
def test_side_rails_are_butted_when_their_mitres_are_closed(seed: int) -> None:
    piece, found = glued(seed)
    for side in ("left", "right"):
        mitre = stage_that_closes(found, f"{side} side rail", "front rail")
        butt = stage_that_closes(found, f"{side} side rail", f"{side} upright")
        assert mitre.number <= butt.number
    assert askew(piece, found) == []


@pytest.mark.parametrize("seed", RINGS)
def test_butted_before_they_are_found(seed: int) -> None:
    """Planted: the butts of the side rails close in the stage before their mitres do."""
    piece, found = glued(seed)
    mitre = stage_that_closes(found, "left side rail", "front rail")
    butt = stage_that_closes(found, "left side rail", "left upright")
    moved = tuple(each for each in butt.glued if "side rail" in f"{each.into} {each.incoming}")
    first = replace(mitre, glued=moved, held_true_by=())
    stages = [each for each in found.stages if each is not mitre]
    stages.insert(stages.index(butt), first)
    then = replace(butt, glued=(*(e for e in butt.glued if e not in moved), *mitre.glued))
    stages[stages.index(butt)] = then
    told = askew(piece, replace(found, stages=tuple(stages)))
    assert any("glues left side rail to left upright" in each for each in told), told


@pytest.mark.parametrize("seed", RINGS)
def test_what_they_are_butted_to_is_put_on_dry_where_it_is_one_already(seed: int) -> None:
    piece, found = glued(seed)
    mitre = stage_that_closes(found, "left side rail", "front rail")
    uprights = {"left upright", "right upright"}
    before = [each for each in found.stages if each.number < mitre.number]
    lots = [{name for body in each.bodies for name in body} for each in before]
    assert (uprights <= {*mitre.held_true_by}) is any(uprights <= lot for lot in lots)
    words = " ".join(GlueWords(piece=piece).sentences_of(mitre)) if mitre.held_true_by else ""
    assert ("on dry" in words) is bool(mitre.held_true_by)


def test_dowels_say_where_a_rail_goes() -> None:
    """The sound case: stubs with dowels are glued to their post before the ring closes."""
    for name in NAMES:
        assert mitres_met_by_butts(piece_of(name)) == {}
    first = glued_model("herb_stand").stages[0]
    assert {name for body in first.bodies for name in body} == {"left stub", "post", "right stub"}


def test_a_butt_that_closes_no_ring_may_be_first() -> None:
    """Planted: without the uprights' back rail and tiers nothing leads round to the other mitre."""
    piece, _ = glued(5001)
    met = mitres_met_by_butts(piece)
    assert met
    apart = tuple(
        each for each in piece.joinings
        if "side rail" in f"{each.into} {each.incoming}" and "right" not in each.into
    )  # fmt: skip
    assert mitres_met_by_butts(replace(piece, joinings=apart)) == {}


def glued_model(name: str) -> GlueUps:
    piece = piece_of(name)
    found = stages_of(piece, assembly_of(piece))
    assert isinstance(found, GlueUps)
    return found
