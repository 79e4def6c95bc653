"""What help() and an editor show of a set of parameters is what a script writes."""

from __future__ import annotations

import dataclasses
import inspect

import pytest

import furniture
from furniture.units.parameters import names_in

SETS = [
    each
    for name in furniture.__all__
    if inspect.isclass(each := getattr(furniture, name))
    and dataclasses.is_dataclass(each)
    and "_record" in {field.name for field in dataclasses.fields(each)}
]


@pytest.mark.parametrize("parameter_set", SETS)
def test_a_signature_has_every_parameter_with_its_default(parameter_set: type) -> None:
    shown = inspect.signature(parameter_set).parameters
    assert list(shown) == names_in(parameter_set)
    made = parameter_set()
    for name, parameter in shown.items():
        assert parameter.kind is inspect.Parameter.KEYWORD_ONLY
        default = parameter.default
        if default is not inspect.Parameter.empty:
            assert getattr(default, "value", default) == getattr(made, name)


def test_there_are_such_sets() -> None:
    assert len(SETS) > 20
