"""A stand's openings and vents: where they go, and that they meet nothing.

Figures follow by hand from the round numbers of `bench.a_stand`.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from furniture import (
    Bracket,
    Cable,
    Opening,
    OpeningFor,
    PanelGrain,
    Plug,
    Problem,
    SteppedStand,
    Tier,
    Vent,
    VentKind,
    inches,
)
from furniture.parts.cuts import Bore, Slot
from furniture.pieces import placed_named
from furniture.solids.make import volume_of
from tests.builders.bench import (
    a_stand,
    by_uprights,
    is_wood,
    parameters_named,
    part,
    problems_of,
)
from tests.builders.test_bad_input import problems_left


def cylinder(diameter: float, thickness: float) -> float:
    """The wood that a bore takes [mm3]."""
    return math.pi * diameter**2 / 4 * thickness


class TestOpenings:
    """Openings and vents at stated places."""

    @pytest.mark.parametrize(
        ("on", "place", "through"),
        [
            # Seen from outside, 40 from the left and 30 up.
            ("front rail", {"from_left": "40 mm", "from_edge": "30 mm"}, (40, 5, 30)),
            ("left side rail", {"from_left": "60 mm", "from_edge": "30 mm"}, (5, 140, 30)),
            ("right side rail", {"from_left": "60 mm", "from_edge": "30 mm"}, (295, 60, 30)),
            ("left stub", {"from_left": "30 mm", "from_edge": "30 mm"}, (70, 195, 30)),
            # The post from the front: 30 from its left edge is x = 130.
            ("post", {"from_left": "30 mm", "from_edge": "120 mm"}, (130, 190, 120)),
            ("tier 1", {"from_left": "40 mm", "from_edge": "25 mm"}, (90, 105, 225)),
            ("lid", {"from_edge": "60 mm"}, (150, 71, 75)),
        ],
    )
    def test_it_goes_through_where_it_says(
        self, on: str, place: dict[str, str], through: tuple[float, float, float]
    ) -> None:
        """The stated place is a hole 12 wide: no wood 5.9 beside it, wood 6.1 beside it."""
        piece = a_stand(openings=[Opening(on=on, size="12 mm", **place)]).build()
        assert not is_wood(piece, on, *through)
        taken = volume_of(part(a_stand().build(), on)) - volume_of(part(piece, on))
        thickness = part(piece, on).blank.thickness_mm
        assert taken == pytest.approx(cylinder(12, thickness), rel=1e-6)
        each = placed_named(piece, on)
        for way in (each.placement.x_axis, each.placement.y_axis):
            near = [p + 5.9 * d for p, d in zip(through, way, strict=True)]
            far = [p + 6.1 * d for p, d in zip(through, way, strict=True)]
            assert not is_wood(piece, on, near[0], near[1], near[2])
            assert is_wood(piece, on, far[0], far[1], far[2])

    def test_uprights_are_faced_from_between(self) -> None:
        """30 from the front edge of both uprights, at the same height."""
        opening = Opening(on="uprights", size="12 mm", from_left="30 mm", from_edge="140 mm")
        piece = by_uprights(openings=[opening]).build()
        assert not is_wood(piece, "left upright", 10, 110, 140)
        assert not is_wood(piece, "right upright", 290, 110, 140)

    def test_drains_in_every_tier(self) -> None:
        """A group means each of its parts, and a drain is a note on the sheets."""
        drain = Opening(on="tiers", size="16 mm", from_edge="50 mm", purpose=OpeningFor.DRAIN)
        piece = a_stand(openings=[drain]).build()
        for tier in ("tier 1", "tier 2"):
            assert [c.kind for c in part(piece, tier).cuts] == ["bore"]
        assert any("drain" in note.text for note in piece.notes)
        named = parameters_named(a_stand(openings=[Opening(on="post", purpose=OpeningFor.DRAIN)]))
        assert named[0] == "opening 1 on"

    @pytest.mark.parametrize(
        "opening",
        [
            Opening(on="tier 1", size="20 mm", from_left="12 mm"),  # 2 mm to the end
            Opening(on="tier 1", size="20 mm", from_edge="90 mm"),  # runs into the post
            Opening(on="post", size="20 mm", from_edge="224 mm"),  # through tier 1's dado
            Opening(on="front rail", size="20 mm", from_left="22 mm", from_edge="30 mm"),  # mitre
            Opening(on="front rail", size="20 mm", from_edge="62 mm"),  # lid's rabbet
            Opening(on="tier 1", size="20 mm", flange="30 mm", from_left="18 mm"),
            Opening(on="tier 1", size="20 mm", from_left="900 mm"),
        ],
    )
    def test_openings_that_meet_something_are_refused(self, opening: Opening) -> None:
        """Edges, dados, mitres, rabbets: each refusal names the opening."""
        assert parameters_named(a_stand(openings=[opening])) == ["opening 1"]

    @pytest.mark.parametrize(
        ("given", "remedy"),
        [
            ({"size": "30 mm"}, "write from_edge='20 mm', or make it 22 mm at most (size)"),
            ({"passes": Cable(diameter="30 mm")}, "write from_edge='21 mm'"),
        ],
    )  # fmt: skip
    def test_what_has_to_pass_an_opening_is_not_told_to_do_with_less(self, given, remedy) -> None:
        """By hand: 16 mm from the edge, of which 15 or, for the bit of 32, 16 are the hole."""
        opening = Opening(on="tier 1", from_edge="16 mm", from_left="45 mm", **given)
        (problem,) = problems_of(a_stand(openings=[opening]))
        assert problem.remedy == remedy
        for each in remedy.split(", or "):
            if each.startswith("write"):
                moved = _written(opening, problem)
            else:
                moved = replace(opening, size="22 mm")
            assert a_stand(openings=[moved]).build().placed

    def test_an_opening_is_not_moved_from_one_edge_into_the_other(self) -> None:
        """Tier 2 is deep enough for it nowhere: 5 mm on either side of 80 ask for 90."""
        large = Opening(on="tier 2", size="80 mm", from_edge="41 mm", from_left="46 mm")
        (problem,) = problems_of(a_stand(openings=[large]))
        assert "from_" not in problem.remedy
        assert "mm at most (size)" in problem.remedy
        plug = Opening(on="front rail", passes=Plug(width="60 mm", thickness="20 mm"))
        (problem,) = problems_of(a_stand(openings=[plug]))
        assert problem.remedy == "make front rail larger, or let it be in another part (on)"

    def test_two_openings_that_meet_are_refused(self) -> None:
        """Twenty wide, twenty-four apart: 4 mm of wood is too little, 5 is enough."""
        first = Opening(on="lid", size="20 mm", from_left="100 mm", from_edge="60 mm")
        near = Opening(on="lid", size="20 mm", from_left="124 mm", from_edge="60 mm")
        clear = Opening(on="lid", size="20 mm", from_left="125 mm", from_edge="60 mm")
        assert parameters_named(a_stand(openings=[first, near])) == ["opening 2"]
        assert a_stand(openings=[first, clear]).build().placed

    def test_a_row_of_bores_and_a_row_of_slots(self) -> None:
        """Five bores of 8, and four upright slots 6 x 30: volumes in closed form."""
        piece = a_stand(
            vents=[
                Vent(on="front rail", count=5, size="8 mm", spacing="20 mm", from_edge="35 mm"),
                Vent(
                    on="post", kind=VentKind.SLOTS, count=4, size="6 mm", length="30 mm",
                    spacing="15 mm", from_edge="140 mm",
                ),
            ]
        ).build()  # fmt: skip
        plain = a_stand().build()
        rail = volume_of(part(plain, "front rail")) - volume_of(part(piece, "front rail"))
        assert rail == pytest.approx(5 * cylinder(8, 20), rel=1e-6)
        slots = [cut for cut in part(piece, "post").cuts if isinstance(cut, Slot)]
        assert sorted(cut.y_mm for cut in slots) == pytest.approx([27.5, 42.5, 57.5, 72.5])
        post = volume_of(part(plain, "post")) - volume_of(part(piece, "post"))
        assert post == pytest.approx(4 * (24 * 6 * 20 + cylinder(6, 20)), rel=1e-6)
        assert not is_wood(piece, "post", 127.5, 190, 152)
        bores = [cut for cut in part(piece, "front rail").cuts if isinstance(cut, Bore)]
        assert sorted(cut.x_mm or 0.0 for cut in bores) == pytest.approx([110, 130, 150, 170, 190])

    def test_one_opening_in_all_tiers_is_one_problem(self) -> None:
        """By hand: a radius of 12.5 mm, 5 mm from the edge, runs 7.5 mm past it; 5 mm must stay."""
        (problem,) = problems_of(a_stand(openings=[Opening(on="tiers", from_edge="5 mm")]))
        assert "runs 7.5 mm past the edge of tier 1; tier 2 has too little too" in problem.given
        assert problem.remedy.startswith("move it 12.5 mm away from the edge")
        a_stand(openings=[Opening(on="tiers", from_edge="17.5 mm")]).build()

    def test_a_row_in_all_rails_is_one_problem_of_the_worst(self) -> None:
        (problem,) = problems_of(a_stand(vents=[Vent(on="rails", count=12)]))
        assert "runs 64 mm past the edge of left stub" in problem.given


def test_an_opening_that_leaves_too_little_is_told_in_inches_that_can_be_written() -> None:
    """`13/64 in -` says that a figure is a little less, which no one can write or move by."""
    near = Opening(on="lid", size="1/2 in", from_left="1/3 in", from_edge="2 in")
    (problem,) = problems_of(a_stand(shown=inches(64), openings=[near]))
    for told in (problem.given, problem.allowed, problem.remedy):
        assert " in -" not in told
        assert " in +" not in told
    assert not problems_left(a_stand(shown=inches(64), openings=[_written(near, problem)]))


def _written(opening: Opening, problem: Problem) -> Opening:
    """The opening where its refusal says that it has room."""
    places = dict(re.findall(r"(from_left|from_edge)='(.+?)'", problem.remedy))
    assert places
    return replace(opening, **places)


@pytest.mark.parametrize(
    ("stand", "opening"),
    [
        (by_uprights(brackets=[Bracket()]), Opening(on="tier 1", from_left="6 mm")),
        (by_uprights(own_grain={"tiers": PanelGrain.ACROSS}, brackets=[Bracket()]),
         Opening(on="tier 1", from_left="6 mm", from_edge="70 mm")),
        (a_stand(), Opening(on="post", size="40 mm", between=("tier 1", "tier 2"),
                            from_left="20 mm")),
        (by_uprights(), Opening(on="right upright", between=("tier 1", "tier 2"),
                                from_left="3 mm")),
        (a_stand(shown=inches(), brackets=[Bracket(on="tier 1")]),
         Opening(on="tier 1", size="1/2 in", from_left="100 mm", from_edge="80 mm")),
    ],
)  # fmt: skip
def test_an_opening_upon_something_is_told_the_nearest_place_with_room(
    stand: SteppedStand, opening: Opening
) -> None:
    """It lies right over an upright, a bracket or the post, or its height is given: no way leads
    straight away, and the place that is told is taken at its word."""
    holed = replace(stand, openings=[opening])
    (problem,) = problems_of(holed)
    assert problem.remedy.startswith("write from_left=")
    assert not problems_left(replace(stand, openings=[_written(opening, problem)]))


def test_an_opening_that_has_room_nowhere_is_not_told_to_move() -> None:
    """Between two tiers 40 apart the post has no room for 40 with 5 on either side of it."""
    tiers = [Tier(width="200 mm", depth="100 mm", rise="150 mm"),
             Tier(width="160 mm", depth="80 mm", rise="50 mm")]  # fmt: skip
    hole = Opening(on="post", size="40 mm", between=("tier 1", "tier 2"))
    (problem,) = problems_of(a_stand(tiers=tiers, openings=[hole]))
    assert "from_left" not in problem.remedy
    assert "move" not in problem.remedy
