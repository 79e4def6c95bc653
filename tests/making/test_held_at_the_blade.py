"""A tilted blade leans one way: what is kept must lie on one and the same side of it."""

from __future__ import annotations

import pytest

from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.making import making_of
from furniture.making.settings import Guide, Slice
from furniture.parts.vectors import cross, dot
from furniture.shop.tools import Shop
from furniture.shop.tools.reading import read_shop
from furniture.units import Reader
from tests.models import NAMES, piece_of


@pytest.mark.parametrize("name", NAMES)
def test_what_is_kept_lies_on_one_side_of_a_tilted_blade(name):
    piece = piece_of(name)
    shop = read_shop(Reader(piece.shown), Shop())
    commons = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    sides = set()
    for each in making_of(piece, commons, shop).operations:
        rig, setting = each.rig, each.setting
        if rig is None or setting is None or not rig.tilt_deg or rig.guide is not Guide.SLED:
            continue
        assert each.hold.down is setting.long_face.opposite, "the long point is up"
        right = cross(each.hold.against.normal, each.hold.down.opposite.normal)
        kept = setting.off if isinstance(setting, Slice) else setting.face.opposite
        sides.add(dot(kept.normal, right))
    assert len(sides) <= 1
