"""A crowded board is always drawn: detail goes on to the lists, the packet is never refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.cutting.board_drawing import board_drawings
from exporters.cutting.draft import BoardTask, Detail
from exporters.cutting.sheets import cutting_sheets
from exporters.sheets import Paper, SheetSettings
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.dxf import document_of
from exporters.sheets.paper import Scale
from exporters.sheets.pens import ISO_STYLE
from exporters.sheets.values import Lettering
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import outcome_of
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    Limits,
    Saw,
    Station,
    ZoneKind,
)
from furniture.units import millimetres
from tests.exporters.board_samples import lone_copy, random_outcome
from tests.exporters.collisions import collisions_in
from tests.models import piece_of
from tests.shop.cutting.zones import rectangular_zone


def crowded(*, parts=14, zones=14, length=340.0, width=120.0, words=""):
    """A plan of many small parts with long names on one board full of figured places."""
    saw = Saw(
        kerf_mm=2.0, end_trim_mm=3.0, edge_trim_mm=0.0, shortest_rip_mm=20.0,
        shortest_crosscut_mm=20.0, usable_length_mm=60.0,
    )  # fmt: skip
    figured = tuple(
        rectangular_zone(
            name=f"ray fleck number {index + 1}", kind=ZoneKind.FIGURE,
            x=12.0 + 300.0 * index / max(zones, 1), y=9.0 + 17.0 * (index % 6),
            length=14.0, width=9.0, description="to be looked at before it is sawn",
        )
        for index in range(zones)
    )  # fmt: skip
    board = Board(
        name="A", length_mm=length,
        stations=tuple(Station(at_mm=x, width_mm=width) for x in (0.0, length)),
        thickness_mm=20.0, species="beech", price=10.0, zones=figured, description=words,
    )  # fmt: skip
    small = tuple(
        CutPart(
            name=f"spacer under the lid, row {index + 1}", quantity=1, length_mm=40.0 + index % 5,
            width_mm=22.0 + index % 3, thickness_mm=20.0, species="beech",
        )
        for index in range(parts)
    )  # fmt: skip
    request = CuttingRequest(
        boards=(board,), parts=small, saw=saw, limits=Limits(rounds=1, seconds=60.0)
    )
    names = [each.name for each in small]
    return outcome_of(
        CuttingJob(
            request=request,
            boards=(board,),
            copies={each.name: (lone_copy(each.name, each.length_mm),) for each in small},
            sequences={},
            stocks=dict.fromkeys(names, "beech, sawn"),
            species={"beech": "beech"},
            currency="EUR",
            shown=millimetres(0.1),
        )
    )


def _texts(sheets):
    return [item.text for sheet in sheets for item in sheet.items if isinstance(item, Lettering)]


def _sheets(outcome):
    sheets = cutting_sheets(piece_of("herb_stand"), outcome, SheetSettings(paper=Paper.A4), 1)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == (), sheet.name
        inside = sheet.frame.grown(0.01)
        for item in sheet.items:
            if isinstance(item, Lettering):
                assert inside.left <= item.at[0] <= inside.right, item.text
                assert inside.bottom <= item.at[1] <= inside.top, item.text
    return sheets


def test_with_hardly_any_time_given_no_place_is_looked_for_and_the_lists_say_all(full):
    """What is looked at is counted, so a sheet is the same on every machine."""
    request = replace(full.job.request, limits=replace(full.job.request.limits, seconds=1e-3))
    quick = replace(full, job=replace(full.job, request=request))
    sheets = _sheets(quick)
    assert _texts(sheets) == _texts(_sheets(quick)) != _texts(_sheets(full))
    assert any("Not lettered for want of room" in text for text in _texts(sheets))
    (plan,) = quick.used
    assert {f"P{n + 1}" for n in range(len(plan.placements))} <= set(_texts(sheets))


@pytest.fixture(scope="module")
def full():
    outcome = crowded()
    assert sum(len(plan.placements) for plan in outcome.used) >= 12
    return outcome


def test_a_board_too_full_for_names_has_keys_and_lists_that_say_all(full):
    sheets = _sheets(full)
    own, everything = " ".join(_texts(sheets[:1])), " ".join(_texts(sheets))
    assert "Crowded" in own
    (plan,) = full.used
    (board,) = full.job.boards
    rows = _texts(sheets)
    for index, placement in enumerate(plan.placements):
        assert f"P{index + 1}" in rows
        assert full.name_of(placement) in everything
    for index, zone in enumerate(board.zones):
        assert f"Z{index + 1}" in rows
        assert zone.name in everything
    for cut in plan.cuts:
        assert str(cut.number) in rows


def test_what_finds_no_room_even_so_is_said_and_nothing_is_lost(full):
    """At a scale far too small: each part, cut and zone is on the drawing or told as left off."""
    (plan,), (board,) = full.used, full.job.boards
    task = BoardTask(
        outcome=full, board=board, plan=plan, scale=Scale(50.0), style=ISO_STYLE,
        detail=Detail.LEAST,
    )  # fmt: skip
    drawing = next(board_drawings(task))
    assert drawing.left_off
    drawn = {item.text for item in drawing.items if isinstance(item, Lettering)}
    off = " ".join(drawing.left_off).split() + [text.rstrip(",") for text in drawing.left_off]
    wanted = [f"P{index + 1}" for index, _ in enumerate(plan.placements)]
    wanted += [f"Z{index + 1}" for index, _ in enumerate(board.zones)]
    assert [key for key in wanted if key not in drawn and key not in off] == []
    for cut in plan.cuts:
        assert (str(cut.number) in drawn) != (f"cut {cut.number}" in drawing.left_off)
    for detail in (Detail.WHOLE, Detail.NAMES):
        with pytest.raises(NoRoomError, match="no room for"):
            next(board_drawings(replace(task, detail=detail)))


def test_notes_without_end_go_on_to_the_lists():
    outcome = crowded(parts=3, zones=0, words="cupped a little, twisted at the far end " * 200)
    sheets = _sheets(outcome)
    assert any("notes are on the sheet of lists" in text for text in _texts(sheets[:1]))
    assert " ".join(_texts(sheets[1:])).count("twisted") == 200


def test_a_board_too_long_for_any_scale_is_cut_by_its_lists():
    outcome = crowded(parts=3, zones=0, length=90_000.0)
    sheets = _sheets(outcome)
    assert any("No room for a drawing on A4" in text for text in _texts(sheets[:1]))
    everything = " ".join(_texts(sheets))
    for placement in outcome.used[0].placements:
        assert outcome.name_of(placement) in everything


@pytest.mark.parametrize(
    ("seed", "paper"),
    [
        (3, Paper.LETTER), (5, Paper.A3), (6, Paper.LETTER), (15, Paper.A4),
        (36, Paper.LETTER), (59, Paper.A4),
    ],
)  # fmt: skip
def test_boards_of_random_jobs_are_drawn_and_every_part_has_its_name(seed, paper):
    """The census does the same for many more."""
    outcome = random_outcome(seed)
    piece = piece_of("tea_box" if outcome.job.shown.is_inch else "herb_stand")
    sheets = cutting_sheets(piece, outcome, SheetSettings(paper=paper), 1)
    for sheet in sheets:
        assert collisions_in(document_of(sheet)) == (), sheet.name
    words = " ".join(_texts(sheets))
    for laid in outcome.blanks:
        assert outcome.name_of(laid.placement) in words
        assert all(name in words for name in laid.instances)
