"""The work in a maker's words: faces by where they are, figures in the piece's unit."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from exporters.faces import FaceNames, faces_of
from exporters.patterns.story_stick import story_sticks
from exporters.sheets.part_notes import notes_for
from exporters.work import WORK_HEADER, WorkWords, steps_of, work_of, work_rows
from exporters.work.fitted import boxes_for, fitted
from exporters.work.record import work_record
from exporters.work.rig_words import rig_in_words, set_in_words
from furniture import FootedStand, Stock, Tier
from furniture.job.figures import Figure, Of, measurables_of
from furniture.making.operations import Kind
from furniture.making.precedence import Why
from furniture.making.set_ups import Dial
from furniture.making.settings import Bored, Notched
from furniture.parts.faces import Face
from furniture.pieces import Note, distinct_parts
from tests.builders.test_footed_stands import footed
from tests.builders.test_footed_uprights import between
from tests.everywhere.designs import drawn
from tests.exporters.work.sheet_words import whole_work
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def making_of(name):
    return whole_work(name).making


def lines_of(name):
    words = WorkWords(piece_of(name), making_of(name))
    return [line.text for step in steps_of(making_of(name)) for line in words.lines_of(step)]


@pytest.mark.parametrize(
    ("instances", "face", "said"),
    [
        (("front rail",), Face.FACE_SIDE, "outside face"),
        (("front rail",), Face.BACK_SIDE, "inside face"),
        (("front rail",), Face.FACE_EDGE, "bottom edge"),
        (("left stub",), Face.NAMED_END, "post end"),
        (("left stub",), Face.FAR_END, "mitre end"),
        (("post",), Face.NAMED_END, "foot end"),
        (("post",), Face.FAR_END, "top end"),
        (("tier 1",), Face.FACE_SIDE, "top face"),
        (("tier 1",), Face.FACE_EDGE, "front edge"),
        (("left stub", "left side rail", "front rail"), Face.BACK_SIDE, "inside face"),
        (("left stub", "left side rail", "front rail"), Face.NAMED_END, "left stub end"),
        (("tier 1", "post"), Face.FACE_EDGE, "face edge"),
    ],
)
def test_a_face_is_called_by_where_it_is_in_the_herb_stand(instances, face, said):
    assert FaceNames(piece=piece_of("herb_stand")).of(instances, face) == said


@pytest.mark.seeds(few=2, full=60)
def test_figures_of_a_part_cut_to_what_was_measured_follow_it(seed):
    """A lid's notch and its recess kept the drawing's figures, though the lid was another."""
    pieces = [piece_of("tea_box"), piece_of("button_box"), drawn(seed).piece]
    for piece in pieces:
        making = work_of(piece).making
        words = WorkWords(piece, making)
        looks = {each.key for each in making.operations
                 if each.kind is Kind.MEASURE and not each.sizes}  # fmt: skip
        for each in making.operations:
            if isinstance(each.setting, Notched | Bored) and looks & {e.key for e in each.after}:
                said = words.bare_line_of(each).text
                assert "or to the figure of step" in said or "as it is" in said


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_that_follows_a_measurement_names_the_step_that_it_stands_in(name):
    """Read off the record: the step is that of an operation before, and the line says it."""
    record = work_record(piece_of(name), making_of(name))
    by_n = {each["n"]: each for each in record["operations"]}
    tested = {fit["n"] for each in record["operations"] if each["kind"] == "test cut"
              for fit in each["fit_to"]}  # fmt: skip
    followed = [(each, fit) for each in record["operations"] for fit in each["fit_to"]]
    for each, fit in followed:
        first = by_n[fit["n"]]
        assert first["kind"] in ("measure", "dry fit")
        assert first["n"] < each["n"]
        if fit["figure"] != "width" or fit["n"] not in tested or each["kind"] == "test cut":
            said = each["text"].partition("to the figure of step")[2]
            assert str(first["step"]) in re.findall(r"\d+", said) or "as it is" in each["text"]
    assert {"size"} <= {fit["figure"] for _, fit in followed} or name == "key_rack"


def test_what_is_measured_says_from_where_to_where():
    (uprights,) = [each for each in lines_of("yarn_steps") if "measure for front rail" in each]
    assert "measure for front rail, over all, from outside face to outside face" in uprights
    (stubs,) = [each for each in lines_of("herb_stand") if "measure for front rail" in each]
    assert "over all, from long point to long point" in stubs


@pytest.mark.parametrize("name", NAMES)
def test_no_line_speaks_in_our_own_terms(name):
    for line in lines_of(name):
        if line.startswith("key"):
            continue  # it stands askew in the piece, so the bench's marks alone tell its faces
        for term in ("face side", "back side", "face edge", "named end", "far end", "_"):
            assert term not in line, line


@pytest.mark.parametrize("name", NAMES)
def test_every_operation_is_in_one_step_and_in_its_order(name):
    told = [each.key for step in steps_of(making_of(name)) for each in step.operations]
    assert told == [each.key for each in making_of(name).operations]


def test_five_dados_are_one_set_up_with_a_spacer():
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    step = next(
        each for each in steps_of(making) if any(one.kind is Kind.DADO for one in each.operations)
    )
    cut = next(each for each in step.operations if each.kind is Kind.DADO)
    assert set_in_words(step.set_up, cut, piece.shown) == (
        "height 7, stop 670.1, 4 spacers of 150 before it, one less each time"
    )
    assert WorkWords(piece, making).lines_of(step)[-1].text == (
        "post: 5 dados; inside face down, right edge to the sled, foot end at the stop"
    )


def test_a_spacer_is_how_the_dados_are_laid_out_and_its_errors_are_told():
    """By hand, for five places: the last of 4 steps is 4 x 0.05 off one way, and root(0.25^2 + 4 x
    0.05^2) by chance: 0.34 in all; between two root(0.05^2 + 0.05^2) = 0.07."""
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    words = WorkWords(piece, making)
    dados = [each for each in making.operations if each.kind is Kind.DADO]
    (said,) = {words.laid_out(each) for each in dados}
    assert said == (
        "one place measured, the others by spacers, sawn alike from scrap: ±0.34, ±0.07 between two"
    )


def test_unequal_rises_have_a_stop_each_measured_from_the_foot():
    """By hand: 0.25 mm are 0.010 in, root 2 of it 0.014 in."""
    words = WorkWords(piece_of("yarn_steps"), making_of("yarn_steps"))
    dados = [each for each in making_of("yarn_steps").operations if each.kind is Kind.DADO]
    (said,) = {words.laid_out(each) for each in dados}
    assert said == "every place from one end: ±0.010, ±0.014 between two"


@pytest.mark.parametrize("stand", [footed(), between()], ids=["post", "uprights"])
def test_what_a_tenon_goes_into_is_a_mortise_wherever_it_is_told(stand):
    """Along the grain of the foot board or across it, in its work, on its sheet and its stick."""
    piece = stand.build()
    making = work_of(piece).making
    words = WorkWords(piece, making)
    told = [line.text for step in steps_of(making) for line in words.lines_of(step)
            if "foot board" in line.text]  # fmt: skip
    assert any("mortise" in each for each in told)
    assert not [each for each in told if "dado" in each or "groove" in each]
    (board,) = [each for each in distinct_parts(piece) if each.part.name == "foot board"]
    notes, _ = notes_for(piece, board, faces_of(piece, board), False)
    assert not [each for each in notes if "dado" in each]
    sticks = [each for each in story_sticks(piece) if "foot board" in each.shows]
    assert not [note for stick in sticks for note in stick.notes if "dado" in note.text]


def test_pegs_that_nothing_meets_are_stepped_off():
    piece, making = piece_of("key_rack"), making_of("key_rack")
    pegs = [each for each in making.operations if each.kind is Kind.BORE
            and each.takes == ("peg rail",)]  # fmt: skip
    assert len(pegs) == 6
    assert "by spacers" in WorkWords(piece, making).laid_out(pegs[0])


def test_figures_are_in_the_unit_of_the_piece_and_sizes_of_one_rig_share_a_step():
    piece, making = piece_of("yarn_steps"), making_of("yarn_steps")
    words = WorkWords(piece, making)
    step = next(
        each for each in steps_of(making) if any(one.kind is Kind.RIP for one in each.operations)
    )
    fences = {mm for each in step.set_ups for dial, mm in each.figures if dial is Dial.FENCE}
    assert {107.95, 146.05} <= {round(mm, 6) for mm in fences}
    said = " ".join(line.text for line in words.lines_of(step))
    assert "(fence 4 1/4)" in said
    assert "both uprights (fence 5 3/4)" in said
    assert "(7 3/4)" in said


def test_a_figure_that_begins_like_the_first_is_told_whole():
    said = [line for line in lines_of("tea_box") if "lid (" in line]
    told = "bottom (stop 9 3/16 or to the figure of step 12), lid (9 9/32)"
    assert any(told in line for line in said)


def test_the_head_says_what_stands_on_the_arbor():
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    heads = {rig_in_words(each.rig, piece.shown) for each in making.set_ups
             if each.rig.cutter.stack}  # fmt: skip
    assert heads
    for words in heads:
        size, _, stack = words.partition(": ")
        sawn = sum(float(each) for each in stack.split(",")[0].split(" + ")[1:])
        outer = 2 * next(each.rig.cutter.stack.outer_mm for each in making.set_ups
                         if each.rig.cutter.stack)  # fmt: skip
        assert float(size.split()[-1]) == pytest.approx(outer + sawn)


@pytest.mark.parametrize("name", NAMES)
def test_the_table_has_a_row_for_each_operation_with_its_reasons(name):
    rows = work_rows(piece_of(name), making_of(name))
    assert len(rows) == len(making_of(name).operations)
    assert all(len(row) == len(WORK_HEADER) for row in rows)
    reasons = {each.value for each in Why}
    for number, row in enumerate(rows, start=1):
        cells = dict(zip(WORK_HEADER, row, strict=True))
        assert cells["n"] == str(number)
        assert all(int(each) < number for each in cells["after"].split())
        assert set(filter(None, cells["why"].split("; "))) <= reasons


def _own_notes(piece, distinct, keys):
    own, _ = notes_for(piece, distinct, faces_of(piece, distinct), False, keys)
    return own


def test_a_note_stands_on_the_sheets_of_the_parts_that_it_is_about_and_no_others():
    """Its words name the post, the tiers and the lid; what it is about is said beside it."""
    said = "before the post goes in, mark the tiers on it and try the lid"
    piece = replace(piece_of("herb_stand"), notes=(Note(said, ("tier 2",)),))
    has = {
        name
        for each in distinct_parts(piece)
        if any("try the lid" in note for note in _own_notes(piece, each, {}))
        for name in each.instances
    }
    assert has == {"tier 2"}


def test_what_is_cut_to_measure_has_boxes_to_write_in_and_its_key_of_the_job_file():
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    known = {each.key for each in measurables_of(piece)}
    keys = fitted(piece, making)
    assert set(keys) == {"front rail", "lid", "bottom"}
    assert {one.key for each in keys.values() for one in each} <= known
    told = " ".join(lines_of("herb_stand"))
    for name, several in keys.items():
        assert boxes_for(several) in told, name
        distinct = next(each for each in distinct_parts(piece) if name in each.instances)
        notes = " ".join(_own_notes(piece, distinct, keys))
        assert f"here and in the job file: {boxes_for(several)}." in notes
    assert boxes_for([Figure(instance="lid", axis=1, of=Of.OPENING)]).count("[") == 2
    post = next(each for each in distinct_parts(piece) if "post" in each.instances)
    assert "job file" not in " ".join(_own_notes(piece, post, keys))


def test_a_loose_panel_is_cut_to_its_own_opening_less_its_own_play():
    """Lid and bottom of the herb stand play 1 and 1.8 along; nothing else is cut as measured."""
    piece, making = piece_of("herb_stand"), making_of("herb_stand")
    words = WorkWords(piece, making)
    (told,) = [each for each in lines_of("herb_stand") if "opening less" in each]
    assert "lid, its opening less 1 along its grain" in told
    assert "bottom, its opening less 1.8 both ways" in told
    assert told.count("lid opening [") == told.count("bottom opening [") == 1
    as_measured = [step for step in steps_of(making) if words.as_measured(step)]
    rips = {name for step in as_measured for each in step.operations if each.kind is Kind.RIP
            for name in each.takes}  # fmt: skip
    assert rips == {"lid", "bottom"}


def test_a_dry_fit_leaves_out_what_waits_for_a_trimmed_end_and_a_tenon_for_its_mortise() -> None:
    """The top tier lies in a rabbet at the post's top end, which is cut off after all is tried."""
    thick = Stock(name="thick", species="cherry", thickness="22 mm")
    thin = Stock(name="thin", species="cherry", thickness="12 mm")
    piece = FootedStand(
        name="topped", thick=thick, thin=thin, base_width="260 mm", base_depth="200 mm",
        post_width="100 mm", tiers=[Tier(width="220 mm", depth="110 mm", rise="120 mm")] * 2,
    ).build()  # fmt: skip
    making = work_of(piece).making
    words = WorkWords(piece, making)
    keys = {each.kind: at for at, each in enumerate(making.operations)}
    tried = making.operations[keys[Kind.DRY_FIT]]
    assert "; leave out what goes into the rabbet in post, cut later" in words.line_of(tried)
    assert keys[Kind.DRY_FIT] < keys[Kind.RABBET]
    assert keys[Kind.MORTISE] < keys[Kind.SHAPE]
