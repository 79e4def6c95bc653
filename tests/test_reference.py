"""help() and the parameter reference say what a script may write; examples can be copied."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from enum import Enum
from pathlib import Path
from typing import Any

import pytest

import furniture
from exporters.reference import reference_page
from furniture import Bore, Composition, DesignError, GrooveJoint, Stock, cut, join
from furniture.builders.composition import JointWritten
from furniture.builders.own_parts import CutWritten
from furniture.examples import EXAMPLES, MUST_BE_GIVEN
from furniture.joints import Fit, Joint, read_fit
from furniture.parts.cuts import Cut
from furniture.reference import reference
from furniture.units import Reader
from furniture.units.parameters import is_parameters, misspelt_in
from furniture.units.written import read_value
from tests.builders.bench import a_box, a_stand, by_uprights, oak

PAGE = Path(__file__).resolve().parent.parent / "renders" / "parameters.md"
SHOWN = {name: example for examples in EXAMPLES.values() for name, example in examples.items()}
SCRIPT = {
    **vars(furniture),
    "THICK": Stock(name="oak, thick", species="white oak", thickness="19.7 mm"),
    "THIN": Stock(name="oak, thin", species="white oak", thickness="13.4 mm"),
}
NOT_WRITTEN = {"CuttingJob", "Problem", "Driven"}
"""What functions hand back, and what goes into a joint's own figures."""


def test_everything_that_a_script_may_write_has_one_example() -> None:
    kinds = {
        name
        for name in furniture.__all__
        if inspect.isclass(thing := getattr(furniture, name))
        and not issubclass(thing, (Enum, Exception))
    }
    assert kinds - NOT_WRITTEN == set(SHOWN)
    assert sum(len(examples) for examples in EXAMPLES.values()) == len(SHOWN)


@pytest.mark.parametrize("name", SHOWN)
def test_an_example_can_be_copied(name: str) -> None:
    written = eval(SHOWN[name], dict(SCRIPT))
    kind: Any = getattr(furniture, name)
    if isinstance(written, (JointWritten, CutWritten)):
        assert written.kind is kind
        given = dict(written.given)
        if isinstance(written, JointWritten):
            given |= {"into": written.into, "incoming": written.incoming}
        reader = Reader()
        read_value(reader, "", written.kind, given, {Fit: read_fit})
        assert reader.problems == ()
        return
    assert isinstance(written, kind)
    assert not is_parameters(written) or misspelt_in(written) == ()


@pytest.mark.parametrize("name", ["SteppedStand", "MitredBox", "Composition"])
def test_the_example_of_a_whole_piece_builds(name: str) -> None:
    assert eval(SHOWN[name], dict(SCRIPT)).build().placed


def test_help_names_parameters_as_they_are_written() -> None:
    for name in SHOWN:
        kind: Any = getattr(furniture, name)
        if issubclass(kind, (Joint, Cut)):
            names = inspect.signature(kind).parameters
            assert not [each for each in names if each.endswith(("_mm", "_deg"))]
            assert "_mm:" not in kind.__doc__
        assert SHOWN[name] in kind.__doc__
    assert "stop" in inspect.signature(GrooveJoint).parameters
    assert join(GrooveJoint, "a", into="b", stop="5 mm").given == {"stop": "5 mm"}
    assert cut(Bore, diameter="5 mm").given == {"diameter": "5 mm"}


def test_a_parameter_of_a_piece_or_a_shop_says_what_it_is() -> None:
    told = {each.name: each for said in reference(vars(furniture)).values() for each in said}
    silent = [
        f"{name}.{one.name}"
        for name, each in told.items()
        for one in each.parameters
        if not one.means
    ]
    assert silent == []


HELD_BY: dict[str, Callable[[Any], Any]] = {
    "Stock": lambda it: a_box(rails=it),
    "PlacedPart": lambda it: Composition(parts=[it]),
    "Uprights": lambda it: by_uprights(uprights=it),
    "Feet": lambda it: a_box(feet=it),
    "Opening": lambda it: a_stand(openings=it),
    "Vent": lambda it: a_stand(vents=it),
    "Ballast": lambda it: a_box(bottom=oak("10 mm"), ballast=it),
    "Load": lambda it: a_stand(loads=it),
    "Hardware": lambda it: a_stand(hardware=it),
    "EdgeProfile": lambda it: a_stand(profiles=it),
    "TrialCut": lambda it: a_stand(fit=it),
}


@pytest.mark.parametrize(
    ("name", "parameter"), [(name, each) for name, all_ in MUST_BE_GIVEN.items() for each in all_]
)
def test_what_must_be_given_is_refused_when_it_is_left_out(name: str, parameter: str) -> None:
    """As help() and the page have it; a message that names it says so."""
    written = eval(SHOWN[name], dict(SCRIPT))
    given = {each: written._record.values[each] for each in written._record.given}
    del given[parameter]
    with pytest.raises(DesignError) as caught:
        HELD_BY[name](type(written)(**given)).build()
    assert any(parameter in each.parameter for each in caught.value.problems)


def test_a_signature_shows_defaults_as_they_are_written() -> None:
    text = str(inspect.signature(furniture.SteppedStand))
    for shown in ("thick, thin", "fit=SLIP", "own_stock={}", "shown=millimetres()"):
        assert shown in text
    assert str(inspect.signature(GrooveJoint)).startswith('(*, fit=SLIP, gap="0 mm", stop=')


def test_the_page_is_what_the_code_says() -> None:
    """Made anew by `python -m renders.make reference`."""
    assert PAGE.read_text(encoding="utf-8") == reference_page(vars(furniture))
