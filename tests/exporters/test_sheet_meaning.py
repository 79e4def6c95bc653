"""The counter of what leads astray finds planted faults, and nothing on the models' sheets."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.dxf import document_of
from exporters.sheets.inside_sheet import inside_sheets
from exporters.sheets.numbering import numbered
from exporters.sheets.positions import glued_on
from exporters.sheets.section_planes import sectioned
from exporters.sheets.sheets import sheets_of_parts, tasks_of
from furniture.pieces.piece import distinct_parts
from tests.exporters.documents import NamedSheet, model_sheets, write_documents
from tests.exporters.meaning_census import astray_in, astray_on
from tests.exporters.sheet_meaning import (
    figures_unlike,
    figures_unlike_of,
    leaders_crossed,
    letters_astray,
    mates_apart,
    noughts_alone,
    views_out_of_place,
)
from tests.exporters.sheet_reader import read_parts
from tests.exporters.sheet_values import ReadSheet
from tests.exporters.whole_pieces import random_piece
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


@pytest.mark.parametrize("name", NAMES)
def test_nothing_leads_astray_on_the_sheets_of_a_model(name: str) -> None:
    """Nor on any other sheet of the whole, as it is printed."""
    sheets = model_sheets(name)
    parts = [each for each in sheets if each.parts]
    whole = [each for each in sheets if not each.parts]
    assert list(astray_on(piece_of(name), parts, whole)) == []


@pytest.mark.seeds(few=1, full=24)
def test_nothing_leads_astray_on_the_sheets_of_a_random_piece(seed: int) -> None:
    assert list(astray_in(random_piece(seed))) == []


@cache
def _parts() -> dict[int, list[ReadSheet]]:
    piece = piece_of("herb_stand")
    made = numbered(list(sheets_of_parts(piece, SheetSettings(), distinct_parts(piece), 1)))
    documents = [NamedSheet(name=each.name, document=document_of(each)) for each in made]
    with TemporaryDirectory() as folder:
        return read_parts(write_documents(documents, Path(folder)))


def test_a_post_measured_from_its_other_face_is_found() -> None:
    """As if the bores in its edges were struck from the front, those of the stubs from the rear."""
    piece = piece_of("herb_stand")
    number = next(n for n, each in enumerate(distinct_parts(piece), 1) if each.part.name == "post")
    sheets = dict(_parts())
    turned = []
    for sheet in sheets[number]:
        views = dict(sheet.views)
        for name in ("face edge", "back edge"):
            if name in views:
                figures = [
                    f if f.is_level else replace(f, start=f.end, end=f.start)
                    for f in views[name].figures
                ]
                views[name] = replace(views[name], figures=figures)
        turned.append(replace(sheet, views=views))
    assert not list(mates_apart(piece, sheets))
    assert len(list(mates_apart(piece, {**sheets, number: turned}))) == 2


def test_views_of_the_other_projection_are_found() -> None:
    parts = _parts()
    assert not list(views_out_of_place(parts))
    other = {
        number: [replace(sheet, is_third_angle=True) for sheet in sheets]
        for number, sheets in parts.items()
    }
    assert len(list(views_out_of_place(other))) > len(parts) / 2
    post = next(
        s for sheets in parts.values() for s in sheets if s.drawn_for("back edge") in s.views
    )
    name = post.drawn_for("back edge")
    low, bottom, high, top = post.views[name].box
    moved = replace(post.views[name], box=(low + 30.0, bottom, high + 30.0, top))
    views = {**post.views, name: moved}
    assert len(list(views_out_of_place({1: [replace(post, views=views)]}))) == 1


def test_a_nought_without_a_figure_is_found() -> None:
    parts = _parts()
    assert not list(noughts_alone(parts))
    number, view = next(
        (number, view)
        for number, sheets in parts.items()
        for view in sheets[0].views.values()
        if view.running(True)
    )
    bare = replace(view, figures=[f for f in view.figures if f not in view.running(True)])
    sheet = replace(parts[number][0], views={"any": bare})
    assert len(list(noughts_alone({number: [sheet]}))) == 1


def _whole() -> list[NamedSheet]:
    piece, settings = piece_of("herb_stand"), SheetSettings()
    sheets = inside_sheets(tasks_of(piece, settings), sectioned(piece), glued_on(piece)).sheets
    return [NamedSheet(name=each.name, document=document_of(each)) for each in sheets]


def test_a_section_and_a_detail_that_are_taken_away_are_found() -> None:
    whole = _whole()
    assert not list(letters_astray(whole))
    lost = 0
    for named in whole:
        for text in named.document.modelspace().query("TEXT"):
            if text.dxf.text.startswith(("section C-C", "detail E")):
                text.dxf.text = "gone"
                lost += 1
    assert lost == 2
    assert {each.what[0] for each in letters_astray(whole)} == {"C", "E"}


def test_a_rounded_figure_beside_the_exact_one_is_found() -> None:
    whole = _whole()
    assert not list(figures_unlike(whole))
    named, entity = next(
        (named, entity)
        for named in whole
        for entity in named.document.modelspace().query("DIMENSION")
        if entity.dxf.text == "(19.7)"
    )
    alike = [e for e in named.document.modelspace().query("DIMENSION") if e.dxf.text == "(19.7)"]
    assert len(alike) > 1
    entity.dxf.text = "(20)"
    assert [each.what for each in figures_unlike(whole)] == ["one length told as 19.7 and 20"]
    assert not list(figures_unlike_of(_parts()))
    parts = {**_parts()}
    number, view = next(
        (number, view)
        for number, sheets in parts.items()
        for view in sheets[0].views.values()
        if len({figure.text for figure in view.figures}) < len(view.figures)
    )
    texts = Counter(figure.text for figure in view.figures)
    twice = next(text for text, count in texts.items() if count > 1 and text != "0")
    figures = list(view.figures)
    at = next(at for at, figure in enumerate(figures) if figure.text == twice)
    figures[at] = replace(figures[at], text=f"{twice}1")
    sheet = replace(parts[number][0], views={"any": replace(view, figures=figures)})
    assert len(list(figures_unlike_of({number: [sheet]}))) == 1


def test_two_leaders_that_cross_are_found() -> None:
    named = _whole()[-1]
    assert not list(leaders_crossed(named))
    space = named.document.modelspace()
    for start, end in (((10, 10), (50, 50)), ((10, 50), (50, 10)), ((50, 10), (60, 10))):
        space.add_line(start, end, dxfattribs={"layer": "leader"})
    assert len(list(leaders_crossed(named))) == 1
