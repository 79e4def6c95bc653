"""What comes off a strip says so on its own sheet, and the strip is as large as the work has it."""

from __future__ import annotations

from exporters.sheets.rough_words import sawn_from, strips_of
from furniture.making.workpieces import Wood
from tests.exporters.work.sheet_words import whole_work
from tests.models import piece_of


def _part(name):
    return next(each.part for each in piece_of("herb_stand").placed if each.instance == name)


def test_a_part_off_a_strip_names_it_its_rough_size_and_its_place():
    strips = strips_of(whole_work("herb_stand").making)
    shown = piece_of("herb_stand").shown
    sawn = sawn_from(_part("left stub"), ("left stub", "right stub"), strips, shown)
    # five rails, 105 + 210 + 320 + 210 + 105 at their long points, with four leaning kerfs of
    # 3.2 / cos 45 less the thickness that mitres overlap by, and what is left at both ends
    assert sawn.in_full == "off rail strip, rough 985.1 x 88: 1 and 5 of 5 along it"
    assert sawn.in_short == "off rail strip"


def test_a_part_from_a_blank_of_its_own_tells_its_rough_size():
    strips = strips_of(whole_work("herb_stand").making)
    sawn = sawn_from(_part("post"), ("post",), strips, piece_of("herb_stand").shown)
    assert sawn.in_full == "rough 722.5 x 114"


def test_every_strip_of_the_work_has_each_of_its_parts_at_one_place():
    making = whole_work("herb_stand").making
    strips = strips_of(making)
    for each in making.workpieces:
        if each.what is Wood.COMMON_BLANK:
            assert [strips[name].place for name in each.instances] == [*range(1, 6)]
