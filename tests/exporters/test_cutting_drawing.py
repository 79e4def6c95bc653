"""A board's drawing shows what is sawn: kerfs end with the wood, numbers lead to their kerfs."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from exporters.cutting.board_drawing import board_drawings
from exporters.cutting.board_sheet import BOARD_SCALES
from exporters.cutting.draft import BoardTask
from exporters.cutting.kerfs import kerf_of, kerf_shapes
from exporters.cutting.list_ways import _Column, _narrowed, list_ways, natural_width
from exporters.sheets.pens import ISO_STYLE, LineClass
from exporters.sheets.tables import Table
from exporters.sheets.values import Lettering, Stroke
from exporters.views.values import Arc, Line
from furniture.shop.cutting.plan import CutDirection, NumberedCut, Rectangle
from furniture.shop.cutting.values import Board, Station
from furniture.shop.cutting.zones import outline_of
from tests.exporters.board_samples import random_outcome
from tests.exporters.board_sheets import board_sheets_of
from tests.shop.boards.bench import MODELS, outcome_of_model


def _board(*widths, length=1000.0):
    stations = tuple(
        Station(at_mm=length * index / (len(widths) - 1), width_mm=width)
        for index, width in enumerate(widths)
    )
    return Board(
        name="A", length_mm=length, stations=stations, thickness_mm=20.0, species="beech", price=0.0
    )


def _rip(board, at, kerf=3.0):
    whole = Rectangle(
        x_mm=0.0, y_mm=0.0, length_mm=board.length_mm, width_mm=board.greatest_width_mm
    )
    return NumberedCut(
        number=1, direction=CutDirection.RIP, workpiece=whole, position_mm=at, kerf_mm=kerf
    )


def _wood(cut, board):
    piece, end = cut.workpiece, cut.position_mm + cut.kerf_mm
    if cut.direction is CutDirection.RIP:
        blade = box(piece.x_mm, cut.position_mm, piece.x_end_mm, end)
    else:
        blade = box(cut.position_mm, piece.y_mm, end, piece.y_end_mm)
    hand = box(piece.x_mm, piece.y_mm, piece.x_end_mm, piece.y_end_mm)
    return blade.intersection(hand).intersection(Polygon(outline_of(board)))


def _same(cut, board):
    drawn = [Polygon(corners) for corners in kerf_shapes(cut, board)]
    wood = _wood(cut, board)
    assert unary_union(drawn).symmetric_difference(wood).area < 1e-6 * max(wood.area, 1.0) + 1e-4
    assert sum(each.area for each in drawn) == pytest.approx(wood.area, abs=1e-3)
    return drawn


def test_a_rip_ends_where_a_tapering_board_does():
    tapering = _board(100.0, 80.0)
    assert len(_same(_rip(tapering, 50.0), tapering)) == 1
    ends = _same(_rip(tapering, 90.0), tapering)
    assert max(shape.bounds[2] for shape in ends) == pytest.approx(500.0)
    assert kerf_of(_rip(tapering, 90.0), tapering).x_end_mm <= 500.0 + 1e-6
    waist = _board(100.0, 60.0, 100.0)
    assert len({round(shape.bounds[0]) for shape in _same(_rip(waist, 80.0), waist)}) > 1
    assert kerf_shapes(_rip(tapering, 120.0), tapering) == ()
    assert kerf_of(_rip(tapering, 120.0), tapering).area_mm2 == 0.0


@pytest.mark.seeds(few=2, full=40)
def test_kerfs_of_random_jobs_are_the_wood_that_the_blade_takes(seed):
    outcome = random_outcome(seed)
    boards = {each.name: each for each in outcome.job.boards}
    for plan in outcome.used:
        for cut in plan.cuts:
            _same(cut, boards[plan.board])


@pytest.mark.parametrize("name", MODELS)
def test_every_number_leads_from_its_ring_to_its_own_kerf(name):
    """A line from the ring's rim to the kerf, or to the edge that the kerf runs out at."""
    outcome = outcome_of_model(name)
    for plan in outcome.used:
        board = next(each for each in outcome.job.boards if each.name == plan.board)
        scale = next(each for each in BOARD_SCALES if board.length_mm * each.factor <= 220.0)
        task = BoardTask(outcome=outcome, board=board, plan=plan, scale=scale, style=ISO_STYLE)
        items = next(board_drawings(task)).items
        strokes = [i for i in items if isinstance(i, Stroke) and i.line_class is LineClass.LEADER]
        rings = [each.shape for each in strokes if isinstance(each.shape, Arc)]
        lines = [each.shape for each in strokes if isinstance(each.shape, Line)]
        assert len(rings) == len(plan.cuts)
        for cut in plan.cuts:
            (ring,) = [ring for ring in rings if _number_in(ring, items) == str(cut.number)]
            place = kerf_of(cut, board)
            low, far = (
                [v * scale.factor for v in (place.x_mm, place.y_mm)],
                (place.x_end_mm, place.y_end_mm),
            )
            kerf = box(*low, *(v * scale.factor for v in far)).buffer(0.3)
            assert any(_leads(line, ring, kerf) for line in lines), (plan.board, cut.number)


def _number_in(ring, items):
    (text,) = [
        item.text
        for item in items
        if isinstance(item, Lettering)
        and math.dist((item.at[0], item.at[1] + item.height / 2), ring.centre) < 0.01
    ]
    return text


def _leads(line, ring, kerf):
    from shapely.geometry import Point

    ends = [line.start, line.end]
    return any(
        abs(math.dist(rim, ring.centre) - ring.radius) < 0.01
        and math.dist(rim, tip) > 0.6
        and kerf.covers(Point(tip))
        for rim, tip in (ends, ends[::-1])
    )


@pytest.mark.parametrize("name", MODELS)
def test_the_list_of_cuts_stands_on_the_sheet_of_its_board(name):
    """A maker at the saw needs one sheet in hand."""
    sheets = board_sheets_of(name)
    for sheet in sheets:
        if not sheet.name.endswith("-lists"):
            texts = {item.text for item in sheet.items if isinstance(item, Lettering)}
            assert {"cut", "stays"} <= texts, sheet.name  # headings of one word: no line ends


def test_a_list_is_narrowed_to_its_room_and_loses_no_word():
    """Figures stay whole; texts go on in a further line, and no more of them than must."""
    table = Table(
        headings=("no.", "from its", "comes off"),
        rows=(("1", "jointed edge", "waste: 5.5"), ("2", "edge of cut 6", "left side rail: 84")),
        breaking=frozenset({1, 2}),
    )
    whole = natural_width(table, ISO_STYLE)
    rooms = [whole + 1.0, 0.8 * whole, 0.6 * whole]
    ways = list_ways(table, rooms, ISO_STYLE)
    assert [way.width <= room for way, room in zip(ways, sorted(rooms), strict=True)] == [True] * 3
    assert [way.broken for way in ways] == sorted((way.broken for way in ways), reverse=True)
    assert ways[-1].broken == 0 < ways[0].broken
    for way in ways:
        items, box = way.items(ISO_STYLE)
        said = [word for item in items if isinstance(item, Lettering) for word in item.text.split()]
        told = [
            word for row in (table.headings, *table.rows) for text in row for word in text.split()
        ]
        assert sorted(said) == sorted(told)
        assert (box.width, box.height) == pytest.approx((way.width, way.height))
    assert list_ways(table, [20.0], ISO_STYLE) == []


def test_a_list_that_is_a_rounding_error_too_wide_is_not_narrowed() -> None:
    """What a narrower column would save was what is too much, to the last bit: nothing was left to
    divide by."""
    wide, narrow, other = 42.33038299168062, 34.77451413255116, 30.027547263257482
    room = math.nextafter(wide + other, 0.0)
    columns = [_Column((wide, narrow), ((1,), (2,))), _Column((other,), ((1,),))]
    assert _narrowed(columns, room) == ([0, 0], 1)
    assert _narrowed(columns, room - 1.0) == ([1, 0], 2)
