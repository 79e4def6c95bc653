"""Glue, clamps and finish of a glue-up against figures worked by hand, and guides of mates."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.assembly import assembly_of
from furniture.making.amounts import finishing_of, gluing_of
from furniture.making.glue_ups import stages_of
from furniture.making.guides import guides_of
from furniture.parts.faces import Face
from furniture.shop.tools.reading import usual_or
from furniture.solids.measure import weigh
from furniture.units import millimetres
from tests.models import piece_of

SHOP = usual_or(None, millimetres())


def stage_of(name, number):
    piece = piece_of(name)
    found = stages_of(piece, assembly_of(piece))
    return piece, found.stages[number - 1]


def test_glue_is_spread_on_both_faces_of_every_joint():
    piece, tiers = stage_of("herb_stand", 3)
    both = 2 * sum(each.face.area_mm2 for each in tiers.spread) / 1e6
    plain = both * SHOP.glue.spread_g_m2
    assert plain <= gluing_of(piece, tiers, SHOP).grams <= 2 * plain


def test_a_dado_floor_is_pressed_as_white_oak_asks():
    """A floor of 13.4 x 110 mm is 1474 mm2; dense wood is pressed with 200 psi = 1.379 MPa."""
    piece, tiers = stage_of("herb_stand", 3)
    forces = {round(each.force_n) for each in gluing_of(piece, tiers, SHOP).pressing}
    assert forces == {round(13.4 * 110 * 200 * 0.00689476)}


def test_clamps_of_one_stage_stand_all_at_once():
    """No lot gives more than it has, whatever the lines ask for together."""
    piece, stage = stage_of("key_rack", 1)
    used = {}
    for each in gluing_of(piece, stage, SHOP).pressing:
        for lot, count in each.clamps.chosen:
            used[lot.kind] = used.get(lot.kind, 0) + count
    have = {lot.kind: lot.count for lot in SHOP.clamps}
    assert all(count <= have[kind] for kind, count in used.items())
    assert any(each.clamps.short_n > 0 for each in gluing_of(piece, stage, SHOP).pressing)


def test_a_shop_without_clamps_is_told_what_is_missing():
    piece, stage = stage_of("herb_stand", 3)
    bare = replace(SHOP, clamps=())
    for each in gluing_of(piece, stage, bare).pressing:
        assert each.clamps.count == 0
        assert each.clamps.short_n == pytest.approx(each.force_n)


def test_the_finish_of_the_herb_stand():
    """By hand 0.909 m2 less both glued faces, within 3 %; three coats and a spare."""
    piece = piece_of("herb_stand")
    finishing = finishing_of(piece, weigh(piece), SHOP)
    assert finishing.area_mm2 / 1e6 == pytest.approx(0.909, rel=0.03)
    assert finishing.grits == (120, 150, 220)
    assert 0.27 < finishing.litres < 0.40
    assert finishing_of(piece, weigh(piece), replace(SHOP, finish=None)) is None


def test_dowelled_mates_are_measured_from_faces_that_look_one_way():
    """The stubs' outside looks back, the post's face side forward: its back side guides."""
    guides = guides_of(piece_of("herb_stand"))
    for stub in ("left stub", "right stub"):
        assert guides[stub].side is Face.FACE_SIDE
    assert guides["post"].side is Face.BACK_SIDE
    assert guides["tier 1"].side is Face.FACE_SIDE


def test_a_mirrored_pair_is_measured_from_mirrored_faces():
    """Both uprights from the rear edge, which is the face edge of the left one; stubs from the
    end at the post, which is the named end of the left one."""
    guides = guides_of(piece_of("yarn_steps"))
    assert guides["left upright"].edge is Face.FACE_EDGE
    assert guides["right upright"].edge is Face.BACK_EDGE
    guides = guides_of(piece_of("herb_stand"))
    assert guides["left stub"].end is Face.NAMED_END
    assert guides["right stub"].end is Face.FAR_END
