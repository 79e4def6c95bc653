"""The checklist on paper: every step once, in order, clear of everything, on every paper."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.sheets.dxf import document_of
from exporters.sheets.geometry import item_box
from exporters.sheets.paper import Paper
from exporters.sheets.pens import ISO_STYLE
from exporters.sheets.set_up_bits import Rows
from exporters.sheets.set_up_look import cut_of, look_at
from exporters.sheets.set_up_picture import WORDS_MM, set_up_picture
from exporters.sheets.values import Hatched, Lettering
from exporters.sheets.work_sheet import work_sheets
from exporters.work import steps_of
from exporters.work.checklist import MachineHead, StageHead, Tick, checklist_of
from exporters.work.work_of import work_of
from furniture.assembly import assembly_of
from furniture.making.bench.cautions import SANDING, rig_hazards
from furniture.making.operations import Kind, Stage
from furniture.making.settings import CornerSlot, Machine, MitreGroove
from furniture.pieces.piece import placed_named
from tests.exporters.collisions import collisions_in
from tests.exporters.work.sheet_words import task_of, whole_work, words_on
from tests.making.test_corners import keyed, splined
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_ticked_once_under_its_stage(name):
    making = whole_work(name).making
    entries = checklist_of(piece_of(name), making)
    ticks = [each for each in entries if isinstance(each, Tick)]
    assert [each.number for each in ticks] == [str(each.number) for each in steps_of(making)]
    stages = [each.title for each in entries if isinstance(each, StageHead)]
    assert stages == list(dict.fromkeys(each.stage.value for each in making.operations))


def test_several_by_one_list_are_made_step_by_step_side_by_side():
    """A list for one said nothing of the other, and wood for one was sawn before step 1."""
    piece, one = piece_of("tea_box"), whole_work("tea_box").making
    for making, is_told in ((one, False), (replace(one, copies=2), True)):
        (first, *_) = work_sheets(task_of(piece, Paper.A4, "work in order"), making)
        said = " ".join(words_on([first]).split())
        assert ("2 are made by this list: each step for both before the next" in said) == is_told
        assert ("Sawn before step 1, for each copy, grain along" in said) == is_told


@pytest.mark.parametrize("name", NAMES)
def test_what_may_hurt_is_said_once_for_all_machines(name):
    piece, making = piece_of(name), whole_work(name).making
    asked = {hazard for each in making.operations if each.rig for hazard in rig_hazards(each.rig)}
    asked |= set(SANDING)  # dust, wherever wood is sanded
    heads = [each for each in checklist_of(piece, making) if isinstance(each, MachineHead)]
    said = [caution for each in heads for caution in each.cautions]
    assert len(said) == len(set(said)) == len(asked)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_parted_at_the_stop_is_minded_at_that_very_step(name):
    """Said once under the tilted blade, it stood on no step of the plain sled.

    Before the cut, the first time in full, then by that step's number.
    """
    piece, making = piece_of(name), whole_work(name).making
    parted = {
        str(step.number)
        for step in steps_of(making)
        for each in step.operations
        if each.stage is Stage.PART
        and each.rig
        and each.rig.machine is Machine.TABLE_SAW
        and len(each.gives) > 1
    }
    told = {
        entry.number: entry.lines[0]
        for entry in checklist_of(piece, making)
        if isinstance(entry, Tick) and "between stop and blade" in " ".join(entry.lines)
    }
    assert set(told) == parted
    for at, line in enumerate(told.values()):
        full = "each part that comes off lies between stop and blade: clamp it to the sled"
        again = f"clamp what comes off between stop and blade, as in {next(iter(told))}"
        assert line.startswith(again if at else full)
    heads = [each for each in checklist_of(piece, making) if isinstance(each, MachineHead)]
    assert "between stop and blade" not in str(heads)


@pytest.mark.parametrize("paper", Paper, ids=lambda paper: paper.title)
@pytest.mark.parametrize("name", NAMES)
def test_nothing_runs_into_anything_and_nothing_is_lost(name, paper):
    piece, making = piece_of(name), whole_work(name).making
    sheets = work_sheets(task_of(piece, paper, "work in order"), making)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == ()
    said = words_on(sheets).split()
    for entry in checklist_of(piece, making):
        if isinstance(entry, Tick):
            told = (entry.set_to, *entry.lines)
            if entry.shown is not None:
                shown = entry.shown
                names = (shown.down, shown.against, shown.stop, shown.far, shown.high)
                told = (entry.set_beside, *entry.beside, *names)
            assert set(" ".join((entry.number, *told)).split()) <= set(said)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_set_up_has_a_picture_that_hatches_what_is_cut_away(name):
    entries = checklist_of(piece_of(name), whole_work(name).making)
    shown = [each.shown for each in entries if isinstance(each, Tick) and each.shown]
    assert shown
    for each in shown:
        picture = set_up_picture(each, ISO_STYLE)
        assert picture is not None, each.operation.key
        assert any(isinstance(item, Hatched) for item in picture.items), each.operation.key
        assert picture.width < WORDS_MM[1] + 12.0


def test_what_is_laid_against_the_fence_stands_at_the_right_and_what_lies_is_named_below():
    entries = checklist_of(piece_of("herb_stand"), whole_work("herb_stand").making)
    ticks = [each.shown for each in entries if isinstance(each, Tick) and each.shown]
    rabbet = next(each for each in ticks if each.operation.kind is Kind.RABBET)
    picture = set_up_picture(rabbet, ISO_STYLE)
    letters = {item.text: item for item in picture.items if isinstance(item, Lettering)}
    assert letters["inside face"].at[1] < letters["10 high"].at[1] < letters["bottom edge"].at[1]
    (cut,) = (item for item in picture.items if isinstance(item, Hatched))
    across, up = zip(*cut.outline, strict=True)
    # 84 wide and 19.7 thick, its rabbet 6.4 wide and 10 deep: drawn in true proportion
    factor = 6.0 / 19.7
    assert max(across) - min(across) == pytest.approx(6.4 * factor, abs=0.01)
    assert max(up) - min(up) == pytest.approx(10.0 * factor, abs=0.01)
    assert letters["bottom edge"].at[0] > min(across) - 12.0


def _corner_pictures(piece):
    making = work_of(piece, order=assembly_of(piece)).making
    ticks = [each for each in checklist_of(piece, making) if isinstance(each, Tick) and each.shown]
    kinds = CornerSlot | MitreGroove
    return [each.shown for each in ticks if isinstance(each.shown.operation.setting, kinds)]


def test_a_figure_wider_than_its_picture_takes_more_rows_and_runs_over_nothing():
    """With spacers, in inches: it ran into the words beside the picture."""
    rows = Rows(0.0, WORDS_MM[0])
    rows.put_figure(10.0, "20 31/64 - (20.480) – 3 x 6 5/64 + (6.083)", ISO_STYLE.text_height_mm)
    rows.put(10.0, "foot end", ISO_STYLE.text_height_mm)
    lines = list(rows.lettering(0.0, 3.5, ISO_STYLE.text_height_mm))
    boxes = [item_box(each) for each in lines]
    assert min(box.left for box in boxes) >= 0.0
    assert max(box.right for box in boxes) <= WORDS_MM[0]
    down = [each.text for each in sorted(lines, key=lambda each: -each.at[1])]
    assert down[0] == "foot end"
    assert " ".join(down[1:]) == "20 31/64 - (20.480) – 3 x 6 5/64 + (6.083)"


def test_a_slot_through_a_corner_is_drawn_through_its_sharp_line():
    """By hand: a mitre of 45 degrees is as long as the rail is thick, times the root of two."""
    piece = keyed()
    shown = _corner_pictures(piece)
    assert len(shown) == 2
    rail = placed_named(piece, "front rail").part.blank
    for each in shown:
        cut, setting = cut_of(each, look_at(each.operation)), each.operation.setting
        left, low, right, high = cut.before.bounds
        assert right - left == pytest.approx(rail.width_mm, abs=0.05)
        assert high - low == pytest.approx(rail.thickness_mm * 2.0**0.5, abs=0.05)
        x0, bottom, x1, top = cut.gone.bounds
        assert (x1 - x0, top - bottom) == pytest.approx((setting.width_mm, setting.depth_mm))
        assert bottom == pytest.approx(low)
        assert right - x1 == pytest.approx(setting.near_mm)  # off the face at the stop
        letters = {i.text for i in set_up_picture(each, ISO_STYLE).items if hasattr(i, "text")}
        assert {each.far, each.high, each.stop, "corner, in the cradle"} <= letters


def test_a_groove_for_a_spline_lies_square_in_its_mitre():
    """By hand: 13 mm down a slope of 45 degrees, 3.11 wide and 5.5 deep, the long face up."""
    shown = _corner_pictures(splined())
    assert len(shown) == 2
    for each in shown:
        cut = cut_of(each, look_at(each.operation))
        _, low, _, high = cut.before.bounds
        assert cut.gone.area == pytest.approx(3.11 * 5.5, rel=1e-3)
        _, bottom, _, top = cut.gone.bounds
        root = 2.0**0.5
        assert bottom == pytest.approx(high - (13.0 + 3.11) / root, abs=1e-3)
        assert top == pytest.approx(high - (13.0 - 5.5) / root, abs=1e-3)
        assert set_up_picture(each, ISO_STYLE) is not None
        assert top - low == pytest.approx(float(each.high.split()[0]), abs=0.05)  # as it is set


def test_channels_of_one_row_are_one_tick_with_their_places():
    entries = checklist_of(piece_of("yarn_steps"), whole_work("yarn_steps").making)
    dados = [
        each
        for each in entries
        if isinstance(each, Tick) and any("uprights: dado" in line for line in each.lines)
    ]
    assert len(dados) == 1
    assert "9 31/32, 15 31/32, 21 23/32, 27 7/32 and 32 15/32" in " ".join(dados[0].lines)


def test_the_herb_stand_takes_no_more_than_two_sheets_of_a4():
    piece = piece_of("herb_stand")
    task = task_of(piece, Paper.A4, "work in order")
    assert len(work_sheets(task, whole_work("herb_stand").making)) <= 2


def test_a_recess_across_the_grain_is_routed_along_an_edge_off_the_end():
    """Its run is told from the front edge, and how far its near wall is off the end it lies along.

    By the part: the middle 193.77 off the end, 9.525 wide; run between centres from 41.54 to 57.42.
    """
    entries = checklist_of(piece_of("button_box"), whole_work("button_box").making)
    tick = next(
        each for each in entries if isinstance(each, Tick) and each.set_to[:9] == "near wall"
    )
    assert tick.set_to.startswith("near wall 7 7/16 (7.441) off")  # 193.77 - 4.76 = 189.01 mm
    (line,) = (each for each in tick.lines if each.startswith("lid"))
    assert "rout into the top face at 1 41/64 (-) to 2 17/64 (-) from the front edge" in line
    said, edge = line.split(", straight edge clamped ")
    assert said.endswith("measured from the left end")
    assert edge.startswith("2 13/16 beside the near wall, towards the left end")
