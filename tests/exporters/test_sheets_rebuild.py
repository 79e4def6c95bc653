"""From the sheet alone the part can be rebuilt, and each figure stands on it once."""

from __future__ import annotations

import math
import random
from collections import Counter
from functools import cache
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

import ezdxf
import pytest

from exporters.sheets import Paper, SheetSettings
from exporters.sheets.values import Shows
from furniture.joints.joint import HoldBy
from furniture.parts.blank import Blank
from furniture.parts.cuts import Groove, Notch, Rabbet
from furniture.parts.part import Part
from furniture.parts.placement import Placement, box_of
from furniture.pieces.piece import Piece, distinct_parts, extents_of, placed_named
from furniture.solids.make import solid_of
from furniture.units import Shown, figure, inches, millimetres
from tests import models
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import (
    model_files,
    model_sheets,
    model_showing,
    paper_and_scale,
    parts_drawn,
    sheet_documents,
)
from tests.exporters.sheet_reader import read_parts, read_sheet
from tests.exporters.sheet_rebuild import rebuilt, rebuilt_as
from tests.exporters.sheet_samples import INCH_SAMPLES, SAMPLES, piece_of, random_part

pytestmark = pytest.mark.some_models

MODELS = tuple(models.SCRIPTS)
_WRITTEN = TemporaryDirectory(prefix="parts")


def piece_in(model: Path) -> Piece:
    """The piece that a model script describes."""
    return models.piece_of(model.stem)


@cache
def _drawn(part: Part, shown: Shown) -> tuple[Path, ...]:
    """The sheets of a part, drawn once."""
    return parts_drawn(piece_of(part, shown=shown), Path(mkdtemp(dir=_WRITTEN.name)))


def _check(part: Part, shown: Shown, share: float) -> None:
    solid = rebuilt(*read_parts(_drawn(part, shown))[1])
    model = solid_of(part)
    assert solid.Volume() == pytest.approx(model.Volume(), rel=share)
    box, other = solid.BoundingBox(), model.BoundingBox()
    for ours, theirs in ((box.xlen, other.xlen), (box.ylen, other.ylen), (box.zlen, other.zlen)):
        assert ours == pytest.approx(theirs, abs=shown.step_mm)
    apart = solid.Center() - model.Center()
    assert apart.Length < 0.05 + shown.step_mm


@pytest.mark.some(few=6)
@pytest.mark.parametrize("part", SAMPLES, ids=lambda part: part.id)
def test_metric_parts_are_rebuilt_from_their_sheets(part: Part) -> None:
    """To 0.02 % of volume: figures are printed to 0.1 mm and these parts are whole tenths."""
    _check(part, millimetres(0.1), 2e-4)


@pytest.mark.parametrize("part", INCH_SAMPLES, ids=lambda part: part.id)
def test_inch_parts_are_rebuilt_from_their_sheets(part: Part) -> None:
    """To 0.1 % of volume: these parts are whole 64ths but for a dado set by a dial."""
    _check(part, inches(64), 1e-3)


@pytest.mark.seeds(few=3, full=150)
def test_random_parts_are_rebuilt_from_their_sheets(seed: int) -> None:
    """The same for parts with cuts of any kind."""
    _check(random_part(seed), millimetres(0.1), 2e-4)


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_every_part_of_every_model_is_rebuilt_from_its_sheet(model: Path) -> None:
    """Each cell of a sheet gives back the part whose number heads it.

    To what the printed step allows: half a step on each size of the blank, and on the depth of
    the cuts.
    """
    piece = piece_in(model)
    read = read_parts(model_files(model.stem))
    parts = distinct_parts(piece)
    assert sorted(read) == list(range(1, len(parts) + 1))
    for item, part in enumerate((each.part for each in parts), start=1):
        model_solid, slug = solid_of(part), part.id
        solid = rebuilt_as(model_solid, *read[item])
        half = piece.shown.step_mm / 2
        share = sum(half / size for size in part.blank.size) + 1e-3
        assert solid.Volume() == pytest.approx(model_solid.Volume(), rel=share), slug
        common = solid.intersect(model_solid).Volume()
        assert common == pytest.approx(model_solid.Volume(), rel=2 * share), slug
        apart = solid.Center() - model_solid.Center()
        assert apart.Length < 0.05 + piece.shown.step_mm, slug
    for joining in piece.joinings:
        item = next(i for i, p in enumerate(parts, 1) if joining.incoming in p.instances)
        low, high = box_of(*_blank_and_place(piece, joining.incoming))
        for pin in (each for each in joining.fasteners if each.by is HoldBy.PIN):
            for axis, is_level in ((0, True), (1, False)):  # a bottom lies as the piece stands
                told = [each.said_mm for each in read[item][0].views["face side"].running(is_level)]
                places = pin.at[axis] - low[axis], high[axis] - pin.at[axis]
                off = min(abs(mm - place) for mm in told for place in places)
                assert off < 0.51 * piece.shown.step_mm, joining.incoming


def _blank_and_place(piece: Piece, instance: str) -> tuple[Blank, Placement]:
    placed = placed_named(piece, instance)
    return placed.part.blank, placed.placement


@pytest.mark.seeds(few=1, full=200)
def test_nothing_collides_on_any_sheet_of_any_model(seed: int) -> None:
    """Nor is any sheet unclean to ezdxf's auditor; models and papers are drawn."""
    model, paper = random.Random(seed).choice([(m, p) for m in MODELS for p in Paper])
    for named in sheet_documents(piece_in(model), SheetSettings(paper=paper)):
        assert collisions_in(named.document) == (), named.name
        auditor = named.document.audit()
        assert (len(auditor.errors), len(auditor.fixes)) == (0, 0), named.name


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_the_sheets_of_the_whole_say_every_part_and_figure(model: Path) -> None:
    """Every part stands in the list, has its balloon, and every reference is printed."""
    piece = piece_in(model)
    said: set[str] = set()
    balloons: set[str] = set()
    parts = distinct_parts(piece)
    of_parts = {each.part.id for each in parts}
    drawn = dict(zip(model_files(model.stem), model_sheets(model.stem), strict=True))
    for path, sheet in drawn.items():
        if set(sheet.parts) & of_parts:
            continue
        space = ezdxf.readfile(path).modelspace()
        texts = {text.dxf.text for text in space.query("TEXT")}
        texts |= {entity.dxf.text for entity in space.query("DIMENSION")}
        said |= set(texts)
        if Shows.EXPLODED in sheet.shows:
            balloons = texts
    for number, each in enumerate(parts, start=1):
        size = " x ".join(figure(mm, piece.shown) for mm in each.part.blank.size)
        assert {each.part.name, size} <= said
        assert str(number) in balloons
    for reference in piece.references:
        length = max(abs(b - a) for a, b in zip(reference.start, reference.end, strict=True))
        assert figure(length, piece.shown) in said, reference.what


@pytest.mark.parametrize("part", SAMPLES, ids=lambda part: part.id)
def test_no_dimension_is_given_twice(part: Part) -> None:
    """No figure stands twice in one row of one view, and each size of the blank, of its rabbets,
    grooves and notches stands once; what is in brackets follows from others."""
    sheet = read_sheet(_drawn(part, millimetres(0.1))[-1])
    plain = [f for view in sheet.views.values() for f in view.figures
             if not f.is_running and f.text[0] != "("]  # fmt: skip
    stepped = [cut for cut in part.cuts if isinstance(cut, Rabbet | Groove | Notch)]
    assert len(plain) == 3 + 2 * len(stepped)
    for view in sheet.views.values():
        rows = Counter((f.is_level, f.text) for f in view.figures if f.is_running)
        assert all(count == 1 for count in rows.values()), view.heading


@pytest.mark.parametrize("named", ["sloped board", "lid"])
def test_the_reader_sees_a_figure_that_is_off_and_a_stop_that_is_dropped(
    named: str, tmp_path: Path
) -> None:
    """Each figure that tells a cut is put off by 1.5 mm, then taken away: both change the part."""
    part = next(each for each in SAMPLES if each.name == named)
    (path,) = _drawn(part, millimetres(0.1))
    right, sizes = rebuilt(read_sheet(path)), {f"{mm:g}" for mm in part.blank.size}
    planted = 0
    for number, figure_ in enumerate(ezdxf.readfile(path).modelspace().query("DIMENSION")):
        text = figure_.dxf.text
        if text in ("0", *sizes) or text[0] == "(":
            continue
        for is_dropped in (False, True):
            document = ezdxf.readfile(path)
            entity = document.modelspace().query("DIMENSION")[number]
            entity.dxf.text = f"{float(text) + 1.5:g}"
            if is_dropped:
                document.modelspace().delete_entity(entity)
            document.saveas(wrong := tmp_path / "wrong.dxf")
            try:
                made = rebuilt(read_sheet(wrong))
            except (AssertionError, ValueError, IndexError):
                continue  # it says that it cannot
            off_mm3 = made.Volume() + right.Volume() - 2 * made.intersect(right).Volume()
            assert off_mm3 > 5.0, (text, is_dropped)
            planted += 1
    assert planted > 0


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_the_end_that_is_trimmed_last_stands_highest(model: Path) -> None:
    """A builder's word for it holds in the piece: the other end is on the floor, this one free."""
    for placed in piece_in(model).placed:
        end = placed.part.trimmed_last
        if end is not None:
            low, high = box_of(placed.part.blank, placed.placement)
            way = placed.placement.direction_to_piece(end.normal)
            assert way == pytest.approx((0.0, 0.0, 1.0)), placed.instance
            assert high[2] - low[2] == pytest.approx(placed.part.blank.length_mm)


def _picture_lines(path: Path) -> list[tuple[float, float, float, float]]:
    lines = ezdxf.readfile(path).modelspace().query("LINE")
    return [
        (line.dxf.start.x, line.dxf.start.y, line.dxf.end.x, line.dxf.end.y)
        for line in lines
        if line.dxf.layer in ("picture", "fine picture")
    ]


def _slanting(path: Path) -> list[tuple[float, float, float, float]]:
    return [line for line in _picture_lines(path) if abs(_steepness(line) - 30.0) < 0.1]


def _steepness(line: tuple[float, float, float, float]) -> float:
    """The slope of a line against the level, 0 to 90 [deg]."""
    return math.degrees(math.atan2(abs(line[3] - line[1]), abs(line[2] - line[0])))


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_the_isometric_is_large_enough_to_be_seen(model: Path) -> None:
    """Edges at 30 degrees (ISO 5456-3, from memory) are the isometric's alone: they span a quarter.

    Of the front view's height, both on paper. A general arrangement whose lists or details leave
    the picture no room has it as the exploded view.
    """
    drawn = dict(zip(model_files(model.stem), model_sheets(model.stem), strict=True))
    first = next(iter(drawn))
    opened = next(path for path, sheet in drawn.items() if Shows.EXPLODED in sheet.shows)
    shown_on = first if _slanting(first) else opened
    slanting = _slanting(shown_on)
    assert len(slanting) >= 6
    heights = [y for line in slanting for y in (line[1], line[3])]
    low, high = extents_of(piece_in(model))
    front = (high[2] - low[2]) / _reduction(first)
    assert (max(heights) - min(heights)) / _reduction(shown_on) >= 0.25 * front


def _reduction(path: Path) -> float:
    return paper_and_scale(ezdxf.readfile(path)).reduction


@pytest.mark.parametrize("stem", ["herb_stand", "tea_box", "yarn_steps"])
def test_the_level_section_shows_the_true_mitre(stem: str) -> None:
    """Two front corners are mitred: the cut wood has an edge at 45 degrees on each board there."""
    counts = []
    for document in model_showing(stem, Shows.INSIDE):
        count = 0
        for hatch in document.modelspace().query("HATCH"):
            for boundary in hatch.paths:
                corners = [(x, y) for x, y, *_ in boundary.vertices]
                for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
                    is_long = math.hypot(bx - ax, by - ay) > 5.0
                    count += is_long and abs(_steepness((ax, ay, bx, by)) - 45.0) < 0.5
        counts.append(count)
    assert max(counts) >= 4  # a joint drawn large has two
