"""Every amount of the work is told in the piece's own units: nobody weighs in two systems."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from exporters.sheets.glue_shown import glue_ups_shown, notes_on_glue_ups
from exporters.work.checklist import Tick, checklist_of
from exporters.work.finish_words import used_up_in_words
from furniture.making.amounts import finishing_of
from furniture.shop.tools.reading import usual_or
from furniture.solids.measure import weigh
from furniture.units import Amounts, inches, millimetres
from tests.exporters.work.sheet_words import whole_work
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

METRIC = re.compile(r"\d (?:mm|cm³|m²|m2|ml|L|g|kg|N|MPa|°C)(?!\w)")
INCH = re.compile(r"\d (?:in²|in³|lbf|lb|psi|oz|fl oz|qt|sq ft|°F)(?!\w)")


def finished_work(name):
    """The work on a model with its coats of finish."""
    piece, work = piece_of(name), whole_work(name)
    finishing = finishing_of(piece, weigh(piece), usual_or(None, piece.shown))
    return replace(work, making=replace(work.making, finishing=finishing))


def test_glue_and_finish_are_told_for_all_that_are_made_side_by_side():
    piece, work = piece_of("herb_stand"), finished_work("herb_stand")
    one = work.making
    three, show = replace(one, copies=3), Amounts(shown=piece.shown)
    glue, finish = used_up_in_words(three, show)
    grams = sum(each.grams for each in one.gluing)
    assert f"about {show.spoonful(3 * grams)} over all glue-ups of all 3" in glue
    assert f"about {show.tinful(3 * one.finishing.litres)} for" in finish
    once, thrice = (notes_on_glue_ups(piece, replace(work, making=m)) for m in (one, three))
    assert set(thrice) - set(once) == {"Each is done 3 times, once for each copy."}
    assert " of all" not in "".join(used_up_in_words(one, show)).replace("over all", "")
    ticks = [each for each in checklist_of(piece, three) if isinstance(each, Tick)]
    (coats,) = [line for each in ticks for line in each.lines if "in all for" in line]
    assert f"in all for {show.surface(3 * one.finishing.area_mm2)} of all 3" in coats


@pytest.mark.parametrize("name", NAMES)
def test_work_and_shopping_keep_to_the_units_of_the_piece(name):
    piece, work = piece_of(name), finished_work(name)
    ticks = [each for each in checklist_of(piece, work.making) if isinstance(each, Tick)]
    told = " ".join(
        (
            *(text for tick in ticks for text in (tick.set_to, *tick.lines, *tick.beside)),
            *notes_on_glue_ups(piece, work),
            *(text for each in glue_ups_shown(piece, work) for text in each.sentences),
            *used_up_in_words(work.making, Amounts(shown=piece.shown)),
        )
    )
    own, other = (INCH, METRIC) if piece.shown.is_inch else (METRIC, INCH)
    assert other.findall(told) == []
    asked = ("oz", "fl oz", "sq ft", "°F") if piece.shown.is_inch else ("g", "ml", "m²", "°C")
    found = {each.split(" ", 1)[1] for each in own.findall(told)}
    assert set(asked) <= found


@pytest.mark.parametrize(
    ("litres", "metric", "inch"),
    [
        (0.0775, "80 ml", "3 fl oz"),
        (0.30, "300 ml", "11 fl oz"),
        (0.996, "1 L", "1.25 qt"),
        (1.21, "1.3 L", "1.5 qt"),
    ],
)
def test_a_finish_is_bought_by_the_next_mark_up(litres, metric, inch):
    """A US fluid ounce is 29.5735 ml, a quart 32 of them (NIST Handbook 44, appendix C)."""
    assert Amounts(shown=millimetres()).tinful(litres) == metric
    assert Amounts(shown=inches()).tinful(litres) == inch


@pytest.mark.parametrize(
    ("grams", "metric", "inch"),
    [(2.1, "3 g", "0.1 oz"), (9.3, "10 g", "0.4 oz"), (31.0, "35 g", "1.5 oz")],
)
def test_glue_is_weighed_with_a_little_more(grams, metric, inch):
    """An avoirdupois ounce is 28.3495 g (NIST Handbook 44, appendix C)."""
    assert Amounts(shown=millimetres()).spoonful(grams) == metric
    assert Amounts(shown=inches()).spoonful(grams) == inch


def test_a_surface_is_told_in_square_metres_or_square_feet():
    assert Amounts(shown=millimetres()).surface(1_953_000.0) == "1.95 m²"
    assert Amounts(shown=inches()).surface(929_030.4) == "10.0 sq ft"
