"""Tiers on a line, and what is noted of a stand's proportion."""

from __future__ import annotations

import re

import pytest

from furniture import Load, LoadKind, Tier, TierLine, TierRule, inches
from furniture.checks.check import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.shelves import SPARE_DEPTH, STEPS_ALIKE
from furniture.parts.placement import box_of
from furniture.pieces import placed_named
from furniture.solids.make import volume_of
from furniture.solids.measure import weigh
from tests.builders.bench import a_stand, by_uprights, part, problems_of

LINE = {"count": 3, "top_width": "150 mm", "top_depth": "66 mm", "rise": "120 mm"}


def box(piece, name):
    placed = placed_named(piece, name)
    return box_of(placed.part.blank, placed.placement)


def told(design, check):
    piece = design.build()
    found = [each for each in findings_of(piece, weigh(piece)) if each.check == check]
    assert len(found) <= 1
    return found[0] if found else None


class TestOnALine:
    """The bench's stand is 300 wide and 200 deep, its post's face 180 from the front, 20 thick."""

    def test_edges_and_ends_by_hand(self):
        """A third of the way a third of the way in: ends 25, 50, 75; fronts 38, 76, 114."""
        piece = a_stand(tiers=TierLine(**LINE)).build()
        found = [box(piece, f"tier {n}")[0][:2] for n in (1, 2, 3)]
        assert found == [pytest.approx((25.0 * n, 38.0 * n)) for n in (1, 2, 3)]
        first = part(piece, "tier 1")
        let_in = box(piece, "tier 1")[1][1] - 180.0
        by_hand = 250.0 * (180.0 - 38.0 + let_in) * first.blank.thickness_mm
        assert volume_of(first) == pytest.approx(by_hand)

    @pytest.mark.parametrize("change", ["0 mm", "-12 mm", "9 mm"])
    def test_every_edge_lies_on_the_lines_whatever_the_rises(self, change):
        """By the cross product of what leads from the base and what leads to the top tier."""
        piece = a_stand(tiers=TierLine(**LINE | {"count": 4}, rise_change=change)).build()
        start = (0.0, 0.0, box(piece, "lid")[1][2])
        corners = [
            (*box(piece, f"tier {n}")[0][:2], box(piece, f"tier {n}")[1][2]) for n in (1, 2, 3, 4)
        ]
        across, back, up = (a - b for a, b in zip(corners[-1], start, strict=True))
        for x, y, z in corners:
            assert (z - start[2]) * across == pytest.approx(x * up)
            assert (z - start[2]) * back == pytest.approx(y * up)

    def test_between_uprights_the_fronts_are_on_a_line(self):
        piece = by_uprights(tiers=TierLine(count=3, top_depth="140 mm", rise="120 mm")).build()
        assert [box(piece, f"tier {n}")[0][1] for n in (1, 2, 3)] == pytest.approx([20, 40, 60])

    def test_with_an_overall_height_they_share_the_rise(self):
        line = TierLine(**LINE | {"rise": None})
        piece = a_stand(tiers=line, overall_height="560 mm").build()
        tops = [box(piece, f"tier {n}")[1][2] for n in (1, 2, 3)]
        assert tops[1] - tops[0] == pytest.approx(tops[2] - tops[1])

    @pytest.mark.parametrize(
        ("change", "parameter"),
        [
            ({"top_width": "20 mm"}, "tiers.top_width"),
            ({"top_width": "320 mm"}, "tiers.top_width"),
            ({"top_width": None}, "tiers.top_width"),
            ({"top_depth": "5 mm"}, "tiers.top_depth"),
            ({"top_depth": "240 mm"}, "tiers.top_depth"),
            ({"count": 0}, "tiers.count"),
            ({"rise": "8 mm"}, "tiers.rise"),
        ],
    )
    def test_what_cannot_be_is_refused_and_its_remedy_works(self, change, parameter):
        figures = LINE | change
        (problem,) = problems_of(a_stand(tiers=TierLine(**figures)))
        assert problem.parameter == parameter
        found = re.search(r"'([^']+)'|make it ([\d./ ]+(?:mm)?)", problem.remedy)
        assert found is not None, problem.remedy
        value = found[1] or found[2].strip()
        name = parameter.removeprefix("tiers.")
        mended = figures | {name: int(value) if name == "count" else value}
        assert a_stand(tiers=TierLine(**mended)).build().placed


STEPS = {"count": 3, "width": "280 mm", "depth": "140 mm", "rise": "120 mm"}


class TestSteps:
    """Both views step, or none does; else it is noted, with figures that end the note."""

    @pytest.mark.some(few=2)
    @pytest.mark.parametrize(
        ("more", "is_noted"),
        [
            ({}, False),
            ({"step_back_width": "40 mm"}, True),
            ({"step_back_depth": "20 mm"}, True),
            ({"step_back_width": "40 mm", "step_back_depth": "20 mm"}, False),
            ({"step_back_width": "40 mm", "step_back_depth": "6 mm"}, False),
            ({"step_back_width": "6 mm"}, False),
        ],
    )
    def test_it_is_noted_where_one_view_alone_steps(self, more, is_noted):
        """By hand: 40 mm in width is 20 at either end; 6 mm is 3, less than is seen."""
        found = told(a_stand(tiers=TierRule(**STEPS | more)), STEPS_ALIKE)
        assert (found is not None) is is_noted
        assert found is None or found.verdict is Verdict.NOTE

    @pytest.mark.parametrize(
        ("more", "figures"),
        [
            ({"step_back_width": "40 mm"}, ["140", "120", "100"]),
            ({"step_back_depth": "20 mm"}, ["280", "240", "200"]),
        ],
    )
    def test_its_figures_bring_both_together(self, more, figures):
        """By hand: as much at the front as at either end."""
        found = told(a_stand(tiers=TierRule(**STEPS | more)), STEPS_ALIKE)
        assert found is not None
        assert re.findall(r"\d+(?= mm|,| and)", found.advice)[:3] == figures
        name = "depth" if " deep, from the lowest up" in found.advice else "width"
        piece = a_stand(tiers=TierRule(**STEPS | more)).build()
        mended = [
            Tier(
                width=f"{figures[n]} mm" if name == "width" else f"{seen.width_mm} mm",
                depth=f"{figures[n]} mm" if name == "depth" else f"{seen.depth_mm} mm",
                rise="120 mm",
            )
            for n, seen in enumerate(piece.intent.proportion.tiers)
        ]
        assert told(a_stand(tiers=mended), STEPS_ALIKE) is None

    def test_a_line_steps_in_both(self):
        assert told(a_stand(tiers=TierLine(**LINE)), STEPS_ALIKE) is None

    def test_between_uprights_nothing_can_step_in_width(self):
        tiers = [Tier(depth="160 mm", rise="120 mm"), Tier(depth="140 mm", rise="120 mm")]
        assert told(by_uprights(tiers=tiers), STEPS_ALIKE) is None

    def test_in_inches_too(self):
        design = a_stand(tiers=TierRule(**STEPS | {"step_back_width": "40 mm"}), shown=inches())
        found = told(design, STEPS_ALIKE)
        assert found is not None
        assert " in" in found.advice
        assert "mm" not in found.advice


def pot(depth, **more):
    return Load(
        on="tier 1", name="pot", mass="1 kg", footprint=("80 mm", depth), centre_height="50 mm",
        **more,
    )  # fmt: skip


@pytest.mark.parametrize(("depth", "is_noted"), [("70 mm", False), ("69 mm", True)])
def test_a_tier_is_noted_from_twice_what_it_needs(depth, is_noted):
    """By hand: 140 is twice 70."""
    found = told(a_stand(tiers=TierRule(**STEPS), loads=[pot(depth)]), SPARE_DEPTH)
    assert (found.verdict is Verdict.NOTE) is is_noted
    if is_noted:
        assert found.advice.startswith("138 mm deep is enough")
        shallow = TierRule(**STEPS | {"depth": "138 mm"})
        assert told(a_stand(tiers=shallow, loads=[pot(depth)]), SPARE_DEPTH).verdict is Verdict.OK


def test_two_rows_or_a_person_need_the_depth():
    rows = [pot("40 mm") for _ in range(4)]  # 320 mm of pots on a tier of 280
    assert told(a_stand(tiers=TierRule(**STEPS), loads=rows), SPARE_DEPTH) is None
    person = pot("40 mm", kind=LoadKind.PERSON_SITTING)
    assert told(a_stand(tiers=TierRule(**STEPS), loads=[person]), SPARE_DEPTH) is None
