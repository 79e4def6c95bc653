"""The standing plan as a picture of its own: to scale, and with the distances that it states."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from exporters.page.svg_plan import svg_of_plan
from exporters.report.plan import plan_of_piece
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.reading import shown_by
from furniture.solids.measure import weigh
from tests.models import piece_of

SVG = "{http://www.w3.org/2000/svg}"


def test_it_is_to_scale_and_tells_how_far_the_middle_is_from_each_edge() -> None:
    """Outline and centre are read off the drawing; both are worked out again from the masses."""
    piece = piece_of("seedling_steps")
    weighed = weigh(piece)
    plan = plan_of_piece(piece, weighed, Setting())
    assert plan is not None
    root = ElementTree.fromstring(svg_of_plan(plan, shown_by(piece), "the steps from above"))
    assert root.get("aria-label") == "the steps from above"

    paths = list(root.iter(f"{SVG}path"))
    heaviest = max(paths, key=lambda each: float(each.get("stroke-width", "0")))
    across, up = _points(heaviest.get("d", ""))
    feet = list(zip(*weighed.floor, strict=True))
    sides = [max(each) - min(each) for each in feet]
    scale = (max(across) - min(across)) / sides[0]
    assert (max(up) - min(up)) / sides[1] == pytest.approx(scale, rel=1e-3)

    centre = weighed.whole.centre_mm
    told = {each.text for each in root.iter(f"{SVG}text")}
    for axis in (0, 1):
        for gap in (centre[axis] - min(feet[axis]), max(feet[axis]) - centre[axis]):
            assert shown_by(piece)(gap) in told
    # the quartered circle's white ground is filled before its rim is drawn; front is below
    discs = [_points(each.get("d", "")) for each in paths if each.get("fill") == "#ffffff"]
    middles = [(sum(x) / len(x), sum(y) / len(y)) for x, y in discs]
    wanted = (
        min(across) + (centre[0] - min(feet[0])) * scale,
        max(up) - (centre[1] - min(feet[1])) * scale,
    )
    assert any(each == pytest.approx(wanted, abs=0.6) for each in middles)


def _points(path: str) -> tuple[list[float], list[float]]:
    numbers = [float(each) for each in re.findall(r"-?\d+(?:\.\d+)?", path)]
    return numbers[::2], numbers[1::2]
