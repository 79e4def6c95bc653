"""Cuts wider than their cutter: pass by pass from the settings, and what a wrong pass leaves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.making.operations import Operation
from furniture.making.settings import Cutter, CutterKind, Guide, Machine, Rig, Trench
from tests.making.hand_made import HandMade, post, rails
from tests.making.made import Made, is_found, model
from tests.making.replay import replay
from tests.making.targets import SAME_MM3, apart_mm3, target_of
from tests.making.test_from_boards import found, from_boards
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

OUT_MM = 0.1


def head(wide_mm: float) -> Rig:
    """A dado head of a width."""
    cutter = Cutter(kind=CutterKind.DADO_HEAD, size_mm=wide_mm)
    return Rig(machine=Machine.TABLE_SAW, cutter=cutter, guide=Guide.SLED)


def several(making: HandMade, key: str, rig: Rig, near_mm: tuple[float, ...]) -> HandMade:
    """The same work with one cut in several passes."""
    operations = tuple(
        replace(each, rig=rig, near_mm=near_mm) if each.key == key else each
        for each in making.operations
    )
    return HandMade(making.workpieces, operations)


def worst(making: HandMade) -> float:
    """How far the part that came out worst is from what it should be [mm3]."""
    target = target_of(piece_of("herb_stand"))
    return max(apart_mm3(solid, target.parts[name]) for name, solid in replay(making).parts.items())


DADO, RABBET = "post: dado c", "strip: rabbet at the back edge"
SHIFTS = (0.0, 13.53 - 6.4 - 2.0, 13.53 - 6.4)
"""Three passes of 6.4 mm for a dado of 13.53."""
SHOWS = (6.4, 13.9)
"""Two passes of a head of 13.5 for a rabbet of 13.9: it is 0.4 mm too narrow for one."""


def test_passes_of_one_head_make_a_wider_dado_and_a_wider_rabbet() -> None:
    assert worst(several(post(), DADO, head(6.4), SHIFTS)) < SAME_MM3
    assert worst(several(rails(), RABBET, head(13.5), SHOWS)) < SAME_MM3


@pytest.mark.some(few=2)
@pytest.mark.parametrize(
    ("near_mm", "least_mm3"),
    [
        ((OUT_MM, *SHIFTS[1:]), 76.0),
        ((*SHIFTS[:2], SHIFTS[2] + OUT_MM), 76.0),
        (SHIFTS[:2], 1000.0),
        (SHIFTS[1:], 1000.0),
        ((SHIFTS[0], SHIFTS[2]), 500.0),
        ((0.0, 6.5, SHIFTS[2]), 76.0),
    ],
)
def test_a_wrong_pass_of_a_dado_is_found(near_mm: tuple[float, ...], least_mm3: float) -> None:
    """A wall 0.1 mm out is 0.1 x 7 x 110 = 77 mm3; two passes leave 13.53 - 12.8 = 0.73 mm."""
    assert worst(several(post(), DADO, head(6.4), near_mm)) > least_mm3


@pytest.mark.some(few=2)
@pytest.mark.parametrize("near_mm", [(6.4, 14.0), (6.4, 13.8), (13.9,), (6.4,), (0.3, 13.9)])
def test_a_wrong_pass_of_a_rabbet_is_found(near_mm: tuple[float, ...]) -> None:
    """0.1 x 10 mm over the shortest rail is 105 mm3; a fin of 0.4 is four times as much."""
    assert worst(several(rails(), RABBET, head(13.5), near_mm)) > 85.0


def wrong_passes(operation: Operation) -> list[tuple[float, ...]]:
    """Passes with a wall that is a tenth out, and with one of them left out.

    A pass between two others may move: they overlap.
    """
    near, setting = operation.near_mm, operation.setting
    assert isinstance(setting, Trench)
    wrong = [(*near[:-1], near[-1] + by) for by in (OUT_MM, -OUT_MM)]
    if setting.near_mm > 0.0:
        wrong += [(near[0] + by, *near[1:]) for by in (OUT_MM, -OUT_MM)]
    return [*wrong, *(near[:at] + near[at + 1 :] for at in range(len(near)))]


def with_passes(whole: Made, key: str, near_mm: tuple[float, ...]) -> HandMade:
    """The making with other passes of one operation."""
    return HandMade(
        whole.making.workpieces,
        tuple(
            replace(each, near_mm=near_mm) if each.key == key else each
            for each in whole.making.operations
        ),
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_wrong_pass_of_a_model_is_found(name: str) -> None:
    """But of what a chisel ends: it hides what the cutter has left."""
    whole, known = from_boards(name)[0], found(name)
    for each in whole.making.operations:
        if each.near_mm and not each.begins:
            for near_mm in wrong_passes(each):
                if near_mm:
                    assert is_found(whole, with_passes(whole, each.key, near_mm), known), near_mm


def test_a_model_has_a_cut_of_several_passes() -> None:
    assert any(each.near_mm for name in NAMES for each in model(name).making.operations)
