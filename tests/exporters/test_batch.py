"""Several pieces from one pile of boards: nothing mixed up, nothing counted twice, one packet."""

from __future__ import annotations

import csv
import json
from collections import Counter
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from exporters import Batch, Copies
from exporters.batch import built
from exporters.command import CHECK_FAILED, DONE, REFUSED, run
from exporters.cutting.board_notes import own_notes_of
from exporters.cutting.board_tables import parts_table
from exporters.cutting.sheets import cutting_sheets
from exporters.cutting.words import unplaced_heading, unplaced_lines
from exporters.sheets.values import Lettering, SheetSettings
from furniture import CuttingWishes, Match, MatchRule, MitredBox, PartWish
from furniture.errors import DesignError
from furniture.shop.boards import cutting_job, job_of_lots
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.boards.shares import shares_of
from tests.everywhere.designs import drawn
from tests.shop.boards.bench import THICK, THIN, board, places_of, thin_board
from tests.shop.boards.members import faults_of_members
from tests.shop.cutting.checker import faults_of_plan

BOX = MitredBox(
    name="Tea box", rails=THICK, lid=THIN, width="240 mm", depth="160 mm", height="80 mm"
)
LOW = replace(BOX, name="Low box", height="60 mm", width="200 mm")
ROUND = Match(
    name="grain round the corners",
    rule=MatchRule.IN_SEQUENCE,
    on=["left side rail", "front rail", "right side rail", "back rail"],
    price="20 EUR",
)
BOARDS = [
    board(name="A", price="40 EUR"),
    board(name="B", price="30 EUR"),
    board(name="C", price="20 EUR"),
    thin_board(price="25 EUR"),
]


def three() -> Batch:
    return Batch(
        name="Market day",
        of=[Copies(of=BOX, count=2, matches=[ROUND]), LOW],
    )


@cache
def planned() -> CuttingOutcome:
    return outcome_of(job_of_lots(built(three(), None, None).lots, BOARDS))


def test_every_instance_of_every_copy_has_one_place_and_the_plan_can_be_sawn() -> None:
    outcome = planned()
    assert outcome.plan is not None
    assert faults_of_plan(outcome.job.request, outcome.plan) == []
    assert faults_of_members(outcome) == []
    lying = Counter(name for each in outcome.blanks for name in each.instances)
    named = [
        f"{copy}: {part}"
        for copy in ("Tea box 1", "Tea box 2", "Low box")
        for part in ("left side rail", "right side rail", "front rail", "back rail", "lid")
    ]
    assert lying == Counter(named)
    listed = [row[0] for plan in outcome.used for row in parts_table(outcome, plan).rows]
    assert all(any(name in text for text in listed) for name in named), "whose each is"


def test_no_line_ends_inside_the_name_of_a_copy() -> None:
    """In lists, notes and on the parts: 'Tea' at the end of a line would be one of either."""
    settings = SheetSettings(dated=date(2026, 1, 1))
    sheets = cutting_sheets(built(three(), None, None), planned(), settings, 1)
    texts = [each.text for s in sheets for each in s.items if isinstance(each, Lettering)]
    assert sum("Tea box 1" in text for text in texts) > 5
    for text in texts:
        assert "\u00a0" not in text, "a plain space on paper"
        for copy in ("Tea box 1", "Tea box 2", "Low box"):
            text = text.replace(copy, "")
        assert not {"Tea", "Low", "box"} & set(text.split()), text


def test_of_strips_alike_on_a_board_it_is_said_once_in_which_order_their_parts_lie() -> None:
    copies = Batch(name="Market day", of=Copies(of=BOX, count=2))
    long = board(name="L", length="2400 mm", widths="110 mm")
    outcome = outcome_of(job_of_lots(built(copies, None, None).lots, [long, thin_board()]))
    (plan,) = [each for each in outcome.used if each.board == "L"]
    drawn = outcome.job.board_named["L"]
    notes = [each.replace("\u00a0", " ") for each in own_notes_of(outcome, drawn, plan)]
    (note,) = [each for each in notes if each.startswith("Whole for now")]
    assert "dashed: Tea box 1: rail strip and Tea box 2: rail strip. From" in note
    assert note.count("left side rail, front rail") == 1


def test_grain_runs_on_round_each_copy_and_never_from_one_to_the_other() -> None:
    outcome = planned()
    for copy in ("Tea box 1", "Tea box 2"):
        rails = {
            name: (on, place.y_mm, place.x_mm)
            for name, (on, place) in places_of(outcome).items()
            if name.startswith(copy) and "rail" in name
        }
        assert len({place[:2] for place in rails.values()}) == 1, rails
        in_order = sorted(rails, key=lambda name: rails[name][2])
        assert in_order == [f"{copy}: {name}" for name in ROUND.on]


def test_a_part_without_a_place_is_named_by_the_copy_that_goes_without_it() -> None:
    """Each lid is about 0.24 or 0.2 m long: a board of half a metre has none for one box."""
    boards = [*BOARDS[:3], thin_board(length="520 mm")]
    outcome = outcome_of(job_of_lots(built(three(), None, None).lots, boards))
    lying = {name for each in outcome.blanks for name in each.instances}
    missing = {f"{copy}: lid" for copy in ("Tea box 1", "Tea box 2", "Low box")} - lying
    assert len(missing) == 1
    (name,) = missing
    assert unplaced_heading(outcome) == f"1 part has NO PLACE on these boards: {name}"
    (line,) = unplaced_lines(outcome)
    assert line.startswith(f"{name}: ")


def test_the_wood_of_the_pieces_adds_up_to_the_boards() -> None:
    outcome = planned()
    shares = {each.piece.name: each for each in shares_of(outcome)}
    begun = {each.board for each in outcome.used}
    paid = sum(each.price for each in outcome.job.boards if each.name in begun)
    assert sum(each.price for each in shares.values()) == pytest.approx(paid)
    assert shares["Tea box"].copies == 2
    assert shares["Tea box"].price > shares["Low box"].price > 0


def test_copies_that_ask_for_the_same_are_one_part_to_the_planner() -> None:
    lots = built(Batch(name="b", of=Copies(of=BOX, count=3, matches=[])), None, None).lots
    alone = cutting_job(BOX.build(), (), CuttingWishes(matches=[])).request
    together = job_of_lots(lots).request
    assert [replace(each, quantity=each.quantity * 3) for each in alone.parts] == list(
        together.parts
    )
    assert [part.quantity for part in together.parts] == [3, 3]  # a strip for four rails, a lid


def test_one_copy_of_one_design_is_planned_as_the_design_itself() -> None:
    lots = built(Batch(name="b", of=BOX), None, None).lots
    assert lots[0].mark == "Tea box"
    alone = cutting_job(BOX.build(), BOARDS)
    in_batch = job_of_lots(lots, BOARDS)
    sizes = [
        (part.quantity, part.rough_length_mm, part.rough_width_mm) for part in alone.request.parts
    ]
    assert sizes == [
        (part.quantity, part.rough_length_mm, part.rough_width_mm)
        for part in in_batch.request.parts
    ]
    assert len(alone.kept) == len(in_batch.kept) == 1
    assert alone.request.matches == in_batch.request.matches == ()


def test_wishes_across_copies_name_a_copy_a_piece_or_one_part_of_one_copy() -> None:
    lots = built(three(), None, None).lots
    wishes = CuttingWishes(
        parts=[
            PartWish(on="Tea box", show_face=["stain"]),
            PartWish(on="Low box: lid", hidden_face=[]),
        ],
        matches=[
            Match(rule=MatchRule.SAME_BOARD, on=["Tea box 1: lid", "Tea box 2: lid"], name="pair")
        ],
    )
    job = job_of_lots(lots, BOARDS, wishes)
    stains = {
        name
        for part in job.request.parts
        if part.show_face_tolerates
        for name in job.instances(part.name)
    }
    assert stains == {name for name in job.lot_of if name.startswith("Tea box")}
    (pair,) = (each for each in job.request.matches if each.name == "pair")
    assert [job.part_ids(name) for name in pair.members] == [("lid",), ("lid",)]


def test_the_packet_has_a_folder_for_each_piece_and_says_whose_every_part_is(
    tmp_path: Path,
) -> None:
    target = tmp_path / "out"
    options = ["--out", str(target), "--only", "parts", "--only", "cutting"]
    assert run(three(), options, boards=BOARDS) == DONE
    record = json.loads((target / "batch.json").read_text())
    standing = {str(path.relative_to(target)) for path in target.rglob("*") if path.is_file()}
    assert standing == set(record["files"])
    assert {each["folder"]: each["copies"] for each in record["pieces"]} == {
        "tea-box": ["Tea box 1", "Tea box 2"],
        "low-box": ["Low box"],
    }
    lying = Counter(
        (own["piece"], own["part"])
        for each in record["cutting_plan"]["boards"]
        for placement in each["placements"]
        for own in placement["instances"]
    )
    with (target / "parts.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        own = json.loads((target / record_of(record, row["piece"]) / "piece.json").read_text())
        (part,) = (each for each in own["parts"] if each["name"] == row["part"])
        assert int(row["in all"]) == lying[record_of(record, row["piece"]), part["id"]]
    assert sum(int(row["in all"]) for row in rows) == sum(lying.values())


def record_of(record: dict, piece: str) -> str:
    return next(each["folder"] for each in record["pieces"] if each["name"] == piece)


def test_a_part_without_a_place_fails_a_strict_run_of_a_batch(tmp_path: Path) -> None:
    options = ["--out", str(tmp_path / "out"), "--only", "cutting", "--strict"]
    assert run(three(), options, boards=[board(), thin_board(length="300 mm")]) == CHECK_FAILED


def test_a_batch_does_not_replace_another_piece_unasked(tmp_path: Path) -> None:
    options = ["--out", str(tmp_path / "out"), "--only", "parts"]
    assert run(BOX, options) == DONE
    assert run(three(), options) == REFUSED
    assert (tmp_path / "out" / "piece.json").is_file()
    assert run(three(), [*options, "--replace"]) == DONE
    assert not (tmp_path / "out" / "piece.json").exists()
    assert run(BOX, options) == REFUSED
    assert run(BOX, [*options, "--replace"]) == DONE
    assert not (tmp_path / "out" / "batch.json").exists()
    assert not (tmp_path / "out" / "tea-box").exists()


def problems(batch: Batch) -> list[str]:
    with pytest.raises(DesignError) as told:
        built(batch, None, None)
    return [each.parameter for each in told.value.problems]


def test_every_problem_of_every_piece_is_told_as_its_own() -> None:
    bad = replace(BOX, width="3 mm")
    worse = replace(LOW, height="8 m", lid_gap_along="-1 mm")
    told = problems(Batch(name="b", of=[bad, Copies(of=worse, count=2)]))
    assert {each.partition(":")[0] for each in told} == {"Tea box", "Low box"}
    assert "Tea box: width" in told
    assert len(told) == len(set(told))


@pytest.mark.parametrize(
    ("batch", "parameter"),
    [
        (Batch(name="b", of=[]), "batch.of"),
        (Batch(name="b"), "batch.of"),
        (Batch(name="b", of=[7]), "batch piece 1 of"),
        (Batch(of=[BOX]), "batch.name"),
        (Batch(name="b", of=[Copies(of=BOX, count=0)]), "batch piece 1 count"),
        (Batch(name="b", of=[Copies(of=BOX, count=True)]), "batch piece 1 count"),
        (Batch(name="b", of=[Copies(of=BOX, cuont=2)]), "batch piece 1 cuont"),
        (Batch(name="b", of=[Copies(of=BOX, count=60), Copies(of=LOW, count=60)]), "batch.of"),
        (Batch(name="b", of=[BOX, replace(LOW, name="tea BOX")]), "batch.of"),
        (Batch(name="b", of=[Copies(of=BOX, count=2), replace(LOW, name="Tea box 2")]), "batch.of"),
        (Batch(name="b", of=[replace(BOX, name="sheets")]), "batch.of"),
        (Batch(name="b", of=[BOX], place="the moon"), "batch.place"),
        (Batch(name="b", of=[Copies(of=BOX, place="the moon")]), "batch piece 1: place.climate"),
    ],
)
def test_a_batch_that_cannot_be_made_is_refused(batch: Batch, parameter: str) -> None:
    assert problems(batch) == [parameter]


def test_one_name_of_a_stock_is_one_wood() -> None:
    thinner = replace(LOW, rails=replace(THICK, thickness="18.9 mm"))
    assert problems(Batch(name="b", of=[BOX, thinner])) == ["Low box: stock 'thick'"]
    other = replace(LOW, lid=replace(THIN, moisture="8 %"))
    assert problems(Batch(name="b", of=[BOX, other])) == ["Low box: stock 'thin'"]


def test_a_wrong_name_in_the_wishes_of_copies_is_told_once() -> None:
    copies = Copies(of=BOX, count=3, parts=[PartWish(on="lidd")])
    lots = built(Batch(name="b", of=[copies]), None, None).lots
    with pytest.raises(DesignError) as told:
        job_of_lots(lots, BOARDS)
    assert [each.parameter for each in told.value.problems] == ["Tea box: part wish 1 (lidd) on"]


@pytest.mark.seeds(few=2, full=30)
def test_random_pieces_share_their_boards(seed: int) -> None:
    """Two lopsided designs from the boards of both, the second one twice."""
    first, second = drawn(seed), drawn(seed + 1)
    pieces = [replace(first.piece, name="first"), replace(second.piece, name="second")]
    batch = built(Batch(name="b", of=[pieces[0], Copies(of=pieces[1], count=2)]), None, None)
    piles = [
        replace(each, name=f"{mark}{each.name}")
        for mark, design in (("f", first), ("s", second), ("t", second))
        for each in design.boards
    ]
    job = job_of_lots(batch.lots, piles, CuttingWishes(rounds=2))
    asked = Counter(name for part in job.request.parts for name in job.instances(part.name))
    assert asked == Counter(list(job.lot_of))
    outcome = outcome_of(job)
    assert outcome.plan is not None
    assert faults_of_plan(outcome.job.request, outcome.plan) == []
    assert faults_of_members(outcome) == []
