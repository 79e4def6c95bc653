"""What one drawing defines for several parts, and one view for two faces across from each other."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.faces import BY_MARKS
from exporters.sheets import SheetSettings
from exporters.sheets.annotate import annotations_of, bench_for
from exporters.sheets.annotation import Look
from exporters.sheets.part_notes import made_words, standing_words
from exporters.sheets.part_task import MadeIn, Stands
from exporters.sheets.part_views import views_for
from exporters.sheets.rough_words import Sawn, together
from furniture.parts.cuts import Bore, Cut, Mitre, Rabbet
from furniture.parts.faces import Face
from furniture.parts.part import Part
from furniture.units import millimetres
from tests.exporters.documents import sheet_documents
from tests.exporters.sheet_samples import RAIL, part, piece_of

MM = millimetres(0.1)


def _heads(*parts: Part) -> set[str]:
    """What heads the cells: numbers and names."""
    sheets = sheet_documents(piece_of(*parts), SheetSettings())
    return {
        text.dxf.text.split(" (")[0]
        for sheet in sheets
        for text in sheet.document.modelspace().query("TEXT")
        if text.dxf.text[0].isdigit() and "(1:" in text.dxf.text
    }


def _shorter(name: str, *cuts: Cut) -> Part:
    return replace(
        RAIL, name=name, blank=replace(RAIL.blank, length_mm=210.0), cuts=cuts or RAIL.cuts
    )


def test_rails_that_differ_in_length_share_a_drawing_whichever_end_was_mitred_first() -> None:
    one, two, *others = RAIL.cuts
    assert _heads(RAIL, _shorter("side rail", two, *others, one)) == {"1, 2 front rail, side rail"}


def test_a_rabbet_in_another_face_has_a_drawing_of_its_own() -> None:
    turned = tuple(
        replace(cut, face=cut.face.opposite) if isinstance(cut, Rabbet) else cut
        for cut in RAIL.cuts
    )
    assert _heads(RAIL, _shorter("side rail", *turned)) == {"1 front rail", "2 side rail"}


def test_one_mitre_the_other_way_has_a_drawing_of_its_own() -> None:
    flipped = tuple(
        replace(cut, long_point_face=Face.BACK_SIDE)
        if isinstance(cut, Mitre) and cut.end is Face.FAR_END
        else cut
        for cut in RAIL.cuts
    )
    assert len(_heads(RAIL, _shorter("side rail", *flipped))) == 2


def _bored(face: Face, *places: float, deep: float = 16.0) -> list[Cut]:
    return [Bore(face=face, x_mm=x, y_mm=9.0, diameter_mm=6.0, depth_mm=deep) for x in places]


def _looks(*cuts: Cut) -> tuple[set[Look], list[tuple[Look, tuple[str, ...]]]]:
    post = part("post", (500.0, 80.0, 20.0), *cuts)
    views = views_for(post, bench_for(post, MM, BY_MARKS), annotations_of(post, MM))
    return set(views.looks), [(each.look, each.works) for each in views.spared]


EDGES = {Look.FACE_EDGE, Look.BACK_EDGE}


@pytest.mark.parametrize("first", [Face.FACE_EDGE, Face.BACK_EDGE])
def test_the_same_holes_in_both_edges_take_one_view(first: Face) -> None:
    looks, spared = _looks(*_bored(first, 20.0, 60.0), *_bored(first.opposite, 20.0, 60.0))
    assert looks & EDGES == {Look.FACE_EDGE}
    assert spared == [(Look.BACK_EDGE, ("holes",))]


@pytest.mark.parametrize(
    "across",
    [
        _bored(Face.BACK_EDGE, 20.0, 60.1),
        _bored(Face.BACK_EDGE, 20.0, 60.0, deep=15.0),
        _bored(Face.BACK_EDGE, 20.0),
        _bored(Face.BACK_EDGE, 20.0, 60.0, 90.0),
    ],
    ids=["moved", "shallower", "one fewer", "one more"],
)
def test_other_holes_in_the_edge_across_are_drawn(across: list[Cut]) -> None:
    looks, spared = _looks(*_bored(Face.FACE_EDGE, 20.0, 60.0), *across)
    assert looks >= EDGES
    assert not spared


def _stands(name: str, *ways: str) -> Stands:
    return Stands(instance=name, ways=tuple(zip(("inside face", "foot end"), ways, strict=True)))


@pytest.mark.parametrize(
    ("stands", "said"),
    [
        (
            [_stands("left", "up", "down"), _stands("right", "up", "down")],
            ": inside face up, foot end down.",
        ),
        (
            [_stands("left", "to the right", "down"), _stands("right", "to the left", "down")],
            ": inside face to the right (right: to the left), foot end down.",
        ),
        (
            [_stands("left", "to the right", "up"), _stands("right", "to the left", "down")],
            ". Left: inside face to the right, foot end up; "
            "right: inside face to the left, foot end down.",
        ),
        (
            [_stands("a", "up", "down"), _stands("b", "up", "up"), _stands("c", "up", "up")],
            ". A: inside face up, foot end down; b, c: inside face up, foot end up.",
        ),
    ],
)
def test_only_what_stands_differently_is_told_apart(stands: list[Stands], said: str) -> None:
    assert standing_words(stands) == f"In the piece, seen from the front{said}"


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ([{1, 2, 3}, {1, 2, 3}], "Made in steps 1 to 3 of the work."),
        ([{1, 2}, {1, 2, 9}], "Made in steps 1 to 2 of the work; part 8 also in step 9."),
        ([{4, 7}, {7}, {4, 7}], "Made in step 7 of the work; parts 7, 9 also in step 4."),
        ([{1}, {2, 3}], "Part 7 made in step 1; part 8 made in steps 2 to 3 of the work."),
    ],
)  # fmt: skip
def test_every_part_is_sent_to_its_own_steps(steps: list[set[int]], said: str) -> None:
    work = [MadeIn(item=item, steps=frozenset(each)) for item, each in enumerate(steps, start=7)]
    assert made_words(work) == said


def test_places_in_one_strip_are_told_together_and_other_sizes_are_not() -> None:
    one = Sawn(size="900 x 88", strip="strip", places=(1, 4), count=4)
    two = Sawn(size="900 x 88", strip="strip", places=(2,), count=4)
    both = together([one, two])
    assert both is not None
    assert both.in_full == "off strip, rough 900 x 88: 1, 2 and 4 of 4 along it"
    assert together([one, replace(two, strip="other strip")]) is None
    assert together([Sawn(size="300 x 88"), Sawn(size="200 x 88")]) is None
