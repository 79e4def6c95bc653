"""The shop at the door: usual figures in either unit, every problem at once, and what it makes."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from enum import Enum

import pytest
from hypothesis import given
from hypothesis import strategies as st

import furniture
from furniture import (
    BandClamp,
    ClampKind,
    Clamps,
    DadoHead,
    Drills,
    FinishFamily,
    Finishing,
    Glue,
    GlueFamily,
    Jointer,
    Planer,
    SawSetUp,
    Shop,
)
from furniture.shop import tools
from furniture.shop.tools.finishes import USUAL_FINISHES, Over, goes_over
from furniture.shop.tools.glues import USUAL_GLUES
from furniture.shop.tools.on_hand import (
    BitCut,
    ByHand,
    HeadCut,
    NoTool,
    SizedBit,
    Would,
    chamfer_for,
    channel_cutters,
    drill_for,
    round_over_for,
)
from furniture.shop.tools.reading import read_shop
from furniture.shop.tools.values import TooMuch
from furniture.units import Reader, as_given, inches
from furniture.units.parameters import is_parameters, names_in
from tests.fresh import law


def read(shop, shown=None):
    reader = Reader(shown)
    found = read_shop(reader, shop)
    reader.raise_if_any()
    return found


def problems(shop, shown=None):
    reader = Reader(shown)
    read_shop(reader, shop)
    return {each.parameter: each for each in reader.problems}


USUAL = read(Shop())


def test_an_inch_piece_gets_an_inch_shop():
    shop = read(Shop(), inches())
    assert shop.head.outer_mm == 3.175
    assert shop.head.shims_mm[-1] == pytest.approx(0.508)
    assert shop.saw.kerf_mm == 3.175
    assert shop.planer.widest_mm == 304.8
    assert 12.7 in shop.drills.diameters_mm
    assert 3.175 in shop.bits.round_over_mm
    assert USUAL.head.outer_mm == 3.2
    assert USUAL.saw.kerf_mm == 3.2


def test_what_is_given_stands_in_place_of_the_usual():
    shop = read(
        Shop(
            saw=SawSetUp(kerf="2.4 mm"),
            dado_head=DadoHead(shims=(), chippers="1/8 in", cuts_wider="-0.02 mm"),
            drills=Drills(diameters="8 mm", press=False),
            clamps=Clamps(kind=ClampKind.PIPE, opening="1 m", count=2, force="4 kN"),
            band_clamp=BandClamp(tension="1.5 kN", count=1),
            glue=Glue(family=GlueFamily.EPOXY, open_minutes=30, clamp_minutes=600),
            finish=Finishing(family=FinishFamily.SHELLAC, coats=2),
        )
    )
    assert shop.saw.kerf_mm == 2.4
    assert shop.head.shims_mm == ()
    assert shop.head.chippers_mm == (3.175,)
    assert shop.head.narrowest_cut_mm == pytest.approx(6.38)
    assert shop.drills.diameters_mm == (8.0,)
    assert not shop.drills.has_press
    assert [(each.force_n, each.opening_mm, each.count) for each in shop.clamps] == [
        (4000, 1000, 2)
    ]
    assert shop.band.tension_n == 1500
    assert (shop.glue.open_minutes, shop.glue.assembly_minutes) == (30, None)
    assert shop.finish.coats == 2
    assert shop.finish.facts.recoat_hours == 8.0


def test_what_is_not_there_is_none():
    bare = read(
        Shop(
            dado_head=None, router=None, jointer=None, planer=None, clamps=(), band_clamp=None,
            finish=None,
        )
    )  # fmt: skip
    assert (bare.head, bare.bits, bare.jointer, bare.planer, bare.band) == (None,) * 5
    assert bare.clamps == ()
    assert bare.finish is None


def test_every_problem_is_named_at_once_with_a_change_that_does():
    found = problems(
        Shop(
            saw="a saw",
            dado_head=DadoHead(
                outr="3 mm", chippers=[3, "x"], widest="5 mm", shims=["0.1 mm"] * 13
            ),
            router="yes",
            drills=Drills(press="yes"),
            planer=Planer(thinnest="6 m"),
            clamps=[Clamps(kind="bar", count=0), "a clamp"],
            glue=Glue(family="pva", open_minutes=20),
            finish=Finishing(coats=2.5),
            lathe=None,
        )
    )
    assert set(found) == {
        "shop.lathe", "shop.saw", "shop.dado_head.outr", "shop.router",
        "shop.dado_head.chippers 1", "shop.dado_head.chippers 2", "shop.dado_head.widest",
        "shop.dado_head.shims", "shop.drills.press", "shop.planer.thinnest", "shop.clamps 1 kind",
        "shop.clamps 1 opening", "shop.clamps 1 count", "shop.clamps 2", "shop.glue.family",
        "shop.glue.assembly_minutes", "shop.finish.coats",
    }  # fmt: skip
    assert found["shop.dado_head.widest"].remedy.endswith("make it 6.4 mm")
    assert found["shop.glue.assembly_minutes"].remedy.startswith("make it 20")
    assert found["shop.finish.coats"].remedy == "make it 1"


@pytest.mark.parametrize("shop", ["a shop", 3, None, Shop])
def test_what_is_no_shop_is_refused(shop):
    assert list(problems(shop)) == ["shop"]


_JUNK = st.one_of(
    st.none(), st.booleans(), st.integers(-3, 3), st.floats(), st.text(max_size=6),
    st.sampled_from(["3 mm", "1/8 in", "400 mm", "20 N", "-5 mm", "3"]), st.just(object()),
    st.lists(st.sampled_from(["3 mm", "x", 3, None]), max_size=3), st.just({"a": 1}),
)  # fmt: skip


@st.composite
def _any_shop(draw):
    """A shop whose every parameter may be anything."""
    fields = {}
    for name in names_in(Shop):
        usual = getattr(Shop(), name)
        kinds = [SawSetUp, Clamps] if usual is None else [type(usual)]
        kind = draw(st.sampled_from([None, *kinds]))
        if kind is None:
            fields[name] = draw(_JUNK)
        else:
            chosen = draw(st.lists(st.sampled_from(names_in(kind)), unique=True, max_size=4))
            fields[name] = kind(**{each: draw(_JUNK) for each in chosen})
    return Shop(**fields)


@given(shop=_any_shop(), is_inch=st.booleans())
@law(few=60, full=1000)
def test_whatever_is_given_is_read_or_refused_and_never_breaks(shop, is_inch):
    reader = Reader(inches() if is_inch else None)
    read_shop(reader, shop)
    for each in reader.problems:
        assert each.parameter.startswith("shop.")
        assert all((each.given, each.allowed, each.why, each.remedy))


@pytest.mark.parametrize("minutes", [0, -1, math.nan, True, "5", 1e9])
def test_minutes_are_a_number_of_minutes(minutes):
    assert "shop.glue.clamp_minutes" in problems(Shop(glue=Glue(clamp_minutes=minutes)))


def test_a_shop_goes_into_the_record_as_typed():
    record = as_given(Shop(jointer=Jointer(widest="6 in"), planer=None))
    assert record["jointer"]["widest"] == "6 in"
    assert record["planer"] is None
    json.dumps(record, allow_nan=False)


@pytest.mark.parametrize(
    "name",
    [
        each
        for each in tools.__all__
        if isinstance(getattr(tools, each), type) and not issubclass(getattr(tools, each), Enum)
    ],
)
def test_help_names_every_parameter(name):
    kind = getattr(furniture, name)
    assert is_parameters(kind())
    for each in names_in(kind):
        assert f" {each}: " in kind.__doc__, each


def test_a_machine_says_why_it_does_not_take_a_piece():
    bed = USUAL.jointer
    assert bed.refuses(300.0, 200.0, 12.0) == ()
    assert bed.refuses(285.0, 210.0, 6.4) == (TooMuch.WIDE, TooMuch.SHORT, TooMuch.THIN)


def test_a_dado_is_sawn_in_one_pass_where_a_stack_is_near_enough():
    first, second = channel_cutters(USUAL, 13.5)
    assert isinstance(first, HeadCut)
    assert first.near_mm == (0.0,)
    assert abs(first.stack.error_mm) <= 0.05
    assert second == BitCut(bit_mm=12.0, near_mm=(0.0, 1.5))


def test_a_channel_wider_than_the_head_is_sawn_in_passes_by_what_fits():
    head_cut, bit_cut = channel_cutters(USUAL, 30.0)
    assert isinstance(head_cut, HeadCut)
    assert head_cut.stack.shims_mm == ()
    assert head_cut.near_mm[-1] + head_cut.stack.cuts_mm == pytest.approx(30.0)
    assert isinstance(bit_cut, BitCut)
    assert bit_cut.near_mm[-1] + bit_cut.bit_mm == pytest.approx(30.0)


def test_a_channel_between_two_stacks_of_a_set_without_shims_is_sawn_in_two_passes():
    """6.4 or 8.0: neither is 7.0, but the narrower goes twice."""
    head = replace(USUAL.head, shims_mm=(), chippers_mm=(1.6,))
    found = channel_cutters(replace(USUAL, head=head), 7.0)
    assert found[0] == HeadCut(stack=found[0].stack, near_mm=(0.0, pytest.approx(0.6)))


def test_a_channel_narrower_than_the_head_is_routed_and_without_a_bit_made_by_hand():
    assert channel_cutters(USUAL, 4.0) == (BitCut(bit_mm=4.0, near_mm=(0.0,)),)
    no_router = replace(USUAL, bits=None)
    (none,) = channel_cutters(no_router, 4.0)
    assert none == NoTool(
        would=Would.STRAIGHT_BIT, size_mm=4.0, nearest_mm=None, by_hand=ByHand.SAW_AND_CHISEL
    )
    (small,) = channel_cutters(USUAL, 2.0)
    assert isinstance(small, NoTool)
    assert small.nearest_mm == 3.0


def test_a_bore_without_its_drill_says_which_would_do():
    assert drill_for(USUAL, 12.0) == SizedBit(size_mm=12.0, error_mm=0.0)
    assert drill_for(USUAL, 6.35).would is Would.DRILL
    assert drill_for(read(Shop(), inches()), 6.4).size_mm == pytest.approx(6.35)
    lone = read(Shop(drills=Drills(diameters=["5 mm", "9 mm"])))
    assert drill_for(lone, 7.0) == NoTool(
        would=Would.DRILL, size_mm=7.0, nearest_mm=9.0, by_hand=None
    )


def test_profiles_without_their_bit_are_planed():
    assert round_over_for(USUAL, 3.0) == SizedBit(size_mm=3.0, error_mm=0.0)
    assert round_over_for(USUAL, 5.0).by_hand is ByHand.BLOCK_PLANE
    assert chamfer_for(USUAL, 1.6).size_mm == 1.6
    assert chamfer_for(USUAL, 11.0).nearest_mm == 10.0
    assert chamfer_for(replace(USUAL, bits=None), 1.0).nearest_mm is None


def test_the_tables_know_every_family():
    assert set(USUAL_GLUES) == set(GlueFamily)
    assert set(USUAL_FINISHES) == set(FinishFamily)
    assert all(family is each.family for family, each in USUAL_GLUES.items())
    for each in USUAL_GLUES.values():
        if each.open_minutes is not None and each.assembly_minutes is not None:
            assert each.open_minutes < each.assembly_minutes


def test_what_goes_over_what():
    """Own words on a bulletin on shellac and common practice."""
    assert goes_over(FinishFamily.OIL_VARNISH, FinishFamily.LINSEED_OIL) is Over.DRY
    assert goes_over(FinishFamily.WATER_VARNISH, FinishFamily.TUNG_OIL) is Over.CURED
    assert goes_over(FinishFamily.WATER_VARNISH, FinishFamily.SHELLAC) is Over.DEWAXED
    assert goes_over(FinishFamily.OIL_VARNISH, FinishFamily.SHELLAC) is Over.DEWAXED
    assert goes_over(FinishFamily.TUNG_OIL, FinishFamily.OIL_VARNISH) is Over.NEVER
    for each in FinishFamily:
        assert goes_over(each, each) is Over.DRY
