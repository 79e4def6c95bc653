"""Sheets read back from their files: by ezdxf's auditor, by GDAL, and figure by figure."""

from __future__ import annotations

import json
import math
import random
import re
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import ezdxf
import pyogrio.raw
import pytest
from ezdxf.math import Vec3

from exporters.command import run
from exporters.sheets import DxfVersion, Paper, PartsOn, Projection, SheetSettings
from exporters.sheets.dxf import DIMENSION_STYLE
from exporters.sheets.lettering import text_width
from exporters.sheets.pens import LineClass
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Sheet
from furniture.pieces.piece import Note, Piece
from furniture.units import inches, millimetres
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import (
    documents_of,
    paper_and_scale,
    parts_drawn,
    sheet_documents,
    write_documents,
    write_sheets,
)
from tests.exporters.sheet_reader import figures_said
from tests.exporters.sheet_samples import INCH_SAMPLES, SAMPLES, piece_of, random_part

DATED = date(2026, 11, 25)


@pytest.fixture(scope="module")
def metric() -> Piece:
    note = "rail tops stand proud of the lid: plane flush as the glue-ups say"
    return piece_of(*SAMPLES, notes=(Note(note, ("front-rail",)),))


@pytest.fixture(scope="module")
def metric_sheets(metric: Piece) -> tuple[Sheet, ...]:
    return sheets_of(metric, SheetSettings(dated=DATED))


@pytest.fixture(scope="module")
def metric_files(
    metric_sheets: tuple[Sheet, ...], tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, ...]:
    return write_documents(documents_of(metric_sheets), tmp_path_factory.mktemp("metric"))


@pytest.fixture(scope="module")
def oldest_files(
    metric_sheets: tuple[Sheet, ...], tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, ...]:
    documents = documents_of(metric_sheets, DxfVersion.R12)
    return write_documents(documents, tmp_path_factory.mktemp("oldest"))


@pytest.fixture(scope="module")
def inch_files(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    folder = tmp_path_factory.mktemp("inch")
    piece = piece_of(*INCH_SAMPLES, shown=inches(64))
    return write_sheets(piece, SheetSettings(dated=DATED), folder)


def gdal_layers(path: Path) -> list[str]:
    """The layer of every feature that GDAL's reader finds in a DXF file."""
    meta, _, _, columns = pyogrio.raw.read(path)
    return list(columns[list(meta["fields"]).index("Layer")])


def test_audit_is_clean_after_reading_again(
    metric_files: tuple[Path, ...], inch_files: tuple[Path, ...]
) -> None:
    """ezdxf's auditor reports an entity that it had to drop as a fix: there must be none."""
    for path in (*metric_files, *inch_files):
        auditor = ezdxf.readfile(path).audit()
        assert (len(auditor.errors), len(auditor.fixes)) == (0, 0), path.name


def is_words(name: str) -> bool:
    """Whether a sheet of that name holds words and small pictures, and nothing to a scale."""
    return "work-in-order" in name or "glue-ups" in name


def test_gdal_reads_every_file(metric_files: tuple[Path, ...]) -> None:
    """GDAL's own DXF reader finds the layers, and as many lines of the part as ezdxf."""
    for path in metric_files:
        layers = gdal_layers(path)
        drawn_on = set() if is_words(path.stem) else {"visible"}
        if path.stem.endswith("exploded-view"):  # a picture and nothing else
            drawn_on = {"picture"} & set(layers) or {"fine picture"}
        assert {"frame", "title block"} | drawn_on <= set(layers), path.name
        document = ezdxf.readfile(path)
        drawn = [
            entity
            for entity in document.modelspace().query("LINE ARC CIRCLE ELLIPSE LWPOLYLINE")
            if entity.dxf.layer == "visible"
        ]
        assert layers.count("visible") == len(drawn), path.name


@pytest.mark.parametrize("version", [DxfVersion.R2000, DxfVersion.R12])
def test_gdal_reads_the_older_flavours(
    version: DxfVersion,
    metric_sheets: tuple[Sheet, ...],
    metric_files: tuple[Path, ...],
    oldest_files: tuple[Path, ...],
    tmp_path: Path,
) -> None:
    """Older files audit clean, and GDAL finds in them what it finds on the same layers today."""
    older = oldest_files
    if version is not DxfVersion.R12:
        older = write_documents(documents_of(metric_sheets, version), tmp_path)
    for path, today in zip(older, metric_files, strict=True):
        document = ezdxf.readfile(path)
        assert document.acad_release == version.value
        auditor = document.audit()
        assert (len(auditor.errors), len(auditor.fixes)) == (0, 0)
        layers, wanted = gdal_layers(path), gdal_layers(today)
        for name in ("visible", "hidden", "title block", "text", "leader"):
            assert layers.count(name) == wanted.count(name), (path.name, name)


def test_the_oldest_flavour_says_and_shows_the_same_in_plain_lines(
    metric_files: tuple[Path, ...], oldest_files: tuple[Path, ...]
) -> None:
    """Nothing that R12 lacks (hatching, ellipses, light chains), every figure as a text."""
    for path, today in zip(oldest_files, metric_files, strict=True):
        space = ezdxf.readfile(path).modelspace()
        kinds = {entity.dxftype() for entity in space}
        assert kinds <= {"LINE", "ARC", "CIRCLE", "POLYLINE", "SOLID", "TEXT"}
        said = Counter(text.dxf.text for text in space.query("TEXT"))
        new = ezdxf.readfile(today).modelspace()
        wanted = Counter(text.dxf.text for text in new.query("TEXT"))
        for figure in new.query("DIMENSION"):
            drawn = figure.virtual_entities()
            wanted.update(each.dxf.text for each in drawn if each.dxftype() == "TEXT")
        assert said == wanted, path.name
        lines = [line for line in space.query("LINE") if line.dxf.layer == "hatch"]
        hatched = {round(math.degrees(hatch_angle(line)) % 180, 3) for line in lines}
        offsets = [line.offset for hatch in new.query("HATCH") for line in hatch.pattern.lines]
        wanted_slopes = {round((math.degrees(math.atan2(y, x)) - 90) % 180, 3) for x, y in offsets}
        assert hatched == wanted_slopes
        # long grain along its fibres, sheets steep, end grain slanting but never along a mitre
        slants = hatched - {0.0, 90.0, 60.0}
        assert slants <= {45.0, 135.0, 120.0} or slants <= {30.0, 120.0, 45.0}


def hatch_angle(line: Any) -> float:
    """The direction of a line [rad]."""
    way = line.dxf.end - line.dxf.start
    return math.atan2(way.y, way.x)


@pytest.mark.parametrize("flavour", ["R2018", "R2000", "R12"])
def test_the_command_line_chooses_the_flavour(flavour: str, tmp_path: Path) -> None:
    """Every drawing file of the packet has it; the pages are the same whichever is chosen."""
    piece, target = piece_of(SAMPLES[0]), tmp_path / "packet"
    given = ["--out", str(target), "--only", "sheets", "--dxf", flavour, "--date", "2026-11-25"]
    assert run(piece, given) == 0
    drawings = list(target.rglob("*.dxf"))
    assert {path.parent.name for path in drawings} == {"sheets", "patterns"}
    assert {ezdxf.readfile(path).acad_release for path in drawings} == {flavour}
    assert (target / "patterns.pdf").is_file()
    record = json.loads((target / "piece.json").read_text(encoding="utf-8"))
    written = {path.relative_to(target).as_posix() for path in target.rglob("*") if path.is_file()}
    assert set(record["files"]) == written


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_dimension_measures_what_it_says(
    unit: str, metric_files: tuple[Path, ...], inch_files: tuple[Path, ...]
) -> None:
    """The measured points, times the dimension's factor, give the printed figure.

    Within half the shown step, since the text is rounded: 0.05 mm, or 1/128 in.
    """
    step = 0.05 if unit == "mm" else 25.4 / 128
    count = 0
    for path in metric_files if unit == "mm" else inch_files:
        document = ezdxf.readfile(path)
        for entity in document.modelspace().query("DIMENSION"):
            raw = entity.get_measurement()
            if not isinstance(raw, float):  # a running figure: x type or y type
                raw = raw.x if entity.dxf.dimtype & 64 else raw.y
            factor = entity.override().get("dimlfac", 1.0)
            said = figures_said(entity.dxf.text, document, unit)
            off = min(abs(abs(raw) * factor - mm) for mm in said)
            assert off <= step + 1e-6, (path.name, entity.dxf.text)
            count += 1
    assert count >= 20


def printed_at(document: Any, place: Any) -> list[Any]:
    """The text of a plain figure in model space nearest to this place."""
    plain = [
        text
        for text in document.modelspace().query("TEXT")
        if text.dxf.layer == LineClass.DIMENSION.value
    ]
    return [min(plain, key=lambda text: middle_of(text).distance(place))]


def middle_of(text: Any) -> Any:
    """The middle of a text as the sheet's own font sets it."""
    turn = math.radians(text.dxf.rotation)
    along = text_width(text.dxf.text, text.dxf.height) / 2
    up = text.dxf.height / 2
    x = along * math.cos(turn) - up * math.sin(turn)
    y = along * math.sin(turn) + up * math.cos(turn)
    return text.dxf.insert + Vec3(x, y, 0.0)


def test_dimensions_carry_their_own_drawing_and_style(metric_files: tuple[Path, ...]) -> None:
    """Each has a block with lines and its text, and none uses a stock style.

    Running figures are drawn beside it, in model space: some readers show no ordinate dimension.
    """
    for path in metric_files:
        document = ezdxf.readfile(path)
        for entity in document.modelspace().query("DIMENSION"):
            assert entity.dxf.dimstyle == DIMENSION_STYLE
            block = document.blocks.get(entity.dxf.geometry)
            texts = list(block.query("TEXT"))
            if entity.dxf.dimtype & 7 == 6:
                assert {each.dxftype() for each in block} == {"POINT"}
                texts = printed_at(document, entity.dxf.text_midpoint)
            else:
                assert len(block.query("LINE")) >= 1
            drawn = "".join(text.dxf.text for text in texts)
            assert drawn == re.sub("[ /]", "", entity.dxf.text)


def test_nothing_runs_into_anything(
    metric_files: tuple[Path, ...], inch_files: tuple[Path, ...]
) -> None:
    """Texts keep clear of texts, lines and the frame, and are high enough."""
    for path in (*metric_files, *inch_files):
        assert collisions_in(ezdxf.readfile(path)) == (), path.name


def test_what_runs_into_something_is_found(metric_files: tuple[Path, ...]) -> None:
    """A text set on another text, on a line of the part, off the sheet, or too low is reported."""
    document = ezdxf.readfile(metric_files[-1])
    size = paper_and_scale(document).reduction
    space = document.modelspace()
    text = next(
        t for t in space.query("TEXT") if t.dxf.text.endswith(" edge") and t.dxf.halign == 1
    )
    line = next(e for e in space.query("LINE") if e.dxf.layer == "visible")
    middle = (line.dxf.start + line.dxf.end) / 2
    at_text = text.dxf.align_point
    for words, at, height in (
        ("on a text", (at_text.x, at_text.y), 2.5),
        ("on a line", (middle.x, middle.y - size), 2.5),
        ("off the sheet", (-50.0 * size, 40.0 * size), 2.5),
        ("too low", (24.0 * size, 60.0 * size), 1.8),
    ):
        space.add_text(
            words, height=height * size, dxfattribs={"style": "sheet text"}
        ).set_placement(at)
    found = {(c.what, c.with_what.split(":")[0]) for c in collisions_in(document)}
    assert ("on a line", "line") in found
    assert ("off the sheet", "frame") in found
    assert ("too low", "least height") in found
    assert {what for what, _ in found} >= {text.dxf.text} or ("on a text", "text") in found


@pytest.mark.seeds(few=2, full=120)
def test_random_parts_keep_clear_on_any_paper(seed: int) -> None:
    """Whatever the cuts, every sheet is free of collisions; papers are drawn."""
    paper = random.Random(seed).choice(list(Paper))
    piece = piece_of(*(random_part(seed + n) for n in range(3)))
    for named in sheet_documents(piece, SheetSettings(paper=paper)):
        assert collisions_in(named.document) == (), named.name


def test_a_planes_letter_keeps_off_the_line_of_a_notch_beside_it() -> None:
    """A shelf 166 mm long with a notch from 80: the plane stood a letter's width from its line."""
    piece = piece_of(*(random_part(827826 + n) for n in range(3)))
    for named in sheet_documents(piece, SheetSettings(paper=Paper.TABLOID)):
        assert collisions_in(named.document) == (), named.name


@pytest.mark.parametrize("seed", [559, 59])
def test_what_can_go_elsewhere_gives_way_to_what_cannot(seed: int) -> None:
    """A plane's letter stood on an extension line, and a detail's circle ran through the heading
    of its view: letter and heading stand clear of what has but one place."""
    piece = piece_of(random_part(seed), shown=millimetres(0.1))
    told: list[str] = []
    for named in sheet_documents(piece, SheetSettings(paper=Paper.A4)):
        told += [each.dxf.text for each in named.document.modelspace().query("TEXT")]
        assert collisions_in(named.document) == (), named.name
    assert told.count("A") == (2 if seed == 559 else 0), "both ends of the plane are lettered"


@pytest.mark.parametrize("denominator", [64, 16])
def test_a_width_hardly_higher_than_its_figure_keeps_off_the_running_lines(
    denominator: int,
) -> None:
    """A groove drawn 2 mm wide: the line of the running figure to its wall passes its words."""
    piece = piece_of(random_part(71205), shown=inches(denominator))
    told = []
    for named in sheet_documents(piece, SheetSettings(paper=Paper.A4)):
        told += [each.dxf.text for each in named.document.query("DIMENSION")]
        assert collisions_in(named.document) == (), named.name
    assert any("(0.287)" in each for each in told), told


@pytest.mark.parametrize("paper", list(Paper))
def test_layout_prints_the_paper_at_the_stated_scale(paper: Paper) -> None:
    """The viewport covers the paper; paper size over model size is the title block's scale."""
    for named in sheet_documents(piece_of(SAMPLES[0]), SheetSettings(paper=paper)):
        page = paper_and_scale(named.document)
        sizes = {paper.value.width_mm, paper.value.height_mm}
        assert {page.width_mm, page.height_mm} == sizes
        texts = [text.dxf.text for text in named.document.modelspace().query("TEXT")]
        is_drawn = not is_words(named.name)
        assert (f"1:{page.reduction:g}" if is_drawn else "-") in texts
        layout = named.document.layout("sheet")
        viewport = next(view for view in layout.query("VIEWPORT") if view.dxf.id != 1)
        assert viewport.dxf.width == page.width_mm
        assert viewport.dxf.view_height == pytest.approx(page.height_mm * page.reduction)


def test_paper_sizes_are_the_published_ones() -> None:
    """ISO 216: A4 210 x 297, A3 297 x 420. ASME Y14.1: A 8.5 x 11 in, B 11 x 17 in."""
    assert (Paper.A4.value.width_mm, Paper.A4.value.height_mm) == (297.0, 210.0)
    assert (Paper.A3.value.width_mm, Paper.A3.value.height_mm) == (420.0, 297.0)
    letter, tabloid = Paper.LETTER.value, Paper.TABLOID.value
    assert (letter.width_mm, letter.height_mm) == pytest.approx((11 * 25.4, 8.5 * 25.4))
    assert (tabloid.width_mm, tabloid.height_mm) == pytest.approx((17 * 25.4, 11 * 25.4))


def test_the_view_is_at_true_size_in_model_space(metric_files: tuple[Path, ...]) -> None:
    """The post's outline measures 700 x 90 mm in model space, whatever the scale on paper."""
    path = next(path for path in metric_files if path.stem.endswith("-post"))
    lines = [
        line
        for line in ezdxf.readfile(path).modelspace().query("LINE")
        if line.dxf.layer == "visible"
    ]
    longest = max(abs(line.dxf.end.x - line.dxf.start.x) for line in lines)
    assert longest == pytest.approx(700.0, abs=1e-6)


def test_layers_have_plain_names_and_the_pens_of_the_standard(
    metric_files: tuple[Path, ...],
) -> None:
    """ISO 128-2: wide to narrow is 2 : 1; hidden lines are dashed, centre lines dash-dot."""
    document = ezdxf.readfile(metric_files[-1])
    layers = document.layers
    for line_class in LineClass:
        assert line_class.value in layers
    assert layers.get("visible").dxf.lineweight == 2 * layers.get("hidden").dxf.lineweight
    assert layers.get("hidden").dxf.linetype == "dashed"
    assert layers.get("centre").dxf.linetype == "long dash dot"


def test_figures_are_printed_in_the_shown_unit(inch_files: tuple[Path, ...]) -> None:
    """Worked by hand: 27 9/16, 8 3/64 and 18 11/16 in; a dado set by a dial has its decimal."""
    path = next(path for path in inch_files if path.stem.endswith("-post"))
    space = ezdxf.readfile(path).modelspace()
    figures = {entity.dxf.text for entity in space.query("DIMENSION")}
    assert {"27 9/16", "3 1/8", "8 3/64", "13 1/2", "18 11/16", "23 1/4", "3/4"} <= figures
    words = " ".join(text.dxf.text for text in space.query("TEXT"))
    assert "13/32 (0.409)" in words


def test_words_that_a_maker_needs(metric: Piece, tmp_path: Path) -> None:
    """Trade words on the sheets: which end is trimmed last, mirrored parts, grain, flush."""

    own = SheetSettings(dated=DATED, parts_on=PartsOn.THEIR_OWN)
    files = parts_drawn(metric, tmp_path, own)

    def words(name: str) -> str:
        path = next(path for path in files if path.stem.endswith(name))
        return " ".join(t.dxf.text for t in ezdxf.readfile(path).modelspace().query("TEXT"))

    assert re.search(r" end: trim this (end )?last", words("-post"))
    assert "trim this" not in words("mixed-post")
    assert "Mirror image of right stub, measured from mirrored faces." in words("left-stub")
    assert "plane flush as the glue-ups say" in words("front-rail")
    for name in ("-post", "left-stub", "-lid", "bottom"):
        assert "Double arrow: grain." in words(name)
        for label in (" edge", " face", "1 of white oak", "; rough "):
            assert label in words(name)


def test_equal_pieces_give_equal_bytes(metric: Piece, tmp_path: Path) -> None:
    """Nothing of the run, such as a time, gets into a file."""
    texts = []
    for name in ("one", "two"):
        folder = tmp_path / name
        folder.mkdir()
        files = write_sheets(piece_of(*SAMPLES[:2]), SheetSettings(dated=DATED), folder)
        texts.append([path.read_bytes() for path in files])
    assert texts[0] == texts[1]


@pytest.mark.parametrize(
    ("projection", "edge_is_above"),
    [(Projection.FIRST_ANGLE, True), (Projection.THIRD_ANGLE, False)],
)
def test_the_projection_sets_views_on_the_right_side(
    projection: Projection, edge_is_above: bool, tmp_path: Path
) -> None:
    """ISO 5456-2 (from memory): the view from below stands above in first angle, below in third."""
    from tests.exporters.sheet_reader import read_sheet

    settings = SheetSettings(projection=projection)
    path = write_sheets(piece_of(SAMPLES[0]), settings, tmp_path)[-1]
    views = read_sheet(path).views
    assert (views["face edge"].box[1] > views["face side"].box[1]) is edge_is_above


def test_shown_step_is_the_pieces(tmp_path: Path) -> None:
    """A coarse step marks a figure that it rounds too far; what a dado hangs on is not rounded."""
    piece = piece_of(SAMPLES[0], shown=millimetres(1.0))
    whole, *_, post = (
        {d.dxf.text for d in ezdxf.readfile(path).modelspace().query("DIMENSION")}
        for path in write_sheets(piece, SheetSettings(), tmp_path)
    )
    assert "20 -" in whole
    assert {"19.7", "78.3", "346"} <= post
