"""What glued faces bear, by hand from what is printed, and what hangs on wood that is not known."""

from __future__ import annotations

import pytest

from furniture.checks.check import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.joints import LEVER
from furniture.checks.rows.structure import NOT_CHECKED
from furniture.joints.joint import GrainRelation
from furniture.rules.strengths import SHOP_SHARE
from furniture.solids.measure import weigh
from furniture.structure import frame_of, masses_by_cuts
from furniture.structure.capacity import Carries, glue_strength
from furniture.structure.frame import without_unknown
from furniture.timber.species import Kind, find_species, species_names
from tests.hazards.making import board, load, mitred, panel, piece, rabbet


def test_the_layers_of_a_sheet_are_what_its_glue_tears() -> None:
    """Plywood's own layers cross: 1.72 / 3 x 1/2 both ways, where oak's crossing grain bears
    13.8 / 4 / 3 x 1/2 = 0.575 and is not the weaker."""
    ply, oak = find_species("birch plywood 6.5 mm"), find_species("white oak")
    for grain in (GrainRelation.LONG_TO_LONG, GrainRelation.CROSSING):
        found = glue_strength(grain, ply, oak)
        assert found.shear_mpa == pytest.approx(1.72 / 3.0 * SHOP_SHARE.value)
        assert found.peel_mpa == pytest.approx(1.72 / 3.0 * SHOP_SHARE.value)


def test_sheets_are_weak_through_their_layers() -> None:
    """Layers part long before the sheet breaks: at most a fifth of what it bears in bending."""
    sheets = [find_species(name) for name in species_names()]
    known = [each for each in sheets if each.kind is Kind.SHEET and each.shear_mpa is not None]
    assert len(known) > 15
    for each in known:
        assert each.mor_mpa is not None, each.name
        assert each.strength_across_mpa is not None, each.name
        assert each.shear_mpa < 0.2 * min(each.mor_mpa, each.strength_across_mpa), each.name


def _of_unknown(*, in_grooves: bool):
    """A mitred box of oak with a glued bottom of a sheet whose strength is not known."""
    boards, joints = mitred("white oak", 300, 200, 80, 12)
    if in_grooves:
        low, more = panel("bottom", "hardboard", (300, 200), 12, 6, 10, 3)
    else:
        low = [board("bottom", "hardboard", (6, 6, 0), (288, 188, 3))]
        more = rabbet("bottom", "front", "back", "left end", "right end", glued=True)
    return piece([*boards, *low], joints + more, load("bottom", 1.0, (200, 120), 40)).build()


def test_glue_on_what_is_not_known_is_left_out_where_asked() -> None:
    built = _of_unknown(in_grooves=False)
    frame = frame_of(built, masses_by_cuts(built))
    bottom = frame.body("bottom")
    left = without_unknown(frame).links
    gone = set(frame.links) - set(left)
    assert gone
    assert all(bottom in (each.first, each.second) for each in gone)
    assert {each.carries for each in left if bottom in (each.first, each.second)} == {Carries.PUSH}


def test_a_bottom_in_grooves_needs_no_glue_and_one_in_rabbets_does() -> None:
    """Grooves hold it whatever it is made of; in rabbets from below its glue holds all of it."""
    assert find_species("hardboard").shear_mpa is None
    for in_grooves in (True, False):
        built = _of_unknown(in_grooves=in_grooves)
        findings = findings_of(built, weigh(built))
        told = [each for each in findings if each.check == NOT_CHECKED]
        assert bool(told) is not in_grooves
        levers = [each for each in findings if each.check == LEVER]
        assert all(each.verdict is not Verdict.CAUTION for each in levers)
