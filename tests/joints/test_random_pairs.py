"""Every joint over random valid pairs, turned every way: laws that hold for any pair.

Solids are valid; volumes are the blank's less the cuts, by hand; nothing overlaps; the stated
faces are those that touch on the solids; the play is really there; the stated ways in are free.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.parts.cuts import Cut, record_of
from tests.fresh import law
from tests.joints.cases import CASES
from tests.joints.pairs import Case, turned_anywhere
from tests.joints.proofs import (
    OVERLAP_MM3,
    common_volume,
    pair,
    prove,
    solid_named,
    volume_of,
)

SETTINGS = law(few=6, full=80)
VOLUME_SHARE = 1e-9
"""The kernel's volumes of plane and round faces are exact to rounding."""


@pytest.mark.some(few=8)
@pytest.mark.parametrize("kind", CASES)
def test_any_valid_pair_fits_and_goes_together(kind: str) -> None:
    @SETTINGS
    @given(turned_anywhere(CASES[kind]()))
    def holds(case: Case) -> None:
        piece = pair(case.joint, case.into, case.incoming)
        for placed, left in ((case.into, case.into_left), (case.incoming, case.incoming_left)):
            solid = solid_named(piece, placed.instance)
            assert solid.isValid()
            assert len(solid.Shells()) == 1
            assert volume_of(piece, placed.instance) == pytest.approx(left, rel=VOLUME_SHARE)
        prove(piece)
        _has_its_play(case)

    holds()


def _has_its_play(case: Case) -> None:
    """The incoming part can move by its clearance and no further."""
    if case.towards_clearance is None:
        return
    piece = pair(case.joint, case.into, case.incoming)
    still = solid_named(piece, case.into.instance)
    moving = solid_named(piece, case.incoming.instance)

    def shared_after(step: float) -> float:
        x, y, z = case.towards_clearance or (0.0, 0.0, 0.0)
        return common_volume(still, moving.translate((x * step, y * step, z * step)))

    assert piece.joinings[0].clearance_mm == pytest.approx(case.clearance, abs=1e-9)
    assert shared_after(case.clearance) < OVERLAP_MM3
    assert shared_after(case.clearance + 0.05) > OVERLAP_MM3


@law(few=12, full=300)
@given(st.data(), st.sampled_from(sorted(CASES)))
def test_a_joint_reads_only_how_its_parts_stand_to_each_other(
    data: st.DataObject, kind: str
) -> None:
    """Working the turned pair gives the very cuts that the unturned pair gives."""
    case = data.draw(CASES[kind]())
    turned = data.draw(turned_anywhere(st.just(case)))
    before = case.joint.work(case.into, case.incoming)
    after = turned.joint.work(turned.into, turned.incoming)
    for first, second in (
        (before.into_cuts, after.into_cuts),
        (before.incoming_cuts, after.incoming_cuts),
    ):
        assert [_figures(cut) for cut in first] == [_figures(cut) for cut in second]
    assert [(face.glue, pytest.approx(face.area_mm2)) for face in before.joining.faces] == [
        (face.glue, face.area_mm2) for face in after.joining.faces
    ]
    assert not before.problems
    assert not after.problems


def _figures(cut: Cut) -> dict[str, object]:
    """A cut's figures to a millionth of a millimetre."""
    record = record_of(cut)
    return {
        key: round(value, 6) + 0.0 if isinstance(value, float) else value
        for key, value in record.items()
    }
