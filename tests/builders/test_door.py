"""What a maker writes is read as it was meant, or refused once, by name, with what was meant."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from furniture import (
    TOP_BACK,
    TOP_FRONT,
    Ballast,
    Bore,
    Composition,
    DadoJoint,
    DesignError,
    EdgeProfile,
    Face,
    Hardware,
    Lip,
    Load,
    Mortise,
    Opening,
    PlacedPart,
    Spline,
    Stock,
    Tier,
    TierRule,
    Vent,
    cut,
    inches,
    join,
    quantity,
)
from furniture.builders.ballast import LEAD_KG_MM3
from furniture.pieces import Note, bought_parts
from tests.builders.bench import THICK, THIN, a_box, a_stand, parameters_named, problems_of
from tests.checks.of_piece_cases import found

BOARD = PlacedPart(name="back", stock=THICK, length="300 mm", width="200 mm")
LOAD = Load(on="tier 1", mass="1 kg", footprint=("50 mm", "50 mm"), centre_height="40 mm")


def a_piece(**changes: Any) -> Composition:
    """A board of a maker's own with some of it changed."""
    return Composition(**{"parts": [BOARD], **changes})


@pytest.mark.parametrize(
    ("name", "one"),
    [
        ("openings", Opening(on="lid", size="20 mm", flange="24 mm")),
        ("vents", Vent(on="front rail", count=2)),
        ("hardware", Hardware(name="felt pad", on="rails")),
        ("profiles", EdgeProfile(on="tiers", edges=TOP_FRONT)),
        ("loads", LOAD),
        ("lips", Lip(on="tier 1")),
    ],
)
def test_a_lone_value_is_one_and_nothing_is_none(name: str, one: object) -> None:
    alone = a_stand(**{name: one}).build()
    listed = a_stand(**{name: [one]}).build()
    without = a_stand(**{name: None}).build()
    assert alone.placed == listed.placed
    assert (alone.notes, bought_parts(alone)) == (listed.notes, bought_parts(listed))
    assert without.placed == a_stand().build().placed


def test_the_lists_of_a_composition_take_a_lone_value_too() -> None:
    assert a_piece(notes="seal it").build().notes == (Note("seal it"),)
    assert a_piece(notes=None, joints=None, corner_parts=None, hardware=None).build().placed
    assert a_piece(parts=BOARD).build().placed == a_piece().build().placed
    spline = Spline(name="key", stock=THIN, between=("a", "b"), start="1 mm")
    assert "corner part 1 between" in parameters_named(a_piece(corner_parts=spline))
    assert a_stand(tiers=Tier(width="200 mm", depth="100 mm", rise="150 mm")).build().placed


@pytest.mark.parametrize(
    ("changes", "parameter"),
    [
        ({"shown": "mm"}, "shown"),
        ({"notes": 5}, "notes"),
        ({"notes": ["good", 5]}, "note 2"),
        ({"notes": ["good", "seal it " * 40]}, "note 2"),
        ({"name": "x" * 300}, "name"),
        ({"name": "shelf \x1b[31m"}, "name"),
        ({"name": "shelf \ud800"}, "name"),
        ({"name": np.array(["a", "b"])}, "name"),
        ({"parts": [replace(BOARD, name="x" * 81)]}, "part 1 name"),
        ({"parts": [replace(BOARD, name="a\nb")]}, "part 1 name"),
        ({"parts": [replace(BOARD, name=["a"])]}, "part 1 name"),
        ({"stance": np.array([1, 2])}, "stance"),
        ({"joints": [join("stopped dado", "a", into="back")]}, "joint 1 kind"),  # type: ignore[arg-type]
        ({"hardware": Hardware(name="x" * 81, on="back")}, "hardware 1 name"),
    ],
)
def test_a_composition_names_the_parameter(changes: Any, parameter: str) -> None:
    assert parameters_named(a_piece(**changes)) == [parameter]


def test_a_joint_written_as_text_is_told_its_class() -> None:
    (problem,) = problems_of(a_piece(joints=[join("stopped dado", "a", into="b")]))  # type: ignore[arg-type]
    assert problem.remedy == "write StoppedDadoJoint"


def test_a_joint_of_misspelt_parts_is_told_the_near_ones() -> None:
    (problem,) = problems_of(a_piece(joints=[join(DadoJoint, "back", into="bakc")]))
    assert problem.remedy == "write 'back'"


@pytest.mark.parametrize("times", [1, 2])
def test_a_cut_with_a_misspelt_figure_is_one_problem(times: int) -> None:
    bore = cut(Bore, fase=Face.FACE_SIDE, x="40 mm", y="40 mm", diameter="8 mm")
    found = problems_of(a_piece(parts=[replace(BOARD, cuts=[bore] * times)]))
    assert [each.parameter for each in found] == [
        f"back: cut {index + 1} (bore) fase" for index in range(times)
    ]
    assert {each.remedy for each in found} == {"write face"}


def test_what_is_given_already_is_not_what_a_misspelt_name_meant() -> None:
    slot = cut(
        Mortise, face=Face.FACE_SIDE, first_at="40 mm", first_size="20 mm", second_at="40 mm",
        width="8 mm", depth="6 mm",
    )  # fmt: skip
    found = problems_of(a_piece(parts=[replace(BOARD, cuts=slot)]))
    assert [(each.parameter.split()[-1], each.remedy.partition("(")[0]) for each in found] == [
        ("width", "leave it out"),
        ("second_size", "write it as in cut"),
    ]
    (twice,) = problems_of(a_stand(tiers=TierRule(count=2, dept="1 mm", width="300 mm",
                                                  depth="150 mm", rise="150 mm")))  # fmt: skip
    assert twice.remedy == "leave it out"


def test_a_cut_without_its_face_is_told_what_is_missing() -> None:
    bore = cut(Bore, x="40 mm", y="40 mm", diameter="8 mm")
    named = parameters_named(a_piece(parts=[replace(BOARD, cuts=bore)]))
    assert named == ["back: cut 1 (bore) face"]


def test_a_cut_written_as_text_is_told_its_class() -> None:
    (problem,) = problems_of(a_piece(parts=[replace(BOARD, cuts=cut("bore", x="1 mm"))]))  # type: ignore[arg-type]
    assert problem.remedy == "write cut(Bore, ...)"


@pytest.mark.parametrize(
    ("thin", "parameter"),
    [
        (Stock(name="thin", species="white oak", thickness="19.7 in"), "thin (thin) thickness"),
        (Stock(name="thin", species="white oak", thickness=10), "thin (thin) thickness"),
        (Stock(name="thin", species="white oak", thickness="10 mm", moisture="90 %"),
         "thin (thin) moisture"),
        (Stock(name="thin", species="oak", thickness="10 mm"), "thin (thin) species"),
        (Stock(name=5, species="white oak", thickness="10 mm"), "thin name"),  # type: ignore[arg-type]
        (Stock(name=None, species="white oak", thickness="10 mm"), "thin name"),  # type: ignore[arg-type]
        (Stock(name=["a"], species="white oak", thickness="10 mm"), "thin name"),  # type: ignore[arg-type]
        (Stock(name="a\x07", species="white oak", thickness="10 mm"), "thin name"),
        (Stock(name="t", species="white oak", thickness="10 mm", price="-5 EUR"), "thin (t) price"),
        (Stock(name="t", species="white oak", thickness="10 mm", price=[1, 2]), "thin (t) price"),  # type: ignore[arg-type]
    ],
)  # fmt: skip
def test_a_stock_that_cannot_be_read_is_one_problem(thin: Stock, parameter: str) -> None:
    """Ballast, lips, loads and profiles of the same design are not refused as well."""
    design = a_stand(
        thin=thin, bottom=THIN, loads=[LOAD], lips=[Lip(on="tier 1")],
        profiles=[EdgeProfile(on="lid", edges=[TOP_FRONT])],
        ballast=Ballast(mass="1 kg", from_front="60 mm", from_left="100 mm"),
    )  # fmt: skip
    assert parameters_named(design) == [parameter]


@pytest.mark.parametrize("count", ["4", "four", 4.5, None, 0, 21])
def test_a_count_that_cannot_be_read_is_one_problem(count: Any) -> None:
    design = a_stand(
        tiers=TierRule(count=count, width="200 mm", depth="100 mm", rise="100 mm"),
        openings=Opening(on="tiers", size="12 mm"),
        loads=LOAD,
        profiles=EdgeProfile(on="tier 1", edges=[TOP_FRONT]),
    )
    (problem,) = problems_of(design)
    assert problem.parameter == "tiers.count"
    assert count != "4" or problem.remedy == "make it 4"


def test_no_message_points_to_itself() -> None:
    """Two long lists of one parameter: the second says so without naming itself."""
    design = a_stand(
        lips=[Lip(on="tier 1"), Lip(on="tier 2")],
        profiles=[EdgeProfile(on="tiers", edges=[TOP_FRONT, TOP_BACK])],
    )
    with pytest.raises(DesignError) as caught:
        design.build()
    for told in re.split(r"\n  (?=\S)", str(caught.value)):
        name = told.split(": given")[0]
        assert f"the same as for {name}" not in told
        assert "make it \n" not in f"{told}\n"


@pytest.mark.parametrize(
    ("given", "meant"),
    [("320 in", "320 mm"), ("26000 mm", None), ("2600 cm", None), ("2650 cm", None),
     ("32 mm", "32 cm"), ("3200 cm", None), ("280 cm", "280 mm")],
)  # fmt: skip
def test_a_slip_of_the_unit_is_suspected(given: str, meant: str | None) -> None:
    problem = problems_of(a_stand(base_width=given))[0]
    assert problem.parameter == "base_width"
    asked = re.match(r"did you mean '([^']+)'\? else make it", problem.remedy)
    assert (asked and asked[1]) == meant
    if meant is not None:
        a_stand(base_width=meant).build()


def test_a_slip_of_the_unit_is_suspected_in_inches_and_of_masses() -> None:
    thick = Stock(name="s", species="white oak", thickness="20 in")
    (first, *_) = problems_of(a_stand(thick=thick, shown=inches(64)))
    assert first.remedy.startswith("did you mean '20 mm'? else ")
    heavy = replace(LOAD, mass="700 kg")
    (problem,) = problems_of(a_stand(loads=heavy))
    assert problem.remedy.startswith("did you mean '700 g'? else ")
    light = replace(LOAD, mass="0.7 g")
    (problem,) = problems_of(a_stand(loads=light))
    assert problem.remedy.startswith("did you mean '0.7 kg'? else ")


def test_a_figure_a_little_out_of_range_is_no_slip_of_the_unit() -> None:
    (problem,) = problems_of(a_stand(base_width="1210 mm"))
    assert problem.remedy == "make it 1200 mm"


@pytest.mark.parametrize("mass", ["1e300 kg", "1e9 kg", "700 kg", "301 kg", "0 kg", "-1 kg"])
def test_a_load_has_a_mass_that_such_a_piece_may_carry(mass: str) -> None:
    assert parameters_named(a_stand(loads=replace(LOAD, mass=mass))) == ["load 1 mass"]


@pytest.mark.parametrize("name", [5, ["a"], np.array([1, 2]), "x" * 81, "a\x00"])
def test_a_load_is_named_in_text(name: Any) -> None:
    assert parameters_named(a_stand(loads=replace(LOAD, name=name))) == ["load 1 name"]


def test_ballast_is_no_denser_than_lead_and_the_size_that_is_told_would_do() -> None:
    """By hand: 3 kg in 220 x 80 x 8 mm are 21 g/cm3, lead has 11.34."""
    slip = Ballast(mass="3 kg", size=("220 mm", "80 mm", "8 mm"))
    (problem,) = problems_of(a_stand(bottom=THIN, ballast=slip))
    assert problem.parameter == "ballast.size"
    size = tuple(re.findall(r"'([^']+)'", problem.remedy))
    piece = a_stand(bottom=THIN, ballast=Ballast(mass="3 kg", size=size)).build()
    (body,) = piece.fixed
    width, depth, height = body.size_mm
    assert width * depth * height * LEAD_KG_MM3 + 1e-9 >= 3.0
    told = re.search(r"make its mass ([\d.]+ kg)", problem.remedy)
    assert told
    assert a_stand(bottom=THIN, ballast=replace(slip, mass=told[1])).build().fixed


@pytest.mark.parametrize("size", [None, ("90 mm", "90 mm", "9 mm")])
def test_ballast_that_no_size_in_the_box_holds_is_told_the_most_that_goes_in(size: Any) -> None:
    (problem,) = problems_of(a_stand(bottom=THIN, ballast=Ballast(mass="200 kg", size=size)))
    assert problem.parameter == "ballast.mass"
    most = Ballast(mass=problem.remedy.removeprefix("make it "), size=size)
    if size is None:
        assert a_stand(bottom=THIN, ballast=most).build().fixed
    else:  # the size is told next, since it is too small for so much
        assert parameters_named(a_stand(bottom=THIN, ballast=most)) == ["ballast.size"]


@pytest.mark.parametrize("mass", ["10 g", "0.3 kg", "1 kg", "2.8 kg", "4 kg"])
def test_ballast_without_a_size_has_that_of_steel_plates_and_lies_in_the_box(mass: str) -> None:
    piece = a_stand(bottom=THIN, ballast=Ballast(mass=mass)).build()
    (body,) = piece.fixed
    width, depth, height = body.size_mm
    # steel 7.85 g/cm3, a fifth of air: no denser, and no box half empty
    assert body.mass_kg / (width * depth * height) <= 7.85e-6 * 0.8 + 1e-12
    assert min(body.size_mm) >= 5.0


def test_a_copy_keeps_what_was_given_and_what_was_misspelt() -> None:
    stand = a_stand(base_wdith="300 mm")
    copied = replace(stand, base_depth="210 mm")
    assert parameters_named(copied) == ["base_wdith"]
    assert parameters_named(replace(a_stand(), base_wdith="1 mm")) == ["base_wdith"]
    from furniture.units import is_given

    rule = TierRule(count=3, width="200 mm", depth="100 mm", rise="100 mm")
    wider = replace(rule, width="210 mm")
    assert not is_given(wider, "rise_change")
    assert is_given(wider, "width")
    assert is_given(replace(rule, rise_change="1 mm"), "rise_change")
    assert replace(rule) == rule


@pytest.mark.parametrize("moisture", ["6 %", "8 %", "12 %"])
def test_the_usual_gap_of_a_bottom_meets_its_own_check(moisture: str) -> None:
    """The lid at 10 %, the bottom at another: its gap follows its own stock."""
    lid = Stock(name="lid", species="white oak", thickness="10 mm", moisture="10 %")
    own = Stock(name="bottom", species="white oak", thickness="10 mm", moisture=moisture)
    given: dict[str, Any] = {"bottom": own, "lid_gap_across": None, "rabbet_width": None}
    for design in (a_stand(thin=lid, **given), a_box(lid=lid, **given)):
        gaps = [each for each in found(design) if each.check.name == "gap of a loose part"]
        assert gaps
        assert all(each.verdict.value == "ok" for each in gaps)
        assert moisture != "8 %" or "bottom" in gaps[0].subject  # the closest of all


def test_an_odd_object_anywhere_is_refused_by_the_parameters_name() -> None:
    array = np.array([1.0, 2.0])
    odd: list[Any] = [array, quantity(array, "mm"), {}, object(), 1e308]
    for value in odd:
        for name in ("base_width", "fit", "tiers", "thick", "bottom_fixing", "shown", "profiles",
                     "loads", "own_stock", "name", "dowels", "feet", "ballast"):  # fmt: skip
            if name == "own_stock" and isinstance(value, dict):
                continue
            named_so = parameters_named(a_stand(**{"fit_clearance": None, name: value}))
            assert any(each.startswith(name) for each in named_so), (name, value, named_so)
