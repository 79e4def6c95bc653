"""Mis-settings: the whole of what is told of each is kept, and each remedy is taken at its word."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

import furniture
from furniture.builders.composition import joint_kinds
from furniture.joints.joint import Joint
from tests.refusals.cases import BY_HAND, CASES
from tests.refusals.kept import kept_texts
from tests.refusals.scripts import Script, ways

KEPT = kept_texts()


def test_there_are_enough_of_them() -> None:
    assert len(CASES) >= 150
    assert set(KEPT) == set(CASES)
    assert set(BY_HAND) < set(CASES)


@pytest.mark.parametrize("name", CASES)
def test_what_is_told_is_what_is_kept(name: str) -> None:
    """Kept by `python -m tests.refusals.kept`: read what has changed before you keep it."""
    assert _without_joints_of_tests(CASES[name].told) == KEPT[name]


def _without_joints_of_tests(told: str) -> str:
    """What a maker is told, who has none of the joints that other tests in this process write."""
    theirs = [
        each.__name__
        for each in joint_kinds(Joint)
        if not each.__module__.startswith(furniture.__name__)
    ]
    return re.sub(rf", (?:{'|'.join(theirs)})(?=[,.])", "", told) if theirs else told


@pytest.mark.parametrize("name", CASES)
def test_each_remedy_does_what_it_says(name: str) -> None:
    """Every way that a remedy names is taken as it is written; its problem is told no more."""
    script = CASES[name]
    problems = script.problems
    assert problems
    for problem in problems:
        cured: list[Script] = [way(script) for way in ways(problem)]
        if name in BY_HAND:
            cured.append(BY_HAND[name])
        assert cured, f"nothing says how {problem.remedy!r} is done"
        for each in cured:
            told = [(one.parameter, one.why) for one in each.problems]
            assert (problem.parameter, problem.why) not in told, problem


def test_a_remedy_that_does_nothing_is_seen() -> None:
    """A figure that is as wrong as the one before it, in the place of the one that would do."""
    script = CASES["15: base_width"]
    (problem,) = script.problems
    (way,), (useless,) = ways(problem), ways(replace(problem, remedy="make it 2000 mm"))
    assert way(script).problems == ()
    assert [each.why for each in useless(script).problems] == [problem.why]


@pytest.mark.parametrize("name", BY_HAND)
def test_what_the_words_ask_for_is_taken_whole(name: str) -> None:
    assert BY_HAND[name].problems == ()
