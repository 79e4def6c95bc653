"""Answers to a newcomer's designs: each says the real fault, and taken at its word it works."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    Cleats,
    DesignError,
    Dowels,
    EdgeProfile,
    Key,
    LidFixing,
    Load,
    MitredBox,
    Problem,
    Screw,
    Spline,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
    inches,
)
from furniture.pieces import bought_parts
from furniture.units import read_length
from furniture.units.parameters import is_parameters, names_in
from tests.builders.bench import a_box, a_stand, oak, parameters_named, problems_of
from tests.builders.test_bad_input import BAD, changed, plain_name, problems_left

ASH_THICK = Stock(name="ash, thick", species="white ash", thickness="7/8 in", moisture="8 %")
ASH_THIN = Stock(name="ash, thin", species="white ash", thickness="9/16 in", moisture="8 %")
RULE = {"count": 3, "depth": "8 in", "rise": "7 in", "step_back_depth": "1 in"}


def in_inches(**changes: Any) -> SteppedStand:
    """A stand of ash in inches on two uprights, with some of it changed."""
    given: dict[str, Any] = {
        "name": "Ash three",
        "thick": ASH_THICK,
        "thin": ASH_THIN,
        "base_width": "12 in",
        "base_depth": "10 in",
        "base_height": "4 in",
        "uprights": Uprights(depth="5 in", stop="1/2 in"),
        "dowels": Dowels(count=2, diameter="3/8 in", length="1 1/2 in"),
        "post_proud": "1 in",
        "tiers": TierRule(**RULE),
        "shown": inches(32),
    }
    return SteppedStand(**{**given, **changes})


def box_in_mm(**changes: Any) -> MitredBox:
    """A pencil box with walls of 11.5 mm, with some of it changed."""
    walnut = {"species": "walnut", "moisture": "8 %"}
    thin = Stock(name="walnut, panels", thickness="6.2 mm", **walnut)
    given: dict[str, Any] = {
        "rails": Stock(name="walnut, sides", thickness="11.5 mm", **walnut),
        "lid": thin, "bottom": thin,
        "width": "240 mm", "depth": "120 mm", "height": "80 mm",
    }  # fmt: skip
    return MitredBox(**{**given, **changes})


SPLINE = {
    "stock": Stock(name="maple", species="hard maple", thickness="3.1 mm"),
    "between": ("front rail", "left side rail"),
    "into_each": "3 mm", "from_long_point": "9 mm", "width": "50 mm", "start": "12 mm",
}  # fmt: skip


def a_spline(**figures: str) -> Spline:
    """A spline across the left front corner, with some of it changed."""
    return Spline(**{**SPLINE, **figures})


def a_key(**figures: str) -> Key:
    """A key across the left front corner, with some of it changed."""
    given = {"stock": SPLINE["stock"], "between": SPLINE["between"], "depth": "9 mm",
             "start": "30 mm"}  # fmt: skip
    return Key(**{**given, **figures})


def with_rule(**changes: Any) -> SteppedStand:
    """The stand in inches with its rule changed."""
    return in_inches(tiers=TierRule(**{**RULE, **changes}))


def only(design: Any, parameter: str) -> Problem:
    """The one problem of a design, of this parameter."""
    (problem,) = problems_of(design)
    assert plain_name(problem.parameter) == parameter
    return problem


def first_length(text: str) -> str:
    """The first length that a remedy states."""
    found = re.search(r"(?<![\w./])\d[\d./]*(?: \d+/\d+)? (?:mm|in)\b", text)
    assert found is not None, text
    return found[0]


ONE_STEP: list[tuple[Any, str]] = [
    (box_in_mm(corner_parts=[a_spline(into_each="5.75 mm")]), "corner part 1 into_each"),
    (box_in_mm(corner_parts=[a_spline(width="90 mm")]), "corner part 1 width"),
    (box_in_mm(corner_parts=[a_spline(start="79 mm", width="3 mm")]), "corner part 1 start"),
    (
        box_in_mm(corner_parts=[a_spline(from_long_point="5 mm", into_each="5 mm")]),
        "corner part 1 from_long_point",
    ),
    (box_in_mm(corner_parts=[a_key(depth="18 mm")]), "corner part 1 depth"),
    (box_in_mm(corner_parts=[a_key(depth="25 mm")]), "corner part 1 depth"),
    (box_in_mm(corner_parts=[a_key(start="79 mm")]), "corner part 1 start"),
    (
        in_inches(profiles=[EdgeProfile(on="tiers", edges=[TOP_FRONT], radius="1 in")]),
        "profile 1 radius",
    ),
    (with_rule(rise="1/2 in"), "tiers.rise"),
    (with_rule(rise="1/2 in", rise_change="-1/4 in"), "tiers.rise"),
    (with_rule(depth="1 in"), "tiers.depth"),
    (in_inches(base_height="1/2 in"), "base_height"),
    (in_inches(base_height="1 1/16 in"), "base_height"),
    (in_inches(base_height="2 in"), "dowels.diameter"),
    (
        in_inches(loads=[Load(on="tier 3", mass="1 lb", footprint=("15 in", "5 in"),
                              centre_height="3 in")]),
        "load 1 footprint width",
    ),
    (
        in_inches(loads=[Load(on="tier 3", mass="1 lb", footprint=("5 in", "9 in"),
                              centre_height="3 in")]),
        "load 1 footprint depth",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("design", "parameter"), ONE_STEP)
def test_one_change_as_told_and_it_builds(design: Any, parameter: str) -> None:
    """The refusal names one figure; set to the one that is told, the design builds at once."""
    problem = only(design, parameter)
    text = first_length(problem.remedy)
    assert text in problem.allowed
    assert problems_left(changed(design, parameter, text)) == []


MISSING: list[tuple[Any, str]] = [
    (in_inches(base_depth=None), "base_depth"),
    (in_inches(base_height=None), "base_height"),
    (a_stand(post_width=None), "post_width"),
    (a_stand(base_depth=None), "base_depth"),
    (a_stand(base_height=None), "base_height"),
    (with_rule(rise=None), "tiers.rise"),
    (box_in_mm(corner_parts=[Spline(**{**SPLINE, "width": None})]), "corner part 1 width"),
    (box_in_mm(corner_parts=[Spline(**{**SPLINE, "into_each": None})]),
     "corner part 1 into_each"),
]  # fmt: skip


@pytest.mark.parametrize(("design", "parameter"), MISSING)
def test_a_missing_figure_is_told_one_that_builds(design: Any, parameter: str) -> None:
    """The example of a missing figure is worked out from what is known, and builds."""
    problem = only(design, parameter)
    assert problem.given == "nothing"
    found = re.match(r"write '([^']+)'", problem.remedy)
    assert found is not None, problem.remedy
    assert problems_left(changed(design, parameter, found[1])) == []


def test_a_missing_post_may_be_uprights() -> None:
    """Where neither post nor uprights are given, both ways out are said."""
    assert "uprights=Uprights(...)" in only(a_stand(post_width=None), "post_width").remedy


def test_cleats_are_told_of_a_screw_that_is_sold() -> None:
    """A 6.2 mm lid by 6.2 mm cleats takes no screw; thicker cleats take one of 12 mm."""
    problem = only(box_in_mm(lid_fixing=LidFixing.CLEATS), "cleats.stock")
    assert "12 mm" in problem.remedy
    stock = Stock(name="cleats", species="walnut", thickness=first_length(problem.remedy))
    design = box_in_mm(lid_fixing=LidFixing.CLEATS, cleats=Cleats(stock=stock))
    assert problems_left(design) == []
    screw = next(each for each in bought_parts(design.build()) if "screw" in each.name)
    assert screw.length_mm == 12.0


def test_a_screw_that_is_too_long_is_told_one_that_is_sold() -> None:
    """Not 16.9 mm but a length from the shop's shelf."""
    cleats = Cleats(screw=Screw(diameter="4 mm", length="30 mm"))
    problem = only(a_box(lid_fixing=LidFixing.CLEATS, cleats=cleats), "cleats.screw.length")
    length = first_length(problem.remedy)
    assert length == "16 mm"
    better = Cleats(screw=Screw(diameter="4 mm", length=length))
    assert problems_left(a_box(lid_fixing=LidFixing.CLEATS, cleats=better)) == []


def test_the_word_that_was_meant() -> None:
    """`teirs` is tiers, and a load's weight is its mass."""
    profile = EdgeProfile(on="teirs", edges=[TOP_FRONT], radius="1/8 in")
    assert only(in_inches(profiles=[profile]), "profile 1 on").remedy == "write 'tiers'"
    load = Load(on="lid", weight="1 lb", footprint=("4 in", "4 in"), centre_height="1 in")
    assert only(in_inches(loads=[load]), "load 1 weight").remedy == "write mass"


def test_four_splines_with_one_wrong_figure_are_one_problem() -> None:
    """Told once, naming all four."""
    sides = [(end, side) for end in ("front rail", "back rail") for side in ("left", "right")]
    splines = [
        a_spline(name=f"spline {number}", between=(end, f"{side} side rail"), into_each="9 mm")  # type: ignore[arg-type]
        for number, (end, side) in enumerate(sides)
    ]
    with pytest.raises(DesignError) as caught:
        box_in_mm(corner_parts=splines).build()
    text = str(caught.value)
    assert text.startswith("1 problem to mend, then run again\n")
    assert all(f"corner part {at + 1} (spline {at}) into_each" in text for at in range(4))


def test_two_stocks_of_one_name() -> None:
    """Both are named with what they are; called differently, the design builds."""
    same = {"name": "ash", "species": "white ash", "moisture": "8 %"}
    thick, thin = (Stock(thickness=each, **same) for each in ("7/8 in", "9/16 in"))
    problem = only(in_inches(thick=thick, thin=thin), "thin name")
    assert "7/8 in" in problem.why
    assert problem.why.startswith("thick is called")
    found = re.match(r"call it '([^']+)'", problem.remedy)
    assert found is not None
    other = dataclasses.replace(thin, name=found[1])
    assert problems_left(in_inches(thick=thick, thin=other)) == []
    assert problems_left(in_inches(thick=thick, thin=thick)) == []


def test_a_namesake_of_another_species_is_told_by_it() -> None:
    """An own stock that borrows a name: the species tells the two apart."""
    own = Stock(name="ash, thin", species="walnut", thickness="9/16 in", moisture="8 %")
    problem = only(in_inches(own_stock={"tier 1": own}), "own_stock['tier 1'] name")
    assert problem.remedy == "call it 'ash, thin, black walnut'"
    better = dataclasses.replace(own, name="ash, thin, black walnut")
    assert problems_left(in_inches(own_stock={"tier 1": better})) == []


@pytest.mark.parametrize(
    ("design", "parameter"),
    [
        (a_stand(thick=oak("8 mm"), rabbet_width=None, lid_gap_across="4 mm"), "thick thickness"),
        (
            a_stand(own_stock={"post": oak("5 mm")}, dado_depth=None),
            "own_stock['post'] thickness",
        ),
        (
            in_inches(own_stock={"uprights": oak("5 mm")}, dado_depth=None),
            "own_stock['uprights'] thickness",
        ),
    ],
)
def test_the_stock_that_was_given_is_blamed(design: Any, parameter: str) -> None:
    """A stock that is too thin is named by the parameter that gave it, and only that one."""
    named = [plain_name(each) for each in parameters_named(design)]
    assert [each for each in named if each.endswith("thickness")] == [parameter]


def _shown_in_inches(value: Any) -> Any:
    """A design, or anything in one, with its millimetres written as inches."""
    if isinstance(value, str):
        return re.sub(r"(-?\d+(?:\.\d+)?) ?mm$", _as_inches, value)
    if isinstance(value, (list, tuple)):
        return type(value)(_shown_in_inches(each) for each in value)
    if isinstance(value, dict):
        return {key: _shown_in_inches(each) for key, each in value.items()}
    if is_parameters(value):
        given = {name: _shown_in_inches(getattr(value, name)) for name in names_in(value)}
        if "shown" in given and not isinstance(given["shown"], str):
            given["shown"] = inches(64)
        return type(value)(**given)
    return value


def _as_inches(found: re.Match[str]) -> str:
    return f"{float(found[1]) / 25.4:.6f} in"


@pytest.mark.parametrize(
    ("design", "parameter"), BAD, ids=[f"{number}-{name}" for number, (_, name) in enumerate(BAD)]
)
def test_no_millimetre_in_the_answers_of_an_inch_design(design: Any, parameter: str) -> None:
    """All the bad designs, in inches: nothing is told in millimetres, and remedies are read."""
    try:
        _shown_in_inches(design).build()
    except DesignError as error:
        for problem in error.problems:
            if problem.parameter.endswith("species"):
                continue  # sheet goods have millimetres in their own names
            remedy = re.sub(r"did you mean '[^']+ mm'\? else ", "", problem.remedy)
            told = " ".join((problem.allowed, problem.why, remedy))
            assert not re.search(r"\d ?mm\b", told), problem
            assert "~" not in told, problem
            for figure in re.findall(r"make it ([\d /.]+ in)\b", remedy):
                read_length(figure)


def test_two_keys_in_the_same_wood_are_refused() -> None:
    """By hand: a key at 30 mm is as thick as its stock; the next begins where it ends."""
    first, thick = a_key(name="key 1"), read_length(SPLINE["stock"].thickness)
    shared = a_key(name="key 2", start=f"{30 + thick - 0.5:g} mm")
    problem = only(box_in_mm(corner_parts=[first, shared]), "corner part 2 start")
    assert "key 2 where key 1 stands" in problem.given
    clear = a_key(name="key 2", start=f"{30 + thick + 3:g} mm")
    box_in_mm(corner_parts=[first, clear]).build()
    other = dataclasses.replace(shared, between=("back rail", "left side rail"))
    box_in_mm(corner_parts=[first, other]).build()


def test_a_stated_width_goes_before_a_start_that_is_left_out() -> None:
    """As wide as the rails are high: it starts at their lower edge, not above the bottom."""
    full = Spline(**{**SPLINE, "width": "80 mm", "start": None})
    (spline,) = [
        e for e in box_in_mm(corner_parts=[full]).build().placed if e.instance == full.name
    ]
    assert 80.0 in [pytest.approx(each) for each in spline.part.blank.size]
