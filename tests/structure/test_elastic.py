"""A piece as plates on springs, against beams worked by hand and a solid of finite elements."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.joints.joint import GrainRelation
from furniture.structure import frame_of, masses_by_cuts
from furniture.structure.bending import sag_of, uses_of
from furniture.structure.elastic import bent_under, elastic_of, without_glue
from furniture.structure.plate import stiffness_of
from furniture.structure.rigid import Push
from tests.structure.bench import oak, shelf_on_two_sides, standing_fast, the_books
from tests.structure.solid import Bookcase, solved

G = 9.80665


@pytest.mark.parametrize(("span", "load_kg"), [(600.0, 15.0), (900.0, 25.0)])
def test_a_dry_shelf_sags_as_a_beam_on_its_ends(span, load_kg):
    """5 W L^3 / 384 E I between the middles of its bearings, 3 mm inside either side."""
    piece = shelf_on_two_sides(span=span, load_kg=load_kg)
    frame, books = the_books(piece)
    [bent] = bent_under(elastic_of(piece, frame.floor, piece.joinings), [books])
    wood = stiffness_of(oak().species)
    second = 200.0 * 19.0**3 / 12.0
    by_hand = 5.0 * load_kg * G * span**3 / (384.0 * wood.along * second)
    assert sag_of(piece, bent, "shelf").fall_mm == pytest.approx(by_hand, rel=0.04)


def test_a_dry_shelf_is_stressed_as_a_beam_on_its_ends():
    """W L / 8 over b t^2 / 6 in its middle."""
    piece = shelf_on_two_sides()
    frame, books = the_books(piece)
    [bent] = bent_under(elastic_of(piece, frame.floor, piece.joinings), [books])
    by_hand = 15.0 * G * 600.0 / 8.0 / (200.0 * 19.0**2 / 6.0)
    assert sag_of(piece, bent, "shelf").along_mpa == pytest.approx(by_hand, rel=0.10)


def case_of(span):
    wood = stiffness_of(oak().species)
    return Bookcase(
        span=span, depth=200.0, thickness=19.0, side=19.0, height=300.0, at=200.0, into=6.0,
        along=wood.along, across=wood.across, shear=wood.shear,
    )  # fmt: skip


def test_a_glued_case_sways_as_the_solid_does_to_a_third():
    """Sideways the housings' own turning counts most; springs are softer than wood all round."""
    piece = shelf_on_two_sides(glue=GrainRelation.CROSSING)
    frame = frame_of(piece, masses_by_cuts(piece))
    push = Push(body=0, at=(9.5, 100.0, 300.0), force_n=(50.0, 0.0, 0.0))
    [bent] = bent_under(elastic_of(piece, standing_fast(frame), piece.joinings), [[push]])
    _, sway = solved(case_of(600.0), push_n=50.0)
    assert bent.moved(0, (9.5, 100.0, 300.0), (1.0, 0.0, 0.0)) == pytest.approx(sway, rel=0.35)


def test_forces_on_the_floor_add_up_to_what_stands_on_it():
    piece = shelf_on_two_sides(glue=GrainRelation.CROSSING)
    frame, books = the_books(piece)
    elastic = elastic_of(piece, frame.floor, piece.joinings)
    [bent] = bent_under(elastic, [books])
    upward = sum(
        force * spring.direction[2]
        for spring, force in zip(elastic.springs, bent.forces, strict=True)
        if spring.joining is None
    )
    assert upward == pytest.approx(15.0 * G, rel=1e-3)


def test_with_its_glue_gone_the_shelf_sags_as_if_never_glued():
    glued = shelf_on_two_sides(glue=GrainRelation.CROSSING)
    dry = replace(glued, joinings=tuple(without_glue(each) for each in glued.joinings))
    frame, books = the_books(glued)
    tight, loose = (
        bent_under(elastic_of(glued, frame.floor, each.joinings), [books])[0]
        for each in (glued, dry)
    )
    assert sag_of(glued, tight, "shelf").fall_mm < 0.7 * sag_of(dry, loose, "shelf").fall_mm
    assert uses_of(loose) == ()
    assert uses_of(tight)[0].share > 0.1
