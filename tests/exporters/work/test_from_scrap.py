"""Spacers and cauls are sawn before what asks for them, while the saw stands ready for that."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from exporters.work import Work, WorkWords, work_of
from furniture.assembly import assembly_of
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
from tests.everywhere.designs import drawn
from tests.exporters.work.sheet_words import whole_work
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models
BY_SPACERS = (LayOut.SPACER, LayOut.SPACER_FROM_FIRST)


def faults_of(piece: Piece, work: Work) -> Iterator[str]:
    """What a glue-up or a row asks for and does not find there in time, or as many."""
    making = work.making
    at = {each.key: index for index, each in enumerate(making.operations)}
    scraps = [each for each in making.operations if each.scrap is not None]
    for stage in work.found.stages if isinstance(work.found, GlueUps) else ():
        pads = [pad.caul for line in stage.clamps for pad in line.pads]
        wanted = {
            CaulShape.WEDGE: pads.count(Caul.MITRE_CUT),
            CaulShape.CORNER: sum(len(band.pressed) for band in stage.bands),
        }
        closed = next(at[each.key] for each in making.operations if _closes(each, stage.number))
        for shape, count in wanted.items():
            made = sum(
                each.scrap.count
                for each in scraps
                if isinstance(each.scrap, SawnCauls)
                and at[each.key] < closed
                and (each.scrap.shape, each.scrap.glue_up) == (shape, stage.number)
            )
            if made != count:
                yield f"{made} {shape.value} for glue-up {stage.number}, which asks for {count}"
    for row in laid_out(making, piece.rules):
        if row.expected.way in BY_SPACERS:
            first = at[row.operations[0]]
            before = {each.key for each in scraps if isinstance(each.scrap, SawnSpacers)}
            asked = {after.key for after in making.operations[first].after} & before
            if not asked or max(at[key] for key in asked) > first:
                yield f"no spacers for {row.operations[0]}"
    for each in scraps:
        if isinstance(each.scrap, SawnSpacers) and not _stands(making, at[each.key]):
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
    found = faults_of(
        piece_of("tea_box"), Work(making=Making(workpieces=(), operations=bare), found=work.found)
    )
    assert list(found) == ["0 corner cauls for glue-up 1, which asks for 4"]


def test_they_are_told_where_they_are_sawn() -> None:
    for name, said in {
        "herb_stand": "scrap: saw 4 spacers of 150 alike, for dados in post",
        "key_rack": "scrap: saw 5 spacers of 60 alike, for bores in peg rail",
        "tea_box": "scrap: saw 4 cauls with a V of 90° to lie over a corner, for glue-up 1",
        "yarn_steps": "scrap: saw 4 cauls with a face at 45°, for glue-up 3",
    }.items():
        making = whole_work(name).making
        words = WorkWords(piece_of(name), making)
        told = [words.line_of(e) for e in making.operations if e.kind is Kind.FROM_SCRAP]
        assert any(each.startswith(said) for each in told)
