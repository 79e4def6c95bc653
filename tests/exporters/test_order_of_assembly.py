"""The order of assembly on paper says what the plan says, and what the places of parts ask for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from exporters.sheets import SheetSettings
from exporters.sheets.order_words import works_of
from exporters.sheets.sheets import sheets_of
from exporters.sheets.values import Lettering, Sheet
from furniture import Ballast
from furniture.assembly import AssemblyPlan, NoOrder, Step, assembly_of, step_in_words
from furniture.parts.ways import way_in_words
from furniture.pieces.piece import Piece
from models.herb_stand import stand as herb_stand
from tests.exporters.test_views_explode import joining, stand
from tests.models import NAMES, piece_of

DOWN = (0.0, 0.0, -1.0)


def words_on(sheets: list[Sheet]) -> str:
    """All texts of the sheets, as one paragraph."""
    return " ".join(
        item.text for sheet in sheets for item in sheet.items if isinstance(item, Lettering)
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_step_of_every_model_is_said(name: str) -> None:
    """Each step with its number, its way and every joint that it closes, glued or dry."""
    piece = piece_of(name)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    works = works_of(piece, plan)
    assert len(works) == len(plan.steps)
    for step, work in zip(plan.steps, works, strict=True):
        assert all(part in work.moving for part in step.moving)
        ways = [way_in_words(step.direction)]
        if step.before is not None:
            ways.insert(0, way_in_words(step.before.way))
        assert work.way == ", then ".join(ways)
        assert all(way in step_in_words(step) for way in ways)
        closed = {onto for closing in work.closings for onto in closing.onto}
        moving = set(step.moving)
        assert closed == {b if a in moving else a for a, b in step.joints}
        for joining_ in piece.joinings:
            if (joining_.into, joining_.incoming) in step.joints:
                other = {joining_.into, joining_.incoming} - moving
                (closing,) = [
                    each
                    for each in work.closings
                    if other <= set(each.onto) and each.joint.startswith(joining_.kind)
                ]
                assert closing.is_glued == (joining_.glue_area_mm2 > 0.0)
    sheets = sheets_of(piece, SheetSettings(dated=date(2026, 1, 1)), order=plan)
    order = [sheet for sheet in sheets if "order-of-assembly" in sheet.name]
    said = words_on(order)
    for work in works:
        for word in (*work.moving.split(), *work.way.split(), *" ".join(work.after).split()):
            assert word in said


def test_a_flush_allowance_is_planed_and_a_long_end_trimmed_when_all_is_home() -> None:
    piece = piece_of("herb_stand")
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    after = {words: work.number for work in works_of(piece, plan) for words in work.after}
    (planed,) = [words for words in after if words.startswith("plane the top")]
    assert "flush with lid: they stand 0.5 mm proud" in planed
    for rail in ("front rail", "left side rail", "right side rail", "left stub", "right stub"):
        assert rail in planed
    home = max(
        number
        for number, step in enumerate(plan.steps, start=1)
        if any("lid" in pair for pair in step.joints)
    )
    assert after[planed] == home
    last = max(
        number
        for number, step in enumerate(plan.steps, start=1)
        if any("post" in pair and "post foot" not in pair for pair in step.joints)
    )
    assert after["trim the top of post"] == last


def test_a_pinned_bottom_and_the_weight_on_it_are_told_with_its_step() -> None:
    plates = Ballast(
        name="steel plates", mass="3.2 kg", size=("220 mm", "80 mm", "24 mm"), from_front="60 mm"
    )
    piece = replace(herb_stand, ballast=plates).build()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    (bottom,) = [work for work in works_of(piece, plan) if work.moving == "bottom"]
    assert bottom.after == ("fix it with 2 panel pins", "in with it: steel plates")


def test_ends_that_are_trimmed_wait_for_all_that_is_joined_to_them() -> None:
    """Both uprights of the yarn steps are cut level together, once all their joints are closed."""
    piece = piece_of("yarn_steps")
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    after = {words: work.number for work in works_of(piece, plan) for words in work.after}
    (trimmed,) = [words for words in after if words.startswith("trim")]
    assert trimmed == "trim the top of left upright and right upright"
    closes = [
        number
        for number, step in enumerate(plan.steps, start=1)
        if any({"left upright", "right upright"} & set(pair) for pair in step.joints)
    ]
    assert after[trimmed] == max(closes)


def test_a_sub_assembly_has_a_letter_where_it_is_made_and_where_it_moves() -> None:
    placed, _ = stand()
    joined = (
        joining("post", "shelf", (125, 105, 205), (0, 1, 0)),
        joining("shelf", "pin", (122.5, 42.5, 205), DOWN),
    )
    kept = tuple(each for each in placed if each.instance in ("post", "shelf", "pin"))
    plan = AssemblyPlan(
        steps=(
            Step(moving=("pin",), onto=("shelf",), direction=DOWN, joints=(("shelf", "pin"),)),
            Step(
                moving=("shelf", "pin"), onto=("post",), direction=(0.0, 1.0, 0.0),
                joints=(("post", "shelf"),),
            ),
        )
    )  # fmt: skip
    first, second = works_of(Piece(name="x", placed=kept, joinings=joined), plan)
    assert (first.moving, first.way) == ("pin", "down")
    assert first.after == ("this is sub-assembly A",)
    assert second.moving == "sub-assembly A (shelf, pin)"


def test_a_long_order_is_split_and_none_is_lost() -> None:
    placed, joined = stand()
    names = [each.instance for each in placed if each.instance != "post"]
    steps = tuple(
        Step(moving=(names[n % 4],), onto=("post",), direction=DOWN, joints=()) for n in range(120)
    )
    piece = Piece(name="x", placed=tuple(placed), joinings=tuple(joined))
    sheets = sheets_of(piece, SheetSettings(), order=AssemblyPlan(steps=steps))
    order = [sheet for sheet in sheets if "order-of-assembly" in sheet.name]
    assert len(order) > 1
    said = words_on(order).split()
    assert all(str(number) in said for number in range(1, 121))


def test_a_piece_without_an_order_says_why() -> None:
    placed, joined = stand()
    piece = Piece(name="x", placed=tuple(placed), joinings=tuple(joined))
    why = NoOrder(stuck=("pin",), reason="pin is caught between shelf and post.")
    sheets = sheets_of(piece, SheetSettings(), order=why)
    (order,) = [sheet for sheet in sheets if "order-of-assembly" in sheet.name]
    assert "caught" in words_on([order])
