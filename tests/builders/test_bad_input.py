"""Designs that must be refused: the right parameter named, all at once, and the remedy true."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

import pytest

from furniture import (
    OUTER_TOP,
    TOP_BACK,
    TOP_FRONT,
    TOP_LEFT,
    TOP_RIGHT,
    UNDER_FRONT,
    Arris,
    BackRail,
    Ballast,
    BottomFixing,
    Cleats,
    DadoEnds,
    DesignError,
    Dowels,
    EdgeProfile,
    Face,
    Feet,
    FingerHold,
    Hardware,
    LidFixing,
    Load,
    MitredBox,
    Opening,
    PostStrips,
    Prefinish,
    Problem,
    Screw,
    SteppedStand,
    Stock,
    Tier,
    TierRule,
    Uprights,
    Vent,
    inches,
    quantity,
)
from tests.builders.bench import THICK, THIN, a_box, a_stand, oak, parameters_named, problems_of

LOWER_FRONT = Arris(Face.BACK_EDGE, Face.NAMED_END)
RULE: dict[str, Any] = {"count": 4, "width": "200 mm", "depth": "120 mm", "rise": "100 mm"}


def rule(**changes: Any) -> TierRule:
    """A rule for four tiers with some of it changed."""
    return TierRule(**{**RULE, **changes})


def by_uprights(**changes: Any) -> SteppedStand:
    """A stand on two uprights with some of it changed."""
    tiers = TierRule(count=3, depth="140 mm", rise="120 mm", step_back_depth="20 mm")
    given: dict[str, Any] = {
        "uprights": Uprights(depth="120 mm"), "post_width": None, "tiers": tiers,
    }  # fmt: skip
    return a_stand(**{**given, **changes})


BAD: list[tuple[Any, str]] = [
    (a_stand(base_width=300), "base_width"),
    (a_stand(base_width=300.0), "base_width"),
    (a_stand(base_width="300"), "base_width"),
    (a_stand(base_width="300 furlongs of"), "base_width"),
    (a_stand(base_width="300 smoot"), "base_width"),
    (a_stand(base_width="3 kg"), "base_width"),
    (a_stand(base_width="wide enough"), "base_width"),
    (a_stand(base_width=""), "base_width"),
    (a_stand(base_width=None), "base_width"),
    (a_stand(base_width=True), "base_width"),
    (a_stand(base_width=float("nan")), "base_width"),
    (a_stand(base_width=quantity(float("nan"), "mm")), "base_width"),
    (a_stand(base_width=quantity(float("inf"), "mm")), "base_width"),
    (a_stand(base_width="0 mm"), "base_width"),
    (a_stand(base_width="-300 mm"), "base_width"),
    (a_stand(base_width="3000 mm"), "base_width"),
    (a_stand(base_width="150 mm"), "post_width"),
    (a_stand(base_width="100 mm"), "base_width"),
    (a_stand(base_width="105 mm", post_width="30 mm"), "base_width"),
    (a_stand(base_depth="0 mm"), "base_depth"),
    (a_stand(base_depth="80 mm", own_stock={"post": oak("30 mm")}), "base_depth"),
    (a_stand(base_depth=None), "base_depth"),
    (a_stand(overall_height="400 mm"), "overall_height"),
    (a_stand(overall_height="0 mm"), "overall_height"),
    (a_stand(overall_height="tall"), "overall_height"),
    (a_stand(overall_height="200 mm", tiers=rule(rise=None)), "overall_height"),
    (a_stand(overall_height="5 m", tiers=rule(rise=None)), "overall_height"),
    (
        a_stand(overall_height="500 mm", tiers=rule(rise=None, rise_change="-90 mm")),
        "tiers.rise_change",
    ),
    (
        a_stand(overall_depth="200 mm", tiers=rule(depth=None, step_back_depth="60 mm")),
        "tiers.step_back_depth",
    ),
    (a_stand(overall_depth="190 mm"), "overall_depth"),
    (a_stand(overall_depth="45 mm", tiers=rule(depth=None)), "overall_depth"),
    (a_stand(overall_depth="700 mm", tiers=rule(depth=None)), "overall_depth"),
    (a_stand(base_depth=None, overall_depth="9 mm", tiers=rule(depth=None)), "overall_depth"),
    (a_stand(base_depth=None, overall_depth="700 mm", tiers=rule(depth=None)), "overall_depth"),
    (a_stand(base_depth=None, overall_depth="2 m"), "overall_depth"),
    (a_stand(base_height="0 mm"), "base_height"),
    (a_stand(base_height="20 mm"), "base_height"),
    (a_stand(base_height="30 mm", bottom=THIN), "base_height"),
    (a_stand(post_width="0 mm"), "post_width"),
    (a_stand(post_width="260 mm"), "post_width"),
    (a_stand(post_width=None), "post_width"),
    (a_stand(post_proud="-1 mm"), "post_proud"),
    (a_stand(post_proud="5 mm"), "post_proud"),
    (a_stand(post_strips=PostStrips(count=1)), "post_strips.count"),
    (a_stand(post_strips=PostStrips(count=7)), "post_width"),
    (a_stand(post_strips=3), "post_strips"),
    (a_stand(dado_depth="25 mm"), "dado_depth"),
    (a_stand(dado_depth="11 mm"), "dado_depth"),
    (a_stand(dado_depth="1 mm"), "dado_depth"),
    (a_stand(dado_depth="3.5 mm"), "dado_depth"),  # leaves the lid 2.5 mm of seat
    (a_stand(own_stock={"post": oak("5 mm")}, dado_depth=None), "own_stock['post'] thickness"),
    (a_stand(rabbet_width="20 mm"), "rabbet_width"),
    (a_stand(rabbet_width="15 mm"), "rabbet_width"),
    (a_stand(rabbet_width="2 mm"), "rabbet_width"),
    (a_stand(rabbet_width="0 mm"), "rabbet_width"),
    (a_stand(thick=oak("8 mm"), rabbet_width=None, lid_gap_across="4 mm"), "thick thickness"),
    (a_stand(lid_gap_along="0 mm"), "lid_gap_along"),
    (a_stand(lid_gap_across="0 mm"), "lid_gap_across"),
    (a_stand(flush_allowance="-0.5 mm"), "flush_allowance"),
    (a_stand(bottom=THIN, bottom_gap="9 mm"), "bottom_gap"),
    (a_stand(fit="slip", fit_clearance=None), "fit"),
    (a_stand(fit_clearance="2 mm"), "fit_clearance"),
    (a_stand(fit="slip"), "fit"),  # beside a clearance of its own, too
    (a_stand(tiers=None), "tiers"),
    (a_stand(tiers=()), "tiers"),
    (a_stand(tiers="three"), "tiers"),
    (a_stand(tiers=[Tier(width="200 mm", depth="90 mm", rise="60 mm")] * 21), "tiers"),
    (a_stand(tiers=[3]), "tier 1"),
    (a_stand(tiers=[Tier(width="90 mm", depth="90 mm", rise="90 mm")]), "tier 1 width"),
    (a_stand(tiers=[Tier(width="301 mm", depth="90 mm", rise="90 mm")]), "tier 1 width"),
    (a_stand(tiers=[Tier(width="200 mm", depth="5 mm", rise="90 mm")]), "tier 1 depth"),
    (a_stand(tiers=[Tier(width="200 mm", depth="90 mm", rise="20 mm")]), "tier 1 rise"),
    (a_stand(tiers=[Tier(width="200 mm", depth="90 mm")]), "tier 1 rise"),
    (a_stand(tiers=rule(count=0)), "tiers.count"),
    (a_stand(tiers=rule(count=21)), "tiers.count"),
    (a_stand(tiers=rule(count=2.5)), "tiers.count"),
    (a_stand(tiers=rule(width="80 mm")), "tiers.width"),
    (a_stand(tiers=rule(step_back_width="40 mm")), "tiers.step_back_width"),
    (a_stand(tiers=rule(step_back_width="-40 mm")), "tiers.step_back_width"),
    (a_stand(tiers=rule(step_back_depth="35 mm")), "tiers.step_back_depth"),
    (a_stand(tiers=rule(rise="12 mm")), "tiers.rise"),
    (a_stand(tiers=rule(rise_change="-26 mm")), "tiers.rise_change"),
    (a_stand(thick=None), "thick"),
    (a_stand(thick="oak"), "thick"),
    (a_stand(thin=Stock(species="unobtainium", thickness="10 mm")), "thin species"),
    (a_stand(thin=Stock(species="white oak", thickness="10")), "thin thickness"),
    (a_stand(thin=Stock(species="white oak", thickness="0 mm")), "thin thickness"),
    (a_stand(thin=Stock(species="white oak", thickness="10 mm", moisture="9")), "thin moisture"),
    (a_stand(thin=Stock(species="white oak", thickness="10 mm", moisture="99 %")), "thin moisture"),
    (a_stand(own_stock={"tier 9": THIN}), "own_stock['tier 9']"),
    (a_stand(own_stock=THIN), "own_stock"),
    (
        a_stand(own_stock={"left side rail": oak("25 mm")}),
        "own_stock['left side rail'] thickness",
    ),
    (a_stand(loads=[Load(on="attic", mass="1 kg")]), "load 1 on"),
    (a_stand(loads=[Load(on=["lid"])]), "load 1 on"),
    (a_stand(loads=[Load(on="lid", mass="0 kg")]), "load 1 mass"),
    (a_stand(loads=[Load(on="lid", mass=1.0)]), "load 1 mass"),
    (a_stand(loads=[Load(on="lid", footprint="9 cm")]), "load 1 footprint"),
    (a_stand(loads=[Load(on="lid", footprint=("9 cm", 9))]), "load 1 footprint depth"),
    (a_stand(loads=[Load(on="lid", centre_height="-1 mm")]), "load 1 centre_height"),
    (a_stand(loads=["pot"]), "load 1"),
    (a_stand(loads=7), "loads"),
    (a_stand(profiles=[EdgeProfile(on="tier 7", edges=[TOP_FRONT])]), "profile 1 on"),
    (a_stand(profiles=[EdgeProfile(on="tiers", edges=[])]), "profile 1 edges"),
    (a_stand(profiles=[EdgeProfile(on="tiers", edges=["front"])]), "profile 1 edges"),
    (a_stand(profiles=[EdgeProfile(on="tiers", edges=[TOP_BACK])]), "profile 1 edges"),
    (a_stand(profiles=[EdgeProfile(on="rails", edges=[OUTER_TOP])]), "profile 1 edges"),
    (a_stand(profiles=[EdgeProfile(on="lid", edges=[UNDER_FRONT])]), "profile 1 edges"),
    (
        a_stand(profiles=[EdgeProfile(on="tiers", edges=[TOP_FRONT], radius="40 mm")]),
        "profile 1 radius",
    ),
    (
        a_stand(
            tiers=[Tier(width="102 mm", depth="90 mm", rise="90 mm")],
            profiles=[EdgeProfile(on="tier 1", edges=[TOP_LEFT], radius="3 mm")],
        ),
        "profile 1 edges",
    ),
    (
        a_stand(
            post_strips=PostStrips(count=2),
            profiles=[EdgeProfile(on="post strip 1", edges=[TOP_FRONT])],
        ),
        "profile 1 edges",  # lies against the other strip
    ),
    (
        by_uprights(
            post_proud="0 mm", profiles=[EdgeProfile(on="left upright", edges=[TOP_RIGHT])]
        ),
        "profile 1 edges",  # the top tier's dado is open there
    ),
    (
        by_uprights(profiles=[EdgeProfile(on="left upright", edges=[LOWER_FRONT])]),
        "profile 1 edges",  # the side rail ends there
    ),
    (a_stand(profiles=3), "profiles"),
    (a_stand(shown="mm"), "shown"),
    (a_stand(name=""), "name"),
    (a_stand(bace_width="300 mm"), "bace_width"),
    (a_stand(tiers=[Tier(widht="9 cm")]), "tier 1 widht"),
    (a_stand(rough_length="-1 mm"), "rough_length"),
    (a_stand(back_rail=BackRail(let_in="11 mm")), "back_rail.let_in"),
    (a_stand(back_rail=BackRail(let_in="-1 mm")), "back_rail.let_in"),
    (a_stand(back_rail=BackRail(let_in="1 mm")), "back_rail.let_in"),
    (a_stand(back_rail=BackRail(let_in="7 mm")), "back_rail.let_in"),  # filler 3 mm wide
    (a_stand(back_rail=BackRail(letin="4 mm")), "back_rail.letin"),
    (a_stand(back_rail="a rail"), "back_rail"),
    (
        a_stand(back_rail=BackRail(let_in="4 mm"), post_strips=PostStrips(count=4)),
        "back_rail.let_in",
    ),
    (a_stand(back_rail=BackRail(), post_width="230 mm"), "post_width"),
    (a_stand(back_rail=BackRail(), base_depth="95 mm"), "base_depth"),
    (a_stand(back_rail=BackRail(), dowels=Dowels()), "dowels"),
    (by_uprights(back_rail=BackRail()), "back_rail"),
    (a_stand(prefinish=Prefinish(coats=0)), "prefinish.coats"),
    (a_stand(prefinish=Prefinish(coats=2, film="2 mm")), "prefinish.film"),
    (a_stand(hardware=[Hardware(name="pad", on="post", quantity=0)]), "hardware 1 quantity"),
    (a_stand(hardware=[Hardware(name="pad", on="post", diameter="0 mm")]), "hardware 1 diameter"),
    (a_stand(bottom_fixing=BottomFixing.PINNED), "bottom_fixing"),
    (
        a_stand(
            lid_fixing=LidFixing.CLEATS,
            cleats=Cleats(screw=Screw(diameter="6 mm", length="15 mm")),
        ),
        "cleats.screw.diameter",
    ),
    (
        a_stand(
            lid_fixing=LidFixing.CLEATS,
            cleats=Cleats(screw=Screw(diameter="4 mm", length="30 mm")),
        ),
        "cleats.screw.length",
    ),
    (by_uprights(post_width="100 mm"), "post_width"),
    (by_uprights(uprights=Uprights(depth="30 mm")), "uprights.depth"),
    (by_uprights(uprights=Uprights(depth="190 mm")), "uprights.depth"),
    (by_uprights(uprights=Uprights()), "uprights.depth"),
    (by_uprights(uprights=Uprights(depth="120 mm", stop="2 mm")), "uprights.stop"),
    (by_uprights(uprights=Uprights(depth="120 mm", stop="90 mm")), "uprights.stop"),
    (by_uprights(uprights=Uprights(depth="120 mm", bit_radius="6 mm")), "uprights.bit_radius"),
    (by_uprights(uprights=2), "uprights"),
    (
        by_uprights(uprights=Uprights(depth="120 mm", dado_ends=DadoEnds.THROUGH)),
        "tiers.step_back_depth",
    ),
    (by_uprights(tiers=rule()), "tiers.width"),
    (by_uprights(tiers=rule(width=None, depth="50 mm")), "tiers.depth"),
    (by_uprights(base_depth="90 mm"), "base_depth"),
    (a_box(height="0 mm"), "height"),
    (a_box(height="28 mm", bottom=THIN), "height"),
    (a_box(width="60 mm"), "width"),
    (a_box(finger_size="200 mm"), "finger_size"),
    (a_box(finger_hold="handle"), "finger_hold"),
    (a_box(depth="80 mm", finger_size="23.5 mm"), "finger_size"),
    (a_box(rails=oak("7 mm"), rabbet_width=None), "rails thickness"),
    (a_box(profiles=[EdgeProfile(on="rails", edges=[OUTER_TOP])]), "profile 1 edges"),
    (a_box(loads=[Load(on="bottom", mass="1 kg")]), "load 1 on"),
    (a_box(feet=Feet(stock=THIN, length="90 mm")), "feet.length"),
    (a_box(feet=Feet(stock=THIN, inset="14 mm")), "feet.inset"),
    (a_box(ballast=Ballast(mass="1 kg"), bottom=None), "bottom"),
    (a_box(lid_fixing=LidFixing.GLUED, finger_hold=FingerHold.BORE), "finger_hold"),
    (a_box(lid_fixing=LidFixing.CLEATS, cleats=Cleats(width="90 mm")), "cleats.width"),
    (a_box(vents=[Vent(on="lid", count=3, spacing="9 mm")]), "vent 1 spacing"),
    (a_box(vents=[Vent(on="front rail", count=0)]), "vent 1 count"),
    (a_box(openings=[Opening(on="front rail", size="99 mm")]), "opening 1 size"),
]


EACH_BAD = pytest.mark.parametrize(
    ("design", "parameter"), BAD, ids=[f"{number}-{name}" for number, (_, name) in enumerate(BAD)]
)


def plain_name(parameter: str) -> str:
    """A parameter without the stock's own name in brackets."""
    return re.sub(r" \([^)]*\)", "", parameter)


@EACH_BAD
def test_the_right_parameter_is_named(design: Any, parameter: str) -> None:
    """A refusal names the parameter at fault and says every part of what a maker needs."""
    problems = problems_of(design)
    assert parameter in [plain_name(problem.parameter) for problem in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        assert "nan" not in str(problem).lower().replace("float('nan", "").replace("given nan", "")
        assert "inf " not in str(problem.allowed)


def changed(design: Any, parameter: str, text: str) -> Any:
    """The design with one parameter, named as refusals name it, set to a text."""
    told = plain_name(parameter)
    one = re.match(r"([a-z]+(?: [a-z]+)?) (\d+) ", told)
    if one is not None:  # `load 2 mass` is the mass of the second of `loads`
        several = {"hardware": "hardware", "hung": "hung"}.get(
            one[1], one[1].replace(" ", "_") + "s"
        )
        told = f"{several}[{int(one[2]) - 1}].{told[one.end() :]}"
    sides = {" width": "[0]", " depth": "[1]"}
    for side, index in sides.items():
        told = told.replace(f"footprint{side}", f"footprint{index}")
    steps = re.findall(r"[a-z_]+|\[\d+\]|\['[^']+'\]", told)
    return _with(design, steps, text)


def _with(holder: Any, steps: list[str], text: str) -> Any:
    if not steps:
        return int(text) if text.isdigit() else text
    step, rest = steps[0], steps[1:]
    if step.startswith("['"):
        return {**holder, step[2:-2]: _with(holder.get(step[2:-2], oak("20 mm")), rest, text)}
    if step.startswith("["):
        index = int(step[1:-1])
        return type(holder)(_with(e, rest, text) if i == index else e for i, e in enumerate(holder))
    given = {f.name: getattr(holder, f.name) for f in dataclasses.fields(holder)}
    given[step] = _with(given[step], rest, text)
    return type(holder)(**given)


def problems_left(design: Any) -> list[str]:
    """The parameters that a design still has wrong; none when it builds."""
    try:
        design.build()
    except DesignError as error:
        return [plain_name(problem.parameter) for problem in error.problems]
    return []


def stated(problem: Problem) -> str | None:
    """The figure that a remedy states, if it is one."""
    found = re.match(
        r"(?:make it|use rails) (-?\d[\d./]*(?: \d+/\d+)?(?: mm| in)?)", problem.remedy
    )
    return found[1].strip() if found else None


@EACH_BAD
def test_the_stated_remedy_works(design: Any, parameter: str) -> None:
    """Set to the figure that the remedy states, a parameter is no longer refused."""
    for problem in problems_of(design):
        text = stated(problem)
        if text is None:
            continue
        left = problems_left(changed(design, problem.parameter, text))
        assert plain_name(problem.parameter) not in left


@EACH_BAD
def test_the_stated_remedy_is_the_smallest(design: Any, parameter: str) -> None:
    """A tenth of a millimetre short of the stated figure is still refused."""
    for problem in problems_of(design):
        text = stated(problem)
        given = re.fullmatch(r"'?(-?[\d.]+) mm'?", problem.given)
        if text is None or given is None or not text.endswith("mm"):
            continue
        nearest, was = float(text.removesuffix("mm")), float(given[1])
        short = nearest - 0.11 if was < nearest else nearest + 0.11
        left = parameters_named(changed(design, problem.parameter, f"{short:.2f} mm"))
        assert plain_name(problem.parameter) in [plain_name(name) for name in left]


def test_all_problems_are_reported_at_once() -> None:
    """Eight mistakes in one script are eight problems in one message, each in full."""
    design = a_stand(
        base_width=300,
        base_depth="deep",
        base_height="-80 mm",
        dado_depth="15 mm",
        flush_allowance="9 mm",
        tiers=rule(rise="10 mm"),
        loads=[Load(on="attic", mass="1 kg", footprint=("1 cm", "1 cm"), centre_height="1 mm")],
        profiles=[EdgeProfile(on="tiers", edges=[TOP_BACK])],
        colour="red",
    )
    with pytest.raises(DesignError) as caught:
        design.build()
    named = {problem.parameter for problem in caught.value.problems}
    assert named == {
        "base_width", "base_depth", "base_height", "dado_depth", "flush_allowance", "tiers.rise",
        "load 1 on", "profile 1 (tiers) edges", "colour",
    }  # fmt: skip
    text = str(caught.value)
    assert all(name in text for name in named)
    assert "write '300 mm' if you mean it" in text


def test_figures_in_messages_are_in_the_piece_s_unit() -> None:
    """A design in inches is refused in inches, and the stated fraction works."""
    design = a_box(
        rails=Stock(species="black cherry", thickness="3/4 in"),
        lid=Stock(species="black cherry", thickness="3/8 in"),
        width="12 in", depth="8 in", height="1/2 in", rabbet_width="3/8 in",
        flush_allowance="1/64 in", lid_gap_along="1/64 in", lid_gap_across="1/16 in",
        finger_size="1 in", shown=inches(64),
    )  # fmt: skip
    (problem,) = problems_of(design)
    assert problem.given == "'1/2 in'"
    # 3/8 lid + 1/64 planed + 12 mm below = 0.8630 in, and 56/64 = 0.875 is the next 64th.
    assert problem.remedy == "make it 7/8 in"
    changed(design, "height", "7/8 in").build()


@pytest.mark.parametrize("kind", [SteppedStand, MitredBox])
def test_an_empty_design_names_what_it_needs(kind: type) -> None:
    """Every required parameter is named, and nothing else breaks."""
    named = parameters_named(kind())
    width = "base_width" if kind is SteppedStand else "width"
    assert width in named
    assert len(named) == len(set(named))


def test_an_edge_in_the_open_may_be_shaped() -> None:
    """The outer back corners of a stand on uprights."""
    corners = {
        "left upright": Arris(Face.BACK_SIDE, Face.FACE_EDGE),
        "right upright": Arris(Face.BACK_SIDE, Face.BACK_EDGE),
    }
    profiles = [EdgeProfile(on=on, edges=[edge]) for on, edge in corners.items()]
    assert by_uprights(profiles=profiles).build()


def test_good_designs_are_left_alone() -> None:
    """The designs that the bad ones are made from all build."""
    for design in (
        a_stand(), a_box(), by_uprights(), a_stand(tiers=rule()),
        a_box(finger_hold=FingerHold.BORE), a_stand(thick=THICK, bottom=THIN),
    ):  # fmt: skip
        assert design.build().placed
