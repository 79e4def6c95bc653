"""The cutting plans of the models as a maker gets them: sheets, table, record, picture."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from fractions import Fraction

import ezdxf
import pytest
from shapely.geometry import Polygon, box

from exporters.cutting import cutting_record
from exporters.cutting.board_sheet import BOARD_SCALES, INCH_BOARD_SCALES
from exporters.cutting.picture import write_boards_picture
from exporters.cutting.tables import CUTTING_HEADER, cutting_rows
from exporters.faces import FaceNames
from exporters.sheets.dxf import document_of, save
from exporters.sheets.lettering import text_width
from exporters.sheets.numbering import numbered
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Lettering, Stroke
from exporters.views.values import Line
from furniture import (
    SawSetUp,
    Shop,
)
from furniture.parts.faces import Face
from furniture.units import figure
from tests.exporters.board_sheets import board_sheets_of
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import paper_and_scale
from tests.models import piece_of
from tests.shop.boards.bench import MODELS, outcome_of_model

SHOP = Shop(saw=SawSetUp(shortest_rip="150 mm", shortest_crosscut="100 mm"))


@pytest.fixture(scope="module")
def documents(tmp_path_factory):
    """Every board sheet of the models, saved and read back, by model and sheet."""
    folder = tmp_path_factory.mktemp("boards")
    found = {}
    for name in MODELS:
        for sheet in numbered(board_sheets_of(name)):
            path = save(document_of(sheet), folder / f"{name}-{sheet.name}.dxf")
            found[name, sheet.name] = ezdxf.readfile(path)
    return found


def test_every_board_that_is_begun_has_its_sheet(documents):
    for name in MODELS:
        boards = {each.board.lower() for each in outcome_of_model(name).used}
        told = [each for model, sheet in documents if model == name for each in _boards_on(sheet)]
        assert sorted(told) == sorted(boards)


def _boards_on(sheet):
    """The boards of a sheet by its name: `02-boards-d-e` has two of them, a sheet of lists none."""
    return [each for each in sheet.split("-")[2:] if each != "lists"]


@pytest.mark.parametrize("name", MODELS)
def test_all_lists_of_a_board_stand_on_its_own_sheet(documents, name):
    """A maker at the saw needs no second sheet; small boards share one."""
    sheets = [sheet for model, sheet in documents if model == name]
    assert all(_boards_on(sheet) for sheet in sheets)
    assert len(sheets) < 4


def _lies(laid, names):
    """What is up, and what is at the jointed edge, of a part that lies along its board."""
    faces = (Face.FACE_SIDE, Face.FACE_EDGE)
    if laid.placement.is_flipped:
        faces = (Face.BACK_SIDE, Face.BACK_EDGE)
    assert not laid.placement.is_turned
    return tuple(names.of([each.name for each in laid.copy.stretches], face) for face in faces)


def test_how_parts_lie_is_said_once_where_they_lie_alike(documents):
    """Once on a sheet for all boards of the most usual way, in a sentence above its list for any
    other one; where the parts of a board lie in several ways, each row of the list says it."""
    for name in MODELS:
        outcome, names = outcome_of_model(name), FaceNames(piece=piece_of(name))
        plans = {each.board.lower(): each for each in outcome.used}
        all_ways = [
            {_lies(outcome.laid(each), names) for each in plan.placements} for plan in outcome.used
        ]
        counted = Counter(next(iter(each)) for each in all_ways if len(each) == 1)
        usual = {way for way, count in counted.most_common(1) if count > 1}
        for sheet in (sheet for model, sheet in documents if model == name):
            texts = [text.dxf.text for text in documents[name, sheet].query("TEXT")]
            ways = [
                {_lies(outcome.laid(each), names) for each in plans[board].placements}
                for board in _boards_on(sheet)
            ]
            own = sum(len(each) == 1 and each != usual for each in ways)
            told = " ".join(texts)
            assert told.count("Parts lie with their") == own + (usual in ways)
            is_mixed = usual in ways and any(each != usual for each in ways)
            assert ("Where nothing else is said: Parts lie" in told) == is_mixed
            assert texts.count("up") == sum(len(each) > 1 for each in ways)


def test_sheets_pass_the_audit_and_nothing_runs_into_anything(documents):
    for key, document in documents.items():
        auditor = document.audit()
        assert not auditor.errors, key
        assert not auditor.fixes, key
        assert collisions_in(document) == (), key


def _drawn_words(name, plan):
    """The words of a board's own sheet, and all words of it and of the further lists."""
    sheets = board_sheets_of(name)
    own = [
        item.text
        for sheet in sheets
        if plan.board.lower() in _boards_on(sheet.name)
        for item in sheet.items
        if isinstance(item, Lettering)
    ]
    lists = [
        item.text
        for sheet in sheets
        if not _boards_on(sheet.name)
        for item in sheet.items
        if isinstance(item, Lettering)
    ]
    return own, own + lists


@pytest.mark.parametrize("name", MODELS)
def test_parts_offcuts_zones_sides_and_cuts_are_named_on_the_drawing_itself(name):
    """Names may be broken into lines, so the words are joined before they are looked for."""
    outcome = outcome_of_model(name)
    for plan in outcome.used:
        own, everything = _drawn_words(name, plan)
        text = " ".join(own)
        board = next(b for b in outcome.job.boards if b.name == plan.board)
        for placement in plan.placements:
            assert outcome.name_of(placement) in text
        for zone in board.zones:
            assert zone.name in text
            first = figure(min(x for x, _ in zone.outline), outcome.job.shown)
            assert f"{first} from end" in text or f" {first} to " in text  # in the list beside it
        for side in ("jointed edge", "tape end"):
            assert side in text
        for cut in plan.cuts:
            assert str(cut.number) in own  # in its ring
            assert f"{cut.number} {cut.direction.value}" in everything  # in the list
        letters = "abcdefgh"
        kept = [each for each in plan.offcuts if each.is_usable]
        for letter, _ in zip(letters, kept, strict=False):
            assert f"{letter}: keep" in text
        inner = [s for s in board.stations if 0.0 < s.at_mm < board.length_mm]
        for station in inner:
            assert f"{figure(station.width_mm, outcome.job.shown)} wide at" in text


def test_boards_are_drawn_to_scale_with_their_kerfs(documents):
    """Model space is true size at the largest scale of its sheet: a board is as long as it was
    measured, by the scale that its heading tells, a kerf as wide as the saw cuts."""
    for (name, sheet), document in documents.items():
        on_it = _boards_on(sheet)
        if not on_it:
            continue
        space = document.modelspace()
        outcome = outcome_of_model(name)
        own = _scales_told(document)
        largest = paper_and_scale(document).reduction
        lengths = sorted(
            board.length_mm * largest / own[board.name]
            for board in outcome.job.boards
            if board.name.lower() in on_it
        )
        outlines = [p.get_points() for p in space.query("LWPOLYLINE") if p.dxf.layer == "visible"]
        drawn = [max(x for x, *_ in points) - min(x for x, *_ in points) for points in outlines]
        assert sorted(drawn) == pytest.approx(lengths, abs=1e-3)
        kerf = outcome.job.request.saw.kerf_mm
        kerfs = 0
        for solid in space.query("SOLID"):
            if solid.dxf.layer != "kerf":
                continue
            kerfs += 1
            corners = [solid.dxf.vtx0, solid.dxf.vtx1, solid.dxf.vtx2, solid.dxf.vtx3]
            sides = [max(c[i] for c in corners) - min(c[i] for c in corners) for i in range(2)]
            assert min(sides) <= kerf + 1e-6
        assert kerfs == sum(len(p.cuts) for p in outcome.used if p.board.lower() in on_it)
        scales = INCH_BOARD_SCALES if piece_of(name).shown.is_inch else BOARD_SCALES
        assert paper_and_scale(document).reduction in {scale.reduction for scale in scales}


def _scales_told(document):
    """What a board's heading says that its drawing is reduced by: `Board A: ... (1:7.5)`."""
    texts = [text.dxf.text for text in document.query("TEXT")]
    found = [re.fullmatch(r"Board (\w+): .*\(1:([\d.]+)\)", text) for text in texts]
    return {match[1]: float(match[2]) for match in found if match}


@pytest.mark.parametrize("name", MODELS)
def test_the_record_alone_says_a_plan_that_can_be_checked(name):
    """Rebuilt with shapely from piece.json's figures: inside the board, off each other by a kerf,
    off every zone their faces do not tolerate; yield as area over area."""
    record = json.loads(json.dumps(cutting_record(outcome_of_model(name)), allow_nan=False))
    assert record["status"] == "planned"
    faces = {each["name"]: each for each in record["parts"]}
    laid = wood = 0.0
    for each in record["boards"]:
        if not each["is_begun"]:
            assert not each["placements"]
            continue
        widths = [(w["at_mm"], w["width_mm"]) for w in each["widths"]]
        outline = Polygon([(0, 0), (each["length_mm"], 0), *reversed(widths)])
        wood += outline.area
        shapes = []
        for place in each["placements"]:
            x, y = place["x_mm"], place["y_mm"]
            shape = box(x, y, x + place["length_mm"], y + place["width_mm"])
            laid += shape.area
            assert shape.difference(outline).area < 1e-3
            for other in shapes:
                assert shape.distance(other) >= record["saw"]["kerf_mm"] - 1e-6
            shapes.append(shape)
            for zone in each["zones"]:
                part = faces[place["name"]]
                on_show = zone["shows"] == "both faces" or (
                    (zone["shows"] == "lower face") == place["is_flipped"]
                )
                kinds = "show_face_tolerates" if on_show else "hidden_face_tolerates"
                if zone["kind"] not in (*part[kinds], "figure", "even grain"):
                    assert Polygon(zone["outline_mm"]).intersection(shape).area < 1e-3
        assert [cut["number"] for cut in each["cuts"]] == list(range(1, len(each["cuts"]) + 1))
        for offcut in each["offcuts"]:
            if offcut["is_usable"]:
                x, y = offcut["x_mm"], offcut["y_mm"]
                shape = box(x, y, x + offcut["length_mm"], y + offcut["width_mm"])
                assert shape.difference(outline).area < 1e-3
    assert record["yield"] == pytest.approx(laid / wood, abs=1e-4)
    begun = sum(each["price"] for each in record["boards"] if each["is_begun"])
    assert record["boards_cost"] == pytest.approx(begun)
    assert record["proof"]["bound"] <= record["proof"]["value"] + 1e-9


@pytest.mark.parametrize("name", MODELS)
def test_every_instance_of_the_piece_has_one_place(name):
    record = cutting_record(outcome_of_model(name))
    piece = piece_of(name)
    placed = [
        own
        for each in record["boards"]
        for place in each["placements"]
        for own in place["instances"]
    ]
    assert sorted(p["instance"] for p in placed) == sorted(e.instance for e in piece.placed)
    slugs = {each.instance: each.part.id for each in piece.placed}
    assert all(slugs[p["instance"]] == p["part"] for p in placed)


def test_the_table_lists_cuts_in_order_in_the_shown_unit():
    """Inches as fractions: the second rail of the tea box begins after the first as far as a kerf
    of 1/8 in takes when it is tilted by 45 degrees, and a skim of half a millimetre."""
    outcome = outcome_of_model("tea_box")
    rows = [dict(zip(CUTTING_HEADER, row, strict=True)) for row in cutting_rows(outcome)]
    assert {row["unit"] for row in rows} == {"in"}
    for plan in outcome.used:
        made = ("rip", "crosscut")
        cuts = [r for r in rows if r["what"] in made and r["board"] == plan.board]
        assert [int(r["number"]) for r in cuts] == list(range(1, len(plan.cuts) + 1))
    rails = {r["name"]: r for r in rows if r["what"] == "off it"}
    first, second = rails["left side rail"], rails["front rail"]
    end = _inches(first["on board x"]) + _inches(first["length"])
    lost = 0.125 * math.sqrt(2) + 0.5 / 25.4
    assert float(_inches(second["on board x"]) - end) == pytest.approx(lost, abs=1 / 32)


def _inches(text):
    return sum(Fraction(word) for word in text.removesuffix(" +").removesuffix(" -").split())


def test_the_picture_shows_every_board(tmp_path):
    """Wood, parts and kerfs cover a good share of the page, and the same plan draws the same."""
    import matplotlib.image

    outcome = outcome_of_model("herb_stand")
    path = write_boards_picture(piece_of("herb_stand"), outcome, tmp_path / "boards.png")
    picture = matplotlib.image.imread(path)[..., :3]
    assert picture.shape[1] >= 1600
    assert 0.3 < (picture.min(axis=2) < 0.98).mean() < 0.95
    again = write_boards_picture(piece_of("herb_stand"), outcome, tmp_path / "again.png")
    assert again.read_bytes() == path.read_bytes()


@pytest.mark.parametrize("name", MODELS)
def test_every_model_is_planned_whole_on_its_own_boards(name):
    """Nothing left out, and of the wishes only one match of the herb stand is given up."""
    plan = outcome_of_model(name).plan
    assert plan.unplaced == ()
    lost = [match.group for match in plan.matches if not match.is_kept]
    assert lost == (["tiers alike"] if name == "herb_stand" else [])


def test_the_leader_of_a_width_runs_through_no_part():
    """A line right through the board would look like a cut: at 1:10 the board is 24 mm high."""
    found = [
        (each, sheet.items)
        for sheet in board_sheets_of("herb_stand")
        for each in sheet.items
        if isinstance(each, Lettering) and each.text == "238 wide at 730"
    ]
    ((word, items),) = found
    middle = word.at[0] + text_width(word.text, word.height) / 2
    leaders = [
        each.shape
        for each in items
        if isinstance(each, Stroke)
        and each.line_class is LineClass.LEADER
        and isinstance(each.shape, Line)
    ]
    near = [line for line in leaders if abs(line.end[0] - middle) < 15.0]
    assert near
    beside = [line for line in near if abs(line.start[1] - word.at[1]) < 6.0]
    assert beside
    assert all(math.dist(line.start, line.end) < 12.0 for line in beside)
