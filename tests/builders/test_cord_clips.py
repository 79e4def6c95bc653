"""Clips for a cord under a tier: their pilot holes by hand, told, bought, refused without room."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from exporters.hardware import Square, things_of
from furniture import (
    Bracket,
    Cable,
    CordClip,
    CordNotch,
    Lip,
    Opening,
    PanelGrain,
    Screw,
    TierEdge,
    inches,
)
from furniture.assembly import assembly_of
from furniture.making.glue_ups import GlueUps, stages_of
from furniture.parts.cuts import Bore
from furniture.parts.faces import Face
from furniture.pieces import Piece, bought_parts
from furniture.solids.make import solid_of
from tests.builders.bench import a_stand, by_uprights, is_wood, oak, part, problems_of, proved
from tests.builders.test_bad_input import plain_name, problems_left, stated
from tests.builders.test_footed_stands import footed

SCREW = Screw(diameter="2.4 mm", length="6 mm")
ACROSS = {"own_grain": {"tiers": PanelGrain.ACROSS}}


def clipped(**changes: Any) -> CordClip:
    return CordClip(**{"on": "tier 1", "screw": SCREW, **changes})


def pilots(piece: Piece, tier: str = "tier 1") -> list[Bore]:
    return [
        each
        for each in part(piece, tier).cuts
        if isinstance(each, Bore) and each.face is Face.BACK_SIDE
    ]


def test_a_screwed_clip_has_a_pilot_hole_flush_with_its_edge_and_is_bought() -> None:
    """In the middle of the 50 that are free beside the post; 1.5 for a screw of 2.4 in oak."""
    piece = a_stand(cord_clips=[clipped()]).build()
    (pilot,) = pilots(piece)
    assert (pilot.x_mm, pilot.y_mm) == pytest.approx((175, 101))
    assert (pilot.diameter_mm, pilot.depth_mm) == pytest.approx((1.5, 6))
    bare = 200 * 106 * 10
    assert solid_of(part(piece, "tier 1")).Volume() == pytest.approx(
        bare - math.pi * 0.75**2 * 6, abs=0.1
    )
    assert {(each.name, each.quantity, each.length_mm) for each in bought_parts(piece)} == {
        ("cord clip", 1, 16.0), ("round-head wood screw", 1, 6.0),
    }  # fmt: skip
    assert [each.text for each in piece.notes if "clip" in each.text] == [
        "tier 1: screw the cord clip under it at its back edge, on its pilot hole"
    ]


@pytest.mark.parametrize("grain", [{}, ACROSS], ids=["along", "across"])
@pytest.mark.parametrize(
    ("edge", "x", "y"),
    [("front", 70, 85), ("back", 70, 181), ("left", 55, 100), ("right", 245, 100)],
)
def test_it_lies_where_it_is_said_whichever_way_the_grain_runs(
    grain: dict[str, Any], edge: str, x: float, y: float
) -> None:
    """The tier of 200 begins at 50, and its front is at 80: 20 from the corner, 5 in."""
    piece = a_stand(cord_clips=[clipped(edge=edge, from_corner="20 mm")], **grain).build()
    under = 79.5 + 150 - 10 + 1
    assert len(pilots(piece)) == 1
    assert not is_wood(piece, "tier 1", x, y, under)
    assert is_wood(piece, "tier 1", x + 3, y, under)
    assert is_wood(piece, "tier 1", x, y, under + 6)


def test_one_that_is_stuck_on_is_told_by_figures_and_cuts_nothing() -> None:
    piece = a_stand(
        cord_clips=[CordClip(on="tier 1", edge=TierEdge.LEFT, from_corner="30 mm",
                             from_edge="12 mm", name="felt clip")],
        **ACROSS,
    ).build()  # fmt: skip
    assert pilots(piece) == []
    assert [each.text for each in piece.notes if "clip" in each.text] == [
        "tier 1: stick the felt clip under it after finishing, its middle 30 mm from the front and "
        "12 mm from its left edge"
    ]
    assert [(each.name, each.note) for each in bought_parts(piece)] == [("felt clip", "stuck on")]


def test_one_under_a_tier_in_dados_is_told_from_the_upright() -> None:
    """6 of the tier lie in either dado, where nobody can measure from once it is glued."""
    clip = CordClip(on="tier 1", edge=TierEdge.FRONT, from_corner="60 mm")
    (note,) = [each for each in by_uprights(cord_clips=[clip]).build().notes if "clip" in each.text]
    assert "its middle 54 mm from the left upright and 5 mm from" in note.text


def test_it_is_fixed_over_the_finish_and_seen_under_its_tier() -> None:
    """Its foot of 16 by 10 flush with the back edge at 186, with its row of what is bought."""
    piece = a_stand(cord_clips=[clipped(), CordClip(on="tier 2", edge=TierEdge.LEFT)]).build()
    first, second = (each for each in things_of(piece) if "clip" in each.name)
    assert first.bought is not None
    assert first.bought.name == "cord clip"
    assert isinstance(first.form, Square)
    assert first.form.size[:2] == (16.0, 10.0)
    assert first.origin == pytest.approx((225, 181, 79.5 + 150 - 10))
    assert abs(first.axes[0][0]) == abs(second.axes[0][1]) == 1.0
    assert first.apart({"tier 1": (0.0, 0.0, 50.0)}).origin[2] == pytest.approx(219.5 + 50 - 16)
    order = assembly_of(piece)
    stages = stages_of(piece, order)
    assert isinstance(stages, GlueUps)
    assert not [each for stage in stages.stages for each in stage.fixed_with]
    assert len(stages.fixed_with) == 3


EVERY = [clipped(on="tiers", edge=edge) for edge in TierEdge]
HARD: list[tuple[str, Any, int]] = [
    ("at every edge beside all else, in inches", a_stand(
        cord_clips=EVERY, cord_notches=[CordNotch(passes=Cable(diameter="6 mm"))],
        brackets=[Bracket(on="tier 1")], lips=[Lip(on="tiers")],
        openings=[Opening(on="tier 1", size="10 mm", from_left="30 mm", from_edge="70 mm")],
        shown=inches(),
    ), 4),
    ("between uprights", by_uprights(cord_clips=[clipped(), clipped(edge="front")]), 2),
    ("without a box, turned", footed(cord_clips=EVERY, own_grain=ACROSS["own_grain"]), 4),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved(hard: tuple[str, Any, int]) -> None:
    """Wood, contacts and order; a lip above is in no clip's way."""
    _, stand, count = hard
    piece = stand.build()
    proved(piece)
    assert len(pilots(piece)) == count


REFUSED: list[tuple[Any, str]] = [
    (a_stand(cord_clips=["tier 1"]), "cord clip 1"),
    (a_stand(cord_clips=[clipped(on="lid")]), "cord clip 1 on"),
    (a_stand(cord_clips=[clipped(edge="under")]), "cord clip 1 edge"),
    (a_stand(cord_clips=[clipped(length="2 mm")]), "cord clip 1 length"),
    (a_stand(cord_clips=[clipped(length="55 mm")]), "cord clip 1 edge"),
    (a_stand(cord_clips=[clipped(from_edge="2 mm")]), "cord clip 1 from_edge"),
    (a_stand(cord_clips=[clipped(from_corner="100 mm")]), "cord clip 1 from_corner"),
    (a_stand(cord_clips=[clipped(from_corner="3 mm")]), "cord clip 1 from_corner"),
    (a_stand(cord_clips=[clipped(from_corner="1 mm", edge="right")], **ACROSS),
     "cord clip 1 from_corner"),
    (a_stand(cord_clips=[clipped(screw="screw")]), "cord clip 1 screw"),
    (a_stand(cord_clips=[clipped(screw=Screw(diameter="2 mm", length="12 mm"))]),
     "cord clip 1 screw.length"),
    (a_stand(cord_clips=[clipped(screw=Screw(diameter="4 mm", length="7 mm"))]),
     "cord clip 1 screw.diameter"),
    (a_stand(cord_clips=[clipped()], own_stock={"tier 1": oak("7.7 mm")}), "cord clip 1 screw"),
    (by_uprights(cord_clips=[clipped(edge="left")]), "cord clip 1 edge"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_has_no_room_is_refused_and_its_remedy_works(given: tuple[Any, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    stand, parameter = given
    problems = problems_of(stand)
    assert parameter in [plain_name(each.parameter) for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        name = problem.parameter.removeprefix("cord clip 1 ")
        if text is not None and "." not in name:
            (clip,) = stand.cord_clips
            moved = replace(clip, **{name: text})
            left = problems_left(a_stand(cord_clips=[moved], own_grain=stand.own_grain))
            assert left == []
