"""`work` in piece.json: the firm names, every cut and size once, nothing before its time."""

from __future__ import annotations

import copy
import json
from dataclasses import replace
from datetime import date

import pytest

from exporters.facts import Need, facts_of
from exporters.settings import Output, PacketSettings
from exporters.summary import summary_of, write_summary
from exporters.work import work_record
from exporters.work.tables import work_rows
from exporters.work.work_mark import work_mark
from furniture.making.begun import Begun
from furniture.making.left_to_do import left_to_do
from furniture.making.operations import Kind
from tests.exporters.work.bookkeeping import faults_of
from tests.exporters.work.sheet_words import whole_work
from tests.making.made import model
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

ONLY_WORK = PacketSettings(outputs=frozenset({Output.WORK}), dated=date(2026, 1, 2))
SET_UP = {"id", "rig", "setting", "operations"}
WORKPIECE = {"id", "what", "instances", "size_mm", "from", "at_mm", "axes"}
OPERATION = {
    "n", "key", "stage", "kind", "setup", "takes", "gives", "cuts", "begins", "sizes", "by_mm",
    "kerf_mm", "reference", "kept", "lean", "after", "why", "text", "caution",
}  # fmt: skip


@pytest.fixture(scope="module", params=NAMES)
def summary(request, tmp_path_factory):
    piece = piece_of(request.param)
    path = tmp_path_factory.mktemp("work") / "piece.json"
    record = work_record(piece, whole_work(request.param).making)
    write_summary(summary_of(piece, None, (), ("piece.json",), work=record), path)
    return json.loads(path.read_text(encoding="utf-8"))


def test_it_holds_what_other_programs_ask_for(summary):
    work = summary["work"]
    assert set(work) == {
        "mark", "setups", "workpieces", "operations", "edge_glue_ups", "glue_ups", "finish",
    }  # fmt: skip
    assert all(set(each) >= SET_UP for each in work["setups"])
    assert all(set(each["rig"]) >= {"machine", "cutter", "tilt_deg", "against"}
               for each in work["setups"])  # fmt: skip
    assert all(set(each) >= WORKPIECE for each in work["workpieces"])
    assert all(set(each) >= OPERATION for each in work["operations"])
    assert {each["what"] for each in work["workpieces"]} <= {
        "board", "strip", "part", "offcut", "sub-assembly"
    }  # fmt: skip
    assert {each["kept"] for each in work["operations"]} <= {"left", "right", None}


def test_glue_ups_tell_their_faces_and_each_head_of_a_clamp(summary):
    """Areas by grain add up to the faces of the joints; two heads push against one another."""
    faces: dict[tuple[str, str], float] = {}
    for each in summary["joints"]:
        pair = (each["into"], each["from"])
        area = sum(face["area_mm2"] for face in each["glue"])
        faces[pair] = faces.get(pair, 0.0) + area
    for each in summary["work"]["glue_ups"]:
        told = sum(one["area_mm2"] for one in each["areas"])
        glued = sum(faces[into, incoming] for into, incoming in map(tuple, each["glued"]))
        assert told == pytest.approx(glued, abs=0.1)
        assert each["unpressed"] == []
        for line in each["clamps"]:
            first, second = (pad["push"] for pad in line["pads"])
            assert [a + b for a, b in zip(first, second, strict=True)] == pytest.approx([0, 0, 0])
            apart = [b - a for a, b in zip(line["pads"][0]["at_mm"], line["pads"][1]["at_mm"],
                                           strict=True)]  # fmt: skip
            assert sum(a * b for a, b in zip(first, apart, strict=True)) > 0.0
    finish = summary["work"]["finish"]
    assert finish is None or finish["dry_hours"] >= finish["work_days"]


def test_every_cut_and_size_is_made_once_and_nothing_before_its_time(summary):
    assert faults_of(summary) == []


@pytest.mark.parametrize("spoiled", ["twice", "left out", "early", "set-up", "wood"])
def test_the_bookkeeping_finds_a_planted_fault(summary, spoiled):
    bad = copy.deepcopy(summary)
    operations = bad["work"]["operations"]
    cutting = next(op for op in operations if op["cuts"] and op["after"] and op["setup"])
    if spoiled == "twice":
        operations[0]["cuts"] = cutting["cuts"]
    elif spoiled == "left out":
        cutting["cuts"] = []
    elif spoiled == "early":
        cutting["after"][0] = cutting["n"]
    elif spoiled == "set-up":
        cutting["setup"] = None
    else:
        cutting["takes"] = ["a board that nobody has"]
    assert faults_of(bad)


def test_a_saw_cut_says_its_kerf_and_which_side_is_kept(summary):
    for op in summary["work"]["operations"]:
        is_sawn = op["pass"] is not None and op["pass"]["what"] in ("slice", "skim")
        assert (op["kerf_mm"] is not None) == is_sawn == (op["kept"] is not None)


def test_the_making_of_the_parts_asks_for_no_solids():
    facts = facts_of(piece_of("herb_stand"), ONLY_WORK, None, {Need.MAKING})
    assert facts.weighed is None
    assert facts.order is None
    assert facts.work is not None
    assert facts.work.making.operations


def test_a_row_says_how_it_is_laid_out_and_what_is_to_be_expected():
    """By hand: 4 x 0.05 one way and root(0.25^2 + 4 x 0.05^2) by chance, for five dados."""
    piece, making = piece_of("herb_stand"), whole_work("herb_stand").making
    dados = [each for each in work_record(piece, making)["operations"] if each["kind"] == "dado"]
    assert len(dados) == 5
    for each in dados:
        assert each["laid_out"]["way"].startswith("measure the first place")
        expected = (0.2**2 + 0.25**2 + 4 * 0.05**2) ** 0.5
        assert each["laid_out"]["place_off_mm"] == pytest.approx(expected)
        assert each["laid_out"]["rise_off_mm"] == pytest.approx(0.05 * 2**0.5)


def test_the_mark_of_a_work_is_another_as_soon_as_a_number_means_another_operation() -> None:
    making = whole_work("tea_box").making
    assert work_record(piece_of("tea_box"), making)["mark"] == work_mark(making)
    first, second, *rest = making.operations
    other = replace(making, operations=(second, first, *rest))
    assert work_mark(other) != work_mark(making) == work_mark(replace(making))


@pytest.mark.parametrize("name", ["yarn_steps", "key_rack"])
def test_the_work_is_told_wherever_it_is_broken_off(name: str) -> None:
    """What is left may go on from what is made: a chisel squares what the router left round."""
    whole = model(name)
    names = {each.id: frozenset(each.instances) for each in whole.making.workpieces}
    wood = {
        each.key: frozenset(one for take in each.takes for one in names.get(take, (take,)))
        for each in whole.making.operations
    }
    chopped = 0
    for count in range(len(whole.making.operations)):
        ticked = {each.key: wood[each.key] for each in whole.making.operations[:count]}
        left = left_to_do(whole.making, Begun(ticked=ticked))
        rows = work_rows(whole.piece, left)
        assert len(rows) == len(left.operations)
        routed = {cut for each in left.operations for cut in each.begins}
        chopped += sum(each.kind is Kind.CHOP and not routed & {*each.cuts}
                       for each in left.operations)  # fmt: skip
    assert chopped, "somewhere it was broken off between the two"
