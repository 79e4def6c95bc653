"""Openings by what must pass: their size, their number and their height follow from it."""

from __future__ import annotations

import math

import pytest

from furniture import Air, Cable, Opening, OpeningFor, Plug, ShopRules, Vent, VentKind, inches
from furniture.builders.passing import BITS_IN, BITS_MM, round_circles
from furniture.parts.cuts import Bore, Slot
from furniture.parts.placement import box_of
from furniture.pieces import Note, placed_named
from furniture.solids.make import volume_of
from tests.builders.bench import a_box, a_stand, by_uprights, part, problems_of


def bores_of(piece, on):
    return [each for each in part(piece, on).cuts if isinstance(each, Bore)]


@pytest.mark.parametrize(
    ("passes", "diameter"),
    [
        (Plug(width="36 mm", thickness="14 mm"), 45.0),  # 38.6 across corners, 2 of play: 40.6
        (Plug(width="30 mm", thickness="15 mm"), 38.0),  # 33.5 + 2 = 35.5
        (Cable(diameter="7 mm"), 9.0),
        (Cable(diameter="7 mm", count=2), 16.0),
        (Cable(diameter="7 mm", count=3), 18.0),  # 7 x 2.155 + 2 = 17.1
        (Cable(diameter="7 mm", count=4), 20.0),  # 7 x 2.414 + 2 = 18.9
        (Cable(diameter="5 mm", count=7), 18.0),  # one in the middle of six: 15 + 2
        (Air(area="3 cm2"), 20.0),  # 19.54
        (Air(area="100 mm2"), 12.0),  # 11.28
    ],
)
def test_the_bore_is_the_smallest_bits_that_lets_it_pass(passes, diameter):
    """By hand, beside each; the wood that the bore takes by hand too."""
    piece = a_stand(openings=[Opening(on="tier 1", passes=passes)]).build()
    (bore,) = bores_of(piece, "tier 1")
    assert bore.diameter_mm == diameter
    taken = volume_of(part(a_stand().build(), "tier 1")) - volume_of(part(piece, "tier 1"))
    thick = part(piece, "tier 1").blank.thickness_mm
    assert taken == pytest.approx(math.pi * diameter**2 / 4 * thick, rel=1e-6)


def test_a_maker_who_works_in_inches_gets_a_bit_in_inches():
    """A plug of 1 3/8 by 9/16 in is 1.4855 across its corners, 1.564 with its play: 1 5/8."""
    passes = Plug(width="1 3/8 in", thickness="9/16 in")
    piece = a_stand(openings=[Opening(on="tier 1", passes=passes)], shown=inches()).build()
    assert bores_of(piece, "tier 1")[0].diameter_mm == pytest.approx(1.625 * 25.4)


def test_the_play_is_a_rule_of_the_shop():
    stand = a_stand(openings=[Opening(on="tier 1", passes=Cable(diameter="7 mm"))])
    assert bores_of(stand.build(ShopRules(pass_play="5 mm")), "tier 1")[0].diameter_mm == 12.0


@pytest.mark.parametrize("count", range(2, 8))
def test_circles_round_circles(count):
    """On a ring each touches its neighbours and the outside; the seventh fits inside six."""
    outside = round_circles(count) / 2
    ring = count if count < 7 else 6
    places = [
        ((outside - 0.5) * math.cos(2 * math.pi * n / ring),
         (outside - 0.5) * math.sin(2 * math.pi * n / ring))
        for n in range(ring)
    ] + [(0.0, 0.0)] * (count == 7)  # fmt: skip
    apart = [math.dist(a, b) for i, a in enumerate(places) for b in places[:i]]
    assert min(apart) == pytest.approx(1.0, abs=1e-9)


def test_bits_grow():
    for sizes in (BITS_MM, BITS_IN):
        assert list(sizes) == sorted(set(sizes))


@pytest.mark.parametrize(
    ("kind", "size", "count"),
    [
        (VentKind.BORES, {"size": "8 mm"}, 6),  # 300 / 50.27 = 5.97
        (VentKind.BORES, {"size": "10 mm"}, 4),  # 300 / 78.54 = 3.82
        (VentKind.SLOTS, {"size": "6 mm", "length": "30 mm"}, 2),  # 180 - 7.73 = 172.3 each
    ],
)
def test_a_row_has_as_many_vents_as_the_air_takes(kind, size, count):
    """By hand: 3 cm2 over what one lets pass, beside each."""
    vent = Vent(on="front rail", kind=kind, passes=Air(area="3 cm2"), **size)
    piece = a_box(vents=[vent]).build()
    cuts = [each for each in part(piece, "front rail").cuts if isinstance(each, (Bore, Slot))]
    assert len(cuts) == count
    rail = part(piece, "front rail")
    taken = volume_of(part(a_box().build(), "front rail")) - volume_of(rail)
    assert taken / rail.blank.thickness_mm >= 300.0
    assert taken / rail.blank.thickness_mm * (count - 1) / count < 300.0
    assert {each.purpose for each in piece.intent.openings} == {OpeningFor.AIR}


@pytest.mark.parametrize("between", [("lid", "tier 1"), ("tier 2", "tier 1")])
def test_it_is_as_high_as_the_middle_between_two_by_name(between):
    piece = a_stand(openings=[Opening(on="post", size="20 mm", between=between)]).build()
    (opening,) = piece.intent.openings
    level = (placed_named(piece, name) for name in between)
    lower, upper = sorted(
        (low[2], high[2]) for low, high in (box_of(at.part.blank, at.placement) for at in level)
    )
    assert opening.centre[2] == pytest.approx((lower[1] + upper[0]) / 2)


def test_in_both_uprights_alike():
    opening = Opening(on="uprights", size="20 mm", between=("tier 1", "tier 2"))
    piece = by_uprights(openings=[opening]).build()
    heights = {round(each.centre[2], 6) for each in piece.intent.openings}
    assert (len(piece.intent.openings), len(heights)) == (2, 1)


CABLE = Cable(diameter="7 mm")


@pytest.mark.parametrize(
    ("opening", "parameter", "remedy", "mended"),
    [
        (
            Opening(on="tier 1", size="20 mm", passes=CABLE), "size",
            "leave out size, or passes", Opening(on="tier 1", passes=CABLE),
        ),
        (
            Opening(on="tier 1", flange="22 mm", passes=CABLE), "flange",
            "leave out passes and write the size of the bushing's body",
            Opening(on="tier 1", flange="22 mm", size="16 mm"),
        ),
        (
            Opening(on="tier 1", passes=Plug(width="80 mm", thickness="40 mm")), "passes",
            "let less pass through one opening, or cut it out as a Notch or Slot of your own",
            Opening(on="tier 1", passes=Plug(width="40 mm", thickness="20 mm")),
        ),
        (
            Opening(on="tier 1", passes=Cable(diameter="7 mm", count=9)), "passes count",
            "make it 7", Opening(on="tier 1", passes=Cable(diameter="7 mm", count=7)),
        ),
        (
            Opening(on="tier 1", passes="a plug"), "passes",
            'write Plug(width="36 mm", thickness="14 mm"), or leave it out and write size',
            Opening(on="tier 1", size="20 mm"),
        ),
        (
            Opening(on="post", between=("tier 1", "tier 9")), "between",
            "write between=('lid', 'tier 1')", Opening(on="post", between=("lid", "tier 1")),
        ),
        (
            Opening(on="post", between=("tier 1", "tier 2"), from_edge="30 mm"), "from_edge",
            "leave out from_edge, or between", Opening(on="post", between=("tier 1", "tier 2")),
        ),
        (
            Opening(on="tier 1", between=("lid", "tier 2")), "between",
            "leave it out, or name an upright part in on", Opening(on="tier 1"),
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_what_would_do(opening, parameter, remedy, mended):
    (problem,) = problems_of(a_stand(openings=[opening]))
    assert (problem.parameter, problem.remedy) == (f"opening 1 {parameter}", remedy)
    assert a_stand(openings=[mended]).build().intent.openings


def test_a_length_is_no_area():
    (problem,) = problems_of(a_stand(openings=[Opening(on="tier 1", passes=Air(area="3 cm"))]))
    assert problem.parameter == "opening 1 passes area"
    assert "'30 cm2'" in problem.allowed + problem.remedy


def test_too_long_a_row_is_refused():
    vent = Vent(on="front rail", passes=Air(area="90 cm2"), size="8 mm")
    (problem,) = problems_of(a_box(vents=[vent]))
    assert (problem.parameter, "larger" in problem.remedy) == ("vent 1 passes", True)
    assert "180" in problem.why  # 9000 / 50.265 = 179.05


def test_what_passes_is_on_the_sheets():
    opening = Opening(on="tier 1", passes=Plug(width="36 mm", thickness="14 mm"))
    piece = a_stand(openings=[opening]).build()
    said = "tier 1: a plug of 36 mm by 14 mm passes its opening"
    assert Note(said, ("tier 1",)) in piece.notes
