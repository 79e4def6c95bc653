"""Every kind of cut on random blanks: the closed form against the kernel, and laws of turning."""

from __future__ import annotations

import json
import math
from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    ALL_CUTS,
    Cut,
    FlatMitre,
    KeySlot,
    Mitre,
    SplineGroove,
    problems_of,
    record_of,
)
from furniture.parts.faces import WIDE_FACES
from furniture.parts.part import Part, turned, turned_placement, work_key
from furniture.parts.placement import Placement
from furniture.solids.make import placed_solid, solid_of
from furniture.units import millimetres
from tests.exporters.rebuild import centre_of, rebuilt_parts
from tests.fresh import law
from tests.joints.proofs import common_volume, timber
from tests.parts.cut_cases import CUTS, blank_and_cut

MANY = law(few=12, full=200)
FEW = law(few=4, full=60)


def test_every_kind_of_cut_is_tried() -> None:
    assert set(CUTS) == set(ALL_CUTS)


def part_of(blank: Blank, *cuts: Cut) -> Part:
    return Part(name="part", blank=blank, timber=timber(20.0), cuts=cuts)


def mitre_of(cut: Cut) -> tuple[Cut, ...]:
    """The mitre that a spline's groove or a key's slot belongs to; none for other cuts."""
    if not isinstance(cut, SplineGroove | KeySlot):
        return ()
    end, angle = cut.end, cut.mitre_angle_deg
    if cut.long_point in WIDE_FACES:
        return (Mitre(end=end, blade_tilt_deg=angle, long_point_face=cut.long_point),)
    return (FlatMitre(end=end, gauge_angle_deg=angle, long_point_edge=cut.long_point),)


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_the_closed_form_is_what_the_kernel_takes(kind: type[Cut]) -> None:
    @MANY
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        assert not cut.misfits(blank)
        solid = solid_of(part_of(blank, cut))
        assert solid.isValid()
        taken = blank.volume_mm3 - solid.Volume()
        assert taken == pytest.approx(cut.removed_alone_mm3(blank), rel=1e-7, abs=1e-3)

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_another_kernel_makes_the_same_wood_from_the_record_alone(kind: type[Cut]) -> None:
    """manifold3d, from the figures of piece.json: its circles have 720 sides, hence 2e-5.

    A spline's groove and a key's slot stand in a mitre, which is cut with them.
    """

    @MANY
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        length, width, thickness = blank.size
        cuts = (*mitre_of(cut), cut)
        rebuilt = rebuilt_parts(
            {
                "parts": [
                    {
                        "id": "part",
                        "length_mm": length,
                        "width_mm": width,
                        "thickness_mm": thickness,
                        "cuts": [record_of(each) for each in cuts],
                    }
                ]
            }
        )["part"]
        solid = solid_of(part_of(blank, *cuts))
        taken = blank.volume_mm3 - solid.Volume()
        assert blank.volume_mm3 - rebuilt.volume() == pytest.approx(taken, rel=1e-4, abs=0.01)
        centre = solid.Center()
        assert centre_of(rebuilt) == pytest.approx((centre.x, centre.y, centre.z), abs=1e-3)

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_a_part_described_after_half_a_turn_is_the_same_wood(kind: type[Cut], axis: int) -> None:
    """The turned description in the turned frame fills the very same space."""

    @FEW
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        part = part_of(*drawn)
        here = Placement(origin=(0.0, 0.0, 0.0), x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 1.0, 0.0))
        other = turned(part, axis)
        there = turned_placement(here, axis, part.blank)
        first, second = placed_solid(part, here), placed_solid(other, there)
        assert common_volume(first, second) == pytest.approx(first.Volume(), rel=1e-6)
        assert work_key(turned(other, axis)) == work_key(part)

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_a_cut_is_plain_data_with_units_in_its_keys(kind: type[Cut]) -> None:
    @FEW
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        record = record_of(drawn[1])
        assert json.loads(json.dumps(record, allow_nan=False)) == record
        numbers = [key for key, value in record.items() if isinstance(value, float)]
        assert all(key.endswith(("_mm", "_deg")) for key in numbers)

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_a_number_that_is_none_is_named(kind: type[Cut]) -> None:
    """Not-a-number in any length or angle of any cut is a problem with that name."""

    @FEW
    @given(blank_and_cut(kind), st.data())
    def holds(drawn: tuple[Blank, Cut], data: st.DataObject) -> None:
        blank, cut = drawn
        numbers = [
            field.name for field in fields(cut) if isinstance(getattr(cut, field.name), float)
        ]
        name = data.draw(st.sampled_from(numbers))
        if name == "countersink_diameter_mm" and cut.countersink_diameter_mm == 0.0:  # type: ignore[attr-defined]
            return
        problems = problems_of(replace(cut, **{name: math.nan}), blank, "part", millimetres())
        plain = name.removesuffix("_mm").removesuffix("_deg")
        assert any(each.parameter.endswith(plain) for each in problems)

    holds()


TOLD_BY_ANOTHER_CUT = {"mitre_angle_deg", "inset_mm"}
"""The mitre that a groove or a slot stands in, and the notch that sets a tongue back."""


def _told(cut: Cut, blank: Blank) -> tuple[object, ...]:
    said = cut.figures(blank)
    struck = [each.value_mm(blank) for each in (*said.struck, *said.stops)]
    return (said.sizes, said.more, said.place, struck)


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_every_number_that_shapes_a_cut_is_among_its_figures(kind: type[Cut]) -> None:
    """Another number that makes another tool is told as something else."""

    @MANY
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        for field in fields(cut):
            value = getattr(cut, field.name)
            if isinstance(value, float) and field.name not in TOLD_BY_ANOTHER_CUT:
                other = replace(cut, **{field.name: value + 0.125})
                if other.tools(blank) != cut.tools(blank):
                    assert _told(other, blank) != _told(cut, blank), field.name

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
def test_figures_fill_their_words_and_are_struck_where_they_can_be_seen(kind: type[Cut]) -> None:
    @MANY
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        figures = cut.figures(blank)
        for said in (*figures.sizes, *figures.more, figures.place):
            assert said.what.value.count("{}") == len(said.figures), said
        struck_at = (*figures.struck, *figures.stops)
        for point in (figures.at, *(each.point for each in struck_at)):
            inside = zip(point, blank.size, strict=True)
            assert all(-1e-9 <= value <= size + 1e-9 for value, size in inside)
        for struck in struck_at:
            assert struck.axis != (0 if struck.seen is None else struck.seen.axis)
        assert figures.shoulder in (None, *figures.struck)

    holds()


@pytest.mark.parametrize("kind", ALL_CUTS, ids=lambda kind: str(kind.kind))
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_a_cut_is_as_large_after_half_a_turn(kind: type[Cut], axis: int) -> None:
    @FEW
    @given(blank_and_cut(kind))
    def holds(drawn: tuple[Blank, Cut]) -> None:
        blank, cut = drawn
        turned_cut = cut.turned_about(axis, blank)
        assert turned_cut.figures(blank).sizes == cut.figures(blank).sizes

    holds()
