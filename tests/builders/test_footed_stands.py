"""A stand without a box, its post tenoned into a foot board: by hand, proved, checked, refused."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    Arris,
    Bracket,
    Cable,
    EdgeProfile,
    Face,
    FootedStand,
    Hardware,
    Lip,
    LipEdge,
    Load,
    Opening,
    OpeningFor,
    ProfileKind,
    Tier,
    TierLine,
    inches,
)
from furniture.checks.check import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.bending import GLUE_STRETCHED
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import THICK, THIN, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, plain_name, problems_left, stated

TIERS = (
    Tier(width="200 mm", depth="100 mm", rise="150 mm"),
    Tier(width="160 mm", depth="80 mm", rise="120 mm"),
)


def footed(**changes: Any) -> FootedStand:
    """A stand of round figures on a foot board of 300 by 200 by 20."""
    given: dict[str, Any] = {
        "thick": THICK, "thin": THIN, "base_width": "300 mm", "base_depth": "200 mm",
        "behind_post": "20 mm", "tenon": "12 mm", "post_width": "100 mm", "post_proud": "30 mm",
        "tiers": TIERS, "dado_depth": "6 mm", "fit_clearance": "0.1 mm",
    }  # fmt: skip
    return FootedStand(**{**given, **changes})


BY_HAND = {
    # less a mortise 75.5 long, 6.7 and its play wide, 12 and a gap of 1 deep
    "foot board": 300 * 200 * 20 - 75.5 * (6.7 + 0.12) * 13,
    # 30 + 150 + 120 above the board and 12 in it, less two dados and all but the tenon there
    "post": 312 * 100 * 20 - 2 * 10.1 * 6 * 100 - 12 * (100 * 20 - 75 * 6.7),
    "tier 1": 200 * 106 * 10,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_parts_of_a_footed_stand(instance: str) -> None:
    """Worked out by hand."""
    volume = solid_of(part(footed().build(), instance)).Volume()
    assert volume == pytest.approx(BY_HAND[instance], rel=1e-6)


def test_it_is_as_high_and_as_deep_as_one_says() -> None:
    """A tier without a depth reaches as far forward as the whole, its board behind the post."""
    stand = footed(
        overall_height="400 mm", overall_depth="220 mm", behind_post="35 mm",
        tiers=[Tier(width="200 mm"), Tier(width="160 mm", depth="80 mm", rise="120 mm")],
    )  # fmt: skip
    piece = stand.build()
    assert box_round(piece, "post")[1][2] == pytest.approx(400)
    assert box_round(piece, "tier 1")[0][1] == pytest.approx(200 - 220)
    assert box_round(piece, "post")[1][1] == pytest.approx(200 - 35)
    whole = footed(base_depth=None, overall_depth="240 mm").build()
    assert box_round(whole, "foot board")[1][1] == pytest.approx(240)


HARD: list[tuple[str, FootedStand]] = [
    ("all that may be put to it", footed(
        lips=[Lip(on="tier 1", edges=list(LipEdge))],
        brackets=[Bracket(on="tier 1", count=2), Bracket(on="tier 2")],
        openings=[
            Opening(on="post", passes=Cable(diameter="6 mm"), between=("foot board", "tier 1")),
            Opening(on="tiers", size="8 mm", from_edge="20 mm", purpose=OpeningFor.DRAIN),
            Opening(on="foot board", size="10 mm", from_left="30 mm", from_edge="30 mm"),
        ],
        profiles=[EdgeProfile(on="foot board", edges=[TOP_FRONT], radius="4 mm"),
                  EdgeProfile(on="post", edges=[Arris(Face.FACE_SIDE, Face.FACE_EDGE)],
                              kind=ProfileKind.CHAMFER, radius="2 mm")],
        hardware=[Hardware(name="felt pad", quantity=4, on="foot board")],
    )),
    ("flush above and behind, in inches", footed(
        post_proud="0 mm", behind_post="0 mm", tenon=None, foot=oak("31.3 mm"), shown=inches(),
        own_stock={"tier 2": oak("7.3 mm")},
    )),
    ("a thin board and a thick post", footed(
        foot=oak("12 mm"), own_stock={"post": oak("33 mm")}, tenon=None,
    )),
    ("on a line", footed(tiers=TierLine(count=4, top_width="120 mm", top_depth="60 mm",
                                        rise="80 mm"))),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved_and_go_together(hard: tuple[str, FootedStand]) -> None:
    """The post comes down into its board before any tier goes in."""
    plan = proved(hard[1].build())
    post = next(step for step in plan.steps if "post" in step.moving or "post" in step.onto)
    assert ("foot board", "post") in post.joints


def test_a_foot_that_tips_and_a_tenon_that_tears_are_told() -> None:
    """The same load far out and low in: what is sound beside what is not."""
    jug = Load(on="tier 2", mass="3 kg", footprint=("90 mm", "70 mm"), centre_height="90 mm")
    long = (TIERS[0], Tier(width="160 mm", depth="180 mm", rise="120 mm"))
    fine = footed(loads=[jug], base_depth="260 mm", tiers=TIERS).build()
    tips = footed(loads=[jug], base_depth="120 mm", tiers=long).build()
    sound, hazard = (findings_of(piece, weigh(piece)) for piece in (fine, tips))
    assert not [each for each in sound if each.verdict is Verdict.FAIL]
    assert [each for each in hazard if each.verdict is Verdict.FAIL]
    (glue,) = [
        each for each in sound if each.check == GLUE_STRETCHED and "foot board" in each.subject
    ]
    assert glue.value is not None


REFUSED: list[tuple[FootedStand, str]] = [
    (footed(base_width="50 mm"), "base_width"),
    (footed(base_depth="40 mm"), "base_depth"),
    (footed(base_depth="2 m"), "base_depth"),
    (footed(base_depth=None), "base_depth"),
    (footed(base_depth=None, overall_depth="60 mm", tiers=[
        Tier(width="200 mm", rise="150 mm")]), "overall_depth"),
    (footed(overall_depth="190 mm"), "overall_depth"),
    (footed(behind_post="190 mm"), "behind_post"),
    (footed(behind_post="-1 mm"), "behind_post"),
    (footed(post_width="20 mm"), "post_width"),
    (footed(post_width="310 mm"), "post_width"),
    (footed(tenon="16 mm"), "tenon"),
    (footed(tenon="3 mm"), "tenon"),
    (footed(foot="oak"), "foot"),
    (footed(foot=oak("8 mm"), tenon=None), "foot thickness"),
    (footed(post_proud="5 mm"), "post_proud"),
    (footed(dado_depth="15 mm"), "dado_depth"),
    (footed(tiers=[]), "tiers"),
    (footed(overall_height="900 mm"), "overall_height"),
    (footed(loads=[Load(on="lid", mass="1 kg")]), "load 1 on"),
    (footed(profiles=[EdgeProfile(on="post", edges=[Arris(Face.FACE_SIDE, Face.NAMED_END)])]),
     "profile 1 edges"),
    (footed(openings=[Opening(on="foot board", size="30 mm", from_edge="170 mm")]), "opening 1"),
    (footed(own_stock={"lid": THIN}), "own_stock['lid']"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_be_made_is_refused_and_its_remedy_works(
    given: tuple[FootedStand, str],
) -> None:
    """By its name, and a stated figure is taken when it is written."""
    stand, parameter = given
    problems = problems_of(stand)
    assert parameter in [plain_name(each.parameter) for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and "thickness" not in problem.parameter:
            left = problems_left(changed(stand, problem.parameter, text))
            assert plain_name(problem.parameter) not in left


def test_a_foot_board_as_thick_as_is_said_takes_its_tenon() -> None:
    """5 of tenon, a gap of 1 and 4 below it."""
    (problem,) = problems_of(footed(foot=oak("8 mm"), tenon=None))
    assert problem.remedy == "take a foot board 10 mm thick"
    proved(footed(foot=oak("10 mm"), tenon=None).build())


def test_a_foot_board_of_no_thickness_is_refused_alone() -> None:
    """How deep a tenon goes into it is not known then, which broke the run."""
    named = [each.parameter for each in problems_of(footed(foot=oak("-16.3 mm")))]
    assert named == ["foot (oak -16.3 mm) thickness"]
