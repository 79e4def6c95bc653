"""Pictures of parts: which way they lie, of what there is none, and how fine their lines are."""

from __future__ import annotations

import random

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.blocks import picture_of
from exporters.sheets.geometry import items_box
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE, LineClass
from exporters.sheets.picture_frames import picture_frame
from exporters.sheets.sheets import sheets_of_parts
from exporters.sheets.values import Lettering, Stroke
from exporters.views.project import project_part
from furniture.parts.cuts import Bore, Rabbet
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.part import Part
from furniture.parts.vectors import dot
from furniture.pieces.piece import distinct_parts
from tests.exporters.sheet_samples import BOTTOM, POST, RAIL, part, piece_of
from tests.models import piece_of as model_of


@pytest.mark.seeds(few=4, full=40)
def test_bores_and_rabbets_are_seen_in_the_picture(seed: int) -> None:
    """Wherever they are cut: a picture of the bare face beside them tells nothing."""
    dice = random.Random(seed)
    size = (dice.uniform(90.0, 300.0), dice.uniform(50.0, 120.0), dice.uniform(15.0, 25.0))
    end, face, edge = dice.choice(ENDS), dice.choice(WIDE_FACES), dice.choice(EDGES)
    rail = part(
        "rail", size,
        Bore(face=end, y_mm=size[1] * 0.3, z_mm=size[2] / 2, diameter_mm=6.0, depth_mm=15.0),
        Rabbet(edge=edge, face=face,
               down_from_edge_mm=8.0, into_thickness_mm=6.0),
    )  # fmt: skip
    frame, up = picture_frame(rail)
    assert up is face or dot(edge.normal, frame.towards_eye) > 0.1
    assert dot(end.normal, frame.towards_eye) > 0.1


def test_a_plain_part_lies_as_on_its_sheet() -> None:
    assert picture_frame(BOTTOM)[1] is Face.FACE_SIDE
    assert picture_frame(POST)[1] is Face.FACE_SIDE


def _words(made: Part) -> list[str]:
    piece = piece_of(made)
    (sheet,) = sheets_of_parts(piece, SheetSettings(), distinct_parts(piece), 1)
    return [item.text for item in sheet.items if isinstance(item, Lettering)]


def test_a_plain_block_has_no_picture() -> None:
    assert not any("isometric" in text for text in _words(BOTTOM))
    assert any("isometric" in text for text in _words(RAIL))


def test_both_hands_show_what_is_cut_into_them() -> None:
    """The stubs of the herb stand: their bores and rabbets, mirrored."""
    piece = model_of("herb_stand")
    stubs = [each for each in distinct_parts(piece) if "stub" in each.part.name]
    (sheet,) = sheets_of_parts(piece, SheetSettings(), stubs, 3)
    texts = [item.text for item in sheet.items if isinstance(item, Lettering)]
    assert any("inside face up" in text for text in texts)
    assert any("opposite hand" in text for text in texts)


def test_the_grain_is_a_bare_double_arrow() -> None:
    piece = piece_of(BOTTOM)
    (sheet,) = sheets_of_parts(piece, SheetSettings(), distinct_parts(piece), 1)
    drawn = [item for item in sheet.items if getattr(item, "line_class", None) is LineClass.GRAIN]
    assert not any(isinstance(item, Lettering) for item in drawn)
    assert sum(isinstance(item, Stroke) for item in drawn) == 1
    box = items_box(drawn)
    assert box.width > 5 * box.height


def test_a_small_picture_is_drawn_in_finer_lines() -> None:
    view = project_part(POST, picture_frame(POST)[0])
    classes = {
        factor: {item.line_class for item in picture_of(view, factor).items}
        for factor in (1 / 5, 1 / 8, 1 / 32)
    }
    assert classes[1 / 5] == {LineClass.PICTURE}
    assert classes[1 / 8] == classes[1 / 32] == {LineClass.FINE_PICTURE}
    for style in (ISO_STYLE, INCH_STYLE):
        fine, narrow = (style.pen(each).width_mm for each in (LineClass.FINE_PICTURE,
                                                              LineClass.PICTURE))  # fmt: skip
        assert 0.5 * narrow < fine < 0.8 * narrow
