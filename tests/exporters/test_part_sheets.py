"""What a part's sheet says beside its figures: where it stands, which marks, breaks, rounding."""

from __future__ import annotations

import re
from itertools import permutations
from pathlib import Path
from typing import Any

import pytest
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

from exporters.faces import faces_of
from exporters.sheets import PartsOn, SheetSettings
from exporters.sheets.annotation import FACE_OF_LOOK, FRAMES, Look
from exporters.sheets.blocks import Block
from exporters.sheets.broken import GAP_MM, Break, breaks_to_fit, drawn_at, plain_stretches
from exporters.sheets.dxf import document_of
from exporters.sheets.face_marks import _datum_mark
from exporters.sheets.figures import Beside, Measured, Side, linear, stroke
from exporters.sheets.geometry import lettering_box, shape_points
from exporters.sheets.paper import Box2
from exporters.sheets.part_drawing import shares_of
from exporters.sheets.part_notes import MARKS_NOTE, rounded_note, standing_words, stands_of
from exporters.sheets.part_views import run_of
from exporters.sheets.pens import INCH_STYLE, LineClass
from exporters.sheets.sheets import _Maker, sheets_of_parts
from exporters.sheets.space import Space
from exporters.sheets.values import Filled, Lettering, Stroke
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, FlatMitre, Notch
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.parts.vectors import cross
from furniture.pieces.piece import Distinct, Piece, distinct_parts, placed_named
from furniture.units import inches, millimetres
from tests.builders.test_hinged_lid import hinged
from tests.exporters.collisions import collisions_in
from tests.exporters.documents import model_documents, paper_and_scale, sheet_documents
from tests.exporters.sheet_reader import figures_said
from tests.exporters.sheet_samples import SAMPLES, part, piece_of
from tests.exporters.test_sheets_rebuild import MODELS, piece_in

ALONE = SheetSettings(parts_on=PartsOn.THEIR_OWN)
HERB, TEA, YARN = (
    next(model for model in MODELS if model.stem == stem)
    for stem in ("herb_stand", "tea_box", "yarn_steps")
)


def _documents(model: Path) -> dict[str, Any]:
    """Every sheet of a model, by the name of its file."""
    return {named.name: named.document for named in model_documents(model.stem)}


def _of_parts(model: Path) -> dict[str, Any]:
    """The sheets of a model's parts: those that are ruled into cells."""
    return {name: d for name, d in _documents(model).items() if _is_of_parts(d)}


def _is_of_parts(document: Any) -> bool:
    return any(line.dxf.layer == "panel" for line in document.modelspace().query("LINE"))


def _with(model: Path, part: Part) -> Any:
    """The sheet that a part's name heads a cell of."""
    headed = re.compile(rf"\d[\d, ]* (.*, )?{re.escape(part.name)}(,.*)? \(\d+:\d+\)")
    return next(
        document
        for document in _of_parts(model).values()
        if any(headed.match(text.dxf.text) for text in document.modelspace().query("TEXT"))
    )


@pytest.mark.parametrize("look", Look)
def test_right_times_up_of_every_look_is_towards_the_viewer(look: Look) -> None:
    """A section is looked at from the far end; every other look is at the face it names."""
    seen = FACE_OF_LOOK[look].normal if look in FACE_OF_LOOK else (1.0, 0.0, 0.0)
    assert cross(FRAMES[look].right, FRAMES[look].up) == pytest.approx(seen)


def _distinct(piece: Piece, instance: str) -> Distinct:
    return next(each for each in distinct_parts(piece) if instance in each.instances)


def _texts(piece: Piece, ending: str) -> list[str]:
    named = next(n for n in sheet_documents(piece, SheetSettings()) if n.name.endswith(ending))
    return [text.dxf.text for text in named.document.modelspace().query("TEXT")]


@pytest.mark.parametrize(
    ("model", "instance", "said"),
    [
        (HERB, "front rail", "outside face to the front"),
        (HERB, "left stub", "outside face to the back, post end to the right"),
        (HERB, "right stub", "outside face to the back, post end to the left"),
        (HERB, "post", "inside face to the front"),
        (YARN, "right upright", "inside face to the left"),
    ],
)
def test_a_part_says_how_it_stands(model: Path, instance: str, said: str) -> None:
    """Worked by hand, from the front; names that say it themselves are not repeated."""
    piece = piece_in(model)
    each = _distinct(piece, instance)
    assert standing_words(stands_of(piece, each, faces_of(piece, each))) == (
        f"In the piece, seen from the front: {said}."
    )


def test_nothing_is_said_of_faces_whose_names_say_it() -> None:
    """A lid's top face, front edge and left end."""
    piece = piece_in(HERB)
    each = _distinct(piece, "lid")
    assert not stands_of(piece, each, faces_of(piece, each))


def test_instances_that_stand_differently_are_each_named() -> None:
    """The tea box's side rails are one part: one looks left, the other right."""
    piece = piece_in(TEA)
    each = _distinct(piece, "left side rail")
    note = standing_words(stands_of(piece, each, faces_of(piece, each)))
    assert "eft side rail: outside face to the left, datum end to the back" in note
    assert "right side rail: outside face to the right, datum end to the front" in note


@pytest.mark.some_models
@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_no_sheet_of_a_part_speaks_in_our_own_terms(model: Path) -> None:
    """Faces go by where they are in the piece; the rest by the bench's marks."""
    for name, document in _of_parts(model).items():
        said = " ".join(text.dxf.text for text in document.modelspace().query("TEXT"))
        for term in ("back side", "named end", "far end"):
            assert term not in said, name


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_a_back_edge_is_one_that_looks_to_the_back(model: Path) -> None:
    """On paper it says where the edge is, whichever edge the part is struck from."""
    piece = piece_in(model)
    for each in distinct_parts(piece):
        for face, name in faces_of(piece, each).names.items():
            for instance in each.instances:
                placement = placed_named(piece, instance).placement
                looks = placement.direction_to_piece(face.normal)[1]
                assert (name in ("back edge", "back face", "back end")) <= (looks > 0.9), name


def test_no_wide_face_is_named_beside_a_look_at_another() -> None:
    """Its lid's underside is looked at, and its front edge: only beside that runs a top face."""
    piece = hinged().build()
    lid = next(each for each in distinct_parts(piece) if each.part.name == "lid")
    (sheet,) = sheets_of_parts(piece, ALONE, (lid,), 1)
    names = [
        each.text for each in sheet.items
        if isinstance(each, Lettering) and each.line_class is LineClass.NAME
    ]  # fmt: skip
    assert names.count("top face") == 1


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_both_datums_of_a_part_are_marked(model: Path) -> None:
    """A black triangle on an end and one on an edge of each drawing, its tip on the wood, whose two
    edges are named once each, and the note that explains them."""
    for name, document in _of_parts(model).items():
        space = document.modelspace()
        marks = [solid for solid in space.query("SOLID") if solid.dxf.layer == "symbol"]
        edges = [text for text in space.query("TEXT")
                 if text.dxf.layer == "face name" and text.dxf.text.endswith(" edge")]  # fmt: skip
        assert len(marks) == len(edges) > 0, name
        wood = unary_union([
            LineString([line.dxf.start.vec2, line.dxf.end.vec2])
            for line in space.query("LINE") if line.dxf.layer == "visible"
        ])  # fmt: skip
        tips = [Point(mark.dxf.vtx0.vec2) for mark in marks]
        assert max(wood.distance(tip) for tip in tips) < 1e-3, name
        said = " ".join(text.dxf.text for text in space.query("TEXT"))
        assert MARKS_NOTE in said, name


def test_a_datum_is_marked_between_dados_that_stand_close() -> None:
    """Lines every 4 mm from the edge outwards, and along it inside: in no step of 2 mm is there
    room between two, and the part was refused as one that fits on no sheet."""
    core = Box2(left=0.0, bottom=0.0, right=40.0, top=30.0)
    main = Block(
        frame=FRAMES[Look.FACE_SIDE], factor=1.0, at=(0.0, 0.0), core=core, box=core, items=()
    )
    space = Space(core.grown(20.0))
    lines = [stroke((x, -10.0), (x, 5.0)) for x in range(-11, 60, 4)]
    space.add(lines)
    (mark,) = _datum_mark(Face.FACE_EDGE, main, space)
    assert isinstance(mark, Filled)
    (tip, *_) = mark.corners
    assert tip[1] == 0.0
    assert 1.2 < (tip[0] - 1.0) % 4.0 < 2.8


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_every_mark_of_rounding_is_explained_on_its_sheet(model: Path) -> None:
    """A sheet of a part or of joints that marks one says what it means."""
    note = rounded_note(piece_in(model).shown).split(":")[0]
    joints = {name: d for name, d in _documents(model).items() if "joints" in name}
    for name, document in (_of_parts(model) | joints).items():
        space = document.modelspace()
        texts = [text.dxf.text for text in space.query("TEXT")]
        figures = [figure.dxf.text for figure in space.query("DIMENSION")]
        explained = any(text.startswith(note) for text in texts)
        marked = any(re.search(r"\d [+-]($|[,)]| \D)", text) for text in (*texts, *figures))
        assert explained or not marked, name


def test_a_rounded_fraction_carries_its_decimal() -> None:
    """9.723 mm is 0.383 in: 49/128, half a 64th, which goes up; no 64th says it well enough."""
    document = _with(YARN, _distinct(piece_in(YARN), "left side rail").part)
    figures = [figure.dxf.text for figure in document.modelspace().query("DIMENSION")]
    assert "25/64 - (0.383)" in figures
    assert "49/64" in figures, "0.766 in says the same"


@pytest.mark.parametrize("model", [HERB, YARN], ids=lambda path: path.stem)
def test_shoulders_and_the_end_trimmed_last_are_marked(model: Path) -> None:
    """On the sheet of each part with dados one is pointed at; the top end is named beside it."""
    piece = piece_in(model)
    instance = "post" if model is HERB else "left upright"
    part = _distinct(piece, instance).part
    document = _with(model, part)
    texts = " ".join(text.dxf.text for text in document.modelspace().query("TEXT"))
    assert "mark from this" in texts
    assert part.trimmed_last is not None
    assert re.search(r"top end: ?trim", texts)


@pytest.mark.parametrize("part", SAMPLES[:8], ids=lambda part: part.id)  # with square ends
def test_names_of_ends_stand_beside_their_ends(part: Part) -> None:
    """Not under a corner: left of one end, right of the other, unless a leader points."""
    piece = piece_of(part)
    (sheet,) = sheets_of_parts(piece, ALONE, distinct_parts(piece), 1)
    space = document_of(sheet).modelspace()
    lines = [line for line in space.query("LINE") if line.dxf.layer == "visible"]
    leaders = [line for line in space.query("LINE") if line.dxf.layer == "leader"]
    wanted = re.compile(r"((left|right|mitre|square)( end)?|(left|right) end:.*)")
    names = [text for text in space.query("TEXT") if wanted.fullmatch(text.dxf.text)]
    assert len(names) >= 2
    for text in names:
        at = text.dxf.insert if text.dxf.halign == 0 else text.dxf.align_point
        height = text.dxf.height
        level = at.y + height / 2
        has_leader = any(
            abs(line.dxf.start.y - level) < 0.1 * height
            and abs(line.dxf.end.y - level) < 0.1 * height
            and min(abs(line.dxf.start.x - at.x), abs(line.dxf.end.x - at.x)) < 9.0 * height
            for line in leaders
        )
        assert has_leader or _is_beside(at, lines, height), text.dxf.text


def test_running_figures_stand_past_the_size_of_a_notch_beside_them() -> None:
    """A tier between uprights with a plug's hole in front: both are told at its right end."""
    tier = part(
        "tier 1", (299.75, 171.85, 12.7),
        Bore(face=Face.FACE_SIDE, x_mm=76.2, y_mm=38.1, diameter_mm=41.275),
        *(Notch(edge=end, start_mm=0.0, length_mm=76.0, depth_mm=7.0)
          for end in (Face.NAMED_END, Face.FAR_END)),
    )  # fmt: skip
    named = sheet_documents(piece_of(tier, shown=inches(32)), SheetSettings())[-1]
    assert collisions_in(named.document) == ()


def _is_beside(at: Any, lines: list[Any], height: float) -> bool:
    """Whether an upright visible line, an end, spans the text's level within reach of it."""
    for line in lines:
        start, end = line.dxf.start, line.dxf.end
        low, high = sorted((start.y, end.y))
        is_upright = abs(start.x - end.x) < 1e-6 and high - low > height
        if is_upright and low - height < at.y < high + height and abs(start.x - at.x) < 4 * height:
            return True
    return False


def test_breaks_leave_out_just_enough() -> None:
    """600 long at 1:2 on 200 of paper: 300 less what one break takes out."""
    plain = plain_stretches(600.0, [(0.0, 60.0), (260.0, 280.0), (590.0, 600.0)])
    assert plain == [(60.0, 260.0), (280.0, 590.0)]
    breaks = breaks_to_fit(600.0, plain, 0.5, 200.0)
    assert breaks is not None
    assert len(breaks) == 1
    assert drawn_at(600.0, breaks, 0.5) * 0.5 == pytest.approx(200.0)
    assert drawn_at(250.0, breaks, 0.5) == pytest.approx(250.0)


def test_of_several_breaks_none_makes_a_longer_stretch_look_the_shorter() -> None:
    """Five dados a little closer each time, 900 long at 1:4 on 160 of paper: three breaks, shared
    out by what there was to spare, left the last two stretches whole and longer than the first."""
    shoulders = [0.0, 250.0, 405.0, 550.0, 690.0, 823.0]
    plain = plain_stretches(900.0, [(at, at + 13.0) for at in shoulders])
    breaks = breaks_to_fit(900.0, plain, 0.25, 160.0)
    assert breaks is not None
    assert drawn_at(900.0, breaks, 0.25) * 0.25 <= 160.0 + 1e-6
    true = [high - low for low, high in plain]
    drawn = [drawn_at(high, breaks, 0.25) - drawn_at(low, breaks, 0.25) for low, high in plain]
    for (long, shown), (other, beside) in permutations(zip(true, drawn, strict=True), 2):
        assert long <= other or shown >= beside - 1e-6
    assert len(breaks) == 5


def test_breaks_only_go_where_the_part_is_plain() -> None:
    """What lies outside a break keeps its distance to its neighbours; the gap is the paper's."""
    breaks = (Break(start_mm=100.0, end_mm=220.0),)
    assert drawn_at(90.0, breaks, 0.25) == 90.0
    assert drawn_at(300.0, breaks, 0.25) - drawn_at(220.0, breaks, 0.25) == pytest.approx(80.0)
    gap = drawn_at(220.0, breaks, 0.25) - drawn_at(100.0, breaks, 0.25)
    assert gap * 0.25 == pytest.approx(GAP_MM)
    assert breaks_to_fit(600.0, [(10.0, 30.0)], 0.5, 200.0) is None
    assert breaks_to_fit(600.0, [], 0.5, 200.0) is None


@pytest.mark.parametrize("model", MODELS, ids=lambda path: path.stem)
def test_every_dimension_of_every_model_measures_what_it_says(model: Path) -> None:
    """Also across a break, where the dimension carries its own factor."""
    piece = piece_in(model)
    unit = piece.shown.unit.symbol
    for name, document in _documents(model).items():
        for entity in document.modelspace().query("DIMENSION"):
            text = entity.dxf.text
            text = text[1:-1] if text.startswith("(") else text
            said = figures_said(text.split(", ")[-1], document, unit)
            factor = float(entity.override().get("dimlfac", 1.0))
            kind = entity.dxf.dimtype & 7
            first, second = (
                (entity.dxf.defpoint2, entity.dxf.defpoint3)
                if kind == 0
                else (entity.dxf.defpoint, entity.dxf.defpoint2)
            )
            is_level = abs(entity.dxf.angle) < 1 if kind == 0 else bool(entity.dxf.dimtype & 64)
            raw = abs(second.x - first.x) if is_level else abs(second.y - first.y)
            slack = piece.shown.step_mm / 2 + 0.02
            assert any(raw * factor == pytest.approx(mm, abs=slack) for mm in said), (name, text)


def test_long_parts_are_drawn_large_enough_to_work_from() -> None:
    """No sheet of a part of these models is smaller than 1:5, or a quarter of full size."""
    for model in MODELS:
        most = 4.0 if piece_in(model).shown.is_inch else 5.0
        for name, document in _of_parts(model).items():
            assert paper_and_scale(document).reduction <= most, name


@pytest.mark.parametrize("shown", [millimetres(1.0), inches(16)])
def test_the_mark_says_its_own_limit(shown: Any) -> None:
    """In the unit of the sheet, and pointing to the decimal only where there is one."""
    note = rounded_note(shown)
    assert note.startswith("+ and - after a ")
    assert ("decimal" in note) == shown.is_inch
    texts = " ".join(_texts(piece_of(SAMPLES[0], shown=shown), f"-{SAMPLES[0].id}"))
    assert note.split(":")[0] in texts


@pytest.mark.parametrize(
    ("face", "depth", "run"),
    [
        (Face.FAR_END, 20.0, (180.0, 200.0)),
        (Face.NAMED_END, 20.0, (0.0, 20.0)),
        (Face.FAR_END, None, (0.0, 200.0)),
        (Face.FACE_SIDE, 5.0, (36.0, 44.0)),
    ],
)
def test_a_bore_runs_along_the_part_as_far_as_it_takes_wood(
    face: Face, depth: float | None, run: tuple[float, float]
) -> None:
    blank = Blank(length_mm=200.0, width_mm=60.0, thickness_mm=18.0)
    x = None if face.axis == 0 else 40.0
    bore = Bore(face=face, x_mm=x, y_mm=30.0, z_mm=9.0, diameter_mm=8.0, depth_mm=depth)
    assert run_of(bore, blank) == pytest.approx(run)


def test_the_play_that_a_glued_housing_may_have_stands_on_its_part() -> None:
    def said(instance: str) -> str:
        document = _with(HERB, _distinct(piece_in(HERB), instance).part)
        return " ".join(text.dxf.text for text in document.modelspace().query("TEXT"))

    assert re.search(r"Cut to fit tier 1, tier 2 and \d more: play 0.05 to 0.15\.", said("post"))
    assert "Cut to fit" not in said("front rail"), "its lid lies loose"


def test_each_share_of_a_parts_cuts_is_drawn_as_large_as_it_can_be() -> None:
    """Fifteen bores take two cells: the first cuts do not come out small because the last do."""
    bores = [
        Bore(
            face=Face.FACE_SIDE, x_mm=60.0 + index * 50.0 + (index % 3) * 7.0,
            y_mm=20.0 + index * 37.0 % 60.0, diameter_mm=3.0 + index % 5, depth_mm=5.0 + index % 4,
        )
        for index in range(14)
    ]  # fmt: skip
    end = Bore(face=Face.NAMED_END, y_mm=30.0, z_mm=9.8, diameter_mm=8.0, depth_mm=25.0)
    piece = piece_of(part("many", (900.0, 110.0, 19.7), *bores, end))
    (task,) = _Maker(piece, ALONE).part_tasks(distinct_parts(piece), {})
    shares = shares_of(task, Box2(left=0.0, bottom=0.0, right=267.0, top=137.0))
    assert [each.scale.text for each in shares] == ["1:5", "1:10"]


def test_a_part_too_small_for_its_own_words_is_drawn_larger_than_it_is() -> None:
    """A key of 15 by 7: nothing fails for want of room, and one that has room stays full size."""
    mitres = [
        FlatMitre(end=end, gauge_angle_deg=45.0, long_point_edge=Face.FACE_EDGE)
        for end in (Face.NAMED_END, Face.FAR_END)
    ]
    for size, scale in (((14.8, 7.4, 3.1), "2:1"), ((48.0, 24.0, 6.0), "1:1")):
        piece = piece_of(part("key", size, *mitres))
        sheets = sheets_of_parts(piece, ALONE, distinct_parts(piece), 1)
        said = [
            each.text for sheet in sheets for each in sheet.items if isinstance(each, Lettering)
        ]
        assert any(text.startswith("1 key") and f"({scale})" in text for text in said)


def test_a_part_that_stands_whole_alone_is_not_broken_to_share_a_sheet() -> None:
    """Gaps of breaks are uneven, and the eye reads wrong distances off them."""
    piece = piece_in(HERB)
    some = [each for each in distinct_parts(piece) if each.part.id in ("post", "foot")]
    assert len(some) == 2
    sheets = sheets_of_parts(piece, SheetSettings(), some, 1)
    said = [each.text for sheet in sheets for each in sheet.items if isinstance(each, Lettering)]
    assert not any("broken" in text for text in said)
    assert any(text.startswith("5 post") for text in said)


@pytest.mark.parametrize("beside", Beside)
def test_words_beside_a_span_go_on_past_lines_that_would_run_through_them(beside: Beside) -> None:
    """A notch's width, with words wider than it, stood on the line of a pin beyond it; its own line
    leads to its words."""
    at = {Beside.AFTER: (31.0, 44.0), Beside.BEFORE: (-11.0, -30.0)}[beside]
    words = Measured(text="3 15/64 - (3.228)", value_mm=82.0, factor=0.25)
    drawn = linear(
        (0.0, 0.0), (20.0, 0.0), 10.0, words, INCH_STYLE, Side.TOP, beside, passed_at=at
    ).drawn  # fmt: skip
    (text,) = [lettering_box(each) for each in drawn if isinstance(each, Lettering)]
    assert not any(text.left <= x <= text.right for x in at)
    level = [each.shape for each in drawn if isinstance(each, Stroke)]
    ends = [x for each in level for x, y in shape_points(each) if y == 10.0]
    reached = max(ends) if beside is Beside.AFTER else min(ends)
    near = text.left if beside is Beside.AFTER else text.right
    assert abs(near - reached) < 2 * INCH_STYLE.text_gap_mm + 0.5
