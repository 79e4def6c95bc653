"""Spacers and cauls are sawn before what asks for them, while the saw stands ready for that."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from exporters.command import DONE, run
from exporters.work import Work, WorkWords, work_of
from furniture import FootedStand, Stock, Tier
from furniture.assembly import assembly_of
from furniture.making.amounts import Reach
from furniture.making.bench.laying_out import LayOut
from furniture.making.glue_ups import Caul, GlueUps
from furniture.making.laid_out import laid_out
from furniture.making.making import Making
from furniture.making.operations import (
    CLOSES,
    CaulShape,
    Kind,
    Operation,
    SawnCauls,
    SawnSpacers,
)
from furniture.making.rigs import SQUARING
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import Machine
from furniture.pieces import Piece
from furniture.shop.tools.reading import usual_or
from tests.everywhere.designs import drawn
from tests.exporters.work.sheet_words import whole_work
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models
ONE_SIZE = (CaulShape.CORNER, CaulShape.SQUARE, CaulShape.ACROSS)
BY_SPACERS = (LayOut.SPACER, LayOut.SPACER_FROM_FIRST)


def faults_of(piece: Piece, work: Work) -> Iterator[str]:
    """What a glue-up or a row asks for and does not find there in time, or as many."""
    making = work.making
    at = {each.key: index for index, each in enumerate(making.operations)}
    most: dict[tuple[CaulShape, int], int] = {}
    scraps = [each for each in making.operations if each.scrap is not None]
    for stage in work.found.stages if isinstance(work.found, GlueUps) else ():
        (gluing,) = [each for each in making.gluing if each.number == stage.number]
        heads: Counter[Caul] = Counter()
        for each in gluing.pressing:
            clamps = 1 if each.reach is Reach.CAUL_ACROSS else max(1, each.clamps.count)
            for pad in each.line.pads:
                heads[pad.caul] += clamps
        wanted = {
            CaulShape.WEDGE: heads[Caul.MITRE_CUT],
            CaulShape.CORNER: sum(len(band.pressed) for band in stage.bands),
            CaulShape.SQUARE: heads[Caul.SQUARE],
            CaulShape.BLOCK: heads[Caul.BLOCK],
            CaulShape.ACROSS: 2 * sum(e.reach is Reach.CAUL_ACROSS for e in gluing.pressing),
        }
        closed = next(at[each.key] for each in making.operations if _closes(each, stage.number))
        for shape, count in wanted.items():
            made = sum(
                each.scrap.count
                for each in scraps
                if isinstance(each.scrap, SawnCauls)
                and at[each.key] < closed
                and each.scrap.shape is shape
                and stage.number in each.scrap.glue_ups
            )
            most[shape, made] = max(most.get((shape, made), 0), count)
            if made < count:
                yield f"{made} {shape.value} for glue-up {stage.number}, which asks for {count}"
        long = [each.scrap.long_mm for each in scraps if isinstance(each.scrap, SawnCauls)
                and stage.number in each.scrap.glue_ups
                and each.scrap.shape is CaulShape.ACROSS]  # fmt: skip
        for each in gluing.pressing:
            far = 2.0 * each.line.throat_mm  # as far in from either side, or farther from one
            if each.reach is Reach.CAUL_ACROSS and min(long, default=0.0) <= far:
                yield f"a caul of {long} does not lie across in glue-up {stage.number}"
        blocks = {
            name: each.scrap.block
            for each in scraps
            if isinstance(each.scrap, SawnCauls) and stage.number in each.scrap.glue_ups
            for name in each.scrap.on
            if each.scrap.block is not None
        }
        for pad in (pad for line in stage.clamps for pad in line.pads if pad.caul is Caul.BLOCK):
            block = blocks.get(pad.instance)
            if block is None or not (block.high_mm > pad.rise_mm and block.wide_mm <= pad.free_mm):
                yield f"a block on {pad.instance} does not clear what stands beside it"
    yield from (
        f"{made} {shape.value}, more than any glue-up asks for"
        for (shape, made), count in most.items()
        if made > count and shape in ONE_SIZE
    )
    for row in laid_out(making, piece.rules):
        if row.expected.way in BY_SPACERS:
            first = at[row.operations[0]]
            before = {each.key for each in scraps if isinstance(each.scrap, SawnSpacers)}
            asked = {after.key for after in making.operations[first].after} & before
            if not asked or max(at[key] for key in asked) > first:
                yield f"no spacers for {row.operations[0]}"
    for each in scraps:
        if each.rig == SQUARING and not _stands(making, at[each.key]):
            yield f"{each.key} come under a cutter that is fitted for others"


def _closes(operation: Operation, number: int) -> bool:
    stage = operation.glue_up
    return operation.kind in CLOSES and stage is not None and stage.number == number


def _stands(making: Making, at: int) -> bool:
    """Whether the plain blade stood on the saw, or had to be fitted in any case."""
    at_the_saw = [
        each.rig
        for each in making.operations[:at]
        if each.rig is not None and each.rig.machine is Machine.TABLE_SAW and not each.is_rough
    ]
    return SQUARING not in at_the_saw or at_the_saw[-1] == SQUARING


@pytest.mark.parametrize("name", NAMES)
def test_what_is_sawn_from_scrap_is_there_and_asks_for_no_set_up(name: str) -> None:
    piece, work = piece_of(name), whole_work(name)
    assert list(faults_of(piece, work)) == []
    without = [each for each in work.making.operations if each.scrap is None]
    assert len(set_ups_of(without)) == len(work.making.set_ups)


@pytest.mark.seeds(few=3, full=100)
def test_on_any_design_it_is_there_in_time(seed: int) -> None:
    """Wedges and corner cauls were asked for by glue-ups, and no step made them."""
    piece = drawn(seed).piece
    work = work_of(piece, order=assembly_of(piece))
    assert list(faults_of(piece, work)) == []


def test_a_glue_up_without_its_cauls_is_found() -> None:
    work = whole_work("tea_box")
    bare = tuple(each for each in work.making.operations if each.scrap is None)
    making = Making(workpieces=(), operations=bare, gluing=work.making.gluing)
    found = faults_of(piece_of("tea_box"), Work(making=making, found=work.found))
    assert list(found) == ["0 corner cauls for glue-up 1, which asks for 4"]


@pytest.mark.parametrize("name", ["herb_stand", "yarn_steps"])
def test_what_no_throat_reaches_has_its_cauls_sawn(name: str) -> None:
    """They were told with the clamps, and no step sawed them; with longer throats none are.

    The post of the herb stand is 110 wide, and a caul's ends stand clear of the tier before it when
    it is turned by 15 degrees: 110 / cos 15 and a head of 30 beyond at either end are 173.9.
    """
    piece, usual = piece_of(name), usual_or(None, piece_of(name).shown)
    throats = {
        30.0: replace(usual, clamps=tuple(replace(e, throat_mm=30.0) for e in usual.clamps)),
        500.0: replace(usual, clamps=tuple(replace(e, throat_mm=500.0) for e in usual.clamps)),
    }
    for throat, shop in throats.items():
        work = work_of(piece, shop, order=assembly_of(piece))
        assert list(faults_of(piece, work)) == []
        words = WorkWords(piece, work.making)
        told = [words.line_of(e) for e in work.making.operations if e.kind is Kind.FROM_SCRAP]
        long = {"herb_stand": "at least 175 long", "yarn_steps": "stiff cauls"}[name]
        assert any("stiff cauls to lie across, at least " in e and long in e for e in told) is (
            throat < 100.0
        ), told
        short = [
            replace(e, scrap=replace(e.scrap, long_mm=60.0))
            if isinstance(e.scrap, SawnCauls) and e.scrap.shape is CaulShape.ACROSS
            else e
            for e in work.making.operations
        ]
        planted = Work(making=replace(work.making, operations=tuple(short)), found=work.found)
        assert any("does not lie across" in e for e in faults_of(piece, planted)) is (
            throat < 100.0
        )


def test_what_is_sawn_is_asked_no_more_but_where_the_row_has_moved(tmp_path: Path) -> None:
    """Its step is ticked in a job file; with the tiers further apart the spacers are others."""
    design = tiers("120 mm")
    first = _run(design, tmp_path / "one")
    rows = [each for each in first["work"]["operations"] if each["scrap"]]
    assert "spacers" in {each["scrap"]["what"] for each in rows}
    job = tmp_path / "job.toml"
    job.write_text(
        f'packet = "one"\n[done]\nsteps = {[each["step"] for each in rows]}\n', encoding="utf-8"
    )
    for step, left in (("120 mm", set[str]()), ("130 mm", {"spacers"})):
        now = _run(tiers(step), tmp_path / "two", "--job", str(job))
        assert _asked(now) == left
        again = _run(tiers(step), tmp_path / "three", "--job", str(_next(tmp_path)))
        assert _asked(again) == left, "of a job that goes on from a job too"


def _asked(record: dict[str, Any]) -> set[str]:
    return {each["scrap"]["what"] for each in record["work"]["operations"] if each["scrap"]}


def _next(folder: Path) -> Path:
    job = folder / "next.toml"
    job.write_text('packet = "two"\n', encoding="utf-8")
    return job


def _run(design: FootedStand, out: Path, *more: str) -> dict[str, Any]:
    assert run(design, ["--out", str(out), "--only", "work", "--quiet", *more]) == DONE
    return json.loads((out / "piece.json").read_text(encoding="utf-8"))  # type: ignore[no-any-return]


def tiers(rise: str) -> FootedStand:
    """Five tiers on a post, one above the other by so much."""
    thick = Stock(name="thick", species="cherry", thickness="22 mm")
    thin = Stock(name="thin", species="cherry", thickness="12 mm")
    tier = Tier(width="220 mm", depth="110 mm", rise=rise)
    return FootedStand(
        name="tiers", thick=thick, thin=thin, base_width="260 mm", base_depth="200 mm",
        post_width="100 mm", tiers=[tier] * 5,
    )  # fmt: skip


def test_they_are_told_where_they_are_sawn() -> None:
    for name, said in {
        "herb_stand": "scrap: saw 4 spacers of 150 alike, for dados in post",
        "key_rack": "scrap: saw 5 spacers of 60 alike, for bores in peg rail",
        "tea_box": "scrap: saw 4 cauls with a V of 90° to lie over a corner, for glue-up 1",
        "yarn_steps": "scrap: saw 4 cauls with a face at 45°, for glue-up 3",
        "seedling_steps": "scrap: saw",
    }.items():
        making = whole_work(name).making
        words = WorkWords(piece_of(name), making)
        told = [words.line_of(e) for e in making.operations if e.kind is Kind.FROM_SCRAP]
        assert any(each.startswith(said) for each in told)
