"""The mitred corner."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from furniture import Key, MitredBox, ShopRules, Spline, Stock
from furniture.assembly.findings import fit_findings
from furniture.checks.advice import Change, Remedy
from furniture.checks.finding import Verdict
from furniture.checks.mitre import (
    CornerRule,
    Mitre,
    across_moment_nmm,
    key_across_mitre,
    mitre_area_mm2,
    mitre_face_mm,
    mitre_finding,
    mitre_moment_nmm,
    spline_across_mitre,
)
from furniture.checks.of_piece import read_setting
from furniture.timber.species import find_species
from tests.checks.cases import millimetres, remedy_of
from tests.checks.of_piece_cases import found, named

JUDGED = read_setting(None, ShopRules(table_top_mass="0.1 kg"))
"""A shop that judges small boxes as it judges large ones."""
CORNER = Mitre(
    name="front left",
    species=find_species("cherry"),
    height_mm=100.0,
    thickness_mm=18.0,
    rail_length_mm=300.0,
)


def test_area_worked_by_hand() -> None:
    # 18 mm stock: face 25.456 mm; a rail 100 high has 2545.6 mm2.
    assert mitre_face_mm(18.0) == pytest.approx(25.456, abs=0.001)
    assert mitre_area_mm2(CORNER) == pytest.approx(2545.6, abs=0.05)
    # A key 20 deep: two triangles of 200 mm2, 6.667 mm inside the corner.
    key = key_across_mitre(18.0, 20.0)
    assert key.area_mm2 == 400.0
    assert key.arm_mm == pytest.approx(25.456 - 6.667, abs=0.001)
    # A spline 4 thick from 12 down: its middle 14 down is nearer to the inside, 11.456 from it.
    spline = spline_across_mitre(18.0, 600.0, 12.0, 16.0)
    assert spline.arm_mm == pytest.approx(11.456, abs=0.001)


def test_capacity_worked_by_hand() -> None:
    # Hankinson at 45 deg: 2 x 85 x 3.9/88.9 = 7.4578; over 4, a quarter: 0.46611 MPa;
    # S = 100 x 25.456^2/6 = 10,800 mm3; so 5034 N mm, and 8 M/L = 134.2 N.
    assert mitre_moment_nmm(CORNER) == pytest.approx(5034.0, abs=1.0)
    finding = mitre_finding(CORNER, millimetres)
    assert finding.value == pytest.approx(134.2, abs=0.1)
    assert finding.verdict is Verdict.OK
    assert "estimate" in finding.basis


def test_keys_add_and_deeper_keys_add_more() -> None:
    one, deeper = (key_across_mitre(18.0, depth) for depth in (15.0, 20.0))
    cherry = CORNER.species
    assert across_moment_nmm(cherry, deeper) > across_moment_nmm(cherry, one) > 0.0
    bare, three = (
        mitre_finding(replace(CORNER, across=(one,) * count), millimetres) for count in (0, 3)
    )
    gained = 8.0 * 3 * across_moment_nmm(cherry, one) / CORNER.rail_length_mm
    assert three.value == pytest.approx(bare.value + gained)


def test_keys_and_a_spline_as_advised_are_enough() -> None:
    low = replace(CORNER, height_mm=60.0, clear_mm=(0.0, 60.0))
    finding = mitre_finding(low, millimetres)
    assert finding.verdict is Verdict.CAUTION
    for change in (Change.SPLINES, Change.KEYS):
        remedy = remedy_of(finding, change)
        figures = {
            name: float(value.removesuffix(" mm")) for name, value in _told(remedy)[0].items()
        }
        if change is Change.KEYS:
            across = (key_across_mitre(18.0, figures["depth"]),) * int(remedy.amount)
        else:
            area = 2.0 * figures["width"] * figures["into_each"]
            down = figures["from_long_point"]
            across = (spline_across_mitre(18.0, area, down, down + 4.5),)
            assert figures["start"] + figures["width"] <= 60.0
        stronger = mitre_finding(replace(low, across=across), millimetres)
        assert stronger.verdict is Verdict.OK


@pytest.mark.parametrize(
    ("judged", "share", "verdict"),
    [
        (CornerRule.JUDGED, 0.99, Verdict.CAUTION),
        (CornerRule.JUDGED, 1.01, Verdict.OK),
        (CornerRule.MILD, 0.41, Verdict.NOTE),
        (CornerRule.MILD, 0.39, Verdict.CAUTION),
        (CornerRule.NOTED, 0.01, Verdict.NOTE),
    ],
)
def test_short_boxes_on_a_table_are_judged_mildly(
    judged: CornerRule, share: float, verdict: Verdict
) -> None:
    """The bare corner's push is made a share of the 100 N that a hand pushes with."""
    bare = mitre_finding(CORNER, millimetres)
    assert bare.value is not None
    corner = replace(CORNER, rail_length_mm=CORNER.rail_length_mm * bare.value / (100.0 * share))
    assert mitre_finding(corner, millimetres, judged).verdict is verdict


def test_what_the_corner_has_no_room_for_is_not_advised() -> None:
    long = replace(CORNER, height_mm=20.0, rail_length_mm=3000.0, clear_mm=(0.0, 20.0))
    for corner in (long, replace(CORNER, height_mm=40.0)):
        finding = mitre_finding(corner, millimetres)
        assert finding.verdict is Verdict.CAUTION
        assert finding.remedies == ()
        assert "block" in finding.advice


def _pencil_box() -> MitredBox:
    sides, panels = (
        Stock(name=name, species="walnut", thickness=thickness, moisture="8 %")
        for name, thickness in (("sides", "11.5 mm"), ("panels", "6.2 mm"))
    )
    return MitredBox(
        name="Pencil box", rails=sides, lid=panels, bottom=panels, width="240 mm", depth="120 mm",
        height="80 mm", rabbet_width="5.25 mm",
    )  # fmt: skip


def _tea_box() -> MitredBox:
    from models.tea_box import box

    return box


_LENGTH = r"([\d./]+(?: [\d./]+)? (?:mm|in))"
_CORNERS = tuple(
    (end, side)
    for end in ("front rail", "back rail")
    for side in ("left side rail", "right side rail")
)


_FIGURES = {
    "into_each": f"{_LENGTH} into each side",
    "from_long_point": f"{_LENGTH} from the long point",
    "start": f"from {_LENGTH} (?:up|and)",
    "width": f"{_LENGTH} wide",
    "depth": f"{_LENGTH} deep",
}


def _told(remedy: Remedy) -> tuple[dict[str, str], list[str]]:
    """The figures in the words by what they are of, and where each part begins."""
    found = {name: re.search(words, remedy.words) for name, words in _FIGURES.items()}
    figures = {name: each[1] for name, each in found.items() if each}
    return figures, re.findall(_LENGTH, remedy.words.split("from ")[-1])


def _parts_as_printed(remedy: Remedy) -> list[Spline | Key]:
    """The corner parts of all four corners, by the figures in the words alone."""
    figures, starts = _told(remedy)
    told = re.search(rf"(?:spline|keys?) {_LENGTH} thick", remedy.words)
    assert told
    stock = Stock(name="loose", species="hard maple", thickness=told[1], moisture="8 %")
    if remedy.change is Change.SPLINES:
        return [
            Spline(name=f"spline {number}", stock=stock, between=corner, **figures)
            for number, corner in enumerate(_CORNERS)
        ]
    return [
        Key(name=f"key {number} {start}", stock=stock, between=corner, start=start,
            depth=figures["depth"])
        for number, corner in enumerate(_CORNERS)
        for start in starts
    ]  # fmt: skip


@pytest.mark.parametrize("design", [_pencil_box, _tea_box])
def test_corner_parts_as_printed_build_and_hold(design) -> None:
    box = design()
    told = named(found(box), "glue of a mitred corner")
    assert told.verdict is Verdict.NOTE  # a short box on a table lasts without
    corner = named(found(box, JUDGED), "glue of a mitred corner")
    assert corner.verdict is Verdict.CAUTION
    assert corner.remedies
    for remedy in corner.remedies:
        assert remedy.words in corner.advice
        piece = replace(box, corner_parts=_parts_as_printed(remedy)).build()
        after = named(found(piece, JUDGED), "glue of a mitred corner")
        assert after.verdict is Verdict.OK, remedy.words
        assert not [each for each in fit_findings(piece) if each.verdict is Verdict.FAIL]


def test_a_wood_without_strength_has_no_value() -> None:
    bare = replace(CORNER, species=replace(CORNER.species, mor_mpa=None))
    finding = mitre_finding(bare, millimetres)
    assert finding.value is None
    assert finding.verdict is Verdict.CAUTION
    with pytest.raises(ValueError, match="no strength"):
        mitre_moment_nmm(bare)
