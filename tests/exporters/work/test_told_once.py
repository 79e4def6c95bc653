"""Nothing is told that is not so, is not used, or stands beside it already."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from exporters.sheets import work_sheet
from exporters.sheets.paper import Paper
from exporters.sheets.work_sheet import work_and_glue_sheets, work_sheets
from exporters.work.checklist import Tick, checklist_of
from exporters.work.finish_words import CORNERS, shut_in_words
from exporters.work.lines import Told, lines_from
from exporters.work.names import counted_woods
from exporters.work.steps import steps_of
from furniture.making.making import Making
from furniture.making.operations import After, Kind, Operation, Stage
from furniture.making.rigs import sawn
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import Guide, Hold, Skim, Slice
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.pieces.in_rows import WoodName, woods_in_words
from tests.exporters.work.sheet_words import task_of, whole_work
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def ticks_of(name):
    entries = checklist_of(piece_of(name), whole_work(name).making)
    return [each for each in entries if isinstance(each, Tick)]


def lines_of(name):
    return [line for tick in ticks_of(name) for line in tick.lines]


def test_the_work_on_the_yarn_steps_takes_three_sheets_with_all_its_glue_ups():
    piece, work = piece_of("yarn_steps"), whole_work("yarn_steps")
    tasks = [task_of(piece, Paper.LETTER, each) for each in ("work in order", "glue-ups")]
    assert len(work_and_glue_sheets(*tasks, work)) <= 3


def test_operations_stand_closer_where_that_saves_a_sheet_and_only_there(monkeypatch):
    """One last line had a whole sheet for itself."""
    piece, work = piece_of("yarn_steps"), whole_work("yarn_steps")

    def sheets(text_height_mm):
        began = [task_of(piece, Paper.LETTER, each) for each in ("work in order", "glue-ups")]
        styles = [replace(each.style, text_height_mm=text_height_mm) for each in began]
        tasks = [replace(each, style=style) for each, style in zip(began, styles, strict=True)]
        return [sheet.items for sheet in work_and_glue_sheets(*tasks, work)]

    closer = {height: sheets(height) for height in (2.5, 2.8)}
    monkeypatch.setattr(work_sheet, "_CLOSER", (1.0,))
    assert (len(closer[2.5]), len(sheets(2.5))) == (3, 4)
    assert closer[2.8] == sheets(2.8)


def test_a_few_last_lines_of_the_work_take_no_sheet_for_themselves():
    """Larger letters push them onto a third sheet: the glue-ups follow there, below them."""
    piece, work = piece_of("seedling_steps"), whole_work("seedling_steps")
    began = [task_of(piece, Paper.A4, each) for each in ("work in order", "glue-ups")]
    tasks = [replace(each, style=replace(each.style, text_height_mm=3.0)) for each in began]
    assert len(work_sheets(tasks[0], work.making)) == 3
    assert len(work_and_glue_sheets(*tasks, work)) == 3


def test_what_a_picture_says_of_height_and_depth_is_not_said_beside_it_again():
    drawn = [each for each in ticks_of("yarn_steps") if each.shown and "depth" in each.set_to]
    assert drawn
    for each in drawn:
        assert each.shown.high.endswith(" deep")
        assert each.shown.high.removesuffix(" deep") in each.set_to
        assert "depth" not in each.set_beside


def test_how_far_short_a_channel_stops_is_said_once_with_its_end():
    (routed,) = [each for each in ticks_of("yarn_steps") if "uprights: dado" in str(each.lines)]
    assert "stopped" not in routed.set_to
    assert "stopped 1/2 short of the front edge" in str(routed.lines)


def test_what_is_sawn_off_at_most_is_said_once_where_it_is_the_same_for_all():
    (squared,) = [each for each in ticks_of("yarn_steps") if "square the foot end" in str(each)]
    assert squared.set_to.endswith("at most 5/16 off")
    assert "off" not in str(squared.lines)


@pytest.mark.parametrize("name", NAMES)
def test_no_figure_follows_the_number_of_a_step(name: str) -> None:
    """`9` and `5/16 off` would read as nine and five sixteenths."""
    assert [each.set_to for each in ticks_of(name) if re.match(r"[\d.]", each.set_to)] == []


def test_a_frame_that_was_tried_dry_is_measured_as_it_stands():
    lines = lines_of("herb_stand")
    (tried,) = [at for at, each in enumerate(lines) if "all joints close" in each]
    measured = lines[tried + 1]
    assert measured.startswith("the same, still together: measure for bottom, its opening less ")
    assert " and lid, its opening less " in measured
    (closing,) = [each for each in lines if "measure for front rail" in each]
    assert closing.startswith("both stubs and post: put together dry, measure")
    assert ("all parts: put together dry, as before; mark where the top end of post comes") in lines


def test_nothing_goes_into_a_recess_for_a_finger():
    """It said `until what goes in slides home by hand` before the lid's recess was routed."""
    (tick,) = [each for each in ticks_of("button_box") if "lid: rout into" in str(each.lines)]
    assert tick.lines[0] == "scrap: test cut: as wide and as deep as it is set"


def test_a_piece_without_a_room_has_no_inside():
    """It said `sand what glue will shut in` of a rack in which nothing is."""
    piece, making = piece_of("key_rack"), whole_work("key_rack").making
    assert shut_in_words(piece, making) == CORNERS
    assert "inside of the 4 rails" in shut_in_words(
        piece_of("tea_box"), whole_work("tea_box").making
    )


def test_the_last_sanding_goes_over_what_is_bare_and_eases_what_no_glue_hides():
    """It sanded `the whole piece`, whose inside had its three coats by then."""
    last = [each for each in lines_of("herb_stand") if each.startswith("what is bare: ")]
    assert [each.split(": ")[1].split()[0].strip(",") for each in last] == ["sand", "finish"]
    assert last[0].endswith("ease edges")


def test_a_pair_is_both_of_them_and_rows_stay_rows():
    piece = piece_of("yarn_steps")
    told = counted_woods(piece, ["left upright", "right upright", "tier 1", "tier 2"])
    assert told == "both uprights and tiers 1 and 2"
    assert counted_woods(piece, ["left upright", "tier 1"]) == "left upright and tier 1"


def test_places_are_listed_from_the_nearest_on():
    """It said `drill into the underside at 274.1 and 37.3`, in the order of the hinges."""

    def bored(key):
        return Operation(key=key, kind=Kind.BORE, stage=Stage.JOIN, takes=("lid",), gives=("lid",))

    told = [
        (bored(str(mm)), WoodName("lid"), Told(what="drill", at=str(mm), at_mm=mm, at_end="off"))
        for mm in (274.1, 37.3)
    ]
    (line,) = lines_from(told, woods_in_words)
    assert line.text == "lid: drill at 37.3 and 274.1 off"


@pytest.mark.parametrize("stop_mm", [401.17])
def test_a_stop_is_told_where_it_is_first_used(stop_mm):
    """`stop 401.17` stood over the squaring of an end, and its cut to length said `as in 10`."""
    rig, lies = sawn(Guide.SLED), Hold(against=Face.FACE_EDGE)
    skim = Operation(
        key="square", kind=Kind.SQUARE_END, stage=Stage.MILL, takes=("lid",), gives=("lid",),
        rig=rig, hold=lies, setting=Skim(face=Face.NAMED_END, takes_mm=5.0, kerf_mm=3.0),
    )  # fmt: skip
    cut = Operation(
        key="length", kind=Kind.CROSSCUT, stage=Stage.PART, takes=("lid",), gives=("lid",),
        rig=rig, hold=replace(lies, stop=Face.NAMED_END),
        setting=Slice(off=Face.NAMED_END, at_mm=stop_mm, kerf_mm=3.0),
        after=(After("square", Why.END_FIRST),),
    )  # fmt: skip
    making = Making(workpieces=(), operations=(skim, cut), set_ups=set_ups_of((skim, cut)))
    assert len(making.set_ups) == 1
    assert [each.resumes for each in steps_of(making)] == [None, None]


def test_a_ledge_for_a_lid_is_tried_as_it_is_set():
    """Until the lid slid home in it, it would have come level, and nothing be left to plane."""
    ticks = ticks_of("yarn_steps")
    (ledge,) = [each for each in ticks if "rabbet along the top edge" in str(each.lines)]
    assert "as wide and as deep as it is set" in str(ledge.lines)
    (housed,) = [each for each in ticks if "uprights: dado" in str(each.lines)]
    assert "slides home by hand" in str(housed.lines)


def test_an_edge_planed_to_a_width_is_gauged_from_the_true_one():
    """`off the front edge` read as if that were planed once more."""
    lines = [line for line in lines_of("herb_stand") if "wide, " in line]
    assert lines
    assert all("gauged from the" in line and "wide, off" not in line for line in lines)
