"""Public functions say their arguments, their units and where their formula comes from."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator
from importlib import import_module
from pkgutil import walk_packages

import pytest

import furniture.checks
import furniture.making.bench
import furniture.shop.tools
import furniture.timber


def _functions() -> Iterator[tuple[str, Callable[..., object]]]:
    packages = (
        furniture.checks, furniture.making.bench, furniture.shop.tools, furniture.timber,
    )  # fmt: skip
    for package in packages:
        for info in walk_packages(package.__path__, f"{package.__name__}."):
            module = import_module(info.name)
            for name, thing in inspect.getmembers(module, inspect.isfunction):
                if thing.__module__ == module.__name__ and not name.startswith("_"):
                    yield f"{info.name}.{name}", thing


_ALL = dict(_functions())


def _arguments(text: str) -> dict[str, str]:
    """The documented arguments and their words."""
    block = re.search(r"Args:\n(.*?)(?:\n\s*\n|\Z)", text, re.DOTALL)
    if block is None:
        return {}
    found: dict[str, str] = {}
    name = ""
    for line in block[1].splitlines():
        start = re.match(r"\s*(\w+): (.*)", line)
        if start and len(line) - len(line.lstrip()) <= 8:
            name = start[1]
            found[name] = start[2]
        elif name:
            found[name] += " " + line.strip()
    return found


def _takes_numbers(function: Callable[..., object]) -> bool:
    parameters = inspect.signature(function).parameters.values()
    return any("float" in str(parameter.annotation) for parameter in parameters)


@pytest.mark.parametrize("name", _ALL)
def test_arguments_match_the_signature(name: str) -> None:
    function = _ALL[name]
    text = inspect.getdoc(function)
    assert text, "no docstring"
    documented = _arguments(text)
    if documented or _takes_numbers(function):
        assert list(documented) == list(inspect.signature(function).parameters)


@pytest.mark.parametrize("name", _ALL)
def test_numbers_have_units(name: str) -> None:
    function = _ALL[name]
    documented = _arguments(inspect.getdoc(function) or "")
    for argument, parameter in inspect.signature(function).parameters.items():
        if "float" in str(parameter.annotation):
            assert re.search(r"\[.+?\]", documented[argument]), argument


@pytest.mark.parametrize("name", [name for name, each in _ALL.items() if _takes_numbers(each)])
def test_formulas_name_their_source(name: str) -> None:
    text = inspect.getdoc(_ALL[name]) or ""
    told = ("**Source:**", "Common practice", "common practice", "Own rule", "own rule")
    assert any(words in text for words in told)
