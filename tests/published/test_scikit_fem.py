"""A notched post as a solid plate: stress behind its dado and its sway, by scikit-fem."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.beams import Support
from furniture.checks.post import Post, PostLoad, Waist, waist_stress_mpa
from furniture.checks.sections import Rectangle, axial_stress_mpa
from furniture.checks.spans import PointLoad, Span, Stretch, greatest_deflection_mm
from furniture.timber.species import find_species
from tests.published.case import Case, How, Source, from_source
from tests.published.plates import E_MPA, NotchedPost, solved

_PUSHED = NotchedPost(
    height_mm=300.0,
    thickness_mm=24.0,
    width_mm=90.0,
    notch_at_mm=120.0,
    notch_height_mm=16.0,
    notch_depth_mm=8.0,
    push_n=50.0,
)
_DEEP = replace(_PUSHED, notch_depth_mm=12.0)
_TALL_NOTCH = replace(_PUSHED, notch_height_mm=60.0)
_PRESSED = replace(_PUSHED, push_n=0.0, press_n=500.0)


def _ours(plate: NotchedPost) -> float:
    waist = Waist(name="dado", height_mm=plate.notch_at_mm, depth_mm=plate.notch_depth_mm)
    # The press stands over the middle of the whole post, half its thickness behind the face.
    press = PostLoad(
        what="press",
        height_mm=plate.height_mm,
        force_n=plate.press_n,
        before_face_mm=-plate.thickness_mm / 2.0,
    )
    post = Post(
        name="post",
        species=find_species("white oak"),
        width_mm=plate.width_mm,
        thickness_mm=plate.thickness_mm,
        waists=(waist,),
        loads=(press,) if plate.press_n else (),
        push_n=plate.push_n,
        push_height_mm=plate.height_mm,
    )
    return waist_stress_mpa(post, waist)


def _press_at_back() -> float:
    """Our bending less our pressure, which is what stands at the back face under a press."""
    waist = Rectangle(width_mm=90.0, thickness_mm=16.0)
    return _ours(_PRESSED) - 2.0 * axial_stress_mpa(500.0, waist)


def _sway(plate: NotchedPost) -> float:
    low = plate.notch_at_mm - plate.notch_height_mm / 2.0
    left = Rectangle(
        width_mm=plate.width_mm, thickness_mm=plate.thickness_mm - plate.notch_depth_mm
    )
    span = Span(
        support=Support.CANTILEVER,
        length_mm=plate.height_mm,
        section=Rectangle(width_mm=plate.width_mm, thickness_mm=plate.thickness_mm),
        points=(PointLoad(at_mm=plate.height_mm, force_n=plate.push_n),),
        cuts=(Stretch(from_mm=low, to_mm=low + plate.notch_height_mm, section=left),),
    )
    return greatest_deflection_mm(span, E_MPA / 1000.0)


def _stress_case(name: str, plate: NotchedPost, share: float) -> Case:
    return Case(
        id=f"plate-stress-{name}",
        quantity=f"stress at the back of a post behind a dado, {name}",
        place="plane stress, second-order quadrilaterals, 12 through the thickness",
        how=How.LIBRARY,
        expected=lambda: abs(solved(plate, 12).back_stress_mpa),
        unit="MPa",
        tolerance=share * abs(_ours(plate)),
        reason="a beam's straight stress line against the real one beside a sharp notch",
        compute=lambda: _ours(plate),
    )


CASES = from_source(
    Source(title="scikit-fem 12 (solid finite elements)", found="PyPI, scikit-fem"),
    _stress_case("16 mm tall and 8 of 24 mm deep", _PUSHED, 0.04),
    _stress_case("16 mm tall and 12 of 24 mm deep", _DEEP, 0.06),
    Case(
        id="plate-press",
        quantity="stress at the back behind the dado under a press on the whole post's middle",
        place="plane stress, second-order quadrilaterals, 12 through the thickness",
        how=How.LIBRARY,
        expected=lambda: solved(_PRESSED, 12).back_stress_mpa,
        unit="MPa",
        tolerance=0.02,
        reason="4 % of the bending part, as for a push",
        compute=_press_at_back,
    ),
    Case(
        id="plate-sway",
        quantity="sway of the top of a post with a dado 60 mm tall",
        place="plane stress, second-order quadrilaterals, 12 through the thickness",
        how=How.LIBRARY,
        expected=lambda: solved(_TALL_NOTCH, 12).sway_mm,
        unit="mm",
        tolerance=0.08 * 0.7,
        reason="8 %: the wood beside the notch's shoulders lies idle, so it acts longer than it is",
        compute=lambda: _sway(_TALL_NOTCH),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
