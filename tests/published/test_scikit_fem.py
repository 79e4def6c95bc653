"""A notched post as a solid plate: stress behind its dado and its sway, by scikit-fem."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest

from furniture.checks.post import Post, PostLoad, Waist, waist_stress_mpa
from furniture.checks.sections import Rectangle, axial_stress_mpa
from furniture.joints.joint import GrainRelation
from furniture.structure.plate import stiffness_of
from furniture.timber.species import find_species
from tests.published.case import Case, How, Source, from_source
from tests.published.plates import NotchedPost, solved
from tests.structure.bench import oak, sag_of_books, shelf_on_two_sides
from tests.structure.solid import Bookcase
from tests.structure.solid import solved as bookcase

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


def _case(span: float, load_kg: float) -> float:
    """The sag of a glued shelf between two sides [mm], as plates on springs."""
    piece = shelf_on_two_sides(span=span, load_kg=load_kg, glue=GrainRelation.CROSSING)
    return sag_of_books(piece)


def _solid(span: float, load_kg: float) -> float:
    wood = stiffness_of(oak().species)
    assert wood is not None, "white oak has a printed stiffness"
    case = Bookcase(
        span=span, depth=200.0, thickness=19.0, side=19.0, height=300.0, at=200.0, into=6.0,
        along=wood.along, across=wood.across, shear=wood.shear,
    )  # fmt: skip
    return bookcase(case, even_n=load_kg * 9.80665)[0]


def _sag_case(span: float, load_kg: float) -> Case:
    return Case(
        id=f"shelf-{span:g}",
        quantity=f"sag of a shelf glued 6 mm into two sides, {span:g} mm under {load_kg:g} kg",
        place="plane stress, orthotropic, second-order quadrilaterals, glued all round",
        how=How.LIBRARY,
        expected=partial(_solid, span, load_kg),
        unit="mm",
        tolerance=0.15 * _solid(span, load_kg),
        reason="15 %: springs for the wood round its housings",
        compute=partial(_case, span, load_kg),
    )


CASES = from_source(
    Source(title="scikit-fem 12 (solid finite elements)", found="PyPI, scikit-fem"),
    _stress_case("16 mm tall and 8 of 24 mm deep", _PUSHED, 0.04),
    _stress_case("16 mm tall and 12 of 24 mm deep", _DEEP, 0.06),
    _sag_case(600.0, 15.0),
    _sag_case(900.0, 25.0),
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
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
