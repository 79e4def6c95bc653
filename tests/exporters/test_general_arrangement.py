"""The general arrangement: figures stay clear of one another, heights are of the finished piece."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from exporters.sheets.assembly_views import OnViews, WholeLook, whole_views
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import Measured, Side, linear
from exporters.sheets.lanes import taken_by
from exporters.sheets.paper import Projection
from exporters.sheets.pens import INCH_STYLE
from exporters.sheets.values import Figure, FigureKind
from furniture.pieces.piece import Piece, Reference
from furniture.units import inches
from tests.assembly.bench import board
from tests.assembly.bench import piece_of as piece_made_of
from tests.models import piece_of

STYLE = INCH_STYLE


def figures_on(piece: Piece, factor: float, look: WholeLook) -> list[Figure]:
    """What a view of the general arrangement is dimensioned with."""
    views = whole_views(piece, factor, Projection.THIRD_ANGLE, STYLE, OnViews.ALL)
    return [each for each in views.blocks[look].items if isinstance(each, Figure)]


def across(piece: Piece, spans: list[tuple[float, float]]) -> Piece:
    """The piece with figures between these places along its front."""
    references = tuple(
        Reference(what=f"figure {index}", start=(low, 0.0, 20.0), end=(high, 0.0, 20.0))
        for index, (low, high) in enumerate(spans)
    )
    return replace(piece, references=references)


def stacked(figures: list[Figure]) -> list[Figure]:
    """The level figures that stand in lanes."""
    return [each for each in figures if each.kind is FigureKind.LEVEL]


def test_a_wider_figures_line_does_not_run_through_a_narrow_ones_words() -> None:
    """A figure of 10 at a reduced scale has its words beside it, where the wider one ends: one
    outside the other in order of length they collide, so the narrow one's words
    go to its other side."""
    bare = piece_made_of([board("rail", (400.0, 30.0, 20.0), (0.0, 0.0, 0.0))])
    spans = [(160.0, 170.0), (155.0, 260.0)]
    piece = replace(across(bare, spans), shown=inches(64))
    made = stacked(figures_on(piece, 0.125, WholeLook.FRONT))
    assert len(made) == 3, "the overall width and the two"
    taken = [taken_by(each, STYLE) for each in made]
    assert not any(a.touches(b) for n, a in enumerate(taken) for b in taken[:n])
    (words,) = [each for each in made if round(each.value_mm) == 10]
    assert words.text_at[0] < words.start[0]
    narrow, wide = (
        linear(
            (low / 8, 0.0),
            (high / 8, 0.0),
            STYLE.first_lane_mm + lane * STYLE.lane_mm,
            Measured(text=text, value_mm=high - low, factor=0.125),
            STYLE,
            Side.TOP,
        )
        for lane, ((low, high), text) in enumerate(zip(spans, ("25/64", "4 9/64"), strict=True))
    )
    assert taken_by(narrow, STYLE).touches(taken_by(wide, STYLE)), "by length they would collide"


def test_a_part_that_is_named_overall_gives_no_overall_size() -> None:
    bare = piece_made_of([board("rail", (400.0, 30.0, 20.0), (0.0, 0.0, 0.0))])
    own = Reference(what="overall hook", start=(50.0, 0.0, 20.0), end=(90.0, 0.0, 20.0))
    piece = replace(bare, references=(own,))
    views = whole_views(piece, 0.25, Projection.THIRD_ANGLE, STYLE, OnViews.OVERALL)
    assert views.left_over == (own,)


@pytest.mark.seeds(few=3, full=200)
def test_figures_in_any_order_stay_clear_or_are_refused(seed: int) -> None:
    draw = random.Random(seed)
    bare = piece_made_of([board("rail", (400.0, 30.0, 20.0), (0.0, 0.0, 0.0))])
    spans = [sorted(draw.sample(range(0, 400, 5), 2)) for _ in range(draw.randint(1, 5))]
    piece = replace(across(bare, [(a, b) for a, b in spans]), shown=inches(64))
    try:
        made = stacked(figures_on(piece, 0.25, WholeLook.FRONT))
    except NoRoomError:
        return
    taken = [taken_by(each, STYLE) for each in made]
    assert not any(a.touches(b) for n, a in enumerate(taken) for b in taken[:n])


@pytest.mark.parametrize(
    ("name", "high"), [("herb_stand", {"83.5", "89.9"}), ("tea_box", {"3 39/64"})]
)
def test_heights_are_those_of_the_finished_piece(name: str, high: set[str]) -> None:
    """The rails are cut to 84 and 3 5/8 and planed to the lid, 0.5 mm and 1/64 lower."""
    said = {each.text for each in figures_on(piece_of(name), 0.1, WholeLook.FRONT)}
    assert high <= said
    assert not said & {"84", "3 5/8"}
    assert not any("as cut" in text or "planed" in text for text in said)


def test_an_overall_width_stands_outside_its_view() -> None:
    """Of a plain box too, where nothing would run through the words inside."""
    piece = piece_of("tea_box")
    front = whole_views(piece, 0.5, Projection.THIRD_ANGLE, STYLE, OnViews.ALL).blocks[
        WholeLook.FRONT
    ]
    (width,) = [each for each in front.items if isinstance(each, Figure) and each.text == "9 3/4"]
    assert width.text_at[1] > front.core.top
